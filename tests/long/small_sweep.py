"""What the long tests of sweeps share: a small sweep of short runs in a folder of its own, ways to run it, and to tell
whether what comes out is the same to the last byte."""

import math
import os
import pathlib
import re
import shutil
import subprocess
import sys
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = os.environ.get("DULLCAST", str(ROOT / "build" / "dullcast"))
STOPPED = 4  # the program's exit code for a sweep that stopped before its end
LONGEST = 600  # s for one execution of a small sweep, many times what any takes
# A shared runner may be slow, but a run of these takes some hundredths of a second.
SCENARIO = """title: "A short hole with a small bit"
bit: {{like: three_blade_3_3_4}}
fluid: water
plan:
  - {{weight_on_bit: 2500 lbf, rotary_speed: 100 rpm, flow: 25 gal/min}}
column:
  layers:
    - {{rock: shale, thickness: {feet} ft}}
    - {{rock: sandstone, thickness: {feet} ft}}
repeat: {{holes: 1, stop_at: last_hole, connection_time: 0 min}}
rework: {{worn_height: 2 mm}}
stepping: {{relative_tolerance: 1e-2, output_every: 0.2 m}}
"""
# A quarter of the runs asks for a speed that no scenario may have: failures pass through parts and resumes as well.
PLAN = """title: a small sweep
scenario: short.yaml
seed: {seed}
factors:
  - {{name: weight, path: plan.*.weight_on_bit, multiply: yes, from: 0.7, to: 1.3}}
  - {{name: speed, path: plan.*.rotary_speed, values: [80 rpm, 95 rpm, 110 rpm, 7000 rpm]}}
  - {{name: grade, path: bit.grade, values: [standard, premium]}}
design: {{kind: latin_hypercube, points: {points}}}
draws:
  runs: 2
  values: [{{number: abrasion_coefficient}}]
histories: {{cases: [2], every: 20, rows: 5}}
"""


class SmallSweep:
    """Plan, scenario and library in `folder`, and the file that one uninterrupted execution makes of them."""

    def __init__(self, folder, points=60, seed=7, feet=1):
        self.folder = pathlib.Path(folder)
        self.folder.mkdir(parents=True, exist_ok=True)
        self.scenario, self.plan = self.folder / "short.yaml", self.folder / "plan.yaml"
        self.library, self.straight = self.folder / "library", self.folder / "straight.h5"
        self.scenario.write_text(SCENARIO.format(feet=feet))
        self.points, self.seed = points, seed
        shutil.copytree(ROOT / "scenarios" / "library", self.library, dirs_exist_ok=True)
        self.cases = 2 * points
        self.seconds = math.nan

    def run_straight(self):
        # A plan whose very first run cannot be made is refused; which run is first depends on the seed.
        while True:
            self.plan.write_text(PLAN.format(seed=self.seed, points=self.points))
            began = time.monotonic()
            ran = run(self.words(self.straight))
            self.seconds = time.monotonic() - began
            if ran.returncode != 3 or "rotary_speed" not in ran.stderr:
                break
            self.seed += 1
        if ran.returncode != 0:
            sys.exit(f"the uninterrupted sweep ended with {ran.returncode}: {ran.stderr.strip()}")
        self.bytes = self.straight.read_bytes()

    def words(self, output, *more, program=PROGRAM):
        return [str(word) for word in (program, "sweep", self.plan, "-o", output, *more)]

    def complaint(self, output):
        """What is wrong with a finished file; empty when it is the uninterrupted one's equal."""
        output = pathlib.Path(output)
        if not output.exists():
            return f"{output.name} is not there"
        found = output.read_bytes()
        if found == self.bytes:
            return ""
        at = next((k for k, (a, b) in enumerate(zip(found, self.bytes)) if a != b), min(len(found), len(self.bytes)))
        return f"{output.name} differs from the uninterrupted sweep from byte {at} on ({len(found)} and {len(self.bytes)} bytes)"


def run(words, **more):
    return subprocess.run(words, capture_output=True, text=True, errors="replace",
                          timeout=LONGEST, stdin=subprocess.DEVNULL, **more)


def parts_folder(output):
    return pathlib.Path(f"{output}.parts")


def part_files(output):
    return sorted(parts_folder(output).glob("*/part_*.h5"))


def cases_kept(output, cases):
    """Runs in whole parts, or None when the sweep has not begun (or its folder has gone)."""
    try:
        text = (parts_folder(output) / "began.yaml").read_text()
    except OSError:
        return None
    size = int(re.search(r"^cases_per_chunk: (\d+)$", text, re.M)[1])
    numbers = [int(re.search(r"part_(\d+)\.h5$", str(path))[1]) for path in part_files(output)]
    return sum(min(size, cases - (number - 1) * size) for number in numbers)


def cases_kept_before(said):
    """What an execution said of the runs that earlier ones had done; None where it said nothing of runs."""
    found = re.search(r"of \d+ runs done(?:, (\d+) of them by earlier nights)?", said)
    return int(found[1] or 0) if found else None


def mpirun(ranks, temporary):
    """How ranks are started, with everything that Open MPI leaves behind kept in `temporary`, a pathlib.Path."""
    temporary.mkdir(parents=True, exist_ok=True)
    return ["mpirun", "-n", str(ranks), "--oversubscribe", "--mca", "orte_tmpdir_base", str(temporary),
            *(word for part in ("btl_vader", "osc_sm", "osc_rdma")
              for word in ("--mca", f"{part}_backing_directory", str(temporary)))]


def rank_environment():
    # Open MPI refuses to serve root unless told twice.
    return {**os.environ, "OMPI_ALLOW_RUN_AS_ROOT": "1", "OMPI_ALLOW_RUN_AS_ROOT_CONFIRM": "1"}


def has_ranks():
    """Whether mpirun is there and the program was built with MPI."""
    return bool(shutil.which("mpirun")) and "libmpi" in run(["ldd", PROGRAM]).stdout
