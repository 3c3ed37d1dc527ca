"""The course of a value from row to row: a line where the run was followed, dots where nothing was kept between."""

import numpy as np

from drawing.manner import FAINT

FAR = 0.005  # of the whole way, between rows
APART = 0.1  # of the values' range, between rows


def gaps(place, value):
    """Numbers of the rows after which a straight line would be a slope that nobody computed: the next row is far away
    and holds another state. Rows at one place are both sides of a step."""
    place, value = np.asarray(place, dtype=float), np.asarray(value, dtype=float)
    if len(place) < 2:
        return np.array([], dtype=int)
    way, span = np.ptp(place), np.nanmax(value) - np.nanmin(value)
    return np.flatnonzero((np.abs(np.diff(place)) > FAR * way) & (np.abs(np.diff(value)) > APART * span))


def draw_course(axes, place, value, down, **style):
    """Draws values over their places; with `down` the places run down the picture. True where it has gaps."""
    missing = gaps(place, value)
    broken = [np.insert(np.asarray(each, dtype=float), missing + 1, np.nan) for each in (place, value)]
    turned = (lambda pair: pair[::-1]) if down else (lambda pair: pair)
    axes.plot(*turned(broken), **style)
    for k in missing:
        ends = [np.asarray(each)[[k, k + 1]] for each in (place, value)]
        axes.plot(*turned(ends), color=FAINT, linewidth=0.9, linestyle=":")
        axes.plot(*turned(ends), color=style.get("color"), linestyle="", marker="o", markersize=2.6)
    return len(missing) > 0
