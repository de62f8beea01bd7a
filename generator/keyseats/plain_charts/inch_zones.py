"""Keys of the inch plain-key chart, each with its shafts, and the tolerances that they share."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from keyseats.families import inch_plain
from keyseats.families.inch_plain import fraction_text
from keyseats.lengths import read_fraction
from keyseats.load import Tables
from keyseats.records import InchPlainKey
from keyseats.seat import Seat, Tabled, Work, seat_of
from keyseats.shared_tolerance import in_common

STEP = Fraction(1, 16)
FIRST_SHAFT = Fraction(3, 8)
# The last key whose shafts are listed one by one: our layout, no source.
LAST_KEY = "3/4"
# What a head says where the keys under it have not one tolerance, each of which then has its own.
EACH = "by key"


@dataclass(frozen=True)
class KeyZone:
    """All listed shafts of one key."""

    row: InchPlainKey
    tabled: Tabled
    shafts: tuple[Fraction, ...]
    seats: tuple[Seat, ...]

    @property
    def name(self) -> str:
        """Return the key's width as a fraction."""
        return fraction_text(self.row.width.value)


def listed(row: InchPlainKey) -> tuple[Fraction, ...]:
    """Return the sixteenths of a range that are listed."""
    shaft = max(row.shaft_over.value + STEP, FIRST_SHAFT)
    found = []
    while shaft <= row.shaft_to.value:
        found.append(shaft)
        shaft += STEP
    return tuple(found)


def zones(tables: Tables) -> list[KeyZone]:
    """Return the square keys of the listed shafts, narrow first."""
    found = []
    for row in inch_plain.rows(tables):
        if row.width.value > read_fraction(LAST_KEY):
            break
        shafts = listed(row)
        tabled = inch_plain.one(tables, row, "square", Work("in", shafts[0]), "first")
        if tabled is not None:
            seats = tuple(seat_of(tabled, Work("in", shaft)) for shaft in shafts)
            found.append(KeyZone(row, tabled, shafts, seats))
    return found


def tolerances(zones: Sequence[KeyZone]) -> tuple[str, str, str]:
    """Return the tolerances of depth from crown, floor and hub floor, each blank if not shared."""
    return tolerances_of([seat for zone in zones for seat in zone.seats])


def tolerances_of(seats: Sequence[Seat]) -> tuple[str, str, str]:
    """Return the tolerances of depth from crown, floor and hub floor, each blank if not shared."""
    return (
        in_common([seat.depth_from_crown for seat in seats], "least"),
        in_common([seat.floor_to_opposite_side for seat in seats], "most"),
        in_common([seat.hub_floor_to_opposite_side for seat in seats], "least"),
    )


def of_each(zone: KeyZone, shared: Sequence[str]) -> tuple[str, str, str]:
    """Return those tolerances of one key that its page's heads cannot say, the others blank."""
    own = tolerances([zone])
    depth, floor, hub = ("" if said else one for said, one in zip(shared, own, strict=True))
    return depth, floor, hub


def heads_say(here: Sequence[KeyZone], every: Sequence[KeyZone]) -> tuple[str, str, str]:
    """Return the tolerances over some keys: those of every key, or else their own, or blanks."""
    depth, floor, hub = (
        all_have or here_have
        for all_have, here_have in zip(tolerances(every), tolerances(here), strict=True)
    )
    return depth, floor, hub
