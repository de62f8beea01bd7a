"""One seat, one verdict, from whichever datum it is measured."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from keyseats.inspection import inspect
from keyseats.inspection_report import inspection_lines, says
from keyseats.load import Tables
from keyseats.lookup import OF_UNIT, seats_for
from keyseats.paths import tables_dir
from keyseats.seat import Seat, Work

TABLES = Tables(tables_dir())
# More than elsewhere: limits are met only now and then.
MANY = settings.default.max_examples * 5 // 2
inch = st.tuples(st.just("in"), st.integers(376, 2375).map(lambda n: Fraction(n, 1000)))
metric = st.tuples(st.just("mm"), st.integers(601, 3800).map(lambda n: Fraction(n, 100)))


@st.composite
def seats(draw: st.DrawFn) -> Seat:
    """Any seat of any shaft, turned a little under or over size or not."""
    unit, nominal = draw(st.one_of(inch, metric))
    off = Fraction(draw(st.integers(-20, 20)), 10000 if unit == "in" else 1000)
    found = seats_for(TABLES, Work(unit, nominal, nominal + off), OF_UNIT[unit])
    return draw(st.sampled_from(found))


@st.composite
def cut(draw: st.DrawFn) -> tuple[Seat, Fraction, Fraction]:
    """A seat, a depth from crown at, in or about its limits, and a key's height."""
    seat = draw(seats())
    least, most = seat.depth_from_crown.least.value, seat.depth_from_crown.most.value
    share = draw(st.one_of(st.sampled_from([0, 1]), st.fractions(-3, 4, max_denominator=1000)))
    depth = least + (most - least) * share
    low, high = seat.key.height.least.value, seat.key.height.most.value
    height = low + (high - low) * draw(st.fractions(0, 1, max_denominator=50))
    return seat, max(depth, seat.arc_height.value + Fraction(1, 10**6)), height


def with_height(seat: Seat, height: Fraction) -> Seat:
    """Return the same seat with its key's height measured."""
    work = replace(seat.work, key_height=height)
    return seats_for(TABLES, work, (seat.key.family,), seat.key.designation)[0]


@settings(max_examples=MANY)
@given(cut())
def test_every_datum_gives_one_verdict(case: tuple[Seat, Fraction, Fraction]) -> None:
    seat, depth, height = case
    shaft, known = seat.work.shaft, with_height(seat, height)
    least, most = seat.depth_from_crown.least.value, seat.depth_from_crown.most.value
    verdict = "shallow" if depth < least else "deep" if depth > most else "inside"
    by = max(least - depth, depth - most, 0)
    for found in (
        inspect(known, "from-crown", depth),
        inspect(known, "at-edge", depth - seat.arc_height.value),
        inspect(known, "over-key", shaft - depth + height),
    ):
        assert (found.verdict, found.by.value) == (verdict, by)
        assert found.depth_from_crown.least.value == found.depth_from_crown.most.value == depth
        above = height - depth + seat.arc_height.value
        assert found.key_above_edge.least.value == found.key_above_edge.most.value == above
    opposite = inspect(known, "opposite-side", shaft - depth)
    if opposite.verdict != verdict or opposite.by.value != by:
        # ASME B17.1 prints S to three places at a nominal shaft, and what is printed is right.
        assert seat.key.family == "inch plain"
        assert seat.work.as_nominal
        assert 0 < by - opposite.by.value <= Fraction("0.0005")


@settings(max_examples=MANY)
@given(cut())
def test_undecided_only_where_both_are_possible(case: tuple[Seat, Fraction, Fraction]) -> None:
    seat, depth, height = case
    shaft, limits = seat.work.shaft, seat.depth_from_crown
    measured = shaft - depth + height
    found = inspect(seat, "over-key", measured)
    low, high = seat.key.height.least.value, seat.key.height.most.value
    # Every key inside its limits, with those that bring the floor just onto a limit.
    tried = {low, high, height} | {
        min(max(measured - shaft + end.value, low), high) for end in (limits.least, limits.most)
    }
    verdicts = {inspect(with_height(seat, h), "over-key", measured).verdict for h in tried}
    assert found.verdict == (verdicts.pop() if len(verdicts) == 1 else "undecided")
    assert found.depth_from_crown.least.value <= depth <= found.depth_from_crown.most.value
    if found.verdict in ("shallow", "deep"):
        assert found.by.value > 0
        assert Fraction(found.by.text) >= found.by.value


@settings(max_examples=MANY)
@given(cut(), st.sampled_from(["from-crown", "at-edge", "opposite-side"]))
def test_what_it_says_to_feed_makes_a_right_seat(
    case: tuple[Seat, Fraction, Fraction], datum: str
) -> None:
    seat, depth, _ = case

    def judged(deep: Fraction) -> tuple[str, str]:
        arc = seat.arc_height.value
        value = {"from-crown": deep, "at-edge": deep - arc, "opposite-side": seat.work.shaft - deep}
        found = inspect(seat, datum, value[datum])
        for line in inspection_lines(found, "as typed"):
            assert len(line) <= 100
        return found.verdict, " ".join(says(found))

    verdict, told = judged(depth)
    feed = re.search(r"Feed ([0-9.]+) to ([0-9.]+) more", told)
    assert (feed is not None) == (verdict == "shallow")
    for more in feed.groups() if feed is not None else ():
        assert judged(depth + Fraction(more))[0] == "inside"
    made = re.search(r"made to measure, ([0-9.]+) to ([0-9.]+) high", told)
    assert (made is not None) == (verdict == "deep")
    for high in made.groups() if made is not None else ():
        over = seat.work.shaft - depth + Fraction(high)
        assert seat.over_key.least.value <= over <= seat.over_key.most.value
