"""Touch, travel and feed replayed against the section by constructions of their own.

The functions under test work in `Fraction` from one formula each; here the shaft, the cutter, the
neck, the holder and the key are laid down as circles and lines and are moved, by `Decimal` of 50
figures or by an implicit check (a corner lies on a circle). Where a published source gives the
rule it is named; else it is geometry.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from decimal import Context, Decimal, localcontext
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from keyseats import clearance, geometry
from keyseats.load import Tables
from keyseats.lookup import seats_for
from keyseats.seat import Work

CLOSE = Fraction(1, 10**28)
EXACT = Context(prec=50)
shafts = st.fractions(Fraction(1, 4), 100, max_denominator=10**4)
parts = st.fractions(Fraction(1, 50), Fraction(49, 50), max_denominator=10**4)
papers = st.fractions(0, Fraction(1, 10), max_denominator=10**4)


def dec(value: Fraction) -> Decimal:
    return EXACT.divide(Decimal(value.numerator), Decimal(value.denominator))


def on_circle(x: Fraction, y: Fraction, radius: Fraction) -> bool:
    return abs(x**2 + y**2 - radius**2) <= CLOSE * radius**2


def rim(radius: Fraction, count: int = 64) -> Iterator[tuple[Fraction, Fraction]]:
    """Yield points that lie exactly on the right half of a circle, bottom to top.

    The chord from the lowest point at a rational slope meets the circle in a rational point.
    """
    for n in range(1, count + 1):
        t = Fraction(n, count) / Fraction(count + 1 - n, count)
        yield radius * 2 * t / (1 + t * t), radius * (t * t - 1) / (1 + t * t)


@given(shaft=shafts, wide=parts, paper=papers)
def test_a_face_touch_and_its_travel_leave_the_cutter_astride(
    shaft: Fraction, wide: Fraction, paper: Fraction
) -> None:
    """US Army TC 9-524, ch. 8: half the shaft plus half the cutter; and the paper."""
    radius, width = shaft / 2, shaft * wide
    travel = geometry.face_touch_travel(shaft, width, paper)
    near, far = travel - width / 2, travel + width / 2
    assert near - paper == max(x for x, _ in [*rim(radius), (radius, Fraction(0))])
    assert near - travel == -(far - travel)
    for sign in (-1, 1):
        edge = radius - geometry.arc_height(shaft, width)
        assert on_circle(sign * width / 2, edge, radius)


@given(shaft=shafts, wide=parts, paper=papers, up=parts)
def test_a_rim_that_stays_above_the_centre_line_touches_with_its_corner(
    shaft: Fraction, wide: Fraction, paper: Fraction, up: Fraction
) -> None:
    radius, width = shaft / 2, shaft * wide
    above = radius * up
    face = geometry.face_touch_travel(shaft, width, paper, above) - width / 2 - paper
    assert on_circle(face, above, radius)
    for x, y in rim(radius):
        if y >= above:
            assert x <= face + CLOSE
    low = geometry.face_touch_travel(shaft, width, paper, -above)
    assert low == geometry.face_touch_travel(shaft, width, paper)
    assert low > face + width / 2 + paper


def test_a_rim_above_the_crown_touches_nothing() -> None:
    with pytest.raises(ValueError, match="passes over the shaft"):
        geometry.face_touch_travel(Fraction(1), Fraction(1, 4), Fraction(0), Fraction(51, 100))


@pytest.mark.parametrize(
    ("unit", "family", "low", "high"),
    [
        ("in", "inch plain", 6, 60),
        ("in", "inch half-moon", 6, 30),
        ("mm", "metric plain", 11, 50),
        ("mm", "metric half-moon", 6, 38),
    ],
)
@given(data=st.data())
@settings(max_examples=25)
def test_touch_travel_and_feed_make_the_tabled_seat(
    tables: Tables, unit: str, family: str, low: int, high: int, data: st.DataObject
) -> None:
    """Replay one seat on the section: only tabled figures and the circle decide where it ends."""
    step = Fraction(1, 16) if unit == "in" else Fraction(1)
    small = Fraction(1, 10000) if unit == "in" else Fraction(1, 500)
    nominal = data.draw(st.integers(low, high)) * step
    shaft = nominal + data.draw(st.integers(-50, 50)) * small
    paper = data.draw(st.integers(0, 50)) * small
    work = Work(unit, nominal, measured=shaft, paper=paper)
    seat = seats_for(tables, work, (family,))[0]
    radius, width = shaft / 2, seat.cutter_width.value
    assert seat.centring.face_touch is not None
    left = radius + paper - seat.centring.face_touch.value
    right = left + width
    assert left == -right
    for fed, floor_text in (
        (seat.depth_from_crown.least, seat.floor_to_opposite_side.most),
        (seat.depth_from_crown.most, seat.floor_to_opposite_side.least),
    ):
        floor = radius - fed.value
        assert floor + radius == floor_text.value
        at_edge = seat.depth_at_edge.least if fed is seat.depth_from_crown.least else None
        edge = floor + (at_edge or seat.depth_at_edge.most).value
        assert on_circle(right, edge, radius)


@given(shaft=shafts, wide=parts, cutter=parts, deep=parts, hold=parts)
def test_a_holder_that_stands_off_enough_has_its_corner_on_the_shaft(
    shaft: Fraction, wide: Fraction, cutter: Fraction, deep: Fraction, hold: Fraction
) -> None:
    """Across the shaft the holder is all that lies right of its face and above its lowest line."""
    radius, width, across = shaft / 2, shaft * wide, shaft * 3 * cutter
    depth, holder = shaft * deep, across / 2 * hold
    low = radius - depth + across / 2 - holder
    needs = clearance.stand_off(shaft, width, across, depth, holder)
    face = width / 2 + needs
    assert needs >= 0
    for x, y in rim(radius):
        assert not (x > face + CLOSE and y > low)
    if needs > 0:
        if low > 0:
            assert on_circle(face, low, radius)
        else:
            assert face == radius
    elif low < radius:
        # The cutter's own side stands out past the shaft at that height.
        assert width**2 / 4 + max(low, Fraction(0)) ** 2 >= radius**2 * (1 - CLOSE)


@given(shaft=shafts, wide=parts, cutter=parts, out=parts, hold=parts)
def test_a_holder_hits_where_its_corner_comes_onto_the_shaft(
    shaft: Fraction, wide: Fraction, cutter: Fraction, out: Fraction, hold: Fraction
) -> None:
    radius, width, across = shaft / 2, shaft * wide, shaft * 3 * cutter
    holder, stands = across / 2 * hold, shaft * out
    hits = clearance.depth_where_holder_hits(shaft, width, across, holder, stands)
    face = width / 2 + stands
    assert (hits is None) == (face >= radius)
    if hits is None:
        return
    low = radius - hits + across / 2 - holder
    assert low > 0
    assert on_circle(face, low, radius)
    if 0 < hits < shaft:
        needs = clearance.stand_off(shaft, width, across, hits, holder)
        assert abs(needs - stands) <= CLOSE * shaft


@given(shaft=shafts, wide=parts, cutter=parts, thick=parts)
def test_a_neck_rubs_where_its_lowest_line_meets_the_edge(
    shaft: Fraction, wide: Fraction, cutter: Fraction, thick: Fraction
) -> None:
    """Let the cutter down by bisection until its neck's lowest line is on the edge."""
    radius, width, across = shaft / 2, shaft * wide, shaft * cutter
    neck = across * thick
    at_edge = clearance.depth_where_neck_rubs(across, neck)
    with localcontext(EXACT):
        half, r = dec(width / 2), dec(radius)
        edge = (r * r - half * half).sqrt()
        clear, rubs = Decimal(0), dec(across + shaft)
        for _ in range(110):
            floor_down = (clear + rubs) / 2
            axis = r - floor_down + dec(across / 2)
            if axis - dec(neck / 2) > edge:
                clear = floor_down
            else:
                rubs = floor_down
        from_crown = Fraction(clear)
    expected = at_edge + geometry.arc_height(shaft, width)
    assert abs(from_crown - expected) <= CLOSE * (shaft + across)
    assert geometry.largest_neck(across, at_edge) == neck


