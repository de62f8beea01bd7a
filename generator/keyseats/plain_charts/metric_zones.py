"""Sheets of the metric plain-key chart by shaft: a zone is a key, its depth stands in it once."""

from __future__ import annotations

from fractions import Fraction
from functools import partial

from keyseats.families import metric_plain
from keyseats.families.metric_plain import plain
from keyseats.faults import TableError
from keyseats.frame import DISTANCE, Frame, foot, foot_height, thick_and_thin, wall_title
from keyseats.lengths import decimal, read_fraction
from keyseats.load import Tables
from keyseats.page import MM, Block, Mark, Page, Shape, Text
from keyseats.palette import BODY
from keyseats.plain_charts.head import CAUTION, NO_ARC, across, caption, pen
from keyseats.plain_charts.metric_fits import zones_of
from keyseats.plain_charts.metric_keys import (
    MACHINE_TOOLS,
    SOURCES,
    STANDARD,
    Key,
    deeper,
)
from keyseats.records import MetricPlainKey
from keyseats.seat import Seat, Work, seat_of
from keyseats.setting import DAGGER, box, figure
from keyseats.standing import Limits
from keyseats.views import View

# Figure sizes: the drawings, the heads, a line of a zone at least and at most, what is between two
# zones at least and at most, the depth from crown, and a key's own lines.
BAND, HEADS = 5.3, 2.75
PITCH, MOST_PITCH, GAP, MOST_GAP = 1.08, 1.34, 0.56, 1.4
DEPTH = 1.4
OWN_LINES = 3
# The shaft drawn on each sheet, and the disc whose ramp is shown. [mm]
DRAWN = ((25, 40), (35, 60))
# Shaft sizes that each key lists: usual ones, no source. The end of a range always stands. [mm]
USUAL = (
    *(6, 7, 8, 9, 10, 11, 12, 14, 15, 16, 17, 18, 19, 20, 22, 24, 25, 28, 30, 32, 35, 36, 38),
    *(40, 42, 44, 45, 48, 50, 55, 58, 60, 65, 70, 75),
)

ANOTHER = (
    "Another shaft:",
    "floor to opposite side = shaft as measured − depth from crown. Hub: floor to opposite side = "
    "bore as measured + hub depth.",
)


def usual(row: MetricPlainKey) -> list[Fraction]:
    """Return the usual shafts of a key; the smallest range has its lower end too."""
    over, to = row.shaft_over.value, row.shaft_to.value
    inside = {Fraction(d) for d in USUAL if (over < d or d == USUAL[0] == over) and d <= to}
    return sorted(inside | {to})


def _span(first: MetricPlainKey, last: MetricPlainKey) -> str:
    """Return the shafts of some keys in words; the smallest of all is itself one of them."""
    over = "" if end_too(first) else "over "
    return f"shafts {over}{plain(first.shaft_over)} to {plain(last.shaft_to)}"


def end_too(first: MetricPlainKey) -> str:
    """Return, for a foot, that the smallest range has its lower end too, if a key has that one."""
    over = first.shaft_over
    return f" {plain(over)} mm itself is in the first row." if over.value in usual(first) else ""


def plus_of(limits: Limits) -> str:
    """Return what printed limits leave above the least, ``+0.2``, so never past the most."""
    room = read_fraction(limits.most.text) - read_fraction(limits.least.text)
    places = 1 if (room * 10).denominator == 1 else 2
    dagger = DAGGER if limits.most.recalled and not limits.least.recalled else ""
    return f"+{decimal(room, places)}{dagger}"


