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
from keyseats.half_moon_charts.metric_lines import Line, lines
from keyseats.load import Tables
from keyseats.page import Block, Page
from keyseats.plain_charts.head import pen
from keyseats.setting import DAGGER, figure, words
from keyseats.standing import Bench, add
from keyseats.views import View

HEADS, MOST_PITCH = 2.85, 2.0
# The widest key of each sheet, and the key and shaft drawn on it. Our layout, no source. [mm]
SHEETS = ((4, "2 x 2.6 x 7", 6), (10, "5 x 6.5 x 16", 18))
SOURCES = ("Sources.", "ISO 3912 in a table laid out as GB/T 1098-2003, and RoyMech.")


def _foot(here: list[Line]) -> list[tuple[str, str]]:
    """Return the foot's columns; the smallest range of all holds its lower end too."""
    over = here[0].range.shaft_over if here[0].range else None
    too = f"; {plain(over)} mm itself is in the first row" if over and over.value == 3 else ""
    shafts = f"are series 1, for torque{too}. Widths, hub, neck: smaller chart."
    first = CAUTION[1].replace(". ", ". Keep the floor above the shaft's centre. ", 1)
    return [(CAUTION[0], first), (DAGGER, RECALLED), ("Shafts", shafts), SOURCES]


def pages(tables: Tables, paper: str) -> Iterator[Page]:
    """Yield the chart's pages for one paper."""
    rest = lines(tables)
    for n, (widest, drawn, shaft) in enumerate(SHEETS, 1):
        here = [line for line in rest if line.normal.key.width.value <= widest]
        rest = rest[len(here) :]
        yield _page(tables, paper, here, n, (drawn, shaft))


def _page(
    tables: Tables, paper: str, here: list[Line], number: int, drawn: tuple[str, int]
) -> Page:
    f = Frame(paper, DISTANCE[paper])
    u, c = f.unit, f.composer
    first, last = (line.normal.key.width.value for line in (here[0], here[-1]))
    which = f"{first} to {last} wide"
    sub = "How deep: Woodruff, ISO 3912 family. All in mm."
    y = wall_title(f, "Half-moon keyseats", which, sub, f"sheet {number} of {len(SHEETS)}")
    tabled = next(line.normal for line in here if line.normal.key.designation == drawn[0])
    view = View(f, tabled, Fraction(drawn[1]), pen(f), u * 0.62, y + u * 0.35, seat_wide=3.0)
    view.from_crown(f.left + u * 6.35, stands=True)
    stacked_sum(f, f.left + u * 13.9, y + u * 0.2, measured_from())
    y = _heads(f, y + u * (BAND + 0.35))
    columns = _foot(here)
    foot_top = f.bottom - foot_height(f, columns, f.note)
    pitch = min(u * MOST_PITCH, (foot_top - y - u * 0.5) / len(here))
    widths = [line.normal.key.width.value for line in here]
    order = sorted(set(widths))
    for n, width in enumerate(widths):
        if order.index(width) % 2:
            c.shade(f.left, y + n * pitch, f.right, y + (n + 1) * pitch)
    for n, line in enumerate(here):
        _row(f, tables, y + (n + 0.5) * pitch + u * 0.365, line)
    c.rule(f.left, f.right, y + len(here) * pitch, u * 0.03)
    foot(f, columns, tables.edition, "Metric half-moon")
    return f.page(f"metric-half-moon-2m-{number}", f"Half-moon keyseats, metric, {which}, at 2 m")


def _columns(f: Frame) -> dict[str, float]:
    """Return the right edges of the columns."""
    wide = f.right - f.left
    at = {"over": 0.39, "to": 0.48, "least": 0.655, "most": 0.805, "above": 0.99}
    return {name: f.left + wide * part for name, part in at.items()}


def _heads(f: Frame, y: float) -> float:
    u, c, col = f.unit, f.composer, _columns(f)
    thick_and_thin(f, y)
    size, first, step = u * 0.6, y + u * 0.98, u * 0.76

    def head(x: float, texts: tuple[str, ...], anchor: str = "end") -> None:
        for n, text in enumerate(texts, 3 - len(texts)):
            c.say(x, first + n * step, text, size, anchor=anchor, role="TH", header="Column")

    head(f.left + u * 0.15, ("key: width x", "height x", "diameter"), "start")
    for right, over, pair, bold in (
        ("to", (f"shaft{DAGGER}",), ("over", "to"), False),
        ("most", ("depth", "from crown"), ("least", "most"), True),
    ):
        with c.over():
            for n, text in enumerate(over, 2 - len(over)):
                c.say(col[right], first + n * step, text, size, bold=bold, anchor="end")
            for name in pair:
                head(col[name], (name,))
    head(col["above"], ("key above", "crown,", "most"))
    c.rule(f.left, f.right, y + u * HEADS, u * 0.03)
    return y + u * HEADS


def _row(f: Frame, tables: Tables, base: float, line: Line) -> None:
    u, c, col = f.unit, f.composer, _columns(f)
    key, depth = line.normal.key, line.normal.depth_from_crown
    assert depth is not None
    name = words(f.left + u * 0.15, base, key.designation, u * 0.88, bold=True)
    c.add(Block("TH", (name,), header="Row", rows=key.width.rows))
    if line.range is not None and line.range.shaft_to is not None:
        for at, end in (("over", line.range.shaft_over), ("to", line.range.shaft_to)):
            text = words(col[at], base, plain(end), f.second, anchor="end")
            c.add(Block("TD", (text,), rows=Bench(tables).quantity(end).rows))
    shown = depth.printed(2)
    c.add(figure(col["least"], base, shown.least, u), figure(col["most"], base, shown.most, u))
    above = add(key.height.most, depth.least, -1).printed(2)
    c.add(figure(col["above"], base, above, f.second))