@given(shaft=shafts, cutter=parts, thick=parts)
def test_a_cutter_reaches_the_widest_point_until_its_collar_is_on_the_crown(
    shaft: Fraction, cutter: Fraction, thick: Fraction
) -> None:
    """Let the cutter down beside the shaft until its collar lies on the crown."""
    radius, across = shaft / 2, shaft * 4 * cutter
    collar = across * thick
    axis = radius + collar / 2
    lowest = axis - across / 2
    assert clearance.face_touch_reach(across, collar) == radius - lowest
    above = clearance.rim_above_centre(shaft, clearance.face_touch_reach(across, collar))
    assert above == max(lowest, 0)
    enough = clearance.smallest_cutter_for_face_touch(shaft, collar)
    assert (across >= enough) == (lowest <= 0)


@given(place=shafts, cutter=shafts, paper=papers)
def test_along_the_shaft_from_an_end_face_and_from_a_shoulder(
    place: Fraction, cutter: Fraction, paper: Fraction
) -> None:
    """The end face is at 0 with the shaft to the right of it; so is the shoulder."""
    outside = -paper - cutter / 2
    assert outside + geometry.place_from_end(place, cutter, paper) == place
    beside = paper + cutter / 2
    assert beside + geometry.place_from_shoulder(place, cutter, paper) == place
    least = geometry.least_from_shoulder(cutter)
    assert geometry.place_from_shoulder(least, cutter, Fraction(0)) == 0
    assert (geometry.place_from_shoulder(place, cutter, Fraction(0)) < 0) == (place < least)


