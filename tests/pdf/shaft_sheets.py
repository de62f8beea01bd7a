"""Shaft sheets of several shops, made and finished once for all the tests that read them."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from functools import cache

from keyseats.build import document_bytes
from keyseats.lengths import Length
from keyseats.load import Tables
from keyseats.lookup import seats_for
from keyseats.page import Document, Page
from keyseats.paths import tables_dir
from keyseats.seat import Work
from keyseats.set_up import SetUp, set_up_for
from keyseats.shaft_sheet import sheet
from keyseats.shop import USUAL, Shop
from keyseats.slides import Slide
from pdf.reading import ReadPage, read

F = Fraction
ON = ("Letter", "A4")


def inch(text: str) -> Length:
    return Length(F(text), "in", f"{text} in")


def mm(text: str) -> Length:
    return Length(F(text), "mm", f"{text} mm")


CARRIAGE = Slide("carriage", "along the spindle", "in", None, None)
CROSS = Slide("cross slide", "across the spindle", "in", F("0.0625"), F(125), "diameter")
UPRIGHT = Slide("attachment slide", "up and down", "in", F("0.05"), F(50))
LATHE = Shop(
    heading="Ferry Lane evening class",
    slides=(CARRIAGE, CROSS, UPRIGHT),
    deepest_pass=inch("0.010"),
    paper_thickness=inch("0.003"),
    block_set="inch-81",
)
# A cutter reground under the key, a shaft turned under size.
REGROUND = Work(
    "in",
    F(1),
    measured=F("0.9965"),
    cutter_width=F("0.2492"),
    cutter_diameter=F("0.988"),
    neck=F("0.31"),
    stand_off=F("0.6"),
    key_height=F("0.4355"),
    paper=F("0.003"),
    cutter_name="808, reground twice",
)
MILL = Shop(
    heading="Werkstatt Süd & Söhne #2 “Fräse”",
    spindle="mill",
    shaft_lies="along the table",
    slides=(
        Slide("quill", "up and down", "mm", F(1), F(50), zero=False),
        Slide("long slide", "along the table", "mm", F(4), F(80)),
        Slide("Querschlitten ½", "across the table", "mm", F(4), F(80), zero=False),
    ),
    tip=mm("6"),
    tip_length=mm("20"),
    block_set="metric-88",
)
MILLED = Work(
    "mm",
    F(25),
    end_mill=F("7.94"),
    key_height=F("6.97"),
    tip=F(6),
    tip_length=F(20),
    paper=F("0.05"),
    cutter_name="8 mm Schaftfräser, 2 Zähne – “neu”",
)
FIXED = replace(LATHE, slides=(CARRIAGE, CROSS, replace(UPRIGHT, zero=False)))
COARSE = Slide("vertical", "up and down", "in", F("0.25"), F(40))
WIDE = Shop(
    heading="W" * 80,
    slides=(
        Slide("W" * 40, "along the spindle", "in", F("0.0625"), F("62.5"), "movement", False),
        Slide("M" * 40, "up and down", "mm", F(2), F(40)),
        Slide("W" * 39 + "Q", "across the spindle", "in", F("0.0625"), F("62.5"), "diameter"),
    ),
    shaft_lies="upright",
    paper_thickness=mm("0.05"),
    block_set="inch-81",
)
WIDEST = Work(
    "mm",
    F(100),
    measured=F("99.98"),
    bore=F("100.02"),
    key_height=F("15.95"),
    paper=F("0.05"),
    cutter_width=F("27.98"),
    cutter_diameter=F(250),
    cutter_name="M" * 40,
)
SAWN = Work(
    "in",
    F(1),
    cutter_width=F("0.2505"),
    cutter_diameter=F("2.98"),
    paper=F("0.003"),
    cutter_name="slitting saw",
)
GEARED = replace(
    LATHE,
    slides=(Slide("carriage", "along the spindle", "in", F("0.25"), F(250)), CROSS, UPRIGHT),
)
# An inch shaft on a slide with a metric dial that reads diameter and cannot be zeroed.
METRIC = Slide("Querschlitten", "across the spindle", "mm", F(2), F(80), "diameter", zero=False)
BORROWED = replace(
    LATHE, slides=(CARRIAGE, METRIC, UPRIGHT), holder_radius=inch("0.75"), block_set=""
)
# A collar that keeps the disc's rim from the shaft's widest point.
COLLARED = Work(
    "in",
    F(3, 2),
    cutter_width=F("0.375"),
    cutter_diameter=F("2.5"),
    collar=F("1.3"),
    paper=F("0.0025"),
    key_height=F("0.3745"),
)
CASES: dict[str, tuple[Work, str, str | None, Shop, str]] = {
    "printed half-moon": (Work("in", F(1)), "inch half-moon", None, USUAL, "1 in"),
    "printed plain": (Work("in", F(7, 8)), "inch plain", None, USUAL, "7/8 in"),
    "printed metric": (Work("mm", F(50)), "metric plain", None, USUAL, "50 mm"),
    "printed metric half-moon": (Work("mm", F(22)), "metric half-moon", None, USUAL, "22 mm"),
    "lathe": (REGROUND, "inch half-moon", "808", LATHE, "1 in"),
    "fixed dial": (REGROUND, "inch half-moon", "808", FIXED, "1 in"),
    "coarse dial": (
        replace(REGROUND, cutter_diameter=F("1.002")),
        "inch half-moon",
        "808",
        replace(LATHE, slides=(CARRIAGE, CROSS, COARSE)),
        "1 in",
    ),
    "forty cuts": (
        replace(REGROUND, measured=None, cutter_diameter=F("1.002")),
        "inch half-moon",
        "808",
        replace(LATHE, deepest_pass=inch("0.008")),
        "1 in",
    ),
    "eighty cuts": (
        REGROUND,
        "inch half-moon",
        "808",
        replace(FIXED, deepest_pass=inch("0.004")),
        "1 in",
    ),
    "mill": (MILLED, "metric plain", None, MILL, "25 mm"),
    "disc": (SAWN, "inch plain", None, GEARED, "1 in"),
    "widest": (WIDEST, "metric plain", None, WIDE, "100 mm"),
    "high shaft": (
        Work("in", F(11, 2), key_height=F("1.2495")),
        "inch plain",
        None,
        USUAL,
        "5-1/2 in",
    ),
    "metric dial": (
        Work("in", F(7, 8), paper=F("0.0025"), holder_radius=F("0.75")),
        "inch plain",
        None,
        BORROWED,
        "7/8 in",
    ),
    "high touch": (COLLARED, "inch plain", "3/8 x 3/8", FIXED, "1-1/2 in"),
    "many on a fixed dial": (
        Work(
            "in",
            F(3, 4),
            cutter_width=F("0.1869"),
            cutter_diameter=F("0.7500"),
            neck=F("0.245"),
            stand_off=F("0.55"),
            paper=F("0.0025"),
        ),
        "inch half-moon",
        "606",
        replace(FIXED, deepest_pass=inch("0.012")),
        "3/4 in",
    ),
    "paper alone": (Work("in", F(1), paper=F("0.003")), "inch half-moon", None, USUAL, "1 in"),
}


def done(name: str) -> SetUp:
    work, family, key, shop, _ = CASES[name]
    tables = Tables(tables_dir())
    return set_up_for(tables, seats_for(tables, work, (family,), key)[0], shop)


@cache
def page(name: str, paper: str) -> Page:
    return sheet(Tables(tables_dir()), paper, done(name), CASES[name][4])


@cache
def finished(name: str, paper: str) -> ReadPage:
    return back(page(name, paper), paper)


def back(one: Page, paper: str) -> ReadPage:
    pages = read(document_bytes(Document("x.pdf", "x", "x", paper, (one,))))
    assert len(pages) == 1
    return pages[0]


def squeezed(text: str) -> str:
    return re.sub(r"\s", "", text)


def shown(name: str, paper: str = "Letter") -> str:
    return squeezed(finished(name, paper).characters)


def level(found: ReadPage, text: str) -> float:
    """Return the baseline of the first line that begins with a text."""
    return next(w.baseline for w in found.words if squeezed(w.text).startswith(squeezed(text)))
