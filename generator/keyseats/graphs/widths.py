"""The shafts that the lists give each key width: where a curve runs, and where it is heavy."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from keyseats.families import inch_half_moon, inch_plain, metric_half_moon, metric_plain
from keyseats.load import Tables
from keyseats.standing import Bench, Limits, Quantity

SERIES = (metric_half_moon.TORQUE, "series 2")
# A range without an upper end.
OPEN = Fraction(10**6)


@dataclass(frozen=True)
class Reach:
    """One key width and the shafts for it: of the plain key, and of the half-moon keys."""

    width: Quantity
    plain: Limits | None
    half_moon: Limits | None

    @property
    def ends(self) -> tuple[Quantity, ...]:
        """Return the ends of its ranges."""
        given = [one for one in (self.plain, self.half_moon) if one is not None]
        return tuple(end for one in given for end in (one.least, one.most))

    @property
    def first(self) -> Fraction:
        """Return the least shaft. [length]"""
        return min(end.value for end in self.ends)

    @property
    def last(self) -> Fraction:
        """Return the largest shaft. [length]"""
        return max(end.value for end in self.ends)

    @property
    def rows(self) -> tuple[str, ...]:
        """Return the ids of the figures behind it."""
        found = (row for q in (self.width, *self.ends) for row in q.rows)
        return tuple(dict.fromkeys(found))


def reaches(tables: Tables, unit: str, most: Fraction) -> list[Reach]:
    """Return the widths that the lists give to shafts of a size or under it, rising.

    Parameters
    ----------
    tables
        The tables.
    unit
        ``in`` for ASME B17.1 and the list of half-moon keys by width, ``mm`` for ISO/R 773 and
        both series of ISO 3912.
    most
        The largest shaft of the graph; ranges end there. [length]
    """
    found: dict[Fraction, Quantity] = {}
    plain: dict[Fraction, list[Limits]] = {}
    half_moon: dict[Fraction, list[Limits]] = {}
    for kind, width, least, end in _listed(tables, unit):
        if least.value < most:
            found.setdefault(width.value, width)
            into = plain if kind == "plain" else half_moon
            into.setdefault(width.value, []).append(Limits(least, end))
    return [
        Reach(found[w], _cut(plain.get(w), most), _cut(half_moon.get(w), most))
        for w in sorted(found)
    ]


def _cut(ranges: list[Limits] | None, most: Fraction) -> Limits | None:
    """Return several ranges as one, cut off at the graph's end."""
    if not ranges:
        return None
    least = min((one.least for one in ranges), key=lambda q: q.value)
    end = max((one.most for one in ranges), key=lambda q: q.value)
    if end.value > most:
        end = replace(end, value=most)
    return Limits(least, end)


def _listed(tables: Tables, unit: str) -> Iterator[tuple[str, Quantity, Quantity, Quantity]]:
    q = Bench(tables).quantity
    if unit == "in":
        for row in inch_plain.rows(tables):
            yield "plain", q(row.width), q(row.shaft_over), q(row.shaft_to)
        for given in inch_half_moon.width_ranges(tables).values():
            assert given.width is not None
            yield "half-moon", q(given.width), q(given.shaft_from), q(given.shaft_to)
        return
    for line in metric_plain.rows(tables, metric_plain.STANDARDS[0]):
        if line.series == "main":
            yield "plain", q(line.width), q(line.shaft_over), q(line.shaft_to)
    keys = metric_half_moon.keys(tables, metric_half_moon.STANDARDS[0])
    for series in SERIES:
        for name, ranged in metric_half_moon.ranges(tables, series).items():
            over = q(ranged.shaft_over)
            end = q(ranged.shaft_to) if ranged.shaft_to is not None else replace(over, value=OPEN)
            yield "half-moon", q(keys[name].width), over, end
