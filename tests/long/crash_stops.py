"""More mishaps of crash-recovery: a sweep told to stop in the middle of runs that take minutes, a machine with little memory,
a clock that jumps between one night and the next, and a folder that is moved away on the way."""

import os
import pathlib
import resource
import shutil
import signal
import subprocess
import time

import small_sweep
from small_sweep import STOPPED, cases_kept, parts_folder, run

LONGEST_STOP = 2.0  # s from Ctrl-C to the end
LONG_RUN = """title: "Runs that take minutes each"
bit: {like: three_blade_3_3_4}
fluid: water
plan: [{weight_on_bit: 2500 lbf, rotary_speed: 100 rpm, flow: 25 gal/min}]
column: {layers: [{rock: shale, thickness: 2 m}, {rock: sandstone, thickness: 2 m}]}
repeat: {holes: 100000, stop_at: last_hole, connection_every: 0.5 m}
rework: {worn_height: 2 mm}
models: {abrasion_coefficient: 1e-25 m2/N}
"""
LONG_PLAN = """title: long runs
scenario: long.yaml
seed: 1
factors: [{name: weight, path: plan.*.weight_on_bit, multiply: yes, values: [0.7, 0.8, 0.9, 1.0]}]
design: {kind: grid}
"""
FAKE_CLOCK = pathlib.Path("/usr/lib/x86_64-linux-gnu/faketime/libfaketimeMT.so.1")


def told_to_stop(mishaps):
    """However long the runs in hand take, Ctrl-C and SIGTERM end a sweep at once, and it says how to go on."""
    folder = mishaps.place("stopped").parent
    (folder / "long.yaml").write_text(LONG_RUN)
    (folder / "plan.yaml").write_text(LONG_PLAN)
    for k in range(10):
        output, how = folder / f"{k}.h5", signal.SIGINT if k % 2 else signal.SIGTERM
        process = subprocess.Popen([small_sweep.PROGRAM, "sweep", folder / "plan.yaml", "-o", output, "--library",
                                    mishaps.sweep.library, "--threads", "2"], stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                                   text=True)
        # Before it has begun a signal ends the process, or is lost where whoever started this had it ignored.
        while process.poll() is None and not (parts_folder(output) / "began.yaml").exists():
            time.sleep(0.01)
        time.sleep(mishaps.rng.uniform(0.0, 2.0))
        told = time.monotonic()
        process.send_signal(how)
        said, _ = process.communicate()
        took = time.monotonic() - told
        what = f"{how.name} amid long runs"
        mishaps.must(what, process.returncode == STOPPED and "--resume" in said, f"ended with {process.returncode}: {said[-400:]}")
        mishaps.must(what, took < LONGEST_STOP, f"ended {took:.2f} s after it was told")
        mishaps.found.most("longest stop", took)
        mishaps.found.count("stops amid long runs")


def little_memory(mishaps):
    """A limit of the address space, from hardly enough to begin to plenty: the whole file, or a sentence and no file."""
    for megabytes in (40, 60, 80, 100, 120, 150, 200, 300, 500):
        output = mishaps.place("memory")
        size = megabytes << 20
        ran = run(mishaps.sweep.words(output, "--cases-per-part", 2, "--threads", 2),
                  preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (size, size)))
        what = f"{megabytes} MB of address space"
        if ran.returncode == 0:
            mishaps.must(what, not mishaps.sweep.complaint(output), f"ended with 0, but {mishaps.sweep.complaint(output)}")
            mishaps.found.count("sweeps in little memory")
            continue
        said = ran.stdout + ran.stderr
        # Before main the loader itself says what it lacks, with 127.
        mishaps.must(what, ran.returncode in (STOPPED, 127) and said.strip() != "", f"ended with {ran.returncode}: {said[-400:]}")
        mishaps.must(what, not output.exists(), "left a file")
        mishaps.resume(what, output)
        mishaps.found.count("sweeps stopped for want of memory")


def clock_jumps(mishaps):
    """The first night is in one year, the next in another: nothing of a sweep rests on the clock on the wall."""
    if not FAKE_CLOCK.exists():
        subprocess.run([small_sweep.ROOT / "tools" / "install-packages", "faults"])
    if not FAKE_CLOCK.exists():
        return print("no libfaketime: no clock jumps", flush=True)
    for first, then in (("+20y", "-20y"), ("-20y", "+20y"), ("2038-01-19 03:14:06", "1970-01-02 00:00:00")):
        output = mishaps.place("clock")
        at = lambda when: {**os.environ, "LD_PRELOAD": str(FAKE_CLOCK), "FAKETIME": when, "DONT_FAKE_MONOTONIC": "1"}
        mishaps.begin_and_kill(output, 0.5, 2, env=at(first))
        mishaps.resume(f"the clock from {first} to {then}", output, env=at(then))
        mishaps.found.count("jumps of the clock")


def moved_away(mishaps):
    """The parts' folder, and the folder that all of it is in, are moved on the way; put back, the sweep goes on."""
    for whole in (False, True):
        output = mishaps.place("moved")
        process = subprocess.Popen(mishaps.sweep.words(output, "--cases-per-part", "1", "--threads", "1"), stdout=subprocess.PIPE,
                                   stderr=subprocess.STDOUT, text=True)
        while process.poll() is None and not (cases_kept(output, mishaps.sweep.cases) or 0) > 3:
            time.sleep(0.001)
        here = output.parent if whole else parts_folder(output)
        away = here.with_name(here.name + "_elsewhere")
        os.rename(here, away)
        said, _ = process.communicate()
        what = "the folder moved away" if whole else "the parts moved away"
        mishaps.must(what, process.returncode == STOPPED and "moved" in said, f"ended with {process.returncode}: {said[-500:]}")
        mishaps.must(what, not output.exists(), "left a file that is not whole")
        shutil.rmtree(here, ignore_errors=True)
        os.rename(away, here)
        mishaps.resume(what, output)
        mishaps.found.count("folders moved away")


def all_of_them(mishaps):
    told_to_stop(mishaps)
    little_memory(mishaps)
    clock_jumps(mishaps)
    moved_away(mishaps)
