"""Gauge-block build-ups, set lists and claims from print."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from asking import label
from keyseats.block_sets import read_set, sets
from keyseats.blocks import BlockSet, Stack, reachable, stack
from keyseats.load import Tables
from published.reading import rows

EXAMPLES = {row["id"]: row for row in rows("worked_examples.csv")}


def named(example: str) -> object:
    return pytest.param(EXAMPLES[example], id=label(example, EXAMPLES[example]["source"]))


def sizes(found: Stack) -> list[Fraction]:
    return [q.value for q in found.blocks]


def fractions(*texts: str) -> list[Fraction]:
    return [Fraction(text) for text in texts]


@pytest.fixture(scope="module")
def boxes(tables: Tables) -> dict[str, BlockSet]:
    return sets(tables)


@pytest.fixture(scope="module")
def inch_81(boxes: dict[str, BlockSet]) -> BlockSet:
    return boxes["inch-81"]


@pytest.mark.parametrize("row", [named("GB-02")])
def test_a_makers_build_up(row: dict[str, str], inch_81: BlockSet) -> None:
    printed = [Fraction(part) for part in row["published"].removesuffix(" in").split(" + ")]
    found = stack(inch_81, Fraction(row["recomputed"]), "in", exact=True)
    assert sizes(found) == sorted(printed, reverse=True)
    assert found.remainder.value == 0


@pytest.mark.parametrize("row", [named("GB-04")])
def test_a_build_up_part_way_with_thin_blocks(row: dict[str, str], tmp_path: Path) -> None:
    """What is left after each printed step, taken as one block, makes up the target again."""
    assert row["published"].startswith("after 0.0502: 3.926; then take 0.056; a 7 left in")

    def made(target: str, *listed: str) -> Stack:
        path = tmp_path / "thin.csv"
        path.write_text("".join(f"{size} in\n" for size in listed))
        return stack(read_set(path), Fraction(target), "in", exact=True)

    after_one = made("3.9762", "0.0502", "0.056", "3.926")
    assert sizes(after_one) == fractions("3.926", "0.0502")
    after_two = made(row["recomputed"], "0.0502", "0.056", "3.870")
    assert sizes(after_two) == fractions("3.870", "0.056")
    assert after_two.blocks[0].text[-2] == "7"


@pytest.mark.parametrize("row", [named("GB-06")])
def test_a_wrong_list_in_print_is_not_the_81(row: dict[str, str], inch_81: BlockSet) -> None:
    assert row["expected"] == "known error"
    listed = {q.value for q in inch_81.blocks}
    assert not listed & set(fractions("0.020", "0.025", "0.030"))


@pytest.mark.parametrize("row", [named("GB-08")])
def test_five_blocks_for_5_4373(row: dict[str, str], inch_81: BlockSet) -> None:
    found = stack(inch_81, Fraction("5.4373"), "in", exact=True)
    assert "five blocks in all" in row["published"]
    assert len(found.blocks) == 5
    assert sizes(found)[-2:] == fractions("0.137", "0.1003")
    assert sum(sizes(found)[:3]) == Fraction(row["recomputed"])


@pytest.mark.parametrize("row", [named("GB-10")])
def test_the_81_counted(row: dict[str, str], inch_81: BlockSet) -> None:
    assert len(inch_81.blocks) == int(row["recomputed"]) == 81
    series = ("0.1001", "0.1009", 9), ("0.101", "0.149", 49), ("0.050", "0.950", 19), ("1", "4", 4)
    listed = [q.value for q in inch_81.blocks]
    rest = list(listed)
    for first, last, count in series:
        step = (Fraction(last) - Fraction(first)) / (count - 1)
        for n in range(count):
            rest.remove(Fraction(first) + step * n)
    assert rest == []
    # "two wear blocks of 0.050 in are extra in one of the sources"
    assert [q.value for q in inch_81.wear] == [Fraction("0.050")] * 2


@pytest.mark.parametrize("row", [named("GB-12")])
def test_every_step_from_0_2000_to_12_0000(row: dict[str, str], inch_81: BlockSet) -> None:
    """The claim holds, and is tight below: 0.1999 is a gap. All 118 001 steps, by growing sums."""
    low, high = (int(Fraction(end) * 10000) for end in row["recomputed"].split(" to "))
    whole = [int(q.value * 10000) for q in inch_81.blocks]
    sums = {0}
    for size in whole:
        sums |= {total + size for total in sums if total + size <= high}
    assert set(range(low, high + 1)) <= sums
    assert low - 1 not in sums
    bits = reachable(whole, high)
    assert {n for n in range(high + 1) if bits >> n & 1} == sums


@pytest.mark.parametrize("target", ["0.2000", "0.2001", "5.9999", "11.9999", "12.0000"])
def test_the_ends_of_that_range_are_built(target: str, inch_81: BlockSet) -> None:
    """modelmeander, Gauge Blocks (2021), GB-12."""
    found = stack(inch_81, Fraction(target), "in", exact=True)
    assert sum(sizes(found)) == Fraction(target)


def test_npl_58_345_is_built_with_one_block_fewer(boxes: dict[str, BlockSet]) -> None:
    """NPL's example for a 112-piece set: 1.005 + 1.04 + 1.30 + 5 + 50, in the set, but not fewest.

    1.34 is a block of the set and 1.04 + 1.30 + 5 = 1.34 + 6, so four blocks do.
    """
    printed = fractions("1.005", "1.04", "1.30", "5", "50")
    box = boxes["metric-112"]
    assert set(printed) <= {q.value for q in box.blocks}
    assert sum(printed) == Fraction("58.345")
    found = stack(box, Fraction("58.345"), "mm", exact=True)
    assert sizes(found) == fractions("50", "6", "1.34", "1.005")


def test_0_1875_is_a_gap_of_the_81(inch_81: BlockSet) -> None:
    """Arithmetic on the list in GB-10: under 0.2 only 0.050 can be added to a block over 0.1."""
    found = stack(inch_81, Fraction(3, 16), "in", exact=True)
    assert found.blocks == ()
    assert found.nearest is not None
    assert [b.total.value for b in found.nearest] == fractions("0.187", "0.188")
    rounded = stack(inch_81, Fraction(3, 16), "in")
    assert sizes(rounded) == fractions("0.138", "0.050")
    assert rounded.remainder.value == Fraction("-0.0005")


def test_the_travel_of_a_one_inch_shaft_is_two_blocks(inch_81: BlockSet) -> None:
    """US Army TC 9-524 ch. 8: 0.500 + 0.09375; 0.594 at the thousandth, two blocks of GB-10's."""
    found = stack(inch_81, Fraction("0.59375"), "in")
    assert found.aimed.text == "0.594"
    assert sizes(found) == fractions("0.450", "0.144")
    assert found.remainder.value == Fraction("-0.00025")
    itself = stack(inch_81, Fraction("0.594"), "in", exact=True)
    assert sizes(itself) == sizes(found)
    assert itself.remainder.value == 0


@pytest.mark.parametrize(
    ("name", "size"),
    [("inch-81", "0.050"), ("metric-112", "2.5")],
    ids=["Jack GVSU 2001: 0.050 in", "tresna and askfilo: 2.50 mm"],
)
def test_wear_blocks_of_the_makers_at_the_ends(
    name: str, size: str, boxes: dict[str, BlockSet]
) -> None:
    box = boxes[name]
    found = stack(box, 12 * Fraction(size), box.unit, exact=True, wear=True)
    assert sizes(found)[0] == sizes(found)[-1] == Fraction(size)
    assert found.blocks[0] in box.wear
    assert sum(sizes(found)) == 12 * Fraction(size)
