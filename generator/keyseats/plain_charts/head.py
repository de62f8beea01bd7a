"""What the inch and the metric plain-key charts share: measure, drawings' pen, caption, caution."""

from __future__ import annotations

from keyseats.drawing import Pen
from keyseats.frame import FIRST, Frame

# The height of the drawings at the head of a chart, and the measure that columns are laid out for,
# in figure sizes: the narrowest paper's.
BAND = 6.05
MEASURE = 31.65
# Said wherever a depth is tabled from the crown.
NO_ARC = "no arc height to add"
CAUTION = (
    "CAUTION",
    "Stop the spindle before you measure, brush chips or deburr. Take a loose key out before the "
    "shaft turns. " + FIRST,
)


def across(f: Frame, units: float) -> float:
    """Return a place on the measure, which wider papers stretch. [pt]"""
    return f.left + units * (f.right - f.left) / MEASURE


def pen(f: Frame) -> Pen:
    """Return the line weights of a chart's drawings."""
    u = f.unit
    return Pen(outline=u * 0.08, thin=u * 0.034, hatch=u * 0.024, arrow=u * 0.34, spacing=u * 0.25)


def caption(
    f: Frame,
    y: float,
    key_and_shaft: str,
    disc: str,
    band: float = BAND,
    how: str = "to scale",
) -> None:
    """Say under the drawings, which start at ``y`` and are ``band`` tall, what they show."""
    for n, line in enumerate((f"{key_and_shaft},", f"{disc} disc{f', {how}' if how else ''}")):
        f.composer.say(f.right, y + f.unit * (band - 1.18 + 0.7 * n), line, f.note, anchor="end")
