"""Lengths: read and written without loss, rounded once, and only inward where it is a limit."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keyseats.families.inch_plain import fraction_text
from keyseats.faults import TypedError
from keyseats.lengths import decimal, parse, places_of, read_fraction
from keyseats.standing import Limits, typed

values = st.fractions(-100, 1000, max_denominator=10**6)
places = st.integers(0, 8)
inches = st.builds(Fraction, st.integers(1, 64 * 30), st.sampled_from([1, 2, 4, 8, 16, 32, 64]))


@given(value=values, digits=places)
def test_nearest_is_within_half_the_last_place(value: Fraction, digits: int) -> None:
    read = read_fraction(decimal(value, digits))
    assert -Fraction(1, 2) < (read - value) * 10**digits <= Fraction(1, 2)


@given(value=values, digits=places)
def test_limits_are_rounded_inward_by_less_than_one_place(value: Fraction, digits: int) -> None:
    up = read_fraction(decimal(value, digits, "up"))
    down = read_fraction(decimal(value, digits, "down"))
    assert down <= value <= up
    assert (up - down) * 10**digits in (0, 1)


@given(units=st.integers(-(10**6), 10**9), digits=places)
def test_what_has_few_enough_places_is_written_as_it_is(units: int, digits: int) -> None:
    value = Fraction(units, 10**digits)
    for rounding in ("nearest", "up", "down"):
        text = decimal(value, digits, rounding)
        assert read_fraction(text) == value
        assert places_of(text) == digits


@given(low=values, span=st.fractions(0, 1, max_denominator=10**4), digits=places)
def test_printed_limits_never_widen(low: Fraction, span: Fraction, digits: int) -> None:
    limits = Limits(typed(low, "in"), typed(low + span, "in")).printed(digits)
    assert read_fraction(limits.least.text) >= low
    assert read_fraction(limits.most.text) <= low + span


def test_half_goes_up() -> None:
    """Nominal figures to nearest, half up: common practice, no source."""
    assert decimal(Fraction("0.46875"), 4) == "0.4688"
    assert decimal(Fraction("0.00005"), 4) == "0.0001"
    assert decimal(Fraction("-0.00001"), 4) == "0.0000"


def test_an_unknown_rounding_is_refused() -> None:
    with pytest.raises(ValueError, match="nearest, up or down"):
        decimal(Fraction(1), 2, "away")


@given(value=inches, unit=st.sampled_from([" in", '"', " inch", "in", "″", " IN"]))
def test_a_mixed_fraction_is_read_back(value: Fraction, unit: str) -> None:
    read = parse(fraction_text(value) + unit)
    assert (read.value, read.unit) == (value, "in")


@given(units=st.integers(1, 10**9), digits=places, unit=st.sampled_from(["in", "mm"]))
def test_a_decimal_is_read_back(units: int, digits: int, unit: str) -> None:
    value = Fraction(units, 10**digits)
    if value > 10**6:
        value /= 10**9
        digits += 9
    read = parse(f"{decimal(value, digits)} {unit}")
    assert (read.value, read.unit) == (value, unit)


@pytest.mark.parametrize(
    ("typed_text", "value"),
    [
        ("7/8 in", "7/8"),
        ('1-7/16"', "23/16"),
        ("1 7/16 in", "23/16"),
        ("0.875in", "7/8"),
        (".875 in", "7/8"),
        ("1½ in", "3/2"),
        ("⅞ in", "7/8"),
        ("+1 in", "1"),
        ("1. in", "1"),
        ("3/4 in.", "3/4"),
        ("  2   in ", "2"),
    ],
)
def test_as_a_machinist_types_it(typed_text: str, value: str) -> None:
    read = parse(typed_text)
    assert (read.value, read.unit) == (Fraction(value), "in")
    assert read.text == typed_text.strip()


@given(text=st.text(max_size=80))
def test_any_text_is_a_length_or_a_refusal(text: str) -> None:
    """No other error than the one line that a user can act on."""
    try:
        read = parse(text)
    except TypedError:
        return
    assert read.value > 0
    assert read.unit in ("in", "mm")


@given(text=st.text("0123456789 /.-+in\"m¼½¾,'", max_size=14))
def test_any_text_of_length_like_characters_is_a_length_or_a_refusal(text: str) -> None:
    try:
        read = parse(text)
    except TypedError:
        return
    assert read.value > 0
    assert read.unit in ("in", "mm")
