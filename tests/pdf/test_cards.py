"""Cards on their sheets: backs behind their fronts for either flip, and nothing near a cut."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from math import hypot
from pathlib import Path

import pytest

from corrections.copying import copy
from keyseats.build import document_bytes
from keyseats.cards import by_shaft
from keyseats.cards.face import Face
from keyseats.cards.subjects import SUBJECTS
from keyseats.imposing import LONG, SHORT, back_cell, grid_for
from keyseats.load import Tables
from keyseats.page import MM, PAPERS, Block, Document, Line, Mark, Text
from keyseats.paths import tables_dir
from keyseats.sheets import find
from keyseats.sheets.cards import cards
from keyseats.typeface import CAP_HEIGHT
from pdf.card_sheets import CardPage, Rect, behind, card_pages, duplex_hint, number

pytestmark = pytest.mark.slow

# Nothing is printed nearer than this to a cut, nor to a corner rounded to a 6 mm radius. [pt]
WHITE, ROUND = 3 * MM, 6 * MM
# ISO/IEC 7810 for the bank-card size, ISO 216 for A7, the index card by its name. [mm]
SIZES = {"ID-1": (85.6, 53.98), "A7": (105.0, 74.0), "3 x 5 in": (127.0, 76.2)}
SHEETS = {sheet.name: sheet for sheet in find() if sheet.kind == "pocket cards"}
CASES = [
    (name, paper, card + upright)
    for stem, upright, cards in (
        ("cards-id1", "", {"Letter": "ID-1", "A4": "ID-1"}),
        ("cards-index", "", {"Letter": "3 x 5 in", "A4": "A7"}),
        ("reckoners-inch", " upright", {"Letter": "3 x 5 in", "A4": "A7"}),
        ("reckoners-metric", " upright", {"Letter": "3 x 5 in", "A4": "A7"}),
    )
    for name in (stem, f"{stem}-short-edge")
    for paper, card in cards.items()
]


def made(name: str, paper: str, tables: Tables) -> bytes:
    sheet = SHEETS[name]
    pages = tuple(sheet.pages(tables, paper))
    return document_bytes(Document(name, name, name, paper, pages, sheet.duplex))


@cache
def finished(name: str, paper: str) -> tuple[str, list[CardPage]]:
    pdf = made(name, paper, Tables(tables_dir()))
    return duplex_hint(pdf), card_pages(pdf)


def test_every_sheet_of_cards_is_here() -> None:
    assert {name for name, _, _ in CASES} == set(SHEETS)
    assert {(n, p) for n, p, _ in CASES} == {(n, p) for n in SHEETS for p in SHEETS[n].papers}


@pytest.mark.parametrize(("paper", "card"), sorted({(p, c) for _, p, c in CASES}))
def test_a_back_lies_behind_its_front(paper: str, card: str) -> None:
    """Turned on the long edge a sheet mirrors left and right, on the short edge top and bottom."""
    grid = grid_for(paper, card, 18 * MM)
    wide, high = PAPERS[paper]
    for cell in grid.cells:
        x, y = grid.corner(cell)
        bx, by = grid.corner(back_cell(cell, grid, LONG))
        assert abs((wide - bx - PAPERS[card][0]) - x) < 1e-6
        assert abs(by - y) < 1e-6
        bx, by = grid.corner(back_cell(cell, grid, SHORT))
        assert abs(bx - x) < 1e-6
        assert abs((high - by - PAPERS[card][1]) - y) < 1e-6


@pytest.mark.parametrize(("name", "paper", "card"), CASES)
def test_each_front_has_its_back_behind_it_through_the_flip_that_the_file_asks_for(
    name: str, paper: str, card: str
) -> None:
    hint, pages = finished(name, paper)
    assert hint == ("/DuplexFlipShortEdge" if "short" in name else "/DuplexFlipLongEdge")
    edge = "short" if "short" in name else "long"
    whole = Rect(0, 0, *PAPERS[paper])
    for front, back in zip(pages[::2], pages[1::2], strict=True):
        assert f"flipped on the {edge} edge" in front.text(whole)
        assert f"flipped on the {edge} edge" in back.text(whole)
        assert "fronts" in front.text(whole)
        assert "backs" in back.text(whole)
        places = []
        for cell in front.cards:
            there = behind(cell, front, hint)
            match = [c for c in back.cards if max(map(abs, gaps(c, there))) < 0.05]
            assert len(match) == 1
            places.append(match[0])
            assert number(front.text(cell)) == number(back.text(match[0]))
            assert ", back" in back.text(match[0])
            assert ", back" not in front.text(cell)
        assert sorted(places, key=vars_of) == sorted(back.cards, key=vars_of)


def vars_of(rect: Rect) -> tuple[float, ...]:
    return rect.y0, rect.x0, rect.y1, rect.x1


def gaps(one: Rect, other: Rect) -> tuple[float, ...]:
    return tuple(a - b for a, b in zip(vars_of(one), vars_of(other), strict=True))


@pytest.mark.parametrize(("name", "paper", "card"), CASES)
def test_the_cut_marks_make_cards_of_their_size_and_stand_outside_them(
    name: str, paper: str, card: str
) -> None:
    wide, high = SIZES[card.removesuffix(" upright")]
    if card.endswith("upright"):
        wide, high = high, wide
    _, pages = finished(name, paper)
    for page in pages:
        assert page.cards
        for cell in page.cards:
            assert cell.size_mm == pytest.approx((wide, high), abs=0.02)
            assert all(mark.clear(cell, WHITE - 0.2) for mark in page.marks)


@pytest.mark.parametrize(("name", "paper", "card"), CASES)
def test_nothing_is_printed_within_3_mm_of_a_cut_or_of_a_rounded_corner(
    name: str, paper: str, card: str
) -> None:
    _, pages = finished(name, paper)
    for page in pages:
        assert_white(page)


def assert_white(page: CardPage) -> None:
    """Everything is well inside one card or well outside all of them; there is much inside."""
    inside = dict.fromkeys(page.cards, 0)
    for box in (*(one.box for one in page.letters if one.text.strip()), *page.ink):
        held = [cell for cell in page.cards if box.inside(cell, WHITE - 0.01)]
        if not held:
            assert all(box.clear(cell, WHITE) for cell in page.cards), box
            continue
        inside[held[0]] += 1
        for corner in box.corners():
            assert from_rounded_edge(corner, held[0]) >= WHITE - 0.01, box
    assert min(inside.values()) > 200


def from_rounded_edge(point: tuple[float, float], cell: Rect) -> float:
    """Return how far a point stands inside a card whose corners are rounded. [pt]"""
    x = min(point[0] - cell.x0, cell.x1 - point[0])
    y = min(point[1] - cell.y0, cell.y1 - point[1])
    if x < ROUND and y < ROUND:
        return ROUND - hypot(ROUND - x, ROUND - y)
    return min(x, y)


@pytest.mark.parametrize(("name", "paper", "card"), CASES)
def test_every_side_is_numbered_and_cautions(name: str, paper: str, card: str) -> None:
    _, pages = finished(name, paper)
    numbers = set()
    for side, page in enumerate(pages):
        for cell in page.cards:
            text = " ".join(page.text(cell).split())
            numbers.add(number(text))
            assert "CAUTION" in text
            assert "Stop the spindle to measure" in text
            whole = "qualified engineer come first where a failure can hurt someone" in text
            assert whole or (side % 2 == 0 and "Read the back." in text)
    first, last = {"cards": (1, 5), "reckoners-inch": (1, 8), "reckoners-metric": (1, 8)}[
        "cards" if name.startswith("cards") else name.removesuffix("-short-edge")
    ]
    assert numbers == {str(n) for n in range(first, last + 1)}


@pytest.mark.parametrize(
    ("name", "paper"), [("cards-id1", "Letter"), ("cards-index", "A4"), ("reckoners-inch", "A4")]
)
def test_the_marks_of_corrections_keep_off_the_cut_too(
    name: str, paper: str, tmp_path: Path
) -> None:
    bed = copy(tmp_path / "tables")
    bed.plant("inch_half_moon_seats", "depth_at_edge", "0.2144", key="606")
    tables = Tables(bed.folder)
    pages = card_pages(made(name, paper, tables))
    told = sum(page.text(cell).count("corrected since") for page in pages for cell in page.cards)
    assert told
    for page in pages:
        assert_white(page)


@pytest.mark.parametrize("size", ["ID-1", "A7", "3 x 5 in"])
def test_a_card_draws_the_hubs_floor_just_where_it_lists_it(size: str) -> None:
    for faces in cards(Tables(tables_dir()), size)[:4]:
        for face in faces:
            drawn = [b.alt for b in face.blocks() if b.role == "Figure" and "seat" in b.alt]
            assert len(drawn) == 1
            assert ("hub floor" in drawn[0]) == ("hub floor" in said(face))
            assert "over key" not in drawn[0]


@pytest.mark.parametrize("size", ["ID-1", "A7", "3 x 5 in"])
def test_front_and_back_give_the_depth_in_one_form(size: str) -> None:
    """22 mm takes a key whose tolerance is not that of the larger shafts on its side."""
    for front, back in cards(Tables(tables_dir()), size)[:4]:
        forms = {said(face).count("most") for face in (front, back)}
        assert len(forms) == 1


# S, floor to opposite side, as ASME B17.1 prints it to three places: Machinery's Handbook, 31st
# ed., table 2.
PRINTED_FLOORS = {"1/2": "0.430", "1": "0.859"}


@pytest.mark.parametrize("size", ["ID-1", "A7", "3 x 5 in"])
def test_floors_agree_with_depth_from_crown_and_with_the_standards_print(size: str) -> None:
    """0.4295 for 1/2 in is the published 0.430 before it was rounded; with 0.0705 it is 0.5."""
    tables = Tables(tables_dir())
    for subject in SUBJECTS[:2]:
        for face in by_shaft.card(subject, tables, size):
            lines = said(face)
            for shaft, seat in by_shaft.seats(subject, tables, " ".join(subject.shafts)):
                whole = seat.work.nominal
                floor = seat.floor_to_opposite_side.printed(4).most
                depth = seat.depth_from_crown.least
                # Shafts of the other side or size are not listed.
                if depth.text not in lines or floor.text not in lines:
                    continue
                assert whole - Fraction(1, 10**4) <= Fraction(floor.text) + Fraction(depth.text)
                assert Fraction(floor.text) + Fraction(depth.text) <= whole
                if subject.family == "inch plain" and shaft in PRINTED_FLOORS:
                    near = round(floor.value, 3)
                    assert f"{float(near):.3f}" == PRINTED_FLOORS[shaft]
                    assert PRINTED_FLOORS[shaft] not in lines
    plain = said(by_shaft.card(SUBJECTS[0], tables, size)[0])
    at = plain.index("0.0705")
    assert plain[at + 1] == "0.4295"


@pytest.mark.parametrize("size", ["ID-1", "A7", "3 x 5 in"])
def test_rows_keep_off_the_rules(size: str) -> None:
    """A built fraction's numerals and every rule have 0.4 mm of white between them, or more."""
    for front, back in cards(Tables(tables_dir()), size)[:4]:
        for face in (front, back):
            levels = [
                (line.y1 - line.width / 2, line.y1 + line.width / 2)
                for block in face.blocks()
                if block.role == "Artifact"
                for line in block.items
                if isinstance(line, Line) and line.y1 == line.y2
            ]
            for text in figures(face):
                top, foot = text.y - text.size * CAP_HEIGHT, text.y
                for upper, lower in levels:
                    assert lower <= top - 0.4 * MM + 0.02 or upper >= foot + 0.4 * MM - 0.02


