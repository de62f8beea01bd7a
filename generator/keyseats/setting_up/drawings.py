"""The setting-up chart's drawings: the touches that centre a cutter, and the way it cuts."""

from __future__ import annotations

from math import acos, cos, pi, sin

from keyseats.drawing import (
    Pen,
    Point,
    arc,
    arrow,
    broken,
    centre_line,
    curve,
    hatch,
    label,
    leader,
    polyline,
    span,
)
from keyseats.frame import Frame
from keyseats.page import Block, Line, Mark, Shape
from keyseats.palette import BODY, PAPER
from keyseats.setting import box

TOUCH_HEIGHT = 6.85
CHAIN = (9.0, 2.5, 1.8, 2.5)


def pen_for(f: Frame) -> Pen:
    """Return the weights of a wall chart's drawings."""
    u = f.unit
    return Pen(outline=u * 0.08, thin=u * 0.034, hatch=u * 0.024, arrow=u * 0.34, spacing=u * 0.25)


def touch(f: Frame, x: float, top: float, size: float, *, end_mill: bool) -> None:
    """Draw a cutter touching the shaft's side, and the travel to the centreline.

    Parameters
    ----------
    f
        The page.
    x
        The shaft's centreline. [pt]
    top
        Upper edge of the drawing. [pt]
    size
        Size of its words. [pt]
    end_mill
        An end mill's rim instead of a disc's face.
    """
    u, pen = f.unit, pen_for(f)
    r, half, low = u * 1.75, u * (0.6 if end_mill else 0.5), u * 0.45
    cy = top + u * 3.3
    side, middle = x - r, x - r - half
    marks: list[Mark | Block] = []
    ring = arc((x, cy), r, 0, 2 * pi, 120)
    marks += hatch(ring, pen)
    marks.append(
        Shape((("M", x + r, cy), *curve((x, cy), r, 0, 2 * pi), ("Z",)), stroke=pen.outline)
    )
    marks.append(centre_line((side - half * 2 - u * 0.5, cy), (x + r + u * 0.4, cy), pen))
    bottom, roof = cy + low, cy - u * 2.75
    marks.append(Shape(box(side - 2 * half, roof, side, bottom), fill=BODY, stroke=pen.outline))
    marks += _driven(u, side, half, roof, bottom, pen, end_mill=end_mill)
    clear = cy - r - u * 0.14
    open_box = [(x - half, top), (x - half, clear), (x + half, clear), (x + half, top)]
    marks.append(Shape(polyline(open_box), stroke=pen.thin, dash=CHAIN))
    first, second = cy + r + u * 0.5, cy + r + u * 1.3
    marks.append(centre_line((x, top - u * 0.1), (x, second + u * 0.2), pen))
    marks.append(Line(middle, bottom + u * 0.1, middle, second + u * 0.2, pen.thin))
    marks.append(Line(side, bottom + u * 0.1, side, first + u * 0.2, pen.thin))
    marks += span((side, first), (x, first), pen)
    marks += label(x + u * 0.3, first + u * 0.2, ["½ shaft"], size)
    marks.append(Line(middle, first, side, first, pen.thin))
    marks += leader([(middle - u * 0.75, first), (middle, first)], pen)
    marks += label(middle - u * 0.85, first + u * 0.2, ["½ cutter"], size, anchor="end")
    marks += span((middle, second), (x, second), pen)
    marks += label(x + u * 0.3, second + u * 0.22, ["travel"], size, bold=True)
    kind = "end mill, its rim" if end_mill else "disc cutter, its free face"
    alt = f"Touch on the shaft's side by the {kind}: travel is half the shaft plus half the cutter"
    f.composer.add(Block("Figure", tuple(marks), alt=alt))


