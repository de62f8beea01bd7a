"""Graphs read back from their finished PDF: what is stroked, and what the scales say.

Paths come from the content streams of the forms; values from the words that stand at the ticks.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from math import ceil, hypot
from statistics import fmean
from typing import Any

import pikepdf

from pdf.measuring import Path, Point, made, multiplied, words
from pdf.reading import Word

PAPERS = ("Letter", "A4", "Tabloid", "A3")
SHEETS = ("wall-graphs-inch", "wall-graphs-metric")


@dataclass(frozen=True)
class Stroke:
    """A path of a graph, in points from the page's top left corner."""

    points: tuple[Point, ...]
    weight: float
    dashed: bool
    filled: bool

    @property
    def wide(self) -> float:
        return max(p[0] for p in self.points) - min(p[0] for p in self.points)

    @property
    def high(self) -> float:
        return max(p[1] for p in self.points) - min(p[1] for p in self.points)

    @property
    def middle(self) -> Point:
        return fmean(p[0] for p in self.points), fmean(p[1] for p in self.points)


@dataclass(frozen=True)
class Ruled:
    """A scale as a reader takes it: places on the page, and the values written there."""

    places: tuple[float, ...]
    values: tuple[float, ...]

    @property
    def pitch(self) -> float:
        """Return the points that one unit takes, below nought where values rise toward the top."""
        x, y = fmean(self.values), fmean(self.places)
        pairs = list(zip(self.values, self.places, strict=True))
        return sum((v - x) * (p - y) for v, p in pairs) / sum((v - x) ** 2 for v, _ in pairs)

    def at(self, value: float) -> float:
        """Return the place of a value by the line that fits the ticks best."""
        return fmean(self.places) + (value - fmean(self.values)) * self.pitch

    def value(self, place: float) -> float:
        return fmean(self.values) + (place - fmean(self.places)) / self.pitch


@cache
def strokes(name: str, paper: str, page: int) -> tuple[Stroke, ...]:
    """Return what the one graph of a page strokes and fills."""
    with pikepdf.open(io.BytesIO(made(name, paper)[1])) as pdf:
        sheet = pdf.pages[page]
        height = float(sheet.mediabox[3])
        placed = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0]
        stream: Any = pikepdf.parse_content_stream(sheet)
        found: list[Stroke] = []
        for operands, operator in stream:
            if str(operator) == "cm":
                placed = [float(o) for o in operands]
            elif str(operator) == "Do":
                form: Any = sheet.Resources.XObject[str(operands[0])]
                assert placed[:4] == [1, 0, 0, 1], "a graph is neither scaled nor turned"
                found += _stroked(form, placed, height)
        return tuple(found)


def _stroked(form: Any, placed: list[float], height: float) -> Iterator[Stroke]:
    own = [float(n) for n in form.get("/Matrix", [1, 0, 0, 1, 0, 0])]
    state: list[Any] = [multiplied(own, placed), 1.0, False]
    kept: list[list[Any]] = []
    points: list[Point] = []
    for operands, operator in pikepdf.parse_content_stream(form):
        sign = str(operator)
        if sign in ("m", "l"):
            x, y = (float(o) for o in operands)
            m = state[0]
            points.append((m[0] * x + m[2] * y + m[4], height - (m[1] * x + m[3] * y + m[5])))
        elif sign == "q":
            kept.append(list(state))
        elif sign == "Q":
            state = kept.pop()
        elif sign == "cm":
            state[0] = multiplied([float(o) for o in operands], state[0])
        elif sign == "w":
            state[1] = float(operands[0])
        elif sign == "d":
            state[2] = len(operands[0]) > 0
        elif sign in ("S", "f", "B", "n", "s", "b"):
            if points and sign != "n":
                # A tick is painted as a filled path, though two points enclose nothing.
                yield Stroke(tuple(points), state[1], state[2], sign != "S" and len(points) > 2)
            points = []


