"""First sheet of the metric half-moon chart: how deep and how wide, keys under their width."""

from __future__ import annotations

from collections.abc import Callable

from keyseats.frame import (
    DISTANCE,
    RECALLED,
    Frame,
    foot,
    foot_height,
    thick_and_thin,
    wall_title,
)
from keyseats.half_moon_charts.metric_head import (
    HEADS,
    SOURCES,
    Part,
    band,
    head,
    key_heads,
    pair,
)
from keyseats.half_moon_charts.metric_lines import (
    Line,
    OneWidth,
    alike,
    reach,
    said_for,
)
from keyseats.half_moon_charts.metric_rows import key, rows
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.plain_charts.head import CAUTION, NO_ARC, across
from keyseats.setting import DAGGER, figure, height_of, paragraph
from keyseats.standing import Quantity

# Right edges of the columns. [figure sizes of the narrowest paper]
OVER, TO = 10.0, 11.7
LEAST_DEPTH, MOST_DEPTH, NECK = 15.75, 18.8, 21.95
LEAST_WIDTH, MOST_WIDTH, ABOVE = 25.3, 28.9, 31.65
SUM: list[Part] = [
    ("", ("shaft",), "as measured"),
    ("−", ("depth from crown",), f"feed this, {NO_ARC}"),
    ("=", ("floor to opposite side",), "measure this"),
]
Neck = Callable[[Line], Quantity | None]


def page(tables: Tables, paper: str, widths: list[OneWidth], neck: Neck) -> Page:
    """Return the sheet; ``neck`` gives the largest neck of a key's cutter."""
    groups = alike(widths)
    f = Frame(paper, DISTANCE[paper])
    u = f.unit
    sub = "Woodruff keys, ISO 3912 family. How deep and how wide. All in mm."
    y = wall_title(f, "Half-moon keyseats", "shaft", sub, "sheet 1 of 2")
    y = band(f, tables, y, SUM)
    thick_and_thin(f, y)
    y = _heads(f, y + u * 0.1)
    columns = [CAUTION, (DAGGER, RECALLED), SOURCES]
    wide = f.right - f.left
    note = _note(groups)
    end = f.bottom - foot_height(f, columns, f.note) - u * 1.25 - height_of(note, f.note, wide)
    ends = (across(f, OVER), across(f, TO), across(f, LEAST_DEPTH), across(f, MOST_DEPTH))

    def own(base: float, line: Line) -> None:
        key(f, tables, base, line, ends)
        clear = neck(line)
        if clear is not None:
            f.composer.add(figure(across(f, NECK), base, clear, f.second, dagger=False, cut=False))

    def shared(base: float, one: OneWidth) -> None:
        for at, what in (
            (LEAST_WIDTH, one.seat_width.least),
            (MOST_WIDTH, one.seat_width.most),
            (ABOVE, one.above_crown),
        ):
            f.composer.add(figure(across(f, at), base, what, f.second))

    y = rows(f, y, end, groups, own, shared)
    f.composer.add(paragraph(f.left, y + u * 0.85, note, f.note, wide)[0])
    foot(f, columns, tables.edition, "Metric half-moon")
    return f.page("metric-half-moon-1", "Half-moon keyseats, metric: shaft")


def _note(groups: list[OneWidth]) -> str:
    all_lines = [line for one in groups for line in one.lines]
    which = reach(all_lines)
    return (
        f"Seat width and key above crown: {said_for(groups)}. Key above crown: from the "
        "crown's line; inch charts count from the edge. Shafts over and to, for torque (series 1); "
        "3 mm itself is in the first row. Keep the floor above the shaft's centre"
        f"{f', which {which}' if which else ''}. Largest neck: clears every shaft of "
        "its row by 0.25 on diameter."
    )


def _heads(f: Frame, y: float) -> float:
    u = f.unit

    def at(units: float) -> float:
        return across(f, units)

    key_heads(f, y)
    pair(f, (at(OVER) - u * 1.4, at(OVER), at(TO)), y, [f"shaft{DAGGER}"], ("over", "to"))
    pair(
        f,
        (at(LEAST_DEPTH) - u * 3.43, at(LEAST_DEPTH), at(MOST_DEPTH)),
        y,
        ["depth from crown"],
        bold=True,
    )
    head(f, at(NECK), y, ["largest", f"neck{DAGGER}"])
    ends = (at(LEAST_WIDTH) - u * 2.44, at(LEAST_WIDTH), at(MOST_WIDTH))
    pair(f, ends, y, ["seat width,", "normal fit N9"])
    head(f, at(ABOVE), y, ["key above", "crown,", "most"])
    f.composer.rule(f.left, f.right, y + u * HEADS, u * 0.03)
    return y + u * HEADS
