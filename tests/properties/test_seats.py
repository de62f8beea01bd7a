"""What must hold for every shaft: hypothesis looks for one where it does not."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from keyseats import geometry
from keyseats.lengths import decimal, parse
from keyseats.load import Tables
from keyseats.lookup import OF_UNIT, seats_for
from keyseats.paths import tables_dir
from keyseats.seat import Work

TABLES = Tables(tables_dir())
TINY = Fraction(1, 10**30)
sizes = st.fractions(min_value=Fraction(1, 10), max_value=100, max_denominator=10000)
inch = st.integers(min_value=376, max_value=2375).map(lambda n: Fraction(n, 1000))
metric = st.integers(min_value=601, max_value=3800).map(lambda n: Fraction(n, 100))
off = st.integers(min_value=-20, max_value=20)


@given(sizes, st.fractions(min_value=Fraction(1, 50), max_value=Fraction(49, 50)), sizes)
def test_geometry_scales(diameter: Fraction, share: Fraction, factor: Fraction) -> None:
    width = diameter * share
    scaled = geometry.arc_height(diameter * factor, width * factor)
    assert abs(scaled - factor * geometry.arc_height(diameter, width)) < TINY * max(1, factor)


@given(sizes, st.fractions(min_value=Fraction(1, 50), max_value=Fraction(49, 50)))
def test_the_edge_lies_on_the_shaft(diameter: Fraction, share: Fraction) -> None:
    width, radius = diameter * share, diameter / 2
    up = radius - geometry.arc_height(diameter, width)
    assert abs(up**2 + (width / 2) ** 2 - radius**2) < TINY * diameter


@given(sizes, st.fractions(min_value=Fraction(1, 50), max_value=Fraction(48, 50)))
def test_a_wider_seat_has_a_higher_arc_and_a_larger_shaft_a_lower(
    diameter: Fraction, share: Fraction
) -> None:
    width = diameter * share
    arc = geometry.arc_height(diameter, width)
    assert geometry.arc_height(diameter, width * Fraction(101, 100)) > arc
    assert geometry.arc_height(diameter * Fraction(101, 100), width) < arc


def every_datum_agrees(work: Work) -> None:
    for seat in seats_for(TABLES, work, OF_UNIT[work.unit]):
        for end in ("least", "most"):
            other = "most" if end == "least" else "least"
            crown = getattr(seat.depth_from_crown, end).value
            edge = getattr(seat.depth_at_edge, end).value
            floor = getattr(seat.floor_to_opposite_side, other).value
            height = getattr(seat.key.height, end).value
            assert crown == edge + seat.arc_height.value
            assert floor + crown == work.shaft
            assert getattr(seat.over_key, end).value == (
                getattr(seat.floor_to_opposite_side, end).value + height
            )
            assert getattr(seat.key_above_edge, end).value == (
                height - getattr(seat.depth_at_edge, other).value
            )
        for name in ("depth_from_crown", "depth_at_edge", "over_key", "key_above_edge"):
            limits = getattr(seat, name)
            assert limits.least.value <= limits.most.value
            assert Fraction(limits.least.text) >= limits.least.value, name
            assert Fraction(limits.most.text) <= limits.most.value, name


@settings(deadline=None, max_examples=40)
@given(inch, off)
def test_inch_datums(nominal: Fraction, thousandths: int) -> None:
    every_datum_agrees(Work("in", nominal, nominal + Fraction(thousandths, 10000)))


@settings(deadline=None, max_examples=40)
@given(metric, off)
def test_metric_datums(nominal: Fraction, hundredths: int) -> None:
    every_datum_agrees(Work("mm", nominal, nominal + Fraction(hundredths, 1000)))


@settings(deadline=None, max_examples=40)
@given(st.one_of(st.tuples(st.just("in"), inch), st.tuples(st.just("mm"), metric)))
def test_one_first_choice_of_each_plain_family(case: tuple[str, Fraction]) -> None:
    unit, nominal = case
    family = OF_UNIT[unit][0]
    seats = seats_for(TABLES, Work(unit, nominal), (family,))
    assert [s.choice for s in seats].count("first") == 1
    assert seats[0].choice == "first"


# Over, to and including: both neighbours of a bound. ISO/R 773 as printed shaft by shaft (Ganter);
# ASME B17.1 as printed in Shigley, table 7-6.
@pytest.mark.parametrize(
    ("unit", "shaft", "key"),
    [
        ("in", "7/8", "3/16 x 3/16"),
        ("in", "8751/10000", "1/4 x 1/4"),
        ("in", "1-1/4", "1/4 x 1/4"),
        ("mm", "22", "6 x 6"),
        ("mm", "2201/100", "8 x 7"),
        ("mm", "30", "8 x 7"),
        ("mm", "6", "2 x 2"),
    ],
)
def test_bounds_of_ranges(unit: str, shaft: str, key: str) -> None:
    from keyseats.lengths import read_fraction

    work = Work(unit, read_fraction(shaft))
    assert seats_for(TABLES, work, OF_UNIT[unit][:1])[0].key.designation == key


def test_nominal_picks_the_key_and_measured_sets_the_depths() -> None:
    work = Work("in", Fraction(7, 8), Fraction("0.8752"))
    seat = seats_for(TABLES, work, ("inch plain",))[0]
    assert seat.key.designation == "3/16 x 3/16"
    assert seat.floor_to_opposite_side.most.value + seat.depth_from_crown.least.value == work.shaft


@given(st.fractions(min_value=0, max_value=50, max_denominator=100000), st.integers(0, 6))
def test_rounding(value: Fraction, places: int) -> None:
    down, up = Fraction(decimal(value, places, "down")), Fraction(decimal(value, places, "up"))
    near = Fraction(decimal(value, places))
    assert down <= value <= up
    assert abs(near - value) <= Fraction(1, 2 * 10**places)


@given(st.fractions(min_value=Fraction(1, 64), max_value=12, max_denominator=64))
def test_a_fraction_is_read_as_it_is_written(value: Fraction) -> None:
    from keyseats.families.inch_plain import fraction_text

    assert parse(f"{fraction_text(value)} in").value == value
    assert parse(f'{fraction_text(value)}"').value == value
