"""Five keys side by side on one crown line, their heights stretched, with a scale at each side."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, sqrt

from keyseats.drawing import Pen, Point, broken, hatch, label, polyline, widest
from keyseats.frame import Frame
from keyseats.graphs.scales import CAP, TICK, Marks, pen_for, steps
from keyseats.graphs.slip import Slips, State
from keyseats.lengths import decimal, read_fraction
from keyseats.page import Line, Shape
from keyseats.palette import BODY
from keyseats.sections import WAVE
from keyseats.setting import box, set_width, words

# Room left and right of the five for scales and the heads of rows, and a key's width if the
# heights were stretched by just what fills the page. [unit]
LEFT, RIGHT, KEY = 5.0, 3.0, {"plain": 2.6, "half-moon": 2.1}
# Over the highest key or hub floor, under a floor, and round a column. [unit]
ABOVE, BELOW, ROUND = 1.3, 0.6, 0.3
# From a limit to a line that breaks a section off. [unit]
CLEAR = 0.4
LEADING = 1.15
COUNT = 5


@dataclass(frozen=True)
class Field:
    """Where the five stand and how large they are drawn: heights so many times widths. [pt]"""

    left: float
    right: float
    top: float
    bottom: float
    crown: float
    tall: float
    times: int
    shaft: Fraction

    @property
    def wide(self) -> float:
        """Return what one unit of length takes across."""
        return self.tall / self.times

    @property
    def each(self) -> float:
        """Return the room of one key."""
        return (self.right - self.left) / COUNT

    def middle(self, n: int) -> float:
        """Return the middle of a key, counted from nought."""
        return self.left + self.each * (n + 0.5)

    def fed(self, depth: Fraction) -> float:
        """Return the level of a depth from the crown."""
        return self.crown + float(depth) * self.tall

    def over(self, height: Fraction) -> float:
        """Return the level of what is measured from the opposite side of the shaft."""
        return self.fed(self.shaft - height)

    def surface(self, x: float, start: float, end: float) -> list[Point]:
        """Return the shaft's surface from one distance off a key's middle to another."""
        radius, points = float(self.shaft) / 2, 24
        offs = [start + (end - start) * k / points for k in range(points + 1)]
        falls = [radius - sqrt(radius**2 - (off / self.wide) ** 2) for off in offs]
        return [
            (x + off, self.crown + fall * self.tall) for off, fall in zip(offs, falls, strict=True)
        ]


def field_for(f: Frame, told: Slips, top: float, bottom: float) -> Field:
    """Return the field that fills a height, stretched by a whole number.

    Parameters
    ----------
    f
        The page.
    told
        What is drawn.
    top, bottom
        Levels between which everything stands. [pt]
    """
    u, states = f.unit, told.states()
    over = max(states[0].over.value, told.hub.value) - told.shaft
    tall = (bottom - top - u * (ABOVE + BELOW)) / float(over + states[-1].fed.value)
    kind = "plain" if told.seat.key.diameter is None else "half-moon"
    times = max(1, round(tall * float(told.seat.key.width.value) / (KEY[kind] * u)))
    crown = top + u * ABOVE + float(over) * tall
    left, right = f.left + u * LEFT, f.right - u * RIGHT
    return Field(left, right, top, bottom, crown, tall, times, told.shaft)


def shade_limits(f: Frame, told: Slips, field: Field) -> None:
    """Lay a band between the limits, for what is fed and for over key, under all that is drawn."""
    for first, last in _limits(told, field):
        f.composer.shade(field.left, first, field.right, last)


def drawn(f: Frame, told: Slips, field: Field) -> Marks:
    """Return the five keys with their seats and hubs, the limits and both scales."""
    u = f.unit
    pen = replace(pen_for(f), spacing=u * 0.42)
    marks: Marks = []
    for n, state in enumerate(told.states()):
        marks += _one(f, told, field, (n, state), pen)
    depths, overs = _limits(told, field)
    # The limits are drawn once, over all that they pass.
    for level in (*overs, *depths):
        marks.append(Line(field.left, level, field.right, level, pen.thin))
    marks += _left_scale(f, told, field, depths, pen)
    marks += _right_scale(f, told, field, overs, pen)
    low = f.note * CAP / 2
    middle = (sum(overs) / 2 + low, sum(depths) / 2 + low)
    return [
        *marks,
        words(field.left - u * 0.35, middle[0], "limits", f.note, anchor="end"),
        words(field.right + u * 0.35, middle[1], "limits", f.note),
    ]


def _limits(told: Slips, field: Field) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return the levels of the limits of the depth that is fed, and of over key."""
    _, highest, lowest, *_ = told.states()
    return (
        (field.fed(highest.fed.value), field.fed(lowest.fed.value)),
        (field.over(highest.over.value), field.over(lowest.over.value)),
    )


