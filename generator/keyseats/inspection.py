"""A cut seat judged by one measurement, from whichever datum it was taken."""

from __future__ import annotations

from fractions import Fraction

from keyseats import clearance, geometry
from keyseats.faults import TypedError
from keyseats.frozen import frozen
from keyseats.lengths import decimal, places_of
from keyseats.seat import SETTING_PLACES, Seat
from keyseats.standing import (
    Limits,
    Quantity,
    add,
    as_printed,
    between,
    derive,
    taken_from,
    typed,
)

# The datum as it is typed, and the figure of the seat that it measures.
DATUMS = {
    "from-crown": "depth_from_crown",
    "at-edge": "depth_at_edge",
    "opposite-side": "floor_to_opposite_side",
    "over-key": "over_key",
}
NAMES = {
    "from-crown": "depth from crown",
    "at-edge": "depth at edge",
    "opposite-side": "floor to opposite side",
    "over-key": "over key",
}
# A figure is taken for a slip only where it is off by so many times what its limits leave, and by
# more than a micrometer is misread by; a slip's own figure is met so closely. Our choice. [length]
WELL_OVER = Fraction(3, 2)
CLOSE = {"in": Fraction("0.002"), "mm": Fraction("0.05")}
INSIDE, SHALLOW, DEEP, UNDECIDED = "inside", "shallow", "deep", "undecided"


@frozen
class Measure:
    """One thing to measure on a cut seat: its name, what with and how, and its limits."""

    name: str
    says: str
    limits: Limits


@frozen
class Inspection:
    """What one measurement tells of a seat.

    Limits are what was allowed (``limits``) or what the seat can be as measured (the others):
    their two ends are one where nothing but the measurement is needed to know them. ``by`` is how
    far the measurement lies outside the nearest limit, zero if it does not. Heights below the
    edge, the crown or the bore's edge are under zero. ``rides`` is how far the key rides up off the
    floor, None where it lies on it. [length]
    """

    seat: Seat
    datum: str
    measured: Quantity
    verdict: str
    by: Quantity
    limits: Limits
    depth_from_crown: Limits
    over_key: Limits
    key_above_edge: Limits
    key_above_crown: Limits
    key_in_hub: Limits
    key_in_hub_if_right: Limits
    hub_clearance: Limits
    rides: Limits | None = None

    @property
    def key_height(self) -> Limits:
        """Return the key's height: as measured, or its limits."""
        return height_of_key(self.seat)


def height_of_key(seat: Seat) -> Limits:
    """Return the key's height as measured, or its limits if it was not. [length]"""
    if seat.work.key_height is None:
        return seat.key.height
    measured = typed(seat.work.key_height, seat.work.unit).printed(SETTING_PLACES[seat.work.unit])
    return Limits(measured, measured)


def allowed(seat: Seat, datum: str) -> Limits:
    """Return the limits of a seat's figure, none tighter than the standard prints it.

    ASME B17.1 prints floor to opposite side at a nominal shaft to three places; a seat that is
    exactly as printed is right, though the rule worked exactly be a little off it. Over key is
    raised by what the key rides up in a seat whose cutter was ground under it.

    Parameters
    ----------
    seat
        The seat.
    datum
        One of `DATUMS`.
    """
    limits: Limits = getattr(seat, DATUMS[datum])
    if datum == "over-key" and rides_up(seat):
        limits = _raised(seat)
    least, most = limits.least, limits.most
    as_printed = Fraction(least.text), Fraction(most.text)
    return Limits(
        Quantity(min(least.value, as_printed[0]), *_rest(least)),
        Quantity(max(most.value, as_printed[1]), *_rest(most)),
    )


def rides_up(seat: Seat) -> bool:
    """Return whether the key rides up on the ends of a seat cut by a smaller cutter."""
    key, cutter = seat.key.diameter, seat.cutter_diameter
    return key is not None and cutter is not None and cutter.value < key.value


def _lift(seat: Seat, height: Quantity, depth: Quantity) -> Quantity:
    """Return how far a key of a height rides up in a seat of a depth from crown."""
    key, cutter = seat.key.diameter, seat.cutter_diameter
    assert key is not None
    assert cutter is not None
    up = clearance.lift(key.value, height.value, cutter.value, depth.value)
    return derive(up, key, cutter, height, depth)


def _lifts(seat: Seat, height: Limits, depth: Limits) -> Limits:
    """Return how far the key can ride up: more with more depth, and with a higher key."""
    return Limits(_lift(seat, height.least, depth.least), _lift(seat, height.most, depth.most))


