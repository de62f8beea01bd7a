"""What the depth that was fed does to the key: how high it stands, and what then happens."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import floor, pi

from keyseats import clearance
from keyseats.drawing import curve
from keyseats.families import inch_half_moon, inch_plain, metric_half_moon, metric_plain
from keyseats.frame import Frame
from keyseats.graphs.scales import (
    CURVE,
    PLAIN,
    TICK,
    Marks,
    beside_ticks,
    floats,
    on_paper,
    pen_for,
    steps,
)
from keyseats.lengths import article, decimal, read_fraction
from keyseats.load import Tables
from keyseats.page import Block, Curve, Graph, Line, Scale, Shape, Zone
from keyseats.palette import BAND, INK
from keyseats.seat import Seat, Tabled, Work, seat_of
from keyseats.sections import Across, hub_over, key_across, top_of_shaft
from keyseats.setting import (
    figure,
    height_of,
    limits_line,
    paragraph,
    set_width,
    words,
)
from keyseats.standing import Quantity, derive

HOW = "To read:"
EDGE, COLUMN = 0.05, 11.6
Named = list[tuple[Fraction, str]]


@dataclass(frozen=True)
class Case:
    """The key and shaft of one graph, and what its scales count in."""

    shaft: str
    key: str
    step: str
    short: str
    wide: str
    wide_short: str
    places: int
    wide_places: int
    necks: str = ""


CASES = {
    ("in", "plain"): Case("1", "1/4 x 1/4", "0.02", "0.002", "0.05", "0.005", 2, 2),
    ("in", "half-moon"): Case(
        "1", "608", "0.02", "0.002", "0.05", "0.005", 2, 2, "3/8 5/16 1/4 3/16 1/8"
    ),
    ("mm", "plain"): Case("25", "8 x 7", "0.5", "0.05", "1", "0.1", 1, 0),
    ("mm", "half-moon"): Case(
        "25", "6 x 9 x 22", "0.5", "0.05", "1", "0.1", 1, 0, "10 9 8 7 6 5 4"
    ),
}


def found(tables: Tables, unit: str, kind: str) -> Seat:
    """Return the seat of a graph's key in its shaft."""
    case = CASES[unit, kind]
    work = Work(unit, read_fraction(case.shaft))
    if kind == "plain":
        family = inch_plain if unit == "in" else metric_plain
        given: Tabled | None = family.tabled(tables, work)[0]
    elif unit == "in":
        given = inch_half_moon.one(case.key, tables, work)
    else:
        given = metric_half_moon.one(case.key, tables, work)
    if given is None:
        raise ValueError(f"the tables have no {case.key} key")
    return seat_of(given, work)


@dataclass(frozen=True)
class Depths:
    """Where something happens, as depths from the crown. [length]"""

    seat: Seat
    step: Fraction

    @property
    def arc(self) -> Fraction:
        """Return the arc height, crown down to edge."""
        return self.seat.arc_height.value

    @property
    def shaft(self) -> Fraction:
        """Return the shaft's diameter."""
        return self.seat.work.shaft

    @property
    def least(self) -> Fraction:
        """Return the least depth that the limits allow."""
        return self.seat.depth_from_crown.least.value

    @property
    def most(self) -> Fraction:
        """Return the most depth that the limits allow."""
        return self.seat.depth_from_crown.most.value

    @property
    def tallest(self) -> Fraction:
        """Return the tallest key's height: fed, it leaves that key level with the crown."""
        return self.seat.key.height.most.value

    @property
    def lowest(self) -> Fraction:
        """Return the lowest key's height."""
        return self.seat.key.height.least.value

    @property
    def hub(self) -> Fraction:
        """Return how high over the edge the lowest hub floor stands."""
        return self.seat.hub_floor_to_opposite_side.least.value - self.shaft + self.arc

    @property
    def stops(self) -> Fraction:
        """Return the depth down to which the tallest key stops the hub."""
        return self.tallest + self.arc - self.hub

    def above_edge(self, depth: Fraction, height: Fraction) -> Fraction:
        """Return how high a key stands over the edge in a seat of a depth from the crown."""
        return height + self.arc - depth

    @property
    def first(self) -> Fraction:
        """Return the depth at the top of the graph."""
        wrong = min(self.stops, self.least) - self.step * Fraction(5, 4)
        return floor(wrong / self.step) * self.step

    @property
    def last(self) -> Fraction:
        """Return the depth at the foot: the tallest key is level with the edge."""
        return self.tallest + self.arc + self.step / 4