def shafts_page(tables: Tables, paper: str, here: list[Key], number: int, total: int) -> Page:
    """Set a sheet by shaft.

    Parameters
    ----------
    tables, paper
        The tables and the paper.
    here
        Its keys, narrow first.
    number, total
        The sheet's number, from 1, and how many there are.

    Raises
    ------
    ValueError
        If the zones are too tall for the paper.
    """
    f = Frame(paper, DISTANCE[paper])
    u = f.unit
    which = f"{_span(here[0].row, here[-1].row)} mm"
    y = wall_title(
        f,
        "Plain keyseats",
        which,
        f"How deep, how wide: parallel keys, {STANDARD}{_not_same(tables, here)}. All in mm.",
        f"sheet {number} of {total}",
    )
    _drawings(f, y, here, DRAWN[number - 1])
    y = _heads(f, tables, y + u * BAND)
    notes = [CAUTION, ANOTHER, SOURCES]
    foot_top = f.bottom - foot_height(f, notes, f.note)
    lines = [max(len(usual(key.row)), OWN_LINES) for key in here]
    room = (foot_top - y) / u
    spare = room - sum(lines) * PITCH - len(here) * GAP
    if spare < 0:
        raise ValueError(f"the zones are {-spare:.2f} figure sizes too tall for {paper}")
    pitch = min(MOST_PITCH, PITCH + 0.5 * spare / sum(lines))
    gap = min(MOST_GAP, (room - sum(lines) * pitch) / len(here))
    for n, (key, count) in enumerate(zip(here, lines, strict=True)):
        # As much above the depth's figure as under the last line.
        _zone(f, tables, y + u * (pitch + gap + 0.73 * DEPTH) / 2, key, u * pitch)
        y += u * (count * pitch + gap)
        if n + 1 < len(here):
            f.composer.rule(f.left, f.right, y, u * 0.05)
    foot(f, notes, tables.edition, "Metric plain")
    return f.page(f"plain-metric-{number}", f"Plain keyseats, metric, {which}")


def _not_same(tables: Tables, here: list[Key]) -> str:
    return f"; {MACHINE_TOOLS} is deeper" if deeper(tables, here) else ""


def _columns(f: Frame) -> dict[str, float]:
    """Return the right edges of the columns; key, depth and label are left edges."""
    u = f.unit
    return {
        "key": f.left,
        "shaft": across(f, 6.9),
        "depth": across(f, 8.0),
        "floor least": across(f, 17.5),
        "floor most": across(f, 20.7),
        "label": f.right - u * 9.85,
        "least": f.right - u * 3.6,
        "most": f.right - u * 0.05,
    }


def _heads(f: Frame, tables: Tables, y: float) -> float:
    u, c, col, zones = f.unit, f.composer, _columns(f), zones_of(tables)
    thick_and_thin(f, y)
    first, step = y + u * 0.95, u * 0.74
    normal, close = zones["normal", "seat"], zones["close", "seat"]
    say = partial(c.say, size=u * 0.6, role="TH", header="Column")
    for name, texts, anchor in (
        ("key", ("", "key, drawn at", "actual size"), "start"),
        ("shaft", ("", "", "shaft"), "end"),
        ("depth", ("depth from crown", "feed after the touch,", NO_ARC), "start"),
        ("floor least", ("", "", "least"), "end"),
        ("floor most", ("floor to", "opposite side", "most"), "end"),
        (
            "label",
            ("seat width, hub depth", f"{normal}: normal fit", f"{close}: close fit"),
            "start",
        ),
        ("least", ("", "", "least"), "end"),
        ("most", ("", "", "most"), "end"),
    ):
        for n, text in enumerate(texts):
            if text:
                bold = n == 0 and name == "depth"
                say(col[name], first + n * step, text, anchor=anchor, bold=bold)
    y += u * HEADS
    c.rule(f.left, f.right, y, u * 0.03)
    return y


