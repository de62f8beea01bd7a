"""Type against the distance that a page says it is read from, as a shrinking printer leaves it.

Which figures are cut to: those in elements of the class ``Cut``. Where a file has no such class,
every figure that stands alone in the body of a table is held to the same floor, and where it has
no structure, every decimal figure that stands alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from keyseats.proof.facts import Fault, File, Piece, Sheet
from keyseats.typeface import minutes_at

# What is left of a page that a printer fits into a quarter-inch margin.
PRINTER = 0.94
# ISO 9241-3 and NUREG-0700 rev. 2, 1.3.1-4: 16 arc-minutes is the least for reading.
CUT = 16.0
# At actual size: what nothing is machined to may stand at 12 (the project's own rule; over 90 %
# of displays were legible at 10: Human Factors 21(6), 1979, 661-670).
WORDS = 12.0 * PRINTER
# Daggers, `to` between limits and the figures of a built fraction are signs, not words.
SIGNS = 0.75 * WORDS
# Type is set in tenths of a point, rounded up for figures that are cut to. [arc-minute]
_NEAR, _ROUNDED = 0.02, 0.1
_ALONE = re.compile(r"[+−-]?\d*\.?\d+")
_DECIMAL = re.compile(r"\d*\.\d+")
_READ_AT = re.compile(r"Read at (\d+(?:\.\d+)?) m\b")


def distance(sheet: Sheet) -> float:
    """Return the distance that a page says it is read from, the longest if several. [m]"""
    return max((float(d) for d in _READ_AT.findall(sheet.text)), default=0.0)


def cut_to(file: File, sheet: Sheet) -> list[Piece]:
    """Return the figures of a page that are cut to."""
    if file.classed:
        return [p for p in sheet.pieces if p.cut and _ALONE.fullmatch(p.text.strip())]
    alone = [p for p in sheet.pieces if _DECIMAL.fullmatch(p.text.strip())]
    return [p for p in alone if p.body] if file.tree else alone


def minutes(piece: Piece, metres: float) -> float:
    """Return the visual angle of a piece's capitals after the printer's shrink. [arc-minute]"""
    return minutes_at(piece.size * PRINTER, metres)


def _sign(piece: Piece) -> bool:
    return piece.part or len(piece.text.strip()) <= 2


def words_of(sheet: Sheet) -> list[Piece]:
    """Return the pieces of a page that are words: no daggers, no parts of a fraction."""
    return [p for p in sheet.pieces if not _sign(p)]


def faults(file: File, sheet: Sheet) -> Iterator[Fault]:
    """Yield what is wrong with a page's type."""
    n = sheet.number
    if not any(p.text.strip() for p in sheet.pieces):
        yield Fault(file.name, n, "no text can be searched", "set the text as text")
        return
    lost = [p for p in sheet.pieces if "�" in p.text or any(_private(c) for c in p.text)]
    if lost:
        yield _told(file, n, lost, "reads as no character", "give the font a ToUnicode map")
    pale = [p for p in sheet.pieces if not p.black]
    if pale:
        yield _told(file, n, pale, "is not black", "set text in black")
    unseen = [p for p in sheet.pieces if not p.seen]
    if unseen:
        yield _told(file, n, unseen, "has no ink", "print it or leave it out")
    metres = distance(sheet)
    if not metres:
        yield Fault(file.name, n, "no reading distance", "print 'Read at ... m' on the page")
        return
    cut = cut_to(file, sheet)
    chosen = set(map(id, cut))
    rest = [p for p in sheet.pieces if id(p) not in chosen]
    for found, floor, near, kind in (
        (cut, CUT, _NEAR, "figure(s) that are cut to"),
        ([p for p in rest if not _sign(p)], WORDS, _ROUNDED, "word(s)"),
        ([p for p in rest if _sign(p)], SIGNS, _ROUNDED, "sign(s)"),
    ):
        small = [p for p in found if minutes(p, metres) < floor - near]
        if small:
            least = min(small, key=lambda p: p.size)
            size, angle = least.size, minutes(least, metres)
            need = size * floor / angle
            yield Fault(
                file.name,
                n,
                f"{len(small)} {kind} too small for {metres:g} m at 94 %, least "
                f"'{least.text.strip()[:24]}' {size:.1f} pt, {angle:.1f}' for {floor:.1f}'",
                f"set it in {need + 0.05:.1f} pt or split the page",
            )


def _private(character: str) -> bool:
    return "\ue000" <= character <= "\uf8ff" or character < "\t"


def _told(file: File, number: int, found: list[Piece], what: str, mend: str) -> Fault:
    first = found[0].text.strip()[:24]
    more = f" and {len(found) - 1} more" if len(found) > 1 else ""
    return Fault(file.name, number, f"'{first}'{more} {what}", mend)
