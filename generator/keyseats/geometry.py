"""Keyseat geometry on plain numbers, one unit per call; exact but for the square root.

Every function takes exact numbers (`fractions.Fraction` or int), all in one unit, and returns a
`Fraction` in the same unit. A square root is carried to 40 decimals.
"""

from __future__ import annotations

from fractions import Fraction
from math import isqrt

__all__ = [
    "arc_height",
    "end_mill_travel",
    "face_touch_travel",
    "floor_to_opposite_side",
    "largest_neck",
    "least_from_end",
    "least_from_shoulder",
    "opening",
    "place_from_end",
    "place_from_shoulder",
    "ramp",
    "rim_touch_travel",
    "root",
    "top_clearance",
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


def face_touch_travel(
    diameter: Fraction, width: Fraction, paper: Fraction, rim_above: Fraction = Fraction(0)
) -> Fraction:
    """Return the travel along the spindle from a face touch to the shaft's centreline.

    Parameters
    ----------
    diameter
        Shaft diameter as measured. [length]
    width
        Cutter width as measured. [length]
    paper
        Paper or feeler between face and shaft; zero for a bare touch. [length]
    rim_above
        How far the cutter's rim stays above the shaft's centre line; zero or less where it
        reaches past the widest point. [length]

    Raises
    ------
    ValueError
        If the rim stays above the crown, where it touches nothing.

    References
    ----------
    US Army TC 9-524, ch. 8: half the shaft plus half the cutter; geometry for a rim that stays
    above the centre line.
    """
    radius, above = Fraction(diameter) / 2, Fraction(rim_above)
    if above > radius:
        raise ValueError(f"a rim {float(above)} above the centre line passes over the shaft")
    touched = root(radius**2 - above**2) if above > 0 else radius
    return touched + Fraction(width) / 2 + Fraction(paper)


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


def place_from_end(distance: Fraction, cutter_diameter: Fraction, paper: Fraction) -> Fraction:
    """Return the travel along the shaft from a touch on its end face to the cutter's place.

    Parameters
    ----------
    distance
        End face to the middle of a half-moon seat, or to where a plain seat's full depth ends.
        [length]
    cutter_diameter
        Cutter diameter as measured; its rim touches with the axis at or below the crown. [length]
    paper
        Paper or feeler between rim and end face. [length]
    """
    return Fraction(distance) + Fraction(cutter_diameter) / 2 + Fraction(paper)


def place_from_shoulder(distance: Fraction, cutter_diameter: Fraction, paper: Fraction) -> Fraction:
    """Return the travel along the shaft, away from a touch on a shoulder, to the cutter's place.

    Parameters
    ----------
    distance
        Shoulder to the middle of a half-moon seat, or to where a plain seat's full depth ends.
        [length]
    cutter_diameter
        Cutter diameter as measured; its rim touches at the height of its axis. [length]
    paper
        Paper or feeler between rim and shoulder. [length]

    Returns
    -------
    Fraction
        Below zero where the cutter's axis cannot come so near to the shoulder. [length]
    """
    return Fraction(distance) - Fraction(cutter_diameter) / 2 - Fraction(paper)


def least_from_shoulder(cutter_diameter: Fraction) -> Fraction:
    """Return how near to a shoulder the cutter's axis can come: half the cutter.

    Parameters
    ----------
    cutter_diameter
        Cutter diameter as measured. [length]
    """
    return Fraction(cutter_diameter) / 2


def least_from_end(cutter_diameter: Fraction, depth_from_crown: Fraction) -> Fraction:
    """Return how near to an end face a half-moon seat's middle can come, and stay closed.

    Parameters
    ----------
    cutter_diameter
        Cutter diameter as measured. [length]
    depth_from_crown
        Crown to floor, the most that the limits allow. [length]

    Returns
    -------
    Fraction
        Half the opening at the crown, and half the cutter where it is let in past its axis.
        [length]
    """
    diameter = Fraction(cutter_diameter)
    return opening(diameter, min(Fraction(depth_from_crown), diameter / 2)) / 2


def end_mill_travel(length: Fraction, end_mill: Fraction) -> Fraction:
    """Return how far an end mill moves along to cut a seat of a length, round ends included.

    Parameters
    ----------
    length
        Seat length, end to end. [length]
    end_mill
        End-mill diameter as measured. [length]

    Raises
    ------
    ValueError
        If the seat is shorter than the end mill.
    """
    length, end_mill = Fraction(length), Fraction(end_mill)
    if length < end_mill:
        raise ValueError(f"a seat {float(length)} long is under the end mill, {float(end_mill)}")
    return length - end_mill


def top_clearance(hub_floor_to_opposite_side: Fraction, over_key: Fraction) -> Fraction:
    """Return the room between the top of the seated key and the hub's floor.

    Parameters
    ----------
    hub_floor_to_opposite_side
        Floor of the hub's keyway to the other side of the bore. [length]
    over_key
        Top of the seated key to the other side of the shaft. [length]

    Returns
    -------
    Fraction
        Below zero where the hub cannot go on. [length]
    """
    return Fraction(hub_floor_to_opposite_side) - Fraction(over_key)
