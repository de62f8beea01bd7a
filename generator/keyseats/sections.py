"""Sections of a seat drawn from its figures: across the shaft, with key and hub, and along it."""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, pi, sqrt

from keyseats.drawing import Pen, Point, arc, broken, centre_line, curve, hatch, polyline
from keyseats.page import Line, Mark, Shape
from keyseats.palette import BODY
from keyseats.setting import box

WAVE = 1.1


@dataclass(frozen=True)
class Across:
    """A seat across its shaft, placed on the page; sizes already scaled. [pt]"""

    x: float
    crown: float
    radius: float
    half_width: float
    depth: float

    @property
    def centre(self) -> Point:
        """Return the shaft's centre."""
        return (self.x, self.crown + self.radius)

    @property
    def edge(self) -> float:
        """Return the level of the seat's edges."""
        return self.crown + self.radius - sqrt(self.radius**2 - self.half_width**2)

    @property
    def floor(self) -> float:
        """Return the level of the seat's floor."""
        return self.crown + self.depth

    @property
    def bottom(self) -> float:
        """Return the level of the opposite side of the shaft."""
        return self.crown + 2 * self.radius

    @property
    def left(self) -> float:
        """Return the left wall."""
        return self.x - self.half_width

    @property
    def right(self) -> float:
        """Return the right wall."""
        return self.x + self.half_width

    def slot(self) -> list[Point]:
        """Return the seat's corners, left edge to right edge."""
        return [
            (self.left, self.edge),
            (self.left, self.floor),
            (self.right, self.floor),
            (self.right, self.edge),
        ]


def whole_shaft(a: Across, pen: Pen, past: float = 9) -> list[Mark]:
    """Return the whole shaft across its seat: outline, hatch, centre lines, crown dashed.

    Parameters
    ----------
    a
        The seat.
    pen
        Line weights.
    past
        How far the centre lines go past the shaft. [pt]
    """
    turn = acos(a.half_width / a.radius)
    start, end = -turn, pi + turn
    ring = [*arc(a.centre, a.radius, start, end, 180), *a.slot()[1:3]]
    path = (
        ("M", a.right, a.edge),
        *curve(a.centre, a.radius, start, end),
        ("L", a.left, a.floor),
        ("L", a.right, a.floor),
        ("Z",),
    )
    return [
        *hatch(ring, pen),
        Shape(path, stroke=pen.outline),
        crown_arc(a, pen),
        centre_line(
            (a.x - a.radius - past, a.centre[1]), (a.x + a.radius + past, a.centre[1]), pen
        ),
        centre_line((a.x, a.crown - past), (a.x, a.bottom + past), pen),
    ]


def top_of_shaft(a: Across, half: float, down_to: float, pen: Pen) -> list[Mark]:
    """Return the shaft round its seat, broken off at its sides and below.

    Parameters
    ----------
    a
        The seat.
    half
        Half the width shown. [pt]
    down_to
        Level at which the shaft is broken off. [pt]
    pen
        Weights.
    """
    turn, foot = acos(a.half_width / a.radius), acos(half / a.radius)
    left_arc = arc(a.centre, a.radius, foot - pi, turn - pi, 48)
    right_arc = arc(a.centre, a.radius, -turn, -foot, 48)
    sides = [
        *broken((a.x + half, right_arc[-1][1]), (a.x + half, down_to), WAVE),
        *broken((a.x + half, down_to), (a.x - half, down_to), WAVE),
        *broken((a.x - half, down_to), (a.x - half, left_arc[0][1]), WAVE),
    ]
    ring = [*left_arc, *a.slot()[1:3], *right_arc, *sides]
    return [
        *hatch(ring, pen),
        Shape(polyline([*left_arc, *a.slot()[1:3], *right_arc]), stroke=pen.outline),
        Shape(polyline(sides), stroke=pen.thin),
        crown_arc(a, pen),
    ]


def crown_arc(a: Across, pen: Pen) -> Shape:
    """Return the shaft's surface over the seat, dashed, as it was before the cut."""
    turn = acos(a.half_width / a.radius)
    path = (("M", a.right, a.edge), *curve(a.centre, a.radius, -turn, turn - pi))
    return Shape(path, stroke=pen.thin, dash=(3.0, 2.0))


def key_across(a: Across, height: float, pen: Pen) -> list[Mark]:
    """Return the key standing on the seat's floor."""
    return [Shape(box(a.left, a.floor - height, a.right, a.floor), fill=BODY, stroke=pen.outline)]


def hub_over(a: Across, rise: float, top: float, half: float, pen: Pen) -> list[Mark]:
    """Return the hub round the top of the shaft, its keyway's floor ``rise`` above the edge.

    Parameters
    ----------
    a
        The seat; the bore is drawn at the shaft's size.
    rise
        Edge up to the floor of the hub's keyway. [pt]
    top
        Level at which the hub is broken off. [pt]
    half
        Half the width that is shown. [pt]
    pen
        Weights.
    """
    turn = acos(a.half_width / a.radius)
    side = acos(min(half, a.radius * 0.999) / a.radius)
    roof = a.edge - rise
    left_arc = arc(a.centre, a.radius, side - pi, turn - pi, 48)
    right_arc = arc(a.centre, a.radius, -turn, -side, 48)
    inner = [*left_arc, (a.left, roof), (a.right, roof), *right_arc]
    line = [
        *broken((a.x + half, right_arc[-1][1]), (a.x + half, top), WAVE),
        *broken((a.x + half, top), (a.x - half, top), WAVE),
        *broken((a.x - half, top), (a.x - half, left_arc[0][1]), WAVE),
    ]
    ring = [*inner, *line]
    return [
        *hatch(ring, pen, slope=-1),
        Shape(polyline(inner), stroke=pen.outline),
        Shape(polyline(line), stroke=pen.thin),
    ]


