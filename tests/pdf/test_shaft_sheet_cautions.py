"""Every caution is on its sheet, before the figure that it concerns."""

from __future__ import annotations

from dataclasses import replace

import pytest

from keyseats.load import Tables
from keyseats.lookup import seats_for
from keyseats.paths import tables_dir
from keyseats.seat import Work
from keyseats.set_up import set_up_for
from keyseats.shaft_sheet import sheet
from pdf.reading import ReadPage
from pdf.shaft_sheets import LATHE, MILL, MILLED, REGROUND, SAWN, F, back, done, level, squeezed

WARNED: list[tuple[Work, str, str]] = [
    (replace(REGROUND, cutter_width=F("0.251")), "inch half-moon", "808"),
    (replace(REGROUND, cutter_width=F("0.247")), "inch half-moon", "808"),
    (replace(REGROUND, cutter_diameter=F("1.01")), "inch half-moon", "808"),
    (replace(REGROUND, cutter_diameter=F("1.05")), "inch half-moon", "808"),
    (replace(REGROUND, cutter_diameter=F("0.61")), "inch half-moon", "808"),
    (replace(REGROUND, neck=F("0.5")), "inch half-moon", "808"),
    (replace(REGROUND, collar=F("0.5")), "inch half-moon", "808"),
    (replace(REGROUND, stand_off=F("0.1")), "inch half-moon", "808"),
    (replace(REGROUND, key_height=F("0.45")), "inch half-moon", "808"),
    (replace(REGROUND, key_height=F("0.42")), "inch half-moon", "808"),
    (replace(REGROUND, bore=F("0.995")), "inch half-moon", "808"),
    (Work("in", F(7, 8)), "inch half-moon", "812"),
    (Work("in", F(7, 8), measured=F("0.93")), "inch plain", "3/16 x 3/16"),
    (Work("in", F(7, 8)), "inch plain", "1/4 x 1/4"),
    (Work("mm", F(25), end_mill=F(8)), "metric plain", "8 x 7"),
    (replace(MILLED, tip_length=F(5)), "metric plain", "8 x 7"),
    (Work("mm", F(25), measured=F("25.5")), "metric plain", "8 x 7"),
    (Work("mm", F(25), measured=F("26")), "metric plain", "8 x 7"),
    (replace(SAWN, collar=F("2.2")), "inch plain", "1/4 x 1/4"),
]
CODES = {
    "far-off-nominal",
    "key-not-for-shaft",
    "bore-under-shaft",
    "another-key-as-measured",
    "top-clearance-gone",
    "top-clearance-gone-at-limits",
    "floor-past-centre",
    "key-high",
    "key-low",
    "cutter-narrow",
    "end-mill-wide",
    "cutter-wide",
    "cutter-ground-under-key",
    "cutter-over-seat",
    "cutter-oversize",
    "no-neck-clears",
    "neck-rubs",
    "collar-rubs",
    "holder-hits",
    "face-touch-short",
    "tip-short",
}
BEFORE = {"face-touch-short": "CENTRE", "tip-short": "CENTRE", "cutter-oversize": "Place along."}


@pytest.mark.slow
def test_every_caution_stands_before_the_figure_that_it_concerns() -> None:
    tables, met = Tables(tables_dir()), set()
    for work, family, key in WARNED:
        shop = LATHE if work.unit == "in" else MILL
        made = set_up_for(tables, seats_for(tables, work, (family,), key)[0], shop)
        found = back(sheet(tables, "Letter", made, "this"), "Letter")
        text = squeezed(found.characters)
        assert made.seat.warnings
        for warning in made.seat.warnings:
            met.add(warning.code)
            assert squeezed(warning.says) in text, warning.code
            before = squeezed(BEFORE.get(warning.code, "Align."))
            assert text.index(squeezed(warning.says)) < text.index(before), warning.code
            assert level(found, "Drawing") < found_at(found, warning.says) < level(found, before)
    assert met == CODES


def found_at(found: ReadPage, says: str) -> float:
    start = squeezed(says)[:18]
    return next(w.baseline for w in found.words if start in squeezed(w.text))


def test_a_page_of_nothing_but_cautions_says_that_the_work_stops() -> None:
    tables = Tables(tables_dir())
    made = done("eighty cuts")
    many = made.seat.warnings * 12
    assert many
    over = replace(made, seat=replace(made.seat, warnings=many))
    found = back(sheet(tables, "Letter", over, "1 in"), "Letter")
    text = squeezed(found.characters)
    assert text.count(squeezed(many[0].says)) == 12
    assert "Theworkstopshere." in text
    assert "CENTRE" not in text
