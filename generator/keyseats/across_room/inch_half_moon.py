"""Inch half-moon keyseats for across the room: depth from crown, key by shaft."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from keyseats.across_room.composing import BAND, CAUTION, measured_from, stacked_sum
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
from keyseats.half_moon_charts.inch_widths import OneWidth, by_width, drawn
from keyseats.lengths import read_fraction
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.plain_charts.head import pen
from keyseats.seat import Tabled, Work, seat_of
from keyseats.setting import DAGGER, figure
from keyseats.shared_tolerance import in_common
from keyseats.standing import Quantity
from keyseats.views import View

HEADS, HEAD, PITCH, GAP = 1.35, 1.65, 1.2, 0.45
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
    zones = [Zone(w.width, w.keys) for w in by_width(tables)]
    trial = Frame(paper, DISTANCE[paper])
    furniture = trial.unit * (2.85 + BAND + HEADS) + foot_height(trial, FOOT, trial.note)
    room = (trial.bottom - trial.top - furniture) / trial.unit
    start = 0
    counts = split([z.height for z in zones], room)
    for n, count in enumerate(counts):
        yield _page(tables, paper, zones[start : start + count], n + 1, len(counts))
        start += count


def _page(tables: Tables, paper: str, here: list[Zone], number: int, total: int) -> Page:
    f = Frame(paper, DISTANCE[paper])
    u, c = f.unit, f.composer
    first, last = here[0].width, here[-1].width
    which = f"{first} in" if first == last else f"{first} to {last} in"
    y = wall_title(
        f,
        "Half-moon keyseats",
        which,
        "How deep from the crown: Woodruff, ASME B17.2. Inches.",
        f"sheet {number} of {total}",
    )
    _band(f, y + u * 0.2, here)
    y += u * BAND
    thick_and_thin(f, y)
    c.say(f.left, y + u * 0.95, "key width; numbers below", u * 0.6)
    below = f"shaft; depth from crown below, {_plus(here)}"
    c.say(f.right, y + u * 0.95, below, u * 0.6, anchor="end")
    y += u * HEADS
    foot_top = f.bottom - foot_height(f, FOOT, f.note)
    spare = (foot_top - y) / u - sum(z.height for z in here)
    rows = sum(len(z.keys) for z in here)
    pitch = PITCH + min(0.25, 0.6 * spare / rows)
    gap = GAP + min(1.2, (spare - (pitch - PITCH) * rows) / len(here))
    for n, zone in enumerate(here):
        with c.table():
            y = _zone(f, y, zone, pitch) + u * gap
        if n + 1 < len(here):
            c.rule(f.left, f.right, y - u * 0.12, u * 0.09)
    foot(f, FOOT, tables.edition, "Inch half-moon")
    return f.page(f"half-moon-2m-{number}", f"Half-moon keyseats, inch, {which}, at 2 m")


def _band(f: Frame, y: float, here: list[Zone]) -> None:
    u = f.unit
    tabled = drawn(tuple(key for zone in here for key in zone.keys))
    width = next(zone.width for zone in here if tabled in zone.keys)
    shaft = read_fraction(SHAFTS[width].split()[0])
    View(f, tabled, shaft, pen(f), u * 0.64, y).seat(f.left + u * 6.55)
    stacked_sum(f, f.left + u * 13.9, y, measured_from())


def from_crown(tabled: Tabled, shaft: str) -> Quantity | None:
    """Return the least depth from crown, or None if the floor would lie past the centre. [in]"""
    seat = seat_of(tabled, Work("in", read_fraction(shaft)))
    deepest = seat.depth_from_crown.most.value
    return seat.depth_from_crown.least if deepest * 2 <= seat.work.shaft else None


def _plus(here: list[Zone]) -> str:
    """Return the tolerance of every depth of a sheet, kept inside the limits after rounding."""
    shown = []
    for zone in here:
        for tabled in zone.keys:
            for shaft in SHAFTS[zone.width].split():
                if from_crown(tabled, shaft) is not None:
                    seat = seat_of(tabled, Work("in", read_fraction(shaft)))
                    shown.append(seat.depth_from_crown)
    return in_common(shown, "least")


def _zone(f: Frame, y: float, zone: Zone, pitch: float) -> float:
    u, c = f.unit, f.composer
    shafts = SHAFTS[zone.width].split()
    left = f.left + u * 3.95
    room = (f.right - u * 0.35 - left) / 5
    at = {shaft: left + room * (n + 1) for n, shaft in enumerate(shafts)}
    base = y + u * 1.15
    c.say(f.left, base + u * 0.1, zone.width, u * 1.3, bold=True, role="TH", header="Column")
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
