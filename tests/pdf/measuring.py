"""The key gauge's paths read back from its finished PDF, and its sizes from the CSV files.

Sizes are read by the standard library, not through the package; paths from the content streams.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass, replace
from functools import cache
from math import hypot
from typing import Any

import pikepdf

from keyseats.build import document_bytes, file_name
from keyseats.lengths import read_fraction
from keyseats.load import Tables
from keyseats.page import Document
from keyseats.paths import tables_dir
from keyseats.sheets import find
from pdf.reading import ReadPage, read

INCH, MM = 72.0, 72 / 25.4
CLOSE = 0.05 * MM
LINE = 0.25 * MM
PAPERS = ("Letter", "A4")
# Sheet, page of it, unit of its tables.
PLAIN = (("key-gauge-inch", 0, "in"), ("key-gauge-metric", 0, "mm"))
HALF_MOON = (
    ("key-gauge-inch", 1, "in"),
    ("key-gauge-inch", 2, "in"),
    ("key-gauge-metric", 1, "mm"),
)
PAGES = [(sheet, page) for sheet, page, _ in (*PLAIN, *HALF_MOON)]
Point = tuple[float, float]


@dataclass(frozen=True)
class Path:
    """A path as the file has it, in points from the page's top left corner.

    ``parts`` are the closed paths that it is made of, if they are several.
    """

    points: tuple[Point, ...]
    curves: tuple[tuple[Point, Point, Point, Point], ...]
    painted: str
    grey: float
    weight: float
    parts: tuple[Path, ...] = ()

    @property
    def x0(self) -> float:
        return min(p[0] for p in self.points)

    @property
    def x1(self) -> float:
        return max(p[0] for p in self.points)

    @property
    def top(self) -> float:
        return min(p[1] for p in self.points)

    @property
    def foot(self) -> float:
        return max(p[1] for p in self.points)

    @property
    def wide(self) -> float:
        return self.x1 - self.x0

    @property
    def high(self) -> float:
        return self.foot - self.top


def along(curve: tuple[Point, Point, Point, Point], t: float) -> Point:
    """Return a point of a cubic Bezier curve."""
    a, b, c, d = (1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t**2, t**3
    p, q, r, s = curve
    return (a * p[0] + b * q[0] + c * r[0] + d * s[0], a * p[1] + b * q[1] + c * r[1] + d * s[1])


@cache
def made(name: str, paper: str) -> tuple[Document, bytes]:
    sheet = next(s for s in find() if s.name == name)
    pages = tuple(sheet.pages(Tables(tables_dir()), paper))
    document = Document(file_name(name, paper), sheet.title, sheet.title, paper, pages)
    return document, document_bytes(document)


@cache
def words(name: str, paper: str) -> tuple[ReadPage, ...]:
    return tuple(read(made(name, paper)[1]))


def multiplied(m: list[float], n: list[float]) -> list[float]:
    return [
        m[0] * n[0] + m[1] * n[2],
        m[0] * n[1] + m[1] * n[3],
        m[2] * n[0] + m[3] * n[2],
        m[2] * n[1] + m[3] * n[3],
        m[4] * n[0] + m[5] * n[2] + n[4],
        m[4] * n[1] + m[5] * n[3] + n[5],
    ]


@cache
def paths(name: str, paper: str) -> tuple[tuple[Path, ...], ...]:
    """Return every painted path of every page."""
    with pikepdf.open(io.BytesIO(made(name, paper)[1])) as pdf:
        return tuple(tuple(page_paths(page)) for page in pdf.pages)


def page_paths(page: Any) -> list[Path]:
    height = float(page.mediabox[3])
    state: list[Any] = [[1.0, 0.0, 0.0, 1.0, 0.0, 0.0], 0.0, 1.0]
    kept: list[list[Any]] = []
    points: list[Point] = []
    curves: list[tuple[Point, Point, Point, Point]] = []
    parts: list[tuple[int, int]] = []
    found = []
    stream: Any = pikepdf.parse_content_stream(page)
    for operands, operator in stream:
        sign = str(operator)
        if sign in ("m", "l", "c", "re"):
            n = [float(o) for o in operands]
            if sign == "re":
                x, y, w, h = n
                n = [x, y, x + w, y, x + w, y + h, x, y + h]
            if sign in ("m", "re"):
                parts.append((len(points), len(curves)))
            m = state[0]
            here = [
                (m[0] * x + m[2] * y + m[4], height - (m[1] * x + m[3] * y + m[5]))
                for x, y in zip(n[::2], n[1::2], strict=True)
            ]
            if sign == "c":
                curve = (points[-1], here[0], here[1], here[2])
                curves.append(curve)
                points += [along(curve, k / 24) for k in range(1, 25)]
            else:
                points += here
        elif sign == "q":
            kept.append(list(state))
        elif sign == "Q":
            state = kept.pop()
        elif sign == "cm":
            state[0] = multiplied([float(o) for o in operands], state[0])
        elif sign == "g":
            state[1] = float(operands[0])
        elif sign == "w":
            state[2] = float(operands[0])
        elif sign in ("S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "n"):
            if points and sign != "n":
                whole = Path(tuple(points), tuple(curves), sign.lower(), state[1], state[2])
                found.append(replace(whole, parts=parted(whole, parts)))
            points, curves, parts = [], [], []
    return found


def parted(path: Path, starts: list[tuple[int, int]]) -> tuple[Path, ...]:
    """Return the paths that begin at these of a path's points and curves, if they are several."""
    if len(starts) < 2:
        return ()
    ends = [*starts[1:], (len(path.points), len(path.curves))]
    return tuple(
        replace(path, points=path.points[p:q], curves=path.curves[c:d])
        for (p, c), (q, d) in zip(starts, ends, strict=True)
    )


