"""The head of a shaft sheet: the seat to scale, and every figure beside it."""

from __future__ import annotations

from math import acos, pi

from keyseats.drawing import Pen, arc, hatch, label, polyline, span
from keyseats.frame import thick_and_thin
from keyseats.page import Block, Line, Mark, Shape
from keyseats.sections import Across, along, key_across, key_along, whole_shaft
from keyseats.setting import figure
from keyseats.shaft_sheet.composing import FIGURE, SMALL, ShaftSheet
from keyseats.standing import Limits, Quantity

ROW = 11.9
PEN = Pen(outline=1.3, thin=0.6, hatch=0.45, arrow=6.0, spacing=5.0)


def drawings(s: ShaftSheet) -> None:
    """Draw the seat across and along the shaft, and set the table of its figures."""
    f, seat = s.f, s.seat
    top = s.y + 8
    size = s.drawn
    key_top = float(seat.key_above_edge.most.value - seat.arc_height.value)
    scale = size / float(s.work.shaft)
    above = max(key_top * scale, 2.0)
    across = Across(
        f.left + 140,
        top + 6 + above,
        size / 2,
        float(seat.cutter_width.value) / 2 * scale,
        float(seat.depth_from_crown.least.value) * scale,
    )
    _across_view(s, across, scale)
    if s.half_moon:
        _along_view(s, across, scale)
    else:
        _straight_view(s, f.left + 258, across, scale)
    _figure_table(s, _table_at(s), s.y + 16)
    s.y = max(across.bottom + 13, s.y + 16 + (10.6 if s.unit == "mm" else 9.6) * ROW)
    thick_and_thin(f, s.y)
    s.y += 3


def _table_at(s: ShaftSheet) -> float:
    return s.f.right - 163


def _across_view(s: ShaftSheet, a: Across, scale: float) -> None:
    pen, size = PEN, 8.6
    height = float(s.seat.key.height.most.value) * scale
    top = a.floor - height
    marks: list[Mark | Block] = [*whole_shaft(a, pen), *key_across(a, height, pen)]
    right, far, left = a.x + a.radius + 16, a.x - a.radius - 56, a.x - a.radius - 12
    marks += [
        Line(a.x + a.half_width + 2, a.floor, right + 4, a.floor, pen.thin),
        Line(a.x, a.crown, right + 4, a.crown, pen.thin),
        Line(a.left - 2, a.floor, left - 4, a.floor, pen.thin),
        Line(a.left - 2, top, far - 4, top, pen.thin),
        Line(a.x - 6, a.bottom, far - 4, a.bottom, pen.thin),
    ]
    marks += span((right, a.crown), (right, a.floor), pen, outside=a.floor - a.crown < 16)
    marks += span((left, a.floor), (left, a.bottom), pen)
    marks += span((far, top), (far, a.bottom), pen)
    marks += label(
        right + 6, (a.crown + a.floor) / 2 - 6, ["depth", "from", "crown"], size, bold=True
    )
    marks += label(far - 5, top + 10, ["over", "key"], size, anchor="end")
    marks += label(left - 5, a.bottom - 34, ["floor to", "opposite", "side"], size, anchor="end")
    s.f.composer.add(
        Block(
            "Figure",
            tuple(marks),
            alt="The seat across the shaft with its key, to scale",
        )
    )


def _along_view(s: ShaftSheet, a: Across, scale: float) -> None:
    pen, size, seat = PEN, 8.6, s.seat
    assert seat.cutter_diameter is not None
    assert seat.key.diameter is not None
    cutter = float(seat.cutter_diameter.value) * scale
    shrink = min(1.0, 92.0 / max(cutter, 1.0))
    cutter, depth = cutter * shrink, (a.floor - a.crown) * shrink
    half = 54.0
    x = _table_at(s) - 14 - half
    floor = a.crown + depth
    marks: list[Mark | Block] = [
        *along(x, a.crown, cutter, depth, half, floor + 26, pen),
        *key_along(
            x,
            floor,
            float(seat.key.diameter.value) * scale * shrink,
            float(seat.key.height.most.value) * scale * shrink,
            pen,
        ),
    ]
    if seat.opening_at_crown is not None:
        reach = float(seat.opening_at_crown.value) * scale * shrink / 2
        level = floor + 38
        for side in (-1, 1):
            marks.append(Line(x + side * reach, a.crown + 2, x + side * reach, level + 4, pen.thin))
        marks += span((x - reach, level), (x + reach, level), pen)
        marks += label(x, level + 12, ["opening at crown"], size, anchor="middle")
    s.f.composer.add(Block("Figure", tuple(marks), alt="The seat and its key along the shaft"))


