"""One seat in one shaft: every depth from its datum, as limits, with standing.

The families say what their standard tables; this module turns that into the figures that every
family shares, by `keyseats.geometry`.
"""

from __future__ import annotations

from fractions import Fraction

from keyseats import clearance, geometry
from keyseats.frozen import frozen, replace
from keyseats.standing import Limits, Quantity, add, between, derive, taken_from, typed

NECK_CLEARANCE = {"in": Fraction("0.010"), "mm": Fraction("0.25")}
SETTING_PLACES = {"in": 4, "mm": 2}


@frozen
class Work:
    """The shaft and what the user measured; nominal picks the key, measured sets the depths.

    All sizes in ``unit``; None where nothing was given. ``collar`` is the diameter beside the free
    face of a cutter on an arbor, ``stand_off`` how far the holder stands from the cutter's near
    face, ``tip_length`` how far an edge finder's tip reaches out of its body. [length]
    """

    unit: str
    nominal: Fraction
    measured: Fraction | None = None
    bore: Fraction | None = None
    key_height: Fraction | None = None
    cutter_width: Fraction | None = None
    cutter_diameter: Fraction | None = None
    neck: Fraction | None = None
    end_mill: Fraction | None = None
    paper: Fraction = Fraction(0)
    tip: Fraction | None = None
    tip_length: Fraction | None = None
    collar: Fraction | None = None
    holder_radius: Fraction | None = None
    stand_off: Fraction | None = None
    cutter_name: str = ""
    fit: str = ""
    standard: str = ""

    @property
    def shaft(self) -> Fraction:
        """Return the diameter that sets the depths: measured, or nominal if not given."""
        return self.measured if self.measured is not None else self.nominal

    @property
    def hub_bore(self) -> Fraction:
        """Return the bore, or the nominal shaft if none was given."""
        return self.bore if self.bore is not None else self.nominal

    @property
    def as_nominal(self) -> bool:
        """Return whether the shaft is taken at its nominal size."""
        return self.measured is None or self.measured == self.nominal


@frozen
class Key:
    """A key as its standard gives it; height as limits, diameter only for half-moon keys."""

    family: str
    standard: str
    designation: str
    width: Quantity
    height: Limits
    diameter: Quantity | None = None
    nominal_height: Quantity | None = None

    @property
    def in_print(self) -> str:
        """Return its designation as a page has it, ``8 × 7``; what is typed has an ``x``."""
        return self.designation.replace(" x ", " × ")


@frozen
class Tabled:
    """What a family's standard gives for one key: the rest of a seat is geometry.

    One of ``depth_at_edge`` and ``depth_from_crown`` is the tabled datum. ``hub_rise`` is the
    hub's floor over the bore: with ``hub_datum`` "edge" from the keyway's edge, with "crown" from
    the bore's full-diameter line. ``seat_diameter`` is the round of a half-moon seat, None where
    its standard gives none that was read.
    """

    key: Key
    seat_width: Limits
    hub_width: Limits
    hub_rise: Limits
    hub_datum: str
    depth_at_edge: Limits | None = None
    depth_from_crown: Limits | None = None
    fit: str = ""
    choice: str = "other"
    floor_radius: Limits | None = None
    seat_diameter: Limits | None = None
    as_standard_prints: bool = False
    shafts: str = ""


@frozen
class Warning:
    """A caution about this seat, with a code for machines and words for people."""

    code: str
    says: str


@frozen
class Centring:
    """Travel from a touch to the centreline, for each touch that the cutter has."""

    face_touch: Quantity | None
    rim_touch: Quantity | None
    edge_finder: Quantity | None


@frozen
class Seat:
    """Every figure of one seat in one shaft; a depth names its datum.

    ``work`` is what the figures were computed for, so that a seat is never shown in another unit
    than its own. ``cut_width`` is how wide the seat ends up, which the depths are counted for: an
    end mill under the seat's limits steps over to the key's width. ``ramp`` is how far a disc runs
    out beyond full depth at one end, ``stand_off_needed`` how far a holder must stand off the
    cutter's face: the holder given, or any holder. ``lift`` is how far the key rides up on a seat
    of the least depth that was cut by a cutter ground under it. [length]
    """

    work: Work
    key: Key
    choice: str
    fit: str
    arc_height: Quantity
    depth_at_edge: Limits
    depth_from_crown: Limits
    floor_to_opposite_side: Limits
    over_key: Limits
    key_above_edge: Limits
    seat_width: Limits
    hub_width: Limits
    hub_floor_to_opposite_side: Limits
    centring: Centring
    cutter_kind: str
    cutter_width: Quantity
    cutter_diameter: Quantity | None
    opening_at_crown: Quantity | None
    opening_at_edge: Quantity | None
    largest_neck: Quantity | None
    floor_radius: Limits | None
    cut_width: Quantity
    ramp: Quantity | None = None
    stand_off_needed: Quantity | None = None
    lift: Quantity | None = None
    seat_diameter: Limits | None = None
    warnings: tuple[Warning, ...] = ()
    shafts: str = ""


