"""Cautions about one seat, each with the figure and what would do."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from keyseats.lengths import decimal
from keyseats.seat import SETTING_PLACES, Seat, Warning, Work

PAST_CENTRE = "floor-past-centre"


def with_warnings(seat: Seat, *, in_range: bool) -> Seat:
    """Return the seat with the cautions that its work calls for.

    Parameters
    ----------
    seat
        The seat's figures, with the work that they were computed for.
    in_range
        Whether the standard gives this key for this nominal shaft.
    """
    work = seat.work
    found: list[Warning] = []
    if not in_range:
        found.append(
            Warning(
                "key-not-for-shaft",
                f"{seat.key.standard} does not give a {seat.key.designation} key for this shaft; "
                "the drawing or the hub must ask for it",
            )
        )
    cutter = work.end_mill if seat.cutter_kind == "end mill" else work.cutter_width
    if cutter is not None:
        found += _width(seat, cutter, work)
    if seat.depth_from_crown.most.value > work.shaft / 2:
        found.append(
            Warning(
                PAST_CENTRE,
                "the seat's floor lies past the shaft's centre and leaves less than half of it; "
                "take a smaller key",
            )
        )
    neck, largest = work.neck, seat.largest_neck
    if neck is not None and largest is not None and neck > largest.value:
        found.append(
            Warning(
                "neck-rubs",
                f"a neck of {_text(neck, work)} is over the largest, {largest.text}: it rubs the "
                "edges before full depth; use a cutter with a thinner neck",
            )
        )
    if seat.cutter_kind == "half-moon" and largest is None:
        found.append(
            Warning(
                "no-neck-clears",
                "no neck can clear the edges at full depth with this cutter; use a cutter of the "
                "key's diameter",
            )
        )
    ground, diameter = work.cutter_diameter, seat.key.diameter
    if ground is not None and diameter is not None and ground < diameter.value:
        found.append(
            Warning(
                "cutter-ground-under-key",
                f"a cutter of {_text(ground, work)} is under the key's {diameter.text}: the key "
                "rides up on the seat's ends; use a cutter of the key's diameter or over",
            )
        )
    return replace(seat, warnings=tuple(found)) if found else seat


def _width(seat: Seat, cutter: Fraction, work: Work) -> list[Warning]:
    least, most = seat.seat_width.least, seat.seat_width.most
    if least.value <= cutter <= most.value:
        return []
    side = "narrow" if cutter < least.value else "wide"
    remedy = "cut, then widen to the limits" if side == "narrow" else "take a narrower cutter"
    return [
        Warning(
            f"cutter-{side}",
            f"a cutter {_text(cutter, work)} wide is outside the seat's width, {least.text} to "
            f"{most.text}; {remedy}",
        )
    ]


def _text(value: Fraction, work: Work) -> str:
    return decimal(value, SETTING_PLACES[work.unit])
