"""Codes of shaft sheets: of every key, standard and fit, the same for every shaft and size."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from keyseats.alignment import alignment
from keyseats.corrections.ranges import range_rows
from keyseats.corrections.stamping import stamp
from keyseats.load import Tables
from keyseats.lookup import FAMILIES, OF_UNIT, module
from keyseats.page import Stamp
from keyseats.seat import Key, Seat, Tabled, Work
from keyseats.speeds import materials, speed_for
from keyseats.standing import Limits, Quantity, typed

WHAT = "shaft sheet: "


def shaft_stamp(tables: Tables, seat: Seat | Tabled, more: Iterable[str] = ()) -> Stamp:
    """Return the code of a shaft sheet, the same for every shaft and size measured.

    Parameters
    ----------
    tables
        The tables.
    seat
        A seat, or what a standard tables of it.
    more
        Ids of the figures that the sheet prints beside the seat's own.
    """
    key = seat.key
    what = f"{key.family}, {key.standard}, {key.designation}, {seat.fit}"
    rows = dict.fromkeys((*range_rows(tables, key), *more))
    for value in (*_values(seat), *_values(key)):
        rows.update(dict.fromkeys(value.rows))
    return stamp(tables, f"{WHAT}{what}", rows)


def beside(tables: Tables, unit: str, material: str = "") -> tuple[str, ...]:
    """Return ids of the figures that every shaft sheet prints: alignment, and spindle speed.

    Parameters
    ----------
    tables
        The tables.
    unit
        Unit of the sheet.
    material
        The shop's material; the usual one if empty.
    """
    offset, skew = alignment(tables, unit, None)
    speed = speed_for(tables, material, typed(Fraction(1), unit))
    return (*offset.rows, *skew.rows, *speed.rows)


def _values(of: Seat | Tabled | Key) -> Iterator[Quantity | Limits]:
    for name, value in vars(of).items():
        if isinstance(value, (Quantity, Limits)) and name not in _MEASURED:
            yield value


# What a user may have measured; the key's own figures stand for them.
_MEASURED = ("cutter_width", "cutter_diameter")


def seats(tables: Tables) -> Iterator[Tabled]:
    """Yield what is tabled for every key of every family, standard and fit."""
    for family in FAMILIES:
        found = module(family)
        unit = "in" if family in OF_UNIT["in"] else "mm"
        for standard in found.STANDARDS:
            for fit in found.FITS:
                work = Work(unit, Fraction(1), fit=fit, standard=standard)
                yield from found.every(tables, work)


def shaft_sheets(tables: Tables, *, every: bool = False) -> Iterator[Stamp]:
    """Yield the code of every shaft sheet that can be asked for.

    Parameters
    ----------
    tables
        The tables.
    every
        Whether in every material, or in the usual one alone.
    """
    named = materials(tables) if every else [""]
    printed = {unit: [beside(tables, unit, name) for name in named] for unit in OF_UNIT}
    for tabled in seats(tables):
        for rows in printed[tabled.key.width.unit]:
            yield shaft_stamp(tables, tabled, rows)
