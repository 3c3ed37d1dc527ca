"""The picture of one upset over time: a little before it, the upset, and what follows while every step was kept."""

import textwrap

import numpy as np
from matplotlib.lines import Line2D

from drawing.manner import (CAUTION, CHOSEN, DUE, FAINT, FEET, HEAT, INK, PAPER, SPEED, both_lengths, in_other_unit,
                            plain, plt, tidy)
from drawing.upset_labels import ROW_INCHES, arrange, hang
from drawing.upset_span import GALLON, ZERO_CELSIUS, Span, both_temperatures, change_in_words, find_upset

FASTER_WEAR, DIAMOND_FAILS = 350.0, 700.0  # degrees C
WIDTH_INCHES, LEFT, RIGHT = 12.4, 0.072, 0.918
PANEL_INCHES, GAP_INCHES, ABOVE_INCHES, BELOW_INCHES = (2.7, 1.0, 1.0, 1.0), 0.13, 1.42, 1.0
TABLE, CARBIDE, BODY, WATER, MUD = "#e0956b", "#6b4a6e", "#8a969d", "#4f93c4", "#8a7442"

def length_in_words(seconds):
    for least, size, unit in ((5400, 3600, "h"), (90, 60, "min"), (0, 1, "s")):
        if seconds >= least:
            return f"{seconds / size:.3g} {unit}"


def time_axis(span):
    for least, size, unit, steps in ((3 * 3600, 3600, "h", (0.5, 1, 2, 5, 10)), (900, 60, "min", (1, 2, 5, 10, 20, 30)),
                                     (0, 1, "s", (0.1, 0.5, 1, 2, 5, 10, 15, 30, 60, 120))):
        if span.high - span.low >= least:
            step = next((s for s in steps if (span.high - span.low) / size / s <= 14), steps[-1])
            return size, unit, step


def draw_temperatures(axes, span):
    lines = (("flat_temperature", "wear flat", HEAT, 2.2), ("table_temperature", "diamond table", TABLE, 1.6),
             ("carbide_temperature", "carbide", CARBIDE, 1.6), ("body_temperature", "bit body", BODY, 1.6),
             ("fluid_temperature", "fluid at the bottom", WATER, 1.6))
    for name, _, colour, width in reversed(lines):
        axes.plot(*span.column(name, less=ZERO_CELSIUS), color=colour, linewidth=width)
    time, flat = span.column("flat_temperature", less=ZERO_CELSIUS)
    peak = int(np.nanargmax(np.where(time >= 0, flat, -np.inf)))
    top = max(float(np.nanmax(flat)), 50.0)
    axes.set_ylim(0, top * 1.24)
    axes.plot(time[peak], flat[peak], "o", color=HEAT, markersize=5)
    right_half = time[peak] > 0.6 * span.high
    axes.annotate(both_temperatures(flat[peak]), (time[peak], flat[peak]), xytext=(-7 if right_half else 7, 5),
                  textcoords="offset points", ha="right" if right_half else "left", fontsize=9.5, weight="bold",
                  color=HEAT)
    for value, words in ((FASTER_WEAR, "diamond wears faster from here"), (DIAMOND_FAILS, "diamond fails")):
        if value < axes.get_ylim()[1] * 0.97:
            axes.axhline(value, color=INK, linewidth=0.9, linestyle=(0, (4, 2)))
            axes.annotate(f"{both_temperatures(value)}: {words}", (0.995, value), xytext=(0, 3), ha="right",
                          xycoords=("axes fraction", "data"), textcoords="offset points", fontsize=8.5, color=INK)
    draw_film(axes, span, top * 1.2)
    axes.set_ylabel("temperature, °C", fontsize=9, color=INK)
    in_other_unit(axes, "right", "°F", (lambda c: c * 9 / 5 + 32, lambda f: (f - 32) * 5 / 9))
    return [Line2D([], [], linestyle="", label=f"cutter {span.cutter + 1}:")] + [
        Line2D([], [], color=colour, linewidth=width, label=words) for _, words, colour, width in lines]


