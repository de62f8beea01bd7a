"""The drawings of the steps, in the order of the work; each stands in a cell of its own."""

from __future__ import annotations

from collections.abc import Callable
from math import acos, asin, cos, pi, sin, sqrt

from keyseats.drawing import Pen, arc, arrow, hatch, polyline, span
from keyseats.page import Shape
from keyseats.palette import BODY, INK, PAPER
from keyseats.sections import half_hub, key_across, whole_shaft
from keyseats.setting_up.drawings import teeth
from keyseats.setting_up.sketch import DASH, Sketch, dip
from keyseats.setting_up.system import System

# Every drawing is this tall, and as wide as its cell. [its own lengths]
HEIGHT = 3.7
Drawing = Callable[[Sketch, float, System], None]


def hub_first(d: Sketch, wide: float, system: System) -> None:
    """Draw a hub with its keyway."""
    radius, bore, half, rise = 1.78, 1.08, 0.32, 0.42
    x, y = wide * 0.44, HEIGHT / 2
    turn = asin(half / bore)
    roof = y - bore - rise
    inner = arc(d.at(x, y), bore * d.u, -pi / 2 + turn, 1.5 * pi - turn, 120)
    inner += [d.at(x - half, roof), d.at(x + half, roof)]
    rim = arc(d.at(x, y), radius * d.u, 0, 2 * pi, 120)
    d.marks += hatch(rim, d.pen, slope=-1, holes=(inner,))
    d.circle((x, y), radius)
    d.marks.append(Shape(polyline(inner, closed=True), stroke=d.pen.outline))
    d.say(x, y + d.word * 0.35, "bore", anchor="middle")
    beside = x + radius + 0.35
    d.say(beside, roof + 0.3, "keyway")
    d.leader((beside - 0.1, roof + 0.3 - d.word * 0.35), (x + half, roof + 0.22))


def measure(d: Sketch, wide: float, system: System) -> None:
    """Draw what is measured: shaft, key, cutter, paper or feeler."""
    shaft, paper = 1.05, wide - d.width("or feeler") / 2
    key, cutter = shaft + (paper - shaft) * 0.4, shaft + (paper - shaft) * 0.7
    level, names = 1.25, HEIGHT - 0.2 - 1.18 * d.word
    for x, name in (
        (shaft, "shaft"),
        (key, "key"),
        (cutter, "cutter"),
        (paper, "paper\nor feeler"),
    ):
        d.say(x, names, name, anchor="middle")
    d.shaft((shaft, level), 1.0)
    d.span((shaft - 1.0, level), (shaft + 1.0, level))
    d.rect((key - 0.5, level - 0.5), (key + 0.5, level + 0.5))
    for y in (level - 0.5, level + 0.5):
        d.line((key - 0.58, y), (key - 0.95, y))
    d.span((key - 0.8, level - 0.5), (key - 0.8, level + 0.5))
    d.rect((cutter - 0.32, level - 1.15), (cutter + 0.32, level + 0.5))
    d.rect((paper - 0.05, level - 0.8), (paper + 0.05, level + 0.5), fill=PAPER, thin=True)
    for x, half, outside in ((key, 0.5, False), (cutter, 0.32, True), (paper, 0.05, True)):
        for side in (-half, half):
            d.line((x + side, level + 0.6), (x + side, level + 1.0))
        d.span((x - half, level + 0.85), (x + half, level + 0.85), outside=outside)


