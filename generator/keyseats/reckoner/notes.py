"""Notes of a ready reckoner, which flow round the drawing and the code."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from keyseats.page import Block, Mark
from keyseats.setting import LEADING, caution_sign, set_width, words
from keyseats.typeface import width

Limit = Callable[[float], float]


def flowed(
    y: float,
    notes: Iterable[tuple[str, str]],
    size: float,
    left: float,
    right_at: Limit,
    rows: tuple[str, ...] = (),
) -> tuple[list[Block], float]:
    """Return notes one under the other, and the baseline under them.

    A note led by ``CAUTION`` has the caution sign before its word.

    Parameters
    ----------
    y
        First baseline. [pt]
    notes
        Lead and text of each.
    size
        Type size. [pt]
    left
        Where lines begin. [pt]
    right_at
        Where a line on a baseline must end. [pt]
    rows
        Ids of the figures that the notes print or rest on.
    """
    blocks: list[Block] = []
    for lead, text in notes:
        x = left
        if lead == "CAUTION":
            blocks.append(caution_sign(left, y, size * 0.95))
            x += size * 1.4
        items: list[Block | Mark] = []
        if lead:
            items.append(words(x, y, lead, size, bold=True))
            x += width(lead + " ", size, True)
        line = ""
        for word in text.split(" "):
            trial = f"{line} {word}" if line else word
            if x + set_width(trial, size) > right_at(y) and line:
                items.append(words(x, y, line, size))
                x, y, line = left, y + size * LEADING, word
            else:
                line = trial
        items.append(words(x, y, line, size))
        blocks.append(Block("P", tuple(items), rows=rows))
        y += size * LEADING
    return blocks, y
