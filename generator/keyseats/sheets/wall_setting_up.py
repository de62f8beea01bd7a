"""Wall chart: setting up, from the drawing to the hub, the same for every key."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import partial

from keyseats import across_room
from keyseats.across_room import setting_up as far
from keyseats.families import inch_half_moon, metric_half_moon
from keyseats.frame import DISTANCE, Frame, foot, foot_height, wall_title
from keyseats.lengths import read_fraction
from keyseats.load import Tables
from keyseats.page import Block, Page
from keyseats.seat import Work
from keyseats.setting import figure, height_of, paragraph, words
from keyseats.setting_up.dial import DIAL_HEIGHT, dial
from keyseats.setting_up.drawings import TOUCH_HEIGHT, direction, pen_for, touch
from keyseats.setting_up.grids import Grids, arc_height, travel
from keyseats.setting_up.order import order_of_work
from keyseats.setting_up.slips import Slip, example, slips
from keyseats.setting_up.system import INCH, METRIC, System
from keyseats.setting_up.words import CAUTIONS, steps
from keyseats.setting_up.words import foot as feet
from keyseats.sheets import Sheet
from keyseats.sum_line import sum_line
from keyseats.typeface import fitted
from keyseats.views import View

SHEETS_EACH = 5
SLIP = 0.68
TOPICS = (
    ("order of work", "Plain (parallel) and half-moon (Woodruff) keyseats in the shaft."),
    ("centring travel", "From a touch on the shaft's side to its centreline."),
    ("arc height", "From the crown down to the seat's edge."),
    ("dial, direction, cautions", "Turning a travel into turns, and cutting safely."),
    ("where it goes wrong", "What a slip costs, and what to do instead."),
)
Body = Callable[[Frame, Tables, System, float, float], None]


def pages(tables: Tables, paper: str, system: System) -> Iterator[Page]:
    """Yield the chart's pages for one paper."""
    if paper in across_room.PAPERS:
        yield from far.pages(tables, paper, system)
        return
    bodies: tuple[Body, ...] = (_order, _centring, _arc, _dial, _slips)
    for n, ((which, sub), body) in enumerate(zip(TOPICS, bodies, strict=True), 1):
        f = Frame(paper, DISTANCE[paper])
        recalled = n == SHEETS_EACH and any(s.error.recalled for s in slips(tables, system))
        said = feet(system, n, recalled)
        line = f"{sub} {system.says}."
        y = wall_title(f, "Setting up", which, line, f"sheet {n} of {SHEETS_EACH}")
        body(f, tables, system, y, f.bottom - foot_height(f, said, f.note))
        foot(f, said, tables.edition, f"Setting up, {system.name}")
        yield f.page(f"setting-up-{system.name}-{n}", f"Setting up, {system.name}: {which}")


def _order(f: Frame, tables: Tables, system: System, y: float, bottom: float) -> None:
    order_of_work(f, steps(system), 1, y, bottom)


def _beside(f: Frame, x: float, y: float, room: float, lead: str, text: str) -> None:
    """Set a paragraph beside a drawing, its lead on a line of its own."""
    u = f.unit
    f.composer.say(x, y, lead, u * 0.72, bold=True)
    f.composer.add(paragraph(x, y + u * 0.95, text, u * 0.64, room)[0])


def _centring(f: Frame, tables: Tables, system: System, y: float, bottom: float) -> None:
    u, wide = f.unit, f.right - f.left
    top = y + u * 0.55
    second = f.left + wide * 0.55
    touch(f, f.left + u * 6.3, top, u * 0.64, end_mill=False)
    touch(f, second + u * 6.2, top, u * 0.64, end_mill=True)
    at = f.left + u * 8.6
    _beside(
        f,
        at,
        top + u * 0.5,
        second - at - u * 0.3,
        "Face touch",
        "Disc or half-moon cutter: its free face. Travel along the spindle. Rim past the shaft's "
        "widest point.",
    )
    at = second + u * 8.5
    _beside(
        f,
        at,
        top + u * 0.5,
        f.right - at,
        "Rim touch",
        "End mill: its rim. Travel across the spindle.",
    )
    y = sum_line(
        f,
        top + u * TOUCH_HEIGHT,
        [
            ("½ shaft", "as measured"),
            ("+", ""),
            ("½ cutter", "as measured"),
            ("+", ""),
            ("paper or feeler", "none in a bare touch"),
            ("=", ""),
            ("travel", "then lock"),
        ],
    )
    note = (
        "For a bare touch. After it, clear the shaft and go on the same way. Shaft or cutter not "
        "at its nominal size: do the sum. Blank: cutter wider than half the shaft."
    )
    head = "cutter width, or end mill diameter"
    _grid(f, y, bottom, note, Grids(f, system, travel, head))


