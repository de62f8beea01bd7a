"""Pocket cards, imposed on Letter and A4: fronts, then backs in register, for either flip."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from keyseats.cards import by_shaft, setting_up
from keyseats.cards.face import Face
from keyseats.cards.imposed import Imposition, imposed
from keyseats.cards.subjects import SUBJECTS
from keyseats.imposing import LONG, SHORT, grid_for
from keyseats.load import Tables
from keyseats.page import MM, Page
from keyseats.sheets import Sheet

INDEX_CARD = {"Letter": "3 x 5 in", "A4": "A7"}
# The end of a sheet's name and of its title, for each edge that it is flipped on.
FLIPS = {LONG: ("", ""), SHORT: ("-short-edge", ", flipped on the short edge")}


def cards(tables: Tables, size: str) -> list[tuple[Face, Face]]:
    """Return every card's front and back, in number order."""
    found = [by_shaft.card(subject, tables, size) for subject in SUBJECTS]
    found.append(setting_up.card(tables, size))
    for front, back in found:
        front.finish(back)
    return found


def pages(tables: Tables, paper: str, *, index: bool, flip: str) -> Iterator[Page]:
    """Yield fronts and backs in pairs of pages until every card has been on a sheet."""
    size = INDEX_CARD[paper] if index else "ID-1"
    how = Imposition("Pocket cards", "cards", grid_for(paper, size, 18 * MM), flip)
    return imposed(tables.edition, how, cards(tables, size))


def _sheet(name: str, size: str, flip: str, order: int) -> Sheet:
    end, says = FLIPS[flip]
    return Sheet(
        name + end,
        "pocket cards",
        f"Pocket cards, {size}: a family each, and setting up{says}",
        ("Letter", "A4"),
        partial(pages, index=name == "cards-index", flip=flip),
        flip,
        order,
    )


SHEETS = (
    _sheet("cards-id1", "bank-card size", LONG, 70),
    _sheet("cards-index", "3 × 5 in or A7", LONG, 71),
    _sheet("cards-id1", "bank-card size", SHORT, 72),
    _sheet("cards-index", "3 × 5 in or A7", SHORT, 73),
)
