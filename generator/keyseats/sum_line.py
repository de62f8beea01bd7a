"""A sum in words across a wall chart's page."""

from __future__ import annotations

from keyseats.frame import Frame
from keyseats.setting import set_width

HEIGHT = 2.3


def sum_line(f: Frame, y: float, parts: list[tuple[str, str]]) -> float:
    """Set a sum in words, each part with its note; return the level under it.

    Parameters
    ----------
    f
        The page.
    y
        Level of the rule above it. [pt]
    parts
        Words and signs in turn, each with what stands under it.
    """
    u, c = f.unit, f.composer
    size, small = u * 0.84, u * 0.6
    c.rule(f.left, f.right, y, u * 0.03)
    wide = [max(set_width(big, size, True), set_width(note, small)) for big, note in parts]
    space = (f.right - f.left - sum(wide)) / (len(parts) - 1)
    x = f.left
    for n, ((big, note), w) in enumerate(zip(parts, wide, strict=True)):
        anchor = "start" if n == 0 else "end" if n == len(parts) - 1 else "middle"
        at = {"start": x, "middle": x + w / 2, "end": x + w}[anchor]
        c.say(at, y + u * 1.12, big, size, bold=True, anchor=anchor)
        if note:
            c.say(at, y + u * 1.9, note, small, anchor=anchor)
        x += w + space
    return y + u * HEIGHT