def slip(f: Frame, tables: Tables, unit: str, kind: str, y: float, bottom: float) -> None:
    """Set the graph of one seat, and beside it what happens at three of its depths."""
    u, case = f.unit, CASES[unit, kind]
    seat = found(tables, unit, kind)
    d = Depths(seat, read_fraction(case.step))
    said = _how(case)
    note = height_of(said, f.note, f.right - f.left, HOW) + f.note * 1.75
    left, top = f.left + u * (3.45 if unit == "in" else 2.6), y + u * 3.05
    right = f.right - u * COLUMN - u * (2.7 if case.necks else 0.9)
    graph = _graph(f, case, d, (left, top, right - left, bottom - note - u * 2.95 - top))
    marks: Marks = [graph, *_scales(f, case, d, graph), *_points(f, d, graph)]
    rows = tuple(dict.fromkeys([*_rows(seat), *seat.hub_floor_to_opposite_side.rows]))
    f.composer.add(Block("Figure", tuple(marks), alt=_in_words(case, d), rows=rows))
    _beside(f, (top - u * 1.4, graph.y + graph.height), d)
    at = bottom - note + f.note * 0.95
    f.composer.add(paragraph(f.left, at, said, f.note, f.right - f.left, lead=HOW)[0])


def _rows(seat: Seat) -> tuple[str, ...]:
    return (*seat.depth_from_crown.rows, *seat.key.height.rows, *seat.key.width.rows)


def _graph(f: Frame, case: Case, d: Depths, place: tuple[float, float, float, float]) -> Graph:
    u, first, last = f.unit, d.first, d.last
    wide = d.above_edge(first, d.tallest)

    def key(height: Fraction, weight: float) -> Curve:
        ends = (first, height + d.arc)
        return Curve(floats(d.above_edge(end, height) for end in ends), floats(ends), weight)

    def upright(at: Fraction) -> Curve:
        return Curve(floats((at, at)), floats((first, last)), u * EDGE)

    def level(at: Fraction) -> Curve:
        return Curve(floats((Fraction(0), wide)), floats((at, at)), u * EDGE)

    curves = (
        key(d.tallest, u * PLAIN),
        key(d.lowest, u * CURVE),
        upright(d.arc),
        upright(d.hub),
        level(d.least),
        level(d.most),
    )
    zones = (
        Zone(float(d.hub), float(wide), float(first), float(last), BAND),
        Zone(0.0, float(wide), float(d.least), float(d.most), BAND),
    )
    step, short = read_fraction(case.step), read_fraction(case.short)
    wide_short = read_fraction(case.wide_short)
    base = d.shaft - d.arc
    over = read_fraction(case.wide)
    scales = [
        Scale("left", floats(steps(first, last, step)), floats(steps(first, last, short))),
        Scale(
            "bottom",
            floats(v - base for v in steps(base, base + wide, over)),
            floats(v - base for v in steps(base, base + wide, wide_short)),
        ),
        Scale(
            "top",
            floats(steps(Fraction(0), wide, over)),
            floats(steps(Fraction(0), wide, wide_short)),
        ),
    ]
    if case.necks:
        scales.append(Scale("right", floats(v for v, _ in _necks(case, d))))
    ends = floats((last, first))
    return Graph(
        *place,
        (0.0, float(wide)),
        (ends[0], ends[1]),
        curves,
        zones,
        tuple(scales),
        u * 0.035,
        u * TICK,
    )


