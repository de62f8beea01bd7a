"""Dials: exact in turns and divisions, limits inside, and the published sums of the trade."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from asking import label
from keyseats.lengths import decimal
from keyseats.slides import (
    DialReading,
    Slide,
    dial_reading,
    grain,
    limits_on_dial,
    movement,
    said,
    ways,
)
from published.reading import exact, half_place, rows

EXAMPLES = {row["id"]: row for row in rows("worked_examples.csv")}


def named(example: str) -> object:
    return pytest.param(EXAMPLES[example], id=label(example, EXAMPLES[example]["source"]))


def slide(turn: str, divisions: str, reads: str = "movement", unit: str = "in") -> Slide:
    return Slide("cross", "across the spindle", unit, Fraction(turn), Fraction(divisions), reads)


def reading(of: Slide, move: str, unit: str = "in") -> DialReading:
    found = dial_reading(of, Fraction(move), unit)
    assert found is not None
    return found


NO_DIAL = Slide("carriage", "along the spindle", "in", None, None)


# Arithmetic of the trade (common practice, no source): a hypothetical cross slide.
def test_a_diameter_dial_doubles_the_divisions_and_never_the_turns() -> None:
    by_diameter = reading(slide("0.125", "250", "diameter"), "0.350")
    by_movement = reading(slide("0.125", "125"), "0.350")
    assert (by_diameter.turns, by_diameter.divisions) == (2, 200)
    assert (by_movement.turns, by_movement.divisions) == (2, 100)
    assert said(by_diameter) == "2 turns + 200 div"


@pytest.mark.parametrize("row", [named("DL-01")])
def test_one_turn_of_a_diameter_dial(row: dict[str, str]) -> None:
    moved = movement(slide("0.125", "250", "diameter"), DialReading(1, Fraction(0)), "in")
    assert 2 * moved == exact(row["recomputed"])
    assert row["published"] == "diameter changes 0.250 in"


@pytest.mark.parametrize("row", [named("DL-03")])
def test_one_division_of_a_diameter_dial(row: dict[str, str]) -> None:
    one = grain(slide("0.125", "250", "diameter"), "in")
    assert one is not None
    assert 2 * one == exact(row["recomputed"])
    assert row["published"] == "diameter changes 0.001 in"


@pytest.mark.parametrize("row", [named("DL-05")])
def test_divisions_for_a_change_in_diameter(row: dict[str, str]) -> None:
    assert row["inputs"] == "diameter 1.157 in to 1.150 in"
    move = (Fraction("1.157") - Fraction("1.150")) / 2
    found = dial_reading(slide("0.125", "250", "diameter"), move, "in")
    assert found == DialReading(0, exact(row["recomputed"]))


@pytest.mark.parametrize("row", [named("DL-07")])
def test_turns_and_a_remainder(row: dict[str, str]) -> None:
    """The remainder is set by 20 holes of a circle of 41: the circle stands here for a dial."""
    screw = slide("0.00625", "41")
    found = reading(screw, "0.0218")
    left = movement(screw, DialReading(0, found.divisions), "in")
    assert (found.turns, left) == (3, exact(row["recomputed"]))
    assert said(found) == "3 turns + 20 div"
    assert row["published"].startswith("3 full turns, remainder 0.00305 in; 20 holes of a 41-hole")


@pytest.mark.parametrize(
    ("row", "turn"), [(EXAMPLES["DIAL-01"], "0.050"), (EXAMPLES["DIAL-05"], "0.100")]
)
def test_one_turn_of_an_inch_screw_in_millimetres(row: dict[str, str], turn: str) -> None:
    metric = row["published"].split(" = ")[-1].removesuffix(" in per turn")
    metric = metric.removesuffix(" mm per turn").removesuffix(" mm")
    assert turn in row["inputs"] + row["published"], row["source"]
    assert reading(slide(turn, "50"), metric, "mm") == DialReading(1, Fraction(0))


@pytest.mark.parametrize("row", [named("DIAL-03")])
def test_a_carriage_wheel_converted_and_the_misprint(row: dict[str, str]) -> None:
    assert row["expected"] == "known error"
    moved = movement(slide("0.8662", "100"), DialReading(1, Fraction(0)), "mm")
    assert abs(moved - exact(row["recomputed"])) <= half_place(row["recomputed"])
    assert abs(moved - Fraction("21.99")) > half_place("21.99")


def test_a_dial_whose_turn_is_no_whole_number_of_divisions() -> None:
    """16 turns to the inch, 0.001 in marks: 62.5 of them; ten turns are 0.625 (arithmetic)."""
    small = slide("0.0625", "62.5")
    assert grain(small, "in") == Fraction("0.001")
    assert reading(small, "0.625") == DialReading(10, Fraction(0))
    assert reading(small, "0.1") == DialReading(1, Fraction("37.5"))
    assert said(reading(small, "0.1")) == "1 turn + 37.5 div"


def test_limits_on_a_half_division_are_on_marks_that_exist() -> None:
    """0.0621 to 0.0626 holds one mark, the next turn's zero; 0.063 is between two marks."""
    small = slide("0.0625", "62.5")
    zero = DialReading(1, Fraction(0))
    assert limits_on_dial(small, Fraction("0.0621"), Fraction("0.0626"), "in") == (zero, zero)
    assert limits_on_dial(small, Fraction("0.0629"), Fraction("0.0631"), "in") is None


