"""Where a cutter, its neck, its collar or its holder meets the shaft, and a key its seat.

Plain exact numbers in one unit, as in `keyseats.geometry`, the only module that it imports.
"""

from __future__ import annotations

from fractions import Fraction

from keyseats.geometry import root

__all__ = [
    "depth_where_holder_hits",
    "depth_where_neck_rubs",
    "face_touch_reach",
    "lift",
    "rim_above_centre",
    "smallest_cutter_for_face_touch",
    "stand_off",
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