def _straight_view(s: ShaftSheet, x: float, a: Across, scale: float) -> None:
    """Draw a disc-cut seat along the shaft, open at its end: full depth, then the ramp."""
    pen, size = PEN, 8.6
    depth = a.floor - a.crown
    radius = max(depth * 2.6, 34.0)
    run = (2 * radius * depth - depth**2) ** 0.5
    full = x + 44
    end = full + run
    foot_level = a.floor + 30
    turn = acos((radius - depth) / radius)
    ramp = arc((full, a.floor - radius), radius, pi / 2, pi / 2 - turn, 30)
    ring = [
        (x, a.floor),
        (full, a.floor),
        *ramp,
        (end + 16, a.crown),
        (end + 16, foot_level),
        (x, foot_level),
    ]
    marks: list[Mark | Block] = [
        *hatch(ring, pen),
        Shape(
            polyline([(x, foot_level), (x, a.floor), (full, a.floor), *ramp, (end + 16, a.crown)]),
            stroke=pen.outline,
        ),
        Line(x, a.crown, end, a.crown, pen.thin, (3.0, 2.0)),
        Line(x, a.crown, x, a.floor, pen.thin, (3.0, 2.0)),
    ]
    level = foot_level + 10
    for at, low in ((x, foot_level), (full, a.floor), (end, a.crown)):
        marks.append(Line(at, low + 2, at, level + 4, pen.thin))
    marks += span((x, level), (full, level), pen)
    marks += span((full, level), (end, level), pen, outside=run < 18)
    marks += label((x + full) / 2, level + 12, ["full depth"], size, anchor="middle")
    marks += label((full + end) / 2 + 2, level + 12, ["ramp"], size, anchor="middle")
    s.f.composer.add(
        Block(
            "Figure", tuple(marks), alt="A disc-cut seat along the shaft: full depth, then a ramp"
        )
    )


def _figure_table(s: ShaftSheet, x: float, y: float) -> None:
    c, seat, f = s.f.composer, s.seat, s.f
    rows: list[tuple[str, Limits | Quantity | None]] = [
        ("seat width", seat.seat_width),
        ("depth at edge", seat.depth_at_edge),
        ("arc height", seat.arc_height),
        ("key above edge", seat.key_above_edge),
        ("opening at crown", seat.opening_at_crown),
        ("largest neck", seat.largest_neck),
        ("floor radius, most", seat.floor_radius.most if seat.floor_radius else None),
    ]
    hub: list[tuple[str, Limits | Quantity | None]] = [
        ("hub width", seat.hub_width),
    ]
    c.say(x, y - 2, "Seat", FIGURE, bold=True, role="H2")
    c.say(f.right - 52, y - 2, "least", SMALL, anchor="end")
    c.say(f.right - 4, y - 2, "most", SMALL, anchor="end")
    y += 12
    for group in (rows, hub):
        for name, value in group:
            if value is None:
                continue
            if group is hub:
                y += 5
                c.say(x, y, f"Hub, {_bore(s)} bore", FIGURE, bold=True, role="H2")
                y += ROW
            _table_row(s, x, y, name, value)
            y += ROW
    _table_row(s, x, y, "floor to opp. side", seat.hub_floor_to_opposite_side)


def _bore(s: ShaftSheet) -> str:
    return s.setting(s.work.hub_bore)


def _table_row(s: ShaftSheet, x: float, y: float, name: str, value: Limits | Quantity) -> None:
    c, f, size = s.f.composer, s.f, FIGURE
    c.say(x, y, name, 8.2, role="TH", header="Row")
    if isinstance(value, Limits):
        c.add(figure(f.right - 50, y, value.least, size))
        c.add(figure(f.right - 4, y, value.most, size))
    else:
        shown = value if value.text else value.printed(4 if s.unit == "in" else 2, "down")
        # A single figure stands between the two columns: it is neither their least nor their most.
        c.add(figure(f.right - 27, y, shown, size))
