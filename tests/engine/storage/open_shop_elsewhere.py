#!/ usr / bin / python3
"""Opens a shop's outlook with netCDF4, xarray, h5dump and UDUNITS-2, none of which knows dullcast, and checks
dimensions, units and some values of sample_shop.hpp. Usage: FILE"""

import ctypes
import subprocess
import sys
import zlib

import netCDF4
import numpy as np
import xarray

path = sys.argv[1]
failures = []


def check(what, found, expected):
    if found != expected:
        failures.append(f"{what}: found {found!r}, expected {expected!r}")


def every_variable(group):
    for name, variable in group.variables.items():
        yield f"{group.path.rstrip('/')}/{name}", variable
    for child in group.groups.values():
        yield from every_variable(child)

#The checksum at the end is the CRC - 32 that zlib computes.It comes first : HDF5 may crash over a wrong byte.
with open(path, "rb") as file:
    everything = file.read()
if everything[-16:] != b"\nCRC-32 %08x" % zlib.crc32(everything[:-16]):
    sys.exit(f"{path}: its bytes do not agree with the checksum at its end")

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
    udunits = ctypes.CDLL("libudunits2.so.0")
    for function in ("ut_read_xml", "ut_parse"):
        getattr(udunits, function).restype = ctypes.c_void_p
    udunits.ut_parse.argtypes = [ctypes.c_void_p, ctypes.c_char_p, ctypes.c_int]
    silent = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.c_char_p, ctypes.c_void_p)(lambda *_: 0)
    udunits.ut_set_error_message_handler(silent)
    system = udunits.ut_read_xml(None)
    count = 0
    for name, variable in every_variable(file):
        count += 1
        if not getattr(variable, "long_name", ""):
            failures.append(f"{name} has no long_name")
        if variable.dtype is str:
            check(f"{name} units", hasattr(variable, "units"), False)
        elif not udunits.ut_parse(system, getattr(variable, "units", "no unit").encode(), 2):
            failures.append(f"{name}: UDUNITS does not read its unit {getattr(variable, 'units', None)!r}")
    check("enough datasets", count > 90, True)

with xarray.open_dataset(path, group="weeks") as data:
    check("weeks", dict(data.sizes), {"week": 26, "spread": 4, "repair_class": 4})
    check("weeks stay seconds", data["begin"].dtype.kind, "f")
with xarray.open_dataset(path, group="bits") as data:
    check("bits as a table", list(data[["name", "design"]].to_dataframe().columns), ["name", "design"])
dumped = subprocess.run(["h5dump", "-d", "/stations/name", path], capture_output=True, text=True)
check("h5dump", "braze in" in dumped.stdout, True)

if failures:
    print(*failures, sep="\n")
    sys.exit(1)
