"""Arc height against shaft, a curve a seat width."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import dist

from keyseats import geometry
from keyseats.drawing import Point, label, span
from keyseats.families.inch_plain import fraction_text
from keyseats.frame import Frame
from keyseats.graphs.scales import (
    CAP,
    CURVE,
    PLAIN,
    TICK,
    Box,
    Marks,
    bare,
    beside_ticks,
    floats,
    on_paper,
    path,
    pen_for,
    steps,
)
from keyseats.graphs.widths import Reach, reaches
from keyseats.lengths import decimal, read_fraction
from keyseats.load import Tables
from keyseats.page import Block, Curve, Graph, Line, Scale, Shape
from keyseats.palette import PAPER
from keyseats.sections import Across, top_of_shaft
from keyseats.setting import DAGGER, box, height_of, paragraph, set_width, words
from keyseats.sum_line import sum_line

POINTS = 128
# A name is so much nearer to its own curve than to another.
NEARER = 1.2
HOW = "To read:"


@dataclass(frozen=True)
class Field:
    """What the graph spans, what its ticks are, and which seat is read off as an example.

    Our layout, no source. ``heavy`` and ``thin`` say where the two weights are named: a width, a
    shaft.
    """

    unit: str
    first: str
    last: str
    named: str
    short: str
    top: str
    step: str
    short_step: str
    places: int
    shaft: str
    width: str
    heavy: tuple[str, str]
    thin: tuple[str, str]

    def size(self, value: Fraction) -> str:
        """Return a nominal size as the trade writes it."""
        return fraction_text(value) if self.unit == "in" else f"{float(value):g}"


INCH = Field(
    unit="in",
    first="1/4",
    last="2",
    named="1/4 3/8 1/2 5/8 3/4 7/8 1 1-1/4 1-1/2 1-3/4 2",
    short="1/16",
    top="0.040",
    step="0.005",
    short_step="0.001",
    places=4,
    shaft="1",
    width="1/4",
    heavy=("3/8", "1-7/16"),
    thin=("3/8", "1-3/16"),
)
METRIC = Field(
    unit="mm",
    first="5",
    last="50",
    named="5 10 15 20 25 30 35 40 45 50",
    short="1",
    top="1.2",
    step="0.1",
    short_step="0.02",
    places=3,
    shaft="25",
    width="8",
    heavy=("10", "33"),
    thin=("8", "35"),
)
FIELDS = {"in": INCH, "mm": METRIC}


def arc_height(f: Frame, tables: Tables, unit: str, y: float, bottom: float) -> None:
    """Set the sum that the arc height stands in, and under it the graph."""
    u, field = f.unit, FIELDS[unit]
    sums = [
        ("depth at edge", "from the key's chart"),
        ("+", ""),
        ("arc height", "from this graph"),
        ("=", ""),
        ("depth from crown", "feed this after the touch"),
    ]
    if unit == "mm":
        sums = [
            ("depth from crown", "from the key's chart: feed this"),
            ("−", ""),
            ("arc height", "from this graph"),
            ("=", ""),
            ("depth at edge", "measured down the wall"),
        ]
    y = sum_line(f, y, sums)
    f.composer.rule(f.left, f.right, y, u * 0.03)
    last = read_fraction(field.last)
    shown = [
        one
        for one in reaches(tables, unit, last)
        if one.last > read_fraction(field.first) + last / 40
    ]
    said = _how(field, shown)
    note = height_of(said, f.note, f.right - f.left, HOW) + f.note * 1.75
    f.composer.add(
        paragraph(f.left, bottom - note + f.note * 0.95, said, f.note, f.right - f.left, lead=HOW)[
            0
        ]
    )
    names = max(set_width(field.size(one.width.value), u, True) for one in shown)
    left = f.left + u * (3.45 if unit == "in" else 2.75)
    top = y + u * 1.75
    graph = _graph(
        f,
        field,
        shown,
        (left, top, f.right - u * 0.3 - names - left, bottom - u * 1.9 - note - top),
    )
    marks: Marks = [graph]
    marks += _scales(f, field, graph)
    marks += _curve_names(f, field, graph, shown)
    marks += _weights(f, field, graph)
    marks += _inset(f, graph)
    marks += _read_off(f, field, graph)
    rows = tuple(dict.fromkeys(row for one in shown for row in one.rows))
    f.composer.add(Block("Figure", tuple(marks), alt=_in_words(field, shown), rows=rows))


def _graph(
    f: Frame, field: Field, shown: list[Reach], place: tuple[float, float, float, float]
) -> Graph:
    u = f.unit
    first, last = read_fraction(field.first), read_fraction(field.last)
    top = read_fraction(field.top)
    curves = []
    for one in shown:
        curves.append(_curve(one.width.value, max(one.first, first), one.last, u * CURVE))
        if one.plain is not None:
            start = max(one.plain.least.value, first)
            curves.append(_curve(one.width.value, start, one.plain.most.value, u * PLAIN))
    named = [read_fraction(n) for n in field.named.split()]
    scales = (
        Scale(
            "left",
            floats(steps(Fraction(0), top, read_fraction(field.step))),
            floats(steps(Fraction(0), top, read_fraction(field.short_step))),
        ),
        Scale("bottom", floats(named), floats(steps(first, last, read_fraction(field.short)))),
    )
    return Graph(
        *place,
        (float(first), float(last)),
        (0.0, float(top)),
        tuple(curves),
        scales,
        u * 0.035,
        u * TICK,
        float(read_fraction(field.short)),
    )


def _curve(width: Fraction, first: Fraction, last: Fraction, weight: float) -> Curve:
    shafts = [first + (last - first) * Fraction(n, POINTS) for n in range(POINTS + 1)]
    return Curve(floats(shafts), floats(geometry.arc_height(d, width) for d in shafts), weight)


def _scales(f: Frame, field: Field, graph: Graph) -> Marks:
    u = f.unit
    top = read_fraction(field.top)
    high = [
        (v, decimal(v, 3 if field.unit == "in" else 1))
        for v in steps(Fraction(0), top, read_fraction(field.step))
    ]
    named = [(read_fraction(n), n) for n in field.named.split()]
    marks = beside_ticks(f, graph, "left", high, f.second)
    marks += beside_ticks(f, graph, "bottom", named, f.second)
    base = graph.y + graph.height + u * (TICK + 0.16) + f.second * CAP
    marks.append(words(f.left, base, "shaft", u * 0.64))
    marks.append(words(f.left, graph.y - u * 0.85, "arc height", u * 0.64))
    return marks


def _curve_names(f: Frame, field: Field, graph: Graph, shown: list[Reach]) -> Marks:
    """Name each curve past its end, or under it if something else is in that place."""
    u = f.unit
    marks: Marks = []
    taken = _ink(graph, field)
    ends = {one.width.value: _ends(graph, one) for one in shown}
    for one in reversed(shown):
        name = field.size(one.width.value)
        wide = set_width(name, u, True)
        own = ends[one.width.value]
        others = [end for width, two in ends.items() if width != one.width.value for end in two]
        (x, y), (end, low) = own
        places = [
            (end + u * 0.28, low + u * 0.36),
            (end + u * 0.22, low + u * 0.85),
            (end - wide, low + u * 1.1),
            (x - wide - u * 0.25, y + u * 0.36),
            (x + u * 0.2, y - u * 0.35),
        ]
        free = [
            (left, base)
            for left, base in places
            if not _held(bare(left, base, name, u, bold=True), taken)
            and _own((left + wide / 2, base - u * CAP / 2), own, others)
        ]
        # A crowd of curves that no list has yet: a name in the way is better than none.
        for left, base in (free or places)[:1]:
            beside = left > graph.x + graph.width
            name_there = [words(left, base, name, u, bold=True)]
            marks += name_there if beside else on_paper(left, base, name, u, bold=True)
            # Two names on one level must not read as one.
            start, gap = left - u * 0.6, (wide + u * 1.2) / 8
            taken += [(start + gap * n, base - u * k) for n in range(9) for k in (0, 0.35, 0.7)]
    return marks


def _ends(graph: Graph, one: Reach) -> tuple[Point, Point]:
    """Return where a width's curve starts and ends on the page. [pt]"""
    first = max(one.first, Fraction(graph.across[0]))
    low, high = (
        graph.at(float(d), float(geometry.arc_height(d, one.width.value)))
        for d in (first, one.last)
    )
    return low, high


