"""The words of a graph, set as those of every page: at its ticks, at its curves, in its field."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from itertools import pairwise

from keyseats.drawing import Pen, arrow
from keyseats.frame import Frame
from keyseats.page import Block, Graph, Line, Mark, Shape
from keyseats.palette import PAPER
from keyseats.setting import box, set_width, words

Marks = list[Block | Mark]
Box = tuple[float, float, float, float]
CAP = 0.73
CURVE, PLAIN, TICK = 0.045, 0.16, 0.34


def steps(first: Fraction, last: Fraction, step: Fraction) -> tuple[Fraction, ...]:
    """Return the multiples of a step from one value to another."""
    low, high = -(-first // step), last // step
    return tuple(step * n for n in range(int(low), int(high) + 1))


def floats(values: Iterable[Fraction]) -> tuple[float, ...]:
    """Return exact values as the graph has them."""
    return tuple(float(value) for value in values)


def pen_for(f: Frame) -> Pen:
    """Return the weights of what is drawn over a graph."""
    u = f.unit
    return Pen(outline=u * 0.08, thin=u * 0.034, hatch=u * 0.024, arrow=u * 0.34, spacing=u * 0.25)


def beside_ticks(
    f: Frame, graph: Graph, side: str, named: Iterable[tuple[Fraction, str]], size: float
) -> Marks:
    """Return what the longer ticks of one side stand for."""
    marks: Marks = []
    gap = f.unit * (TICK + 0.16)
    for value, text in named:
        if side == "left":
            y = graph.at(graph.across[0], float(value))[1] + size * CAP / 2
            marks.append(words(graph.x - gap, y, text, size, anchor="end"))
            continue
        x = graph.at(float(value), graph.upright[0])[0]
        y = graph.y + graph.height + gap + size * CAP
        marks.append(words(x, y, text, size, anchor="middle"))
    return marks


def bare(x: float, y: float, text: str, size: float, *, bold: bool = False) -> Box:
    """Return the place that a text takes in the field, a little white with it. [pt]"""
    wide = set_width(text, size, bold)
    return (x - size * 0.15, y - size * 0.86, x + wide + size * 0.15, y + size * 0.16)


def on_paper(
    x: float, y: float, text: str, size: float, *, bold: bool = False, anchor: str = "start"
) -> Marks:
    """Return a text that stands in the field, the grid behind it taken away."""
    left = x - (set_width(text, size, bold) if anchor == "end" else 0)
    place = bare(left, y, text, size, bold=bold)
    return [Shape(box(*place), fill=PAPER), words(left, y, text, size, bold=bold)]


def path(points: list[tuple[float, float]], pen: Pen) -> Marks:
    """Return a broken line through points that ends in an arrow: what is read, not drawn."""
    dash = (pen.arrow * 0.45, pen.arrow * 0.3)
    marks: Marks = [Line(*a, *b, pen.thin, dash) for a, b in pairwise(points)]
    return [*marks, arrow(points[-1], points[-2], pen)]
