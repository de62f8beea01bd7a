"""Where a cutter, its neck, its collar or its holder meets the shaft, and a key its seat.

Plain exact numbers in one unit, as in `keyseats.geometry`, the only module that it imports.
"""

from __future__ import annotations

from fractions import Fraction

from keyseats.geometry import least_from_shoulder as half_the_cutter
from keyseats.geometry import root

__all__ = [
    "depth_where_holder_hits",
    "depth_where_key_sits",
    "depth_where_neck_rubs",
    "face_touch_reach",
    "least_from_shoulder",
    "lift",
    "rim_above_centre",
    "smallest_cutter_for_face_touch",
    "stand_off",
    "stand_off_at_end_face",
]


def stand_off(
    diameter: Fraction,
    width: Fraction,
    cutter_diameter: Fraction,
    depth_from_crown: Fraction,
    holder_radius: Fraction,
) -> Fraction:
    """Return how far a holder must stand off the cutter's face to clear the shaft at a depth.

    Parameters
    ----------
    diameter
        Shaft diameter as measured. [length]
    width
        Cutter width as measured. [length]
    cutter_diameter
        Cutter diameter as measured. [length]
    depth_from_crown
        Crown to floor, the most that the limits allow. [length]
    holder_radius
        Radius of the holder round the cutter's axis. [length]

    Returns
    -------
    Fraction
        Zero where the holder passes over the crown. [length]
    """
    radius = Fraction(diameter) / 2
    # Height of the holder's lowest line above the shaft's centre line.
    low = radius - Fraction(depth_from_crown) + Fraction(cutter_diameter) / 2 - holder_radius
    if low >= radius:
        return Fraction(0)
    half = root(radius**2 - low**2) if low > 0 else radius
    return max(Fraction(0), half - Fraction(width) / 2)


def stand_off_at_end_face(
    diameter: Fraction,
    width: Fraction,
    cutter_diameter: Fraction,
    holder_radius: Fraction,
) -> Fraction:
    """Return how far a holder must stand off where the cutter's rim touches the shaft's end face.

    Parameters
    ----------
    diameter, width, cutter_diameter, holder_radius
        As in `stand_off`. [length]

    Returns
    -------
    Fraction
        Zero for a holder that reaches no farther out than the cutter. [length]

    Notes
    -----
    The cutter's axis is level with the crown. The holder's lowest line is taken to be over the
    shaft, though it is still past the end: that is on the safe side by what the axis is set lower.
    """
    if holder_radius <= Fraction(cutter_diameter) / 2:
        return Fraction(0)
    # Level with the crown is as a cutter that is in by half its own diameter.
    level = Fraction(cutter_diameter) / 2
    return stand_off(diameter, width, cutter_diameter, level, holder_radius)


def least_from_shoulder(cutter_diameter: Fraction, holder_radius: Fraction | None) -> Fraction:
    """Return how near the axis of a disc or half-moon cutter can come to a shoulder.

    Parameters
    ----------
    cutter_diameter
        Cutter diameter as measured. [length]
    holder_radius
        Radius of the holder round the cutter's axis; None if it is not known. [length]

    Returns
    -------
    Fraction
        The larger of the two radii. [length]
    """
    least = half_the_cutter(cutter_diameter)
    return least if holder_radius is None else max(least, Fraction(holder_radius))


def depth_where_holder_hits(
    diameter: Fraction,
    width: Fraction,
    cutter_diameter: Fraction,
    holder_radius: Fraction,
    stands_off: Fraction,
) -> Fraction | None:
    """Return the depth from the crown at which a holder meets the shaft's side.

    Parameters
    ----------
    diameter, width, cutter_diameter, holder_radius
        As in `stand_off`. [length]
    stands_off
        How far the holder stands off the cutter's near face. [length]

    Returns
    -------
    Fraction or None
        Zero or less: before the cutter is on the crown; None: at no depth. [length]
    """
    radius = Fraction(diameter) / 2
    out = Fraction(width) / 2 + Fraction(stands_off)
    if out >= radius:
        return None
    return radius - root(radius**2 - out**2) + Fraction(cutter_diameter) / 2 - holder_radius


