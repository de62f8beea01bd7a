"""Steps before metal is cut: drawing and hub, what is measured, what stops the job, aligning."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from keyseats.inspection import shown
from keyseats.seat import SETTING_PLACES
from keyseats.setting import figure, set_width
from keyseats.shaft_sheet.cautions import CENTRE, before_work, cautions, of
from keyseats.shaft_sheet.composing import (
    FIGURE,
    TEXT,
    ShaftSheet,
    close,
    lead,
    line,
    marked,
    number,
)
from keyseats.speeds import caution_for
from keyseats.standing import Quantity
from keyseats.typeface import width

# The column that is written in, beside the drawings. [pt]
COLUMN = 250.0
NAMES, BOX, WIDE, LEAST = 22.0, 84.0, 48.0, 54.0
# How far a shaft may be off the size that the sheet is for. Common practice, no source. [length]
OFF = {"in": Fraction("0.001"), "mm": Fraction("0.02")}


@dataclass(frozen=True)
class Row:
    """One size to measure: its name, what was measured already, and what it may be."""

    name: str
    given: Fraction | None = None
    least: Quantity | None = None
    most: Quantity | None = None
    says: str = ""


def written(s: ShaftSheet) -> None:
    """Set steps 1 and 2, beside the drawings; leave ``y`` under them."""
    f, c = s.f, s.f.composer
    x, y, pitch = f.right - COLUMN, s.y + 15, s.ease.pitch
    number_at(s, x, y)
    for name, at, given in (("Drawing", x + NAMES, None), ("hub bore", x + 128, s.work.bore)):
        c.say(at, y, name, s.ease.words, bold=True)
        left = at + width(name, s.ease.words, True) + 5
        _box(s, left, (x + 122 if name == "Drawing" else f.right - 6) - left, y, given)
    y += pitch + 2.5
    c.rule(x, f.right, y - pitch + 4.0, 0.4)
    number_at(s, x, y)
    c.say(x + NAMES, y, "Measure, write down", s.ease.words, bold=True)
    with c.table():
        for at, text in ((f.right - LEAST, "least"), (f.right - 5, "most")):
            c.say(at, y, text, 7.4, anchor="end", role="TH", header="Column")
        y += pitch - 1
        for row in _rows(s):
            y = _row(s, x, y, row)
    s.y = y - pitch + 5


def _box(s: ShaftSheet, left: float, wide: float, y: float, given: Fraction | None) -> None:
    """Set a box to write in, with what was measured already."""
    tall = min(14.0, s.ease.pitch - 1.8)
    s.f.composer.frame(left, y - 3.4 - tall / 2, left + wide, y - 3.4 + tall / 2, 0.6)
    if given is not None:
        text = shown(given, s.unit)
        s.f.composer.say(left + wide / 2, y, text, FIGURE, anchor="middle")


def number_at(s: ShaftSheet, x: float, y: float) -> None:
    """Set the next step's number beside the drawings."""
    s.step += 1
    s.f.composer.say(x + 13, y, str(s.step), 11.4, bold=True, anchor="end")


def _rows(s: ShaftSheet) -> list[Row]:
    seat, work = s.seat, s.work
    wide = seat.seat_width
    rows = [
        Row("shaft", work.measured, says=f"for {shown(work.shaft, s.unit)}"),
        Row("key width", says=f"nominal {seat.key.width.text}"),
        Row("key height", work.key_height, seat.key.height.least, seat.key.height.most),
    ]
    corner = []
    if seat.floor_radius is not None:
        radius = seat.floor_radius.printed(SETTING_PLACES[s.unit])
        if Fraction(radius.least.text) > Fraction(radius.most.text):
            # One size for both, which has more places than are printed.
            radius = seat.floor_radius.printed(SETTING_PLACES[s.unit], "nearest")
        corner = [Row("cutter corner radius", None, radius.least, radius.most)]
        if radius.least.text == radius.most.text:
            corner = [Row("cutter corner radius", most=radius.most, says="nominal")]
    if s.kind == "end mill":
        return [*rows, Row("end mill", work.end_mill, None, wide.most), *corner]
    rows.append(Row("cutter width", work.cutter_width, wide.least, wide.most))
    over = seat.seat_diameter.most if seat.seat_diameter is not None else None
    or_over = "or over" if s.half_moon and over is None else ""
    if over is not None:
        over = over.printed(4 if s.unit == "in" else 2, "down")
    rows.append(Row("cutter diameter", work.cutter_diameter, seat.key.diameter, over, or_over))
    if seat.largest_neck is not None:
        rows.append(Row("neck", work.neck, None, seat.largest_neck))
    return rows + corner


