#!/usr/bin/python3
"""Opens a result with netCDF4, xarray, h5dump and UDUNITS-2, none of which knows dullcast, and checks dimensions,
units and values against the rules that made_up_run.cpp follows. Usage: FILE CUTTERS ROWS full|empty"""

import subprocess
import sys

import netCDF4
import numpy as np
import xarray

from opened_file import check, check_checksum, check_labels, failures, tell_failures

path, cutters, rows, how = sys.argv[1], int(sys.argv[2]), int(sys.argv[3]), sys.argv[4]
k, i = np.arange(float(rows)), np.arange(float(cutters))
worn_height = 1e-6 * np.outer(k, 1 + i)
flat_temperature = 400 + 0.5 * k[:, None] + 10 * i[None, :]

check_checksum(path)

# netCDF4: dimensions, units, long names, values.
with netCDF4.Dataset(path) as file:
    check("Conventions", file.Conventions, "CF-1.9")
    check("file_type", file.file_type, "dullcast run")
    check("format_version", [int(n) for n in file.format_version], [1, 5])
    check("title", file.title, "A made-up run")
    check("scenario", file.scenario, "title: A made-up run\nholes: 3\n")
    check("root dimensions", list(file.dimensions), ["cutter"])
    check("cutter", list(file["cutter"][:]), list(range(1, cutters + 1)))
    check("groups in order", list(file.groups),
          ["bit", "rework_rules", "outcome", "band", "holes", "layers", "events", "history"])
    history = file["history"]
    check("history order", list(history.variables)[:4], ["time", "rotating_time", "hole", "layer"])
    check("worn_height dimensions", history["worn_height"].dimensions, ("time", "cutter"))
    check("worn_height units", history["worn_height"].units, "m")
    check("flat_temperature units", history["flat_temperature"].units, "K")
    check("rotary_speed units", history["rotary_speed"].units, "revolution s-1")
    check("time", np.asarray(history["time"][:]), 10 * k)
    check("worn_height", np.asarray(history["worn_height"][:]), worn_height)
    check("flat_temperature", np.asarray(history["flat_temperature"][:]), flat_temperature)
    check("water_share", np.asarray(history["water_share"][:]), 1 - 1e-4 * k)
    check("bit_pressure_drop units", history["bit_pressure_drop"].units, "Pa")
    check("chip_hazard", np.asarray(history["chip_hazard"][:]), 1e-3 * k[:, None] + 1e-4 * np.outer(k, i))
    check("film dimensions", history["film"].dimensions, ("time", "cutter"))
    if rows:
        # made_up_run.cpp: row k films every (k % 3 + 1)-th cutter from the last inward, never the first.
        film = [[float(c > 0 and (cutters - 1 - c) % (r % 3 + 1) == 0) for c in range(cutters)] for r in range(rows)]
        check("film", np.asarray(history["film"][:]), np.array(film))
    check("footage", float(file["outcome/footage"][...]), 1234.5)
    check("steps", int(file["outcome/steps"][...]), 5_000_000_000)
    check("ended_by", file["outcome/ended_by"][...], "beyond_repair")
    check("inner grade missing", bool(np.isnan(np.ma.filled(file["outcome/end/inner_dull_grade"][...], np.nan))), True)
    check("end worn_height", np.asarray(file["outcome/end/worn_height"][:]), 0.001 + 0.0001 * i)
    check("end lost", list(file["outcome/end/lost"][:]),
          [int(n > 0 and (cutters - 1 - n) % 4 == 0) for n in range(cutters)])
    check("end chips", list(file["outcome/end/chips"][:]), list(range(cutters)))
    check("end seat_load", np.asarray(file["outcome/end/seat_load"][:]), 0.25 + 0.0625 * i)
    check("end blade_load", float(file["outcome/end/blade_load"][...]), 0.375)
    check("bit starting_table_gone", list(file["bit/starting_table_gone"][:]),
          [int(n > 0 and (cutters - 1 - n) % 2 == 0) for n in range(cutters)])
    check("bit blade_height", float(file["bit/blade_height"][...]), 0.04)
    check("chip_probability rule", float(file["rework_rules/chip_probability"][...]), 0.75)
    check("bit name", file["bit/name"][...], "made-up bit")
    check("body", file["bit"].body, "steel")
    check("blade", list(file["bit/blade"][:]), [n % 4 + 1 for n in range(cutters)])
    check("kind", list(file["bit/kind"][:]), [1] * cutters)
    check("kinds", list(file["bit/kinds/name"][:]), ["usual"])
    check("kinds' grades", file["bit/kinds/grade"].dimensions, ("kind",))
    check("no worn-out rule", bool(np.isnan(file["rework_rules/outer_dull_grade"][...])), True)
    check("worn_height rule", float(file["rework_rules/worn_height"][...]), 0.003)
    check("hottest cutter", int(file["outcome/hottest/cutter"][...]), cutters)
    if how == "full":
        check("hole numbers", list(file["holes/hole"][:]), [1, 2])
        check("hole dimensions", file["holes/depth_reached"].dimensions, ("hole",))
        check("history hole", list(history["hole"][:]), [n // 100 + 1 for n in range(rows)])
        check("rocks", list(file["layers/rock"][:]), ["shale", "sandstone"])
        check("rock dimensions", file["layers/rock"].dimensions, ("passage",))
        check("chip cutters", list(file["layers/greatest_chip_cutter"][:]), [cutters, 1])
        check("time_in_film", np.asarray(file["layers/time_in_film"][:]), np.array([12.5, 0.0]))
        check("event kinds", list(file["events/kind"][:]), ["layer_entered", "table_ruined"])
        check("event cutters", list(file["events/cutter"][:]), [0, 3])
        check("event text", file["events/text"][1], "The table of cutter 3 is ruined at 750 °C.")
        check("rule", list(file["outcome/rules/name"][:]), ["worn_height", "heat_damage"])
        check("due hole", int(file["outcome/rework_due/hole"][...]), 5)
        check("due cutters", list(file["outcome/rework_due/pointed_cutter"][:]), [cutters, 1])
        check("due footage", float(file["outcome/rework_due/footage"][...]), 540.75)
    else:
        check("no milestone", [g for g in file["outcome"].groups], ["end", "rules", "hottest"])
        check("no events", len(file["events"].dimensions["event"]), 0)

    check_labels(file, 160)

# xarray: a group opens as a labelled data set.
with xarray.open_dataset(path, group="history") as data:
    check("xarray sizes", dict(data.sizes), {"time": rows, "cutter": cutters})
    check("xarray time stays seconds", data["time"].dtype.kind, "f")
    check("xarray flat_temperature", data["flat_temperature"].values, flat_temperature)
    check("xarray units", data["torque"].attrs["units"], "N m")
    if rows:
        check("xarray at a time", data["worn_height"].sel(time=10.0 * (rows - 1)).values, worn_height[-1])
with xarray.open_dataset(path, group="holes") as data:
    check("xarray holes", list(data["hole"].values), [1, 2] if how == "full" else [])
with xarray.open_dataset(path) as data:
    check("xarray cutters", list(data["cutter"].values), list(range(1, cutters + 1)))


def h5dump(*arguments):
    done = subprocess.run(["h5dump", *arguments, path], capture_output=True, text=True)
    if done.returncode != 0:
        failures.append(f"h5dump {' '.join(arguments)}: {done.stderr}")
    return done.stdout


check("h5dump footage", "1234.5" in h5dump("-d", "/outcome/footage"), True)
check("h5dump unit", '"revolution s-1"' in h5dump("-a", "/history/rotary_speed/units"), True)
everything = h5dump()
check("h5dump all", everything.count("DATASET \"") > 160, True)
if how == "full" and rows > 2:
    line = h5dump("-d", "/history/weight", "-s", "2", "-c", "1")
    check("h5dump weight", "30002" in line, True)

tell_failures()
print("opened by netCDF4, xarray and h5dump")
