"""Ready reckoners of usual light-lathe shafts: a plain key in front, a half-moon key behind."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from keyseats.cards.drawn import first_seat
from keyseats.cards.imposed import Card, Imposition, imposed
from keyseats.imposing import LONG, SHORT, grid_for
from keyseats.lengths import read_fraction
from keyseats.load import Tables
from keyseats.lookup import OF_UNIT, module
from keyseats.page import MM, Page
from keyseats.reckoner.card import UPRIGHT, side
from keyseats.seat import Work
from keyseats.sheets import Sheet
from keyseats.sheets.cards import FLIPS

# The usual shafts of a light lathe: our choice, no source.
INCH = ("3/8", "1/2", "5/8", "3/4", "7/8", "1", "1-1/4", "1-1/2")
METRIC = ("10", "12", "14", "16", "20", "25", "30", "35")
SHAFTS = {"in": INCH, "mm": METRIC}


def card(tables: Tables, size: str, unit: str, number: int) -> Card:
    """Return one card's front and back.

    Parameters
    ----------
    tables
        The tables.
    size
        ``3 x 5 in upright`` or ``A7 upright``.
    unit
        ``in`` or ``mm``.
    number
        The card's number among its unit's, from 1.

    Raises
    ------
    ValueError
        If a key of the shaft is not tabled.
    """
    shaft = SHAFTS[unit][number - 1]
    work = Work(unit, read_fraction(shaft))
    sides = []
    for family, name in zip(OF_UNIT[unit], ("front", "back"), strict=True):
        seat = first_seat(module(family).tabled(tables, work), work)
        if seat is None:
            raise ValueError(f"{shaft} {unit} has no {family} key")
        what = f"Reckoner {number} of {len(SHAFTS[unit])}, {name}."
        sides.append(side(tables, seat, size, name, f"{shaft} {unit}", what))
    return sides[0], sides[1]


def cards(tables: Tables, size: str, unit: str) -> list[Card]:
    """Return one unit's cards in number order, made once for as long as the tables live."""
    name = f"reckoners {size} {unit}"
    if name not in tables.kept:
        numbers = range(1, len(SHAFTS[unit]) + 1)
        tables.kept[name] = [card(tables, size, unit, n) for n in numbers]
    found: list[Card] = tables.kept[name]
    return found


def pages(tables: Tables, paper: str, *, unit: str, flip: str) -> Iterator[Page]:
    """Yield the sheets of one unit's cards, fronts and backs in turn."""
    size = UPRIGHT[paper]
    how = Imposition("Ready reckoners", "reckoners", grid_for(paper, size, 18 * MM), flip)
    return imposed(tables.edition, how, cards(tables, size, unit))


def _sheet(unit: str, flip: str, order: int) -> Sheet:
    end, says = FLIPS[flip]
    name, papers, shafts = "inch", ("Letter", "A4"), INCH
    if unit == "mm":
        name, papers, shafts = "metric", ("A4", "Letter"), METRIC
    return Sheet(
        f"reckoners-{name}{end}",
        "pocket cards",
        f"Ready reckoners by measured shaft, {shafts[0]} to {shafts[-1]} {unit}{says}",
        papers,
        partial(pages, unit=unit, flip=flip),
        flip,
        order,
    )


SHEETS = (
    _sheet("in", LONG, 74),
    _sheet("mm", LONG, 75),
    _sheet("in", SHORT, 76),
    _sheet("mm", SHORT, 77),
)
