"""Keys of the inch half-moon chart by width, and the shafts that each width is worked out for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from keyseats.families import inch_half_moon
from keyseats.lengths import read_fraction
from keyseats.load import Tables
from keyseats.records import InchHalfMoonKey
from keyseats.seat import Tabled, Work
from keyseats.standing import Limits, Quantity, between, derive

# Shafts of the arc-height strips, in lines of eight, inside each width's range: the first line
# before the next. Those that have their first choice in a width come before others. Which of them:
# our layout, no source.
STRIPS = {
    "1/16": ("5/16 3/8 7/16 1/2",),
    "3/32": ("3/8 7/16 1/2 9/16 5/8 11/16 3/4 7/8",),
    "1/8": (
        "3/8 7/16 1/2 9/16 5/8 3/4 7/8 1",
        "11/16 13/16 15/16 1-1/16 1-1/8 1-1/4 1-3/8 1-1/2",
    ),
    "5/32": (
        "1/2 5/8 3/4 7/8 1 1-1/4 1-1/2 1-5/8",
        "9/16 11/16 13/16 15/16 1-1/16 1-1/8 1-3/16 1-3/8",
    ),
    "3/16": (
        "5/8 11/16 3/4 13/16 7/8 1 1-1/4 1-1/2",
        "9/16 15/16 1-1/16 1-1/8 1-3/16 1-3/8 1-3/4 2",
    ),
    "7/32": (
        "3/4 7/8 1 1-1/8 1-1/4 1-1/2 1-3/4 2",
        "13/16 15/16 1-1/16 1-3/16 1-5/16 1-3/8 1-5/8 1-7/8",
    ),
    "1/4": (
        "15/16 1 1-1/16 1-1/8 1-3/16 1-1/4 1-3/8 1-1/2",
        "11/16 3/4 7/8 1-5/16 1-7/16 1-3/4 2 2-1/4",
        "13/16 1-9/16 1-5/8 1-11/16 1-13/16 1-7/8 1-15/16 2-1/8",
    ),
    "5/16": (
        "1 1-1/8 1-1/4 1-5/16 1-3/8 1-1/2 1-3/4 2",
        "3/4 7/8 1-3/16 1-7/16 1-5/8 1-7/8 2-1/4 2-3/8",
    ),
    "3/8": (
        "1-1/4 1-7/16 1-1/2 1-5/8 1-3/4 2 2-1/4 2-1/2",
        "1 1-1/8 1-3/8 1-9/16 1-7/8 2-1/8 2-3/8 2-5/8",
    ),
}
IN_LINE = 8
# The lines of what all keys of a width share.
ALIKE = 4


@dataclass(frozen=True)
class OneWidth:
    """All keys of one width, in number order."""

    width: str
    keys: tuple[Tabled, ...]

    def constants(self) -> list[tuple[str, Limits]]:
        """Return what all keys share, by name; a key that differs in one has that named for it."""
        above = [between(one.key.height, at_edge(one), -1) for one in self.keys]
        least = min((one.least for one in above), key=_value)
        most = max((one.most for one in above), key=_value)
        return [
            *self._shared("seat width", [one.seat_width for one in self.keys]),
            ("key above edge", Limits(least, most)),
            *self._shared("hub width", [one.hub_width for one in self.keys]),
            *self._shared("hub depth", [one.hub_rise for one in self.keys]),
        ]

    def _shared(self, name: str, limits: list[Limits]) -> list[tuple[str, Limits]]:
        ends = [(one.least.value, one.most.value) for one in limits]
        most = max(ends, key=ends.count)
        found = [(name, limits[ends.index(most)])]
        for key, one, pair in zip(self.keys, limits, ends, strict=True):
            if pair != most:
                found.append((f"{name}, {key.key.designation}", one))
        return found

    @property
    def parted(self) -> bool:
        """Return whether some key has a line of its own among what all share."""
        return len(self.constants()) > ALIKE


def _value(quantity: Quantity) -> Fraction:
    return quantity.value


def at_edge(tabled: Tabled) -> Limits:
    """Return the limits of a key's depth at the edge."""
    assert tabled.depth_at_edge is not None
    return tabled.depth_at_edge


def named(widths: Sequence[OneWidth]) -> str:
    """Return what a sheet's title says of its widths, ``1/16 to 3/32 in``."""
    first, last = widths[0].width, widths[-1].width
    return f"{first} in" if first == last else f"{first} to {last} in"


def strip(width: str, lines: int) -> list[list[str]]:
    """Return the shafts of a width's arc-height strip, small to large, in lines of eight.

    Parameters
    ----------
    width
        Key width, as a page names it. [in]
    lines
        The most lines that there is room for.
    """
    shafts = sorted(" ".join(STRIPS[width][:lines]).split(), key=read_fraction)
    return [shafts[n : n + IN_LINE] for n in range(0, len(shafts), IN_LINE)]


def over(limits: Sequence[Limits]) -> Quantity:
    """Return what each printed least may be passed by, so that none goes past its own most.

    A depth that was rounded up leaves less than the standard's tolerance. It is recalled if any of
    the limits is.

    Parameters
    ----------
    limits
        Printed limits. [in]
    """
    room = min(read_fraction(one.most.text) - read_fraction(one.least.text) for one in limits)
    found = derive(room, *(one.most for one in limits))
    return found.printed(4 if room % Fraction(1, 1000) else 3)


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
    return abs(at_edge(tabled).least.value / tabled.key.width.value - Fraction(19, 20))
