"""The curves of arc height, read back: their shafts, their widths and their names."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from math import sqrt

import pytest

from keyseats import typeface
from keyseats.lengths import read_fraction
from keyseats.page import Block, Text
from pdf.graphed import Ruled, Stroke, field, ruled, solid, ticks
from pdf.measuring import words

# What stands under the long ticks, the house's choice of shafts.
INCH_SHAFTS = "1/4 3/8 1/2 5/8 3/4 7/8 1 1-1/4 1-1/2 1-3/4 2"
# A coordinate is written to a millionth of a point; a place, to a thousandth.
CLOSE = 0.01


def arc(shaft: float, width: float) -> float:
    """Height of arc, US Navy, Machinery Repairman, ch. 7: R - sqrt(R^2 - (W/2)^2)."""
    return shaft / 2 - sqrt((shaft / 2) ** 2 - (width / 2) ** 2)


def shafts(name: str, paper: str) -> Ruled:
    """Return the shafts' scale; in inches its fractions are read piece by piece."""
    if name == "wall-graphs-metric":
        return ruled(name, paper, 0, "bottom")
    marks = ticks(name, paper, 0, "bottom")
    left, _, _, foot = field(name, paper, 0)
    under = [
        w
        for w in words(name, paper)[0].words
        if foot + w.size * 0.8 < w.baseline < foot + w.size * 2.2 and w.x1 > left - w.size
    ]
    found = []
    for mark, shaft in zip(marks, INCH_SHAFTS.split(), strict=True):
        near = sorted(
            (w for w in under if min(marks, key=lambda m, w=w: abs(m - (w.x0 + w.x1) / 2)) == mark),
            key=lambda w: w.x0,
        )
        text = "".join(w.text.strip() for w in near if not w.text.strip().isalpha())
        assert text == shaft.replace("-", ""), (text, shaft)
        assert abs((near[-1].x1 + near[0].x0) / 2 - mark) < 1 or mark == marks[0]
        found.append(float(read_fraction(shaft)))
    return Ruled(tuple(marks), tuple(found))


def curves(name: str, paper: str) -> list[tuple[float, Stroke]]:
    """Return the curves of the first page, each with the width that its points tell."""
    across, up = shafts(name, paper), ruled(name, paper, 0, "left")
    grain = 1 / 32 if name == "wall-graphs-inch" else 0.5
    found = []
    for stroke in solid(name, paper, 0):
        if len(stroke.points) < 50:
            continue
        x, y = stroke.points[0]
        shaft, high = across.value(x), up.value(y)
        # The chord of an arc of this height.
        chord = 2 * sqrt(shaft * high - high**2)
        width = round(chord / grain) * grain
        assert chord == pytest.approx(width, rel=1e-4)
        found.append((width, stroke))
    return found


def at(name: str, paper: str, width: float, shaft: float, *, heavy: bool) -> float:
    """Return the arc height that a reader takes from a curve at a shaft."""
    across, up = shafts(name, paper), ruled(name, paper, 0, "left")
    drawn = [s for w, s in curves(name, paper) if w == width]
    line = max(drawn, key=lambda s: s.weight) if heavy else min(drawn, key=lambda s: s.weight)
    x = across.at(shaft)
    for (x1, y1), (x2, y2) in pairwise(line.points):
        if x1 - CLOSE <= x <= x2 + CLOSE:
            return up.value(y1 + (y2 - y1) * (x - x1) / (x2 - x1))
    raise AssertionError(f"no curve {width} wide at {shaft}")


def names(blocks: tuple[Block, ...]) -> Iterator[tuple[float, float, float, str]]:
    """Yield the bold sizes of a page's graph: middle, type size and words."""
    graph = next(block for block in blocks if any(block.graphs()))
    for item in graph.items:
        if isinstance(item, Block):
            texts, whole = list(item.texts()), "".join(item.words())
        elif isinstance(item, Text):
            texts, whole = [item], item.text
        else:
            continue
        # Widths are fractions, or whole or half millimetres; an arc height is none of these.
        if texts[0].bold and re.fullmatch(r"\d+/\d+|\d+|\d+\.5", whole):
            size = max(t.size for t in texts)
            start = min(t.x for t in texts)
            end = max(t.x + typeface.width(t.text, t.size, True) for t in texts)
            yield (start + end) / 2, max(t.y for t in texts) - size * 0.365, size, whole
