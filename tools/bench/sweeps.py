"""Sweeps end to end, through the program: runs a second, the share of the time outside the engine, bytes a run and peak
memory, by their size, by threads and by MPI ranks."""

import os
import pathlib
import re
import shutil
import statistics
import subprocess
import tempfile
import time

from bench.tables import show

ROOT = pathlib.Path(__file__).resolve().parents[2]
PLAN = """title: measuring
scenario: {scenario}
fixed: {{stepping.relative_tolerance: 0.03}}
factors:
  - {{name: weight, path: plan.*.weight_on_bit, multiply: yes, from: 0.7, to: 1.3}}
  - {{name: speed, path: plan.*.rotary_speed, multiply: yes, from: 0.8, to: 1.2}}
design: {{kind: latin_hypercube, points: {cases}}}
"""
# A few bits that wear down to a standstill take most of the time of such a sweep.
DRAWN = "draws: {values: [{number: abrasion_coefficient}]}\n"


def sweep(command, output):
    """(runs a second, % outside the engine, MB at most in memory, bytes of the file, processors it got)"""
    output.unlink(missing_ok=True)
    environment = os.environ | {"OMPI_ALLOW_RUN_AS_ROOT": "1", "OMPI_ALLOW_RUN_AS_ROOT_CONFIRM": "1"}
    began = time.monotonic()
    with tempfile.TemporaryFile("w+") as said:
        with subprocess.Popen(command, stdout=said, stderr=subprocess.STDOUT, env=environment) as program:
            _, status, used = os.wait4(program.pid, 0)
            clock = time.monotonic() - began
            program.returncode = os.waitstatus_to_exitcode(status)
        said.seek(0)
        words = said.read()
    found = re.search(r"([\d.e+]+) a second on .*?([\d.]+) % of the time outside", words)
    if program.returncode != 0 or not found:
        raise RuntimeError(f"{' '.join(command)}: ended with {program.returncode}: {words.strip()[-500:]}")
    return float(found[1]), float(found[2]), used.ru_maxrss / 1024, output.stat().st_size, (used.ru_utime + used.ru_stime) / clock


def ways_of(with_ranks):
    ways = [("1 thread", [], 1), ("2 threads", [], 2)]
    if with_ranks and shutil.which("mpirun"):
        launch = ["mpirun", "--oversubscribe", "-n"]
        ways += [("1 rank", launch + ["1"], 1), ("2 ranks", launch + ["2"], 1)]
    return ways


def measure_plan(dullcast, folder, text, ways, rounds):
    """{way: medians of what sweep() gives, and the rate over one thread's in the same round}"""
    plan, output = folder / "plan.yaml", folder / "sweep.h5"
    plan.write_text(text, encoding="utf-8")
    seen = {way: [] for way, _, _ in ways}
    for _ in range(rounds):
        for way, launch, threads in ways:
            seen[way].append(sweep(launch + [str(dullcast), "sweep", str(plan), "-o", str(output), "--threads", str(threads)],
                                   output))
    return {way: ([statistics.median(kind) for kind in zip(*seen[way])],
                  statistics.median(own[0] / one[0] for own, one in zip(seen[way], seen["1 thread"]))) for way in seen}


def measure(dullcast, sizes, rounds):
    """The rounds of the first size are several. Ranks are tried at the second. Where others use the machine, more threads get
    no more processors, and runs a second of a processor are what tells whether threads stand in each other's way."""
    rows = []
    with tempfile.TemporaryDirectory() as folder:
        plain = {"scenario": ROOT / "tools" / "bench" / "target.yaml"}
        plans = [(cases, "settings", PLAN.format(cases=cases, **plain), ways_of(place == 1), rounds if place == 0 else 1)
                 for place, cases in enumerate(sizes)]
        plans.insert(1, (sizes[0], "and abrasion drawn", PLAN.format(cases=sizes[0], **plain) + DRAWN, ways_of(False), 1))
        for cases, what, text, ways, times in plans:
            found = measure_plan(dullcast, pathlib.Path(folder), text, ways, times)
            for way, launch, _ in ways:
                (rate, outside, memory, size, got), ratio = found[way]
                # What mpirun itself uses says nothing.
                used = [None, None] if launch else [got, rate / got]
                rows.append([f"{cases}", what, way, rate, ratio, *used, outside, size / cases, None if launch else memory])
    show("sweeps of the target (tolerance 0.03)",
         ["runs", "varied", "by", "runs/s", "over 1 thread", "processors got", "runs/s of one",
          "outside engine %", "bytes/run", "peak MB"], rows)