def _driven(
    u: float, side: float, half: float, roof: float, bottom: float, pen: Pen, *, end_mill: bool
) -> list[Mark]:
    """Return the shank of the cutter: upward for an end mill, away from the shaft for a disc."""
    if end_mill:
        x = side - half
        return [centre_line((x, roof - u * 0.45), (x, bottom + u * 0.1), pen)]
    level, left = (roof + bottom) / 2, side - 2 * half
    end = left - u * 1.5
    edge = broken((end, level - u * 0.4), (end, level + u * 0.4), 1.1)
    shank = [(left, level - u * 0.4), *edge, (left, level + u * 0.4)]
    return [
        Shape(polyline(shank, closed=True), fill=BODY),
        Shape(polyline([(left, level - u * 0.4), edge[0]]), stroke=pen.outline),
        Shape(polyline([edge[-1], (left, level + u * 0.4)]), stroke=pen.outline),
        Shape(polyline(edge), stroke=pen.thin),
        centre_line((end - u * 0.35, level), (side + u * 0.25, level), pen),
    ]


def direction(f: Frame, x: float, top: float, size: float, *, climb: bool) -> None:
    """Draw a cutter at work along the shaft: the same turn, the work fed against it or with it.

    Parameters
    ----------
    f
        The page.
    x
        The cutter's middle. [pt]
    top
        Upper edge of the drawing. [pt]
    size
        Size of its words. [pt]
    climb
        Fed with the cutter instead of against it.
    """
    u, pen = f.unit, pen_for(f)
    r, deep, reach = u * 1.7, u * 0.85, u * 4.2
    cy = top + u * 2.2
    floor = cy + r
    crown = floor - deep
    angle = pi / 2 - acos((r - deep) / r)
    # The teeth move left at the floor; work fed to the right meets them with its left part.
    way = 1 if climb else -1
    cut = arc((x, cy), r, pi / 2, angle if climb else pi - angle, 30)
    base = floor + u * 0.95
    outline: list[Point] = [(x - way * reach, floor), *cut, (x + way * reach, crown)]
    under = broken((x + way * reach, base), (x - way * reach, base), 1.1)
    marks: list[Mark | Block] = [*hatch([*outline, *under], pen)]
    marks.append(Shape(polyline(outline), stroke=pen.outline))
    marks.append(Shape(polyline(under), stroke=pen.thin))
    marks.append(Shape(polyline(teeth((x, cy), r), closed=True), fill=PAPER, stroke=pen.outline))
    marks.append(Line(x - u * 0.25, cy, x + u * 0.25, cy, pen.thin))
    marks.append(Line(x, cy - u * 0.25, x, cy + u * 0.25, pen.thin))
    turn = arc((x, cy), r * 0.58, -pi * 0.85, -pi * 0.15, 30)
    marks.append(Shape(polyline(turn), stroke=pen.outline))
    marks.append(arrow(_on((x, cy), r * 0.58, -pi * 0.1), turn[-2], _bold(pen)))
    level = base + u * 0.75
    tip = x - u * 1.9 if climb else x + u * 1.9
    back = 2 * x - tip
    marks.append(Line(back, level, tip - (tip - back) * 0.1, level, pen.outline))
    marks.append(arrow((tip, level), (back, level), _bold(pen)))
    end = back + (u * 0.3 if climb else -u * 0.3)
    marks += label(end, level + u * 0.22, ["work"], size, anchor="start" if climb else "end")
    told = "with the teeth" if climb else "against the teeth"
    name = "Climb" if climb else "Conventional"
    f.composer.add(Block("Figure", tuple(marks), alt=f"{name}: the work is fed {told}"))


def _bold(pen: Pen) -> Pen:
    return Pen(pen.outline, pen.thin, pen.hatch, pen.arrow * 1.5, pen.spacing)


def _on(centre: Point, radius: float, angle: float) -> Point:
    return (centre[0] + radius * cos(angle), centre[1] + radius * sin(angle))


def teeth(centre: Point, radius: float, count: int = 14) -> list[Point]:
    """Return a toothed rim that cuts turning to the right at the top."""
    points: list[Point] = []
    for n in range(count):
        start, end = 2 * pi * n / count, 2 * pi * (n + 1) / count
        points += [_on(centre, radius * 0.83, start), _on(centre, radius, end)]
    return points