def half_hub(a: Across, rise: float, wall: float, pen: Pen) -> list[Mark]:
    """Return the right half of a whole hub, cut off at the shaft's centre line.

    Parameters
    ----------
    a
        The seat; the bore is drawn at the shaft's size.
    rise
        Edge up to the floor of the hub's keyway. [pt]
    wall
        Thickness of the hub round the bore. [pt]
    pen
        Weights.
    """
    turn, outer, roof = acos(a.half_width / a.radius), a.radius + wall, a.edge - rise
    bore = arc(a.centre, a.radius, -turn, pi / 2, 90)
    inner = [(a.x, roof), (a.right, roof), *bore]
    path = (
        ("M", a.x, a.bottom + wall),
        *curve(a.centre, outer, pi / 2, -pi / 2),
        ("L", a.x, roof),
        ("L", a.right, roof),
        ("L", *bore[0]),
        *curve(a.centre, a.radius, -turn, pi / 2),
        ("Z",),
    )
    ring = [*arc(a.centre, outer, pi / 2, -pi / 2, 120), *inner]
    return [*hatch(ring, pen, slope=-1), Shape(path, stroke=pen.outline)]


def straight_along(
    x: float, full: float, crown: float, depth: float, radius: float, down_to: float, pen: Pen
) -> list[Mark]:
    """Return a disc-cut seat along the shaft, open at the shaft's end.

    Parameters
    ----------
    x
        The shaft's end. [pt]
    full
        Where the full depth ends and the ramp begins. [pt]
    crown
        Level of the crown. [pt]
    depth
        Crown to floor. [pt]
    radius
        Radius of the disc. [pt]
    down_to
        Level at which the shaft is broken off. [pt]
    pen
        Weights.
    """
    floor = crown + depth
    ramp = arc((full, floor - radius), radius, pi / 2, pi / 2 - acos((radius - depth) / radius), 30)
    end = ramp[-1][0]
    past = end + depth * 1.6
    side = broken((past, crown), (past, down_to), WAVE)
    bottom = broken((past, down_to), (x, down_to), WAVE)
    cut = [(x, down_to), (x, floor), (full, floor), *ramp, (past, crown)]
    return [
        *hatch([*cut, *side, *bottom], pen),
        Shape(polyline(cut), stroke=pen.outline),
        Shape(polyline([*side, *bottom]), stroke=pen.thin),
        Line(x, crown, end, crown, pen.thin, (3.0, 2.0)),
        Line(x, crown, x, floor, pen.thin, (3.0, 2.0)),
    ]


def along(
    x: float, crown: float, cutter: float, depth: float, half: float, down_to: float, pen: Pen
) -> list[Mark]:
    """Return a half-moon seat along the shaft, cut on its centre line.

    Parameters
    ----------
    x
        Middle of the seat. [pt]
    crown
        Level of the crown. [pt]
    cutter
        Cutter diameter. [pt]
    depth
        Crown to floor. [pt]
    half
        Half the length of shaft shown. [pt]
    down_to
        Level at which the shaft is broken off. [pt]
    pen
        Weights.
    """
    r = cutter / 2
    cy = crown + depth - r
    reach = sqrt(max(r**2 - (cy - crown) ** 2, 0))
    angle = acos(min(reach / r, 1)) * (-1 if cy > crown else 1)
    cut = arc((x, cy), r, pi - angle, angle, 60)
    bottom = broken((x + half, down_to), (x - half, down_to), WAVE)
    ring = [(x - half, crown), *cut, (x + half, crown), *bottom]
    return [
        *hatch(ring, pen),
        Shape(polyline([(x - half, crown), *cut, (x + half, crown)]), stroke=pen.outline),
        Shape(polyline(bottom), stroke=pen.thin),
    ]


def key_along(x: float, floor: float, diameter: float, height: float, pen: Pen) -> list[Mark]:
    """Return a half-moon key seen from its side, standing on its arc."""
    r = diameter / 2
    cy = floor - r
    top = floor - height
    reach = sqrt(max(r**2 - (cy - top) ** 2, 0))
    angle = acos(min(reach / r, 1)) * (-1 if cy > top else 1)
    points = arc((x, cy), r, pi - angle, angle, 80)
    return [Shape(polyline(points, closed=True), fill=BODY, stroke=pen.outline)]


def cutter_along(x: float, floor: float, diameter: float, neck: float, pen: Pen) -> list[Mark]:
    """Return the cutter in its seat, with its neck, in chain lines."""
    r = diameter / 2
    cy = floor - r
    whole = (("M", x + r, cy), *curve((x, cy), r, 0, 2 * pi), ("Z",))
    ring = (("M", x + neck / 2, cy), *curve((x, cy), neck / 2, 0, 2 * pi), ("Z",))
    return [
        Shape(whole, stroke=pen.thin, dash=(9.0, 2.5, 1.8, 2.5)),
        Shape(ring, stroke=pen.thin),
        Line(x - 4, cy, x + 4, cy, pen.thin),
        Line(x, cy - 4, x, cy + 4, pen.thin),
    ]
