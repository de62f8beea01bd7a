"""Pocket cards, imposed on Letter and A4: fronts, then backs in register."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from keyseats.cards import by_shaft, setting_up
from keyseats.cards.face import DISTANCE, Face
from keyseats.cards.subjects import SUBJECTS
from keyseats.imposing import LONG, MARK_LONG, MARK_OFF, Grid, cut_marks, grid_for, placed
from keyseats.load import Tables
from keyseats.page import MM, PAPERS, Block, Page
from keyseats.setting import words
from keyseats.sheets import Sheet

INDEX_CARD = {"Letter": "3 x 5 in", "A4": "A7"}
WORDS = 6.8
CHECK = {
    "ID-1": "A cut card is the size of a bank card.",
    "3 x 5 in": "A cut card is 3 by 5 in.",
    "A7": "A cut card is 105 by 74 mm.",
}


def cards(tables: Tables, size: str) -> list[tuple[Face, Face]]:
    """Return every card's front and back, in number order."""
    found = [by_shaft.card(subject, tables, size) for subject in SUBJECTS]
    return [*found, setting_up.card(tables, size)]


def pages(tables: Tables, paper: str, *, index: bool) -> Iterator[Page]:
    """Yield fronts and backs in pairs of pages until every card has been on a sheet."""
    size = INDEX_CARD[paper] if index else "ID-1"
    grid = grid_for(paper, size, 18 * MM)
    found = cards(tables, size)
    sheets = -(-len(found) // len(grid.cells))
    for sheet in range(sheets):
        start = sheet * len(grid.cells)
        # Cells left over on the last sheet repeat the cards from the first on.
        here = [found[(start + n) % len(found)] for n in range(len(grid.cells))]
        for side in (0, 1):
            blocks = placed(
                [pair[side].blocks() for pair in here], grid, backs=side == 1, flip=LONG
            )
            yield _page(tables, paper, grid, size, blocks, sheet, side, sheets)


def _page(
    tables: Tables,
    paper: str,
    grid: Grid,
    size: str,
    blocks: tuple[Block, ...],
    sheet: int,
    side: int,
    sheets: int,
) -> Page:
    wide, high = PAPERS[paper]
    name = ("fronts", "backs")[side]
    which = f", sheet {sheet + 1} of {sheets}" if sheets > 1 else ""
    says = f"Pocket cards, {size}, {name}{which}. Edition {tables.edition.number}."
    how = "Print at actual size on both sides, flipped on the long edge. Cut on the marks. "
    how += CHECK[size]
    clear = MARK_OFF + MARK_LONG + 4
    head = Block("P", (words(wide / 2, grid.top - clear, says, WORDS, anchor="middle"),))
    foot = Block("P", (words(wide / 2, grid.bottom + clear + WORDS, how, WORDS, anchor="middle"),))
    return Page(
        f"cards-{sheet + 1}-{name}",
        f"Pocket cards, {name}{which}",
        paper,
        (head, *blocks, cut_marks(grid), foot),
        DISTANCE,
        wide,
        high,
    )


SHEETS = (
    Sheet(
        "cards-id1",
        "pocket cards",
        "Pocket cards, bank-card size: a family each, and setting up",
        ("Letter", "A4"),
        partial(pages, index=False),
        duplex=LONG,
        order=70,
    ),
    Sheet(
        "cards-index",
        "pocket cards",
        "Pocket cards, 3 x 5 in or A7: a family each, and setting up",
        ("Letter", "A4"),
        partial(pages, index=True),
        duplex=LONG,
        order=71,
    ),
)
