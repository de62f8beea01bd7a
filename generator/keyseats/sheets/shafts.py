"""Shaft sheets for the usual shafts, first-choice plain and half-moon key each."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from keyseats.families.inch_plain import fraction_text
from keyseats.load import Tables
from keyseats.lookup import OF_UNIT, seats_for
from keyseats.page import Page
from keyseats.seat import Work
from keyseats.set_up import set_up_for
from keyseats.shaft_sheet import PAPERS, sheet
from keyseats.sheets import Sheet

# Inch shafts by sixteenths, and the metric sizes that bar and shaft ends usually have: our choice.
INCH = tuple(Fraction(n, 16) for n in range(6, 33))
METRIC = (
    8,
    9,
    10,
    11,
    12,
    14,
    15,
    16,
    18,
    19,
    20,
    22,
    24,
    25,
    28,
    30,
    32,
    35,
    38,
    40,
    42,
    45,
    48,
    50,
)


def _pages(tables: Tables, paper: str, unit: str, shafts: tuple[Fraction, ...]) -> Iterator[Page]:
    for nominal in shafts:
        work = Work(unit, nominal)
        name = f"{fraction_text(nominal)} {unit}" if unit == "in" else f"{nominal} {unit}"
        for family in OF_UNIT[unit]:
            seat = seats_for(tables, work, (family,))[0]
            if seat.choice == "first":
                yield sheet(tables, paper, set_up_for(tables, seat), name)


def inch(tables: Tables, paper: str) -> Iterator[Page]:
    """Yield the sheets of the inch shafts."""
    return _pages(tables, paper, "in", INCH)


def metric(tables: Tables, paper: str) -> Iterator[Page]:
    """Yield the sheets of the metric shafts; a shaft with no key of a family is passed over."""
    return _pages(tables, paper, "mm", tuple(Fraction(d) for d in METRIC))


SHEETS = (
    Sheet(
        "shafts-inch",
        "shaft sheets",
        "One page a seat: inch shafts 3/8 to 2 in",
        PAPERS,
        inch,
        order=80,
    ),
    Sheet(
        "shafts-metric",
        "shaft sheets",
        "One page a seat: metric shafts 8 to 50 mm",
        PAPERS,
        metric,
        order=81,
    ),
)
