"""Stacks against stacks found the slow way, for sets made up by chance and for every set tabled."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxes import box, every_stack, least_counts
from keyseats.block_sets import sets
from keyseats.blocks import PLACE, BlockSet, fewest, reachable, stack
from keyseats.faults import TypedError
from keyseats.lengths import INCH
from keyseats.load import Tables
from keyseats.paths import tables_dir

SETS = sets(Tables(tables_dir()))
# Sizes on a fine grain, often close together, so that many stacks tie.
WHOLE = st.lists(st.integers(1, 40) | st.integers(900, 960), min_size=1, max_size=9)
GRAINS = st.sampled_from([Fraction(1, 20000), Fraction(1, 1000), Fraction(1, 64), Fraction(1, 3)])


@given(WHOLE, st.data())
def test_the_fewest_and_of_those_the_largest(whole: list[int], data: st.DataObject) -> None:
    best = every_stack([Fraction(n) for n in whole])
    target = data.draw(st.sampled_from(sorted(best)) | st.integers(0, sum(whole) + 5))
    found = fewest(whole, int(target))
    expected = () if target == 0 else best.get(Fraction(target))
    assert found == expected


@given(WHOLE, st.integers(0, 3000))
def test_sums_are_all_the_sums(whole: list[int], most: int) -> None:
    sums = {int(total) for total in every_stack([Fraction(n) for n in whole])} | {0}
    bits = reachable(whole, most)
    assert {n for n in range(most + 1) if bits >> n & 1} == {n for n in sums if n <= most}
    assert bits >> (most + 1) == 0


@given(WHOLE, GRAINS, st.fractions(0, 1, max_denominator=10**5))
def test_an_exact_stack_or_the_nearest(whole: list[int], grain: Fraction, part: Fraction) -> None:
    sizes = [n * grain for n in whole]
    target = min(sizes) + (sum(sizes) - min(sizes)) * part
    best = every_stack(sizes)
    found = stack(box(sizes), target, "in", exact=True)
    assert found.target.value == target
    assert tuple(q.value for q in found.blocks) == best.get(target, ())
    assert found.remainder.value == target - sum(q.value for q in found.blocks)
    if target in best:
        assert found.nearest is None
        return
    assert found.nearest is not None
    below, above = found.nearest
    assert below.total.value == max(total for total in best if total < target)
    assert above.total.value == min(total for total in best if total > target)
    for build in found.nearest:
        assert tuple(q.value for q in build.blocks) == best[build.total.value]


@given(WHOLE, st.integers(1, 50), st.integers(1, 50), st.fractions(0, 1, max_denominator=5000))
def test_wear_blocks_stand_at_the_ends(
    whole: list[int], first: int, last: int, part: Fraction
) -> None:
    ends = sorted([Fraction(first, 1000), Fraction(last, 1000)])
    sizes = [Fraction(n, 1000) for n in whole]
    best = {**every_stack(sizes), Fraction(0): ()}
    target = sum(ends) + round(sum(sizes) * part * 1000) * Fraction(1, 1000)
    found = stack(box(sizes, ends), target, "in", exact=True, wear=True)
    between = best.get(target - sum(ends))
    if between is not None:
        assert [q.value for q in found.blocks] == [ends[0], *between, ends[1]]
        return
    assert found.nearest is not None
    for build, side in zip(found.nearest, (1, -1), strict=True):
        assert [build.blocks[0].value, build.blocks[-1].value] == ends
        off = side * (target - build.total.value)
        offs = [side * (target - sum(ends) - total) for total in best]
        assert off == min(o for o in offs if o > 0)


@given(st.fractions(Fraction(1, 4), 8, max_denominator=10**4), st.sampled_from(["in", "mm"]))
def test_the_place_rounds_half_up(target: Fraction, unit: str) -> None:
    step = PLACE[unit]
    box_ = SETS["inch-81" if unit == "in" else "metric-103"]
    target = target if unit == "in" else target * 10
    found = stack(box_, target, unit)
    assert (found.aimed.value / step).denominator == 1
    assert -step / 2 <= target - found.aimed.value < step / 2
    assert found.remainder.value == target - found.aimed.value
    assert sum(q.value for q in found.blocks) == found.aimed.value


@pytest.mark.parametrize("name", SETS)
def test_a_tabled_set_holds_what_its_name_says(name: str) -> None:
    found = SETS[name]
    unit, _, count = name.partition("-")
    assert len(found.blocks) == int(count.rstrip("ab"))
    assert found.unit == ("in" if unit == "inch" else "mm")
    assert found.twice == ()
    assert len(found.wear) in (0, 2)


@pytest.mark.parametrize("name", SETS)
def test_a_tabled_set_against_the_money_changers_table(name: str) -> None:
    """Every sum up to a length where several blocks are needed, some of them built."""
    found = SETS[name]
    whole = [int(q.value / found.grain) for q in found.blocks]
    most = min(sum(whole), 12000)
    counts = least_counts(whole, most)
    bits = reachable(whole, most)
    assert [n for n in range(most + 1) if bits >> n & 1] == [
        n for n, count in enumerate(counts) if count is not None
    ]
    reached = 0
    for total in range(min(whole), most + 1, 211):
        made = stack(found, total * found.grain, found.unit, exact=True)
        assert len(made.blocks) == (counts[total] or 0)
        if not made.blocks:
            continue
        reached += 1
        left = list(found.blocks)
        for q in made.blocks:
            left.remove(q)
        assert sum(q.value for q in made.blocks) == total * found.grain
        assert [q.value for q in made.blocks] == sorted(
            (q.value for q in made.blocks), reverse=True
        )
    assert reached


@pytest.mark.parametrize("name", SETS)
@pytest.mark.parametrize("part", [Fraction(1, 3), Fraction(4, 5), Fraction(1)])
def test_a_long_stack_of_a_tabled_set(name: str, part: Fraction) -> None:
    found = SETS[name]
    target = found.total * part // found.grain * found.grain
    made = stack(found, target, found.unit, exact=True)
    builds = [made.blocks] if made.nearest is None else [b.blocks for b in made.nearest]
    for blocks in builds:
        assert len({q.value for q in blocks}) == len(blocks)
        assert {q.value for q in blocks} <= {q.value for q in found.blocks}
    if part == 1:
        assert len(made.blocks) == len(found.blocks)
    else:
        assert made.blocks


@pytest.mark.parametrize("name", ["inch-28", "inch-36", "metric-32"])
def test_the_whole_length_of_a_small_set(name: str) -> None:
    found = SETS[name]
    whole = [int(q.value / found.grain) for q in found.blocks]
    counts = least_counts(whole, sum(whole))
    for total in range(min(whole), sum(whole) + 1, sum(whole) // 37):
        made = stack(found, total * found.grain, found.unit, exact=True)
        assert len(made.blocks) == (counts[total] or 0)
        if made.nearest is not None:
            below, above = (int(b.total.value / found.grain) for b in made.nearest)
            assert below < total < above
            assert all(counts[n] is None for n in range(below + 1, above))


@pytest.mark.parametrize(("unit", "target"), [("mm", Fraction(127, 10)), ("in", Fraction(1, 2))])
def test_another_unit_converts_exactly(unit: str, target: Fraction) -> None:
    found = stack(SETS["inch-81"], target, unit, exact=True)
    assert [q.value for q in found.blocks] == [Fraction(1, 2)]
    assert found.remainder.value == 0
    odd = stack(SETS["inch-81"], Fraction(5), "mm")
    assert odd.target.value == 5 / INCH
    assert odd.aimed.value == Fraction("0.197")
    metric = stack(SETS["metric-112"], Fraction(1), "in", exact=True)
    assert sum(q.value for q in metric.blocks) == INCH


def test_a_set_that_can_make_only_the_target_itself_does() -> None:
    fine = box([Fraction("0.10004"), Fraction("0.3")])
    found = stack(fine, Fraction("0.10004"), "in")
    assert [q.value for q in found.blocks] == [Fraction("0.10004")]
    assert found.remainder.value == 0


def refused(box_: BlockSet, target: Fraction, **how: bool) -> str:
    with pytest.raises(TypedError) as fault:
        stack(box_, target, box_.unit, **how)
    return str(fault.value)


@pytest.mark.parametrize("name", SETS)
def test_bounds_on_both_sides(name: str) -> None:
    found = SETS[name]
    least, hair = min(q.value for q in found.blocks), Fraction(1, 10**6)
    assert len(stack(found, least, found.unit, exact=True).blocks) == 1
    assert "under the smallest block" in refused(found, least - hair)
    assert len(stack(found, found.total, found.unit, exact=True).blocks) == len(found.blocks)
    assert f"over all {len(found.blocks)} blocks" in refused(found, found.total + hair)
    if not found.wear:
        assert "lists no wear blocks" in refused(found, least, wear=True)
        return
    ends = sum((q.value for q in found.wear), Fraction(0))
    alone = stack(found, ends, found.unit, exact=True, wear=True)
    assert alone.blocks == found.wear
    assert "the two wear blocks alone" in refused(found, ends - hair, wear=True)
    assert "over all" in refused(found, found.total + ends + hair, wear=True)
    assert stack(found, found.total + ends, found.unit, exact=True, wear=True).remainder.value == 0
