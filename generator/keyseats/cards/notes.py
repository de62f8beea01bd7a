"""Notes of a card, one under the other, which flow round its code and its drawing."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from keyseats.page import Block, Mark
from keyseats.setting import LEADING, caution_sign, set_width, words
from keyseats.typeface import eased, unbroken, width

Limit = Callable[[float], float]


def flowed(
    y: float,
    notes: Iterable[tuple[str, str]],
    size: float,
    left: float,
    right_at: Limit,
    rows: tuple[str, ...] = (),
    gap: float = 0.0,
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
    gap
        White between notes, besides their leading. [pt]
    """
    blocks: list[Block] = []
    leading = size * LEADING
    for lead, text in notes:
        x = left
        if lead == "CAUTION":
            blocks.append(caution_sign(left, y, size * 0.95))
            x += size * 1.4
        items: list[Block | Mark] = []
        if lead:
            items.append(words(x, y, lead, size, bold=True))
            x += width(lead + " ", size, True)
        lines = _broken(text, y, size, x, left, right_at)
        for n, line in enumerate(lines):
            if line:
                items.append(words(left if n else x, y + n * leading, line, size))
        blocks.append(Block("P", tuple(items), rows=rows))
        y += len(lines) * leading + gap
    return blocks, y - gap


def _broken(
    text: str, y: float, size: float, start: float, left: float, right_at: Limit
) -> list[str]:
    """Return a note's lines: the first begins at ``start``, each ends where its level lets it."""
    lines = [""]
    for word in unbroken(text):
        base = y + (len(lines) - 1) * size * LEADING
        trial = f"{lines[-1]} {word}".strip()
        room = right_at(base) - (left if len(lines) > 1 else start)
        if lines[-1] and set_width(trial, size) > room:
            lines.append(word)
        else:
            lines[-1] = trial
    last = y + (len(lines) - 1) * size * LEADING
    return [*lines[:-2], *eased(lines[-2:], size, right_at(last) - left)]


__all__ = ["Limit", "flowed"]
