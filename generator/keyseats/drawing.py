"""Drawings as marks: outlines, computed hatch, dimension lines. Points, y downward."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import atan2, ceil, cos, hypot, pi, sin, tan

from keyseats.page import Block, Line, Mark, Shape, Text
from keyseats.palette import INK
from keyseats.setting import set_width, words

Point = tuple[float, float]


@dataclass(frozen=True)
class Pen:
    """Line weights of a drawing; three weights mean three things. [pt]"""

    outline: float = 1.5
    thin: float = 0.7
    hatch: float = 0.5
    arrow: float = 7.0
    spacing: float = 6.0


def arc(centre: Point, radius: float, start: float, end: float, steps: int = 0) -> list[Point]:
    """Return points along an arc, angles in radians from the right, turning downward."""
    count = steps or max(8, int(abs(end - start) / (pi / 90)))
    turn = [(start + (end - start) * n / count) for n in range(count + 1)]
    return [(centre[0] + radius * cos(a), centre[1] + radius * sin(a)) for a in turn]


def curve(
    centre: Point, radius: float, start: float, end: float
) -> tuple[tuple[str | float, ...], ...]:
    """Return an arc as curved path pieces that follow a point already set."""
    pieces = max(1, ceil(abs(end - start) / (pi / 4)))
    step = (end - start) / pieces
    pull = 4 / 3 * tan(step / 4) * radius
    path: list[tuple[str | float, ...]] = []
    for n in range(pieces):
        a, b = start + n * step, start + (n + 1) * step
        ax, ay = centre[0] + radius * cos(a), centre[1] + radius * sin(a)
        bx, by = centre[0] + radius * cos(b), centre[1] + radius * sin(b)
        path.append(
            (
                "C",
                ax - pull * sin(a),
                ay + pull * cos(a),
                bx + pull * sin(b),
                by - pull * cos(b),
                bx,
                by,
            )
        )
    return tuple(path)


def polyline(points: list[Point], closed: bool = False) -> tuple[tuple[str | float, ...], ...]:
    """Return a path through points."""
    path: list[tuple[str | float, ...]] = [("M", *points[0])]
    path += [("L", *p) for p in points[1:]]
    if closed:
        path.append(("Z",))
    return tuple(path)


def hatch(
    outline: list[Point], pen: Pen, slope: int = 1, holes: tuple[list[Point], ...] = ()
) -> list[Mark]:
    """Return 45 degree hatch lines inside an outline, cut out of its holes.

    The spacing is that of the pen whatever the drawing's scale; ``slope`` 1 rises to the right,
    -1 falls, so that two parts that touch are told apart.
    """
    step = pen.spacing * 2**0.5
    cuts: dict[int, list[Point]] = {}
    for ring in (outline, *holes):
        for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
            start, end = a[0] + slope * a[1], b[0] + slope * b[1]
            # Every line that can cross this edge, and one more at either end.
            for n in range(int(min(start, end) // step), int(max(start, end) // step) + 2):
                level = n * step + 1e-7
                fa, fb = start - level, end - level
                if (fa < 0) != (fb < 0):
                    t = fa / (fa - fb)
                    cut = (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t)
                    cuts.setdefault(n, []).append(cut)
    marks: list[Mark] = []
    for n in sorted(cuts):
        here = sorted(cuts[n])
        for a, b in zip(here[::2], here[1::2], strict=False):
            if hypot(b[0] - a[0], b[1] - a[1]) > 0.5:
                marks.append(Line(a[0], a[1], b[0], b[1], pen.hatch))
    return marks


def arrow(tip: Point, back: Point, pen: Pen) -> Shape:
    """Return a filled arrowhead at ``tip``, pointing away from ``back``."""
    angle = atan2(tip[1] - back[1], tip[0] - back[0])
    long, half = pen.arrow, pen.arrow * 0.17
    base = (tip[0] - long * cos(angle), tip[1] - long * sin(angle))
    left = (base[0] - half * sin(angle), base[1] + half * cos(angle))
    right = (base[0] + half * sin(angle), base[1] - half * cos(angle))
    return Shape(polyline([tip, left, right], closed=True), fill=INK)


def span(a: Point, b: Point, pen: Pen, *, outside: bool = False) -> list[Mark]:
    """Return a dimension line between two points, with an arrow at each.

    With ``outside`` the arrows stand beyond the points and point inward, for a space too small to
    hold them.
    """
    long = hypot(b[0] - a[0], b[1] - a[1])
    ux, uy = (b[0] - a[0]) / long, (b[1] - a[1]) / long
    if not outside:
        return [Line(*a, *b, pen.thin), arrow(a, b, pen), arrow(b, a, pen)]
    tail = pen.arrow * 1.9
    before = (a[0] - ux * tail, a[1] - uy * tail)
    after = (b[0] + ux * tail, b[1] + uy * tail)
    return [
        Line(*before, *a, pen.thin),
        Line(*b, *after, pen.thin),
        arrow(a, before, pen),
        arrow(b, after, pen),
    ]


def leader(points: list[Point], pen: Pen, *, head: bool = True) -> list[Mark]:
    """Return a thin line through points; its arrow is at the last."""
    marks: list[Mark] = [Line(*a, *b, pen.thin) for a, b in pairwise(points)]
    if head:
        marks.append(arrow(points[-1], points[-2], pen))
    return marks


def ringed(start: Point, point: Point, radius: float, pen: Pen) -> list[Mark]:
    """Return a thin line to a point that a small ring marks, for a place that is full of lines."""
    long = hypot(point[0] - start[0], point[1] - start[1])
    part = 1 - radius / long
    rim = (start[0] + (point[0] - start[0]) * part, start[1] + (point[1] - start[1]) * part)
    ring = (("M", point[0] + radius, point[1]), *curve(point, radius, 0, 2 * pi), ("Z",))
    return [Line(*start, *rim, pen.thin), Shape(ring, stroke=pen.thin)]


def label(
    x: float,
    y: float,
    lines: list[str],
    size: float,
    *,
    bold: bool = False,
    anchor: str = "start",
    leading: float = 1.18,
) -> list[Mark | Block]:
    """Return lines of text set one under the other, the first on ``y``."""
    return [
        words(x, y + n * size * leading, line, size, bold=bold, anchor=anchor)
        for n, line in enumerate(lines)
    ]


def broken(a: Point, b: Point, amplitude: float) -> list[Point]:
    """Return the points of a gently waved break line from ``a`` to ``b``."""
    long = hypot(b[0] - a[0], b[1] - a[1])
    waves = max(2, round(long / (amplitude * 9)))
    ux, uy = (b[0] - a[0]) / long, (b[1] - a[1]) / long
    points = []
    for n in range(waves * 8 + 1):
        t = n / (waves * 8)
        off = amplitude * sin(2 * pi * waves * t)
        points.append((a[0] + ux * long * t - uy * off, a[1] + uy * long * t + ux * off))
    return points


def widest(lines: list[str], size: float, bold: bool = False) -> float:
    """Return the width of the widest of several lines. [pt]"""
    return max(set_width(line, size, bold) for line in lines)


def centre_line(a: Point, b: Point, pen: Pen) -> Line:
    """Return a chain line, as centres are marked."""
    return Line(*a, *b, pen.thin, (9.0, 2.5, 1.8, 2.5))


__all__ = [
    "Pen",
    "Text",
    "arc",
    "arrow",
    "broken",
    "centre_line",
    "curve",
    "hatch",
    "label",
    "leader",
    "polyline",
    "ringed",
    "span",
    "widest",
]