def stop_if(d: Sketch, wide: float, system: System) -> None:
    """Draw the cutter in its seat: its width, its neck, and the holder over the shaft."""
    x, half, radius, crown = wide * 0.62, 0.34, 1.5, 1.95
    floor, rim, neck, long = crown + 0.85, 1.4, 0.38, 0.85
    edge = crown + radius - sqrt(radius**2 - half**2)
    slot = [(x - half, edge), (x - half, floor), (x + half, floor), (x + half, edge)]
    d.top(x, crown, radius, HEIGHT - 0.1, slot)
    middle, near = floor - rim, x - half - long
    d.rect((near, middle - neck), (x - half, middle + neck))
    holder = 2.3 / d.scale + 0.3
    d.shank(near, middle, 0.72, holder)
    d.rect((x - half, middle - rim), (x + half, floor))
    d.say(near - holder / 2 + 0.05, middle + d.word * 0.35, "holder", anchor="middle")
    d.say(x + half + 0.75, middle - 0.45, "width")
    d.leader(
        (x + half + 0.65, middle - 0.45 - d.word * 0.35), (x + half, middle - 0.45 - d.word * 0.35)
    )
    d.say(near - 0.75, middle + 1.6, "neck", anchor="end")
    d.leader((near - 0.68, middle + 1.6 - d.word * 0.4), (near + long * 0.5, middle + neck))


def align(d: Sketch, wide: float, system: System) -> None:
    """Draw a shaft that an indicator finds parallel with the slide along it."""
    left, right, top, low = wide * 0.08, wide * 0.92, 1.35, 2.15
    d.rect((left, top), (right, low))
    d.axis((left - 0.3, (top + low) / 2), (right + 0.3, (top + low) / 2))
    for x in (wide * 0.16, wide * 0.84):
        d.line((x, 0.9), (x, top), thick=True)
        d.circle((x, 0.52), 0.42, fill=PAPER)
        d.line((x, 0.54), (x, 0.18))
    d.say(wide * 0.5, 0.78, "same reading", anchor="middle")
    d.span((left, low + 0.5), (right, low + 0.5))
    d.say(wide * 0.5, low + 0.75 + d.word * 0.8, "slide along it", anchor="middle")


def centre(d: Sketch, wide: float, system: System) -> None:
    """Draw the touch on the shaft's side, and the travel."""
    radius, half = 1.12, 0.34
    x, y = wide * 0.55, 1.72
    side, low, top = x - radius, y + 0.3, 0.12
    d.shaft((x, y), radius)
    d.shank(side - 2 * half, (top + low) / 2, 0.28, 1.1)
    d.rect((side - 2 * half, top), (side, low))
    clear = y - radius - 0.14
    d.path([(x - half, 0), (x - half, clear), (x + half, clear), (x + half, 0)], dash=DASH)
    foot = HEIGHT - 0.15
    d.axis((x, 0), (x, foot))
    d.axis((x - radius - 0.25, y), (x + radius + 0.3, y))
    d.line((side - half, low + 0.1), (side - half, foot))
    d.span((side - half, foot - 0.2), (x, foot - 0.2))
    d.say(x + 0.3, foot, "travel", bold=True)


def place(d: Sketch, wide: float, system: System) -> None:
    """Draw the touch on the shaft's end face, and the cutter at its place along."""
    radius, depth, crown, base = 1.05, 0.6, 1.5, 2.25
    end, middle, far = wide * 0.38, wide * 0.77, wide * 0.99
    d.solid([(end, base), (end, crown), *dip(middle, crown, radius, depth), (far, crown)], base)
    d.circle((middle, crown + depth - radius), radius, dash=DASH)
    # The rim touches the end face with the cutter's axis under the crown.
    touch, level = end - radius, crown + 0.15
    d.circle((touch, level), radius, fill=BODY)
    for a, b in (((-0.2, 0.0), (0.2, 0.0)), ((0.0, -0.2), (0.0, 0.2))):
        d.line((touch + a[0], level + a[1]), (touch + b[0], level + b[1]))
    y = base + 0.5
    for x, start in ((touch, level + 0.35), (end, base + 0.1), (middle, crown + depth + 0.1)):
        d.line((x, start), (x, y + 0.12))
    d.span((touch, y), (end, y))
    d.span((end, y), (middle, y))
    under = y + 0.3 + d.word * 0.8
    d.say(end - 0.15, under, "½ diameter", anchor="end")
    d.say(end + 0.2, under, "end to middle")


