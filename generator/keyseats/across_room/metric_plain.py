"""Metric plain keyseats for across the room: one line a key."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import partial

from keyseats.across_room.composing import BAND, CAUTION, measured_from, stacked_sum
from keyseats.families import metric_plain
from keyseats.families.metric_plain import plain
from keyseats.frame import DISTANCE, Frame, foot, foot_height, thick_and_thin, wall_title
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.plain_charts.head import pen
from keyseats.plain_charts.metric_keys import STANDARD, Key, sheets
from keyseats.plain_charts.metric_zones import end_too
from keyseats.setting import figure, set_width
from keyseats.views import View

HEADS, MOST_PITCH = 2.85, 2.0
# The shaft drawn on each sheet. [mm]
DRAWN = (25, 60, 160)
MORE = "seat and hub widths, other fits and floor radius are on the smaller charts."
SOURCES = ("Sources.", "Engineers Edge; keyway sheet, 2007; MISUMI; cadhome.net. No taper keys.")


def _notes(here: list[Key]) -> list[tuple[str, str]]:
    """Return the foot's columns."""
    return [CAUTION, ("More:", f"{MORE}{end_too(here[0].row)}"), SOURCES]


def pages(tables: Tables, paper: str) -> Iterator[Page]:
    """Yield the chart's pages for one paper."""
    all_sheets = sheets(tables)
    for n, here in enumerate(all_sheets, 1):
        yield _page(tables, paper, here, n, len(all_sheets))


def _page(tables: Tables, paper: str, here: list[Key], number: int, total: int) -> Page:
    f = Frame(paper, DISTANCE[paper])
    u, c = f.unit, f.composer
    notes = _notes(here)
    over = "" if end_too(here[0].row) else "over "
    which = f"{over}{plain(here[0].row.shaft_over)} to {plain(here[-1].row.shaft_to)} mm"
    sub = f"How deep by shaft: {STANDARD}. All in mm."
    y = wall_title(f, "Plain keyseats", which, sub, f"sheet {number} of {total}")
    _band(f, y + u * 0.2, here, Fraction(DRAWN[number - 1]))
    y = _heads(f, y + u * BAND)
    foot_top = f.bottom - foot_height(f, notes, f.note)
    pitch = min(u * MOST_PITCH, (foot_top - y - u * 0.4) / len(here))
    for n in range(1, len(here), 2):
        c.shade(f.left, y + n * pitch, f.right, y + (n + 1) * pitch)
    for n, key in enumerate(here):
        _row(f, y + (n + 0.5) * pitch + u * 0.365, key)
    foot(f, notes, tables.edition, "Metric plain")
    return f.page(f"plain-metric-2m-{number}", f"Plain keyseats, metric, shafts {which}, at 2 m")


def _band(f: Frame, y: float, here: list[Key], shaft: Fraction) -> None:
    u = f.unit
    key = next(k for k in here if metric_plain.holds(k.row, shaft, smallest=False))
    view = View(f, key.tabled, shaft, pen(f), u * 0.62, y)
    view.from_crown(f.left + u * 5.0, centred=BAND - 0.2)
    stacked_sum(f, f.left + u * 13.9, y, measured_from())


def _columns(f: Frame) -> dict[str, float]:
    """Return the right edges of the columns."""
    wide = f.right - f.left
    at = {"key": 0.473, "least": 0.617, "most": 0.752, "hub least": 0.874, "hub most": 0.992}
    return {name: f.left + wide * part for name, part in at.items()}


def _heads(f: Frame, y: float) -> float:
    u, c, col = f.unit, f.composer, _columns(f)
    thick_and_thin(f, y)
    size, first, step = u * 0.6, y + u * 0.98, u * 0.76
    last = first + 2 * step
    c.say(f.left + u * 0.15, last, "shaft over, to", size, role="TH", header="Column")
    c.say(col["key"], last, "key", size, anchor="end", role="TH", header="Column")
    for least, most, lines, bold in (
        ("least", "most", ("depth", "from crown"), True),
        ("hub least", "hub most", ("hub depth,", "add to bore"), False),
    ):
        with c.over():
            for n, text in enumerate(lines):
                c.say(col[most], first + n * step, text, size, bold=bold, anchor="end")
            for name, word in ((least, "least"), (most, "most")):
                c.say(col[name], last, word, size, anchor="end", role="TH", header="Column")
            # Over both ends, so that it is not read as the head of the most alone.
            left = min(
                col[least] - set_width("least", size), col[most] - set_width(lines[1], size, bold)
            )
            c.rule(left, col[most], first + step + u * 0.16, u * 0.03)
    c.rule(f.left, f.right, y + u * HEADS, u * 0.03)
    return y + u * HEADS


def _row(f: Frame, base: float, key: Key) -> None:
    u, c, col = f.unit, f.composer, _columns(f)
    row, tabled = key.row, key.tabled
    assert tabled.depth_from_crown is not None
    depth, hub = tabled.depth_from_crown.printed(2), tabled.hub_rise.printed(2)
    over, to = row.shaft_over, row.shaft_to
    range_, size = f"{plain(over)} to {plain(to)}", (row.width.id, row.height.id)
    head = partial(c.say, bold=True, role="TH", header="Row")
    head(f.left + u * 0.15, base, range_, f.second, rows=(over.id, to.id))
    head(col["key"], base, tabled.key.in_print, u, anchor="end", rows=size)
    c.add(figure(col["least"], base, depth.least, u), figure(col["most"], base, depth.most, u))
    c.add(figure(col["hub least"], base, hub.least, f.second))
    c.add(figure(col["hub most"], base, hub.most, f.second))
