"""What all pictures have in common: colours, scales in both systems of units, the plain look, plain words."""

import unicodedata

import matplotlib
import matplotlib.ticker

matplotlib.use("Agg")
matplotlib.rcParams["text.parse_math"] = False  # a "$" in a title is money
import matplotlib.pyplot as plt  # noqa: E402, F401 (the backend comes first; the pictures take it from here)

FEET = 1 / 0.3048  # ft in a metre, exactly
INK, FAINT, PAPER = "#20303c", "#8a969d", "#fbfaf6"
HEAT, SPEED, DUE, RUINED, CHOSEN = "#b8402a", "#1f6f78", "#7a1f5c", "#000000", "#c8870c"


CAUTION = ("Estimates of a simulation: they help to plan and do not replace looking at the bit. Keep clear of rotating "
           "iron and of lines under pressure.")


def plain(text):
    """Words from a file as a picture may show them: what moves, turns or breaks a line is told as an escape. That "$"
    begins no formula is set above."""
    def harmless(letter):
        if unicodedata.category(letter) not in ("Cc", "Cf", "Cs", "Zl", "Zp"):
            return letter
        return {"\n": "\\n", "\t": "\\t"}.get(letter, f"\\x{ord(letter):02x}" if ord(letter) < 256
                                               else f"\\u{ord(letter):04x}")
    return "".join(harmless(letter) for letter in str(text))


class Trouble(Exception):
    """Something a person can put right; its text is one sentence."""


def thousands(number):
    return f"{number:,.0f}"


def both_lengths(metres):
    return f"{thousands(metres)} m ({thousands(metres * FEET)} ft)"


def tidy(axes, grid="both"):
    axes.set_facecolor("white")
    axes.grid(True, axis=grid, color="#e4e4de", linewidth=0.6)
    axes.set_axisbelow(True)
    for side in axes.spines.values():
        side.set_color(FAINT)
        side.set_linewidth(0.7)
    axes.tick_params(colors=INK, labelsize=8, length=3, color=FAINT)


def heading(axes, words):
    axes.annotate(words, (0.5, 1), xycoords="axes fraction", xytext=(0, 31), textcoords="offset points", ha="center",
                  fontsize=9.5, color=INK)


def in_thousands(axis):
    axis.set_major_formatter(matplotlib.ticker.FuncFormatter(lambda number, _: f"{number:,.10g}"))


def in_other_unit(axes, where, label, functions):
    """A second scale along an axis; `functions` turn the first scale's numbers into the second's and back."""
    make = axes.secondary_yaxis if where == "right" else axes.secondary_xaxis
    other = make(where, functions=functions)
    if where == "right":
        other.set_ylabel(label, fontsize=8.5, color=INK)
    else:
        other.set_xlabel(label, fontsize=8.5, color=INK)
    other.tick_params(colors=INK, labelsize=8, length=3, color=FAINT)
    for side in other.spines.values():
        side.set_color(FAINT)
    in_thousands(other.yaxis if where == "right" else other.xaxis)
    return other


def in_feet(axes, where, label):
    """A second scale in feet along an axis of metres."""
    return in_other_unit(axes, where, label, (lambda m: m * FEET, lambda ft: ft / FEET))


def spread(places, least, low, high):
    """Moves sorted places apart by at least `least` within low .. high, as little as needed."""
    places = list(places)
    for k in range(1, len(places)):
        places[k] = max(places[k], places[k - 1] + least)
    if places and places[-1] > high:
        places[-1] = high
        for k in range(len(places) - 2, -1, -1):
            places[k] = min(places[k], places[k + 1] - least)
    return [max(place, low) for place in places]