def _zone(f: Frame, tables: Tables, first: float, key: Key, pitch: float) -> None:
    """Set one key: its depth, its shafts with their floors, its widths and its hub."""
    u, c, col = f.unit, f.composer, _columns(f)
    row, tabled = key.row, key.tabled
    name = tabled.key.in_print
    size = (row.width.id, row.height.id)
    c.say(col["key"], first, name, u, bold=True, role="TH", header="Row", rows=size)
    _actual(f, first + u * 0.36, row, name)
    _depth(f, first, key, pitch)
    for n, shaft in enumerate(usual(row)):
        seat = seat_of(tabled, Work("mm", shaft))
        _shaft(f, first + n * pitch, seat)
    zones = zones_of(tables)
    close = metric_plain.width_limits(tables, row.width.value, "close", "seat")
    lines: list[tuple[str, Limits]] = [
        (f"seat {zones['normal', 'seat']}", tabled.seat_width.printed(3)),
        ("hub depth", tabled.hub_rise.printed(2)),
    ]
    if close is not None:
        lines.insert(1, (f"seat {zones['close', 'seat']}", close.printed(3)))
    for n, (label, shown) in enumerate(lines):
        at = first + n * pitch
        c.say(col["label"], at, label, u * 0.6, role="TH", header="Row")
        c.add(figure(col["least"], at, shown.least, f.second))
        c.add(figure(col["most"], at, shown.most, f.second))


def _shaft(f: Frame, base: float, seat: Seat) -> None:
    c, col = f.composer, _columns(f)
    text = decimal(seat.work.shaft, 3)
    text = text.rstrip("0").rstrip(".") if "." in text else text
    c.say(col["shaft"], base, text, f.unit, bold=True, anchor="end", role="TH", header="Row")
    floor = seat.floor_to_opposite_side
    c.add(figure(col["floor least"], base, floor.least, f.second))
    c.add(figure(col["floor most"], base, floor.most, f.second))


def _depth(f: Frame, first: float, key: Key, pitch: float) -> None:
    """Set the depth from crown with its tolerance beside it, and under it the range it is for."""
    u, c, x = f.unit, f.composer, _columns(f)["depth"]
    row, limits = key.row, key.tabled.depth_from_crown
    if limits is None:
        raise TableError(f"metric_plain_keys.csv: {key.tabled.key.designation} has no depth")
    shown = limits.printed(2)
    # Set to the width of the widest of the chart, so that the points stand under one another.
    right = x + u * 3.5
    depth = figure(right, first, shown.least, u * DEPTH, bold=True)
    beside = right + u * (0.65 if shown.least.recalled else 0.25)
    marks: list[Block | Mark] = [
        *depth.items,
        Text(beside, first - u * 0.4, plus_of(shown), f.second),
        Text(beside, first + u * 0.42, "−0", f.second),
    ]
    c.add(Block("TD", tuple(marks), rows=limits.rows, cut=True))
    ids = (row.shaft_over.id, row.shaft_to.id)
    # Between two baselines, or it would be read as that of one shaft.
    c.say(x, first + pitch * 1.5, _span(row, row), u * 0.6, role="TD", rows=ids)


def _actual(f: Frame, top: float, row: MetricPlainKey, name: str) -> None:
    """Draw a key's section at actual size."""
    wide, tall = float(row.width.value) * MM, float(row.height.value) * MM
    left = f.left + f.unit * 0.03
    shape = Shape(box(left, top, left + wide, top + tall), fill=BODY, stroke=f.unit * 0.05)
    f.composer.add(Block("Figure", (shape,), alt=f"Key, {name} mm, at actual size"))


def _drawings(f: Frame, y: float, here: list[Key], drawn: tuple[int, int]) -> None:
    """Draw a real key of the page: both depths, both floors to their opposite sides, the ramp."""
    u = f.unit
    shaft, disc = (Fraction(d) for d in drawn)
    key = next(k for k in here if metric_plain.holds(k.row, shaft, smallest=False))

    def view(top: float) -> View:
        return View(f, key.tabled, shaft, pen(f), u * 0.62, y + u * top, seat_wide=3.0)

    view(0.35).from_crown(f.left + u * 4.85)
    view(-0.18).opposite(f.left + u * 18.35, 1.55)
    view(-0.3).straight(f.right - u * 6.6, disc, 0.95)
    caption(f, y, f"{key.tabled.key.in_print} key, {shaft} shaft", str(disc), BAND, "")
