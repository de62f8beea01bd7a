"""Keyseat geometry on plain numbers, one unit per call; exact but for the square root.

Every function takes exact numbers (`fractions.Fraction` or int), all in one unit, and returns a
`Fraction` in the same unit. A square root is carried to 40 decimals.
"""

from __future__ import annotations

from fractions import Fraction
from math import isqrt

__all__ = [
    "arc_height",
    "face_touch_travel",
    "floor_to_opposite_side",
    "largest_neck",
    "opening",
    "ramp",
    "rim_touch_travel",
    "root",
]

_SCALE = 10**40


def root(square: Fraction) -> Fraction:
    """Return a square root, exact where it is rational in 40 decimals, else cut off there.

    Parameters
    ----------
    square
        The square. [length squared]

    Returns
    -------
    Fraction
        Its root, low by less than 1e-40. [length]

    Raises
    ------
    ValueError
        If the square is below zero.
    """
    square = Fraction(square)
    if square < 0:
        raise ValueError(f"no square root of {float(square)}")
    top, bottom = isqrt(square.numerator), isqrt(square.denominator)
    if top * top == square.numerator and bottom * bottom == square.denominator:
        return Fraction(top, bottom)
    return Fraction(isqrt(square.numerator * _SCALE**2 // square.denominator), _SCALE)


def arc_height(diameter: Fraction, width: Fraction) -> Fraction:
    """Return the radial distance from the crown down to the seat's edge.

    Parameters
    ----------
    diameter
        Shaft or bore diameter. [length]
    width
        Seat width, wall to wall. [length]

    Returns
    -------
    Fraction
        Crown to edge, R - sqrt(R^2 - (W/2)^2). [length]

    Raises
    ------
    ValueError
        If the width is not under the diameter.

    References
    ----------
    Height of arc in US Navy, Machinery Repairman, ch. 7; Y in ASME B17.1.
    """
    diameter, width = Fraction(diameter), Fraction(width)
    if not 0 < width < diameter:
        raise ValueError(f"a width of {float(width)} does not fit a diameter of {float(diameter)}")
    return (diameter - root(diameter**2 - width**2)) / 2


def floor_to_opposite_side(diameter: Fraction, depth_from_crown: Fraction) -> Fraction:
    """Return the distance from the seat's floor to the other side of the shaft.

    Parameters
    ----------
    diameter
        Shaft diameter as measured. [length]
    depth_from_crown
        Crown to floor. [length]
    """
    return Fraction(diameter) - Fraction(depth_from_crown)


def face_touch_travel(diameter: Fraction, width: Fraction, paper: Fraction) -> Fraction:
    """Return the travel along the spindle from a face touch to the shaft's centreline.

    Parameters
    ----------
    diameter
        Shaft diameter as measured. [length]
    width
        Cutter width as measured. [length]
    paper
        Paper or feeler between face and shaft; zero for a bare touch. [length]

    References
    ----------
    US Army TC 9-524, ch. 8: half the shaft plus half the cutter.
    """
    return Fraction(diameter) / 2 + Fraction(width) / 2 + Fraction(paper)


def rim_touch_travel(diameter: Fraction, end_mill: Fraction, paper: Fraction) -> Fraction:
    """Return the travel across the spindle from a rim touch, or an edge finder's, to centre.

    Parameters
    ----------
    diameter
        Shaft diameter as measured. [length]
    end_mill
        End-mill or edge-finder tip diameter as measured. [length]
    paper
        Paper or feeler between rim and shaft. [length]

    References
    ----------
    US Army TC 9-524, ch. 8, for the end mill; common practice, no source, for the edge finder.
    """
    return Fraction(diameter) / 2 + Fraction(end_mill) / 2 + Fraction(paper)


def opening(cutter_diameter: Fraction, depth: Fraction) -> Fraction:
    """Return the length along the shaft that a half-moon seat opens at a level.

    Parameters
    ----------
    cutter_diameter
        Cutter diameter as measured. [length]
    depth
        Floor up to the level: depth from crown for the opening at the crown, depth at edge for
        the opening at the edge. [length]

    Raises
    ------
    ValueError
        If the level lies above the top of the cutter.
    """
    cutter_diameter, depth = Fraction(cutter_diameter), Fraction(depth)
    if not 0 <= depth <= cutter_diameter:
        raise ValueError(f"a depth of {float(depth)} is more than the cutter's diameter")
    return 2 * root(cutter_diameter * depth - depth**2)


def ramp(cutter_diameter: Fraction, depth_from_crown: Fraction) -> Fraction:
    """Return how far a disc cutter runs out beyond the full-depth length, at one end.

    Parameters
    ----------
    cutter_diameter
        Cutter diameter as measured. [length]
    depth_from_crown
        Crown to floor. [length]
    """
    return opening(cutter_diameter, depth_from_crown) / 2


def largest_neck(cutter_diameter: Fraction, depth_at_edge: Fraction) -> Fraction:
    """Return the neck diameter that would touch the seat's edges at full depth.

    Parameters
    ----------
    cutter_diameter
        Cutter diameter as measured. [length]
    depth_at_edge
        Edge to floor, the most that the limits allow. [length]

    Returns
    -------
    Fraction
        Cutter diameter less twice the depth at edge; at or below zero no neck clears. [length]
    """
    return Fraction(cutter_diameter) - 2 * Fraction(depth_at_edge)