def test_no_division_inside() -> None:
    coarse = slide("0.8", "80")
    assert limits_on_dial(coarse, Fraction("0.3482"), Fraction("0.3499"), "in") is None
    at = DialReading(0, Fraction(35))
    assert limits_on_dial(coarse, Fraction("0.3482"), Fraction("0.3500"), "in") == (at, at)


def test_without_a_dial_there_are_other_ways() -> None:
    assert dial_reading(NO_DIAL, Fraction(1), "in") is None
    assert grain(NO_DIAL, "in") is None
    assert limits_on_dial(NO_DIAL, Fraction(1), Fraction(2), "in") is None
    words = " ".join(ways(NO_DIAL))
    assert all(w in words for w in ("stop", "indicator", "adjustable parallel", "gauge blocks"))
    assert ways(None) == ways(NO_DIAL)
    assert ways(slide("0.1", "100")) == ()
    with pytest.raises(ValueError, match="no dial"):
        movement(NO_DIAL, DialReading(1, Fraction(0)), "in")


def test_a_movement_is_counted_one_way() -> None:
    with pytest.raises(ValueError, match="below zero"):
        dial_reading(slide("0.1", "100"), Fraction(-1, 1000), "in")


turns = st.fractions(Fraction(1, 200), 4, max_denominator=10**4)
counts = st.integers(8, 2000).map(lambda n: Fraction(n, 2))
moves = st.fractions(0, 8, max_denominator=10**4)
units = st.sampled_from(["in", "mm"])


@given(turn=turns, divisions=counts, move=moves, unit=units, asked=units)
def test_turns_and_divisions_make_the_movement_exactly(
    turn: Fraction, divisions: Fraction, move: Fraction, unit: str, asked: str
) -> None:
    of = Slide("cross", "across the spindle", unit, turn, divisions)
    found = dial_reading(of, move, asked)
    assert found is not None
    assert 0 <= found.divisions < divisions
    here = found.turns * turn + found.divisions / divisions * turn
    factor = {"inin": 1, "mmmm": 1, "inmm": Fraction("25.4"), "mmin": 1 / Fraction("25.4")}
    assert here * factor[unit + asked] == move
    assert movement(of, found, asked) == move


@given(turn=turns, divisions=counts, move=moves)
def test_a_diameter_dial_changes_no_turns(
    turn: Fraction, divisions: Fraction, move: Fraction
) -> None:
    single = dial_reading(Slide("a", "b", "in", turn, divisions), move, "in")
    double = dial_reading(Slide("a", "b", "in", turn, 2 * divisions, "diameter"), move, "in")
    assert single is not None
    assert double == DialReading(single.turns, 2 * single.divisions)


@given(turn=turns, divisions=counts, least=moves, over=st.fractions(0, Fraction(1, 20)))
@example(Fraction("0.0625"), Fraction("62.5"), Fraction("0.0621"), Fraction("0.0004"))
def test_limits_lie_inside_and_none_only_where_there_is_none(
    turn: Fraction, divisions: Fraction, least: Fraction, over: Fraction
) -> None:
    assume(over / turn * divisions < 200)
    most = least + over
    of = Slide("cross", "across the spindle", "in", turn, divisions)
    marks = sorted(
        n * turn + k * turn / divisions
        for n in range(int(least / turn), int(most / turn) + 1)
        for k in range(ceil(divisions))
        if least <= n * turn + k * turn / divisions <= most
    )
    found = limits_on_dial(of, least, most, "in")
    if not marks:
        assert found is None
        return
    assert found is not None
    assert (movement(of, found[0], "in"), movement(of, found[1], "in")) == (marks[0], marks[-1])
    assert all(r.divisions.denominator == 1 for r in found)


@given(turn=turns, divisions=counts, move=moves)
@example(Fraction("0.1"), Fraction(100), Fraction("0.29999"))
def test_what_is_said_never_counts_a_whole_dial(
    turn: Fraction, divisions: Fraction, move: Fraction
) -> None:
    found = dial_reading(Slide("a", "b", "in", turn, divisions), move, "in")
    assert found is not None
    whole, _, rest = said(found).removesuffix(" div").partition(" turn")
    told = Fraction(whole) * divisions + Fraction(rest.removeprefix("s").removeprefix(" + "))
    assert abs(told - move / turn * divisions) <= Fraction(1, 20)
    assert Fraction(rest.removeprefix("s").removeprefix(" + ")) < divisions


def test_just_short_of_a_turn_is_said_as_the_turn() -> None:
    assert said(reading(slide("0.1", "100"), "0.29999")) == "3 turns + 0 div"
    assert decimal(reading(slide("0.1", "100"), "0.29999").divisions, 2) == "99.99"
