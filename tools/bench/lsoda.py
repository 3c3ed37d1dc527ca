#!/usr/bin/python3
"""What SciPy's LSODA needs for the benchmark's hard layer: steps, right-hand sides and errors at each tolerance, as
JSON. The right-hand sides are the engine's, asked of `bench --right-hand-sides` (tools/bench/right_hand_sides.cpp);
LSODA makes its Jacobian of them by differences. Its time would be that of a pipe, and is not told.

Usage: tools/bench/lsoda.py BENCH TOLERANCE..."""

import json
import subprocess
import sys

import numpy
from scipy.integrate import solve_ivp

NUMBERS = 6  # that the program begins with


def take(program, count):
    return numpy.frombuffer(program.stdout.read(8 * count))


def main(bench, tolerances):
    with subprocess.Popen([bench, "--right-hand-sides"], stdin=subprocess.PIPE, stdout=subprocess.PIPE) as program:
        size, until, depth, cutters, worn, hazard = (float(value) for value in take(program, NUMBERS))
        size, depth, cutters, worn, hazard = int(size), int(depth), int(cutters), int(worn), int(hazard)
        start, scale, end = (take(program, size) for _ in range(3))
        asked = 0

        def slope(_, x):
            nonlocal asked
            asked += 1
            program.stdin.write(x.tobytes())
            program.stdin.flush()
            return take(program, size)

        def gained(x):
            return {"drilled": x[depth] - start[depth],
                    "worn": x[worn:worn + cutters].max() - start[worn:worn + cutters].max(),
                    "hazard": x[hazard:hazard + cutters].sum()}

        right, found = gained(end), []
        for tolerance in tolerances:
            asked = 0
            # A relative tolerance far below what counts leaves the engine's scale of errors alone.
            solved = solve_ivp(slope, (0.0, until), start, method="LSODA", rtol=1e-13, atol=tolerance * scale)
            if not solved.success:
                raise RuntimeError(f"LSODA at {tolerance:g}: {solved.message}")
            errors = {name: abs(value / right[name] - 1) for name, value in gained(solved.y[:, -1]).items()}
            found.append({"tolerance": tolerance, "steps": len(solved.t) - 1, "right_hand_sides": asked, **errors})
        program.stdin.close()
    json.dump(found, sys.stdout)


if __name__ == "__main__":
    main(sys.argv[1], [float(word) for word in sys.argv[2:]])