def _one(f: Frame, told: Slips, field: Field, numbered: tuple[int, State], pen: Pen) -> Marks:
    """Return one key in its seat, under the hub that it lets pass or that it stops."""
    u, (n, state) = f.unit, numbered
    x, half = field.middle(n), field.each / 2 - u * ROUND
    side = float(told.seat.key.width.value) / 2 * field.wide
    floor, top = field.fed(state.fed.value), field.over(state.over.value)
    roof, low, high = field.over(told.hub.value), floor + u * BELOW, field.top
    least, most = _limits(told, field)[0]
    if least - u * CLEAR < low < most + u * CLEAR:
        # A break line is not to be taken for a limit.
        low = most + u * CLEAR
    left, right = field.surface(x, -half, -side), field.surface(x, side, half)
    ends = left[0][1], right[-1][1]
    cut = [*left, (x - side, floor), (x + side, floor), *right]
    below = _broken_off(x, half, ends, low)
    marks: Marks = [
        *hatch([*cut, *below], pen),
        Shape(polyline(cut), stroke=pen.outline),
        Shape(polyline(below), stroke=pen.thin),
    ]
    hub = [*left, (x - side, roof), (x + side, roof), *right]
    above = _broken_off(x, half, ends, high)
    key = Shape(box(x - side, top, x + side, floor), fill=BODY, stroke=pen.outline)
    if state.over.value > told.hub.value:
        # The hub where it would stand, if the key let it.
        whole = polyline([*hub, (x + half, high), (x - half, high)], closed=True)
        marks += [key, Shape(whole, stroke=pen.thin * 1.3, dash=(u * 0.3, u * 0.15))]
        marks.append(words(x, (field.crown + floor) / 2, "key", f.note, anchor="middle"))
        marks.append(words(x, high + u * 0.75, "hub", f.note, anchor="middle"))
    else:
        marks += [
            *hatch([*hub, *above], pen, slope=-1),
            Shape(polyline(hub), stroke=pen.outline),
            Shape(polyline(above), stroke=pen.thin),
            key,
        ]
    crown = polyline(field.surface(x, -side, side))
    return [*marks, Shape(crown, stroke=pen.thin, dash=(u * 0.18, u * 0.12))]


def _broken_off(x: float, half: float, ends: tuple[float, float], level: float) -> list[Point]:
    """Return the break line from a column's right side round to its left."""
    return [
        *broken((x + half, ends[1]), (x + half, level), WAVE),
        *broken((x + half, level), (x - half, level), WAVE),
        *broken((x - half, level), (x - half, ends[0]), WAVE),
    ]


def _left_scale(
    f: Frame, told: Slips, field: Field, limits: tuple[float, float], pen: Pen
) -> Marks:
    """Return the scale of depths, nought at the crown, its piece between the limits heavy."""
    u, case, size = f.unit, told.case, f.second
    x, long = field.left - u * 0.1, read_fraction(case.long)
    deep = _next(told.states()[-1].fed.value, read_fraction(case.short))
    named = f.unit * 0.64
    marks: Marks = [
        Line(x, field.crown, field.right + u * 0.1, field.crown, u * 0.06),
        Line(x, field.crown, x, field.fed(deep), pen.thin),
        Line(x, limits[0], x, limits[1], u * 0.2),
        *label(
            f.left, field.crown - u * 1.55, ["depth", "from crown"], named, bold=True, leading=1.15
        ),
    ]
    for value in steps(Fraction(0), deep, read_fraction(case.short)):
        far = u * (TICK if value % long == 0 else TICK / 2)
        marks.append(Line(x, field.fed(value), x - far, field.fed(value), pen.thin))
    for value in steps(Fraction(0), deep, long):
        text = decimal(value, case.places) if value else "0"
        base = field.fed(value) + size * CAP / 2
        marks.append(words(x - u * 0.5, base, text, size, anchor="end"))
    if told.seat.key.diameter is None:
        marks += _stops(f, told, field, x)
    return marks


def _stops(f: Frame, told: Slips, field: Field, x: float) -> Marks:
    """Return the tick down to which the hub is stopped, named where no figure of the scale is."""
    u, case, size = f.unit, told.case, f.note
    depth, long = told.stops.value, read_fraction(case.long)
    level, near = field.fed(depth), depth // long * long
    figure = set_width(decimal(near, case.places), f.second)
    past = x - u * 0.7 - figure
    # Left of narrow figures, or else between two of them; on the tick, or under it if freer there.
    lines, end = ["tallest key", "stops", "the hub"], past - u * 0.1
    if end - widest(lines, size) < f.left:
        lines, end = ["tallest key", "stops the hub"], x - u * 0.6
    fall = size * LEADING * (len(lines) - 1)
    first = level - u * 0.2 - fall
    if level - field.fed(near) < field.fed(near + long) - level and end > past:
        first = level + u * 0.2 + size * CAP
    past = end - widest(lines[-1:], size)
    return [
        Line(x, level, past, level, u * 0.07),
        *label(end, first, lines, size, anchor="end", leading=LEADING),
    ]


def _right_scale(
    f: Frame, told: Slips, field: Field, limits: tuple[float, float], pen: Pen
) -> Marks:
    """Return the scale of over key, the shaft's size at the crown, between the limits heavy."""
    u, case, size = f.unit, told.case, f.second
    x, long = field.right + u * 0.1, read_fraction(case.long)
    high = _next(told.states()[0].over.value, read_fraction(case.short))
    marks: Marks = [
        Line(x, field.crown, x, field.over(high), pen.thin),
        Line(x, limits[0], x, limits[1], u * 0.2),
        words(f.right, field.over(high) - u * 1.1, "over key", u * 0.64, anchor="end"),
        words(x + u * 0.5, field.crown + u * 1.1, "crown", f.note),
    ]
    for value in steps(told.shaft, high, read_fraction(case.short)):
        far = u * (TICK if value % long == 0 else TICK / 2)
        marks.append(Line(x, field.over(value), x + far, field.over(value), pen.thin))
    for value in steps(told.shaft, high, long):
        base = field.over(value) + size * CAP / 2
        marks.append(words(x + u * 0.5, base, decimal(value, case.places), size))
    return marks


def _next(value: Fraction, step: Fraction) -> Fraction:
    """Return the multiple of a step at a value or past it."""
    return ceil(value / step) * step