def witness(d: Sketch, wide: float, system: System) -> None:
    """Draw the mark between the cutter's edges, from above: off centre, then centred.

    The mark lies on the shaft's axis, wherever the cutter stands. Where the cutter stands towards
    the wide gap the work follows it: by half of what the wide gap has over the narrow one.
    """
    level, outline, edge, half, off = 1.45, 1.38, 1.04, 0.12, 0.2
    pen = d.pen
    small = Pen(pen.outline, pen.thin, pen.hatch, pen.arrow * 0.85, pen.spacing)
    for left, right, shift in ((0.0, wide * 0.58, off), (wide * 0.66, wide, 0.0)):
        for y in (level - outline, level + outline):
            d.line((left, y), (right, y), thick=True)
        d.axis((left + 0.1, level), (right, level))
        upper, lower = level - edge + shift, level + edge + shift
        for y in (upper, lower):
            d.line((left + 0.1, y), (right - 0.63, y), dash=DASH)
        long = 0.7
        x = right - 1.15 - long
        turn = [pi * n / 30 for n in range(60)]
        mark = polyline([d.at(x + long * cos(t), level + half * sin(t)) for t in turn], closed=True)
        d.marks.append(Shape(mark, fill=INK))
        at = right - 0.75
        for y in (level - half, level + half):
            d.line((x + 0.1, y), (at + 0.12, y))
        for start, end in ((upper, level - half), (level + half, lower)):
            d.marks += span(d.at(at, start), d.at(at, end), small)
        for y, name in (
            ((upper + level - half) / 2, "a"),
            ((lower + level + half) / 2, "b" if shift else "a"),
        ):
            d.say(at + 0.28, y + d.word * 0.28, name)
    d.moves((0.55, level - 0.5), (0.55, level + 0.75))
    caption = level + outline + 0.25 + d.word * 0.8
    d.say(0.0, caption, "work, by ½ (b − a)")
    d.say(wide * 0.83, caption, "even", anchor="middle")


def touch_crown(d: Sketch, wide: float, system: System) -> None:
    """Draw the feeler between the cutter and the crown."""
    crown, radius, thick, reading = 2.0, 1.35, 0.24, "touch reading"
    x = (wide + 0.95 + d.width("feeler") - 1.65 - d.width(reading)) / 2
    d.top(x, crown, radius, HEIGHT - 0.1, [])
    d.rect((x - 0.75, crown - thick), (x + 0.75, crown), fill=PAPER)
    d.rect((x - 0.38, 0.05), (x + 0.38, crown - thick))
    d.axis((x, 0), (x, HEIGHT - 0.2))
    out = x + 1.3
    for y in (crown - thick, crown):
        d.line((x + 0.83, y), (out + 0.2, y))
    d.span((out, crown - thick), (out, crown), outside=True)
    d.say(out + 0.35, crown - thick - 0.15, reading)
    d.say(out + 0.35, crown + 0.25 + d.word * 0.6, "crown", bold=True)
    d.say(x - 0.95, crown - 0.05, "feeler", anchor="end")