def _necks(case: Case, d: Depths) -> list[tuple[Fraction, str]]:
    """Return the depths at which necks of round sizes meet the edge."""
    diameter = d.seat.cutter_diameter
    if diameter is None:
        return []
    rubs = [
        (clearance.depth_where_neck_rubs(diameter.value, read_fraction(n)) + d.arc, n)
        for n in case.necks.split()
    ]
    return [one for one in rubs if d.first < one[0] < d.last]


def _scales(f: Frame, case: Case, d: Depths, graph: Graph) -> Marks:
    u, size, small = f.unit, f.second, f.unit * 0.64
    base, wide = d.shaft - d.arc, d.above_edge(d.first, d.tallest)
    over = read_fraction(case.wide)

    def across(first: Fraction, last: Fraction, off: Fraction = Fraction(0)) -> Named:
        return [(v - off, decimal(v, case.wide_places)) for v in steps(first, last, over)]

    down = steps(d.first, d.last, read_fraction(case.step))
    depths = [(v, decimal(v, case.places)) for v in down]

    right = graph.x + graph.width
    marks: Marks = [
        *beside_ticks(f, graph, "left", depths, size),
        *beside_ticks(f, graph, "top", across(Fraction(0), wide - over / 8), size),
        *beside_ticks(f, graph, "bottom", across(base, base + wide, base), size),
        words(f.left, graph.y - u * 2.1, "depth from crown", small, bold=True),
        words(right, graph.y - u * 2.1, "key above edge", small, anchor="end"),
        words(right, graph.y + graph.height + u * 2.3, "over key", small, anchor="end"),
    ]
    if case.necks:
        marks += beside_ticks(f, graph, "right", _necks(case, d), size)
        marks.append(words(right + u * 0.3, graph.y - u * 0.55, "neck", small))
    return marks


def _points(f: Frame, d: Depths, graph: Graph) -> Marks:
    """Return what the lines are, and the letters of what stands beside the graph."""
    u, small = f.unit, f.unit * 0.64
    marks: Marks = []
    crown = graph.at(float(d.arc), float(d.first))[0]
    hub = graph.at(float(d.hub), float(d.last))
    marks += on_paper(crown + u * 0.3, graph.y + u * 1.0, "crown", small)
    marks += on_paper(hub[0] - u * 0.3, hub[1] - u * 0.5, "hub's floor", small, anchor="end")
    for letter, depth, height, dx, dy in (
        ("A", d.stops, d.lowest, -1.0, -0.3),
        ("B", (d.least + d.most) / 2, d.lowest, -1.15, 0.36),
        ("C", d.tallest, d.tallest, 0.75, 0.55),
    ):
        x, y = graph.at(float(d.above_edge(depth, height)), float(depth))
        marks.append(words(x + u * dx, y + u * dy, letter, u, bold=True))
    for depth in (d.stops, d.tallest):
        x, y = graph.at(float(d.above_edge(depth, d.tallest)), float(depth))
        r = u * 0.2
        marks.append(Shape((("M", x + r, y), *curve((x, y), r, 0, 2 * pi), ("Z",)), fill=INK))
    return marks


def _beside(f: Frame, levels: tuple[float, float], d: Depths) -> None:
    """Set what happens at three depths, each with its section to one scale."""
    u, c = f.unit, f.composer
    left, size = f.right - u * COLUMN, u * 0.66
    pitch = (levels[1] - levels[0]) / 3
    for n, (letter, depth, text) in enumerate(told(d)):
        y = levels[0] + n * pitch + u * 0.75
        c.say(left, y, letter, u, bold=True)
        at = left + u * 1.25
        if letter == "B":
            c.add(limits_line(at, y, d.seat.depth_from_crown, u)[0])
        else:
            c.add(figure(at + set_width(depth.text, u, True), y, depth, u, bold=True, role="P"))
        block, last = paragraph(left, y + u * 1.05, text, size, f.right - left)
        c.add(block)
        if letter == "B":
            last += u * 1.15
            c.add(limits_line(left, last, d.seat.over_key, f.second)[0])
        # Under A the key stands as high as a step on the scale more leaves it.
        fed = {"A": d.stops - d.step, "B": d.least, "C": d.tallest}[letter]
        _section(f, (left + u * 4.2, last + u * 0.5), d, fed, hub=letter != "A")


