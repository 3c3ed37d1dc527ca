"""What the checks by other programs share: notes of what is not as expected, the checksum, and that every dataset of
a file says what it is in a unit that UDUNITS-2 reads."""

import ctypes
import sys
import zlib

import numpy as np

failures = []


def check(what, found, expected):
    if isinstance(expected, (float, np.ndarray)):
        # The rules are evaluated in another order here: a few roundings apart, no more.
        same = np.shape(found) == np.shape(expected) and np.allclose(found, expected, rtol=1e-12, atol=1e-15)
    else:
        same = found == expected
    if not same:
        failures.append(f"{what}: found {found!r}, expected {expected!r}")


def check_checksum(path):
    """The checksum at the end is the CRC-32 that zlib computes. It comes first: HDF5 may crash over a wrong byte."""
    with open(path, "rb") as file:
        everything = file.read()
    if everything[-16:] != b"\nCRC-32 %08x" % zlib.crc32(everything[:-16]):
        sys.exit(f"{path}: its bytes do not agree with the checksum at its end")


def every_variable(group):
    for name, variable in group.variables.items():
        yield f"{group.path.rstrip('/')}/{name}", variable
    for child in group.groups.values():
        yield from every_variable(child)


def check_labels(file, more_than):
    """Every dataset says what it is, and every unit is one that UDUNITS-2 reads."""
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
    check("enough datasets", count > more_than, True)


def tell_failures():
    if failures:
        print(*failures, sep="\n")
        sys.exit(1)
