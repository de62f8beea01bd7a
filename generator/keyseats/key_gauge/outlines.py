"""Outlines of keys at true scale. The white inside the line is the key; the line stands outside."""

from __future__ import annotations

from fractions import Fraction
from math import asin, pi, sqrt

from keyseats.drawing import curve
from keyseats.page import MM, Block, Shape
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


def flat_length(key: Key) -> float:
    """Return the length of a half-moon key's flat top, by geometry, at true scale. [pt]"""
    assert key.diameter is not None
    radius = points(key.diameter.value, key.diameter.unit) / 2
    rise = radius - height_of_key(key)
    return 2 * sqrt(radius**2 - rise**2)


def side(x: float, floor: float, key: Key) -> Block:
    """Return a half-moon key's side view, flat top up, centred on ``x``, its foot on ``floor``."""
    assert key.diameter is not None
    assert key.nominal_height is not None
    radius, height = points(key.diameter.value, key.diameter.unit) / 2, height_of_key(key)
    centre = (x, floor - radius)
    start = asin((radius - height) / radius)
    half = flat_length(key) / 2
    path = (
        ("M", x + half, floor - height),
        *curve(centre, radius, start, pi - start),
        ("Z",),
    )
    alt = f"Side view of half-moon keys of {key.diameter.text} {key.diameter.unit} diameter, 1 : 1"
    return _outline(path, alt, key.diameter.rows + key.nominal_height.rows)


def section(x: float, floor: float, key: Key) -> Block:
    """Return a key's end view, width by height, centred on ``x``, its foot on ``floor``."""
    assert key.nominal_height is not None
    half = width_of_key(key) / 2
    path = box(x - half, floor - height_of_key(key), x + half, floor)
    alt = f"End view of the {key.designation} key, 1 : 1"
    return _outline(path, alt, key.width.rows + key.nominal_height.rows)


def strip(x: float, middle: float, key: Key, long: float) -> Block:
    """Return a strip as wide as a key, from ``x`` on, its middle on ``middle``."""
    half = width_of_key(key) / 2
    path = box(x, middle - half, x + long, middle + half)
    alt = f"Strip {key.width.text} {key.width.unit} wide, 1 : 1"
    return _outline(path, alt, key.width.rows)


def _outline(path: Path, alt: str, rows: tuple[str, ...]) -> Block:
    """Return an outline whose inside edge is the size.

    A line of twice the weight is drawn on the size itself and the white laid over its inner half,
    so that the path in the file and the edge that is seen are one and the same.
    """
    marks = (Shape(path, stroke=2 * LINE), Shape(path, fill=1.0))
    return Block("Figure", marks, alt=alt, rows=tuple(dict.fromkeys(rows)))
