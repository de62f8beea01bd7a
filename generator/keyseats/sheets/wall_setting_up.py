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
from keyseats.page import Page
from keyseats.seat import Work
from keyseats.setting import height_of, paragraph
from keyseats.setting_up.dial import DIAL_HEIGHT, FORM_HEAD, FORM_ROWS, dial, form
from keyseats.setting_up.drawings import TOUCH_HEIGHT, direction, pen_for, touch
from keyseats.setting_up.grids import Grids, arc_height, travel
from keyseats.setting_up.slips import slips
from keyseats.setting_up.strip import strip
from keyseats.setting_up.system import INCH, METRIC, System
from keyseats.setting_up.words import CAUTIONS, steps
from keyseats.setting_up.words import foot as feet
from keyseats.setting_up.wrong import wrong
from keyseats.sheets import Sheet
from keyseats.sum_line import sum_line
from keyseats.views import View

SHEETS_EACH = 5
# A heading, and the drawings of the direction. [figure sizes]
HEADING, DIRECTION_HEIGHT = 1.5, 6.0
# The least height of a row that is written in by hand.
FORM_PITCH = 1.4
CAUTION_SIZE, CAUTION_GAP = 0.68, 1.05
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
    bodies: tuple[Body, ...] = (_order, _centring, _arc, _dial, wrong)
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
    strip(f, system, steps(system), y + f.unit * 0.2, bottom)


def _centring(f: Frame, tables: Tables, system: System, y: float, bottom: float) -> None:
    u, c = f.unit, f.composer
    top = y + u * 0.55
    for x, name, end_mill in ((5.9, "Face", False), (15.4, "Rim", True)):
        touch(f, f.left + u * x, top, u * 0.6, end_mill=end_mill)
        # Before the cutter that touches.
        at = f.left + u * (x - (3.2 if end_mill else 3.0))
        for n, text in enumerate((name, "touch")):
            c.say(at, top + u * (0.5 + 0.78 * n), text, u * 0.66, bold=True, anchor="end")
    x = f.left + u * 18.8
    level = _column_sum(f, x, top + u * 0.6)
    for lead, text in (
        (
            "Face:",
            "disc or half-moon, its free face, rim past the widest point. Along the spindle.",
        ),
        ("Rim:", "end mill, its rim. Across the spindle."),
    ):
        said, level = paragraph(x, level, text, u * 0.6, f.right - x, lead=lead, leading=1.2)
        c.add(said)
        level += u * 0.75
    note = (
        "For a bare touch; then clear the shaft, go on the same way. Framed: cutter of the shaft's "
        "plain key. Rules: that key changes. Sizes not nominal: do the sum. Blank: cutter wider "
        "than half the shaft."
    )
    head = "cutter width, or end mill diameter"
    grids = Grids(f, tables, system, travel, head, framed=True)
    _grid(f, top + u * TOUCH_HEIGHT, bottom, note, grids)


def _column_sum(f: Frame, x: float, y: float) -> float:
    """Set the sum of the travel as on paper; return the level of the next baseline. [pt]"""
    u, c = f.unit, f.composer
    size, small = u * 0.76, u * 0.6
    at, notes = x + u * 1.0, x + u * 8.0
    parts = (
        ("", "½ shaft", "as measured"),
        ("+", "½ cutter", "as measured"),
        ("+", "paper or feeler", "none if bare"),
        ("=", "travel", "then lock"),
    )
    for n, (sign, big, said) in enumerate(parts):
        base = y + u * 1.1 * n
        if sign == "=":
            base += u * 0.15
            c.rule(x, notes - u * 0.4, base - u * 0.82, u * 0.05)
        if sign:
            c.say(x, base, sign, size, bold=True)
        c.say(at, base, big, size, bold=True)
        c.say(notes, base, said, small)
    return y + u * 4.45


