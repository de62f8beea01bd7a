"""The seat to scale for this shaft and this cutter: across the shaft, and along it."""

from __future__ import annotations

from math import acos, pi

from keyseats.drawing import Pen, arc, hatch, label, polyline, span
from keyseats.page import Block, Line, Mark, Shape, Text
from keyseats.sections import Across, along, cutter_along, key_across, key_along, whole_shaft
from keyseats.setting import set_width
from keyseats.shaft_sheet.before_cutting import COLUMN
from keyseats.shaft_sheet.composing import ShaftSheet, marked, shortened

PEN = Pen(outline=1.3, thin=0.6, hatch=0.45, arrow=6.0, spacing=5.0)
SIZE = 8.2
# The number of the step at a name, and the room for it. [pt]
STEP, NUMBER = 10.0, 18.0
# Beside the shaft, for what is measured over and from it; the least for the view along it. [pt]
LEFT, RIGHT, LEAST_ALONG = 42.0, 80.0, 68.0
# The largest that a cutter is drawn beside the section. [pt]
BESIDE = 96.0


def drawings(s: ShaftSheet) -> float:
    """Draw the seat across and along the shaft; return the level under the drawings."""
    top = s.y + 10
    end = s.f.right - COLUMN - 10
    size = min(s.ease.drawn, end - s.f.left - LEFT - RIGHT - LEAST_ALONG)
    scale = size / float(s.work.shaft)
    key_top = float(s.seat.key_above_edge.most.value - s.seat.arc_height.value)
    across = Across(
        s.f.left + LEFT + size / 2,
        top + max(key_top * scale, 8.0),
        size / 2,
        float(s.seat.cut_width.value) / 2 * scale,
        float(s.seat.depth_from_crown.least.value) * scale,
    )
    _across_view(s, across, scale)
    start = across.x + across.radius + RIGHT
    if s.half_moon:
        low = _half_moon_view(s, across, scale, start, end)
    else:
        low = _straight_view(s, across, scale, start, end)
    below = across.bottom + 9
    if s.work.cutter_name:
        words = s.ease.words
        below += words * 1.1
        line = shortened(f"Cutter: {s.work.cutter_name}", words, start - 8 - s.f.left)
        s.f.composer.say(s.f.left, below, line, words)
        below += 3
    return max(below, low)


def _across_view(s: ShaftSheet, a: Across, scale: float) -> None:
    pen = PEN
    height = float(s.seat.key.height.most.value) * scale
    if s.work.key_height is not None:
        height = float(s.work.key_height) * scale
    top = a.floor - height
    marks: list[Mark | Block] = [*whole_shaft(a, pen), *key_across(a, height, pen)]
    right, left = a.x + a.radius + 15, a.x - a.radius - 14
    marks += [
        Line(a.x, a.crown, right + 2.5, a.crown, pen.thin),
        Line(a.x + a.half_width + 2, a.floor, right + 2.5, a.floor, pen.thin),
        Line(a.x + 6, a.bottom, right + 2.5, a.bottom, pen.thin),
        Line(a.left - 2, top, left - 2.5, top, pen.thin),
        Line(a.x - 6, a.bottom, left - 2.5, a.bottom, pen.thin),
    ]
    short = a.floor - a.crown < 16
    marks += span((right, a.crown), (right, a.floor), pen, outside=short)
    marks += span((right, a.floor), (right, a.bottom), pen)
    marks += span((left, top), (left, a.bottom), pen)
    beside = right + 5
    level = min((a.crown + a.floor) / 2 - 6, a.floor - 22)
    high, middle = max(level, a.crown - 4), (a.floor + a.bottom) / 2 + 4
    marks += label(beside + NUMBER, high, ["depth", "from", "crown"], SIZE, bold=True)
    marks += label(beside + NUMBER, middle, ["floor to", "opposite", "side"], SIZE)
    marks += label(left - 4, (top + a.bottom) / 2, ["over", "key"], SIZE, anchor="end")
    for name, x, y in (
        ("feed", beside + NUMBER - 3, high),
        ("stop_short", beside + NUMBER - 3, middle),
        ("over_key", left - 4, (top + a.bottom) / 2 - SIZE * 1.4),
    ):
        if name in s.numbers:
            marks.append(Text(x, y, str(s.numbers[name]), STEP, True, "end"))
    s.f.composer.add(
        Block("Figure", tuple(marks), alt="The seat across the shaft with its key, to scale")
    )


def _half_moon_view(s: ShaftSheet, a: Across, scale: float, start: float, end: float) -> float:
    """Draw the seat along the shaft with key, cutter and neck; return the lowest level."""
    pen, seat = PEN, s.seat
    assert seat.cutter_diameter is not None
    assert seat.key.diameter is not None
    whole = float(seat.cutter_diameter.value) * scale
    room = min(end - start - 8, BESIDE, a.radius * 1.7)
    shrink = min(1.0, room / max(whole, 1.0))
    cutter, depth = whole * shrink, (a.floor - a.crown) * shrink
    half = (end - start) / 2
    x = start + half
    # The cutter's upper half stands over the crown: it comes down where the page has no room.
    crown = max(a.crown, s.y + 8 + cutter - depth)
    floor = crown + depth
    marks: list[Mark | Block] = [
        *along(x, crown, cutter, depth, half, floor + 14, pen),
        *_cutter(s, x, floor, cutter, scale * shrink),
        Line(x, crown - cutter * 0.3, x, floor + 18, pen.thin, (9.0, 2.5, 1.8, 2.5)),
    ]
    if s.work.cutter_diameter is None:
        marks += key_along(
            x,
            floor,
            float(seat.key.diameter.value) * scale * shrink,
            float(seat.key.height.most.value) * scale * shrink,
            pen,
        )
    level = floor + 18
    low = level + 8
    if seat.opening_at_crown is not None:
        reach = float(seat.opening_at_crown.value) * scale * shrink / 2
        for side in (-1, 1):
            marks.append(Line(x + side * reach, crown + 2, x + side * reach, level + 2.5, pen.thin))
        marks += span((x - reach, level), (x + reach, level), pen)
        # Narrow, so that it does not read on from what stands beside it.
        text = ["opening", "at crown", marked(seat.opening_at_crown)]
        marks += label(x, level + 12.5, text, SIZE, anchor="middle")
        low = level + 12.5 + 2 * SIZE * 1.18 + 3
    alt = "The seat along the shaft with its cutter and neck, and the opening at the crown"
    rows = seat.opening_at_crown.rows if seat.opening_at_crown is not None else ()
    s.f.composer.add(Block("Figure", tuple(marks), alt=alt, rows=rows))
    return low