def passes(d: Sketch, wide: float, system: System) -> None:
    """Draw the cutter at its third pass, the work fed against its teeth.

    Before the cutter stands what the third pass takes, beyond the seat's end the whole shaft.
    """
    radius, depth, x = 1.3, 0.72, wide * 0.4
    crown, floor = 2.0, 2.72
    y, base, step = floor - radius, floor + 0.25, depth / 3
    left, right, end = wide * 0.04, wide * 0.96, x - 1.45
    before = dip(end, crown, radius, depth - step)
    turn = acos((radius - step) / radius)
    now = arc((x, y), radius, pi / 2 + turn, pi / 2, 30)
    d.solid([(left, crown), *before[: len(before) // 2 + 1], *now, (right, floor)], base)
    for n in range(3):
        level = crown + n * step
        start = x + sqrt(radius**2 - (level - y) ** 2) + 0.15
        d.line((start, level), (right, level), dash=DASH)
    rim = polyline(teeth(d.at(x, y), radius * d.u), closed=True)
    d.marks.append(Shape(rim, fill=PAPER, stroke=d.pen.outline))
    way = arc(d.at(x, y), radius * 0.55 * d.u, -pi * 0.85, -pi * 0.1, 30)
    d.marks.append(Shape(polyline(way[:-3]), stroke=d.pen.outline))
    d.marks.append(arrow(way[-1], way[-4], d.bold))
    lines = f"about {system.deepest}\na pass"
    d.say(right, crown - 0.35 - 1.18 * d.word, lines, anchor="end")
    level = base + 0.5
    d.say(wide * 0.38, level + d.word * 0.35, "work", anchor="end")
    d.moves((wide * 0.41, level), (wide * 0.72, level))


def stop_short(d: Sketch, wide: float, system: System) -> None:
    """Draw the seat before its last cut: what is measured, and what is left."""
    radius, half, now, full = 1.28, 0.36, 0.52, 0.86
    floor, left_over = "floor to\nopposite\nside", "left to\nfeed"
    before, after = 0.98 + d.width(floor), 0.72 + d.width(left_over)
    x, crown = (wide + before - after) / 2, 0.58
    bottom = crown + 2 * radius
    d.marks += whole_shaft(d.across(x, crown, radius, half, now), d.pen)
    seat = [
        (x - half, crown + now),
        (x - half, crown + full),
        (x + half, crown + full),
        (x + half, crown + now),
    ]
    d.path(seat, dash=DASH)
    left, right = x - radius - 0.65, x + radius + 0.35
    for y, start in ((crown + now, x - half - 0.1), (bottom, x - 0.1)):
        d.line((start, y), (left - 0.2, y))
    d.span((left, crown + now), (left, bottom))
    d.say(left - 0.33, (crown + now + bottom) / 2 - d.word * 0.83, floor, anchor="end")
    for y in (crown + now, crown + full):
        d.line((x + half + 0.1, y), (right + 0.2, y))
    d.span((right, crown + now), (right, crown + full), outside=True)
    d.say(right + 0.37, crown + (now + full) / 2 - d.word * 0.25, left_over)


def over_key(d: Sketch, wide: float, system: System) -> None:
    """Draw what is measured over the seated key."""
    radius, half, depth, tall = 1.28, 0.36, 0.58, 0.9
    x, crown = wide * 0.5, HEIGHT - 0.56 - 2 * 1.28
    a = d.across(x, crown, radius, half, depth)
    d.marks += [*whole_shaft(a, d.pen), *key_across(a, tall * d.u, d.pen)]
    top, bottom, left = crown + depth - tall, crown + 2 * radius, x - radius - 0.65
    for y, start in ((top, x - half - 0.1), (bottom, x - 0.1)):
        d.line((start, y), (left - 0.2, y))
    d.span((left, top), (left, bottom))
    d.say(left - 0.33, (top + bottom) / 2 - d.word * 0.25, "over\nkey", anchor="end", bold=True)


def hub_last(d: Sketch, wide: float, system: System) -> None:
    """Draw the hub on the shaft, its floor to the opposite side."""
    wall, radius, half, depth, tall, rise = 0.5, 1.22, 0.34, 0.52, 0.8, 0.42
    x, crown = wide * 0.36, HEIGHT - 2 * 1.22 - 0.6
    a = d.across(x, crown, radius, half, depth)
    d.marks += half_hub(a, rise * d.u, wall * d.u, d.pen)
    d.marks += [*whole_shaft(a, d.pen), *key_across(a, tall * d.u, d.pen)]
    edge = crown + radius - sqrt(radius**2 - half**2)
    roof, bottom, right = edge - rise, crown + 2 * radius, x + radius + wall + 0.5
    for y, start in ((roof, x + half + 0.1), (bottom, x + 0.1)):
        d.line((start, y), (right + 0.25, y))
    d.span((right, roof), (right, bottom))
    d.say(right + 0.45, (roof + bottom) / 2 - d.word * 0.83, "floor to\nopposite\nside")


DRAWINGS: tuple[Drawing, ...] = (
    hub_first,
    measure,
    stop_if,
    align,
    centre,
    place,
    witness,
    touch_crown,
    passes,
    stop_short,
    over_key,
    hub_last,
)
