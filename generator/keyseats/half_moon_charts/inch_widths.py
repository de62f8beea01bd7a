"""Keys of the inch half-moon chart by width, and the shafts that each width is worked out for."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from keyseats.families import inch_half_moon
from keyseats.load import Tables
from keyseats.records import InchHalfMoonKey
from keyseats.seat import Tabled, Work

# Shafts of the arc-height strips, inside each width's range; those that have their first choice in
# a width come before others. Which of them: our layout, no source.
STRIPS = {
    "1/16": "5/16 3/8 7/16 1/2",
    "3/32": "3/8 7/16 1/2 9/16 5/8 11/16 3/4 7/8",
    "1/8": "3/8 7/16 1/2 9/16 5/8 3/4 7/8 1",
    "5/32": "1/2 5/8 3/4 7/8 1 1-1/4 1-1/2 1-5/8",
    "3/16": "5/8 11/16 3/4 13/16 7/8 1 1-1/4 1-1/2",
    "7/32": "3/4 7/8 1 1-1/8 1-1/4 1-1/2 1-3/4 2",
    "1/4": "15/16 1 1-1/16 1-1/8 1-3/16 1-1/4 1-3/8 1-1/2",
    "5/16": "1 1-1/8 1-1/4 1-5/16 1-3/8 1-1/2 1-3/4 2",
    "3/8": "1-1/4 1-7/16 1-1/2 1-5/8 1-3/4 2 2-1/4 2-1/2",
}


@dataclass(frozen=True)
class OneWidth:
    """All keys of one width, in number order."""

    width: str
    keys: tuple[Tabled, ...]


def by_width(tables: Tables) -> list[OneWidth]:
    """Return the standard series by width, narrow first, each in number order."""
    work = Work("in", Fraction(1))
    series = [k for k in inch_half_moon.keys(tables).values() if k.series == "standard"]
    widths = sorted({k.width.value for k in series})
    found = []
    for wide in widths:
        here = sorted((k for k in series if k.width.value == wide), key=_by_diameter)
        text = here[0].width.text.removesuffix(" in")
        keys = tuple(inch_half_moon.one(k.key, tables, work) for k in here)
        found.append(OneWidth(text, keys))
    return found


def _by_diameter(key: InchHalfMoonKey) -> Fraction:
    return key.diameter.value


def drawn(keys: tuple[Tabled, ...]) -> Tabled:
    """Return the key whose seat has the proportion that draws best."""
    return min(keys, key=_proportion)


def _proportion(tabled: Tabled) -> Fraction:
    """Return how far a seat's depth is from the proportion that draws best."""
    assert tabled.depth_at_edge is not None
    return abs(tabled.depth_at_edge.least.value / tabled.key.width.value - Fraction(19, 20))
