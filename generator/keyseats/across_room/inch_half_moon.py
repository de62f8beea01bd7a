"""Inch half-moon keyseats for across the room: depth from crown, key by shaft."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from keyseats.across_room.composing import CAUTION, measured_from, stacked_sum
from keyseats.drawing import label, leader, span
from keyseats.frame import (
    DISTANCE,
    RECALLED,
    Frame,
    foot,
    foot_height,
    split,
    thick_and_thin,
    wall_title,
)
from keyseats.half_moon_charts.inch_widths import OneWidth, by_width, named, over
from keyseats.lengths import read_fraction
from keyseats.load import Tables
from keyseats.page import Block, Line, Mark, Page
from keyseats.plain_charts.head import pen
from keyseats.seat import Tabled, Work, seat_of
from keyseats.sections import Across, whole_shaft
from keyseats.setting import DAGGER, figure, set_width
from keyseats.standing import Limits, Quantity

# The heights of the title, of the drawing and the sum, and of the heads; of a zone's own head, and
# the white under it. [figure sizes]
TITLE, BAND, HEADS = 2.6, 6.1, 1.3
HEAD, GAP, MOST_GAP = 1.6, 0.35, 1.6
# From row to row: at least, at most, and where a sheet has one width alone. [figure sizes]
PITCH, MOST_PITCH, ALONE = 1.18, 1.6, 2.15
# The part of what room is left that opens the rows; the rest is white between the zones.
SHARE = 0.6
# Five usual shafts of each width, inside its range: our layout, no source.
SHAFTS = {
    "1/16": "5/16 3/8 7/16 1/2",
    "3/32": "3/8 1/2 5/8 3/4 7/8",
    "1/8": "1/2 5/8 3/4 1 1-1/4",
    "5/32": "5/8 3/4 7/8 1 1-1/4",
    "3/16": "5/8 3/4 1 1-1/4 1-1/2",
    "7/32": "7/8 1 1-1/4 1-1/2 1-3/4",
    "1/4": "7/8 1 1-1/4 1-1/2 2",
    "5/16": "1 1-1/4 1-1/2 1-3/4 2",
    "3/8": "1-1/4 1-1/2 1-3/4 2 2-1/2",
}
FOOT = [
    CAUTION,
    (DAGGER, RECALLED),
    (
        "Key 608",
        "is 6/32 wide, 8/8 in diameter. Blank: past the shaft's centre. More: smaller charts.",
    ),
    (
        "Sources.",
        "Shigley, 9th ed.; Machinery's Handbook, 31st ed.; a textbook.",
    ),
]


@dataclass(frozen=True)
class Zone(OneWidth):
    """All keys of one width, under its usual shafts."""

    @property
    def height(self) -> float:
        """Return the zone's height in figure sizes."""
        return HEAD + len(self.keys) * PITCH + GAP


def pages(tables: Tables, paper: str) -> Iterator[Page]:
    """Yield the chart's pages for one paper."""
    rest = [Zone(w.width, w.keys) for w in by_width(tables)]
    trial = Frame(paper, DISTANCE[paper])
    furniture = trial.unit * (TITLE + BAND + HEADS) + foot_height(trial, FOOT, trial.note)
    room = (trial.bottom - trial.top - furniture) / trial.unit
    sheets = []
    for count in split([z.height for z in rest], room):
        sheets.append(rest[:count])
        rest = rest[count:]
    for n, here in enumerate(sheets, 1):
        yield _page(tables, paper, here, filled(here, room), f"sheet {n} of {len(sheets)}")


def filled(here: Sequence[Zone], room: float) -> tuple[float, float]:
    """Return a sheet's step from row to row, and the white under each zone.

    Parameters
    ----------
    here
        The zones of the sheet.
    room
        What they may take. [figure sizes]
    """
    rows = sum(len(z.keys) for z in here)
    spare = room - sum(z.height for z in here)
    alone = len(here) == 1
    opened = (1.0 if alone else SHARE) * spare / rows
    pitch = min(ALONE if alone else MOST_PITCH, PITCH + opened)
    return pitch, min(MOST_GAP, (room - len(here) * HEAD - rows * pitch) / len(here))


def _page(
    tables: Tables, paper: str, here: list[Zone], fill: tuple[float, float], which_sheet: str
) -> Page:
    """Return one sheet; ``fill`` is its step from row to row and the white under a zone."""
    f = Frame(paper, DISTANCE[paper])
    u, c = f.unit, f.composer
    which = named(here)
    sub = "How deep from the crown: Woodruff, ASME B17.2. Inches."
    y = wall_title(f, "Half-moon keyseats", which, sub, which_sheet)
    _band(f, y + u * 0.2, here)
    y = _heads(f, y + u * BAND, here)
    pitch, gap = fill
    for n, zone in enumerate(here):
        with c.table():
            y = _zone(f, y, zone, pitch) + u * gap
        if n + 1 < len(here):
            c.rule(f.left, f.right, y - u * 0.12, u * 0.09)
    foot(f, FOOT, tables.edition, "Inch half-moon")
    number = which_sheet.split()[1]
    return f.page(f"half-moon-2m-{number}", f"Half-moon keyseats, inch, {which}, at 2 m")


def _band(f: Frame, y: float, here: list[Zone]) -> None:
    u = f.unit
    pairs = [
        (one, shaft)
        for zone in here
        for one in zone.keys
        for shaft in SHAFTS[zone.width].split()
        if from_crown(one, shaft) is not None
    ]
    _shaft(f, f.left + u * 5.35, y, *min(pairs, key=lambda pair: abs(_part(*pair) - 0.36)))
    stacked_sum(f, f.left + u * 13.9, y, measured_from())


