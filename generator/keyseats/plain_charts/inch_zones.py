"""Keys of the inch plain-key chart, each with its shafts, and the tolerances that they share."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from keyseats.families import inch_plain
from keyseats.families.inch_plain import fraction_text
from keyseats.faults import TableError
from keyseats.lengths import read_fraction
from keyseats.load import Tables
from keyseats.records import InchPlainKey
from keyseats.seat import Seat, Tabled, Work, seat_of
from keyseats.shared_tolerance import in_common

STEP = Fraction(1, 16)
FIRST_SHAFT = Fraction(3, 8)
# The last key whose shafts are listed one by one: our layout, no source.
LAST_KEY = "3/4"


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


def _shafts(row: InchPlainKey) -> tuple[Fraction, ...]:
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
        shafts = _shafts(row)
        tabled = inch_plain.one(tables, row, "square", Work("in", shafts[0]), "first")
        if tabled is not None:
            seats = tuple(seat_of(tabled, Work("in", shaft)) for shaft in shafts)
            found.append(KeyZone(row, tabled, shafts, seats))
    return found


def tolerances(zones: Sequence[KeyZone]) -> tuple[str, str, str]:
    """Return the tolerances that the heads print: depth from crown, floor, hub floor.

    Raises
    ------
    TableError
        If the keys of the page do not share them.
    """
    seats = [seat for zone in zones for seat in zone.seats]
    found = (
        in_common([seat.depth_from_crown for seat in seats], "least"),
        in_common([seat.floor_to_opposite_side for seat in seats], "most"),
        in_common([seat.hub_floor_to_opposite_side for seat in seats], "least"),
    )
    if not all(found):
        raise TableError(
            "inch_plain_fits.csv: the floor limits of class 1 square keys differ from width to "
            "width; the wall chart's head can say one only"
        )
    return found