def draw_film(axes, span, place):
    """A bar over the times when a film of steam covers any cutter."""
    under = (span.file["history/film"][span.rows, :] > 0).sum(axis=1)
    if not under.any():
        return
    steps = np.flatnonzero(np.diff(np.concatenate(([False], under > 0, [False]))))  # where it forms and collapses
    bars = [(span.time[a], span.time[min(b, len(span.time) - 1)]) for a, b in zip(steps[::2], steps[1::2])]
    axes.hlines([place] * len(bars), *zip(*bars), color=WATER, linewidth=5, alpha=0.7)
    start, stop = max(bars, key=lambda bar: bar[1] - bar[0])
    margin = 0.1 * (span.high - span.low)
    middle = min(max((start + stop) / 2, span.low + margin), span.high - margin)
    axes.annotate(f"steam film on up to {under.max()} cutter{'s' if under.max() > 1 else ''}", (middle, place),
                  xytext=(0, -12), textcoords="offset points", ha="center", fontsize=8, color=INK)


def draw_area(axes, span, name, factor, colour, label, least, other):
    time, values = span.column(name, factor)
    axes.plot(time, values, color=colour, linewidth=1.6)
    axes.fill_between(time, values, color=colour, alpha=0.15, linewidth=0)
    axes.set_ylim(0, max(float(np.nanmax(values)), least) * 1.2)
    axes.set_ylabel(label, fontsize=9, color=INK)
    if other:
        words, in_one = other
        in_other_unit(axes, "right", words, (lambda x: x * in_one, lambda x: x / in_one))


def mark_chips(axes, span):
    events = span.file["events"]
    time = events["time"][:] - span.begins
    mine = np.flatnonzero((events["kind"][:] == "chip") & (events["hole"][:] == span.hole) & (time >= span.low)
                          & (time <= span.high))
    if len(mine):
        axes.plot(time[mine], np.full(len(mine), axes.get_ylim()[1] * 0.16), "v", color=DUE, markersize=7)
        which = sorted(set(int(c) for c in events["cutter"][mine]))
        words = f"{len(mine)} chip{'s' if len(mine) > 1 else ''} (cutter{'s' if len(which) > 1 else ''} " + ", ".join(
            map(str, which[:5])) + (" ..." if len(which) > 5 else "") + ")"
        right_half = time[mine[-1]] > 0.6 * span.high
        place = time[mine[0]] if right_half else time[mine[-1]]
        axes.annotate(words, (place, axes.get_ylim()[1] * 0.16), xytext=(-7 if right_half else 7, -3),
                      textcoords="offset points", ha="right" if right_half else "left", fontsize=8.5, color=DUE,
                      weight="bold")


def headline(span):
    history, layers = span.file["history"], span.file["layers"]
    before, after = span.sides(0.0)
    depth = float(history["depth"][before])
    inside = np.flatnonzero((layers["hole"][:] == span.hole) & (layers["top"][:] <= depth + 1e-9)
                            & (layers["bottom"][:] >= depth - 1e-9))
    rock = f" in {plain(layers['rock'][inside[-1]]).replace('_', ' ')}" if len(inside) else ""
    lasts = f"for {length_in_words(span.length)}" if span.finished else "to the end of the hole"
    words = change_in_words(span, 0.0, "an upset")
    flat = history["flat_temperature"][:, span.cutter] - ZERO_CELSIUS
    later = span.rows[span.rows >= before]
    gained = history["chip_hazard"][later[-1], :] - history["chip_hazard"][before, :]
    chance = -np.expm1(-max(float(np.nansum(gained)), 0.0))
    chips = "under 0.01 %" if chance < 1e-4 else f"{chance * 100:.2g} %"
    return (f"{words[0].upper()}{words[1:]} {lasts} at {both_lengths(depth)}{rock}",
            f"Estimate: cutter {span.cutter + 1} runs hottest, its flat at {both_temperatures(float(flat[before]))} "
            f"before and up to {both_temperatures(float(np.nanmax(flat[later])))} from then on. Chance that an edge "
            f"chips meanwhile: {chips}.")


