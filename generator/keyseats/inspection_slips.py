"""The usual slips: which of them gives just the depth that a seat was cut to."""

from __future__ import annotations

from fractions import Fraction

from keyseats.inspection import CLOSE, DEEP, WELL_OVER, Inspection


def slip(found: Inspection) -> list[str]:
    """Return the usual slip that gives just this depth, as a sentence; none if there is none."""
    depth, right, arc = found.depth_from_crown, found.seat.depth_from_crown, found.seat.arc_height
    if depth.least.value != depth.most.value:
        return []
    fed, height = depth.least.value, found.seat.key.height
    if found.verdict == DEEP:
        for name, lowered in (("from the crown", Fraction(0)), ("at the edge", arc.value)):
            if height.least.value <= fed - lowered <= height.most.value:
                return [f"It is as deep {name} as the key is high: the key's height was fed."]
        if 2 * right.least.value <= fed <= 2 * right.most.value:
            return ["It is twice the depth: look whether the dial reads radius or diameter."]
        return []
    if fed <= arc.value:
        return ["The cutter has not yet cut its full width."]
    if _short_by_arc(found, right.least.value - fed):
        return [f"It is short by the arc height, {arc.text}: the depth at edge was fed."]
    if right.least.value <= 2 * fed <= right.most.value:
        return ["It is half the depth: look whether the dial reads radius or diameter."]
    return []


def _short_by_arc(found: Inspection, short: Fraction) -> bool:
    """Return whether a depth at edge can have been fed from the crown.

    It was fed somewhere in its own limits, so the seat is short by the arc height less some of its
    tolerance. Where that is no more than the tolerance itself the pass that was left out is as
    likely, unless it meets the arc height closely.
    """
    right, arc = found.seat.depth_from_crown, found.seat.arc_height.value
    wide, close = right.most.value - right.least.value, CLOSE[found.seat.work.unit]
    if abs(short - arc) <= close:
        return short > max(wide, close)
    return short > max(WELL_OVER * wide, close) and arc - wide <= short <= arc
