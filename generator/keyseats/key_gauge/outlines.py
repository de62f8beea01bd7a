"""Outlines of keys at true scale. The white inside the line is the key; the line stands outside."""

from __future__ import annotations

from fractions import Fraction
from math import asin, pi, sqrt

from keyseats.drawing import curve
from keyseats.page import MM, Block, Shape
from keyseats.palette import INK
from keyseats.seat import Key
from keyseats.setting import box

# Points to a unit of length: what true scale means.
POINTS = {"in": 72.0, "mm": MM}
# The line as it is seen, all of it outside the key's size. [pt]
LINE = 0.25 * MM
Path = tuple[tuple[str | float, ...], ...]


def points(value: Fraction, unit: str) -> float:
    """Return a length as it is printed at true scale. [pt]"""
    return float(value) * POINTS[unit]


def height_of_key(key: Key) -> float:
    """Return a key's tabled height at true scale. [pt]"""
    height = key.nominal_height
    assert height is not None
    return points(height.value, height.unit)


def width_of_key(key: Key) -> float:
    """Return a key's width at true scale. [pt]"""
    return points(key.width.value, key.width.unit)


def side(x: float, floor: float, key: Key) -> Block:
    """Return a half-moon key's side view, flat top up, centred on ``x``, its foot on ``floor``."""
    assert key.diameter is not None
    assert key.nominal_height is not None
    radius = points(key.diameter.value, key.diameter.unit) / 2
    centre, rise = (x, floor - radius), height_of_key(key) - radius
    paths = (_half_moon(centre, radius + more, rise + more) for more in (LINE, 0.0))
    alt = f"Side view of half-moon keys of {key.diameter.text} {key.diameter.unit} diameter, 1 : 1"
    return _outline(*paths, alt=alt, rows=key.diameter.rows + key.nominal_height.rows)


def _half_moon(centre: tuple[float, float], radius: float, rise: float) -> Path:
    """Return the path of a circle cut by a flat that stands ``rise`` over its centre."""
    start, half = -asin(rise / radius), sqrt(radius**2 - rise**2)
    corner = (centre[0] + half, centre[1] - rise)
    return (("M", *corner), *curve(centre, radius, start, pi - start), ("Z",))


def section(x: float, floor: float, key: Key) -> Block:
    """Return a key's end view, width by height, centred on ``x``, its foot on ``floor``."""
    assert key.nominal_height is not None
    half = width_of_key(key) / 2
    alt = f"End view of the {key.in_print} key, 1 : 1"
    rows = key.width.rows + key.nominal_height.rows
    return _boxed(x - half, floor - height_of_key(key), x + half, floor, alt, rows)


def strip(x: float, middle: float, key: Key, long: float) -> Block:
    """Return a strip as wide as a key, from ``x`` on, its middle on ``middle``."""
    half = width_of_key(key) / 2
    alt = f"Strip {key.width.text} {key.width.unit} wide, 1 : 1"
    return _boxed(x, middle - half, x + long, middle + half, alt, key.width.rows)


def _boxed(x1: float, y1: float, x2: float, y2: float, alt: str, rows: tuple[str, ...]) -> Block:
    outer = box(x1 - LINE, y1 - LINE, x2 + LINE, y2 + LINE)
    return _outline(outer, box(x1, y1, x2, y2), alt=alt, rows=rows)


def _outline(outer: Path, inner: Path, *, alt: str, rows: tuple[str, ...]) -> Block:
    """Return an outline whose inside edge is the size.

    The line is one filled path, its outer edge and then the size itself, and a path within another
    is left white. So the path in the file and the edge that is seen are one and the same, and no
    renderer moves a side to whole pixels, as it may a stroke.
    """
    ring = Shape((*outer, *inner), fill=INK)
    return Block("Figure", (ring,), alt=alt, rows=tuple(dict.fromkeys(rows)))
