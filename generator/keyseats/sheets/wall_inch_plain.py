"""Wall chart: inch plain keyseats by shaft, one zone a key, and a last sheet of every key."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import partial

from keyseats import across_room
from keyseats.across_room import inch_plain as far
from keyseats.families.inch_plain import fraction_text
from keyseats.frame import DISTANCE, Frame, foot, foot_height, thick_and_thin, wall_title
from keyseats.load import Tables
from keyseats.page import Block, Page, Shape
from keyseats.palette import BODY
from keyseats.plain_charts.head import BAND, CAUTION, NO_ARC, across, caption, pen
from keyseats.plain_charts.inch_keys import every_key, said
from keyseats.plain_charts.inch_zones import (
    FIRST_SHAFT,
    LAST_KEY,
    KeyZone,
    tolerances,
    zones,
)
from keyseats.setting import box, figure, set_width
from keyseats.sheets import Sheet
from keyseats.standing import Limits, between
from keyseats.views import View

PITCH = 1.2
TIGHT = 1.06
GAP = 0.68
DISC = Fraction(2)
# The last key of each sheet: small lathe, up to 2-1/4 in, up to 3-1/4 in. Our layout, no source.
LAST_KEYS = ("1/4", "1/2", LAST_KEY)
OFF_SIZE = "depth from crown stays, floors move with shaft or bore."

SOURCES = (
    "Sources.",
    "Industrial Press, Shop Reference, table 1; Shigley, 9th ed., table 7-6; Engineers Edge 14411, "
    "14413, 14414; Machinery's Handbook, 31st ed., table 2. No taper keys.",
)
EVERY = [CAUTION, ("Off size, by thousandths:", OFF_SIZE), SOURCES]


def _notes(here: list[KeyZone]) -> list[tuple[str, str]]:
    """Return the foot of a sheet by shaft, with why its tolerance and its floors are as printed."""
    exact, kept = said(here).edge.split()[0], tolerances(here)[0].split()[0]
    inside = "" if kept == exact else f" {kept} is its {exact.lstrip('+')}, kept inside."
    places = "The standard prints floors to 3 places; reckoner, shaft sheet: 4."
    return [CAUTION, ("Off size, by thousandths:", f"{OFF_SIZE} {places}{inside}"), SOURCES]


def _height(zone: KeyZone, pitch: float, gap: float) -> float:
    """Return a zone's height in figure sizes: its shafts, or the key's own figures."""
    return max(len(zone.shafts) * pitch, 4 * TIGHT * pitch / PITCH) + gap


def sheets(tables: Tables) -> list[list[KeyZone]]:
    """Return the zones of each sheet."""
    found: list[list[KeyZone]] = [[]]
    for zone in zones(tables):
        found[-1].append(zone)
        if zone.name in LAST_KEYS[:-1]:
            found.append([])
    return found


def pages(tables: Tables, paper: str) -> Iterator[Page]:
    """Yield the chart's pages for one paper."""
    if paper in across_room.PAPERS:
        yield from far.pages(tables, paper)
        return
    all_sheets = sheets(tables)
    total = len(all_sheets) + 1
    for n, here in enumerate(all_sheets):
        yield _page(tables, paper, here, n + 1, total)
    yield every_key(tables, paper, total, said([z for here in all_sheets for z in here]), EVERY)


def _page(tables: Tables, paper: str, here: list[KeyZone], number: int, total: int) -> Page:
    f = Frame(paper, DISTANCE[paper])
    u = f.unit
    which = f"shafts {fraction_text(here[0].shafts[0])} to {fraction_text(here[-1].shafts[-1])} in"
    y = wall_title(
        f,
        "Plain keyseats",
        which,
        "How deep to cut: square plain (parallel) keys, ASME B17.1, class 1. All in inches.",
        f"sheet {number} of {total}",
    )
    _drawings(f, y + u * 0.15, here)
    y = _heads(f, y + u * BAND, here)
    notes = _notes(here)
    foot_top = f.bottom - foot_height(f, notes, f.note)
    rows = sum(max(len(z.shafts), 4 * TIGHT / PITCH) for z in here)
    room = (foot_top - y) / u - 0.15
    spare = room - sum(_height(z, PITCH, GAP) for z in here)
    if spare < -0.05:
        raise ValueError(f"the zones are {-spare:.2f} figure sizes too tall for {paper}")
    pitch = PITCH + min(0.3, 0.7 * spare / rows)
    gap = GAP + min(1.0, (spare - (pitch - PITCH) * rows) / len(here))
    for n, zone in enumerate(here):
        y = _zone(f, y, zone, pitch, gap)
        if n + 1 < len(here):
            f.composer.rule(f.left, f.right, y, u * 0.09)
    foot(f, notes, tables.edition, "Inch plain")
    return f.page(f"plain-inch-{number}", f"Plain keyseats, inch, {which}")


def _columns(f: Frame) -> dict[str, float]:
    """Return the right edges of the columns; ``name`` is a left edge."""
    u = f.unit
    return {
        "shaft": across(f, 7.05),
        "depth": across(f, 11.5),
        "floor": across(f, 15.45),
        "hub": across(f, 19.05),
        "name": across(f, 19.8),
        "least": f.right - u * 3.7,
        "most": f.right - u * 0.1,
    }


