"""The slips in depth read back from their finished PDF: keys, hubs, limits, and both scales."""

from __future__ import annotations

import re
from itertools import pairwise

from keyseats.palette import BODY
from pdf.graphed import Ruled
from pdf.measuring import Path, paths, strokes, words

# A coordinate is written to a thousandth of a point.
NEAR = 0.002
_FIGURE = re.compile(r"\d*\.?\d+")


def keys(name: str, paper: str, page: int) -> list[Path]:
    """Return the bodies of the keys, from the left."""
    found = [
        p
        for p in paths(name, paper)[page]
        if p.painted in ("b", "b*") and abs(p.grey - BODY) < 0.001
    ]
    return sorted(found, key=lambda p: p.x0)


def axis(name: str, paper: str, page: int, side: str) -> Path:
    """Return the longest upright line past the keys on one side."""
    bodies = keys(name, paper, page)
    left, right = bodies[0].x0, bodies[-1].x1
    upright = [
        s
        for s in strokes(name, paper, page)
        if s.wide < NEAR and (s.x0 < left if side == "left" else s.x1 > right)
    ]
    return max(upright, key=lambda s: s.high)


def heavy(name: str, paper: str, page: int, side: str) -> Path:
    """Return the heavy piece of a scale."""
    line = axis(name, paper, page, side)
    beside = [
        s
        for s in strokes(name, paper, page)
        if s.wide < NEAR and abs(s.x0 - line.x0) < NEAR and s.weight > 3 * line.weight
    ]
    (only,) = beside
    return only


def ticks(name: str, paper: str, page: int, side: str) -> list[Path]:
    """Return the ticks of a scale, long and short."""
    line = axis(name, paper, page, side)
    return [
        s
        for s in strokes(name, paper, page)
        if s.high < NEAR
        and s.wide < 110
        and abs((s.x1 if side == "left" else s.x0) - line.x0) < NEAR
    ]


def scale(name: str, paper: str, page: int, side: str) -> Ruled:
    """Return a scale by its figures; each must stand at the middle of a long tick."""
    line, marks = axis(name, paper, page, side), ticks(name, paper, page, side)
    usual = [m for m in marks if abs(m.weight - line.weight) < 0.001]
    longest = max(m.wide for m in usual)
    long = [m.top for m in usual if m.wide > longest - NEAR]
    places, values = [], []
    for word in words(name, paper)[page].words:
        past = word.x1 < line.x0 if side == "left" else word.x0 > line.x0
        if not past or not _FIGURE.fullmatch(word.text.strip()):
            continue
        middle = word.baseline - word.size * 0.365
        tick = min(long, key=lambda t: abs(t - middle))
        assert abs(tick - middle) < 0.1, word
        places.append(tick)
        values.append(float(word.text))
    assert len(set(places)) == len(places) == len(long) >= 3
    return Ruled(tuple(places), tuple(values))


def levels(name: str, paper: str, page: int) -> list[Path]:
    """Return the lines that run level past all keys within the scales."""
    bodies, left = keys(name, paper, page), axis(name, paper, page, "left").x0
    right = axis(name, paper, page, "right").x0
    return [
        s
        for s in strokes(name, paper, page)
        if s.high < NEAR
        and left - NEAR <= s.x0 < bodies[0].x0
        and bodies[-1].x1 < s.x1 <= right + NEAR
    ]


def roofs(name: str, paper: str, page: int) -> list[float]:
    """Return the level of each hub's floor over its key, from the left."""
    found = []
    for key in keys(name, paper, page):
        here = {
            round(a[1], 3)
            for p in paths(name, paper)[page]
            if p.painted == "s" and len(p.points) > 20
            for a, b in pairwise(p.points)
            if abs(a[0] - key.x0) < NEAR and abs(b[0] - key.x1) < NEAR and abs(a[1] - b[1]) < NEAR
        }
        # The floor of the seat is the same kind of line, at the key's foot.
        (roof,) = [y for y in here if abs(y - key.foot) > 1]
        assert roof < key.foot
        found.append(roof)
    return found


def under(name: str, paper: str, page: int, key: Path) -> list[str]:
    """Return the figures that stand under a key on its middle, from the top."""
    middle = (key.x0 + key.x1) / 2
    found = [
        w
        for w in words(name, paper)[page].words
        if abs((w.x0 + w.x1) / 2 - middle) < 0.5 and _FIGURE.fullmatch(w.text.strip())
    ]
    return [w.text.strip() for w in sorted(found, key=lambda w: w.baseline)]
