"""Inch plain keyseats for across the room: by shaft, and a last sheet of every key."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from keyseats.across_room.composing import CAUTION
from keyseats.families.inch_plain import fraction_text
from keyseats.frame import (
    DISTANCE,
    Frame,
    foot,
    foot_height,
    split,
    thick_and_thin,
    wall_title,
)
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.plain_charts.head import BAND, NO_ARC, pen
from keyseats.plain_charts.inch_keys import BELOW, every_key, ranges
from keyseats.plain_charts.inch_said import each_key, exceptions, rounding, said
from keyseats.plain_charts.inch_zones import EACH, KeyZone, heads_say, of_each, tolerances, zones
from keyseats.setting import figure, set_width
from keyseats.views import View

TITLE, HEADS, PITCH, GAP = 2.85, 2.6, 1.18, 0.5
# What a sheet that is not full gives to its rows, and to the white of its zones, at most.
OPENS, PARTS = 0.36, 1.3
# The least lines of a zone: its key and both ends of its range stand beside them.
LINES = 2.1
# A key's own tolerances over its first shaft, where the keys of a sheet do not share them.
OWN = 0.8
Tolerances = tuple[str, str, str]
# Sixteenths that are seldom used, first to go where a sheet is full: our layout, no source.
SELDOM = frozenset(
    ("1-1/16", "1-9/16", "1-13/16", "2-1/16", "2-5/16", "2-9/16", "2-13/16", "3-1/16")
)
SOURCES = (
    "Sources.",
    "Industrial Press; Shigley, 9th ed.; Engineers Edge; Machinery's Handbook, 31st ed. "
    "No taper keys.",
)


def _notes(edge: str, depth: str) -> list[tuple[str, str]]:
    """Return the foot of a sheet by shaft; the tolerances are those of its heads."""
    off = "Depth from crown stays, floors move. More shafts, widths, keys: smaller chart."
    return [CAUTION, ("Off size?", f"{off}{rounding(edge, depth)}"), SOURCES]


def _every(edge: str) -> list[tuple[str, str]]:
    """Return the foot of the last sheet, where the arc height is not added yet."""
    return [
        CAUTION,
        (
            "Depth from crown",
            f"= depth at edge + arc height ({edge}). On the sheets before, it is already "
            "added. Arc height = R−√(R²−(W/2)²): R half the shaft, W the key width.",
        ),
        (
            "Sources.",
            "Industrial Press; Shigley, 9th ed.; Engineers Edge; Machinery's Handbook, 31st ed. "
            "Widths: smaller chart, sheet 3.",
        ),
    ]


def usual(zone: KeyZone, also: Collection[Fraction] = ()) -> KeyZone:
    """Return a key with its usual shafts only, and what else there is room for."""
    kept = [
        n
        for n, shaft in enumerate(zone.shafts)
        if shaft in also or fraction_text(shaft) not in SELDOM
    ]
    return replace(
        zone,
        shafts=tuple(zone.shafts[n] for n in kept),
        seats=tuple(zone.seats[n] for n in kept),
    )


def fitting(every: Sequence[KeyZone], room: float, gap: float) -> list[KeyZone]:
    """Return the keys of a sheet with their usual shafts, and small ones first of the seldom ones.

    Parameters
    ----------
    every
        The keys with all their shafts.
    room
        Height for their zones. [figure sizes]
    gap
        The least white in each. [figure sizes]
    """
    also: set[Fraction] = set()
    here = [usual(zone) for zone in every]
    for shaft in (one for zone in every for one in zone.shafts if fraction_text(one) in SELDOM):
        more = [usual(zone, also | {shaft}) for zone in every]
        if sum(_height(zone, PITCH, gap) for zone in more) <= room:
            here, also = more, also | {shaft}
    return here


def _height(zone: KeyZone, pitch: float, gap: float) -> float:
    """Return a zone's height in figure sizes."""
    return max(len(zone.shafts), LINES) * pitch + gap


def pages(tables: Tables, paper: str) -> Iterator[Page]:
    """Yield the chart's pages for one paper."""
    all_zones = zones(tables)
    trial = Frame(paper, DISTANCE[paper])
    says = said(all_zones)
    edges = [said([zone]) for zone in all_zones]
    foots = [_notes(one.edge, depth) for one in edges for depth in (says.depth, one.depth)]
    tall = max(foot_height(trial, notes, trial.note) for notes in foots)
    room = (trial.bottom - trial.top - tall) / trial.unit - TITLE - BAND - HEADS
    gap = GAP if all(tolerances(all_zones)) else GAP + OWN
    counts = split([_height(usual(z), PITCH, gap) for z in all_zones], room)
    total = len(counts) + 1
    start = 0
    for n, count in enumerate(counts):
        here = fitting(all_zones[start : start + count], room, gap)
        yield _page(tables, paper, here, (n + 1, total), heads_say(here, all_zones))
        start += count
    differ = exceptions(each_key(tables, ranges(tables)))
    edge = BELOW if "edge" in differ else says.edge
    yield every_key(tables, paper, total, says, _every(edge))


