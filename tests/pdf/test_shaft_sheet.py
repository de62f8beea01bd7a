"""Shaft sheets finished and read back: figures of the set-up, in the order of the work."""

from __future__ import annotations

import io
import re
from dataclasses import fields, is_dataclass, replace
from fractions import Fraction
from math import ceil, sqrt
from typing import Any

import pdfplumber
import pytest

from keyseats.build import document_bytes
from keyseats.frame import FLOOR, FOOT, MARGIN, PRINTER
from keyseats.load import Tables
from keyseats.lookup import seats_for
from keyseats.page import PAPERS, Block, Document, Text
from keyseats.paths import tables_dir
from keyseats.set_up import SetUp, set_up_for
from keyseats.shaft_sheet import sheet
from keyseats.shaft_sheet.composing import BIG, LESS_BIG, WORDS
from keyseats.sheets import find
from keyseats.slides import dial_reading
from keyseats.standing import Quantity
from keyseats.typeface import minutes_at
from pdf.reading import Word
from pdf.shaft_sheets import (
    CARRIAGE,
    CASES,
    COARSE,
    CROSS,
    LATHE,
    ON,
    F,
    back,
    done,
    finished,
    page,
    shown,
    squeezed,
)

every = pytest.mark.parametrize("name", CASES)
papers = pytest.mark.parametrize("paper", [ON[0], pytest.param(ON[1], marks=pytest.mark.slow)])


@papers
@every
def test_one_page_inside_its_margins_where_nothing_overlaps(name: str, paper: str) -> None:
    found = finished(name, paper)
    wide, tall = PAPERS[paper]
    words = sorted((w for w in found.words if w.text.strip()), key=lambda w: w.baseline)
    for n, word in enumerate(words):
        assert MARGIN - 0.1 <= word.x0 < word.x1 <= wide - MARGIN + 0.1, word
        assert word.baseline - word.size * 0.73 >= MARGIN - 0.1, word
        assert word.baseline <= tall - FOOT + 0.5, word
        for other in words[n + 1 :]:
            if other.baseline - other.size > word.baseline:
                break
            assert not word.overlaps(other), (word, other)


@papers
@every
def test_no_word_crosses_a_box_to_write_in(name: str, paper: str) -> None:
    one = page(name, paper)
    pdf = document_bytes(Document("x.pdf", "x", "x", paper, (one,)))
    words = [w for w in finished(name, paper).words if w.text.strip()]
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        boxes = [
            r
            for r in document.pages[0].rects + document.pages[0].curves
            if 9 < r["height"] < 20 and r["width"] > 20 and r["stroke"]
        ]
        assert boxes
        for box in boxes:
            for word in words:
                across = min(word.x1, box["x1"]) - max(word.x0, box["x0"])
                top = word.baseline - word.size * 0.73
                down = min(word.baseline, box["bottom"]) - max(top, box["top"])
                inside = word.x0 >= box["x0"] - 0.6 and word.x1 <= box["x1"] + 0.6
                assert across <= 0.6 or down <= 0.8 or inside, (word, box["x0"], box["top"])


@papers
@every
def test_the_steps_follow_the_order_of_the_work(name: str, paper: str) -> None:
    found = finished(name, paper)
    numbers = [w for w in found.words if re.fullmatch(r"\d+", w.text) and abs(w.size - 11.4) < 0.05]
    assert [w.text for w in numbers] == [str(n) for n in range(1, 14)]
    levels = [w.baseline for w in numbers]
    assert levels == sorted(levels)
    text = shown(name, paper)
    order = (
        "Drawing",
        "Measure,writedown",
        "Stopif",
        "Align.",
        "CENTRE",
        "Placealong.",
        "Witnesscut.",
        "Touchthecrown.",
        "FEEDFROMTHE",
        "Stopshort,measure",
        "Finish.",
        "OVER",
        "Hub,floortooppositeside",
    )
    places = [text.index(squeezed(words)) for words in order]
    assert places == sorted(places)


