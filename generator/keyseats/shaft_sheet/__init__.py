"""The shaft sheet: one seat in one shaft on one page, its figures in the order of the work."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from keyseats.corrections.shaft_codes import shaft_stamp
from keyseats.families.inch_plain import fraction_text
from keyseats.frame import FIRST, RECALLED, Frame, foot, foot_height, thick_and_thin
from keyseats.inspection import shown
from keyseats.lengths import article, places_of
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.seat import SETTING_PLACES, Seat
from keyseats.set_up import SetUp
from keyseats.setting import DAGGER, set_width
from keyseats.shaft_sheet.along import place, witness
from keyseats.shaft_sheet.before_cutting import align, stop_here, stop_if, written
from keyseats.shaft_sheet.cautions import before_work, stops
from keyseats.shaft_sheet.centring import centre
from keyseats.shaft_sheet.composing import CROWDED, DISTANCE_M, FIGURE, Ease, ShaftSheet, shortened
from keyseats.shaft_sheet.dials import size
from keyseats.shaft_sheet.drawings import drawings
from keyseats.shaft_sheet.feeding import feed, touch
from keyseats.shaft_sheet.proving import finish, hub, over_key, stop_short
from keyseats.speeds import Speed, speed_for
from keyseats.standing import Limits, Quantity, typed

PAPERS = ("Letter", "A4")
# Rooms that a page can have, the roomiest first. Type is of one size, and white and the drawing
# give way; only the sheet of a shop with much to say has the smaller words, still over the floor.
EASES = (
    Ease(112.0, gap=4.0),
    Ease(104.0, gap=4.0),
    Ease(96.0, gap=3.5),
    Ease(88.0, gap=3.0),
    Ease(80.0, gap=2.0),
    Ease(72.0, gap=1.5),
    Ease(64.0, gap=1.0),
    Ease(64.0, gap=0.2),
    Ease(64.0, CROWDED, gap=0.5),
    Ease(64.0, CROWDED, gap=0.5, own_boxes=False),
    Ease(64.0, CROWDED, gap=0.5, own_boxes=False, cuts=28),
    Ease(64.0, CROWDED, gap=0.5, own_boxes=False, cuts=14),
    Ease(64.0, CROWDED, gap=0.5, own_boxes=False, cuts=12),
    Ease(64.0, CROWDED, gap=0.5, own_boxes=False, cuts=6),
)
Steps = tuple[Callable[[ShaftSheet], None], ...]
STEPS: Steps = (
    stop_if,
    align,
    centre,
    place,
    witness,
    touch,
    feed,
    stop_short,
    finish,
    over_key,
    hub,
)
# The most white between two steps. [pt]
WHITE = 8.0
SOURCES = {
    "inch plain": "{standard} in Machinery's Handbook, 31st ed., and other open reproductions.",
    "inch half-moon": "{standard} in Shigley, 9th ed., table 7-7, and Machinery's Handbook, 31st "
    "ed., table 8. A training manual's rule runs 0.005 deeper.",
    "metric plain": "{standard} in open reproductions; widths by ISO 286.",
    "metric half-moon": "{standard} family in open reproductions; widths by ISO 286.",
}
# What a source of cutting speeds is, by a word of its title.
KINDS = (
    ("course sheet", "open course sheet"),
    ("mill manual", "mill maker's manual"),
    ("tool makers", "tool maker's table"),
    ("Data Handbook", "data handbook"),
)


def sheet(tables: Tables, paper: str, done: SetUp, shaft: str) -> Page:
    """Return the page for one seat, set up in one shop.

    Parameters
    ----------
    tables
        Where the edition and the speeds are read.
    paper
        ``Letter`` or ``A4``.
    done
        The seat, and how it is set up.
    shaft
        The shaft's size as it is named, such as ``1-1/8 in``.

    Notes
    -----
    A seat with so many cautions that the rest does not go on the page has a page of those alone,
    which says that its work stops there.
    """
    seat = done.seat
    at_one = None
    if done.speed is None:
        at_one = speed_for(tables, done.shop.material, typed(Fraction(1), seat.work.unit))
    columns = [
        (
            "CAUTION",
            "Eye protection on. Stop the spindle before you measure, brush chips or deburr. "
            + FIRST,
        ),
    ]
    if any(q.recalled for q in _all(done)):
        columns.append((DAGGER, RECALLED))
    columns.append(("Sources.", _source(tables, seat, done.speed or at_one)))
    s, steps, spare = _roomiest(done, STEPS, paper, shaft, columns, at_one)
    if spare < 0:
        # So much is to be mended first that there is no room for the rest, nor use in it.
        s, steps, spare = _roomiest(done, (stop_if, stop_here), paper, shaft, columns, at_one)
    s = ShaftSheet(Frame(paper, DISTANCE_M, coded=False), done, shaft, s.ease, at_one=at_one)
    s.pad = min(WHITE, max(spare, 0.0) / (len(steps) + 1))
    _compose(s, steps)
    foot(s.f, columns, tables.edition, f"{seat.key.family.capitalize()}, {_name(seat)}")
    slug = f"{shaft} {seat.key.family} {seat.key.designation}".replace(" ", "-").replace("/", "_")
    speed = done.speed or at_one
    more = (*done.offset.rows, *done.skew.rows, *(speed.rows if speed else ()))
    mark = shaft_stamp(tables, seat, more)
    return s.f.page(slug, f"{shaft} shaft, {_name(seat)}", mark)


def _roomiest(
    done: SetUp,
    steps: Steps,
    paper: str,
    shaft: str,
    columns: list[tuple[str, str]],
    at_one: Speed | None,
) -> tuple[ShaftSheet, Steps, float]:
    """Return a trial with as much room as goes on the page, and the height that it leaves. [pt]"""
    for ease in EASES:
        s = ShaftSheet(Frame(paper, DISTANCE_M, coded=False), done, shaft, ease, at_one=at_one)
        _compose(s, steps)
        spare = s.f.bottom - foot_height(s.f, columns, s.f.note) - s.y
        if spare >= 0:
            break
    return s, steps, spare


def _compose(s: ShaftSheet, steps: Steps) -> None:
    _title(s)
    # Steps 1 and 2 stand beside the drawings.
    s.numbers = {step.__name__: n for n, step in enumerate(steps, 3)}
    low = drawings(s)
    written(s)
    s.y = max(low, s.y) + s.ease.gap
    thick_and_thin(s.f, s.y)
    s.y += 3
    for step in steps:
        step(s)


def _source(tables: Tables, seat: Seat, speed: Speed | None) -> str:
    floor = seat.floor_to_opposite_side
    text = SOURCES[seat.key.family].format(standard=seat.key.standard)
    places = SETTING_PLACES[seat.work.unit]
    if any(places_of(q.text) < places for q in (floor.least, floor.most)):
        text += " It prints floor to opposite side, S, to three places."
    if speed is not None:
        ids = [part.strip() for part in speed.source.split(" + ")]
        kinds = [_without_maker(tables.sources[i].title) for i in ids if i in tables.sources]
        low, high = (size(q.value, 0) for q in (speed.cutting_low, speed.cutting_high))
        text += f" Speed, {low} to {high} {speed.cutting_unit}: {' and '.join(kinds)}."
    return text + " The rest: geometry."


def _without_maker(title: str) -> str:
    """Return what kind of book or page a source is: no maker or product is named on a page."""
    return next((kind for word, kind in KINDS if word in title), title)


def _name(seat: Seat) -> str:
    name = seat.key.in_print
    return f"No. {name}" if seat.key.family == "inch half-moon" else f"{name} key"


def _all(done: SetUp) -> list[Quantity]:
    found: list[Quantity] = []
    for holder in (done, done.centre, done.seat, done.feed, done.along, done.seat.centring):
        for value in vars(holder).values():
            if isinstance(value, Quantity):
                found.append(value)
            elif isinstance(value, Limits):
                found += [value.least, value.most]
    return found


def _title(s: ShaftSheet) -> None:
    f, c, seat = s.f, s.f.composer, s.seat
    y = f.top + 22
    if s.done.shop.heading:
        heading = shortened(s.done.shop.heading, s.ease.words, f.right - f.left)
        c.say(f.left, f.top + 7, heading, s.ease.words)
        y += 9
    unit = "inches" if s.unit == "in" else "millimetres"
    title, size = f"{_name(seat)} in {article(s.shaft)} shaft", 23.0
    room = f.right - f.left - set_width(unit, 14) - 16
    while set_width(title, size, True) > room:
        size *= 0.97
    c.say(f.left, y, title, size, bold=True, role="H1")
    c.say(f.right, y, unit, 14, anchor="end")
    nothing = (s.work.key_height, s.work.cutter_width, s.work.cutter_diameter, s.work.end_mill)
    made = "Nominal sizes." if nothing == (None,) * 4 else "Nominal shaft."
    if s.work.measured is not None:
        made = f"Shaft measures {shown(s.work.shaft, s.unit)}."
    if before_work(s):
        made += " Stop: read step 3." if stops(s) else " Mind step 3."
    c.say(f.right, y + 15, made, FIGURE, bold=bool(before_work(s)), anchor="end")
    room = f.right - f.left - set_width(made, FIGURE, True) - 14
    says = next((t for t in _kinds(seat) if set_width(t, FIGURE) <= room), _kinds(seat)[-1])
    c.say(f.left, y + 15, shortened(says, FIGURE, room), FIGURE)
    s.y = y + 21
    thick_and_thin(f, s.y)


def _kinds(seat: Seat) -> list[str]:
    """Return what the seat is, in full first, and then in fewer words."""
    if seat.key.diameter is not None:
        kind = "Half-moon (Woodruff) keyseat"
        size = f", {_size(seat)}" if seat.work.unit == "in" else ""
    else:
        kind, size = "Plain (parallel) keyseat", ""
    fit = "" if seat.fit == "standard" else f", {seat.fit} fit"
    given = f" Shafts {seat.shafts}." if seat.shafts else ""
    base = f"{seat.key.standard}{fit}."
    return [f"{kind}{size}. {base}{given}", f"{kind}{size}. {base}", f"{kind}. {base}", base]


def _size(seat: Seat) -> str:
    assert seat.key.diameter is not None
    wide, dia = fraction_text(seat.key.width.value), fraction_text(seat.key.diameter.value)
    return f"{wide} wide, {dia} diameter"
