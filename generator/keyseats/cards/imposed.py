"""Cards on sheets of paper: fronts, then backs in register, with what each sheet says of itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from keyseats.cards.face import DISTANCE, Face
from keyseats.imposing import LONG, MARK_LONG, MARK_OFF, SHORT, Grid, cut_marks, placed
from keyseats.load import Edition
from keyseats.page import PAPERS, Block, Page
from keyseats.setting import words

WORDS = 6.8
TURNS = {
    LONG: "Print at actual size on both sides, flipped on the long edge: a card turns like the "
    "page of a book.",
    SHORT: "Print at actual size on both sides, flipped on the short edge: a card turns like the "
    "leaf of a calendar.",
    "": "Print at actual size, on one side.",
}
CUT = {
    "ID-1": "Cut on the marks, to the size of a bank card.",
    "3 x 5 in": "Cut on the marks, to 3 by 5 in.",
    "3 x 5 in upright": "Cut on the marks, to 3 by 5 in.",
    "A7": "Cut on the marks, to 105 by 74 mm.",
    "A7 upright": "Cut on the marks, to 74 by 105 mm.",
}
# Nothing stands within 3 mm of a cut, nor of a corner that is rounded so far.
FINISH = (
    "Corners may be rounded to a radius of 6 mm. To laminate, cut first and leave 3 mm of film "
    "round the card."
)
Card = tuple[Face, Face | None]


@dataclass(frozen=True)
class Imposition:
    """What is printed together.

    Parameters
    ----------
    name
        What the cards are, as the sheet says it.
    slug
        The same as part of a page's name.
    grid
        Where they stand on the sheet.
    flip
        ``LongEdge`` or ``ShortEdge``; nothing if the sheets are printed on one side.
    """

    name: str
    slug: str
    grid: Grid
    flip: str = LONG


def imposed(edition: Edition, how: Imposition, cards: Sequence[Card]) -> Iterator[Page]:
    """Yield fronts and backs in pairs of pages until every card has been on a sheet.

    Parameters
    ----------
    edition
        The tables' edition.
    how
        Grid and flip.
    cards
        Front and back of each card, in number order.
    """
    cells = len(how.grid.cells)
    sheets = -(-len(cards) // cells)
    for sheet in range(sheets):
        # Cells left over on the last sheet repeat the cards from the first on.
        here = [cards[(sheet * cells + n) % len(cards)] for n in range(cells)]
        for side in (0, 1) if how.flip else (0,):
            faces = [card[side] for card in here]
            yield _page(edition, how, [f for f in faces if f], sheet, sheets, side)


def _page(
    edition: Edition, how: Imposition, faces: list[Face], sheet: int, sheets: int, side: int
) -> Page:
    grid = how.grid
    wide, high = PAPERS[grid.paper]
    name = ("fronts", "backs")[side] if how.flip else "one side"
    which = f", sheet {sheet + 1} of {sheets}" if sheets > 1 else ""
    size = grid.card.removesuffix(" upright").replace(" x ", " × ")
    blocks = placed([face.blocks() for face in faces], grid, backs=side == 1, flip=how.flip or LONG)
    says = f"{how.name}, {size}, {name}{which}. Edition {edition.number}, {edition.date}."
    clear, middle = MARK_OFF + MARK_LONG + 4, wide / 2
    above, below = grid.top - clear, grid.bottom + clear + WORDS
    cut = f"{CUT[grid.card]} {FINISH}"
    head = Block("H1", (words(middle, above - WORDS * 1.4, says, WORDS, anchor="middle"),))
    turn = Block("P", (words(middle, above, TURNS[how.flip], WORDS, anchor="middle"),))
    foot = Block("P", (words(middle, below, cut, WORDS, anchor="middle"),))
    return Page(
        f"{how.slug}-{sheet + 1}-{name.replace(' ', '-')}",
        f"{how.name}, {name}{which}",
        grid.paper,
        (head, turn, *blocks, cut_marks(grid), foot),
        DISTANCE,
        wide,
        high,
        tuple(dict.fromkeys(face.mark for face in faces if face.mark)),
    )


__all__ = ["Card", "Imposition", "imposed"]