def _page(
    tables: Tables, paper: str, here: list[KeyZone], sheet: tuple[int, int], says: Tolerances
) -> Page:
    f = Frame(paper, DISTANCE[paper])
    u = f.unit
    number, total = sheet
    which = f"{fraction_text(here[0].shafts[0])} to {fraction_text(here[-1].shafts[-1])} in"
    y = wall_title(
        f,
        "Plain keyseats",
        which,
        "Square keys by shaft, ASME B17.1, class 1. Inches.",
        f"sheet {number} of {total}",
    )
    _drawings(f, y, here)
    y = _heads(f, y + u * BAND, says)
    notes = _notes(said(here).edge, says[0])
    foot_top = f.bottom - foot_height(f, notes, f.note)
    rows = sum(max(len(z.shafts), LINES) for z in here)
    own = 0.0 if all(says) else OWN
    spare = (foot_top - y) / u - sum(_height(z, PITCH, GAP + own) for z in here)
    pitch = PITCH + min(OPENS, 0.7 * spare / rows)
    gap = GAP + min(PARTS, (spare - (pitch - PITCH) * rows) / len(here))
    for n, zone in enumerate(here):
        if own:
            _own_tolerances(f, y + u * (0.5 + gap * 0.4), of_each(zone, says))
        _zone(f, y + u * own, zone, pitch, gap)
        y += u * _height(zone, pitch, gap + own)
        if n + 1 < len(here):
            f.composer.rule(f.left, f.right, y, u * 0.09)
    foot(f, notes, tables.edition, "Inch plain")
    return f.page(f"plain-inch-2m-{number}", f"Plain keyseats, inch, shafts {which}, at 2 m")


def _drawings(f: Frame, y: float, here: list[KeyZone]) -> None:
    """Draw the seat of a real key of the page, and both floors to their opposite sides."""
    u = f.unit
    zone = here[-1]
    shaft = zone.shafts[0] if len(here) == 1 or zone.shafts[0] != Fraction(3, 8) else Fraction(1)
    view = View(f, zone.tabled, shaft, pen(f), u * 0.62, y, wide=3.0)
    view.seat(f.left + u * 6.65)
    view.opposite(f.right - u * 6.55)


def _columns(f: Frame) -> dict[str, float]:
    """Return the right edges of the columns."""
    wide = f.right - f.left
    at = {"shaft": 0.355, "depth": 0.575, "floor": 0.79, "hub": 0.995}
    return {name: f.left + wide * part for name, part in at.items()}


def _heads(f: Frame, y: float, says: Tolerances) -> float:
    u, c, col = f.unit, f.composer, _columns(f)
    thick_and_thin(f, y)
    size, first, step = u * 0.6, y + u * 0.95, u * 0.74
    over = "floor to opposite side"
    depth, floor, hub = says

    def head(name: str, lines: tuple[str, ...], *, bold: bool = False) -> None:
        for n, text in enumerate(lines):
            if text:
                c.say(
                    col[name],
                    first + n * step,
                    text,
                    size,
                    bold=bold and text == lines[0],
                    anchor="end",
                    role="TH",
                    header="Column",
                )

    c.say(f.left, first + 2 * step, "key", size, role="TH", header="Column")
    head("shaft", ("", "", "shaft size"))
    head("depth", ("depth from crown", NO_ARC, depth or EACH), bold=True)
    head("floor", ("", "shaft", floor or EACH))
    head("hub", ("", "hub", hub or EACH))
    c.say(col["hub"], first, over, size, anchor="end", role="TH", header="Column")
    wide = max(set_width(floor or EACH, size), set_width("0.000", f.second))
    left = min(col["floor"] - wide, col["hub"] - set_width(over, size))
    c.rule(left, col["hub"], first + u * 0.16, u * 0.03)
    c.rule(f.left, f.right, y + u * HEADS, u * 0.03)
    return y + u * HEADS


def _own_tolerances(f: Frame, base: float, own: Tolerances) -> None:
    """Set what the heads do not say for every key, over the figures that it is for."""
    col = _columns(f)
    for name, text in zip(("depth", "floor", "hub"), own, strict=True):
        if text:
            f.composer.say(col[name], base, text, f.note, anchor="end", role="TD")


def _zone(f: Frame, y: float, zone: KeyZone, pitch: float, gap: float) -> None:
    u, c, col = f.unit, f.composer, _columns(f)
    row = y + u * (0.84 + gap * 0.4)
    name, ids = zone.name, zone.tabled.key.width.rows
    c.say(f.left, row + u * 0.4, name, u * 1.5, bold=True, role="TH", header="Row", rows=ids)
    to = fraction_text(zone.row.shaft_to.value)
    c.say(f.left, row + u * 1.3, f"shafts to {to}", u * 0.6, rows=(zone.row.shaft_to.id,))
    for shaft, seat in zip(zone.shafts, zone.seats, strict=True):
        size = fraction_text(shaft)
        c.say(col["shaft"], row, size, u, bold=True, anchor="end", role="TH", header="Row")
        c.add(figure(col["depth"], row, seat.depth_from_crown.least, u))
        c.add(figure(col["floor"], row, seat.floor_to_opposite_side.most, f.second))
        c.add(figure(col["hub"], row, seat.hub_floor_to_opposite_side.least, f.second))
        row += u * pitch
