"""One upset in a run: where it is, the rows of history around it, and what it changed."""

import re

import numpy as np

from drawing.manner import Trouble

ZERO_CELSIUS = 273.15  # K
GALLON = 231 * 0.0254**3  # m3 in a US gallon: 231 cubic inches, exactly
POUND = 0.45359237 * 9.80665  # N in a pound-force, exactly
BEFORE = 0.2  # of the upset's length shown ahead of it
AFTER = 2.0  # of its length after it, for which the run keeps every step
CHANGED = 0.02  # a setting that moved by less than this share of itself did not change
AT_ONCE = 1e-6  # s


def both_temperatures(celsius):
    return f"{celsius:,.0f} °C ({celsius * 9 / 5 + 32:,.0f} °F)"


def upsets_of(file, hole):
    """The upsets of the run, or of one of its holes: beginning, end or None, and hole of each."""
    events = file["events"]
    kinds, times, holes, texts = (events[name][:] for name in ("kind", "time", "hole", "text"))
    found = []
    for k in np.flatnonzero(kinds == "upset_begins"):
        if hole is not None and holes[k] != hole:
            continue
        number = re.match(r"Upset \d+ ", str(texts[k]))
        ends = [float(times[j]) for j in range(k + 1, len(kinds))
                if kinds[j] == "upset_ends" and holes[j] == holes[k]
                and (number is None or str(texts[j]).startswith(number.group()))]
        found.append((float(times[k]), ends[0] if ends else None, int(holes[k])))
    return found


def find_upset(file, path, number, hole):
    found = upsets_of(file, hole)
    where = "the run" if hole is None else f"hole {hole}"
    if not found:
        raise Trouble(f"{path}: {where} has no upset to draw; give the scenario one under upsets:")
    if not 1 <= number <= len(found):
        has = "1 upset" if len(found) == 1 else f"{len(found)} upsets"
        raise Trouble(f"{path}: there is no upset {number}; {where} has {has}")
    return found[number - 1]


class Span:
    """The rows of history around one upset, with time counted from its beginning."""

    def __init__(self, file, path, begins, ends, hole):
        self.file, self.hole, self.begins = file, hole, begins
        history = file["history"]
        times = history["time"][:]
        own = np.flatnonzero((history["hole"][:] == hole) & np.isfinite(times))
        if not len(own):
            raise Trouble(f"{path}: nothing was recorded in hole {hole}, so its upset cannot be drawn")
        start, stop = float(times[own].min()), float(times[own].max())
        self.finished = ends is not None
        self.length = max((ends if self.finished else stop) - begins, 1e-3)
        first = max(begins - BEFORE * self.length, start)
        last = min(begins + (1 + AFTER) * self.length, stop)
        self.rows = own[(times[own] >= first) & (times[own] <= last)]
        if len(self.rows) < 2:
            raise Trouble(f"{path}: too few moments were recorded around this upset to draw it")
        self.time = times[self.rows] - begins
        self.low, self.high = first - begins, float(self.time[-1])
        flat = history["flat_temperature"][self.rows, :]
        within = (self.time >= -AT_ONCE) & (self.time <= self.length + AT_ONCE)
        hottest = np.where(np.isfinite(flat), flat, -np.inf)[within if within.any() else slice(None)].max(axis=0)
        self.cutter = int(np.argmax(hottest))  # counted from 0

    def sides(self, time):
        """The rows just before and just after something was changed: the run keeps both at the same time."""
        at_once = np.flatnonzero(abs(self.time - time) <= AT_ONCE)
        if len(at_once):
            return self.rows[at_once[0]], self.rows[at_once[-1]]
        later = min(int(np.searchsorted(self.time, time)), len(self.rows) - 1)
        return self.rows[max(later - 1, 0)], self.rows[later]

    def setting(self, name, time=0.0):
        before, after = self.sides(time)
        return float(self.file[f"history/{name}"][before]), float(self.file[f"history/{name}"][after])

    def column(self, name, factor=1.0, less=0.0):
        """Times and values of a dataset, of the hottest cutter where it has cutters. The first value is held back to
        the span's beginning: rows ahead of an upset are far apart, and the bit drilled steadily."""
        data = self.file[f"history/{name}"]
        values = data[self.rows] if data.ndim == 1 else data[self.rows, self.cutter]
        return np.concatenate(([self.low], self.time)), np.concatenate((values[:1], values)) * factor - less


def change_in_words(span, time, otherwise):
    """What was changed at a time, told from the rows on both sides of it."""
    words = []
    for name, off, on, subject, show in (
            ("flow", "the pump stops", "the pump is back", "flow", lambda q: f"{q / GALLON * 60:,.3g} gal/min"),
            ("rotary_speed", "rotation stops", "rotation is back", "rotation", lambda n: f"{n * 60:,.3g} rpm"),
            ("weight", "the bit comes off bottom", "the bit is back on bottom", "weight",
             lambda w: f"{round(w / POUND, -1):,.0f} lbf")):
        before, after = span.setting(name, time)
        if abs(after - before) > CHANGED * abs(before):
            moves = f"{subject} {'falls' if after < before else 'rises'} to {show(after)}"
            words.append(off if after <= 1e-3 * before else on if before <= 1e-3 * after else moves)
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1]))) if words else otherwise
