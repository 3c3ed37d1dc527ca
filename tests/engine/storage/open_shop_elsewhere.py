#!/usr/bin/python3
"""Opens a shop's outlook with netCDF4, xarray, h5dump and UDUNITS-2, none of which knows dullcast, and checks
dimensions, units and some values of sample_shop.hpp. Usage: FILE"""

import subprocess
import sys

import netCDF4
import numpy as np
import xarray

from opened_file import check, check_checksum, check_labels, tell_failures

path = sys.argv[1]
check_checksum(path)

with netCDF4.Dataset(path) as file:
    check("file_type", file.file_type, "dullcast shop")
    check("format_version", [int(n) for n in file.format_version], [1, 0])
    check("title", file.title, "A shop in Lower Meadow, spring and summer")
    check("plan", file.plan.splitlines()[0], "title: A shop in Lower Meadow")
    check("spread", list(file["spread"][:]), ["mean", "low", "middle", "high"])
    check("place", list(file["place"][:])[:3], ["ready", "at_rig", "drilling"])
    check("days", file["bits/days"].dimensions, ("bit", "day", "place"))
    check("days sum up", bool(np.allclose(file["bits/days"][:].sum(axis=2), 1.0, rtol=0, atol=1e-12)), True)
    check("work", file["stations/week_work"].dimensions, ("station", "week", "spread"))
    check("arrivals", file["summary/arrivals"].dimensions, ("spread",))
    check("due", file["bits/due"].units, "s")
    check("first bit", file["bits/name"][0], "LM-101")
    check("pulled bit", [int(n) for n in file["early_pulls/of_bit"][:]], [4, 10])
    check("begins", str(netCDF4.num2date(file["summary/begins"][...], file["summary/begins"].units)),
          "2031-03-02 23:00:00")
    check_labels(file, 90)

with xarray.open_dataset(path, group="weeks") as data:
    check("weeks", dict(data.sizes), {"week": 26, "spread": 4, "repair_class": 4})
    check("weeks stay seconds", data["begin"].dtype.kind, "f")
with xarray.open_dataset(path, group="bits") as data:
    check("bits as a table", list(data[["name", "design"]].to_dataframe().columns), ["name", "design"])
dumped = subprocess.run(["h5dump", "-d", "/stations/name", path], capture_output=True, text=True)
check("h5dump", "braze in" in dumped.stdout, True)

tell_failures()
