"""Panels of the inch plain-key chart: a ruled band a key, and under it one row a shaft."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from keyseats.families.inch_plain import fraction_text
from keyseats.frame import Frame
from keyseats.page import Block, Text
from keyseats.plain_charts.head import NO_ARC
from keyseats.plain_charts.inch_zones import EACH, KeyZone, heads_say, of_each, tolerances
from keyseats.seat import Seat
from keyseats.setting import figure, limits_line, set_width, words
from keyseats.standing import Limits

# All in figure sizes. Between two panels, which are not read across.
GUTTER = 1.3
HEADS = 2.75
# From shaft to shaft: what a page should have, and the least and the most that it may come to: a
# corrected range may bring a panel one row more.
PITCH, LEAST_PITCH, MOST_PITCH = 1.2, 1.05, 1.55
# How much taller a key's band is, and how the white over a band and the heads grow with the pitch.
TALLER, OPENS, HEADS_OPEN = 0.1, 1.5, 2.0
# A key's own tolerances under its band, where the keys of a panel do not share them.
OWN = 0.75
KEY = 1.15
# The right edges of a panel's columns, of a panel that is as wide as A4's.
WIDE = 15.19
COLUMNS = {"shaft": 3.6, "depth": 7.8, "floor": 11.5, "hub": 15.1}


@dataclass(frozen=True)
class Place:
    """Where a panel stands. [pt]"""

    left: float
    right: float

    def column(self, name: str) -> float:
        """Return the right edge of a column. [pt]"""
        return self.left + COLUMNS[name] * (self.right - self.left) / WIDE


def places(f: Frame) -> tuple[Place, Place]:
    """Return the two panels of a page."""
    wide = (f.right - f.left - f.unit * GUTTER) / 2
    return Place(f.left, f.left + wide), Place(f.right - wide, f.right)


def _heads_height(pitch: float) -> float:
    return HEADS + max(0.0, pitch - PITCH) * HEADS_OPEN


def _own(zones: Sequence[KeyZone]) -> float:
    """Return the height of each key's own tolerances, nothing if the heads say them all."""
    return 0.0 if all(tolerances(zones)) else OWN


def _height(zones: Sequence[KeyZone], pitch: float) -> float:
    """Return what a panel needs at a pitch, its heads with it. [figure sizes]"""
    own = _own(zones)
    rows = sum(len(zone.shafts) + 1 for zone in zones) * pitch + len(zones) * (TALLER + own)
    white = max(0.0, pitch - PITCH) * OPENS
    return _heads_height(pitch) + rows + (len(zones) - 1) * white


def pitch_for(panels: Sequence[Sequence[KeyZone]], room: float, more: float = 0) -> float:
    """Return the pitch at which the taller of some panels, and more under it, fill a room.

    Parameters
    ----------
    panels
        The keys of each panel.
    room
        Height for heads and rows. [figure sizes]
    more
        How much stands elsewhere in the same room and opens as the rows do. [rows]

    Raises
    ------
    ValueError
        If the rows would stand closer than `LEAST_PITCH`.
    """
    found = []
    for zones in panels:
        spare = room - _height(zones, PITCH) - more * PITCH
        # What one more figure size between rows takes: heads and white open, they never close.
        side = 1 if spare > 0 else -1
        each = side * (_height(zones, PITCH + side) - _height(zones, PITCH)) + more
        found.append(spare / each)
    pitch = min(MOST_PITCH, PITCH + min(found))
    if pitch < LEAST_PITCH:
        raise ValueError(
            f"a panel's rows would stand {pitch:.2f} figure sizes apart, {LEAST_PITCH} is the least"
        )
    return pitch


def height(panels: Sequence[Sequence[KeyZone]], pitch: float) -> float:
    """Return the height of the taller panel, its heads with it. [figure sizes]"""
    return max(_height(zones, pitch) for zones in panels)


def panel(
    f: Frame,
    place: Place,
    y: float,
    zones: Sequence[KeyZone],
    size: tuple[float, float],
    page: Sequence[KeyZone],
) -> None:
    """Set a panel as a table of its own, for the next one's rows stand on the same lines.

    Parameters
    ----------
    f
        The page.
    place
        Where it stands.
    y
        Upper edge of its heads. [pt]
    zones
        Its keys.
    size
        From shaft to shaft, and the height of the taller panel, which this one fills too.
        [figure sizes]
    page
        All keys of the page, whose tolerances the heads say where they share them.
    """
    u = f.unit
    pitch, tall = size
    said, own = heads_say(zones, page), _own(zones)
    white = 0.0
    if len(zones) > 1:
        tight = _height(zones, pitch) - max(0.0, pitch - PITCH) * OPENS * (len(zones) - 1)
        white = (tall - tight) / (len(zones) - 1)
    with f.composer.table():
        heads = _heads_height(pitch)
        _heads(f, place, y, heads / HEADS, page, said)
        y += u * heads
        for zone in zones:
            _band(f, place, y, zone, pitch + TALLER)
            y += u * (pitch + TALLER)
            if own:
                _own_tolerances(f, place, y + u * (OWN - 0.2), zone, of_each(zone, said))
                y += u * own
            for shaft, seat in zip(zone.shafts, zone.seats, strict=True):
                _row(f, place, y + u * (pitch / 2 + 0.36), shaft, seat)
                y += u * pitch
            y += u * white


