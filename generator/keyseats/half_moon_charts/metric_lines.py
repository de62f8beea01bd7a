"""Rows of the metric half-moon chart: each key with both fits and its shafts."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from keyseats.families import metric_half_moon
from keyseats.load import Tables
from keyseats.records import MetricHalfMoonShaft
from keyseats.seat import Tabled, Work


@dataclass(frozen=True)
class Line:
    """One key: its normal and its close fit, and the shafts of series 1."""

    normal: Tabled
    close: Tabled
    range: MetricHalfMoonShaft | None


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
