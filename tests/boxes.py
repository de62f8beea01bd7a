"""Gauge-block sets made up for a test, and answers found the slow way."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations

from keyseats.blocks import BlockSet
from keyseats.standing import Quantity, typed


def box(
    sizes: Sequence[Fraction], wear: Sequence[Fraction] = (), unit: str = "in", name: str = "box"
) -> BlockSet:
    def block(size: Fraction) -> Quantity:
        return typed(size, unit).printed(5)

    return BlockSet(name, unit, tuple(map(block, sizes)), tuple(map(block, wear)))


def every_stack(sizes: Sequence[Fraction]) -> dict[Fraction, tuple[Fraction, ...]]:
    """Return the best stack of every sum: the fewest blocks, then the largest, one by one."""
    best: dict[Fraction, tuple[Fraction, ...]] = {}
    falling = sorted(sizes, reverse=True)
    for count in range(1, len(falling) + 1):
        for chosen in combinations(falling, count):
            total = sum(chosen, Fraction(0))
            if total not in best or (len(best[total]) == count and chosen > best[total]):
                best[total] = chosen
    return best


def least_counts(sizes: Sequence[int], most: int) -> list[int | None]:
    """Return the fewest sizes for each sum up to ``most``, by the money-changer's table."""
    counts: list[int | None] = [0] + [None] * most
    for size in sizes:
        for total in range(most, size - 1, -1):
            before = counts[total - size]
            if before is not None:
                now = counts[total]
                counts[total] = before + 1 if now is None else min(now, before + 1)
    return counts
