"""A corrected figure that the check lets pass never stops a wall chart, and is printed truly."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from corrections.copying import copy
from keyseats.families.inch_plain import fraction_text
from keyseats.load import Tables, number
from keyseats.page import Page
from keyseats.paths import tables_dir
from keyseats.sheets import Sheet, find
from tables.planting import Bed

SHEETS = {sheet.name: sheet for sheet in find() if sheet.name.startswith("wall-")}
# The lowest paper of those for the machine, and for across the room.
PAPERS = ("Letter", "ANSI C")
HALF_MOON = ("metric_half_moon_seats", {"standard": "ISO 3912", "designation": "5 x 7.5 x 19"})
SQUARE = ("inch_plain_fits", {"fit": "class 1", "section": "square", "width_to": "1/2 in"})
FLAT = ("inch_plain_fits", {"fit": "class 1", "section": "rectangular", "width_to": "1 in"})
METRIC = ("metric_plain_keys", {"standard": "ISO/R 773", "width": "8"})
# A width's key above edge goes from the least to the most of its keys: a figure that no longer is
# the least or the most is not printed.
EXTREMES = {("inch_half_moon_keys", "height_least"), ("inch_half_moon_keys", "height_most")}
FIGURE = re.compile(r"-?[\d.]+|[\d/-]+ in")
Where = tuple[str, dict[str, str]]


@dataclass(frozen=True)
class Case:
    """A figure that is corrected, with those that follow from it by rule, and what is printed.

    ``page`` counts from nought; ``says`` are pieces of what the page then says, in any order.
    """

    where: Where
    cells: dict[str, str]
    sheet: str
    paper: str
    page: int
    says: tuple[str, ...]
    silent: tuple[str, ...] = ()


CASES = {
    # 7.5 - 5.4 = 2.1 above the crown, the others of 5 wide 2.0.
    "half-moon depth": Case(
        HALF_MOON,
        {"depth_from_crown": "5.4", "top_clearance": "0.2"},
        "wall-metric-half-moon",
        "Letter",
        0,
        ("5.40 5.60", "4.970 5.000 2.10", "for every key between two rules"),
        ("of the width",),
    ),
    "half-moon depth at 2 m": Case(
        HALF_MOON,
        {"depth_from_crown": "5.4", "top_clearance": "0.2"},
        "wall-metric-half-moon",
        "ANSI C",
        1,
        ("5.40 5.60 2.10", "for every key between two rules"),
    ),
    "half-moon hub": Case(
        HALF_MOON,
        {"hub_depth_plus": "0.2"},
        "wall-metric-half-moon",
        "Letter",
        1,
        ("that has no row of its own", "2.50"),
    ),
    "square floors, by shaft": Case(
        SQUARE,
        {"floor_minus": "-0.016", "top_loosest": "0.033"},
        "wall-inch-plain",
        "Letter",
        0,
        ("+0.0159 −0", "+0 −0.016"),
        ("+0.0149", "+0 −0.015"),
    ),
    "square floors, every key": Case(
        SQUARE,
        {"floor_minus": "-0.016", "top_loosest": "0.033"},
        "wall-inch-plain",
        "Letter",
        2,
        (
            "depth at edge + arc height, see foot",
            "Depth from crown: square 3/32 to 1/2 +0.016 −0, all others +0.015 −0.",
            "Floor to opposite side: square 3/32 to 1/2 +0 −0.016, all others +0 −0.015.",
            "0.005, +0.010 −0",
        ),
    ),
    "flat hub, every key": Case(
        FLAT,
        {"hub_floor_minus": "0.001", "top_tightest": "0.006"},
        "wall-inch-plain",
        "Letter",
        2,
        (
            "depth at edge + see foot",
            "depth at edge + arc height, +0.015 −0",
            "Hub: rectangular 7/8 to 1 + 0.006, +0.009 −0, all others + 0.005, +0.010 −0.",
        ),
    ),
    "flat seat width, every key": Case(
        FLAT,
        {"seat_width_plus": "0.004", "side_loosest": "0.008"},
        "wall-inch-plain",
        "Letter",
        2,
        (
            "Seat and hub width: square 7/8 to 1 +0.003 −0, rectangular 7/8 to 1 +0.004 −0.",
            "0.3125 see foot",
        ),
    ),
    "square floors at 2 m": Case(
        SQUARE,
        {"floor_minus": "-0.016", "top_loosest": "0.033"},
        "wall-inch-plain",
        "ANSI C",
        0,
        ("+0.0159 −0", "+0 −0.016"),
    ),
    "a hub that goes on": Case(
        METRIC,
        {"hub_depth": "3.6", "top_clearance": "0.6"},
        "wall-graphs-metric",
        "Letter",
        1,
        ("lets the hub pass",),
        ("tallest key stops the hub key and hub",),
    ),
    "inch half-moon seat": Case(
        ("inch_half_moon_seats", {"key": "405"}),
        {"width_least": "0.1241"},
        "wall-inch-half-moon",
        "Letter",
        1,
        ("seat width 0.1240 0.1255", "seat width, 405 0.1241 0.1255", "or as named"),
    ),
}


def planted(bed: Bed, where: Where, cells: dict[str, str]) -> list[str]:
    """Correct some cells of a row, and return their ids."""
    table, row = where
    line = 0
    for column, text in cells.items():
        line = bed.plant(table, column, text, **row)
    name = next(r.id for r in Tables(bed.folder).rows(table) if r.line == line)
    return [f"{table}/{name}/{column}" for column in cells if not column.endswith("_from")]


def refused(bed: Bed) -> bool:
    return bool(bed.check().faults)


@pytest.mark.slow
@pytest.mark.parametrize("name", CASES)
def test_a_page_prints_what_was_corrected(tmp_path: Path, name: str) -> None:
    case = CASES[name]
    bed = copy(tmp_path / "tables")
    ids = planted(bed, case.where, case.cells)
    assert not refused(bed), bed.check().faults
    made = tuple(SHEETS[case.sheet].pages(Tables(bed.folder), case.paper))
    words = " ".join(" ".join(made[case.page].words()).replace("†", " ").split())
    for piece in case.says:
        assert piece in words, words
    for piece in case.silent:
        assert piece not in words
    assert ids[0] in {row for page in made for row in page.rows()}


def parted(bed: Bed, where: Where, at: str, cells: dict[str, str]) -> None:
    """Part a row's band of key widths in two; correct some cells of the second."""
    table, row = where
    lines = bed.read(table)
    n = bed.line(table, **row)
    columns = {name: k for k, name in enumerate(lines[0])}
    second = list(lines[n - 1])
    lines[n - 1][columns["width_to"]] = second[columns["width_over"]] = at
    for column, text in cells.items():
        second[columns[column]] = text
    lines.insert(n, second)
    bed.write(table, lines)