def solid(name: str, paper: str, page: int) -> list[Stroke]:
    return [s for s in strokes(name, paper, page) if not s.dashed and not s.filled]


def field(name: str, paper: str, page: int) -> tuple[float, float, float, float]:
    """Return left, top, right and foot of the field: the axes at its left and its foot."""
    straight = [s for s in solid(name, paper, page) if len(s.points) == 2]
    thin = min(s.weight for s in straight)
    axes = [s for s in straight if s.weight < thin + 0.001]
    left = max((s for s in axes if s.wide < 0.01), key=lambda s: (s.high, -s.middle[0]))
    foot = max((s for s in axes if s.high < 0.01), key=lambda s: (s.wide, s.middle[1]))
    return (
        left.middle[0],
        min(p[1] for p in left.points),
        max(p[0] for p in foot.points),
        foot.middle[1],
    )


def ticks(name: str, paper: str, page: int, side: str) -> list[float]:
    """Return where the long ticks of a side stand, from the left or from the top."""
    left, _, _, foot = field(name, paper, page)
    level = side == "left"
    edge = left if level else foot
    found = []
    for stroke in solid(name, paper, page):
        if len(stroke.points) != 2:
            continue
        across, along = (0, 1) if level else (1, 0)
        ends = sorted(p[across] for p in stroke.points)
        out = ends[0] < edge - 1 if level else ends[1] > edge + 1
        near = min(abs(e - edge) for e in ends) < 0.05
        if out and near and abs(stroke.points[0][along] - stroke.points[1][along]) < 0.01:
            found.append((ends[1] - ends[0], stroke.points[0][along]))
    longest = max(length for length, _ in found)
    return sorted(place for length, place in found if length > longest - 0.01)


def ruled(name: str, paper: str, page: int, side: str) -> Ruled:
    """Return a scale by its decimal labels; each must stand at the middle of its tick."""
    left, top, right, foot = field(name, paper, page)
    places, values = [], []
    marks = ticks(name, paper, page, side)
    for word in words(name, paper)[page].words:
        middle = word.baseline - word.size * 0.365
        if side == "left":
            if word.x1 >= left or not top - 2 < middle < foot + 2:
                continue
            place = middle
        else:
            place = (word.x0 + word.x1) / 2
            if not foot < middle < foot + word.size * 2 or not left - 2 < place < right + 2:
                continue
        if not word.text.strip().replace(".", "", 1).isdigit():
            continue
        nearest = min(marks, key=lambda m: abs(m - place))
        assert abs(nearest - place) < 0.75, (word, nearest)
        places.append(nearest)
        values.append(float(word.text))
    assert len(set(places)) == len(places) >= 3
    return Ruled(tuple(places), tuple(values))


def inside(name: str, paper: str, page: int) -> list[Word]:
    """Return the words that stand in the field or just beside it."""
    left, top, right, foot = field(name, paper, page)
    return [
        w
        for w in words(name, paper)[page].words
        if w.text.strip() and left < w.x0 < right + w.size * 3 and top < w.baseline < foot - 1
    ]


def runs_through(stroke: Stroke | Path, box: tuple[float, float, float, float]) -> bool:
    """Return whether a stroke, half its weight with it, enters a box."""
    half = stroke.weight / 2
    for (x1, y1), (x2, y2) in pairwise(stroke.points):
        if max(x1, x2) < box[0] - half or min(x1, x2) > box[2] + half:
            continue
        if max(y1, y2) < box[1] - half or min(y1, y2) > box[3] + half:
            continue
        steps = max(1, ceil(hypot(x2 - x1, y2 - y1)))
        for n in range(steps + 1):
            x, y = x1 + (x2 - x1) * n / steps, y1 + (y2 - y1) * n / steps
            if box[0] - half < x < box[2] + half and box[1] - half < y < box[3] + half:
                return True
    return False
