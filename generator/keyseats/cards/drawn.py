"""Drawings of pocket cards: a real seat to scale, its datums named; a touch for centring."""

from __future__ import annotations

from fractions import Fraction

from keyseats.cards.face import Face
from keyseats.drawing import Pen, centre_line, curve, label, leader, span
from keyseats.page import Block, Line, Mark, Shape
from keyseats.palette import BODY
from keyseats.seat import Seat, Tabled, Work, seat_of
from keyseats.sections import Across, key_across, whole_shaft
from keyseats.setting import box

PEN = Pen(outline=0.9, thin=0.4, hatch=0.35, arrow=4.2, spacing=3.6)
TURN = 3.141592653589793


def seat_across(
    face: Face,
    x1: float,
    x2: float,
    top: float,
    seat: Seat,
    shaft: Fraction,
    *,
    over: bool = True,
) -> float:
    """Draw a seat across its shaft with its key; return the level of the last word.

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
    over
        Whether a larger card shows the edge, and over key, too.
    """
    over = over and not face.small
    size = 5.4 if face.small else 6.4
    side = 9.0 if face.small else 11.0
    far = 9.0 if over else 0.0
    radius = (x2 - x1 - 2 * side - far) / 2
    scale = 2 * radius / float(shaft)
    height = float(seat.key.height.most.value) * scale
    depth = float(seat.depth_from_crown.least.value) * scale
    above = max(height - depth, 0.0)
    # The words stand clear above the arrow's tail.
    key_top = max(top + size * 2.4, top + size * 2.2 + PEN.arrow * 1.9 - above)
    half = float(seat.key.width.value) / 2 * scale
    a = Across(x1 + side + radius, key_top + above, radius, half, depth)
    shaft_marks = [m for m in whole_shaft(a, PEN) if not (isinstance(m, Line) and m.dash)]
    marks: list[Mark | Block] = [*shaft_marks, *key_across(a, height, PEN)]
    near, out = a.x - radius - side * 0.55, a.x + radius + side * 0.55
    for begin, end, level in (
        (a.left - 1, near - 2, a.crown),
        (a.left - 1, near - 2, a.floor),
        (a.right + 1, out + 2, a.floor),
        (a.x, out + far + 2, a.bottom),
    ):
        marks.append(Line(begin, level, end, level, PEN.thin))
    marks += span((near, a.crown), (near, a.floor), PEN, outside=a.floor - a.crown < 12)
    marks += span((out, a.floor), (out, a.bottom), PEN)
    marks += label(x1, top + size * 0.8, ["depth from", "crown"], size, bold=True)
    low = a.bottom + size * 1.25
    marks += label(x2, low, ["floor to", "opposite side"], size, bold=True, anchor="end")
    if over:
        marks.append(Line(a.right + 1, key_top, out + far + 2, key_top, PEN.thin))
        marks += span((out + far, key_top), (out + far, a.bottom), PEN)
        marks += label(x2, top + size * 0.8, ["over key"], size, anchor="end")
        turn, level = a.x + radius * 0.66, key_top + size * 1.0
        marks += label(turn + 1, level, ["edge"], size)
        marks += leader([(turn, level - size * 0.25), (a.right + 0.6, a.edge - 0.3)], PEN)
    face.composer.add(
        Block(
            "Figure",
            tuple(marks),
            alt="A seat across its shaft: depth from crown, floor to opposite side",
            rows=(*seat.key.width.rows, *seat.key.height.rows, *seat.depth_from_crown.rows),
        )
    )
    return low + size * 1.18


def first_seat(found: list[Tabled], work: Work) -> Seat | None:
    """Return the seat of a shaft's first choice, or None if it has none."""
    for one in found:
        if one.choice == "first":
            return seat_of(one, work)
    return None


def face_touch(face: Face, x1: float, x2: float, top: float) -> float:
    """Draw a disc cutter touching the shaft's side, and its travel; return the lowest level."""
    size, radius, half = 6.4, 21.0, 5.0
    x = x2 - radius - 8
    centre = (x, top + 34.0)
    cutter = x - radius - half
    circle = (
        ("M", x + radius, centre[1]),
        *curve(centre, radius, 0, 2 * TURN),
        ("Z",),
    )
    upper, lower = top + 12, centre[1] + 8
    level = centre[1] + radius + 9
    marks: list[Mark | Block] = [
        Shape(circle, stroke=PEN.outline),
        Shape(box(cutter - half, upper, cutter + half, lower), fill=BODY, stroke=PEN.outline),
        centre_line((x, top + 6), (x, level + 2), PEN),
        centre_line((cutter, top + 6), (cutter, level + 2), PEN),
        centre_line((x - radius - 5, centre[1]), (x + radius + 5, centre[1]), PEN),
        *span((cutter, level), (x, level), PEN),
        *label(cutter, top + 4, ["cutter"], size, anchor="middle"),
        *label(x, top + 4, ["shaft"], size, anchor="middle"),
        *label((cutter + x) / 2, level + size * 1.35, ["travel to centre"], size, anchor="middle"),
        *label(cutter - half - 5, centre[1] - 9, ["face", "touches"], size, anchor="end"),
        *leader([(cutter - half - 4, centre[1] - 4), (x - radius - 0.3, centre[1] - 0.5)], PEN),
    ]
    face.composer.add(
        Block("Figure", tuple(marks), alt="The cutter's face touches the shaft's side")
    )
    return level + size * 1.4