@pytest.mark.slow
@pytest.mark.parametrize(("at", "paper"), [("3/16 in", "Letter"), ("3/32 in", "ANSI C")])
def test_keys_that_differ_side_by_side_have_their_tolerances_with_them(
    tmp_path: Path, at: str, paper: str
) -> None:
    """A panel, and at 2 m a sheet, whose keys are of two rows of the table."""
    bed = copy(tmp_path / "tables")
    parted(bed, SQUARE, at, {"floor_minus": "-0.016", "top_loosest": "0.033"})
    assert not refused(bed), bed.check().faults
    page = made(Tables(bed.folder), SHEETS["wall-inch-plain"], paper)[0]
    said = list(page.words())
    assert said.count("by key") == 2
    assert {"+0.0159 −0", "+0.0149 −0", "+0 −0.016", "+0 −0.015"} <= set(said)
    assert said.index("+0.0149 −0") < said.index("+0.0159 −0")


def test_bar_stock_that_differs_stands_beside_each_key(tmp_path: Path) -> None:
    """Keys over 1/2 in may be 0.003 under; the heads then say none, and each row its own."""
    bed = copy(tmp_path / "tables")
    stock = {"stock": "bar stock", "section": "square", "width_over": "0 in"}
    parted(bed, ("inch_plain_key_limits", stock), "1/2 in", {"height_minus": "-0.003"})
    wide = {"fit": "class 1", "section": "square", "width_to": "3/4 in"}
    bed.plant("inch_plain_fits", "top_loosest", "0.033", **wide)
    assert not refused(bed), bed.check().faults
    for paper in SHEETS["wall-inch-plain"].papers[:4]:
        page = made(Tables(bed.folder), SHEETS["wall-inch-plain"], paper)[1]
        said = [text.text for text in page.texts()]
        assert said.count("+0 −0.002") == 7
        assert said.count("+0 −0.003") == 2
        assert any("height_minus" in row for row in page.rows())


