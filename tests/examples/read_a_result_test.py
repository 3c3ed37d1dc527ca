#!/usr/bin/python3
"""Runs the examples that read a result, each with another program, on one result: all print the same table, and its figures
are those of the table that dullcast writes for spreadsheets.
Usage: tests/examples/read_a_result_test.py --dullcast PROGRAM [--with-r]"""

import argparse
import csv
import pathlib
import shutil
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
EXAMPLES = ROOT / "tools" / "examples" / "read_a_result"
SCENARIO = ROOT / "scenarios" / "one_shallow_well.yaml"


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--dullcast", required=True)
    parser.add_argument("--with-r", action="store_true")
    chosen = parser.parse_args()
    examples = {"with_h5py.py": ["/usr/bin/python3", "-B"], "with_xarray.py": ["/usr/bin/python3", "-B"],
                "in_octave.m": ["octave-cli", "--norc", "--quiet"]}
    if chosen.with_r:
        examples["in_r.R"] = ["Rscript", "--vanilla"]
    if not shutil.which("octave-cli"):
        print("left out: in_octave.m, for Octave is not installed (tools/install-packages tests)")
        del examples["in_octave.m"]
    faults = 0
    with tempfile.TemporaryDirectory() as folder:
        result, table = folder + "/well.h5", folder + "/well.csv"
        subprocess.run([chosen.dullcast, "run", SCENARIO, "--central-only", "-o", result, "--csv", table, "--set", "repeat.holes=2"],
                       check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        with open(table, encoding="utf-8") as file:
            rows = list(csv.DictReader(file))
        wanted = ["%4d %5d %10.2f %19.1f %18.3f" % (int(row["hole"]), int(row["layer"]), float(row["bottom_m"]),
                                                    float(row["hottest_flat_K"]) - 273.15, 1000 * float(row["greatest_wear_gain_m"])) for row in rows]
        hottest = None
        for name, program in examples.items():
            said = subprocess.run([*program, EXAMPLES / name, result], capture_output=True, text=True, check=False)
            lines = said.stdout.splitlines()
            hottest = hottest or lines[-1:]
            good = said.returncode == 0 and lines[1:-1] == wanted and lines[-1:] == hottest and len(wanted) == 6
            print(f"{'read' if good else 'FAULT'}: {name}")
            if not good:
                faults += 1
                print(said.stdout + said.stderr + "wanted:\n" + "\n".join(wanted))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
