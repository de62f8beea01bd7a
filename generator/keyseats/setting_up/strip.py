"""The order of the work as drawn steps, three in a row, a row for each part of the work."""

from __future__ import annotations

from keyseats.frame import Frame
from keyseats.page import Block
from keyseats.setting import height_of, paragraph, set_width, words
from keyseats.setting_up.sketch import Sketch
from keyseats.setting_up.step_drawings import DRAWINGS, HEIGHT
from keyseats.setting_up.system import System
from keyseats.setting_up.words import Step

ACROSS = 3
GAP = 1.0
SIZE, LEADING = 0.61, 1.22
# From a row's rule to its drawings, from these to the words, and from the words to the next rule.
HEAD, OVER, UNDER = 1.6, 0.82, 0.42
# Under the least a drawing's lines would stand closer than its words; over the most it is loose.
LEAST, MOST = 0.85, 1.25


def strip(f: Frame, system: System, steps: list[Step], y: float, bottom: float) -> None:
    """Set the steps between two levels, each with its drawing over its words.

    Parameters
    ----------
    f
        The page.
    system
        The system of units.
    steps
        The steps, as many as there are drawings.
    y, bottom
        The levels. [pt]

    Raises
    ------
    ValueError
        If the page is too low for the drawings.
    """
    u, c = f.unit, f.composer
    wide = (f.right - f.left - (ACROSS - 1) * GAP * u) / ACROSS
    rows = [range(n, n + ACROSS) for n in range(0, len(steps), ACROSS)]
    tall = [max(_height(f, steps[n], wide) for n in row) for row in rows]
    room = (bottom - y - sum(tall)) / len(rows) - u * (HEAD + OVER + UNDER)
    scale = min(MOST, room / u / HEIGHT)
    if scale < LEAST:
        raise ValueError("the page is too low for the drawings of the steps")
    for row, height in zip(rows, tall, strict=True):
        if row.start:
            c.rule(f.left, f.right, y, u * 0.06)
        for n in row:
            x = f.left + (n - row.start) * (wide + GAP * u)
            _head(f, x, y + u * 1.28, n + 1, steps[n].lead.rstrip("."), wide)
            top = y + u * HEAD + (room - HEIGHT * scale * u) / 2
            d = Sketch(f, x, top, scale)
            DRAWINGS[n](d, wide / d.u, system)
            c.add(d.block(f"{steps[n].lead} {steps[n].shows}"))
            base = y + u * (HEAD + OVER) + room
            text = steps[n].drawn
            c.add(paragraph(x, base, text, u * SIZE, wide, leading=LEADING)[0])
        y += u * (HEAD + OVER + UNDER) + room + height


def _height(f: Frame, step: Step, wide: float) -> float:
    """Return the height of a step's words from their first to their last baseline. [pt]"""
    return height_of(step.drawn, f.unit * SIZE, wide) * LEADING / 1.25


def _head(f: Frame, x: float, y: float, number: int, lead: str, wide: float) -> None:
    """Set a step's number and its lead words."""
    u = f.unit
    large, size = u * 1.1, u * 0.68
    at = x + set_width(str(number), large, True) + u * 0.28
    if at + set_width(lead, size, True) > x + wide:
        raise ValueError(f"the lead words of step {number} are wider than its cell")
    marks = (words(x, y, str(number), large, bold=True), words(at, y, lead, size, bold=True))
    f.composer.add(Block("H2", marks))
