"""Wall chart: metric half-moon keyseats, depth tabled from the crown."""

from __future__ import annotations

from collections.abc import Iterator

from keyseats import across_room, geometry
from keyseats.across_room import metric_half_moon as far
from keyseats.half_moon_charts import metric_keys, metric_widths
from keyseats.half_moon_charts.metric_lines import Line, by_width, lines
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.seat import clear_neck
from keyseats.sheets import Sheet
from keyseats.standing import Bench, Quantity, derive


def largest_neck(tables: Tables, line: Line) -> Quantity | None:
    """Return the neck that clears by 0.25 in the largest shaft of series 1. [mm]

    There the arc height is least and the depth at edge most, so it clears in the smaller ones too.
    """
    key, depth = line.normal.key, line.normal.depth_from_crown
    if line.range is None or line.range.shaft_to is None:
        return None
    assert depth is not None
    assert key.diameter is not None
    shaft = Bench(tables).quantity(line.range.shaft_to)
    arc = geometry.arc_height(shaft.value, key.width.value)
    at_edge = derive(depth.most.value - arc, depth.most, shaft)
    return clear_neck(key.diameter, at_edge).printed(2, "down")


def pages(tables: Tables, paper: str) -> Iterator[Page]:
    """Yield the chart's pages for one paper: the shaft, key by key; then widths and hub."""
    if paper in across_room.PAPERS:
        yield from far.pages(tables, paper)
        return
    groups = by_width(lines(tables))
    yield metric_keys.page(tables, paper, groups, lambda line: largest_neck(tables, line))
    yield metric_widths.page(tables, paper, groups)


SHEETS = (
    Sheet(
        "wall-metric-half-moon",
        "wall chart",
        "Half-moon keyseats, metric: how deep and how wide",
        ("A4", "Letter", "A3", "Tabloid", *reversed(across_room.PAPERS)),
        pages,
        order=40,
    ),
)