def _grid(f: Frame, y: float, bottom: float, note: str, grids: Grids) -> None:
    u, size = f.unit, f.note
    tall = height_of(note, size, f.right - f.left)
    last = bottom - u * 0.45 - tall
    grids.set(y, last - u * 0.95)
    f.composer.add(paragraph(f.left, last, note, size, f.right - f.left)[0])


def _arc(f: Frame, tables: Tables, system: System, y: float, bottom: float) -> None:
    u = f.unit
    work = Work(system.unit, read_fraction(system.shaft))
    top = y + u * 0.3
    if system.unit == "in":
        shaft = Fraction(9, 16)
        tabled = inch_half_moon.one("605", tables, work)
        drawn = "No. 605 in a 9/16 in shaft, to scale"
        parts = [
            ("depth at edge", "where the page says at edge"),
            ("+", ""),
            ("arc height", "from this table"),
            ("=", ""),
            ("depth from crown", "feed this after the touch"),
        ]
        says = (
            (
                "Depth at edge:",
                "half-moon chart, and plain chart for all shafts. Add the arc height, for the "
                "touch is on the crown.",
            ),
            (
                "Depth from crown:",
                "plain charts by shaft, half-moon at 2 m, cards, reckoners, shaft sheets. No arc "
                "height to add.",
            ),
        )
    else:
        shaft = Fraction(18)
        found = metric_half_moon.one("5 x 6.5 x 16", tables, work)
        assert found is not None
        tabled = found
        drawn = "5 x 6.5 x 16 in an 18 mm shaft, to scale"
        parts = [
            ("depth from crown", "tabled: feed this"),
            ("−", ""),
            ("arc height", "from this table"),
            ("=", ""),
            ("depth at edge", "what the wall measures"),
        ]
        says = (
            (
                "Depth from crown:",
                "every metric chart, card, reckoner and shaft sheet. Feed it as it stands.",
            ),
            (
                "Arc height:",
                "to measure the wall, and for an inch half-moon key in a metric shaft.",
            ),
        )
    view = View(f, tabled, shaft, pen_for(f), u * 0.64, top)
    view.seat(f.left + (f.right - f.left) * 0.235)
    x = f.left + u * 15.6
    f.composer.say(x, top + u * 0.85, "Which depth is it?", u * 0.72, bold=True)
    level = top + u * 0.85
    for lead, text in says:
        said, level = paragraph(x, level + u * 0.98, text, u * 0.64, f.right - x, lead=lead)
        f.composer.add(said)
    f.composer.say(f.left, top + u * 6.25, drawn, f.note)
    y = sum_line(f, top + u * 6.75, parts)
    note = (
        "Arc height = R − √(R² − (W/2)²), R half the shaft, W the seat's width, both as measured. "
        "Blank: seat wider than half the shaft."
    )
    if system.unit == "in":
        note += " The sum of two rounded figures may differ from a sheet's by 0.0001."
    _grid(f, y, bottom, note, Grids(f, system, arc_height, "seat width"))


def _dial(f: Frame, tables: Tables, system: System, y: float, bottom: float) -> None:
    u, c = f.unit, f.composer
    size = u * 0.68
    wide = (f.right - f.left - u * 1.4) / 2
    half = (len(CAUTIONS) + 1) // 2
    tall = [height_of(text, size, wide - u * 0.9) + u * 1.2 for text in CAUTIONS]
    rows = [max(tall[n], tall[n + half] if n + half < len(tall) else 0.0) for n in range(half)]
    need = u * (0.2 + DIAL_HEIGHT + 1.5 + 6.6 + 1.5 + 0.9) + sum(rows) - u * 0.4
    spare = max(0.0, bottom - y - need)
    y = dial(f, system, y + u * 0.2, spare * 0.45)
    y = _heading(f, y + spare * 0.2, "Which way to feed a plain seat")
    for n, climb in enumerate((False, True)):
        x = f.left + (f.right - f.left) / 2 * n
        direction(f, x + u * 4.6, y + u * 0.2, u * 0.64, climb=climb)
        lead = "Not this way" if climb else "This way"
        text = (
            "Climb: work goes with the teeth. They pull it in by the screw's slack."
            if climb
            else "Conventional: work goes against the teeth. The screw stays loaded."
        )
        at = x + u * 9.4
        _beside(f, at, y + u * 1.1, u * 6.1, lead, text)
    y = _heading(f, y + u * 6.6 + spare * 0.15, "Cautions")
    y += u * 0.9
    pad = spare * 0.2 / half
    for n in range(half):
        for column, index in enumerate((n, n + half)):
            if index < len(CAUTIONS):
                x = f.left + column * (wide + u * 1.4)
                c.say(x, y, "–", size)
                text = CAUTIONS[index]
                c.add(paragraph(x + u * 0.8, y, text, size, wide - u * 0.9)[0])
        y += rows[n] + pad


