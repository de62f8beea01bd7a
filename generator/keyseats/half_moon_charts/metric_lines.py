"""Rows of the metric half-moon charts: each key with both fits, and what a width's keys share."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby, pairwise

from keyseats.families import metric_half_moon
from keyseats.lengths import decimal
from keyseats.load import Tables
from keyseats.records import MetricHalfMoonShaft
from keyseats.seat import Tabled, Work
from keyseats.standing import Limits, Quantity, add, derive


@dataclass(frozen=True)
class Line:
    """One key: its normal and its close fit, and the shafts of series 1."""

    normal: Tabled
    close: Tabled
    range: MetricHalfMoonShaft | None

    @property
    def above_crown(self) -> Quantity:
        """Return how far the highest key stands above the crown on the highest floor. [mm]"""
        assert self.normal.depth_from_crown is not None
        return add(self.normal.key.height.most, self.normal.depth_from_crown.least, -1)


@dataclass(frozen=True)
class OneWidth:
    """Keys of one width, low ones first; a figure here stands for all of them if they agree in it.

    `runs` and `by_hub` part keys that do not agree. A figure carries the row ids of every key, so
    that a correction to any of them marks the page.
    """

    lines: tuple[Line, ...]

    @property
    def width(self) -> Quantity:
        """Return the keys' width, its text as in their names. [mm]"""
        text = self.lines[0].normal.key.designation.partition(" x ")[0]
        return Quantity(*_all([line.normal.key.width for line in self.lines]), text)

    @property
    def above_crown(self) -> Quantity:
        """Return the most that a key stands above the crown. [mm]"""
        return Quantity(*_all([line.above_crown for line in self.lines])).printed(2)

    @property
    def seat_width(self) -> Limits:
        """Return the seat's width, normal fit. [mm]"""
        return _limits([line.normal.seat_width for line in self.lines]).printed(3)

    @property
    def close_width(self) -> Limits:
        """Return the seat's width, close fit, which stands for the hub's too. [mm]"""
        both = [(line.close.seat_width, line.close.hub_width) for line in self.lines]
        return _limits([seat for seat, _ in both] + [hub for _, hub in both]).printed(3)

    @property
    def close_hub_width(self) -> Limits:
        """Return the hub keyway's width, close fit. [mm]"""
        return _limits([line.close.hub_width for line in self.lines]).printed(3)

    @property
    def hub_width(self) -> Limits:
        """Return the hub keyway's width, normal fit. [mm]"""
        return _limits([line.normal.hub_width for line in self.lines]).printed(3)

    @property
    def hub_depth(self) -> Limits:
        """Return the hub's depth from the bore. [mm]"""
        return _limits([line.normal.hub_rise for line in self.lines]).printed(2)

    @property
    def floor_radius(self) -> Limits | None:
        """Return the radius between the seat's walls and its floor. [mm]"""
        found = [line.normal.floor_radius for line in self.lines]
        given = [limits for limits in found if limits is not None]
        return _limits(given).printed(2) if len(given) == len(found) else None

    def runs(self) -> list[OneWidth]:
        """Return the keys in runs that have one seat width and one key above the crown."""
        return [OneWidth(tuple(here)) for _, here in groupby(self.lines, key=_shaft)]

    def by_hub(self) -> list[OneWidth]:
        """Return those keys as one that agree in widths, hub and radius, and each other alone."""
        hubs = [_hub(line) for line in self.lines]
        most = max(hubs, key=hubs.count)
        if hubs.count(most) == 1:
            return [OneWidth((line,)) for line in self.lines]
        pairs = list(zip(self.lines, hubs, strict=True))
        together = OneWidth(tuple(line for line, hub in pairs if hub == most))
        return [together, *(OneWidth((line,)) for line, hub in pairs if hub != most)]


def _all(same: list[Quantity]) -> tuple[Fraction, str, str, tuple[str, ...]]:
    """Return what quantities of one value amount to: the weakest standing, every row."""
    whole = derive(same[0].value, *same)
    return whole.value, whole.unit, whole.standing, whole.rows


def _limits(same: list[Limits]) -> Limits:
    least, most = ([getattr(one, end) for one in same] for end in ("least", "most"))
    return Limits(Quantity(*_all(least)), Quantity(*_all(most)))


def _ends(limits: Limits | None) -> tuple[Fraction, Fraction] | None:
    return None if limits is None else (limits.least.value, limits.most.value)


def _shaft(line: Line) -> tuple[tuple[Fraction, Fraction] | None, Fraction]:
    """Return the figures that the chart's first sheet says once for a run of keys."""
    return _ends(line.normal.seat_width), line.above_crown.value


def _hub(line: Line) -> tuple[tuple[Fraction, Fraction] | None, ...]:
    """Return the figures of the chart's second sheet."""
    normal, close = line.normal, line.close
    widths = (normal.seat_width, close.seat_width, close.hub_width, normal.hub_width)
    return tuple(_ends(limits) for limits in (*widths, normal.hub_rise, normal.floor_radius))


def by_width(all_lines: list[Line]) -> list[OneWidth]:
    """Return the keys by width, narrow first."""
    order = sorted(all_lines, key=_size)
    return [OneWidth(tuple(here)) for _, here in groupby(order, key=_width)]


def alike(widths: Sequence[OneWidth]) -> list[OneWidth]:
    """Return the groups of keys that the shaft's charts rule off: a width, or runs of its keys."""
    return [run for one in widths for run in one.runs()]


def said_for(groups: Sequence[OneWidth]) -> str:
    """Return which keys a figure is for that a group of them has once."""
    widths = [one.width.value for one in groups]
    parted = any(first == second for first, second in pairwise(widths))
    return f"for every key {'between two rules' if parted else 'of the width'}"


def _width(line: Line) -> Fraction:
    return line.normal.key.width.value


def _size(line: Line) -> tuple[Fraction, Fraction]:
    return _width(line), line.normal.key.height.most.value


def at_the_centre(all_lines: list[Line]) -> list[tuple[Line, Fraction]]:
    """Return the keys whose deepest floor is at the centre of a shaft of theirs, and that shaft."""
    found = []
    for line in all_lines:
        depth, given = line.normal.depth_from_crown, line.range
        if (
            depth is not None
            and given is not None
            and given.shaft_over.value < depth.most.value * 2
        ):
            found.append((line, depth.most.value * 2))
    return found


def reach(all_lines: list[Line]) -> str:
    """Return in words which keys' floors reach the shaft's centre, and in which shafts, if any."""
    found = [
        (line.normal.key.in_print, decimal(shaft, 1).removesuffix(".0"))
        for line, shaft in at_the_centre(all_lines)
    ]
    if not found:
        return ""
    (name, to), *more = found
    parts = [f"{name} can reach in shafts to {to}", *(f"{key} to {end}" for key, end in more)]
    return f"{', and '.join([*([', '.join(parts[:-1])] if more else []), parts[-1]])} mm"


def lines(tables: Tables) -> list[Line]:
    """Return the standard's keys, narrow first, that have both fits."""
    given = metric_half_moon.ranges(tables, metric_half_moon.TORQUE)
    normal, close = (
        {
            t.key.designation: t
            for t in metric_half_moon.every(tables, Work("mm", Fraction(1), fit=f))
        }
        for f in ("normal", "close")
    )
    return [Line(normal[n], close[n], given.get(n)) for n in normal if n in close]
