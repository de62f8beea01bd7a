"""What the charts for across the room share: a sum set under one another, caution, and notes."""

from __future__ import annotations

from keyseats.frame import FIRST, Frame
from keyseats.plain_charts.head import NO_ARC
from keyseats.setting import set_width

# The height of the drawing and the sum beside it. [figure sizes]
BAND = 6.2
CAUTION = ("CAUTION", "Stop the spindle before you measure. " + FIRST)
Part = tuple[str, str, str]


def measured_from() -> list[Part]:
    """Return the sum that proves a seat: what is fed, and what is measured afterwards."""
    return [
        ("", "shaft", "as measured"),
        ("−", "depth from crown", f"feed this, {NO_ARC}"),
        ("=", "floor to opposite side", "measure this"),
    ]


def stacked_sum(f: Frame, x: float, y: float, parts: list[Part], pitch: float = 1.95) -> None:
    """Set a sum as on paper: signs in a column, a line over the result.

    Parameters
    ----------
    f
        The page.
    x
        Where the signs begin; the words reach the right margin at most. [pt]
    y
        Upper edge. [pt]
    parts
        Sign, words and note of each line; the last is the result.
    pitch
        From line to line. [figure sizes]

    Raises
    ------
    ValueError
        If the words are wider than the room.
    """
    u, c = f.unit, f.composer
    size, small = u * 0.76, u * 0.6
    at = x + u * 1.0
    if at + max(set_width(big, size, True) for _, big, _ in parts) > f.right:
        raise ValueError("the sum is wider than its half of the page")
    for n, (sign, big, note) in enumerate(parts):
        base = y + u * (0.8 + pitch * n)
        if n == len(parts) - 1:
            c.rule(x, f.right, base - u * 0.84, u * 0.05)
        if sign:
            c.say(x, base, sign, size, bold=True)
        c.say(at, base, big, size, bold=True)
        if note:
            c.say(at, base + u * 0.78, note, small)