def _heads(f: Frame, y: float, here: list[KeyZone]) -> float:
    u, c, col = f.unit, f.composer, _columns(f)
    thick_and_thin(f, y)
    size, step = u * 0.6, u * 0.74
    first = y + u * 0.95
    say = partial(c.say, role="TH", header="Column")
    depth, floor, hub = tolerances(here)
    lines = (
        (col["shaft"], ("", "", "shaft")),
        (col["depth"], ("depth from crown", NO_ARC, depth)),
        (col["floor"], ("", "shaft", floor)),
        (col["hub"], ("", "hub", hub)),
        (col["least"], ("", "", "least")),
        (col["most"], ("", "", "most")),
    )
    for right, texts in lines:
        for n, text in enumerate(texts):
            if text:
                bold = text == "depth from crown"
                say(right, first + n * step, text, size, bold=bold, anchor="end")
    say(col["hub"], first, "floor to opposite side", size, anchor="end")
    for n, text in enumerate(("square key,", "drawn at", "actual size")):
        say(f.left, first + n * step, text, size)
    for n, text in enumerate(("for every shaft of this key;", "hub width as seat width")):
        say(col["name"], first + n * step, text, size)
    span = set_width("floor to opposite side", size)
    c.rule(col["hub"] - span, col["hub"], first + u * 0.16, u * 0.03)
    y += u * 2.75
    c.rule(f.left, f.right, y, u * 0.03)
    return y


def _zone(f: Frame, y: float, zone: KeyZone, pitch: float, gap: float) -> float:
    u, c, col = f.unit, f.composer, _columns(f)
    first = row = y + u * (0.88 + gap * 0.4)
    _key(f, first, zone)
    for shaft, seat in zip(zone.shafts, zone.seats, strict=True):
        c.say(
            col["shaft"],
            row,
            fraction_text(shaft),
            u,
            bold=True,
            anchor="end",
            role="TH",
            header="Row",
        )
        c.add(figure(col["depth"], row, seat.depth_from_crown.least, u))
        c.add(figure(col["floor"], row, seat.floor_to_opposite_side.most, f.second))
        c.add(figure(col["hub"], row, seat.hub_floor_to_opposite_side.least, f.second))
        row += u * pitch
    _constants(f, first, zone, pitch * TIGHT / PITCH)
    return y + u * _height(zone, pitch, gap)


def _key(f: Frame, y: float, zone: KeyZone) -> None:
    """Set the key's size, the shafts that it is for, and its section at actual size."""
    u, c = f.unit, f.composer
    c.say(
        f.left,
        y + u * 0.4,
        zone.name,
        u * 1.5,
        bold=True,
        role="TH",
        header="Row",
        rows=zone.tabled.key.width.rows,
    )
    over, to = (fraction_text(q.value) for q in (zone.row.shaft_over, zone.row.shaft_to))
    c.say(f.left, y + u * 1.32, f"over {over}", u * 0.6, rows=(zone.row.shaft_over.id,))
    c.say(f.left, y + u * 2.07, f"to {to}", u * 0.6, rows=(zone.row.shaft_to.id,))
    side = float(zone.row.width.value) * 72
    top = y + u * 2.42
    square = Shape(box(f.left, top, f.left + side, top + side), fill=BODY, stroke=u * 0.05)
    c.add(Block("Figure", (square,), alt=f"Square key, {zone.name} in, at actual size"))


def _constants(f: Frame, y: float, zone: KeyZone, pitch: float) -> None:
    u, c, col = f.unit, f.composer, _columns(f)
    tabled = zone.tabled
    assert tabled.depth_at_edge is not None
    lines: list[tuple[str, Limits]] = [
        ("seat width", tabled.seat_width),
        ("square key", tabled.key.height),
        ("depth at edge", tabled.depth_at_edge),
        ("key above edge", between(tabled.key.height, tabled.depth_at_edge, -1)),
    ]
    for n, (name, limits) in enumerate(lines):
        row = y + n * u * pitch
        c.say(col["name"], row, name, u * 0.6, role="TH", header="Row")
        shown = limits.printed(4)
        c.add(figure(col["least"], row, shown.least, f.second))
        c.add(figure(col["most"], row, shown.most, f.second))


def _drawings(f: Frame, y: float, here: list[KeyZone]) -> None:
    """Draw a real key of the page: its seat, both floors to their opposite sides, and the ramp."""
    u = f.unit
    zone = here[-1]
    shaft = zone.shafts[0] if here[0].shafts[0] != FIRST_SHAFT else Fraction(1)
    disc = DISC if shaft <= DISC else 2 * DISC
    view = View(f, zone.tabled, shaft, pen(f), u * 0.62, y, wide=3.0)
    view.seat(f.left + u * 6.7)
    view.opposite(f.left + u * 17.9)
    view.straight(f.right - u * 6.6, disc)
    caption(f, y, f"{zone.name} key, {fraction_text(shaft)} shaft", fraction_text(disc))


SHEETS = (
    Sheet(
        "wall-inch-plain",
        "wall chart",
        "Plain keyseats, inch: how deep, and how to prove it",
        ("Letter", "A4", "Tabloid", "A3", *across_room.PAPERS),
        pages,
        order=10,
    ),
)
