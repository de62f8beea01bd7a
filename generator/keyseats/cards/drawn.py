"""Drawings of pocket cards: a real seat to scale, its datums named; a touch for centring."""

from __future__ import annotations

from fractions import Fraction
from math import acos

from keyseats.cards.face import SMALL, Face
from keyseats.drawing import (
    Pen,
    arc,
    centre_line,
    curve,
    hatch,
    label,
    leader,
    polyline,
    span,
    widest,
)
from keyseats.page import Block, Line, Mark, Shape
from keyseats.palette import BODY
from keyseats.seat import Seat, Tabled, Work, seat_of
from keyseats.sections import Across, key_across, whole_shaft
from keyseats.setting import box

PEN = Pen(outline=0.9, thin=0.4, hatch=0.35, arrow=4.2, spacing=3.6)
SMALL_PEN = Pen(outline=0.9, thin=0.4, hatch=0.35, arrow=3.4, spacing=3.2)
WORDS, ROOMY = 6.4, "3 x 5 in"
DEPTH = ["depth from", "crown"]
# How thick, and how long beside the key, the piece of the hub is. [pt]
HUB = 6.5
# The shaft's radius at most, so that the drawing is no taller than the table beside it. [pt]
LARGEST = 29.0
TURN = 3.141592653589793


def seat_across(
    face: Face,
    x1: float,
    x2: float,
    top: float,
    seat: Seat,
    shaft: Fraction,
    *,
    hub: bool,
) -> float:
    """Draw a seat across its shaft with its key; return the level of the last word.

    Each dimension has its name at its own end of the drawing: depth from crown at the upper left,
    floor to opposite side at the lower left, the hub's floor at the upper right.

    Parameters
    ----------
    face
        The side it is drawn on.
    x1, x2
        Left and right limits, words and dimensions included. [pt]
    top
        Upper limit. [pt]
    seat
        The seat drawn, to scale.
    shaft
        Shaft diameter. [in or mm]
    hub
        Whether a piece of the hub is drawn too, with its floor to the opposite side.
    """
    pen, size = (SMALL_PEN, SMALL) if face.small else (PEN, WORDS)
    lead, inset = size * 1.18, pen.arrow * 3.4
    right_words = ["hub floor to", "opp. side" if face.size != ROOMY else "opposite side"]
    beside = widest(DEPTH, size, True) + widest(right_words, size) + size < x2 - x1
    radius = min((x2 - x1 - inset - (pen.arrow * 2 if hub else 1)) / 2, LARGEST)
    scale = 2 * radius / float(shaft)
    depth = float(seat.depth_from_crown.least.value) * scale
    above = float(seat.key.height.most.value) * scale - depth
    first = top + size * 0.8
    start = first + (2 * lead + 1 if hub and not beside else 0)
    clear = start + lead + size * 0.6
    tight = depth < pen.arrow * 2.6
    thick = HUB if hub else 0
    # What stands up over the crown keeps clear of the words over it: narrow, of the upper line.
    over = (clear if beside else start + size * 0.5) + above + thick
    crown = max(clear + (pen.arrow * 1.9 if tight else 0), over)
    half = float(seat.key.width.value) / 2 * scale
    a = Across(x1 + inset + radius, crown, radius, half, depth)
    shaft_marks = [m for m in whole_shaft(a, pen) if not (isinstance(m, Line) and m.dash)]
    marks: list[Mark | Block] = [*shaft_marks, *key_across(a, depth + above, pen)]
    far, near = x1 + pen.arrow * 0.5, x1 + pen.arrow * 2
    for begin, end, level in (
        (a.left - 1, near - 2, a.crown),
        (a.left - 1, far - 2, a.floor),
        (a.x, far - 2, a.bottom),
    ):
        marks.append(Line(begin, level, end, level, pen.thin))
    marks += span((near, a.crown), (near, a.floor), pen, outside=tight)
    marks += span((far, a.floor), (far, a.bottom), pen)
    marks += label(x1, start, DEPTH, size, bold=True)
    low = a.bottom + size * 1.25
    marks += label(x1, low, ["floor to", "opposite side"], size, bold=True)
    rows = (*seat.key.width.rows, *seat.key.height.rows, *seat.depth_from_crown.rows)
    named = "depth from crown, floor to opposite side"
    if hub:
        floor = seat.hub_floor_to_opposite_side.least
        roof, out = a.bottom - float(floor.value) * scale, x2 - pen.arrow * 0.5
        marks += _hub_piece(a, roof, pen)
        marks.append(Line(a.right + HUB, roof, out + 2, roof, pen.thin))
        marks.append(Line(a.x, a.bottom, out + 2, a.bottom, pen.thin))
        marks += span((out, roof), (out, a.bottom), pen)
        marks += label(x2, first, right_words, size, anchor="end")
        rows, named = (*rows, *floor.rows), f"{named}, hub floor to opposite side"
    alt = f"A seat across its shaft: {named}"
    face.composer.add(Block("Figure", tuple(marks), alt=alt, rows=rows))
    return low + lead


def _hub_piece(a: Across, roof: float, pen: Pen) -> list[Mark]:
    """Return a piece of the hub at the right of the key, with its keyway's floor over the key."""
    end, top = a.right + HUB, roof - HUB
    foot = acos(min((end - a.x) / a.radius, 0.98))
    turn = acos(a.half_width / a.radius)
    inner = [(a.x, roof), (a.right, roof), *arc(a.centre, a.radius, -turn, -foot, 24)]
    ring = [*inner, (end, top), (a.x, top)]
    return [
        *hatch(ring, pen, slope=-1),
        Shape(polyline(ring, closed=True), stroke=pen.thin),
    ]


def first_seat(found: list[Tabled], work: Work) -> Seat | None:
    """Return the seat of a shaft's first choice, or None if it has none."""
    for one in found:
        if one.choice == "first":
            return seat_of(one, work)
    return None


def face_touch(face: Face, x1: float, x2: float, top: float) -> float:
    """Draw a disc cutter touching the shaft's side, and its travel; return the lowest level."""
    size, radius, half = 6.4, 21.0, 5.0
    x = x2 - radius - size * 3
    centre = (x, top + 34.0)
    side = x - radius
    cutter = side - half
    circle = (
        ("M", x + radius, centre[1]),
        *curve(centre, radius, 0, 2 * TURN),
        ("Z",),
    )
    upper, lower = top + 14, centre[1] + 8
    level = centre[1] + radius + 9
    middle = (cutter + x) / 2
    marks: list[Mark | Block] = [
        Shape(circle, stroke=PEN.outline),
        Shape(box(cutter - half, upper, side, lower), fill=BODY, stroke=PEN.outline),
        centre_line((x, centre[1] - radius - 5), (x, level + 2), PEN),
        centre_line((cutter, upper - 5), (cutter, level + 2), PEN),
        centre_line((side - 5, centre[1]), (x + radius + 5, centre[1]), PEN),
        *span((cutter, level), (x, level), PEN),
        *label(cutter - half - 3, upper + size, ["cutter"], size, anchor="end"),
        *label(x + radius * 0.8, upper + size * 0.4, ["shaft"], size),
        *label(middle, level + size * 1.35, ["travel to centre"], size, anchor="middle"),
        *label(side, top + 4, ["face touches"], size, anchor="start"),
        # From above, down between the two to where they touch.
        *leader([(side + 5.5, top + 6.5), (side + 0.5, centre[1] - 4.5)], PEN),
    ]
    face.composer.add(
        Block("Figure", tuple(marks), alt="The cutter's face touches the shaft's side")
    )
    return level + size * 1.4