def depth_where_neck_rubs(cutter_diameter: Fraction, neck: Fraction) -> Fraction:
    """Return the depth at the edge at which a neck, or a collar, meets the edge.

    Parameters
    ----------
    cutter_diameter
        Cutter diameter as measured. [length]
    neck
        Diameter of the neck or the collar beside the cutter's face. [length]

    Returns
    -------
    Fraction
        Add the arc height for the depth from the crown. [length]
    """
    return (Fraction(cutter_diameter) - Fraction(neck)) / 2


def face_touch_reach(cutter_diameter: Fraction, collar: Fraction) -> Fraction:
    """Return how far a cutter's rim reaches out past the collar beside its free face.

    Parameters
    ----------
    cutter_diameter
        Cutter diameter as measured. [length]
    collar
        Collar diameter. [length]

    Returns
    -------
    Fraction
        A face touch at the widest point needs half the shaft. [length]
    """
    return (Fraction(cutter_diameter) - Fraction(collar)) / 2


def smallest_cutter_for_face_touch(diameter: Fraction, collar: Fraction) -> Fraction:
    """Return the cutter diameter that just reaches a shaft's widest point past a collar.

    Parameters
    ----------
    diameter
        Shaft diameter as measured. [length]
    collar
        Collar diameter. [length]
    """
    return Fraction(diameter) + Fraction(collar)


def rim_above_centre(diameter: Fraction, reach: Fraction) -> Fraction:
    """Return how far above the centre line a rim, or a tip, stays that reaches down from the crown.

    Parameters
    ----------
    diameter
        Shaft diameter as measured. [length]
    reach
        From the crown down to the rim or the tip's end. [length]

    Returns
    -------
    Fraction
        Zero where it reaches the widest point. [length]
    """
    return max(Fraction(0), Fraction(diameter) / 2 - Fraction(reach))


def lift(
    key_diameter: Fraction,
    key_height: Fraction,
    cutter_diameter: Fraction,
    depth_from_crown: Fraction,
) -> Fraction:
    """Return how far a half-moon key rides up off the floor of a seat cut by a smaller cutter.

    Parameters
    ----------
    key_diameter
        Diameter of the key's round. [length]
    key_height
        Height of the key, round to flat top. [length]
    cutter_diameter
        Cutter diameter as measured. [length]
    depth_from_crown
        Crown to floor. [length]

    Returns
    -------
    Fraction
        Zero where the cutter is of the key's diameter or over. [length]

    Notes
    -----
    The smaller arc climbs faster all the way out, so key and seat meet at the widest place where
    both exist: the seat's ends at the crown, or the key's own ends where its top lies lower.
    """
    key, cutter = Fraction(key_diameter) / 2, Fraction(cutter_diameter) / 2
    height, depth = min(Fraction(key_height), key), Fraction(depth_from_crown)
    if cutter >= key:
        return Fraction(0)
    let_in = min(depth, cutter)
    seat_ends = 2 * cutter * let_in - let_in**2
    key_ends = 2 * key * height - height**2
    if seat_ends <= key_ends:
        return max(Fraction(0), depth - (key - root(key**2 - seat_ends)))
    return max(Fraction(0), cutter - root(cutter**2 - key_ends) - height)


def depth_where_key_sits(
    key_diameter: Fraction,
    key_height: Fraction,
    cutter_diameter: Fraction,
    sits: Fraction,
) -> Fraction:
    """Return the depth of the seat that a half-moon key sits in: `lift` the other way round.

    Parameters
    ----------
    key_diameter, key_height, cutter_diameter
        As in `lift`. [length]
    sits
        From the crown down to the lowest line of the key's round. [length]

    Returns
    -------
    Fraction
        Crown to floor; the least that it can be if that is past the cutter's axis, since the seat
        is no longer there than above it. [length]
    """
    key, cutter = Fraction(key_diameter) / 2, Fraction(cutter_diameter) / 2
    height, down = min(Fraction(key_height), key), Fraction(sits)
    if cutter >= key or down <= 0:
        return down
    # Where key and seat meet: at the crown, or at the key's own ends if its top lies lower.
    at = min(down, height)
    half = 2 * key * at - at**2
    if half >= cutter**2:
        return max(cutter, down)
    return down + max(Fraction(0), cutter - root(cutter**2 - half) - at)