def _grid(f: Frame, y: float, bottom: float, note: str, grids: Grids) -> None:
    u, size = f.unit, f.note
    tall = height_of(note, size, f.right - f.left)
    last = bottom - u * 0.4 - tall
    grids.set(y, last - u * 0.85)
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
                "plain charts by shaft, large half-moon chart, cards, reckoners, shaft sheets. "
                "Feed it as it stands, with no arc height.",
            ),
        )
    else:
        shaft = Fraction(18)
        found = metric_half_moon.one("5 x 6.5 x 16", tables, work)
        assert found is not None
        tabled = found
        drawn = "5 × 6.5 × 16 in an 18 mm shaft, to scale"
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
        "Rules: plain key changes. Blank: seat wider than half the shaft."
    )
    if system.unit == "in":
        note += " A rounded sum may be 0.0001 off a sheet's."
    _grid(f, y, bottom, note, Grids(f, tables, system, arc_height, "seat width"))


def _dial(f: Frame, tables: Tables, system: System, y: float, bottom: float) -> None:
    """Set heading, example, form, drawing and list, one white between each and the next."""
    u, c, size = f.unit, f.composer, f.unit * CAUTION_SIZE
    rows = _caution_rows(f)
    fixed = 0.2 + 3 * HEADING + DIAL_HEIGHT + FORM_HEAD + FORM_ROWS * FORM_PITCH + DIRECTION_HEIGHT
    fixed += CAUTION_GAP * len(rows) + 0.1
    spare = bottom - y - u * fixed - sum(tall for tall, _ in rows)
    # One share to each white between two parts and to each row of the form, less to each caution.
    share = spare / (4 + FORM_ROWS + 0.5 * (len(rows) - 1))
    if share < u * 0.3:
        raise ValueError("the page is too low for the dial, the form and the cautions")
    y = _heading(f, y + u * 0.2, "A travel on the dial", ruled=False)
    y = dial(f, system, y) + share
    y = form(f, y, u * FORM_PITCH + share) + share
    y = _heading(f, y, "Which way to feed a plain seat with a disc")
    _directions(f, y)
    y = _heading(f, y + u * DIRECTION_HEIGHT + share, "Cautions")
    for tall, texts in rows:
        y += u * CAUTION_GAP
        for n, text in enumerate(texts):
            x = f.left + n * (_half(f) + u * 1.4)
            c.say(x, y, "–", size)
            c.add(paragraph(x + u * 0.8, y, text, size, _even(text, size, _caution_room(f)))[0])
        y += tall + share * 0.5


def _half(f: Frame) -> float:
    return (f.right - f.left - f.unit * 1.4) / 2


def _caution_room(f: Frame) -> float:
    return _half(f) - f.unit * 0.9


def _even(text: str, size: float, room: float) -> float:
    """Return the narrowest room that takes no more lines, so that the last is as long as others."""
    tall, step = height_of(text, size, room), size * 0.25
    while height_of(text, size, room - step) <= tall:
        room -= step
    return room


def _caution_rows(f: Frame) -> list[tuple[float, tuple[str, ...]]]:
    """Return the cautions two in a row, read down the left column first, with their heights."""
    half = (len(CAUTIONS) + 1) // 2
    size, room = f.unit * CAUTION_SIZE, _caution_room(f)
    pairs = [CAUTIONS[n::half] for n in range(half)]
    return [(max(height_of(text, size, room) for text in pair), pair) for pair in pairs]


def _directions(f: Frame, y: float) -> None:
    u = f.unit
    for n, climb in enumerate((False, True)):
        x = f.left + (f.right - f.left) / 2 * n
        direction(f, x + u * 4.6, y, u * 0.64, climb=climb)
        lead = "Not this way" if climb else "This way"
        text = (
            "Climb: work goes with the teeth. They pull it in by the screw's slack."
            if climb
            else "Conventional: work goes against the teeth. The screw stays loaded."
        )
        at = x + u * 9.4
        f.composer.say(at, y + u * 1.1, lead, u * 0.72, bold=True)
        room = _even(text, u * 0.64, (f.right - f.left) / 2 - u * 9.6)
        f.composer.add(paragraph(at, y + u * 2.05, text, u * 0.64, room)[0])


def _heading(f: Frame, y: float, text: str, *, ruled: bool = True) -> float:
    """Set a heading under a thick rule; return the level under it."""
    u, c = f.unit, f.composer
    if ruled:
        c.rule(f.left, f.right, y, u * 0.09)
    c.say(f.left, y + u * 1.15, text, u * 0.9, bold=True, role="H2")
    return y + u * HEADING


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