@given(cutter=shafts, deep=parts)
def test_a_seat_at_its_least_distance_opens_at_the_end_face(
    cutter: Fraction, deep: Fraction
) -> None:
    depth = cutter * deep
    middle = geometry.least_from_end(cutter, depth)
    if depth <= cutter / 2:
        assert on_circle(middle, cutter / 2 - depth, cutter / 2)
        assert middle == geometry.ramp(cutter, depth)
    else:
        assert middle == cutter / 2


@given(length=shafts, part=parts)
def test_an_end_mill_cuts_both_round_ends(length: Fraction, part: Fraction) -> None:
    mill = length * part
    travel = geometry.end_mill_travel(length, mill)
    first, last = mill / 2, mill / 2 + travel
    assert (first - mill / 2, last + mill / 2) == (0, length)


def test_a_seat_under_the_end_mill_is_refused() -> None:
    assert geometry.end_mill_travel(Fraction(1, 4), Fraction(1, 4)) == 0
    with pytest.raises(ValueError, match="under the end mill"):
        geometry.end_mill_travel(Fraction(1, 4), Fraction(26, 100))


@given(floor=shafts, over=shafts)
def test_top_clearance_is_what_the_key_leaves(floor: Fraction, over: Fraction) -> None:
    assert over + geometry.top_clearance(floor, over) == floor


def rides(
    key_diameter: Fraction,
    key_height: Fraction,
    cutter: Fraction,
    depth: Fraction,
    shaft: Fraction,
    width: Fraction,
) -> Decimal:
    """Return how far a key has to be raised to be clear of every point of the shaft's material.

    The material is looked at point by point, along the shaft and across the seat's width: under
    the cutter's sweep, and nowhere above the shaft's own round. The highest overlap is closed in
    on by a net of points that is drawn tighter round the worst one.
    """
    with localcontext(EXACT):
        rk, rc, r = dec(key_diameter / 2), dec(cutter / 2), dec(shaft / 2)
        top, down = min(dec(key_height), rk), dec(depth)
        half_length = (2 * rk * top - top * top).sqrt()

        def overlap(x: Decimal, y: Decimal) -> Decimal:
            surface = down - (r - (r * r - y * y).sqrt())
            material = surface
            if x < rc:
                material = min(surface, rc - (rc * rc - x * x).sqrt())
            return material - (rk - (rk * rk - x * x).sqrt())

        worst = Decimal(0)
        for step in range(5):
            y = dec(width / 2) * step / 4
            low, high = Decimal(0), half_length
            for _ in range(22):
                net = [low + (high - low) * n / 24 for n in range(25)]
                found = [overlap(x, y) for x in net]
                at = found.index(max(found))
                worst = max(worst, found[at])
                low, high = net[max(0, at - 1)], net[min(24, at + 1)]
        return worst


