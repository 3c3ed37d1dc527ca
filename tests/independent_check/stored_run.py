"""A dullcast result opened with netCDF4 and its scenario, read without any code of dullcast's own."""

import re
import zlib

import netCDF4
import numpy as np

_TOKEN = re.compile(r'\s*("(?:[^"\\]|\\.)*"|[{}\[\],]|:(?=\s|$)|(?:[^\s{}\[\],":]|:(?!\s|$))(?:[^{}\[\],":]|:(?!\s|$))*)')


def _scalar(token):
    """A number in SI whatever its unit's word ("0.3 m", 0.3), else the text itself."""
    text = token.strip().strip('"')
    try:
        return float(text.split(" ")[0])
    except ValueError:
        return text


def _flow(text):
    """Value of one line: a scalar, {...} or [...]."""
    tokens = _TOKEN.findall(text)

    def value(at):
        if tokens[at] == "{":
            found, at = {}, at + 1
            while tokens[at] != "}":
                found[tokens[at].strip().strip('"')], at = value(at + 2)
                at += tokens[at] == ","
            return found, at + 1
        if tokens[at] == "[":
            found, at = [], at + 1
            while tokens[at] != "]":
                item, at = value(at)
                found.append(item)
                at += tokens[at] == ","
            return found, at + 1
        return _scalar(tokens[at]), at + 1

    return value(0)[0]


def read_scenario(text):
    """The resolved scenario as dicts and lists. Reads the layout that dullcast writes, not YAML at large: blocks by
    indentation, lists of "- ", one line a value. Any unit is SI there, so numbers lose their unit's word."""
    lines = []
    for line in text.splitlines():
        if line.strip():
            indent = len(line) - len(line.lstrip())
            body = line.strip()
            if body.startswith("- ") and not body.startswith("- {"):
                lines.append((indent, "-"))
                indent, body = indent + 2, body[2:]
            lines.append((indent, body))

    def block(at, indent):
        if lines[at][1].startswith("-"):
            found = []
            while at < len(lines) and lines[at][0] == indent and lines[at][1].startswith("-"):
                if lines[at][1] == "-":
                    item, at = block(at + 1, indent + 2)
                else:
                    item, at = _flow(lines[at][1][2:]), at + 1
                found.append(item)
            return found, at
        found = {}
        while at < len(lines) and lines[at][0] == indent:
            key, _, rest = re.match(r'("[^"]*"|[^:]+)(:\s*)(.*)$', lines[at][1]).groups()
            at += 1
            if rest:
                found[key.strip('"')] = _flow(rest)
            elif at < len(lines) and lines[at][0] > indent:
                found[key.strip('"')], at = block(at, lines[at][0])
        return found, at

    return block(0, 0)[0]


class Missing(Exception):
    """Something that the independent check needs is not in the file, or is not a number."""


class StoredRun:
    def __init__(self, path):
        # HDF5 may crash over a wrong byte, so the checksum at the end comes first.
        with open(path, "rb") as file:
            everything = file.read()
        if everything[-16:] != b"\nCRC-32 %08x" % zlib.crc32(everything[:-16]):
            raise Missing(f"{path}: the checksum at its end does not hold")
        self.data = netCDF4.Dataset(path)
        self.scenario = read_scenario(self.data.scenario)
        self.rows = len(self.data["history"].dimensions["time"])

    def group(self, group, name):
        """A dataset as floats; what is masked, absent or not finite is an error, never a pass."""
        try:
            values = self.data[group][name][...]
        except (IndexError, KeyError):
            raise Missing(f"{group}/{name} is not in the file") from None
        values = np.ma.filled(np.ma.asarray(values, dtype=float), np.nan)
        if not np.all(np.isfinite(values)):
            raise Missing(f"{group}/{name} holds numbers that are not finite")
        return values

    def texts(self, group, name):
        """A dataset of words."""
        try:
            return [str(word) for word in self.data[group][name][...]]
        except (IndexError, KeyError):
            raise Missing(f"{group}/{name} is not in the file") from None

    def history(self, name):
        return self.group("history", name)

    def bit(self, name):
        return self.group("bit", name)

    def central(self, *keys):
        """A number of the scenario's libraries: the central value of an uncertain one."""
        found = self.scenario
        for key in keys:
            if key not in found:
                raise Missing(f"the stored scenario has no {'.'.join(map(str, keys))}")
            found = found[key]
        return found["central"] if isinstance(found, dict) else found
