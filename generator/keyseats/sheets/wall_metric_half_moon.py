"""Wall chart: metric half-moon keyseats, depth tabled from the crown."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from keyseats import across_room, geometry
from keyseats.across_room import metric_half_moon as far
from keyseats.drawing import Pen
from keyseats.families import metric_half_moon
from keyseats.families.metric_plain import plain
from keyseats.frame import (
    DISTANCE,
    FIRST,
    RECALLED,
    Frame,
    foot,
    foot_height,
    thick_and_thin,
    wall_title,
)
from keyseats.half_moon_charts.metric_lines import Line, at_the_centre, lines
from keyseats.lengths import article, decimal
from keyseats.load import Tables
from keyseats.page import Block, Page
from keyseats.plain_charts.head import NO_ARC
from keyseats.seat import Work, clear_neck
from keyseats.setting import DAGGER, figure, height_of, paragraph, words
from keyseats.sheets import Sheet
from keyseats.standing import Bench, Limits, Quantity, add, derive
from keyseats.sum_line import sum_line
from keyseats.views import View

DRAWN, DRAWN_SHAFT = "5 x 6.5 x 16", 18
BAND, HEAD = 7.35, 2.85
MOST_PITCH = 1.8
# The columns' right edges as parts of the page's measure, which is 31.7 figure sizes on A4.
MEASURE = 31.68
CAUTION = (
    "CAUTION",
    "Stop the spindle before you measure, brush chips or deburr. Take a loose key out before the "
    "shaft turns. " + FIRST,
)
CENTRE = "Keep the floor above the shaft's centre"
SOURCES = (
    "Sources.",
    "ISO 3912 family: a table of Woodruff keyways in the layout of GB/T 1098-2003, and RoyMech (BS "
    "4235-2, ISO 3912). Limits of GOST 24071 and depths of DIN 6888 differ and are not mixed in.",
)


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
    """Yield the chart's pages for one paper: the shaft, then close fit and hub."""
    if paper in across_room.PAPERS:
        yield from far.pages(tables, paper)
        return
    all_lines = lines(tables)
    yield _page(tables, paper, all_lines, 1)
    yield _page(tables, paper, all_lines, 2)


def _page(tables: Tables, paper: str, all_lines: list[Line], number: int) -> Page:
    f = Frame(paper, DISTANCE[paper])
    u = f.unit
    shaft_page = number == 1
    which = "shaft" if shaft_page else "close fit, hub"
    says = "Shaft depth and width" if shaft_page else "Close seat width, hub depth and width"
    sub = f"Woodruff keys, ISO 3912 family. {says}. All in mm."
    y = wall_title(f, "Half-moon keyseats", which, sub, f"sheet {number} of 2")
    _drawings(f, tables, y + u * 0.5, shaft_page)
    y = sum_line(f, y + u * BAND, _sum(shaft_page))
    thick_and_thin(f, y)
    columns = [CAUTION, (DAGGER, RECALLED), SOURCES] if shaft_page else [CAUTION, SOURCES]
    bottom = f.bottom - foot_height(f, columns, f.note)
    y += u * 0.1
    (_shaft_heads if shaft_page else _hub_heads)(f, y)
    y += u * HEAD
    f.composer.rule(f.left, f.right, y, u * 0.03)
    wide = f.right - f.left
    note = _note(all_lines, shaft_page)
    tall = height_of(note, f.note, wide)
    pitch = min(u * MOST_PITCH, (bottom - y - u * 1.3 - tall) / len(all_lines))
    bottom_of_rows = _rows(f, tables, y, all_lines, pitch, _shaft_row if shaft_page else _hub_row)
    f.composer.add(paragraph(f.left, bottom_of_rows + u * 0.85, note, f.note, wide)[0])
    foot(f, columns, tables.edition, "Metric half-moon")
    name = "shaft" if shaft_page else "close fit and hub"
    return f.page(f"metric-half-moon-{number}", f"Half-moon keyseats, metric: {name}")


def _sum(shaft_page: bool) -> list[tuple[str, str]]:
    if shaft_page:
        return [
            ("shaft", "as measured"),
            ("−", ""),
            ("depth from crown", f"feed this, {NO_ARC}"),
            ("=", ""),
            ("floor to opposite side", "measure this"),
        ]
    return [
        ("bore", "as measured"),
        ("+", ""),
        ("hub depth", "from the table"),
        ("=", ""),
        ("hub: floor to opposite side", "measure this"),
    ]


def _note(all_lines: list[Line], shaft_page: bool) -> str:
    if shaft_page:
        reach = " and ".join(
            f"{line.normal.key.designation} in {decimal(shaft, 1).removesuffix('.0')}"
            for line, shaft in at_the_centre(all_lines)
        )
        return (
            "Shafts over and to, for torque (series 1); 3 mm itself is in the first row. "
            f"{CENTRE}{f', which {reach} mm can reach' if reach else ''}. Key above crown: from "
            "the crown's line; inch charts count from the edge. Largest neck: clears every shaft "
            "of its row by 0.25 on diameter."
        )
    return (
        "Close fit: the hub is as wide as the seat. Radius: between the walls of the seat and its "
        "floor."
    )


def _at(f: Frame, part: float) -> float:
    return f.left + (f.right - f.left) * part / MEASURE


def _head(f: Frame, x: float, y: float, texts: list[str], *, bold: bool = False) -> None:
    """Set a column's head, its last line lowest."""
    u = f.unit
    for n, text in enumerate(texts):
        level = y + u * (0.92 + 0.76 * (n + 3 - len(texts)))
        f.composer.say(x, level, text, u * 0.6, bold=bold, anchor="end", role="TH", header="Column")