def _part(tabled: Tabled, shaft: str) -> float:
    """Return the part of a shaft that a seat takes."""
    depth = from_crown(tabled, shaft)
    assert depth is not None
    return float(depth.value / read_fraction(shaft))


def _shaft(f: Frame, x: float, y: float, tabled: Tabled, shaft: str) -> None:
    """Draw a real seat across its whole shaft, with the three parts of the sum beside it."""
    u, lines, size = f.unit, pen(f), f.unit * 0.64
    radius = u * 2.05
    scale = 2 * radius / float(read_fraction(shaft))
    half = float(tabled.key.width.value) / 2 * scale
    a = Across(x, y + u * 1.35, radius, half, _part(tabled, shaft) * 2 * radius)
    marks: list[Mark | Block] = [*whole_shaft(a, lines)]
    left, right, past = a.x - radius - u * 0.5, a.x + radius + u * 0.5, u * 0.3
    for level, begin in ((a.crown, a.x), (a.floor, a.right + u * 0.1), (a.bottom, a.x)):
        marks.append(Line(begin, level, right + past, level, lines.thin))
    for level in (a.crown, a.bottom):
        marks.append(Line(a.x, level, left - past, level, lines.thin))
    marks += span((right, a.crown), (right, a.floor), lines)
    marks += span((right, a.floor), (right, a.bottom), lines)
    marks += span((left, a.crown), (left, a.bottom), lines)
    beside = right + past + size / 2
    marks += _between(beside, a.crown, a.floor, ["depth", "from crown"], size, bold=True)
    marks += _between(beside, a.floor, a.bottom, ["floor to", "opposite side"], size)
    marks += _between(left - past - size / 2, a.crown, a.bottom, ["shaft"], size, anchor="end")
    marks += label(a.x, a.crown - u * 0.8, ["crown"], size, anchor="middle")
    marks += leader([(a.x, a.crown - u * 0.65), (a.x, a.crown - u * 0.05)], lines)
    depth = from_crown(tabled, shaft)
    assert depth is not None
    f.composer.add(
        Block(
            "Figure",
            tuple(marks),
            rows=(*depth.rows, *tabled.key.width.rows),
            alt="Seat across the shaft: shaft less depth from crown is floor to opposite side",
        )
    )


def _between(
    x: float,
    top: float,
    bottom: float,
    lines: list[str],
    size: float,
    *,
    bold: bool = False,
    anchor: str = "start",
) -> list[Mark | Block]:
    """Return a label half-way between two levels."""
    first = (top + bottom) / 2 + size * (0.36 - 0.59 * (len(lines) - 1))
    return label(x, first, lines, size, bold=bold, anchor=anchor)


def _heads(f: Frame, y: float, here: list[Zone]) -> float:
    u, c = f.unit, f.composer
    thick_and_thin(f, y)
    base, size = y + u * 0.92, u * 0.6
    c.say(f.left, base, "key width", size)
    plus = over(depths(here))
    said = f"rounded up, leaving +{plus.text}{DAGGER if plus.recalled else ''} −0"
    c.say(f.right, base, said, size, anchor="end", rows=plus.rows)
    before = f.right - set_width(said, size) - size
    c.say(before, base, "depth from crown", size, bold=True, anchor="end")
    return y + u * HEADS


def depths(here: Sequence[Zone]) -> list[Limits]:
    """Return the depths from crown of a sheet, each with its limits. [in]"""
    return [
        seat_of(tabled, Work("in", read_fraction(shaft))).depth_from_crown
        for zone in here
        for tabled in zone.keys
        for shaft in SHAFTS[zone.width].split()
        if from_crown(tabled, shaft) is not None
    ]


def from_crown(tabled: Tabled, shaft: str) -> Quantity | None:
    """Return the least depth from crown, or None if the floor would lie past the centre. [in]"""
    seat = seat_of(tabled, Work("in", read_fraction(shaft)))
    deepest = seat.depth_from_crown.most.value
    return seat.depth_from_crown.least if deepest * 2 <= seat.work.shaft else None


def _zone(f: Frame, y: float, zone: Zone, pitch: float) -> float:
    u, c = f.unit, f.composer
    shafts = SHAFTS[zone.width].split()
    left = f.left + u * 3.95
    room = (f.right - u * 0.35 - left) / 5
    at = {shaft: left + room * (n + 1) for n, shaft in enumerate(shafts)}
    base = y + u * 1.15
    c.say(f.left, base, zone.width, u * 1.3, bold=True, role="TH", header="Column")
    c.say(f.left + u * 3.5, base, "shaft", u * 0.6)
    for shaft, x in at.items():
        c.say(x, base, shaft, u, bold=True, anchor="end", role="TH", header="Column")
    y += u * HEAD
    c.rule(f.left, f.right, y, u * 0.03)
    for n, tabled in enumerate(zone.keys):
        top = y + n * pitch * u
        if n % 2:
            c.shade(f.left, top, f.right, top + pitch * u)
        base = top + pitch * u / 2 + u * 0.365
        key = tabled.key
        c.say(
            f.left + u * 0.2,
            base,
            key.designation,
            u,
            bold=True,
            role="TH",
            header="Row",
            rows=key.width.rows,
        )
        for shaft, x in at.items():
            depth = from_crown(tabled, shaft)
            if depth is not None:
                c.add(figure(x, base, depth, u))
    return y + len(zone.keys) * pitch * u
