"""Metric half-moon keyseats for across the room: narrow keys, then wide ones."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from keyseats.across_room.composing import BAND, CAUTION, measured_from, stacked_sum
from keyseats.families.metric_plain import plain
from keyseats.frame import (
    DISTANCE,
    RECALLED,
    Frame,
    foot,
    foot_height,
    thick_and_thin,
    wall_title,
)
from keyseats.half_moon_charts.metric_head import HEADS, head, key_heads, pair
from keyseats.half_moon_charts.metric_lines import (
    Line,
    OneWidth,
    alike,
    by_width,
    lines,
    said_for,
)
from keyseats.half_moon_charts.metric_rows import key, rows
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.plain_charts.head import pen
from keyseats.setting import DAGGER, figure
from keyseats.views import View

# The widest key of each sheet, and the key and shaft drawn on it. Our layout, no source. [mm]
SHEETS = ((4, "2 x 2.6 x 7", 6), (10, "5 x 6.5 x 16", 18))
SOURCES = (
    "Sources.",
    "ISO 3912 in a table laid out as GB/T 1098-2003, and RoyMech. Widths, hub, neck: smaller "
    "chart.",
)
# Right edges of the columns, of the measure's width.
OVER, TO, LEAST, MOST, ABOVE = 0.43, 0.515, 0.69, 0.84, 1.0


def _foot(here: list[OneWidth]) -> list[tuple[str, str]]:
    """Return the foot's columns; the smallest range of all holds its lower end too."""
    first = here[0].lines[0].range
    over = first.shaft_over if first else None
    too = f"; {plain(over)} mm itself is in the first row" if over and over.value == 3 else ""
    shafts = f"are series 1, for torque{too}. Key above crown: {said_for(here)}."
    stop = CAUTION[1].replace(". ", ". Keep the floor above the shaft's centre. ", 1)
    return [(CAUTION[0], stop), (DAGGER, RECALLED), ("Shafts", shafts), SOURCES]


def pages(tables: Tables, paper: str) -> Iterator[Page]:
    """Yield the chart's pages for one paper."""
    rest = alike(by_width(lines(tables)))
    for n, (widest, drawn, shaft) in enumerate(SHEETS, 1):
        here = [one for one in rest if one.width.value <= widest]
        rest = rest[len(here) :]
        yield _page(tables, paper, here, n, (drawn, shaft))


def _page(
    tables: Tables, paper: str, here: list[OneWidth], number: int, drawn: tuple[str, int]
) -> Page:
    f = Frame(paper, DISTANCE[paper])
    u, c = f.unit, f.composer
    which = f"{here[0].width.text} to {here[-1].width.text} wide"
    sub = "How deep: Woodruff, ISO 3912 family. All in mm."
    y = wall_title(f, "Half-moon keyseats", which, sub, f"sheet {number} of {len(SHEETS)}")
    each = (line.normal for one in here for line in one.lines)
    tabled = next(one for one in each if one.key.designation == drawn[0])
    view = View(f, tabled, Fraction(drawn[1]), pen(f), u * 0.62, y + u * 0.35, seat_wide=2.6)
    view.from_crown(f.left + u * 6.35, stands=True)
    stacked_sum(f, f.left + u * 13.9, y + u * 0.2, measured_from())
    y = _heads(f, y + u * (BAND + 0.35))
    columns = _foot(here)
    foot_top = f.bottom - foot_height(f, columns, f.note)
    ends = (_at(f, OVER), _at(f, TO), _at(f, LEAST), _at(f, MOST))

    def own(base: float, line: Line) -> None:
        key(f, tables, base, line, ends)

    def shared(base: float, one: OneWidth) -> None:
        c.add(figure(_at(f, ABOVE), base, one.above_crown, f.second))

    rows(f, y, foot_top - u * 0.25, here, own, shared, closed=False)
    foot(f, columns, tables.edition, "Metric half-moon")
    return f.page(f"metric-half-moon-2m-{number}", f"Half-moon keyseats, metric, {which}, at 2 m")


def _at(f: Frame, part: float) -> float:
    return f.left + (f.right - f.left) * part


def _heads(f: Frame, y: float) -> float:
    u = f.unit
    thick_and_thin(f, y)
    y += u * 0.1
    key_heads(f, y)
    pair(
        f, (_at(f, OVER) - u * 1.4, _at(f, OVER), _at(f, TO)), y, [f"shaft{DAGGER}"], ("over", "to")
    )
    ends = (_at(f, LEAST) - u * 3.43, _at(f, LEAST), _at(f, MOST))
    pair(f, ends, y, ["depth from crown"], bold=True)
    head(f, _at(f, ABOVE), y, ["key above", "crown,", "most"])
    f.composer.rule(f.left, f.right, y + u * HEADS, u * 0.03)
    return y + u * HEADS