def _row(s: ShaftSheet, x: float, y: float, row: Row) -> float:
    c, f = s.f.composer, s.f
    c.say(x + NAMES, y, row.name, min(s.ease.words, 8.2), role="TH", header="Row")
    left = x + NAMES + BOX
    _box(s, left, WIDE, y, row.given)
    if row.says:
        size = FIGURE if row.least is None else s.ease.words
        shift = set_width(row.most.text + " ", FIGURE) if row.most is not None else 0.0
        c.say(f.right - 5 - shift, y, row.says, size, anchor="end", role="TD")
    for at, q in ((f.right - LEAST, row.least), (f.right - 5, row.most)):
        if q is not None:
            text_of = q if q.text else q.printed(SETTING_PLACES[s.unit])
            c.add(figure(at, y, text_of, FIGURE))
    return y + s.ease.pitch


def stop_if(s: ShaftSheet) -> None:
    """Set what stops the job: first what is still to be measured, then what is known already."""
    work, reasons = s.work, []
    if s.kind == "end mill" and work.end_mill is None:
        reasons.append("the end mill")
    if s.kind != "end mill" and work.cutter_width is None:
        reasons.append("the cutter's width")
    if s.half_moon and work.cutter_diameter is None:
        reasons.append("its diameter")
    if s.seat.largest_neck is not None and work.neck is None:
        reasons.append("its neck")
    radius = s.seat.floor_radius
    if radius is not None and radius.least.value < radius.most.value:
        reasons.append("its corner radius" if reasons else "the cutter's corner radius")
    text = ""
    if reasons:
        text = f"{_listed(reasons)} is outside its limits"
    needed = s.seat.stand_off_needed
    held = s.half_moon or work.holder_radius is not None
    if held and work.stand_off is None and needed is not None and needed.value > 0:
        text += f"{', or' if text else ''} the holder stands nearer than {marked(needed)} to the "
        text += "cutter's face"
    own = f"more than {s.small(OFF[s.unit])} from {shown(work.shaft, s.unit)}"
    if text:
        text = f"{text}. A shaft {own} needs a sheet of its own."
    else:
        text = f"the shaft is {own}: it needs a sheet of its own."
    y = s.y + 12.5
    number(s, y)
    y = lead(s, y, "Stop if", text)
    x = s.f.left + TEXT
    y = cautions(s, before_work(s), y, x, s.f.right - x - 4)
    close(s, y + 3 + s.ease.gap / 2)


def stop_here(s: ShaftSheet) -> None:
    """Set, on a page that holds nothing but cautions, that the work goes no further."""
    text = "Mend what step 3 says, then have this sheet made again: its figures wait until then."
    line(s, "The work stops here.", text)


def _listed(names: list[str]) -> str:
    """Return names in words, the last after an ``or``."""
    return " or ".join(part for part in (", ".join(names[:-1]), names[-1]) if part)


def align(s: ShaftSheet) -> None:
    """Set the shaft's alignment, the cutter's rotation and its speed."""
    done = s.done
    by = "its slide"
    if done.along.slide is not None:
        by = f"the {s.called(done.along.slide)}"
    against = "" if s.half_moon else ", feed against it"
    text = (
        f"Shaft parallel with {by}: indicator along it, {marked(done.skew)} at most over the seat. "
        f"Cutter turning the way its teeth cut{against}. "
    )
    speed, rows = done.speed or s.at_one, done.skew.rows
    if speed is not None:
        rows += speed.rows
        rpm = f"{speed.low} to {speed.high} rpm"
        if done.speed is None:
            unit = "inches" if s.unit == "in" else "mm"
            rpm = f"{speed.low} to {speed.high} ÷ cutter diameter in {unit}, rpm"
        text += f"Speed {rpm} (HSS, {speed.material}); {caution_for(s.kind)}."
    y = s.y + 12.5
    number(s, y)
    last = lead(s, y, "Align.", text, rows=rows)
    close(s, last + 3, ruled=bool(of(s, CENTRE)))