def _round_cutter(kind: str, key: Key, work: Work) -> Quantity | None:
    """Return the diameter of a disc or half-moon cutter; None for an end mill or if not known."""
    if kind == "end mill":
        return None
    if work.cutter_diameter is not None:
        return typed(work.cutter_diameter, work.unit)
    return key.diameter


def _widths(kind: str, tabled: Tabled, work: Work) -> tuple[Quantity, Quantity]:
    """Return the cutter's width, and the width that the seat ends up with."""
    width = tabled.key.width
    if kind == "end mill" and work.end_mill is not None:
        mill = typed(work.end_mill, work.unit)
        return mill, mill if mill.value >= tabled.seat_width.least.value else width
    if work.cutter_width is not None:
        width = typed(work.cutter_width, work.unit)
    return width, width


def seat_of(tabled: Tabled, work: Work) -> Seat:
    """Compute a seat's figures from what its standard tables.

    Parameters
    ----------
    tabled
        The key, the tabled depth with its datum, widths and hub.
    work
        The shaft, bore and cutter, nominal and as measured. [length]

    Returns
    -------
    Seat
        Limits rounded inward in their text; values unrounded. [length]

    Raises
    ------
    ValueError
        If the key cannot be let into the shaft at all.

    References
    ----------
    ASME B17.1, ASME B17.2 and the ISO/R 773 family for the datums; geometry for the rest.
    """
    key, unit = tabled.key, work.unit
    places = SETTING_PLACES[unit]
    shaft = typed(work.shaft, unit)
    half_moon = key.diameter is not None
    kind = "half-moon" if half_moon else "end mill" if work.end_mill is not None else "disc"
    width, cut_width = _widths(kind, tabled, work)
    arc = derive(geometry.arc_height(shaft.value, cut_width.value), shaft, cut_width)

    if tabled.depth_at_edge is not None:
        at_edge = tabled.depth_at_edge
        from_crown = at_edge.shifted(arc)
    elif tabled.depth_from_crown is not None:
        from_crown = tabled.depth_from_crown
        at_edge = from_crown.shifted(arc, -1)
    else:
        raise ValueError(f"{key.designation} has no tabled depth")
    if from_crown.most.value >= shaft.value or at_edge.least.value <= 0:
        raise ValueError(f"a {key.designation} key does not fit into this shaft")

    floor = taken_from(shaft, from_crown)
    height = key.height
    if work.key_height is not None:
        measured = typed(work.key_height, unit)
        height = Limits(measured, measured)
    bore = typed(work.hub_bore, unit)
    hub_floor = tabled.hub_rise.shifted(bore)
    if tabled.hub_datum == "edge":
        in_bore = derive(geometry.arc_height(bore.value, key.width.value), bore, key.width)
        hub_floor = hub_floor.shifted(in_bore, -1)

    diameter = _round_cutter(kind, key, work)
    neck = opening_crown = opening_edge = ramp = stand_off = lift = None
    if half_moon and diameter is not None:
        clear = clear_neck(diameter, at_edge.most)
        neck = clear if clear.value > 0 else None
        opening_crown = _opening(diameter, from_crown.least)
        opening_edge = _opening(diameter, at_edge.least)
        lift = _lift(key, height, diameter, from_crown.least)
    elif diameter is not None and from_crown.least.value <= diameter.value:
        run = geometry.ramp(diameter.value, from_crown.least.value)
        ramp = derive(run, diameter, from_crown.least)
    if kind != "end mill":
        stand_off = _stand_off(shaft, width, diameter, from_crown.most, work)

    floor_text = floor.printed(places)
    hub_text = hub_floor.printed(places)
    if tabled.as_standard_prints and work.as_nominal and cut_width is key.width:
        floor_text = floor.printed(3, "nearest")
    if tabled.as_standard_prints and work.bore is None:
        hub_text = hub_floor.printed(3, "nearest")
    width_places = 4 if unit == "in" else 3
    return Seat(
        work=work,
        key=replace(key, height=key.height.printed(4 if unit == "in" and not half_moon else 3)),
        choice=tabled.choice,
        fit=tabled.fit,
        arc_height=arc.printed(4 if unit == "in" else 3),
        depth_at_edge=at_edge.printed(places),
        depth_from_crown=from_crown.printed(places),
        floor_to_opposite_side=floor_text,
        over_key=between(floor, height).printed(places),
        key_above_edge=between(height, at_edge, -1).printed(places),
        seat_width=tabled.seat_width.printed(width_places),
        hub_width=tabled.hub_width.printed(width_places),
        hub_floor_to_opposite_side=hub_text,
        centring=_centring(kind, shaft, width, work, places),
        cutter_kind=kind,
        cutter_width=width.printed(4 if unit == "in" else 3),
        cutter_diameter=diameter.printed(4 if unit == "in" else 2) if diameter else None,
        opening_at_crown=opening_crown.printed(places) if opening_crown else None,
        opening_at_edge=opening_edge.printed(places) if opening_edge else None,
        largest_neck=neck.printed(places, "down") if neck else None,
        floor_radius=tabled.floor_radius,
        cut_width=cut_width.printed(width_places),
        ramp=ramp.printed(places) if ramp else None,
        stand_off_needed=stand_off.printed(places, "up") if stand_off else None,
        lift=lift.printed(places, "up") if lift else None,
        seat_diameter=tabled.seat_diameter,
        shafts=tabled.shafts,
    )