def _own(name: Point, own: tuple[Point, Point], others: list[Point]) -> bool:
    """Return whether a name is clearly nearer to an end of its curve than to any other's."""
    far = min(dist(name, end) for end in own)
    return all(dist(name, end) > far * NEARER for end in others)


def _ink(graph: Graph, field: Field) -> list[Point]:
    """Return points of all curves on the page, and of the way that is read off. [pt]"""
    found = [graph.at(*point) for c in graph.curves for point in zip(c.xs, c.ys, strict=True)]
    shaft = read_fraction(field.shaft)
    value = float(geometry.arc_height(shaft, read_fraction(field.width)))
    found += [graph.at(float(shaft), value * n / 60) for n in range(61)]
    first = float(read_fraction(field.first))
    return found + [graph.at(first + (float(shaft) - first) * n / 60, value) for n in range(61)]


def _held(room: Box, taken: list[Point]) -> bool:
    left, top, right, foot = room
    return any(left < x < right and top < y < foot for x, y in taken)


def _weights(f: Frame, field: Field, graph: Graph) -> Marks:
    """Name the two weights beside one curve."""
    u = f.unit
    marks: Marks = []
    for (width, shaft), text in (
        (field.heavy, "heavy: plain key"),
        (field.thin, f"thin: half-moon keys{'' if field.unit == 'in' else DAGGER}"),
    ):
        value = geometry.arc_height(read_fraction(shaft), read_fraction(width))
        x, y = graph.at(float(read_fraction(shaft)), float(value))
        marks += on_paper(x + u * 0.3, y - u * 0.3, text, u * 0.64)
    return marks