def test_a_first_shaft_that_no_key_is_for_has_no_frame(tmp_path: Path) -> None:
    bed = copy(tmp_path / "tables")
    bed.plant("inch_plain_keys", "shaft_over", "3/8 in", shaft_over="5/16 in")
    assert not refused(bed), bed.check().faults
    for paper in PAPERS:
        pages = made(Tables(bed.folder), SHEETS["wall-setting-up-inch"], paper)
        assert any("3/8" in page.words() for page in pages)


@cache
def shipped() -> Tables:
    return Tables(tables_dir())


def made(tables: Tables, sheet: Sheet, paper: str) -> tuple[Page, ...]:
    return tuple(sheet.pages(tables, paper))


@cache
def printed() -> tuple[tuple[str, int, str, frozenset[str]], ...]:
    """Return table, line and column of each figure that wall charts rest on, and which charts."""
    found: dict[str, set[str]] = {}
    for sheet in SHEETS.values():
        for page in made(shipped(), sheet, PAPERS[0]):
            for row in page.rows():
                found.setdefault(row, set()).add(sheet.name)
    lines = {
        f"{table}/{row.id}": row
        for table in {row.partition("/")[0] for row in found}
        for row in shipped().rows(table)
    }
    cells = []
    for row, sheets in sorted(found.items()):
        head, _, column = row.rpartition("/")
        if (head.partition("/")[0], column) in EXTREMES:
            continue
        if FIGURE.fullmatch(lines[head].cells[column]):
            cells.append((head.partition("/")[0], lines[head].line, column, frozenset(sheets)))
    return tuple(cells)


def moved(text: str, by: int) -> str:
    """Return a figure moved in its last place, and a size in fractions by sixteenths."""
    if text.endswith(" in"):
        return f"{fraction_text(number(text) + Fraction(by, 16))} in"
    places = len(text.partition(".")[2])
    return f"{float(text) + by * 10**-places:.{places}f}"


@pytest.mark.slow
@settings(max_examples=100, deadline=None, suppress_health_check=list(HealthCheck))
@given(data=st.data(), by=st.sampled_from((-2, -1, 1, 2)), paper=st.sampled_from(PAPERS))
def test_no_figure_that_the_check_lets_pass_stops_a_chart(
    tmp_path_factory: pytest.TempPathFactory, data: st.DataObject, by: int, paper: str
) -> None:
    table, line, column, sheets = data.draw(st.sampled_from(printed()))
    bed = copy(tmp_path_factory.mktemp("corrected") / "tables")
    lines = bed.read(table)
    at = lines[0].index(column)
    text = moved(lines[line - 1][at], by)
    lines[line - 1][at] = text
    bed.write(table, lines)
    if refused(bed):
        return
    tables = Tables(bed.folder)
    name = next(row.id for row in tables.rows(table) if row.line == line)
    found = {
        row
        for sheet in sheets
        for page in made(tables, SHEETS[sheet], PAPERS[0])
        for row in page.rows()
    }
    # A size by which other tables know the row may leave the key without what they say of it.
    known = {row.id for row in shipped().rows(table)}
    assert f"{table}/{name}/{column}" in found or name not in known
    for sheet in SHEETS.values():
        if paper in sheet.papers:
            assert made(tables, sheet, paper)