def _opening(diameter: Quantity, depth: Quantity) -> Quantity | None:
    if depth.value > diameter.value:
        return None
    return derive(geometry.opening(diameter.value, depth.value), diameter, depth)


def _stand_off(
    shaft: Quantity, width: Quantity, diameter: Quantity | None, most: Quantity, work: Work
) -> Quantity:
    """Return what the holder must stand off: the one given, or any holder.

    A holder larger than the cutter comes over the shaft before the cutter does, so where the seat
    is placed by a touch on an end face it may have to stand off farther than at full depth.
    """
    if diameter is None or work.holder_radius is None:
        return derive((shaft.value - width.value) / 2, shaft, width)
    holder = typed(work.holder_radius, work.unit)
    clears = clearance.stand_off(shaft.value, width.value, diameter.value, most.value, holder.value)
    at_end = clearance.stand_off_at_end_face(shaft.value, width.value, diameter.value, holder.value)
    if at_end > clears:
        return derive(at_end, shaft, width, diameter, holder)
    return derive(clears, shaft, width, diameter, most, holder)


def _lift(key: Key, height: Limits, diameter: Quantity, depth: Quantity) -> Quantity | None:
    """Return how far the key rides up, or None where it lies on the floor."""
    if key.diameter is None or diameter.value >= key.diameter.value:
        return None
    up = clearance.lift(key.diameter.value, height.most.value, diameter.value, depth.value)
    return derive(up, key.diameter, height.most, diameter, depth)


def _centring(kind: str, shaft: Quantity, width: Quantity, work: Work, places: int) -> Centring:
    paper = typed(work.paper, work.unit)
    if kind == "end mill":
        rim = derive(
            geometry.rim_touch_travel(shaft.value, width.value, paper.value), shaft, width, paper
        )
        finder = None
        if work.tip is not None:
            tip = typed(work.tip, work.unit)
            travel = geometry.rim_touch_travel(shaft.value, tip.value, Fraction(0))
            finder = derive(travel, shaft, tip).printed(places)
        return Centring(None, rim.printed(places), finder)
    face = derive(
        geometry.face_touch_travel(shaft.value, width.value, paper.value), shaft, width, paper
    )
    return Centring(face.printed(places), None, None)


def limits_up(nominal: Quantity, plus: Quantity) -> Limits:
    """Return the limits of a tabled least size and the tolerance above it."""
    return Limits(nominal, add(nominal, plus))


def limits_of(least: Quantity | None, most: Quantity | None) -> Limits | None:
    """Return two tabled ends as limits, or None if either is not known."""
    return None if least is None or most is None else Limits(least, most)


def clear_neck(diameter: Quantity, at_edge_most: Quantity) -> Quantity:
    """Return the largest neck that is clear of the edges at full depth; zero or less: none is.

    Parameters
    ----------
    diameter
        Cutter diameter. [length]
    at_edge_most
        Most depth at edge. [length]
    """
    touches = geometry.largest_neck(diameter.value, at_edge_most.value)
    return derive(touches - NECK_CLEARANCE[diameter.unit], diameter, at_edge_most)


def limits_about(nominal: Quantity, minus: Quantity, plus: Quantity) -> Limits:
    """Return the limits of a nominal size from its signed tolerances."""
    return Limits(add(nominal, minus), add(nominal, plus))