def figures(face: Face) -> list[Text]:
    """Return the numerals of a side's tables, those of built fractions too."""
    found: list[Text] = []
    waiting: list[Block | Mark] = [b for b in face.blocks() if b.role in ("TH", "TD")]
    while waiting:
        item = waiting.pop()
        if isinstance(item, Block):
            waiting += item.items
        elif isinstance(item, Text) and item.text[:1].isdigit():
            found.append(item)
    return found


def test_sheets_and_titles_name_the_card_as_print_does() -> None:
    for name in ("cards-index", "cards-index-short-edge", "reckoners-inch"):
        assert " x " not in SHEETS[name].title
        for page in SHEETS[name].pages(Tables(tables_dir()), "Letter"):
            heads = [t for b in page.blocks if b.role == "H1" for t in b.texts()]
            assert any("3 × 5 in" in t.text for t in heads)


def test_keys_of_one_width_whose_seats_differ_are_named(tmp_path: Path) -> None:
    """A corrected seat width of 606; 605 and 607 keep theirs under 3/16."""
    bed = copy(tmp_path / "tables")
    bed.plant("inch_half_moon_seats", "width_least", "0.1864", key="606")
    assert not bed.check().faults
    tables = Tables(bed.folder)
    for size in ("A7", "3 x 5 in"):
        front = by_shaft.card(SUBJECTS[1], tables, size)[0]
        lines = said(front)
        assert {"0.1863", "0.1864"} <= set(lines)
        assert lines.count("606") == 2
        assert "inch_half_moon_seats/606/width_least" in {r for b in front.blocks() for r in b.rows}


def said(face: Face) -> list[str]:
    """Return each line of a side, whatever it is part of."""
    found: list[str] = []
    waiting: list[Block | Mark] = list(face.blocks())
    while waiting:
        item = waiting.pop(0)
        if isinstance(item, Block):
            waiting[:0] = item.items
        elif isinstance(item, Text):
            found.append(item.text)
    return found
