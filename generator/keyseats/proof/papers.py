"""Papers and cards by their size as read in a file; stated here again, apart from the pages' own.

ISO 216 and ANSI/ASME Y14.1 for papers, ISO/IEC 7810 for the bank-card size, ISO 216 for A7; the
index card is its name.
"""

from __future__ import annotations

from keyseats.proof.facts import MM

PAPERS_MM = {
    "Letter": (215.9, 279.4),
    "A4": (210.0, 297.0),
    "Tabloid": (279.4, 431.8),
    "A3": (297.0, 420.0),
    "ANSI C": (431.8, 558.8),
    "A2": (420.0, 594.0),
}
CARDS_MM = {"ID-1": (85.6, 53.98), "3 x 5 in": (127.0, 76.2), "A7": (105.0, 74.0)}
_EXACT = 0.02


def paper(wide: float, high: float) -> str:
    """Return the name of the paper of a size either way up, or nothing. [pt]"""
    return _named(PAPERS_MM, wide, high)


def card(wide: float, high: float) -> str:
    """Return the name of the card of a size either way up, or nothing. [pt]"""
    return _named(CARDS_MM, wide, high)


def _named(sizes: dict[str, tuple[float, float]], wide: float, high: float) -> str:
    for name, size in sizes.items():
        for across, down in (size, size[::-1]):
            if abs(wide - across * MM) < _EXACT and abs(high - down * MM) < _EXACT:
                return name
    return ""


def told(wide: float, high: float) -> str:
    """Return a size in millimetres, as it is told. [pt]"""
    return f"{wide / MM:.2f} x {high / MM:.2f} mm"
