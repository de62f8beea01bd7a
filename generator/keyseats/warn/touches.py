"""Cautions about centring: a touch that cannot reach the shaft's widest point."""

from __future__ import annotations

from fractions import Fraction

from keyseats import clearance
from keyseats.higher_touch import higher_touch
from keyseats.seat import Seat, Warning
from keyseats.warn.wording import said


def touches(seat: Seat) -> list[Warning]:
    """Return the cautions about the touches that this cutter is centred by."""
    if seat.cutter_kind == "end mill":
        return _tip(seat)
    return _face_touch(seat)


def _face_touch(seat: Seat) -> list[Warning]:
    collar, diameter, shaft = seat.work.collar, seat.cutter_diameter, seat.work.shaft
    if collar is None or diameter is None:
        return []
    reach = clearance.face_touch_reach(diameter.value, collar)
    if reach >= shaft / 2:
        return []
    reaches = said(max(reach, Fraction(0)), seat, "down")
    enough = clearance.smallest_cutter_for_face_touch(shaft, collar)
    return [
        Warning(
            "face-touch-short",
            f"the face touch cannot be made: past a collar of {said(collar, seat)} the rim reaches "
            f"{reaches} and needs {said(shaft / 2, seat, 'up')}; use a cutter of "
            f"{said(enough, seat, 'up')} or over{_higher(seat)}",
        )
    ]


def _higher(seat: Seat) -> str:
    """Return the touch that can be made instead, with the collar just clear of the crown."""
    touch = higher_touch(seat)
    if touch is None:
        return ", or centre it by indicator"
    return (
        f", or touch with the rim {touch.above.text} above the centre line and travel "
        f"{touch.travel.text}"
    )


def _tip(seat: Seat) -> list[Warning]:
    length, needs = seat.work.tip_length, seat.work.shaft / 2
    if length is None or length >= needs:
        return []
    return [
        Warning(
            "tip-short",
            f"an edge finder's tip {said(length, seat)} long does not reach the shaft's widest "
            f"point, {said(needs, seat, 'up')} below the crown; use a longer tip, or touch with "
            "the end mill's rim",
        )
    ]