def _inset(f: Frame, graph: Graph) -> Marks:
    """Return the seat's crown and edges, in the corner where no curve runs."""
    u, pen, size = f.unit, pen_for(f), f.unit * 0.64
    wide, high = u * 5.0, u * 5.1
    left, top = graph.x + u * 0.55, graph.y + u * 0.35
    a = Across(left + u * 2.05, top + u * 1.75, u * 2.8, u * 1.2, u * 2.0)
    half, out = u * 1.95, u * 2.45
    marks: Marks = [
        Shape(box(left - u * 0.1, top, left + wide, top + high), fill=PAPER),
        *top_of_shaft(a, half, a.floor + u * 0.85, pen),
    ]
    for level, begin in ((a.crown, 0.0), (a.edge, a.half_width + u * 0.12)):
        marks.append(Line(a.x + begin, level, a.x + out + u * 0.3, level, pen.thin))
    marks += span((a.x + out, a.crown), (a.x + out, a.edge), pen, outside=True)
    marks.append(words(a.x + out + u * 0.3, a.crown - u * 0.9, "arc height", size, anchor="end"))
    level = a.floor - u * 0.35
    marks += span((a.left, level), (a.right, level), pen)
    marks += label(a.x, level - u * 0.8, ["seat", "width"], size, anchor="middle", leading=1.0)
    return marks


def _read_off(f: Frame, field: Field, graph: Graph) -> Marks:
    """Return the way from a shaft up to its curve and over to the arc height."""
    u, pen = f.unit, pen_for(f)
    shaft, width = read_fraction(field.shaft), read_fraction(field.width)
    value = geometry.arc_height(shaft, width)
    foot, here = graph.at(float(shaft), 0.0), graph.at(float(shaft), float(value))
    marks = path([foot, here, (graph.x + u * 0.08, here[1])], replace(pen, arrow=u * 0.55))
    text = decimal(value, field.places)
    return marks + on_paper(graph.x + u * 1.0, here[1] - u * 0.28, text, f.second, bold=True)


def _how(field: Field, shown: list[Reach]) -> str:
    """Return how the graph is read."""
    shaft = field.size(read_fraction(field.shaft))
    width = field.size(read_fraction(field.width))
    value = geometry.arc_height(read_fraction(field.shaft), read_fraction(field.width))
    only = [field.size(one.width.value) for one in shown if one.plain is None]
    return (
        f"up from the shaft to the curve of the seat's width, then left: shaft {shaft}, seat "
        f"{width} wide, {decimal(value, field.places)}. A short tick is {field.short_step}; the "
        f"fine dots stand {field.short} of shaft apart. Half-moon keys only: {', '.join(only)}. "
        "The figure in full: Setting up, sheet 3."
    )


def _in_words(field: Field, shown: list[Reach]) -> str:
    names = ", ".join(field.size(one.width.value) for one in shown)
    return (
        f"Arc height against shaft from {field.first} to {field.last} {field.unit}, a falling "
        f"curve for each seat width: {names}"
    )
