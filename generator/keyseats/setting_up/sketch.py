"""A small drawing of the setting-up chart while it is made: points in its own sizes."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import acos, asin, atan2, pi, sqrt

from keyseats.drawing import (
    Pen,
    Point,
    arc,
    broken,
    curve,
    hatch,
    label,
    leader,
    polyline,
    span,
    widest,
)
from keyseats.frame import Frame
from keyseats.page import Block, Line, Mark, Shape
from keyseats.palette import BODY
from keyseats.sections import WAVE, Across
from keyseats.setting import box
from keyseats.setting_up.drawings import CHAIN, pen_for

DASH = (3.0, 2.0)
# Size of its words. [figure sizes]
WORD = 0.6


@dataclass
class Sketch:
    """A drawing in a cell: points from its upper left, lengths ``scale`` figure sizes.

    Words keep the size of notes whatever the scale is.
    """

    f: Frame
    x: float
    y: float
    scale: float = 1.0
    marks: list[Mark | Block] = field(default_factory=list)

    @property
    def u(self) -> float:
        """Return one of its lengths on paper. [pt]"""
        return self.f.unit * self.scale

    @property
    def word(self) -> float:
        """Return the size of its words in its own lengths."""
        return WORD / self.scale

    @property
    def pen(self) -> Pen:
        """Return its line weights, a little under those of the chart's large drawings."""
        pen = pen_for(self.f)
        return Pen(pen.outline * 0.9, pen.thin, pen.hatch, pen.arrow * 0.85, pen.spacing)

    @property
    def bold(self) -> Pen:
        """Return a pen for arrows that something moves by."""
        pen = self.pen
        return Pen(pen.outline, pen.outline, pen.hatch, pen.arrow * 1.5, pen.spacing)

    def block(self, alt: str, *, rows: tuple[str, ...] = ()) -> Block:
        """Return the drawing, with what it shows in words."""
        return Block("Figure", tuple(self.marks), alt=alt, rows=rows)

    def at(self, x: float, y: float) -> Point:
        """Return where a point stands on the page. [pt]"""
        return (self.x + x * self.u, self.y + y * self.u)

    def line(
        self, a: Point, b: Point, *, thick: bool = False, dash: tuple[float, ...] = ()
    ) -> None:
        """Draw a line."""
        weight = self.pen.outline if thick else self.pen.thin
        self.marks.append(Line(*self.at(*a), *self.at(*b), weight, dash))

    def axis(self, a: Point, b: Point) -> None:
        """Draw a chain line, as centres are marked."""
        self.line(a, b, dash=CHAIN)

    def rect(self, a: Point, b: Point, *, fill: float = BODY, thin: bool = False) -> None:
        """Draw a body as a rectangle between two corners."""
        weight = self.pen.thin if thin else self.pen.outline
        self.marks.append(Shape(box(*self.at(*a), *self.at(*b)), fill=fill, stroke=weight))

    def path(
        self, points: list[Point], *, dash: tuple[float, ...] = (), closed: bool = False
    ) -> None:
        """Draw a thin line through points."""
        way = polyline([self.at(*p) for p in points], closed)
        self.marks.append(Shape(way, stroke=self.pen.thin, dash=dash))

    def circle(
        self,
        centre: Point,
        radius: float,
        *,
        fill: float | None = None,
        dash: tuple[float, ...] = (),
    ) -> None:
        """Draw a circle; thin if it is dashed."""
        (x, y), r = self.at(*centre), radius * self.u
        weight = self.pen.thin if dash else self.pen.outline
        way = (("M", x + r, y), *curve((x, y), r, 0, 2 * pi), ("Z",))
        self.marks.append(Shape(way, fill=fill, stroke=weight, dash=dash))

    def shaft(self, centre: Point, radius: float) -> None:
        """Draw a whole shaft, cut across."""
        self.marks += hatch(arc(self.at(*centre), radius * self.u, 0, 2 * pi, 120), self.pen)
        self.circle(centre, radius)

    def solid(self, top: list[Point], base: float) -> None:
        """Draw a piece of shaft under its outline, broken off at a level."""
        outline = [self.at(*p) for p in top]
        foot = broken(self.at(top[-1][0], base), self.at(top[0][0], base), WAVE)
        self.marks += hatch([*outline, *foot], self.pen)
        self.marks.append(Shape(polyline(outline), stroke=self.pen.outline))
        self.marks.append(Shape(polyline(foot), stroke=self.pen.thin))

    def top(self, x: float, crown: float, radius: float, base: float, slot: list[Point]) -> None:
        """Draw the top of a shaft across, with what is cut out of it; broken off at a level."""
        side = acos(0.97)
        half = abs(slot[0][0] - x) if slot else 0.0
        turn = acos(half / radius)
        left = arc((x, crown + radius), radius, side - pi, turn - pi, 40)
        right = arc((x, crown + radius), radius, -turn, -side, 40)
        self.solid([*left, *slot, *right], base)

    def whole(self, x: float, crown: float, radius: float, slot: list[Point]) -> None:
        """Draw a whole shaft, cut across, with a slot from its left edge to its right edge."""
        y = crown + radius
        (left, low), (right, high) = slot[0], slot[-1]
        start, end = atan2(high - y, right - x), atan2(low - y, left - x) % (2 * pi)
        ring = [*arc(self.at(x, y), radius * self.u, start, end, 180)]
        ring += [self.at(*p) for p in slot[1:-1]]
        self.marks += hatch(ring, self.pen)
        self.marks.append(Shape(polyline(ring, closed=True), stroke=self.pen.outline))

    def shank(self, right: float, level: float, half: float, long: float) -> None:
        """Draw what carries a cutter, away from it to the left, broken off."""
        a, b = self.at(right, level - half), self.at(right, level + half)
        edge = broken(
            self.at(right - long, level - half), self.at(right - long, level + half), WAVE
        )
        self.marks += [
            Shape(polyline([a, *edge, b], closed=True), fill=BODY),
            Shape(polyline([a, edge[0]]), stroke=self.pen.outline),
            Shape(polyline([edge[-1], b]), stroke=self.pen.outline),
            Shape(polyline(edge), stroke=self.pen.thin),
        ]

    def span(self, a: Point, b: Point, *, outside: bool = False) -> None:
        """Draw a dimension line."""
        self.marks += span(self.at(*a), self.at(*b), self.pen, outside=outside)

    def leader(self, a: Point, b: Point) -> None:
        """Draw a thin line with its arrow at the second point."""
        self.marks += leader([self.at(*a), self.at(*b)], self.pen)

    def moves(self, a: Point, b: Point) -> None:
        """Draw the arrow of something that moves."""
        self.marks += leader([self.at(*a), self.at(*b)], self.bold)

    def say(
        self, x: float, y: float, text: str, *, anchor: str = "start", bold: bool = False
    ) -> None:
        """Set words from their first baseline."""
        size = WORD * self.f.unit
        self.marks += label(*self.at(x, y), text.split("\n"), size, anchor=anchor, bold=bold)

    def width(self, text: str, *, bold: bool = False) -> float:
        """Return how wide words are set, the widest line of several, in the drawing's lengths."""
        return widest(text.split("\n"), WORD * self.f.unit, bold) / self.u

    def across(self, x: float, crown: float, radius: float, half: float, depth: float) -> Across:
        """Return a seat across its shaft, placed on the page."""
        u = self.u
        return Across(*self.at(x, crown), radius * u, half * u, depth * u)


def dip(x: float, crown: float, radius: float, depth: float) -> list[Point]:
    """Return what a disc leaves in a shaft along it, from the left end of the cut to the right.

    Parameters
    ----------
    x
        The cutter's axis.
    crown
        Level of the crown.
    radius
        Radius of the cutter.
    depth
        Crown to floor, at most the cutter's radius.
    """
    turn = asin(sqrt(radius**2 - (radius - depth) ** 2) / radius)
    return arc((x, crown + depth - radius), radius, pi / 2 + turn, pi / 2 - turn, 40)