def _section(
    f: Frame, place: tuple[float, float], d: Depths, depth: Fraction, *, hub: bool
) -> None:
    """Draw the tallest key in a seat of one depth, in its hub or under the hub's floor."""
    u, pen = f.unit, pen_for(f)
    scale = u * 2.8 / float(d.tallest)
    rise = float(d.hub) * scale
    a = Across(
        place[0],
        place[1] + rise - float(d.arc) * scale + u * 0.75,
        float(d.shaft) / 2 * scale,
        float(d.seat.key.width.value) / 2 * scale,
        float(depth) * scale,
    )
    half, roof = a.half_width + u * 1.1, a.edge - rise
    marks: Marks = []
    if hub:
        marks += hub_over(a, rise, roof - u * 0.65, half, pen)
    marks += [
        *top_of_shaft(a, half, a.floor + u * 0.75, pen),
        *key_across(a, float(d.tallest) * scale, pen),
    ]
    if not hub:
        marks.append(Line(a.x - half, roof, a.x + half, roof, pen.thin, (6.0, 2.0)))
        marks.append(words(a.x + half + u * 0.25, roof + u * 0.2, "hub's floor", u * 0.62))
    told_as = "in its hub" if hub else "higher than the hub's floor"
    deep = decimal(depth, 4 if d.seat.work.unit == "in" else 2)
    alt = f"Section: the tallest key {told_as}, its seat {deep} deep from the crown"
    c = f.composer
    c.add(Block("Figure", tuple(marks), alt=alt, rows=_rows(d.seat)))


def told(d: Depths) -> list[tuple[str, Quantity, str]]:
    """Return letter, depth and words of what stands beside the graph."""
    seat = d.seat
    inch = seat.work.unit == "in"
    places = 3 if inch else 2
    inputs = seat.key.height.most, seat.arc_height, seat.hub_floor_to_opposite_side.least
    stops = derive(d.stops, *inputs).printed(places, "down")
    whole = derive(d.tallest, seat.key.height.most).printed(places)
    at_edge = seat.depth_at_edge.least
    shallow = "Shallower, and the tallest key stops the hub."
    if inch:
        shallow += f" Arc height forgotten: {at_edge.printed(places).text} is fed."
    stands = seat.arc_height.printed(places).text
    deep = (
        f"The key's height fed: level with the crown, {stands} above the edge. The hub drives on "
        "next to nothing."
    )
    return [
        ("A", stops, shallow),
        ("B", seat.depth_from_crown.least, "Right. Over key is then"),
        ("C", whole, deep),
    ]


def recalled(seat: Seat) -> bool:
    """Return whether a figure beside the graph has a dagger."""
    both = (seat.depth_from_crown, seat.over_key)
    return any(end.recalled for one in both for end in (one.least, one.most))


def _how(case: Case) -> str:
    neck = " Right-hand scale: a neck of that size rubs from its tick down." if case.necks else ""
    return (
        "from the depth fed across to the key's line (heavy: tallest key, thin: lowest), then up "
        f"or down; short ticks: {case.short} down, {case.wide_short} across. Fed too deep, the "
        "key stands too low by as much. Shaded: the limits, and where the hub will not pass."
        f"{neck} To cut: the shaft's own sheet."
    )


def _in_words(case: Case, d: Depths) -> str:
    return (
        f"Key above edge and over key against the depth from crown that is fed, for "
        f"{d.seat.key.designation} in {article(case.shaft)} {d.seat.work.unit} shaft: a line that "
        "falls by as much as is fed"
    )
