#!/usr/bin/python3
"""The same with xarray, which knows the dimensions by their names (Debian: python3-xarray python3-netcdf4).
Usage: with_xarray.py RESULT.h5"""

import sys

import xarray

layers = xarray.open_dataset(sys.argv[1], group="layers", decode_timedelta=False).to_dataframe()
print("hole layer  bottom, m  hottest flat, degC  greatest wear, mm")
for one in layers.itertuples():
    print("%4d %5d %10.2f %19.1f %18.3f" % (one.hole, one.layer, one.bottom, one.hottest_flat - 273.15, 1000 * one.greatest_wear_gain))
flats = xarray.open_dataset(sys.argv[1], group="history", decode_timedelta=False).flat_temperature
hottest = flats.max("time")
print("hottest row of the history: %.1f degC, cutter %d" % (hottest.max() - 273.15, hottest.argmax() + 1))
