"""Gauge-block stacks: the fewest blocks of a set for a length, searched through to the end.

Sizes are counted in the set's grain, the largest length that goes into every size a whole number
of times, so that a stack is a sum of whole numbers. All the sums that some blocks can make are the
bits of one long integer: adding a block shifts it. Nothing is tried by rule of thumb, so a stack
that is not found is not there. Of stacks with equally few blocks, the one with the largest block
is taken, then with the next largest, and so on down.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from functools import cached_property
from math import gcd, lcm

from keyseats.faults import TypedError
from keyseats.frozen import frozen
from keyseats.lengths import converted, decimal
from keyseats.standing import Quantity, add, derive, typed

# The place that a seat's tolerance needs: a tenth, or less, of the offset that it is allowed.
PLACE = {"in": Fraction("0.001"), "mm": Fraction("0.01")}
_MOST_PLACES = 6


@frozen
class BlockSet:
    """The blocks in one box, in one unit; wear blocks apart, as they are not counted in it."""

    name: str
    unit: str
    blocks: tuple[Quantity, ...]
    wear: tuple[Quantity, ...] = ()

    @property
    def recalled(self) -> bool:
        """Return whether any of its sizes is from memory."""
        return any(q.recalled for q in self.blocks)

    @property
    def twice(self) -> tuple[Quantity, ...]:
        """Return the sizes that are listed more than once; each counts as a block of its own."""
        listed = Counter(q.value for q in self.blocks)
        first = {q.value: q for q in self.blocks}
        return tuple(first[value] for value, times in listed.items() if times > 1)

    @cached_property
    def grain(self) -> Fraction:
        """Return the largest length that goes whole into every block. [length]"""
        values = [q.value for q in self.blocks]
        common = lcm(*(v.denominator for v in values))
        return Fraction(gcd(*(int(v * common) for v in values)), common)

    @cached_property
    def total(self) -> Fraction:
        """Return all its blocks together, wear blocks left out. [length]"""
        return sum((q.value for q in self.blocks), Fraction(0))


@frozen
class Build:
    """Blocks and what they come to together."""

    blocks: tuple[Quantity, ...]
    total: Quantity


@frozen
class Stack:
    """What a set makes of a target, all in the set's unit.

    Parameters
    ----------
    set
        The set's name.
    target
        The target as typed, unrounded. [length]
    aimed
        What the blocks were to come to: the target, or the target at its place. [length]
    blocks
        The blocks, largest first, wear blocks at the ends; none if the set cannot make it.
    remainder
        Target less the blocks' sum. [length]
    nearest
        If the set cannot make it, the nearest sums that it can make, below and above the target.
    """

    set: str
    target: Quantity
    aimed: Quantity
    blocks: tuple[Quantity, ...]
    remainder: Quantity
    nearest: tuple[Build, Build] | None


def reachable(sizes: Sequence[int], most: int) -> int:
    """Return every sum up to ``most`` of some of the sizes, each used once, as bits."""
    mask = (1 << (most + 1)) - 1
    sums = 1
    for size in sizes:
        sums |= (sums << size) & mask
    return sums


def fewest(sizes: Sequence[int], target: int) -> tuple[int, ...] | None:
    """Return the fewest of the sizes that come to the target, largest first.

    Parameters
    ----------
    sizes
        Whole numbers above zero; one that stands twice may be used twice.
    target
        Their sum.

    Returns
    -------
    tuple of int or None
        Of equally few, those with the largest size, then the next largest; None if there are none.
    """
    rising = sorted(sizes)
    if target < 0 or target > sum(rising) or not reachable(rising, target) >> target & 1:
        return None
    left = _count(rising, target)
    found = []
    while left:
        place = len(rising) - 1
        if sum(rising[max(0, place - left) : place]) >= target:
            place = _largest(rising, target, left)
        size = rising[place]
        found.append(size)
        rising, target, left = rising[:place], target - size, left - 1
    return tuple(found)


def _count(rising: list[int], target: int) -> int:
    """Return how few of the sizes can come to a target that they are known to reach."""
    least, together = 0, 0
    while together < target:
        least += 1
        together += rising[-least]
    limit = min(least + 2, len(rising))
    while True:
        sums = _sums_by_count(rising, target, limit)
        for count in range(least, limit + 1):
            if sums[count] >> target & 1:
                return count
        least, limit = limit + 1, min(2 * limit, len(rising))


def _sums_by_count(rising: list[int], target: int, limit: int) -> list[int]:
    """Return, for each number of sizes up to a limit, the sums up to the target as bits."""
    mask = (1 << (target + 1)) - 1
    sums = [1] + [0] * limit
    for placed, size in enumerate(rising, 1):
        for count in range(min(limit, placed), 0, -1):
            sums[count] |= (sums[count - 1] << size) & mask
    return sums


def _largest(rising: list[int], target: int, count: int) -> int:
    """Return the place of the largest size that a stack of that many sizes can have."""
    mask = (1 << (target + 1)) - 1
    sums = [1] + [0] * (count - 1)
    found = -1
    for place, size in enumerate(rising):
        if size <= target and sums[count - 1] >> (target - size) & 1:
            found = place
        for fewer in range(min(count - 1, place + 1), 0, -1):
            sums[fewer] |= (sums[fewer - 1] << size) & mask
    return found


def stack(
    set: BlockSet,
    target: Fraction,
    unit: str,
    exact: bool = False,
    place: Fraction | None = None,
    wear: bool = False,
) -> Stack:
    """Return the fewest blocks of a set for a target.

    Parameters
    ----------
    set
        The set.
    target
        What the blocks are to come to. [length]
    unit
        The target's unit, ``in`` or ``mm``; another unit than the set's is converted exactly.
    exact
        Make the target itself; otherwise it is rounded, half up, to the place. Where the set
        cannot make the rounded figure but can make the target itself, it does.
    place
        The place to round to; 0.001 in or 0.01 mm if None. In the set's unit. [length]
    wear
        Put two wear blocks of the set at the ends, counted in.

    Raises
    ------
    TypedError
        If the target is under the smallest block or over all of them, or there are no wear blocks.
    """
    ends = _wear_pair(set) if wear else ()
    ends_total = sum((q.value for q in ends), Fraction(0))
    here = converted(target, unit, set.unit)
    _within(set, here, ends_total, wear)
    step = PLACE[set.unit] if place is None else place
    rounded = here if exact else (here / step + Fraction(1, 2)) // 1 * step
    as_target = _texted(typed(here, set.unit))
    for aim in (rounded, here):
        blocks = _made(set, aim - ends_total, ends)
        if blocks is not None:
            left = add(as_target, _sum(blocks), -1)
            return Stack(
                set.name, as_target, _aimed(set, aim, step), blocks, _texted(left), nearest=None
            )
    nearest = _nearest(set, here, ends)
    return Stack(set.name, as_target, _aimed(set, rounded, step), (), as_target, nearest)


def _wear_pair(box: BlockSet) -> tuple[Quantity, ...]:
    if len(box.wear) < 2:
        has = "only one wear block" if box.wear else "no wear blocks"
        raise TypedError(f"--wear: {box.name} lists {has}; leave --wear out")
    return tuple(sorted(box.wear, key=lambda q: q.value)[:2])


def _within(box: BlockSet, target: Fraction, ends: Fraction, wear: bool) -> None:
    """Refuse a target that no stack can come near."""
    least = ends or min(q.value for q in box.blocks)
    most = box.total + ends
    shown = f"{_decimal(target)} {box.unit}"
    if target < least:
        thing = "the two wear blocks alone" if wear else "the smallest block"
        remedy = "leave --wear out" if wear else "use feelers or a micrometer"
        raise TypedError(
            f"{shown} is under {thing} of {box.name}, {_decimal(least)} {box.unit}; {remedy}"
        )
    if target > most:
        raise TypedError(
            f"{shown} is over all {len(box.blocks)} blocks of {box.name} together, "
            f"{_decimal(most)} {box.unit}; split the length, or take a longer set"
        )


def _made(
    box: BlockSet, target: Fraction, ends: tuple[Quantity, ...]
) -> tuple[Quantity, ...] | None:
    """Return the fewest blocks for an exact length between the ends; None if there are none."""
    scaled = target / box.grain
    if scaled.denominator != 1 or scaled < 0 or (scaled == 0 and not ends):
        return None
    sizes = {int(q.value / box.grain): q for q in box.blocks}
    found = fewest([int(q.value / box.grain) for q in box.blocks], int(scaled))
    if found is None:
        return None
    return (*ends[:1], *(sizes[size] for size in found), *ends[1:])


def _nearest(box: BlockSet, target: Fraction, ends: tuple[Quantity, ...]) -> tuple[Build, Build]:
    """Return the nearest stacks below and above a target that no stack comes to."""
    between = (target - sum((q.value for q in ends), Fraction(0))) / box.grain
    sizes = [int(q.value / box.grain) for q in box.blocks]
    # A sum that is the least over the target is not over it by more than its own largest block.
    sums = reachable(sizes, min(sum(sizes), int(between) + max(sizes) + 1))
    floor = int(between // 1)
    below = (sums & ((1 << (floor + 1)) - 1)).bit_length() - 1
    rest = sums >> (floor + 1)
    above = floor + (rest & -rest).bit_length()
    builds = []
    for whole in (below, above):
        blocks = _made(box, whole * box.grain, ends)
        assert blocks is not None
        builds.append(Build(blocks, _sum(blocks)))
    return builds[0], builds[1]


def _sum(blocks: tuple[Quantity, ...]) -> Quantity:
    """Return what blocks come to, with as many decimals as the finest of them."""
    total = derive(sum((q.value for q in blocks), Fraction(0)), *blocks)
    return total.printed(max(len(q.text.partition(".")[2]) for q in blocks))


def _aimed(box: BlockSet, value: Fraction, step: Fraction) -> Quantity:
    return typed(value, box.unit).printed(max(places_in_full(value), places_in_full(step)))


def _texted(q: Quantity) -> Quantity:
    return q.printed(places_in_full(q.value, 4 if q.unit == "in" else 2))


def _decimal(value: Fraction) -> str:
    return decimal(value, places_in_full(value))


def places_in_full(value: Fraction, least: int = 0) -> int:
    """Return the decimals that write a figure in full, or six where it has no end."""
    for places in range(least, _MOST_PLACES):
        if (value * 10**places).denominator == 1:
            return places
    return _MOST_PLACES
