"""``keyseats shaft --card``: ready reckoners of one nominal shaft, written to a file."""

from __future__ import annotations

import argparse
from fractions import Fraction

from keyseats.cards.imposed import Imposition, imposed
from keyseats.cli.sheet_file import file_for, paper_for, refuse_faults, write_document
from keyseats.families.inch_plain import fraction_text
from keyseats.faults import TypedError
from keyseats.imposing import LONG, Grid
from keyseats.lengths import decimal, parse
from keyseats.load import Tables
from keyseats.page import Document, Page
from keyseats.reckoner.card import UPRIGHT, Side, side
from keyseats.seat import Seat

FINEST = 64
SIDES = ("front", "back")


def write_card(tables: Tables, seats: list[Seat], words: argparse.Namespace) -> int:
    """Write one card for every two seats, a seat a side, alone in the middle of its sheet.

    Raises
    ------
    KeyseatError
        If the file cannot be written.
    TypedError
        If the paper is not one of the card's, or a measured size was given.
    """
    if words.measured is not None:
        raise TypedError(
            "--card: the card lists every size that the shaft may measure; leave --measured out"
        )
    paper = paper_for(words.paper, seats[0].work.unit, "card")
    path = file_for(words.card, "--card")
    refuse_faults(tables, "card")
    length = parse(words.length, "the shaft")
    shaft = shaft_name(length.value, length.unit)
    pages: list[Page] = []
    for n in range(0, len(seats), 2):
        here = seats[n : n + 2]
        faces = [
            _side(tables, seat, paper, name if len(here) > 1 else "", shaft)
            for seat, name in zip(here, SIDES, strict=False)
        ]
        # One card in the middle of a sheet lies behind itself whichever edge is flipped.
        how = Imposition(
            f"Ready reckoner, {shaft} shaft",
            f"reckoner-{n // 2 + 1}",
            Grid(paper, UPRIGHT[paper], 1, 1),
            LONG if len(here) > 1 else "",
        )
        back = faces[1] if len(here) > 1 else None
        pages += imposed(tables.edition, how, [(faces[0], back)])
    title = f"Ready reckoner, {shaft} shaft"
    flip = LONG if len(seats) > 1 else ""
    write_document(path, Document(path.name, title, "Pocket cards", paper, tuple(pages), flip))
    return 0


def _side(tables: Tables, seat: Seat, paper: str, name: str, shaft: str) -> Side:
    what = f"Ready reckoner, {name}." if name else "Ready reckoner."
    return side(tables, seat, UPRIGHT[paper], name or SIDES[0], shaft, what)


def shaft_name(nominal: Fraction, unit: str) -> str:
    """Return a nominal size as a card's title names it: ``1-1/8 in``, ``0.8661 in``, ``22 mm``."""
    if unit == "in" and nominal.denominator <= FINEST:
        return f"{fraction_text(nominal)} in"
    return f"{decimal(nominal, 4).rstrip('0').rstrip('.')} {unit}"