def _rests_on(limits: Iterable[Limits]) -> tuple[str, ...]:
    """Return what a tolerance rests on: the figures behind one end of the limits only."""
    found: dict[str, None] = {}
    for one in limits:
        for row in one.rows:
            if (row in one.least.rows) != (row in one.most.rows):
                found[row] = None
    return tuple(found)


def _heads(
    f: Frame,
    place: Place,
    y: float,
    open_: float,
    page: Sequence[KeyZone],
    said: tuple[str, str, str],
) -> None:
    """Set the columns' heads, each tolerance in its own column."""
    u, c = f.unit, f.composer
    size = f.note
    first, second, last = (y + u * open_ * at for at in (0.88, 1.64, 2.4))
    seats = [seat for zone in page for seat in zone.seats]
    depth, floor, hub = said

    def head(name: str, level: float, text: str, *, bold: bool = False) -> None:
        at = place.column(name)
        c.say(at, level, text, size, bold=bold, anchor="end", role="TH", header="Column")

    def tolerance(name: str, text: str, limits: list[Limits]) -> None:
        right, rows = place.column(name), _rests_on(limits)
        text = text or EACH
        c.say(right, last, text, size, anchor="end", role="TH", header="Column", rows=rows)

    head("shaft", last, "shaft size")
    head("depth", first, "depth from crown", bold=True)
    head("depth", second, NO_ARC)
    tolerance("depth", depth, [seat.depth_from_crown for seat in seats])
    over = "floor to opposite side"
    with c.over():
        right = place.column("hub")
        wide = max(set_width(floor or EACH, size), set_width("0.000", f.second))
        left = min(place.column("floor") - wide, right - set_width(over, size))
        c.say(right, first, over, size, anchor="end")
        c.rule(left, right, first + u * 0.16, u * 0.03)
        head("floor", second, "shaft")
        tolerance("floor", floor, [seat.floor_to_opposite_side for seat in seats])
        head("hub", second, "hub")
        tolerance("hub", hub, [seat.hub_floor_to_opposite_side for seat in seats])


def _band(f: Frame, place: Place, y: float, zone: KeyZone, tall: float) -> None:
    """Set a key and its seat's width between a rule and its first shaft."""
    u, c = f.unit, f.composer
    c.shade(place.left, y, place.right, y + u * tall)
    c.rule(place.left, place.right, y, u * 0.05)
    base = y + u * (tall / 2 + 0.43)
    at = place.left + u * 0.12
    row = zone.row
    name = words(at, base, zone.name, u * KEY, bold=True)
    at += set_width(zone.name, u * KEY, bold=True) + u * 0.2
    ids = (*zone.tabled.key.width.rows, row.shaft_over.id, row.shaft_to.id)
    c.add(Block("TH", (name, Text(at, base, "key", f.note)), rows=ids, header="Row"))
    at = place.left + u * 4.4
    block, _ = limits_line(
        at + set_width("seat width", f.note) + u * 0.28,
        base,
        zone.tabled.seat_width.printed(4),
        f.second,
        small=f.note / f.second,
        clear=0.42,
    )
    c.add(Block("TD", (Text(at, base, "seat width", f.note), block)))


def _own_tolerances(
    f: Frame, place: Place, base: float, zone: KeyZone, said: tuple[str, str, str]
) -> None:
    """Set what the heads do not say for every key, over the figures that it is for."""
    seats = zone.seats
    for name, text, limits in (
        ("depth", said[0], [seat.depth_from_crown for seat in seats]),
        ("floor", said[1], [seat.floor_to_opposite_side for seat in seats]),
        ("hub", said[2], [seat.hub_floor_to_opposite_side for seat in seats]),
    ):
        right, rows = place.column(name), _rests_on(limits)
        if text:
            f.composer.say(right, base, text, f.note, anchor="end", role="TD", rows=rows)


def _row(f: Frame, place: Place, y: float, shaft: Fraction, seat: Seat) -> None:
    u, c = f.unit, f.composer
    size = fraction_text(shaft)
    c.say(place.column("shaft"), y, size, u, bold=True, anchor="end", role="TH", header="Row")
    c.add(figure(place.column("depth"), y, seat.depth_from_crown.least, u))
    c.add(figure(place.column("floor"), y, seat.floor_to_opposite_side.most, f.second))
    c.add(figure(place.column("hub"), y, seat.hub_floor_to_opposite_side.least, f.second))
