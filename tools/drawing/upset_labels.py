"""The labels over the picture of an upset: what they say, and where they hang without lying on one another."""

import numpy as np
from matplotlib.lines import Line2D

from drawing.manner import DUE, INK, plain, plt
from drawing.upset_span import ZERO_CELSIUS, both_temperatures, change_in_words

ROW_INCHES = 0.185
MOST_ROWS = 9  # past these, labels that tell least are left out
ALIKE = 0.08  # of the span: cutters that fail in one way within it share a label
WORDS = {  # what a label says of a kind of event; {} is the cutter or the cutters
    "slots_pack": "cuttings pack the slots", "slots_clear": "slots flushed clear",
    "film_forms": "steam film forms (cutter {})", "surface_rewets": "steam film collapses",
    "runs_dry": "last water boils away", "fluid_boils": "water at the bit boils",
    "table_ruined": "heat ruins the diamond table (cutter {})", "table_lost": "diamond table lost (cutter {})",
    "cutter_lost": "cutter lost (cutter {})", "blade_sheared": "a blade shears off",
    "blade_rubs": "a blade starts to rub", "stopped_drilling": "bit stops drilling", "rework_due": "rework due",
    "beyond_repair": "beyond repair", "quench": "cold flow meets diamond at {}", "hole_finished": "hole finished",
    "upset_begins": "", "upset_ends": "", "layer_entered": "",
}
OF_CUTTERS = {"table_ruined", "table_lost", "cutter_lost"}
GRAVE = OF_CUTTERS | {"blade_sheared", "beyond_repair", "rework_due"}
LEAST_TELLING = ("layer_entered", "fluid_boils", "slots_clear", "blade_rubs", "surface_rewets", "runs_dry",
                 "film_forms")


class Label:
    def __init__(self, time, kind, cutter=0, text=""):
        self.time, self.kind, self.text = time, kind, text
        self.cutters = [cutter] if cutter > 0 else []
        self.colour, self.weight = (DUE, "bold") if kind in GRAVE else (INK, "normal")

    def words(self, span):
        if self.kind == "upset_begins":
            return change_in_words(span, self.time, "an upset begins")
        if self.kind == "upset_ends":
            return change_in_words(span, self.time, "the upset ends")
        if self.kind == "layer_entered":
            return self.text.rstrip(".").replace("_", " ").replace("Enters", "enters")
        if self.kind == "quench":
            if not self.cutters:
                return "cold flow meets hot diamond"
            table = span.file["history/table_temperature"][span.sides(self.time)[0], self.cutters[0] - 1]
            return WORDS["quench"].format(both_temperatures(float(table) - ZERO_CELSIUS))
        if not self.cutters:
            return WORDS[self.kind].replace(" (cutter {})", "")
        if len(self.cutters) > 4:
            return WORDS[self.kind].replace("cutter {}", f"{len(self.cutters)} cutters")
        some = "cutters" if len(self.cutters) > 1 else "cutter"
        return WORDS[self.kind].replace("cutter {}", f"{some} {', '.join(map(str, sorted(self.cutters)))}")


def labels_of(span):
    """The labels in order of time."""
    table = {name: span.file[f"events/{name}"][:] for name in ("kind", "time", "hole", "cutter", "text")}
    labels = []
    for kind, time, hole, cutter, text in zip(*table.values()):
        time = float(time) - span.begins
        if int(hole) != span.hole or not span.low <= time <= span.high + 1e-6 or kind not in WORDS:
            continue
        alike = [label for label in labels if label.kind == kind and kind in OF_CUTTERS and cutter > 0
                 and time - label.time < ALIKE * (span.high - span.low)]
        if alike:
            alike[-1].cutters.append(int(cutter))
        else:
            labels.append(Label(time, str(kind), int(cutter), plain(text)))
    # The run tells of a film once in a hole; that of a later upset shows in its rows alone.
    film = span.file["history/film"][span.rows, :].max(axis=1) > 0
    stated = {label.kind for label in labels}
    if film.any() and not film[0] and "film_forms" not in stated:
        labels.append(Label(float(span.time[np.argmax(film)]), "film_forms"))
    if film.any() and not film[-1] and "surface_rewets" not in stated:
        labels.append(Label(float(span.time[len(film) - np.argmax(film[::-1])]), "surface_rewets"))
    return sorted(labels, key=lambda label: label.time)


def place_labels(boxes, low, high):
    """Row, counted from the top, and side (1 right of its pole, -1 left) of labels given in order of place as (place
    of the pole, width). A label's pole reaches from its row down to the panels. No label lies on another or on
    another's pole. Those that would pass the right edge, or the pole of one that would, hang to the left. None where
    there is no room for all."""
    turned, edge = set(), high
    for k in reversed(range(len(boxes))):
        pole, width = boxes[k]
        if pole + width > edge and pole - width >= low:
            turned.add(k)
            edge = pole
    placed = {}
    for k in sorted(turned, reverse=True) + [k for k in range(len(boxes)) if k not in turned]:
        pole, width = boxes[k]
        left, right = (pole - width, pole) if k in turned else (pole, pole + width)

        def free(row):
            return not any((row == other and left < its_right and right > its_left)
                           or (other < row and left < its_pole < right) or (other > row and its_left < pole < its_right)
                           for other, its_pole, its_left, its_right in placed.values())

        row = next((row for row in range(len(boxes)) if free(row)), None)
        if row is None or left < low or right > high:
            return None
        placed[k] = (row, pole, left, right)
    return [(placed[k][0], -1 if k in turned else 1) for k in range(len(boxes))]


def widths(labels, span, picture_inches):
    """Width of each label as a share of the picture's width."""
    figure = plt.figure(figsize=(picture_inches, 2))
    renderer = figure.canvas.get_renderer()
    result = [figure.text(0, 0, label.words(span), fontsize=9, weight=label.weight).get_window_extent(renderer).width
              / renderer.width + 0.012 for label in labels]
    plt.close(figure)
    return result


def arrange(span, left, right, picture_inches):
    """The labels to show, each with the place of its pole across the picture, its row and its side."""
    labels = labels_of(span)
    dispensable = list(LEAST_TELLING)
    while labels:
        poles = [left + (right - left) * (label.time - span.low) / (span.high - span.low) for label in labels]
        placed = place_labels(list(zip(poles, widths(labels, span, picture_inches))), 0.005, 0.995)
        if placed and (max(row for row, _ in placed) < MOST_ROWS or not dispensable):
            return [(label, pole, row, side) for label, pole, (row, side) in zip(labels, poles, placed)]
        if dispensable:
            dropped = dispensable.pop(0)
            labels = [label for label in labels if label.kind != dropped]
        else:
            labels = labels[:-1]
    return []


def hang(figure, arranged, span, strip_bottom, panels_bottom, height):
    """Draws the labels over the panels; places are shares of the picture's height, `height` is in inches."""
    lowest = max((row for _, _, row, _ in arranged), default=0)
    for label, x, row, side in arranged:
        y = strip_bottom + (lowest - row) * ROW_INCHES / height
        figure.add_artist(Line2D([x, x], [panels_bottom, y + 0.8 * ROW_INCHES / height], color=label.colour,
                                 linewidth=0.8, alpha=0.55))
        figure.text(x + side * 0.004, y + 0.04 / height, label.words(span), ha="left" if side > 0 else "right",
                    va="bottom", fontsize=9, color=label.colour, weight=label.weight)
