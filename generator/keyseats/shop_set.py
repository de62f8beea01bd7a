"""A shop's own shaft sheets: seats of the shafts that it wants, for the cutters that it owns."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from keyseats.faults import KeyseatError, TypedError
from keyseats.load import Tables
from keyseats.lookup import OF_UNIT, seats_for
from keyseats.owned import cut_by_owned, with_shop
from keyseats.page import Document, Page
from keyseats.seat import Seat, Work
from keyseats.set_up import set_up_for
from keyseats.shaft_sheet import sheet
from keyseats.shop import Shop
from keyseats.warn import PAST_CENTRE

# A shaft sheet is laid out for two papers; a shop's larger paper stands for its smaller kin.
SMALLER = {"Tabloid": "Letter", "A3": "A4"}


def shop_document(tables: Tables, shop: Shop, paper: str = "") -> Document:
    """Return the shaft sheets of a shop as one file.

    Parameters
    ----------
    tables
        The tables.
    shop
        The shop, with the shafts that it wants.
    paper
        ``Letter`` or ``A4``; the shop's own, or that of its first shaft's unit, if empty.

    Raises
    ------
    KeyseatError
        If the shop names no shafts, or none that has a key.
    """
    if not shop.shafts:
        raise KeyseatError(
            "the shop file names no shafts, so there is no sheet of its own to make; add a line "
            'such as shafts = ["3/4 in", "1 in"]'
        )
    own = SMALLER.get(shop.paper, shop.paper)
    paper = paper or own or ("Letter" if shop.shafts[0].unit == "in" else "A4")
    pages = tuple(_pages(tables, shop, paper))
    if not pages:
        raise KeyseatError("no key is tabled for any shaft of the shop file; look at its shafts")
    title = f"Shaft sheets, {shop.heading}" if shop.heading else "Shaft sheets of a shop"
    return Document(f"shop-shafts-{paper.lower()}.pdf", title, "Shaft sheets", paper, pages)


def _pages(tables: Tables, shop: Shop, paper: str) -> Iterator[Page]:
    for shaft in shop.shafts:
        work = with_shop(Work(shaft.unit, shaft.value), shop)
        for family in OF_UNIT[shaft.unit]:
            try:
                seats = seats_for(tables, work, (family,), cutters=shop.cutters)
            except TypedError:
                # Not every family has a key for every shaft.
                continue
            seat = best(seats)
            if seat is not None:
                yield sheet(tables, paper, set_up_for(tables, seat, shop), shaft.text)


def best(seats: list[Seat]) -> Seat | None:
    """Return the seat of one family that a shop makes: its first choice, if it can be cut.

    Parameters
    ----------
    seats
        The seats of one family in one shaft.

    Returns
    -------
    Seat or None
        The first choice where an owned cutter cuts it or none cuts any; else, of those that one
        cuts, that with the fewest cautions, nearest to the first choice. None without a first
        choice.
    """
    first = next((seat for seat in seats if seat.choice == "first"), None)
    if first is None or cut_by_owned(first):
        return first
    wide, across = first.key.width.value, first.key.diameter

    def rank(seat: Seat) -> tuple[int, Fraction, Fraction]:
        off = Fraction(0)
        if across is not None and seat.key.diameter is not None:
            off = abs(seat.key.diameter.value / across.value - 1)
        return len(seat.warnings), abs(seat.key.width.value / wide - 1), off

    cut = [
        seat
        for seat in seats
        if cut_by_owned(seat) and PAST_CENTRE not in {w.code for w in seat.warnings}
    ]
    return min(cut, key=rank) if cut else first