def draw_upset(file, path, number, hole):
    begins, ends, hole_of_it = find_upset(file, path, number, hole)
    span = Span(file, path, begins, ends, hole_of_it)
    arranged = arrange(span, LEFT, RIGHT, WIDTH_INCHES)
    strip = (max((row for _, _, row, _ in arranged), default=0) + 1) * ROW_INCHES
    height = BELOW_INCHES + sum(PANEL_INCHES) + 3 * GAP_INCHES + 0.08 + strip + ABOVE_INCHES
    figure = plt.figure(figsize=(WIDTH_INCHES, height), facecolor=PAPER)
    axes, top = [], height - ABOVE_INCHES - strip - 0.08
    for inches in PANEL_INCHES:
        axes.append(figure.add_axes([LEFT, (top - inches) / height, RIGHT - LEFT, inches / height]))
        top -= inches + GAP_INCHES
    key = draw_temperatures(axes[0], span)
    draw_area(axes[1], span, "flow_past_bit", 60e3, WATER, "flow past\nthe bit, L/min", 10, ("gal/min", 1e-3 / GALLON))
    draw_area(axes[2], span, "solids_fraction", 100, MUD, "cuttings in\nthe slots, %", 1, None)
    draw_area(axes[3], span, "rate_of_penetration", 3600, SPEED, "rate of pene-\ntration, m/h", 0.1, ("ft/h", FEET))
    mark_chips(axes[3], span)
    size, unit, step = time_axis(span)
    for panel in axes:
        tidy(panel)
        panel.set_xlim(span.low, span.high)
        panel.axvspan(0, min(span.length, span.high), color=CHOSEN, alpha=0.14, linewidth=0)
        panel.set_xticks(np.arange(np.ceil(span.low / size / step), span.high / size / step + 1e-9) * step * size)
        panel.set_xticklabels([])
    axes[-1].set_xticklabels([f"{x / size + 0.0:.3g}" for x in axes[-1].get_xticks()])
    axes[-1].set_xlabel(f"time since the upset began, {unit}", fontsize=9, color=INK)
    hang(figure, arranged, span, (height - ABOVE_INCHES - strip) / height, BELOW_INCHES / height, height)
    first, second = headline(span)
    for inches, words, style in ((0.36, textwrap.shorten(plain(file.title) or "A run", 84, placeholder=" …"),
                                  {"fontsize": 16, "weight": "bold"}),
                                 (0.64, first, {"fontsize": 10.5, "weight": "bold"}), (0.88, second, {"fontsize": 10})):
        figure.text(0.045, 1 - inches / height, words, color=INK, **style)
    figure.text(0.045, 1 - 1.2 / height, f"Upset {number}, hole {hole_of_it}" if hole is None else
                f"Hole {hole}, upset {number}", fontsize=11.5, color=CHOSEN, weight="bold")
    figure.text(RIGHT, 1 - 0.36 / height, textwrap.shorten(plain(file["bit/name"][...]), 60, placeholder=" …"),
                fontsize=10, color=INK, ha="right")
    figure.legend(handles=key, loc="center right", bbox_to_anchor=(RIGHT + 0.012, 1 - 1.16 / height), ncol=6,
                  fontsize=9, frameon=False, labelcolor=INK, title=None, columnspacing=1.6, handlelength=1.6)
    figure.text(0.045, 0.2 / height, f"dullcast {plain(file.program_version)}. {CAUTION}", fontsize=8, color=FAINT)
    if np.diff(span.setting("flow"))[0] < 0:
        figure.text(RIGHT, 0.39 / height, "When the flow fails, lift off bottom at once: these times are no licence to "
                    "wait.", fontsize=8, color=INK, weight="bold", ha="right")
    return figure
