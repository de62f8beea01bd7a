"""Cautions about the cutter as measured: its width, diameter, neck, collar and holder."""

from __future__ import annotations

from fractions import Fraction

from keyseats import clearance, geometry
from keyseats.seat import NECK_CLEARANCE, Seat, Warning, clear_neck
from keyseats.standing import Quantity
from keyseats.warn.shaft_and_hub import tightest
from keyseats.warn.wording import both, marked, said, wide

# A change of feed that is worth a word: what a light lathe's slide can be set to. [length]
WORTH = {"in": Fraction("0.0005"), "mm": Fraction("0.01")}


def cutter(seat: Seat) -> list[Warning]:
    """Return the cautions about the cutter, in the order in which they stop the work."""
    return [*_width(seat), *_diameter(seat), *_necks(seat), *_holder(seat)]


def unowned(seat: Seat) -> list[Warning]:
    """Return the caution that the shop has cutters, but none for this seat."""
    return [
        Warning(
            "no-cutter-owned",
            f"no cutter of the shop file cuts this, a seat {both(seat.seat_width)} wide; the "
            "figures are for a cutter of the key's size",
        )
    ]


def _width(seat: Seat) -> list[Warning]:
    mill = seat.cutter_kind == "end mill"
    size = seat.work.end_mill if mill else seat.work.cutter_width
    if size is None:
        return []
    least, most = seat.seat_width.least.value, seat.seat_width.most.value
    limits, shown = both(seat.seat_width), wide(size, seat)
    if size < least:
        what = f"an end mill of {shown}" if mill else f"a cutter {shown} wide"
        return [
            Warning(
                "cutter-narrow",
                f"{what} is under the seat's width, {limits}; cut to depth, then step "
                f"{_step(size, least, most, seat)} each way from the centre and cut again"
                + _deeper(seat),
            )
        ]
    if mill and size >= most:
        at = "at" if size == most else "over"
        return [
            Warning(
                "end-mill-wide",
                f"an end mill of {shown} is {at} the most of the seat's width, {limits}, and a "
                "mill cuts wider than it measures; take one under size and step over to the "
                "width, or have the drawing allow a wider seat",
            )
        ]
    if size > most:
        return [
            Warning(
                "cutter-wide",
                f"a cutter {shown} wide is {wide(size - most, seat, 'up')} over the seat's width, "
                f"{limits}; take a narrower cutter",
            )
        ]
    return []


def _step(size: Fraction, least: Fraction, most: Fraction, seat: Seat) -> str:
    """Return how far a narrow cutter steps over, as limits if they print apart."""
    low, high = wide((least - size) / 2, seat, "up"), wide((most - size) / 2, seat, "down")
    return f"{low} to {high}" if Fraction(low) < Fraction(high) else low


def _deeper(seat: Seat) -> str:
    """Return what a disc feeds more once its seat is widened, where depth is tabled at the edge."""
    if seat.work.unit != "in" or seat.cut_width.value >= seat.key.width.value:
        return ""
    widened = geometry.arc_height(seat.work.shaft, seat.key.width.value)
    more = widened - seat.arc_height.value
    if more < WORTH["in"]:
        return ""
    return f", fed {said(more, seat)} more, since the edge then lies lower"


def _diameter(seat: Seat) -> list[Warning]:
    size, key = seat.work.cutter_diameter, seat.key.diameter
    if size is None or key is None or size == key.value:
        return []
    if size < key.value:
        return [Warning("cutter-ground-under-key", _ground_under(seat, size, key))]
    opens = ""
    if seat.opening_at_crown is not None:
        opens = f" and opens {seat.opening_at_crown.text} at the crown"
    most = seat.seat_diameter.most if seat.seat_diameter is not None else None
    if most is not None and size > most.value:
        return [
            Warning(
                "cutter-over-seat",
                f"a cutter of {said(size, seat)} is over the seat's most diameter, {marked(most)}: "
                f"the seat is longer than the standard allows{opens}, and the key can rock; use a "
                "smaller cutter",
            )
        ]
    return [
        Warning(
            "cutter-oversize",
            f"a cutter of {said(size, seat)} is over the key's {key.text}, as many are furnished: "
            f"the seat is placed from {said(size, seat)}{opens}; set the key level before you "
            "measure over it",
        )
    ]


