"""The face touch of a cutter whose collar keeps its rim from the shaft's widest point."""

from __future__ import annotations

from fractions import Fraction

from keyseats import clearance, geometry
from keyseats.frozen import frozen
from keyseats.seat import NECK_CLEARANCE, SETTING_PLACES, Seat
from keyseats.standing import Quantity, derive, typed


@frozen
class HigherTouch:
    """A touch with the rim above the shaft's centre line, and the travel from it. [length]"""

    above: Quantity
    travel: Quantity


def face_touch_short(seat: Seat) -> bool:
    """Return whether the collar meets the shaft before the rim is at its widest point."""
    collar, diameter = seat.work.collar, seat.cutter_diameter
    if collar is None or diameter is None:
        return False
    return clearance.face_touch_reach(diameter.value, collar) < seat.work.shaft / 2


def higher_touch(seat: Seat) -> HigherTouch | None:
    """Return the touch that can be made instead, the collar just clear of the crown.

    Parameters
    ----------
    seat
        A seat whose face touch falls short.

    Returns
    -------
    HigherTouch or None
        None where the rim would touch nothing: the cutter is centred by indicator. [length]
    """
    work, unit, diameter = seat.work, seat.work.unit, seat.cutter_diameter
    if work.collar is None or diameter is None:
        return None
    places = SETTING_PLACES[unit]
    reach = clearance.face_touch_reach(diameter.value, work.collar) - NECK_CLEARANCE[unit] / 2
    least = clearance.rim_above_centre(work.shaft, reach)
    above = derive(least, diameter).printed(places, "up")
    height = Fraction(above.text)
    if height >= work.shaft / 2:
        return None
    travel = geometry.face_touch_travel(work.shaft, seat.cutter_width.value, work.paper, height)
    whole = derive(travel, typed(work.shaft, unit), seat.cutter_width, diameter)
    return HigherTouch(above, whole.printed(places))
