"""The shaft sheet: one seat in one shaft on one page, its figures in the order of the work."""

from __future__ import annotations

from keyseats.families.inch_plain import fraction_text
from keyseats.frame import FIRST, RECALLED, Frame, foot, foot_height, thick_and_thin
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.seat import Seat
from keyseats.setting import DAGGER
from keyseats.shaft_sheet.composing import DISTANCE_M, FIGURE, ShaftSheet
from keyseats.shaft_sheet.drawings import drawings
from keyseats.shaft_sheet.steps import STEPS, steps
from keyseats.standing import Limits, Quantity

PAPERS = ("Letter", "A4")
# Size of the shaft as drawn, smaller where many passes need the room. [pt]
DRAWN = (112.0, 98.0, 84.0)
SOURCES = {
    "inch plain": "{standard} in Machinery's Handbook, 31st ed., and other open reproductions.",
    "inch half-moon": "{standard} in Shigley, 9th ed., table 7-7, and Machinery's Handbook, 31st "
    "ed., table 8. A training manual's rule runs 0.005 deeper.",
    "metric plain": "{standard} in open reproductions; widths by ISO 286.",
    "metric half-moon": "{standard} family in open reproductions; widths by ISO 286.",
}


def sheet(tables: Tables, paper: str, seat: Seat, shaft: str) -> Page:
    """Return the page for one seat.

    Parameters
    ----------
    tables
        Where the edition is read.
    paper
        ``Letter`` or ``A4``.
    seat
        The seat's figures.
    shaft
        The shaft's size as it is named, such as ``1-1/8 in``.
    """
    columns = [
        (
            "CAUTION",
            "Eye protection on. Stop the spindle before you measure, brush chips or deburr. "
            + FIRST,
        ),
    ]
    if any(q.recalled for q in _all(seat)):
        columns.append((DAGGER, RECALLED))
    columns.append(("Sources.", _source(seat)))
    for drawn in DRAWN:
        trial = ShaftSheet(Frame(paper, DISTANCE_M), seat, shaft, drawn)
        _compose(trial)
        spare = trial.f.bottom - foot_height(trial.f, columns, trial.f.note) - trial.y
        if spare >= 0:
            break
    else:
        raise ValueError(f"{_name(seat)} in {shaft} overruns its sheet by {-spare:.1f} pt")
    pad = min(8.0, spare / (STEPS + 1))
    s = ShaftSheet(Frame(paper, DISTANCE_M), seat, shaft, drawn, pad)
    _compose(s)
    foot(s.f, columns, tables.edition, f"{seat.key.family.capitalize()}, {_name(seat)}")
    slug = f"{shaft} {seat.key.family} {seat.key.designation}".replace(" ", "-").replace("/", "_")
    return s.f.page(slug, f"{shaft} shaft, {_name(seat)}")


def _compose(s: ShaftSheet) -> None:
    _title(s)
    drawings(s)
    steps(s)


def _source(seat: Seat) -> str:
    text = SOURCES[seat.key.family].format(standard=seat.key.standard)
    return text + " The rest is geometry."


def _name(seat: Seat) -> str:
    name = seat.key.designation
    return f"No. {name}" if seat.key.family == "inch half-moon" else f"{name} key"


def _all(seat: Seat) -> list[Quantity]:
    found: list[Quantity] = []
    for value in vars(seat).values():
        if isinstance(value, Quantity):
            found.append(value)
        elif isinstance(value, Limits):
            found += [value.least, value.most]
    return found


def _title(s: ShaftSheet) -> None:
    f, c, seat = s.f, s.f.composer, s.seat
    y = f.top + 22
    c.say(f.left, y, f"{_name(seat)} in a {s.shaft} shaft", 23, bold=True, role="H1")
    unit = "inches" if s.unit == "in" else "millimetres"
    c.say(f.right, y, unit, 14, anchor="end")
    if s.half_moon:
        kind = "Half-moon (Woodruff) keyseat"
        size = "" if s.unit == "mm" else f", {_size(seat)}"
    else:
        kind, size = "Plain (parallel) keyseat", ""
    fit = "" if seat.fit == "standard" else f", {seat.fit} fit"
    given = f" Shafts {seat.shafts}." if seat.shafts else ""
    c.say(f.left, y + 15, f"{kind}{size}. {seat.key.standard}{fit}.{given}", FIGURE)
    made = "Nominal sizes"
    if not s.work.as_nominal:
        made = f"Shaft as measured, {s.setting(s.work.shaft)}"
    c.say(f.right, y + 15, f"{made}.", FIGURE, anchor="end")
    s.y = y + 21
    thick_and_thin(f, s.y)


def _size(seat: Seat) -> str:
    assert seat.key.diameter is not None
    wide, dia = fraction_text(seat.key.width.value), fraction_text(seat.key.diameter.value)
    return f"{wide} wide, {dia} diameter"
