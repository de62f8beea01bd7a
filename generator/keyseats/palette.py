"""The greys that the pages are printed in, and how far apart they are kept.

All meaning is in ink, outline and words: a grey helps the eye along and may be lost on a copier.
"""

from __future__ import annotations

INK, PAPER = 0.0, 1.0
# The body of a key or cutter, always inside an outline.
BODY = 0.9
# A band behind every other row of a table, or behind a strip of figures.
BAND = 0.94
GREYS = (INK, BODY, BAND, PAPER)

# Ink on every other grey, WCAG 2.1, success criterion 1.4.6: 7:1 for text.
READABLE = 7.0
# Each grey against its neighbours: two steps in the tenth of the scale that a shade may use, so
# that little ink is laid under figures, leave no more.
APART = 1.09


def luminance(grey: float) -> float:
    """Return the relative luminance of a grey, WCAG 2.1, for red, green and blue alike."""
    if grey <= 0.03928:
        return grey / 12.92
    return float(((grey + 0.055) / 1.055) ** 2.4)


def contrast(one: float, other: float) -> float:
    """Return the contrast ratio of two greys, WCAG 2.1: 1 for the same, 21 for ink on paper."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)
