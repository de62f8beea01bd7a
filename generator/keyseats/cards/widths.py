"""The strip under a card's table: the seat's width limits, said once for each key width."""

from __future__ import annotations

from fractions import Fraction

from keyseats.cards.face import FRACTION, HAIR, SECOND, Face
from keyseats.families.inch_plain import fraction_text
from keyseats.lengths import decimal
from keyseats.page import Block
from keyseats.seat import Seat
from keyseats.setting import figure, words

PITCH = 9.8
LABEL = 52.0


def set_widths(face: Face, y: float, found: list[Seat]) -> tuple[float, bool]:
    """Set the strip; return the level under it and whether it holds a recalled figure.

    Parameters
    ----------
    face
        The side it stands on.
    y
        Level under the table. [pt]
    found
        The table's seats, narrow keys first.
    """
    c = face.composer
    by_width: dict[Fraction, Seat] = {}
    for seat in found:
        by_width.setdefault(seat.key.width.value, seat)
    step = min((face.right - face.left - LABEL) / len(by_width), 58.0)
    first = y + PITCH * 1.03
    for n, text in enumerate(("key width", "seat width, least", "most")):
        c.say(face.left, first + n * PITCH, text, face.head, role="TH", header="Row")
    recalled = False
    for n, (wide, seat) in enumerate(sorted(by_width.items())):
        right = face.left + LABEL + step * (n + 1) - 5
        inch = seat.key.width.unit == "in"
        head = fraction_text(wide) if inch else decimal(wide, 3).rstrip("0").rstrip(".")
        size = FRACTION if inch else SECOND
        line = words(right, first, head, size, bold=True, anchor="end")
        c.add(Block("TH", (line,), header="Column", rows=seat.key.width.rows))
        for row, end in enumerate((seat.seat_width.least, seat.seat_width.most), start=1):
            c.add(figure(right, first + row * PITCH, end, SECOND))
            recalled = recalled or end.recalled
    close = first + 2 * PITCH + SECOND * 0.42
    c.rule(face.left, face.right, close, HAIR)
    return close, recalled
