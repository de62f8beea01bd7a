"""Cuts on plain numbers: how the depth is gone down, and what the dial shows of it."""

from __future__ import annotations

from fractions import Fraction

DEEPEST_PASS = {"in": Fraction("0.020"), "mm": Fraction("0.5")}


def readings(depth_from_crown: Fraction, deepest: Fraction) -> list[Fraction]:
    """Return cumulated depths from the crown, whole passes, that stop short of a depth.

    Parameters
    ----------
    depth_from_crown
        Crown to floor, the least that the limits allow. [length]
    deepest
        The deepest pass. [length]

    Returns
    -------
    list of Fraction
        Each a whole number of passes; the last leaves a quarter of a pass or more for the cut
        that is made after measuring. [length]

    Notes
    -----
    A light lathe attachment takes about 0.020 in a pass: common practice, no source.
    """
    depth_from_crown, deepest = Fraction(depth_from_crown), Fraction(deepest)
    if deepest <= 0:
        raise ValueError("a pass must be above zero")
    last = int((depth_from_crown - deepest / 4) // deepest)
    return [deepest * n for n in range(1, last + 1)]


def turns_and_divisions(move: Fraction, turn: Fraction, divisions: int) -> tuple[int, Fraction]:
    """Return the whole turns of a move, and the divisions that are left over.

    Parameters
    ----------
    move
        How far the slide is to go. [length]
    turn
        How far the slide goes in one turn. [length]
    divisions
        Divisions round the dial; one that reads the diameter has twice those of one that reads
        the movement.
    """
    whole = int(move // turn)
    return whole, (move - whole * turn) / turn * divisions