def _raised(seat: Seat) -> Limits:
    """Return the limits of over key where the key rides up: the deepest seat has the least."""
    height, depth = height_of_key(seat), seat.depth_from_crown
    return Limits(
        add(seat.over_key.least, _lift(seat, height.least, depth.most)),
        add(seat.over_key.most, _lift(seat, height.most, depth.least)),
    ).printed(SETTING_PLACES[seat.work.unit])


def _rest(q: Quantity) -> tuple[str, str, tuple[str, ...], str]:
    return q.unit, q.standing, q.rows, q.text


def hub_clearance(seat: Seat) -> Limits:
    """Return how far the hub's floor clears the key in a right seat; under zero it binds.

    Hub floor to opposite side less over key, shaft and bore touching on the opposite side. A hub
    is cut to what its standard prints, which may have fewer places than its sum. [length]
    """
    hub, over_key = seat.hub_floor_to_opposite_side, seat.over_key
    if places_of(hub.least.text) < SETTING_PLACES[seat.work.unit]:
        hub, over_key = as_printed(hub), as_printed(over_key)
    found = between(hub, over_key, -1)
    return _span(found, seat.work.unit)


def measures(seat: Seat) -> tuple[Measure, ...]:
    """Return what to measure on a cut seat, and with what, best first."""
    half_moon = seat.key.diameter is not None
    floor = "micrometer, with a ball anvil or a pin narrower than the seat on its floor"
    crown = "depth micrometer, its base along the crown, on the uncut shaft past the seat's end"
    edge = "depth micrometer, its base across both edges; before they are broken"
    key = "micrometer over the key, pressed down to the floor"
    if half_moon:
        floor = "micrometer with a ball anvil, at mid-length, where the floor lies deepest"
        crown = "depth micrometer, its base along the crown, rod at mid-length"
        edge = "depth micrometer, its base across both edges at mid-length; before they are broken"
        key = "micrometer over the key at mid-length, the key pressed down to the floor"
    if seat.work.key_height is None:
        key += "; without this key's own height it cannot judge the seat alone"
    return (
        Measure(NAMES["opposite-side"], floor, seat.floor_to_opposite_side),
        Measure(NAMES["from-crown"], crown, seat.depth_from_crown),
        Measure(NAMES["at-edge"], edge, seat.depth_at_edge),
        Measure(NAMES["over-key"], key, seat.over_key),
    )


def inspect(seat: Seat, datum: str, value: Fraction) -> Inspection:
    """Judge a cut seat by one measurement.

    Parameters
    ----------
    seat
        The seat as it should be, for the shaft, the key and the width as measured.
    datum
        What was measured, one of `DATUMS`.
    value
        The measurement, in the seat's unit. [length]

    Returns
    -------
    Inspection
        A measurement on a limit is inside. Over key without the key's height is undecided where
        keys inside their limits would make both a right seat and a wrong one of it.

    Raises
    ------
    TypedError
        If no seat of this key in this shaft can measure so.
    """
    unit = seat.work.unit
    measured = Quantity(value, unit, "typed", (), shown(value, unit))
    shaft, height = typed(seat.work.shaft, unit), height_of_key(seat)
    depth = _depth(seat, datum, measured, shaft, height)
    rides = _lifts(seat, height, depth) if rides_up(seat) else None
    _refuse(seat, datum, measured, depth)

    limits = allowed(seat, datum)
    verdict, by = _verdict(seat, datum, measured, limits, depth)
    if datum == "over-key":
        over_key = Limits(measured, measured)
    else:
        over_key = between(taken_from(shaft, depth), height)
        over_key = over_key if rides is None else between(over_key, rides)
    edge = add(shaft, seat.arc_height, -1)
    bore, width = typed(seat.work.hub_bore, unit), seat.key.width
    bore_edge = add(bore, derive(geometry.arc_height(bore.value, width.value), bore, width), -1)
    return Inspection(
        seat=seat,
        datum=datum,
        measured=measured,
        verdict=verdict,
        by=by.printed(SETTING_PLACES[unit], "up"),
        limits=limits,
        depth_from_crown=_span(depth, unit),
        over_key=_span(over_key, unit),
        key_above_edge=_span(over_key.shifted(edge, -1), unit),
        key_above_crown=_span(over_key.shifted(shaft, -1), unit),
        key_in_hub=_span(over_key.shifted(bore_edge, -1), unit),
        key_in_hub_if_right=seat.over_key.shifted(bore_edge, -1).printed(SETTING_PLACES[unit]),
        hub_clearance=_span(between(seat.hub_floor_to_opposite_side, over_key, -1), unit),
        rides=None if rides is None else _span(rides, unit),
    )