def _cutter(s: ShaftSheet, x: float, floor: float, cutter: float, scale: float) -> list[Mark]:
    """Return the cutter in its seat, with its neck if that was measured."""
    neck = float(s.work.neck or 0) * scale
    whole, ring, *cross = cutter_along(x, floor, cutter, neck, PEN)
    return [whole, *([ring] if neck else []), *cross]


def _straight_view(s: ShaftSheet, a: Across, scale: float, start: float, end: float) -> float:
    """Draw a plain seat along the shaft, as its cutter leaves it; return the lowest level."""
    return _milled(s, a, scale, start, end) if s.kind == "end mill" else _disc(s, a, start, end)


def _milled(s: ShaftSheet, a: Across, scale: float, start: float, end: float) -> float:
    pen = PEN
    depth = a.floor - a.crown
    mill = float(s.seat.cutter_width.value) * scale
    first, last, low = start + 10, end - 14, a.floor + 30
    mill = min(mill, (last - first) * 0.4)
    ring = [
        (start, a.crown),
        (first, a.crown),
        (first, a.floor),
        (last, a.floor),
        (last, a.crown),
        (end, a.crown),
        (end, low),
        (start, low),
    ]
    marks: list[Mark | Block] = [
        *hatch(ring, pen),
        Shape(polyline(ring[:6]), stroke=pen.outline),
        Line(first, a.crown, last, a.crown, pen.thin, (3.0, 2.0)),
    ]
    up = min(a.crown - s.y - 4, depth + 24)
    for x in (first, last - mill):
        path = [(x, a.floor), (x, a.floor - up), (x + mill, a.floor - up), (x + mill, a.floor)]
        marks.append(Shape(polyline(path, closed=True), stroke=pen.thin, dash=(9.0, 2.5, 1.8, 2.5)))
    level = low + 9
    for x in (first + mill / 2, last - mill / 2):
        marks.append(Line(x, a.crown - up, x, level + 4, pen.thin, (9.0, 2.5, 1.8, 2.5)))
    marks += span((first + mill / 2, level), (last - mill / 2, level), pen)
    marks += label((first + last) / 2, level + 11, ["travel"], SIZE, anchor="middle")
    s.f.composer.add(
        Block("Figure", tuple(marks), alt="An end-milled seat along the shaft: the mill's travel")
    )
    return level + 14


def _disc(s: ShaftSheet, a: Across, start: float, end: float) -> float:
    """Draw a disc-cut seat, open at the shaft's end: full depth, then the ramp."""
    pen = PEN
    depth = a.floor - a.crown
    run = (end - start) * 0.36
    ratio = 0.0
    if s.seat.cutter_diameter is not None and s.seat.ramp is not None:
        ratio = float(s.seat.ramp.value / s.seat.depth_from_crown.least.value)
        run = min(ratio * depth, (end - start) * 0.5)
        shown = run / ratio
    else:
        shown = depth
    radius = (run**2 + shown**2) / (2 * shown)
    floor = a.crown + shown
    edge = end - 12
    full = edge - run
    low = a.crown + max(depth, shown) + 24
    turn = acos((radius - shown) / radius)
    ramp = arc((full, floor - radius), radius, pi / 2, pi / 2 - turn, 30)
    ring = [(start, floor), (full, floor), *ramp, (end, a.crown), (end, low), (start, low)]
    marks: list[Mark | Block] = [
        *hatch(ring, pen),
        Shape(
            polyline([(start, low), (start, floor), (full, floor), *ramp, (end, a.crown)]),
            stroke=pen.outline,
        ),
        Line(start, a.crown, edge, a.crown, pen.thin, (3.0, 2.0)),
        Line(start, a.crown, start, floor, pen.thin, (3.0, 2.0)),
    ]
    level = low + 9
    for at, high in ((start, low), (full, floor), (edge, a.crown)):
        marks.append(Line(at, high + 2, at, level + 2.5, pen.thin))
    marks += span((start, level), (full, level), pen)
    marks += span((full, level), (edge, level), pen, outside=run < 18)
    below, half = level + 12.5, set_width("ramp", SIZE) / 2
    marks += label((start + full) / 2, below, ["full", "depth"], SIZE, anchor="middle")
    at = max((full + edge) / 2, (start + full) / 2 + 3 * half)
    marks += label(at, below, ["ramp"], SIZE, anchor="middle")
    below += SIZE * 1.18
    s.f.composer.add(
        Block(
            "Figure", tuple(marks), alt="A disc-cut seat along the shaft: full depth, then a ramp"
        )
    )
    return below + 3
