"""The rows of a ready reckoner: one seat computed for every size that its shaft may measure."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from keyseats.faults import TypedError
from keyseats.load import Tables
from keyseats.lookup import module
from keyseats.seat import SETTING_PLACES, Seat, Tabled, seat_of
from keyseats.standing import Limits, Quantity, typed

STEP = {"in": Fraction(1, 1000), "mm": Fraction(1, 50)}
# A shaft that was turned for a fit, or turned again, is more often under its size than over it.
UNDER, OVER = 10, 5
# Nominal sizes that are whole here have rows counted from them; others have rows at whole steps.
_WHOLE = {"in": Fraction(1, 1000), "mm": Fraction(1, 100)}


@dataclass(frozen=True)
class Row:
    """The depths of one seat in a shaft that measures so much, rounded inward. [length]"""

    shaft: Quantity
    depth_from_crown: Limits
    floor_to_opposite_side: Limits
    nominal: bool


def sizes(nominal: Fraction, unit: str) -> tuple[Fraction, ...]:
    """Return the sizes that are listed, rising: ten under nominal, nominal, five over it.

    Parameters
    ----------
    nominal
        Nominal shaft diameter. [in or mm]
    unit
        ``in`` or ``mm``.
    """
    step = STEP[unit]
    if nominal % _WHOLE[unit] == 0:
        below = above = nominal
    else:
        below = nominal // step * step + step
        above = below - step
    under = [below - n * step for n in range(UNDER, 0, -1)]
    return (*under, nominal, *(above + n * step for n in range(1, OVER + 1)))


def tabled_of(tables: Tables, seat: Seat) -> Tabled:
    """Return what the standard tables of a seat's key.

    Raises
    ------
    KeyError
        If the family has no such key.
    """
    family = module(seat.key.family)
    for listed in (family.tabled, family.every):
        found: list[Tabled] = listed(tables, seat.work)
        for one in found:
            if one.key.designation == seat.key.designation:
                return one
    raise KeyError(seat.key.designation)


def rows_of(tables: Tables, seat: Seat) -> tuple[Row, ...]:
    """Return a seat's depths by the shaft as measured.

    Parameters
    ----------
    tables
        Where the key is tabled.
    seat
        The seat at its nominal size, with the cutter that it was computed for.

    Raises
    ------
    TypedError
        If the key cannot be let into the smallest of these shafts.
    """
    tabled, unit = tabled_of(tables, seat), seat.work.unit
    places, nominal = SETTING_PLACES[unit], seat.work.nominal
    listed = sizes(nominal, unit)
    shown = _places(listed, unit)
    rows = []
    for size in listed:
        try:
            found = seat_of(tabled, replace(seat.work, measured=size))
        except ValueError:
            raise TypedError(
                f"--card: a {seat.key.designation} key cannot be let into a shaft of "
                f"{float(size):g} {unit}; take a smaller key"
            ) from None
        rows.append(
            Row(
                typed(size, unit).printed(shown),
                # At nominal the standard's own figure has one place fewer than the rows round it.
                found.depth_from_crown.printed(places),
                found.floor_to_opposite_side.printed(places),
                size == nominal,
            )
        )
    return tuple(rows)


def _places(listed: tuple[Fraction, ...], unit: str) -> int:
    """Return the places of the sizes: no more than a micrometer with a vernier shows."""
    least = 3 if unit == "in" else 2
    whole = all((size * 10**least).denominator == 1 for size in listed)
    return least if whole else least + 1