def _depth(seat: Seat, datum: str, measured: Quantity, shaft: Quantity, height: Limits) -> Limits:
    """Return the depth from crown that the measurement tells, as what it can be."""
    exact = Limits(measured, measured)
    if datum == "from-crown":
        return exact
    if datum == "at-edge":
        return exact.shifted(seat.arc_height)
    if datum == "opposite-side":
        return taken_from(shaft, exact)
    sits = between(height.shifted(shaft), exact, -1)
    if not rides_up(seat):
        return sits
    ends = ((height.least, sits.least), (height.most, sits.most))
    return Limits(*(_under_lift(seat, high, low) for high, low in ends))


def _under_lift(seat: Seat, height: Quantity, sits: Quantity) -> Quantity:
    """Return the depth from crown of the seat that a key sits in so far down, and rides up in."""
    key, cutter = seat.key.diameter, seat.cutter_diameter
    assert key is not None
    assert cutter is not None
    depth = clearance.depth_where_key_sits(key.value, height.value, cutter.value, sits.value)
    return derive(depth, sits, key, cutter)


def _verdict(
    seat: Seat, datum: str, measured: Quantity, limits: Limits, depth: Limits
) -> tuple[str, Quantity]:
    more_is_deep = datum in ("from-crown", "at-edge")
    if measured.value < limits.least.value:
        return SHALLOW if more_is_deep else DEEP, add(limits.least, measured, -1)
    if measured.value > limits.most.value:
        return DEEP if more_is_deep else SHALLOW, add(measured, limits.most, -1)
    right = seat.depth_from_crown
    unsure = depth.least.value != depth.most.value
    if unsure and not (
        right.least.value <= depth.least.value and depth.most.value <= right.most.value
    ):
        return UNDECIDED, add(measured, measured, -1)
    return INSIDE, add(measured, measured, -1)


def outside(limits: Limits, value: Fraction) -> Fraction:
    """Return how far a figure lies outside limits; zero on them or between. [length]"""
    return max(limits.least.value - value, value - limits.most.value, Fraction(0))


def nearer(seat: Seat, datum: str, value: Fraction) -> list[str]:
    """Return the datum whose limits the figure is far nearer to: the usual mix-up.

    Far nearer is four times: common practice has no figure for it. A figure that is off its own
    limits by little more than they leave is no mix-up. Two datums are returned where the figure
    lies inside the limits of both.
    """
    own = allowed(seat, datum)
    little = max(WELL_OVER * (own.most.value - own.least.value), CLOSE[seat.work.unit])
    if outside(own, value) <= little:
        return []
    off = {other: outside(allowed(seat, other), value) for other in DATUMS}
    least = min(off.values())
    return [other for other in DATUMS if off[other] == least and 4 * least < off[datum]]


def _refuse(seat: Seat, datum: str, measured: Quantity, depth: Limits) -> None:
    """Refuse what no seat of this key can measure, naming the option and what would do."""
    unit, shaft, right = seat.work.unit, seat.work.shaft, seat.depth_from_crown
    whole = f"{shown(shaft, unit)} {unit}"
    if depth.most.value <= 0:
        together = ", and the key together" if datum == "over-key" else ""
        says = f"is not under the shaft, {whole}{together}: nothing would be cut"
        if datum in ("from-crown", "at-edge"):
            says = "is not above zero: nothing would be cut"
    elif depth.least.value >= shaft:
        says = f"would put the floor right through the shaft, {whole}"
    elif depth.least.value > right.most.value + height_of_key(seat).most.value:
        low = decimal(depth.least.value, SETTING_PLACES[unit])
        says = (
            f"would put the floor {low} {unit} from the crown, nowhere near a "
            f"{seat.key.designation} seat, {right.least.text} to {right.most.text}"
        )
    else:
        return
    others = nearer(seat, datum, measured.value)
    remedy = "measure again, and mind the datum and the unit"
    if others:
        remedy = "did you mean " + " or ".join(f"--{other}" for other in others) + "?"
    raise TypedError(f"--{datum}: {measured.text} {unit} {says}; {remedy}")


def shown(value: Fraction, unit: str) -> str:
    """Return a typed size with as many places as it takes, so that it reads as it was typed."""
    places = SETTING_PLACES[unit]
    for more in range(3):
        text = decimal(value, places + more)
        if Fraction(text) == value:
            return text
    return decimal(value, places + 1)


def _span(limits: Limits, unit: str) -> Limits:
    """Return what a seat can be, printed to nearest: nothing that is cut to."""
    return limits.printed(SETTING_PLACES[unit], "nearest")