keys = st.sampled_from([("1", "0.438"), ("0.5", "0.203"), ("16", "6.5"), ("32", "13")])


@given(
    key=keys,
    ground=st.fractions(Fraction(9, 10), Fraction(9999, 10000), max_denominator=10**4),
    deep=st.fractions(Fraction(2, 10), Fraction(13, 10), max_denominator=1000),
    large=st.fractions(1, 5, max_denominator=100),
    wide=st.fractions(Fraction(1, 20), Fraction(3, 10), max_denominator=100),
)
@settings(max_examples=40)
def test_the_lift_is_the_highest_overlap_of_key_and_seat(
    key: tuple[str, str], ground: Fraction, deep: Fraction, large: Fraction, wide: Fraction
) -> None:
    """Seats shallower and deeper than the key, so that either's ends may be the ones that meet."""
    diameter, height = Fraction(key[0]), Fraction(key[1])
    cutter, depth, shaft = diameter * ground, height * deep, diameter * 2 * large
    computed = clearance.lift(diameter, height, cutter, depth)
    replayed = rides(diameter, height, cutter, depth, shaft, diameter * wide)
    assert abs(computed - Fraction(replayed)) <= Fraction(1, 10**12) * diameter


@pytest.mark.parametrize("deep", ["0.3", "0.48", "0.6"])
def test_seats_of_each_kind_of_contact_are_replayed(deep: str) -> None:
    """Seat's ends at the crown; the key's own ends; a seat let in past the cutter's axis."""
    one, cutter, depth = Fraction(1), Fraction(97, 100), Fraction(deep)
    height = Fraction("0.438")
    computed = clearance.lift(one, height, cutter, depth)
    replayed = rides(one, height, cutter, depth, Fraction(2), Fraction(3, 16))
    assert abs(computed - Fraction(replayed)) <= Fraction(1, 10**12)
    assert computed > 0


@given(key=keys, over=st.fractions(1, 2, max_denominator=1000), deep=parts)
def test_no_lift_on_a_cutter_of_the_keys_diameter_or_over(
    key: tuple[str, str], over: Fraction, deep: Fraction
) -> None:
    diameter, height = Fraction(key[0]), Fraction(key[1])
    assert clearance.lift(diameter, height, diameter * over, height * deep) == 0


@given(key=keys, one=parts, two=parts)
def test_a_smaller_cutter_lifts_more(key: tuple[str, str], one: Fraction, two: Fraction) -> None:
    diameter, height = Fraction(key[0]), Fraction(key[1])
    small, large = sorted((diameter * (9 + one) / 10, diameter * (9 + two) / 10))
    depth = height * Fraction(4, 5)
    less = clearance.lift(diameter, height, large, depth)
    more = clearance.lift(diameter, height, small, depth)
    assert (less < more) is (small < large)


def test_clearance_imports_nothing_of_ours_but_geometry() -> None:
    tree = ast.parse(Path(clearance.__file__).read_text(encoding="utf-8"))
    found = {n.module for n in ast.walk(tree) if isinstance(n, ast.ImportFrom)}
    found |= {a.name for n in ast.walk(tree) if isinstance(n, ast.Import) for a in n.names}
    assert {m for m in found if m and m.startswith("keyseats")} == {"keyseats.geometry"}
