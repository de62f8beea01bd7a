"""Geometry holds at any size: scaling, order, and the circle that the corner lies on."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from keyseats import geometry

CLOSE = Fraction(1, 10**30)
sizes = st.fractions(Fraction(1, 100), 500, max_denominator=10**6)
parts = st.fractions(Fraction(1, 100), Fraction(99, 100), max_denominator=10**4)
factors = st.fractions(Fraction(1, 1000), 1000, max_denominator=10**4)

SCALED = (
    lambda d, w, p: geometry.arc_height(d, w),
    lambda d, w, p: geometry.floor_to_opposite_side(d, w),
    lambda d, w, p: geometry.face_touch_travel(d, w, p),
    lambda d, w, p: geometry.rim_touch_travel(d, w, p),
    lambda d, w, p: geometry.opening(d, w),
    lambda d, w, p: geometry.ramp(d, w),
    lambda d, w, p: geometry.largest_neck(d, w),
)


def near(first: Fraction, second: Fraction, scale: Fraction) -> bool:
    """Return whether two sizes agree to 30 figures of a size that they belong to."""
    return abs(first - second) <= CLOSE * scale


@given(diameter=sizes, part=parts, paper=parts, factor=factors)
def test_sizes_scale(diameter: Fraction, part: Fraction, paper: Fraction, factor: Fraction) -> None:
    width = diameter * part
    for function in SCALED:
        small = function(diameter, width, paper)
        large = function(diameter * factor, width * factor, paper * factor)
        assert near(large, small * factor, abs(large) + abs(small * factor))


@given(diameter=sizes, part=parts, other=parts)
def test_a_wider_key_has_a_deeper_corner(diameter: Fraction, part: Fraction, other: Fraction):
    narrow, wide = sorted((part, other))
    shallow = geometry.arc_height(diameter, diameter * narrow)
    deep = geometry.arc_height(diameter, diameter * wide)
    assert (shallow < deep) is (narrow < wide)
    assert 0 < shallow <= deep < diameter / 2


@given(diameter=sizes, part=parts, more=parts)
def test_a_larger_shaft_has_a_smaller_arc(diameter: Fraction, part: Fraction, more: Fraction):
    width = diameter * part
    larger = diameter * (1 + more)
    assert geometry.arc_height(larger, width) < geometry.arc_height(diameter, width)


@given(diameter=sizes, part=parts)
def test_the_corner_lies_on_the_shaft(diameter: Fraction, part: Fraction) -> None:
    half = diameter * part / 2
    up = diameter / 2 - geometry.arc_height(diameter, 2 * half)
    assert near(half**2 + up**2, (diameter / 2) ** 2, diameter**2)


@given(diameter=sizes, part=parts)
def test_the_opening_ends_on_the_cutter(diameter: Fraction, part: Fraction) -> None:
    depth = diameter * part
    along = geometry.opening(diameter, depth) / 2
    up = depth - diameter / 2
    assert near(along**2 + up**2, (diameter / 2) ** 2, diameter**2)
    assert geometry.ramp(diameter, depth) == along


@given(diameter=sizes, part=parts)
def test_an_opening_is_the_chord_whose_arc_height_is_the_depth(
    diameter: Fraction, part: Fraction
) -> None:
    """Two formulas for one circle: the chord at a depth, and the depth of that chord."""
    depth = diameter * part / 2
    chord = geometry.opening(diameter, depth)
    assert near(geometry.arc_height(diameter, chord), depth, diameter)


@given(size=sizes)
def test_a_root_of_a_square_is_exact(size: Fraction) -> None:
    assert geometry.root(size**2) == size


@given(size=sizes)
def test_a_root_is_low_by_less_than_1e_40(size: Fraction) -> None:
    root = geometry.root(size)
    assert root**2 <= size < (root + Fraction(1, 10**40)) ** 2


@given(diameter=sizes, part=parts, paper=parts)
def test_a_touch_is_half_the_shaft_half_the_cutter_and_the_paper(
    diameter: Fraction, part: Fraction, paper: Fraction
) -> None:
    """Equal touches from both sides are twice the travel apart."""
    width = diameter * part
    travel = geometry.face_touch_travel(diameter, width, paper)
    assert 2 * travel == diameter + width + 2 * paper
    assert travel == geometry.rim_touch_travel(diameter, width, paper)


@given(diameter=sizes, part=parts)
def test_the_largest_neck_reaches_the_edge_and_no_further(
    diameter: Fraction, part: Fraction
) -> None:
    depth = diameter * part / 2
    assert geometry.largest_neck(diameter, depth) / 2 + depth == diameter / 2