def _heading(f: Frame, y: float, text: str) -> float:
    """Set a heading under a thick rule; return the level under it."""
    u, c = f.unit, f.composer
    c.rule(f.left, f.right, y, u * 0.09)
    c.say(f.left, y + u * 1.15, text, u * 0.9, bold=True, role="H2")
    return y + u * 1.5


def _slips(f: Frame, tables: Tables, system: System, y: float, bottom: float) -> None:
    u, c = f.unit, f.composer
    all_slips = slips(tables, system)
    at = {"error": f.left + u * 13.0, "text": f.left + u * 14.4}
    said = example(tables, system).says
    c.add(Block("P", (words(f.left, y + u * 1.0, said, u * 0.64),)))
    y += u * 1.45
    c.rule(f.left, f.right, y, u * 0.03)
    heads = (
        (f.left, "what was done", "start"),
        (at["error"], "error", "end"),
        (at["text"], "what follows, and what to do instead", "start"),
    )
    for x, text, anchor in heads:
        c.say(x, y + u * 0.95, text, u * 0.6, anchor=anchor, role="TH", header="Column")
    y += u * 1.3
    c.rule(f.left, f.right, y, u * 0.03)
    tall = [_slip_height(f, at["text"], slip) for slip in all_slips]
    pad = (bottom - y - sum(tall)) / len(tall)
    for n, (slip, height) in enumerate(zip(all_slips, tall, strict=True)):
        _slip(f, y + pad / 2, at, slip)
        y += height + pad
        if n + 1 < len(tall):
            c.rule(f.left, f.right, y, u * 0.03)


def _slip_height(f: Frame, x: float, slip: Slip) -> float:
    u = f.unit
    room = f.right - x
    follows = height_of(slip.follows, u * SLIP, room)
    instead = height_of(slip.instead, u * SLIP, room, "Instead:")
    return follows + instead + u * 1.6


def _slip(f: Frame, y: float, at: dict[str, float], slip: Slip) -> None:
    u, c = f.unit, f.composer
    base, size = y + u * 0.6, u * SLIP
    _bold_lines(f, f.left, base, slip.done, u * 0.74, u * 8.4)
    c.add(figure(at["error"], base + u * 0.1, slip.error, u))
    c.say(at["error"], base + u * 0.95, slip.kind, u * 0.6, anchor="end")
    room = f.right - at["text"]
    follows, last = paragraph(at["text"], base, slip.follows, size, room)
    last += u * 0.85
    instead, _ = paragraph(at["text"], last, slip.instead, size, room, lead="Instead:")
    c.add(Block("TD", (follows, instead)))


def _bold_lines(f: Frame, x: float, y: float, text: str, size: float, room: float) -> None:
    lines = fitted(text, size, room, True)
    marks = tuple(words(x, y + n * size * 1.2, t, size, bold=True) for n, t in enumerate(lines))
    f.composer.add(Block("TH", marks, header="Row"))


_PAPERS = ("Letter", "A4", "Tabloid", "A3", *across_room.PAPERS)
SHEETS = (
    Sheet(
        "wall-setting-up-inch",
        "wall chart",
        "Setting up, inch: order of work, centring travel, arc height, dial, errors",
        _PAPERS,
        partial(pages, system=INCH),
        order=50,
    ),
    Sheet(
        "wall-setting-up-metric",
        "wall chart",
        "Setting up, metric: order of work, centring travel, arc height, dial, errors",
        ("A4", "Letter", "A3", "Tabloid", *reversed(across_room.PAPERS)),
        partial(pages, system=METRIC),
        order=51,
    ),
)
