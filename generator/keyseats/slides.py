"""Slides and their dials: a movement as whole turns and divisions, exact."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from keyseats.frozen import aside, frozen
from keyseats.lengths import converted, decimal
from keyseats.machining import turns_and_divisions

READS = ("movement", "diameter")


@frozen
class Slide:
    """One slide as its owner proved it with an indicator and counted its dial.

    ``turn`` is what the slide itself moves in one turn of the handwheel, in ``unit``, and
    ``divisions`` the count round the dial; both None where there is no dial. ``reads`` says whether
    the marks name the slide's movement or the change in diameter; the count is a count either way,
    so that it changes no arithmetic here. ``zero`` says whether the dial can be turned to zero.
    """

    name: str
    direction: str
    unit: str
    turn: Fraction | None
    divisions: Fraction | None
    reads: str = "movement"
    zero: bool = True


@frozen
class Jobs:
    """Which slide centres, deepens and places along, and in which direction each of them goes.

    A slide is None where the shop file names none for that direction.
    """

    centre: Slide | None
    depth: Slide | None
    along: Slide | None
    centre_direction: str
    depth_direction: str
    along_direction: str


@frozen
class DialReading:
    """Whole turns, and divisions past them; ``around`` is the count of the whole dial, if known."""

    turns: int
    divisions: Fraction
    around: Fraction | None = aside(default=None)


def grain(slide: Slide, unit: str) -> Fraction | None:
    """Return what the slide itself moves in one division, None without a dial. [length]

    Parameters
    ----------
    slide
        The slide; one whose dial reads the diameter has twice the divisions, so half the movement.
    unit
        ``in`` or ``mm``, of what is returned.
    """
    if slide.turn is None or slide.divisions is None:
        return None
    return converted(slide.turn / slide.divisions, slide.unit, unit)


def dial_reading(slide: Slide, move: Fraction, unit: str) -> DialReading | None:
    """Return the whole turns of a movement and the divisions left over, None without a dial.

    Parameters
    ----------
    slide
        The slide.
    move
        How far the slide is to go, zero or more. [length]
    unit
        ``in`` or ``mm``, of the movement; converted exactly to the slide's own.

    Raises
    ------
    ValueError
        If the movement is below zero: a dial is counted one way.

    Notes
    -----
    Common practice, no source: 0.350 in at 0.125 in a turn and 250 divisions is 2 turns + 200. A
    dial that reads the diameter doubles the divisions, never the turns.
    """
    if move < 0:
        raise ValueError("a movement is counted one way: it cannot be below zero")
    if slide.turn is None or slide.divisions is None:
        return None
    own = converted(move, unit, slide.unit)
    turns, divisions = turns_and_divisions(own, slide.turn, slide.divisions)
    return DialReading(turns, divisions, slide.divisions)


def movement(slide: Slide, reading: DialReading, unit: str) -> Fraction:
    """Return how far a slide has gone at a reading, the other way round. [length]

    Raises
    ------
    ValueError
        If the slide has no dial.
    """
    one = grain(slide, unit)
    if one is None or slide.divisions is None:
        raise ValueError(f"the slide {slide.name} has no dial")
    return (reading.turns * slide.divisions + reading.divisions) * one


def limits_on_dial(
    slide: Slide, least: Fraction, most: Fraction, unit: str
) -> tuple[DialReading, DialReading] | None:
    """Return limits rounded inward to divisions that are on the dial.

    Parameters
    ----------
    slide
        The slide.
    least, most
        The limits of its movement, from the reading that counts as zero. [length]
    unit
        ``in`` or ``mm``, of the limits.

    Returns
    -------
    tuple of DialReading, or None
        Both on whole divisions; None if no division lies inside, or the slide has no dial.

    Notes
    -----
    On a dial of 62.5 divisions the marks of each turn are 0 to 62, and the next turn's zero comes
    half a division after the last of them.
    """
    low, high = dial_reading(slide, least, unit), dial_reading(slide, most, unit)
    if low is None or high is None or slide.divisions is None:
        return None
    count = Fraction(ceil(low.divisions))
    up = DialReading(low.turns, count, slide.divisions)
    if count >= slide.divisions:
        up = DialReading(low.turns + 1, Fraction(0), slide.divisions)
    down = DialReading(high.turns, Fraction(int(high.divisions)), slide.divisions)
    inside = (up.turns, up.divisions) <= (down.turns, down.divisions)
    return (up, down) if inside else None


def said(reading: DialReading) -> str:
    """Return a reading in words, such as ``2 turns + 200 div``, to a tenth of a division.

    What rounds up to the whole dial is said as the next turn.
    """
    turns, tenths = reading.turns, Fraction(decimal(reading.divisions, 1))
    if reading.around is not None and tenths >= reading.around > reading.divisions:
        turns, tenths = turns + 1, Fraction(0)
    places = 0 if tenths.denominator == 1 else 1
    return f"{turns} turn{'' if turns == 1 else 's'} + {decimal(tenths, places)} div"


def ways(slide: Slide | None) -> tuple[str, ...]:
    """Return what sets a travel where there is no dial to count it; nothing where there is one."""
    if slide is not None and slide.turn is not None:
        return ()
    return (
        "an indicator on the slide: zero it at the touch, go on until it shows the travel",
        "a stop: clamp it at the touch with a gap of the travel, then close the slide on it",
        "an adjustable parallel, set to the travel by micrometer, for that gap",
        "gauge blocks of the travel, for that gap",
    )