def rings(name: str, paper: str, page: int) -> list[tuple[Path, Path]]:
    """Return the inside and the outside edge of each outline, down the page and across it.

    An outline is one black path of two, one round the other, and what is inside both is not filled.
    """
    black = [p for p in paths(name, paper)[page] if p.painted == "f*" and p.grey == 0]
    found = []
    for path in black:
        if len(path.parts) == 2:
            inner, outer = sorted(path.parts, key=lambda p: p.wide * p.high)
            if outer.x0 < inner.x0 and inner.x1 < outer.x1 and outer.top < inner.top:
                found.append((inner, outer))
    assert len(found) >= 16
    return sorted(found, key=lambda r: (round(r[0].foot, 1), r[0].x0))


def outlines(name: str, paper: str, page: int) -> list[Path]:
    """Return the inside edges of a page's outlines, down the page and across it."""
    return [inner for inner, _ in rings(name, paper, page)]


def strokes(name: str, paper: str, page: int) -> list[Path]:
    """Return a page's straight strokes: rules, bars and ticks."""
    return [p for p in paths(name, paper)[page] if p.painted == "s" and len(p.points) == 2]


def rows(table: str) -> list[dict[str, str]]:
    with (tables_dir() / f"{table}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def size(text: str, unit: str) -> float:
    """Return a printed size in points; fractions of an inch carry their unit in the tables."""
    return float(read_fraction(text.removesuffix(" in"))) * (INCH if unit == "in" else MM)


def half_moon_sizes(unit: str) -> dict[str, tuple[float, ...]]:
    """Return width, height and diameter of the keys that the gauge shows. [pt]"""
    if unit == "in":
        found = [r for r in rows("inch_half_moon_keys") if r["series"] == "standard"]
        name, height = "key", "height_most"
    else:
        found = [r for r in rows("metric_half_moon_keys") if r["standard"] == "ISO 3912"]
        name, height = "designation", "height"
    return {
        in_print(r[name]): (
            size(r["width"], unit),
            size(r[height], unit),
            size(r["diameter"], unit),
        )
        for r in found
    }


def in_print(name: str) -> str:
    """Return a key's name as pages have it; the tables have what is typed."""
    return name.replace(" x ", " × ")


def least_heights(unit: str) -> dict[str, float]:
    """Return the least height of the half-moon keys that the gauge shows. [pt]"""
    if unit == "in":
        return {r["key"]: size(r["height_least"], unit) for r in rows("inch_half_moon_keys")}
    return {
        in_print(r["designation"]): size(r["height"], unit) + float(r["height_minus"]) * MM
        for r in rows("metric_half_moon_keys")
        if r["standard"] == "ISO 3912"
    }


def plain_sizes(unit: str) -> list[tuple[float, list[float]]]:
    """Return width and heights of the plain keys for shafts to 2 in and over, or 50 mm. [pt]"""
    if unit == "in":
        found = [r for r in rows("inch_plain_keys") if size(r["shaft_over"], "in") < 2 * INCH]
        heights = [[r["height_square"], r["height_rectangular"]] for r in found]
    else:
        found = [
            r
            for r in rows("metric_plain_keys")
            if r["standard"] == "ISO/R 773" and float(r["shaft_over"]) < 50
        ]
        heights = [[r["height"]] for r in found]
    return [
        (size(r["width"], unit), [size(h, unit) for h in high if h])
        for r, high in zip(found, heights, strict=True)
    ]


def apart(a: tuple[float, ...], b: tuple[float, ...]) -> float:
    """Return the clear space between two boxes, nought where they meet."""
    return hypot(max(a[0] - b[2], b[0] - a[2], 0), max(a[1] - b[3], b[1] - a[3], 0))