def _over(f: Frame, least: float, most: float, y: float, text: str, *, bold: bool = False) -> None:
    """Set what two columns share, over their ``least`` and ``most``."""
    u = f.unit
    lines_of = text.split("|")
    with f.composer.over():
        for n, line in enumerate(lines_of):
            level = y + u * (0.92 + 0.76 * (n + 2 - len(lines_of)))
            f.composer.say(_at(f, most), level, line, u * 0.6, bold=bold, anchor="end")
        for at, word in ((least, "least"), (most, "most")):
            _head(f, _at(f, at), y, [word])


def _first_head(f: Frame, y: float) -> None:
    for n, text in enumerate(("key: width x", "height x", "diameter")):
        level = y + f.unit * (0.92 + 0.76 * n)
        f.composer.say(f.left, level, text, f.unit * 0.6, role="TH", header="Column")


def _shaft_heads(f: Frame, y: float) -> None:
    _first_head(f, y)
    _head(f, _at(f, 10.7), y, [f"shaft{DAGGER}", "over    to"])
    _over(f, 14.4, 17.8, y, "depth|from crown", bold=True)
    _over(f, 21.7, 25.1, y, "seat width,|normal fit N9")
    _head(f, _at(f, 28.5), y, ["largest", f"neck{DAGGER}"])
    _head(f, _at(f, 31.6), y, ["key above", "crown,", "most"])


def _shaft_row(f: Frame, tables: Tables, y: float, line: Line) -> None:
    c, u, size = f.composer, f.unit, f.second
    depth, key = line.normal.depth_from_crown, line.normal.key
    assert depth is not None
    if line.range is not None and line.range.shaft_to is not None:
        q = Bench(tables).quantity
        for at, end in ((8.6, line.range.shaft_over), (10.7, line.range.shaft_to)):
            text = words(_at(f, at), y, plain(end), size, anchor="end")
            c.add(Block("TD", (text,), rows=q(end).rows))
    shown = depth.printed(2)
    c.add(figure(_at(f, 14.4), y, shown.least, u), figure(_at(f, 17.8), y, shown.most, u))
    _pair(f, y, line.normal.seat_width.printed(3), 21.7, 25.1)
    neck = largest_neck(tables, line)
    if neck is not None:
        c.add(figure(_at(f, 28.5), y, neck, size, dagger=False, cut=False))
    above = add(key.height.most, depth.least, -1).printed(2)
    c.add(figure(_at(f, 31.6), y, above, size))


def _hub_heads(f: Frame, y: float) -> None:
    _first_head(f, y)
    _over(f, 10.3, 13.5, y, "seat width,|close fit P9", bold=True)
    _over(f, 16.6, 19.3, y, "hub depth|from bore")
    _over(f, 22.8, 26.2, y, "hub width,|normal fit JS9")
    _over(f, 29.1, 31.6, y, "floor|radius")


def _hub_row(f: Frame, tables: Tables, y: float, line: Line) -> None:
    _pair(f, y, line.close.seat_width.printed(3), 10.3, 13.5)
    _pair(f, y, line.normal.hub_rise.printed(2), 16.6, 19.3)
    _pair(f, y, line.normal.hub_width.printed(3), 22.8, 26.2)
    if line.normal.floor_radius is not None:
        _pair(f, y, line.normal.floor_radius.printed(2), 29.1, 31.6)


def _pair(f: Frame, y: float, limits: Limits, least: float, most: float) -> None:
    f.composer.add(
        figure(_at(f, least), y, limits.least, f.second),
        figure(_at(f, most), y, limits.most, f.second),
    )


def _rows(
    f: Frame,
    tables: Tables,
    y: float,
    all_lines: list[Line],
    pitch: float,
    row: Callable[[Frame, Tables, float, Line], None],
) -> float:
    """Set the keys' rows, every second width shaded; return the level under them."""
    c, u = f.composer, f.unit
    widths = [line.normal.key.width.value for line in all_lines]
    order = sorted(set(widths))
    for n, width in enumerate(widths):
        top = y + n * pitch
        if order.index(width) % 2:
            c.shade(f.left, top, f.right, top + pitch)
    for n, line in enumerate(all_lines):
        base = y + n * pitch + pitch / 2 + u * 0.34
        key = line.normal.key
        name = (words(f.left + u * 0.1, base, key.designation, u * 0.88, bold=True),)
        c.add(Block("TH", name, header="Row", rows=key.width.rows))
        row(f, tables, base, line)
    bottom = y + len(all_lines) * pitch
    c.rule(f.left, f.right, bottom, u * 0.03)
    return bottom


def _drawings(f: Frame, tables: Tables, y: float, shaft_page: bool) -> None:
    """Draw a real key: in its seat and hub, and the cutter along the shaft or the hub across."""
    u = f.unit
    pen = Pen(outline=u * 0.08, thin=u * 0.034, hatch=u * 0.024, arrow=u * 0.34, spacing=u * 0.25)
    shaft = Fraction(DRAWN_SHAFT)
    tabled = metric_half_moon.one(DRAWN, tables, Work("mm", shaft))
    assert tabled is not None
    view = View(f, tabled, shaft, pen, u * 0.64, y)
    wide = f.right - f.left
    view.from_crown(f.left + wide * 0.24, stands=shaft_page)
    if shaft_page:
        view.side(f.left + wide * 0.74)
    else:
        view.opposite(f.left + wide * 0.72)
    caption = f"{DRAWN} in {article(str(DRAWN_SHAFT))} mm shaft, drawn to scale"
    f.composer.say(f.right, y + u * (BAND - 0.85), caption, f.note, anchor="end")


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