@papers
@pytest.mark.parametrize("name", [n for n in CASES if CASES[n][0].key_height is not None])
def test_the_three_largest_figures_are_what_is_cut_to(name: str, paper: str) -> None:
    found, made = finished(name, paper), done(name)
    sizes = sorted({round(w.size, 2) for w in found.words}, reverse=True)
    largest = [w.text.strip() for w in found.words if abs(w.size - sizes[0]) < 0.02]
    feed, over = made.feed.limits, made.seat.over_key
    wanted = [made.centre.travel, feed.least, feed.most, over.least, over.most]
    assert largest == [q.text for q in wanted]


@pytest.mark.parametrize("name", [n for n in CASES if CASES[n][0].key_height is None])
def test_over_any_key_is_smaller_than_the_two_that_judge(name: str) -> None:
    """Without this key's height, over key cannot judge a seat: geometry."""
    found, made = finished(name, "A4"), done(name)
    sizes = {w.text.strip(): w.size for w in found.words}
    assert sizes[made.seat.over_key.least.text] < sizes[made.centre.travel.text]
    assert "keyheightH" in shown(name)


def quantities(item: Any) -> list[Quantity]:
    if isinstance(item, Quantity):
        return [item]
    if isinstance(item, tuple):
        return [q for part in item for q in quantities(part)]
    if is_dataclass(item):
        return [q for f in fields(item) for q in quantities(getattr(item, f.name))]
    return []


