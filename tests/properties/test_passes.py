"""Passes: whole, cumulated, never over the limit, and stopped short of the depth."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keyseats.machining import readings

depths = st.fractions(Fraction(1, 1000), 40, max_denominator=10**4)
passes = st.fractions(Fraction(1, 200), 2, max_denominator=10**4)


@given(depth=depths, deepest=passes)
def test_readings_are_whole_passes_that_stop_short(depth: Fraction, deepest: Fraction) -> None:
    found = readings(depth, deepest)
    assert found == [deepest * n for n in range(1, len(found) + 1)]
    left = depth - (found[-1] if found else 0)
    assert left > 0
    if found:
        assert left >= deepest / 4
    assert left < deepest + deepest / 4


def test_a_pass_must_be_above_zero() -> None:
    with pytest.raises(ValueError, match="above zero"):
        readings(Fraction(1), Fraction(0))
