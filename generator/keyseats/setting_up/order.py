"""The order of the work: numbered steps down a page."""

from __future__ import annotations

from keyseats.frame import Frame
from keyseats.setting import height_of, paragraph
from keyseats.setting_up.words import Step


def order_of_work(f: Frame, said: list[Step], start: int, y: float, bottom: float) -> None:
    """Set steps between two levels, as large as they go, parted by rules.

    Parameters
    ----------
    f
        The page.
    said
        The steps.
    start
        Number of the first.
    y, bottom
        The levels. [pt]
    """
    u, c = f.unit, f.composer
    left, cap = f.left + u * 2.3, u * 0.55
    for size in (u * 0.8, u * 0.76, u * 0.72):
        heights = [height_of(step.says, size, f.right - left, step.lead) for step in said]
        spare = (bottom - y - u * 0.35 - sum(heights) - cap * len(said)) / len(said)
        if spare >= u * 0.8:
            break
    y += u * 0.35
    for n, (step, height) in enumerate(zip(said, heights, strict=True)):
        base = y + spare / 2 + cap
        c.say(f.left + u * 1.6, base + u * 0.12, str(start + n), u * 1.15, bold=True, anchor="end")
        c.add(paragraph(left, base, step.says, size, f.right - left, lead=step.lead)[0])
        y = base + height + spare / 2
        if n + 1 < len(said):
            c.rule(f.left, f.right, y, u * 0.03)
