"""Tables as tools/measure-runs prints them and tools/draw-speed reads them from a page: a line "== title", a line of
column names and rows, in columns at least two spaces apart."""

import math
import re

NOTHING = "-"


def number(value, digits=3):
    """As many digits as mean anything on a shared machine."""
    if value is None or not math.isfinite(value):
        return NOTHING
    if value == 0:
        return "0"
    if abs(value) >= 1e5 or abs(value) < 1e-3:
        return f"{value:.1e}"
    return f"{value:.0f}" if abs(value) >= 10 ** digits else f"{value:.{digits}g}"


def show(title, columns, rows):
    cells = [[cell if isinstance(cell, str) else number(cell) for cell in row] for row in rows]
    widths = [max(len(row[k]) for row in [columns] + cells) for k in range(len(columns))]
    print(f"\n== {title}")
    for row in [columns] + cells:
        print("  ".join(cell.ljust(width) if k == 0 else cell.rjust(width)
                        for k, (cell, width) in enumerate(zip(row, widths))).rstrip())


def read(text):
    """{title: rows}, each row {column: word}."""
    tables, rows, columns = {}, None, None
    for line in text.split("\n"):
        if line.startswith("== "):
            rows, columns = tables.setdefault(line[3:], []), None
        elif not line.strip() or line.startswith("```"):
            rows = None
        elif rows is not None:
            words = re.split(r"\s{2,}", line.strip())
            if columns is None:
                columns = words
            elif len(words) == len(columns):
                rows.append(dict(zip(columns, words)))
    return tables
