"""Cuts: on marks of the dial, cumulated, never over a pass, stopped short, then inside."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from keyseats.machining import Dial, Plan, plan

depths = st.fractions(Fraction(1, 1000), 40, max_denominator=10**4)
widths = st.fractions(0, 1, max_denominator=10**4)
passes = st.fractions(Fraction(1, 200), 2, max_denominator=10**4)
DIALS = [
    Dial(Fraction(turn), Fraction(divisions))
    for turn, divisions in (
        ("0.1", 100),
        ("0.125", 250),
        ("0.0625", "62.5"),
        ("0.0625", 125),
        ("1", 100),
        ("3", 60),
        ("19.28", 100),
    )
]
dials = st.none() | st.sampled_from(DIALS)


def planned(depth: Fraction, wide: Fraction, deepest: Fraction, dial: Dial | None) -> Plan:
    assume(depth / deepest < 200)
    return plan(depth, depth + wide, deepest, dial)


def on_a_mark(dial: Dial, reading: Fraction) -> bool:
    """Whether a reading is a mark, counted round the dial from its zero."""
    over = reading % dial.turn
    return (over / dial.turn * dial.divisions).denominator == 1


@given(depth=depths, wide=widths, deepest=passes, dial=dials)
def test_no_cut_is_over_a_pass_and_none_goes_backwards(
    depth: Fraction, wide: Fraction, deepest: Fraction, dial: Dial | None
) -> None:
    found = planned(depth, wide, deepest, dial)
    at = Fraction(0)
    for cut in found.cuts:
        assert 0 < cut.reading - at <= deepest
        at = cut.reading
    assert found.least <= at <= found.most


@given(depth=depths, wide=widths, deepest=passes, dial=dials)
def test_one_stop_to_measure_before_the_last(
    depth: Fraction, wide: Fraction, deepest: Fraction, dial: Dial | None
) -> None:
    found = planned(depth, wide, deepest, dial)
    stops = [n for n, cut in enumerate(found.cuts) if cut.measure]
    if len(found.cuts) == 1:
        assert found.cuts[0].reading <= deepest
        return
    assert stops == [len(found.cuts) - 2]
    assert found.cuts[-1].reading - found.cuts[-2].reading >= deepest / 4


@given(depth=depths, wide=widths, deepest=passes, dial=st.sampled_from(DIALS))
def test_readings_are_marks_and_the_last_is_the_first_inside(
    depth: Fraction, wide: Fraction, deepest: Fraction, dial: Dial
) -> None:
    found = planned(depth, wide, deepest, dial)
    last = found.cuts[-1].reading
    if dial.grain > deepest:
        assert not found.on_dial
        assert last == depth
        return
    for cut in found.cuts[:-1]:
        assert on_a_mark(dial, cut.reading)
    assert found.on_dial == on_a_mark(dial, last) or last == depth
    if found.on_dial:
        assert on_a_mark(dial, last)
        assert dial.at_or_under(last - dial.grain / 1000) < depth
    else:
        assert last == depth
        assert dial.at_or_over(depth) > depth + wide


@given(depth=depths, dial=st.sampled_from(DIALS))
def test_the_marks_on_both_sides(depth: Fraction, dial: Dial) -> None:
    under, over = dial.at_or_under(depth), dial.at_or_over(depth)
    assert under <= depth <= over
    assert on_a_mark(dial, under)
    assert on_a_mark(dial, over)
    assert over - under <= dial.grain
    assert (under == over) == on_a_mark(dial, depth)


@given(depth=depths, deepest=passes)
def test_no_more_passes_than_are_needed(depth: Fraction, deepest: Fraction) -> None:
    assume(depth / deepest < 200)
    found = plan(depth, depth, deepest)
    fewest = -(-depth // deepest)
    assert fewest <= len(found.cuts) <= max(fewest, 2)


def test_ten_turns_of_a_sixteenth_are_0_625() -> None:
    """62.5 divisions of 0.001 in: the tenth turn's zero is 0.625, arithmetic of the trade."""
    dial = Dial(Fraction("0.0625"), Fraction("62.5"))
    assert dial.at_or_over(Fraction("0.6246")) == Fraction("0.625")
    assert dial.at_or_under(Fraction("0.6249")) == 9 * dial.turn + 62 * dial.grain


@pytest.mark.parametrize(("least", "most", "deepest"), [(0, 1, 1), (2, 1, 1), (1, 1, 0)])
def test_what_cannot_be_planned(least: int, most: int, deepest: int) -> None:
    with pytest.raises(ValueError, match="above zero"):
        plan(Fraction(least), Fraction(most), Fraction(deepest))
