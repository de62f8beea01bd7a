"""The grid under a card's table: the seat's width limits, said once for each key width."""

from __future__ import annotations

from dataclasses import dataclass, replace

from keyseats.cards.face import FRACTION, HAIR, SECOND, Face
from keyseats.drawing import widest
from keyseats.families.inch_plain import fraction_text
from keyseats.lengths import decimal
from keyseats.page import Block
from keyseats.seat import Seat
from keyseats.setting import figure, set_width, words
from keyseats.standing import Quantity

PITCH = {"A7": 9.8, "3 x 5 in": 10.5}
# Between the row heads and the first cell, and what a cell has beside its head. [pt]
CLEAR = 4.0


@dataclass(frozen=True)
class _Cell:
    """The keys of one width whose seats have the same limits: their head, and the limits."""

    head: str
    size: float
    rows: tuple[str, ...]
    least: Quantity
    most: Quantity

    @property
    def wide(self) -> float:
        """Return the width of the figures, which stand flush right with each other. [pt]"""
        return max(set_width(end.text, SECOND) for end in (self.least, self.most))

    @property
    def needs(self) -> float:
        """Return the width that the cell needs. [pt]"""
        return max(self.wide, set_width(self.head, self.size, True)) + CLEAR


def _cells(found: list[Seat]) -> list[_Cell]:
    """Return one cell a width, and one more for keys that differ from most, which it names."""
    cells = []
    for wide in sorted({seat.key.width.value for seat in found}):
        here = [seat for seat in found if seat.key.width.value == wide]
        ends = [(s.seat_width.least.value, s.seat_width.most.value) for s in here]
        usual = max(ends, key=ends.count)
        for pair in sorted(set(ends), key=lambda one: (one != usual, ends.index(one))):
            alike = [seat for seat, own in zip(here, ends, strict=True) if own == pair]
            cells.append(_cell(alike, named=pair != usual))
    return cells


def _cell(alike: list[Seat], *, named: bool) -> _Cell:
    key = alike[0].key
    inch = key.width.unit == "in"
    wide = key.width.value
    head = fraction_text(wide) if inch else decimal(wide, 3).rstrip("0").rstrip(".")
    size = FRACTION if inch else SECOND
    if named:
        head, size = ", ".join(dict.fromkeys(seat.key.in_print for seat in alike)), SECOND
    ends = []
    for every in ([s.seat_width.least for s in alike], [s.seat_width.most for s in alike]):
        rows = tuple(dict.fromkeys(row for end in every for row in end.rows))
        ends.append(replace(max(every, key=_recalled), rows=rows))
    rows = tuple(dict.fromkeys(row for seat in alike for row in seat.key.width.rows))
    return _Cell(head, size, rows, *ends)


def _recalled(end: Quantity) -> bool:
    return end.recalled


def set_widths(face: Face, y: float, found: list[Seat]) -> tuple[float, bool]:
    """Set the grid; return the level under it and whether it holds a recalled figure.

    Parameters
    ----------
    face
        The side it stands on.
    y
        Level under the table. [pt]
    found
        The table's seats, narrow keys first.

    Raises
    ------
    ValueError
        If keys of one width differ, and their names do not go on the card.
    """
    c = face.composer
    cells = _cells(found)
    says = ("key width", "seat width, least", "most")
    start = face.left + widest(list(says), face.head) + CLEAR
    spare = (face.right - start - sum(cell.needs for cell in cells)) / len(cells)
    if spare < 0:
        raise ValueError(f"card {face.number}, {face.side}, {face.size}: too many seat widths")
    pitch = PITCH[face.size]
    first = y + pitch
    for n, text in enumerate(says):
        c.say(face.left, first + n * pitch, text, face.head, role="TH", header="Row")
    close = first + 2 * pitch + SECOND * 0.36
    for cell in cells:
        # Figures stand in the middle of their cell; so does a head that is wider.
        middle = start + (cell.needs + spare) / 2
        right = middle + cell.wide / 2
        over = max(right, middle + set_width(cell.head, cell.size, True) / 2)
        line = words(over, first, cell.head, cell.size, bold=True, anchor="end")
        c.add(Block("TH", (line,), header="Column", rows=cell.rows))
        for row, end in enumerate((cell.least, cell.most), start=1):
            c.add(figure(right, first + row * pitch, end, SECOND))
        c.upright(start, y, close, HAIR)
        start += cell.needs + spare
    c.rule(face.left, face.right, first + pitch * 0.27, HAIR)
    c.rule(face.left, face.right, close, HAIR)
    return close, any(end.recalled for cell in cells for end in (cell.least, cell.most))
