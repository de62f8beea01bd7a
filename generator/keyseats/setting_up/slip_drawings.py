"""What each slip does to the seat: as cut in full line, as it should be dashed."""

from __future__ import annotations

from collections.abc import Callable
from math import sqrt

from keyseats.drawing import Point
from keyseats.seat import Seat
from keyseats.setting_up.sketch import DASH, Sketch, dip
from keyseats.setting_up.slips import DEEPER, Example, Slip

# Every drawing's room, and the level of the crown in it. [its own lengths]
WIDE, HEIGHT = 3.95, 4.1
CROWN = 0.75
MIDDLE = 1.72
RADIUS = 1.5


def _scale(seat: Seat) -> float:
    """Return how long a drawing makes one unit of a seat whose shaft it shows whole."""
    return RADIUS / float(seat.work.shaft / 2)


def _edge(x: float, middle: float, crown: float, radius: float) -> Point:
    """Return the point of a shaft's surface over a place across it."""
    return (x, crown + radius - sqrt(radius**2 - (x - middle) ** 2))


def _slot(left: float, right: float, floor: float, middle: float = MIDDLE) -> list[Point]:
    """Return the corners of a seat in the whole shaft, left edge to right edge."""
    first = _edge(left, middle, CROWN, RADIUS)
    last = _edge(right, middle, CROWN, RADIUS)
    return [first, (left, floor), (right, floor), last]


def _whole(d: Sketch, slot: list[Point]) -> None:
    """Draw the whole shaft with a seat that need not be central."""
    d.whole(MIDDLE, CROWN, RADIUS, slot)
    d.axis((MIDDLE, CROWN - 0.55), (MIDDLE, CROWN + 2 * RADIUS + 0.2))


def off_centre(d: Sketch, slip: Slip, ex: Example) -> None:
    """Draw a seat beside the shaft's axis, on the side of the touch."""
    scale = _scale(ex.plain)
    half = float(ex.plain.cutter_width.value) / 2 * scale
    floor = CROWN + float(ex.plain.depth_from_crown.most.value) * scale
    now = MIDDLE - float(slip.error.value) * scale * slip.times
    _whole(d, _slot(now - half, now + half, floor))
    d.path(_slot(MIDDLE - half, MIDDLE + half, floor), dash=DASH)
    d.axis((now, CROWN - 0.55), (now, floor + 0.3))
    d.span((now, CROWN - 0.35), (MIDDLE, CROWN - 0.35), outside=True)


def depth(d: Sketch, slip: Slip, ex: Example) -> None:
    """Draw a seat deeper or shallower than its least depth, which is dashed; with the key in it."""
    scale = _scale(ex.plain)
    half = float(ex.plain.cutter_width.value) / 2 * scale
    meant = CROWN + float(ex.plain.depth_from_crown.least.value) * scale
    way = 1 if slip.kind == DEEPER else -1
    floor = meant + way * float(slip.error.value) * scale * slip.times
    tall = float(ex.plain.key.height.most.value) * scale
    _whole(d, _slot(MIDDLE - half, MIDDLE + half, floor))
    d.rect((MIDDLE - half, floor - tall), (MIDDLE + half, floor))
    d.path(_slot(MIDDLE - half, MIDDLE + half, meant)[1:3], dash=DASH)
    if meant > floor:
        for x in (MIDDLE - half, MIDDLE + half):
            d.line((x, floor), (x, meant), dash=DASH)
    out = MIDDLE + RADIUS + 0.3
    for level in (floor, meant):
        d.line((MIDDLE + half + 0.1, level), (out + 0.2, level))
    d.span((out, min(floor, meant)), (out, max(floor, meant)), outside=True)


def dial(d: Sketch, slip: Slip, ex: Example) -> None:
    """Draw the cutter half way between the touch and the axis."""
    scale = _scale(ex.plain) * 0.76
    radius = RADIUS * 0.76
    half = float(ex.plain.cutter_width.value) / 2 * scale
    x, y = MIDDLE + 0.25, CROWN + 0.5 + radius
    top = y - radius
    d.shaft((x, y), radius)
    touch = x - radius - half
    now = x - float(slip.error.value) * scale
    foot = y + radius + 0.65
    d.rect((now - half, top - 0.95), (now + half, top - 0.08))
    d.path(
        [
            (x - half, top - 0.95),
            (x - half, top - 0.08),
            (x + half, top - 0.08),
            (x + half, top - 0.95),
        ],
        dash=DASH,
    )
    d.axis((x, top - 1.1), (x, foot))
    d.line((touch, y), (touch, foot))
    d.axis((now, top - 1.1), (now, foot))
    d.span((touch, foot - 0.2), (now, foot - 0.2))
    d.span((now, foot - 0.2), (x, foot - 0.2))
    d.say(x + 0.2, foot - 0.2 + d.word * 0.35, "short")


def off_along(d: Sketch, slip: Slip, ex: Example) -> None:
    """Draw a half-moon seat too near to the shaft's end, by half the cutter."""
    moon = ex.half_moon
    assert moon.cutter_diameter is not None
    scale = 0.95 / float(moon.cutter_diameter.value / 2)
    radius = 0.95
    deep = float(moon.depth_from_crown.most.value) * scale
    crown, end, far = CROWN + 1.1, 0.15, WIDE - 0.15
    meant = 2.55
    now = meant - float(slip.error.value) * scale
    base = crown + 1.5
    d.solid([(end, base), (end, crown), *dip(now, crown, radius, deep), (far, crown)], base)
    d.path(dip(meant, crown, radius, deep), dash=DASH)
    for x in (now, meant):
        d.axis((x, crown - 1.05), (x, crown + deep + 0.3))
    d.span((now, crown - 0.8), (meant, crown - 0.8))


def neck(d: Sketch, slip: Slip, ex: Example) -> None:
    """Draw a thick neck on the seat's edge, and the floor that it keeps from being reached."""
    moon = ex.half_moon
    assert moon.cutter_diameter is not None
    radius = 1.3
    scale = radius / float(moon.work.shaft / 2)
    half = float(moon.cutter_width.value) / 2 * scale
    rim = float(moon.cutter_diameter.value) / 2 * scale
    thick = float(slip.error.value) / 2 * scale * slip.times
    x = MIDDLE + 0.55
    crown = CROWN + 1.35
    corner = _edge(x - half, x, crown, radius)
    axis = corner[1] - thick
    floor = axis + rim
    meant = crown + float(moon.depth_from_crown.most.value) * scale
    slot = [corner, (x - half, floor), (x + half, floor), (x + half, corner[1])]
    d.top(x, crown, radius, crown + 1.55, slot)
    d.path([(x - half, floor), (x - half, meant), (x + half, meant), (x + half, floor)], dash=DASH)
    long = 1.55
    d.rect((x - half - long, axis - thick), (x - half, axis + thick))
    d.rect((x - half, axis - rim), (x + half, floor))
    d.axis((x - half - long - 0.25, axis), (x + half + 0.25, axis))
    d.say(x - half - long / 2, axis - thick * 0.3, "neck", anchor="middle")


DRAWINGS: dict[str, Callable[[Sketch, Slip, Example], None]] = {
    "off centre": off_centre,
    "short": dial,
    "off along": off_along,
    DEEPER: depth,
    "too shallow": depth,
    "largest neck": neck,
}


def caption(slip: Slip) -> str:
    """Return how many times its size the error is drawn; nothing where it is to scale."""
    if slip.times == 1:
        return ""
    what = "neck" if slip.kind == "largest neck" else "error"
    return f"{what} drawn × {slip.times}"