def known(made: SetUp) -> set[Fraction]:
    """Return every figure that a sheet may print, as its text reads."""
    seat, work, feed = made.seat, made.seat.work, made.feed
    places = 4 if work.unit == "in" else 2
    found = {F(q.text) for q in quantities(made) if q.text}
    found |= {q.value for q in quantities(made)}
    found |= {F(v) for v in vars(work).values() if isinstance(v, Fraction)}
    found |= {cut.reading for cut in feed.plan.cuts}
    found |= {F(f"{float(cut.reading):.4f}") for cut in feed.plan.cuts}
    found |= {feed.deepest.value, work.shaft, work.hub_bore}
    for slide in (*made.shop.slides, feed.slide):
        if slide.turn is not None and slide.divisions is not None:
            moves = slide.turn / slide.divisions
            found |= {slide.turn, slide.divisions, moves, moves * F("25.4")}
            # A metric dial's division in inches has no end: six places.
            found.add(F(f"{float(moves / F('25.4')):.6f}"))
    for limits in (seat.seat_diameter, seat.floor_radius):
        if limits is not None:
            found |= {F(limits.printed(places).least.text), F(limits.printed(places).most.text)}
    floor = seat.floor_to_opposite_side.printed(places)
    found |= {F(floor.least.text), F(floor.most.text)}
    if seat.ramp is not None and seat.cutter_diameter is not None:
        deep, dia = float(seat.depth_from_crown.most.value), float(seat.cutter_diameter.value)
        # The half chord that far from the rim, rounded up.
        found.add(F(ceil(sqrt(deep * (dia - deep)) * 10**places), 10**places))
    clear = seat.hub_floor_to_opposite_side
    for a, b in ((clear.least, seat.over_key.most), (clear.most, seat.over_key.least)):
        # A hub is cut to what its standard prints, to three places for a plain inch key.
        coarse = len(a.text.partition(".")[2]) < places
        clearance = F(a.text) - F(b.text) if coarse else a.value - b.value
        # One place less than is set, half up.
        found.add(abs((clearance * 10 ** (places - 1) + F(1, 2)) // 1 / F(10 ** (places - 1))))
    if seat.cutter_kind == "end mill" and made.along.add_from_end is not None:
        whole = F(made.along.add_from_end.text) + seat.cutter_width.value / 2
        found.add(whole)
        if made.along.slide is not None:
            reading = dial_reading(made.along.slide, whole, work.unit)
            assert reading is not None
            found.add(tenth(reading.divisions))
    for warning in seat.warnings:
        found |= {F(n) for n in re.findall(r"\d+\.\d+", warning.says)}
    for reading in (made.centre.dial, made.along.dial, *feed.dials, *(feed.ends or ())):
        if reading is not None:
            found.add(tenth(reading.divisions))
    if made.finder is not None and made.finder.dial is not None:
        found.add(tenth(made.finder.dial.divisions))
    return found


def tenth(divisions: Fraction) -> Fraction:
    """Return divisions to the nearest tenth, half up."""
    return F((divisions * 10 + F(1, 2)) // 1, 10)


# A standard's number and its limit off centre (ASME B17.1), a manual's rule, the reading distance,
# what a shaft may be off; an inch.
CONSTANTS = {F(n) for n in ("17.1", "17.2", "0.010", "0.005", "0.5", "0.001", "0.02", "25.4")}


@papers
@every
def test_every_figure_is_one_of_the_set_up(name: str, paper: str) -> None:
    may = known(done(name)) | CONSTANTS
    found = finished(name, paper)
    figures = [n for w in found.words for n in re.findall(r"\d+\.\d+", w.text)]
    assert len(figures) > 30
    assert not [n for n in figures if F(n) not in may]


@papers
@every
def test_what_is_cut_to_meets_the_floor_for_its_distance(name: str, paper: str) -> None:
    """16 arc-minutes after 6 % shrink; ISO 9241-3 and NUREG-0700 give 16 as the least."""
    one = page(name, paper)
    figures = [t for block in one.blocks for t in cut_to(block)]
    assert len(figures) > 10
    for text in figures:
        assert minutes_at(text.size * PRINTER, one.distance_m) >= FLOOR - 0.02, text


@pytest.mark.slow
@papers
@pytest.mark.parametrize("unit", ["inch", "metric"])
def test_the_printed_set_has_one_size_of_type(unit: str, paper: str) -> None:
    """Facing sheets of one set look alike: white gives way, not the words."""
    chart = next(s for s in find() if s.name == f"shafts-{unit}")
    for one in chart.pages(Tables(tables_dir()), paper):
        sizes = {round(t.size, 2) for t in one.texts()}
        assert {WORDS, BIG} <= sizes, one.slug
        assert LESS_BIG not in sizes, one.slug


def cut_to(block: Block) -> list[Text]:
    if block.cut:
        return [t for t in block.texts() if re.search(r"\d", t.text)]
    return [t for item in block.items if isinstance(item, Block) for t in cut_to(item)]


def test_the_printed_set_leaves_boxes_for_readings_that_are_not_known() -> None:
    for name in ("printed half-moon", "printed plain", "printed metric"):
        text = shown(name)
        for words in ("touch reading", "paper", "lock here", "crown + feed =", "your dial"):
            assert squeezed(words) in text
        assert "turns" not in text.replace("turningtheway", "")


def test_the_plain_sheet_of_the_printed_set_counts_half_the_disc() -> None:
    """Geometry: a disc's rim touches, but full depth ends under its axis."""
    text = shown("printed plain")
    assert "halfcutterdiameter" in text
    assert "÷cutterdiameterininches,rpm" in text


def test_the_lathe_sheet_by_hand() -> None:
    """Worked by hand from the sizes above: geometry, and common practice for the dials."""
    text = shown("lathe")
    # 0.9965/2 + 0.2492/2 + 0.003, no dial on the carriage.
    assert "0.6259" in text
    assert "Nodialonthecarriage" in text
    assert "adjustableparallel" in text
    assert "Blocks(inch-81):" in text
    # 0.988/2 + 0.003 on 0.0625 a turn: 7 turns are 0.4375; 0.0595 of 0.0005 is 119.
    assert "0.4970aloneis7turns+119div" in text
    assert "dialreadsdiameter:divisionsherealreadydoubled" in text
    # No. 808, 0.3080 at the edge: Shigley, table 7-7; arc 0.49825 - sqrt(0.49825^2 - 0.1246^2).
    assert "FEEDFROMTHETOUCHDonotcutyet:mendstep3.paper0.003included" in text
    assert "0.3269" in text
    # 6 turns are 0.300; 0.3269 to 0.3318 inward is 27 to 31 divisions of 0.001.
    assert "6+27to6+31" in text
    assert "0.320" in text
    assert "6+20" in text
    assert "Cutter:808,regroundtwice" in text


def test_the_mill_sheet_by_hand() -> None:
    """Worked by hand: 25/2 + 7.94/2 + 0.05; 4 mm a turn in 80; 7.94 + 0.05 from the near end."""
    text = shown("mill", "A4")
    assert "16.52" in text
    assert "+4turns+10.4div=" in text
    assert "15.50,3turns+70div" in text
    # 4 mm a turn in 80 divisions is 0.05 each.
    assert "7.99+endfacetoseat(mm)=wholetravel(mm)÷4=wholeturnsandrest(mm)÷0.05=div" in text
    assert "travelthe" in text
    assert "lengthless7.940" in text
    # t1 4 +0.2: ISO/R 773; paper 0.05; 0.02 a division, inward.
    assert "least,+4turns+3div=" in text
    assert "most,+4turns+12div=" in text
    assert "readingatthetouch" in text


def test_a_dial_with_one_mark_inside_says_so_and_one_with_none_does_too() -> None:
    assert "1+13only" in shown("coarse dial")
    work, family, key, _, _ = CASES["coarse dial"]
    tables = Tables(tables_dir())
    seat = seats_for(tables, work, (family,), key)[0]
    rough = replace(COARSE, divisions=F(24))
    made = set_up_for(tables, seat, replace(LATHE, slides=(CARRIAGE, CROSS, rough)))
    assert made.feed.ends is None
    text = squeezed(back(sheet(tables, "A4", made, "1 in"), "A4").characters)
    assert "Nowholedivisionofthevertical" in text
    assert "byindicator" in text


@papers
def test_forty_cuts_are_all_there_with_the_stop_boxed(paper: str) -> None:
    made = done("forty cuts")
    cuts = made.feed.plan.cuts
    assert 38 <= len(cuts) <= 44
    found = finished("forty cuts", paper)
    printed = [n for w in found.words for n in re.findall(r"\d+\.\d+", w.text)]
    for cut in cuts[:-1]:
        assert any(F(n) == cut.reading for n in printed)
    dialled = {w.text for w in found.words}
    joined = " ".join(dialled)
    for reading in made.feed.dials[:-1]:
        assert reading is not None
        assert f"{reading.turns}+{reading.divisions}" in joined
    assert cuts[-2].measure


@papers
def test_a_longer_plan_tells_the_first_cuts_together(paper: str) -> None:
    made, text = done("eighty cuts"), shown("eighty cuts", paper)
    told = re.search(r"First(\d+)cuts,noneover0\.004,downto(0\.\d+);then:", text)
    assert told
    count = int(told.group(1))
    assert made.feed.plan.cuts[count - 1].reading == F(told.group(2))
    following = made.feed.plan.cuts[count].reading
    assert f"{float(following):.3f}" in text[told.end() :]


@papers
def test_long_names_are_cut_and_keep_their_beginnings(paper: str) -> None:
    text = shown("widest", paper)
    assert "W" * 20 in text
    assert "Cutter:MMMM" in text
    heading: Word = min(finished("widest", paper).words, key=lambda w: w.baseline)
    assert heading.x1 <= PAPERS[paper][0] - MARGIN + 0.1


def test_names_with_odd_characters_are_printed_as_they_are() -> None:
    text = shown("mill")
    assert squeezed("Werkstatt Süd & Söhne #2 “Fräse”") in text
    assert squeezed("8 mm Schaftfräser, 2 Zähne – “neu”") in text
    assert squeezed("Querschlitten ½") in text
