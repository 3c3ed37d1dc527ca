#!/usr/bin/python3
"""Prints the layers of a result, and where it was hottest, with h5py (Debian: python3-h5py). Usage: with_h5py.py RESULT.h5"""

import sys

import h5py

with h5py.File(sys.argv[1]) as result:
    layers = result["layers"]
    print("hole layer  bottom, m  hottest flat, degC  greatest wear, mm")
    for hole, layer, bottom, hottest, wear in zip(*(layers[name][:] for name in ("hole", "layer", "bottom", "hottest_flat", "greatest_wear_gain"))):
        print("%4d %5d %10.2f %19.1f %18.3f" % (hole, layer, bottom, hottest - 273.15, 1000 * wear))
    flats = result["history/flat_temperature"][:]  # rows in time, cutters
    row, cutter = divmod(flats.argmax(), flats.shape[1])
    print("hottest row of the history: %.1f degC, cutter %d" % (flats[row, cutter] - 273.15, cutter + 1))
