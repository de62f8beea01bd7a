"""Cuts on plain numbers: how the depth is gone down, and what the dial shows of it."""

from __future__ import annotations

from fractions import Fraction
from math import ceil
from typing import NamedTuple

DEEPEST_PASS = {"in": Fraction("0.020"), "mm": Fraction("0.5")}


# Pi to 40 digits: more than any speed needs.
PI = Fraction("3.1415926535897932384626433832795028841971")


class Cut(NamedTuple):
    """One cut: the reading to go down to, counted from the touch, and whether to measure there."""

    reading: Fraction
    measure: bool = False


class Dial(NamedTuple):
    """What a slide moves in one turn, and the divisions round its dial, not always whole."""

    turn: Fraction
    divisions: Fraction

    @property
    def grain(self) -> Fraction:
        """Return what one division moves. [length]"""
        return self.turn / self.divisions

    def at_or_under(self, move: Fraction) -> Fraction:
        """Return the last mark that a movement reaches. [length]

        On a dial of 62.5 divisions each turn has the marks 0 to 62, and the next turn's zero comes
        half a division after the last of them.
        """
        whole = move // self.turn * self.turn
        return whole + (move - whole) // self.grain * self.grain

    def at_or_over(self, move: Fraction) -> Fraction:
        """Return the first mark at or past a movement. [length]"""
        whole = move // self.turn * self.turn
        return min(whole + ceil((move - whole) / self.grain) * self.grain, whole + self.turn)


class Plan(NamedTuple):
    """The cuts of one seat, light passes first, the last of them at the depth.

    ``on_dial`` says whether the last reading is a mark of the dial inside the limits; where it is
    not, no mark lies inside them, or there is no dial, and an indicator or blocks must set it.
    ``deepest`` is the deepest pass. [length]
    """

    cuts: tuple[Cut, ...]
    least: Fraction
    most: Fraction
    deepest: Fraction
    on_dial: bool


def plan(least: Fraction, most: Fraction, deepest: Fraction, dial: Dial | None = None) -> Plan:
    """Return the cuts that go down to a depth, on marks of the dial, none over the deepest pass.

    Parameters
    ----------
    least, most
        Limits of the travel from the touch to the floor. [length]
    deepest
        The deepest pass. [length]
    dial
        The dial that counts; None without one. One whose division is over the deepest pass cannot
        count the passes and is not used.

    Returns
    -------
    Plan
        Each reading counts from the touch. The last but one stops short, a quarter of a pass or
        more above the depth, to measure there. The last is the first mark inside the limits, or
        ``least`` where none lies inside.

    Raises
    ------
    ValueError
        If the limits are not above zero and in order, or the pass is not above zero.

    Notes
    -----
    Counted in fractions: 0.0990 by 0.0055 in is 18 cuts, where binary arithmetic makes 19 of it.
    A light lathe attachment takes about 0.020 in a pass: common practice, no source.
    """
    least, most, deepest = Fraction(least), Fraction(most), Fraction(deepest)
    if not 0 < least <= most or deepest <= 0:
        raise ValueError("limits and pass must be above zero, and least not over most")
    quarter = deepest / 4
    counted = dial is not None and dial.grain <= deepest
    marks = dial if dial is not None and counted else Dial(quarter, Fraction(1))
    last, on_dial = least, False
    if counted and marks.at_or_over(least) <= most:
        last, on_dial = marks.at_or_over(least), True
    readings: list[Fraction] = []
    at = Fraction(0)
    while last - at > deepest:
        at = marks.at_or_under(at + deepest)
        readings.append(at)
    if last - at < quarter or not readings:
        # What is left to cut after measuring must be a real cut, or the cutter rubs.
        stop = marks.at_or_under(last - quarter)
        readings = [*readings[:-1], *([stop] if stop > 0 else [])]
    cuts = [Cut(reading) for reading in readings[:-1]]
    cuts += [Cut(reading, measure=True) for reading in readings[-1:]]
    return Plan((*cuts, Cut(last)), least, most, deepest, on_dial)


def revolutions(speed: Fraction, diameter: Fraction, unit: str) -> Fraction:
    """Return the spindle speed of a cutter. [1/min]

    Parameters
    ----------
    speed
        Cutting speed, ft/min with a diameter in inches, m/min with one in millimetres.
    diameter
        Cutter diameter. [length]
    unit
        ``in`` or ``mm``.
    """
    return speed * (12 if unit == "in" else 1000) / (PI * diameter)


def turns_and_divisions(
    move: Fraction, turn: Fraction, divisions: Fraction | int
) -> tuple[int, Fraction]:
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