def _ground_under(seat: Seat, size: Fraction, key: Quantity) -> str:
    at_least, above, depth = seat.lift, seat.key_above_edge, seat.depth_at_edge
    assert at_least is not None
    stands = above.most.value + at_least.value
    text = (
        f"a cutter of {said(size, seat)} is under the key's {key.text}: the key rides up "
        f"{at_least.text} on the seat's ends and stands up to {said(stands, seat, 'up')} above the "
        f"edge, where {marked(above.most)} is the most"
    )
    height = seat.work.key_height
    high = height if height is not None else seat.key.height.most.value
    deepest = clearance.lift(key.value, high, size, seat.depth_from_crown.most.value)
    if deepest > depth.most.value - depth.least.value:
        text += "; no depth within the limits brings over key back"
    else:
        text += "; over key is within its limits only with the floor toward the deep end of its own"
    room = tightest(seat)
    if room >= 0 and room < at_least.value:
        gone = said(at_least.value - room, seat, "up")
        text += f", and at the limits the hub's top clearance is gone by {gone}"
    return text + "; use a cutter of the key's diameter or over"


def _necks(seat: Seat) -> list[Warning]:
    diameter = seat.cutter_diameter
    if diameter is None:
        return []
    clear = clear_neck(diameter, seat.depth_at_edge.most)
    if clear.value <= 0:
        better = "of the key's diameter" if seat.key.diameter is not None else "of more diameter"
        return [
            Warning(
                "no-neck-clears",
                f"with a cutter of {diameter.text} no neck or collar can clear the edges at full "
                f"depth, {marked(seat.depth_at_edge.most)} at the edge; use a cutter {better}",
            )
        ]
    found = []
    for name, size in (("neck", seat.work.neck), ("collar", seat.work.collar)):
        if size is not None and size > clear.value:
            found.append(_rubs(seat, name, size, clear))
    return found


def _rubs(seat: Seat, name: str, size: Fraction, clear: Quantity) -> Warning:
    assert seat.cutter_diameter is not None
    edge = clearance.depth_where_neck_rubs(seat.cutter_diameter.value, size)
    crown = edge + seat.arc_height.value
    where = f"{said(crown, seat, 'down')} from the crown, {said(edge, seat, 'down')} at the edge"
    largest = clear.printed(4 if seat.work.unit == "in" else 2, "down")
    if edge <= seat.depth_at_edge.most.value:
        says = f"a {name} of {said(size, seat)} rubs the edges when the floor is {where}"
    else:
        room = said(NECK_CLEARANCE[seat.work.unit], seat)
        says = (
            f"a {name} of {said(size, seat)} has less than {room} to be clear of the edges at full "
            f"depth: it rubs at {where}"
        )
    return Warning(f"{name}-rubs", f"{says}; use one not over {marked(largest)}")


def _holder(seat: Seat) -> list[Warning]:
    work, needed = seat.work, seat.stand_off_needed
    if work.stand_off is None or needed is None or work.stand_off >= needed.value:
        return []
    stands, diameter = said(work.stand_off, seat), seat.cutter_diameter
    if work.holder_radius is None or diameter is None:
        lacking = "its radius" if work.holder_radius is None else "the cutter's diameter"
        return [
            Warning(
                "holder-hits",
                f"a holder {stands} off the cutter's face can hit the shaft: {needed.text} clears "
                f"any holder; let the cutter out so far, or give {lacking}",
            )
        ]
    hits = clearance.depth_where_holder_hits(
        work.shaft, seat.cutter_width.value, diameter.value, work.holder_radius, work.stand_off
    )
    full = clearance.stand_off(
        work.shaft,
        seat.cutter_width.value,
        diameter.value,
        seat.depth_from_crown.most.value,
        work.holder_radius,
    )
    if work.stand_off >= full:
        return [
            Warning(
                "holder-hits",
                f"a holder of radius {said(work.holder_radius, seat)} that stands {stands} off the "
                "cutter's face clears the shaft at full depth, but can hit its end where the "
                f"cutter's rim touches an end face, the axis at the crown; let the cutter out "
                f"until it stands {marked(needed)} off, or place the seat another way",
            )
        ]
    assert hits is not None
    where = "before the cutter is on the crown"
    if hits > 0:
        where = f"{said(hits, seat, 'down')} from the crown"
    return [
        Warning(
            "holder-hits",
            f"a holder of radius {said(work.holder_radius, seat)} that stands {stands} off the "
            f"cutter's face hits the shaft {where}; let the cutter out until it stands "
            f"{marked(needed)} off, or use a thinner holder",
        )
    ]
