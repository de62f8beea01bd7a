"""The inch plain chart's panels: what stands for a whole key, and rows that are never joined."""

from __future__ import annotations

import dataclasses
import re
from functools import cache
from itertools import pairwise

import pytest

from keyseats.build import document_bytes
from keyseats.families.inch_plain import fraction_text
from keyseats.frame import DISTANCE, Frame
from keyseats.frozen import replace
from keyseats.page import Block, Document, Page
from keyseats.plain_charts import inch_by_key, inch_panels
from keyseats.plain_charts.inch_zones import zones
from keyseats.sheets.wall_inch_plain import sheets
from keyseats.standing import Limits
from pdf.charted import chart, tables
from pdf.tagged import Element, TaggedPage, tagged

PAPERS = ("Letter", "A4", "Tabloid", "A3")
on_every_paper = pytest.mark.parametrize("paper", PAPERS)


def pages(paper: str) -> tuple[Page, ...]:
    return chart("wall-inch-plain", paper)


@cache
def read(paper: str) -> list[TaggedPage]:
    return tagged(document_bytes(Document("x.pdf", "x", "x", paper, pages(paper))))


def rows_of(page: TaggedPage) -> list[list[list[str]]]:
    """Return what is read in each table: rows of cells."""

    def said(element: Element) -> str:
        if element.actual:
            return element.actual
        return " ".join(
            said(kid) if isinstance(kid, Element) else page.text.get(kid, "").strip()
            for kid in element.kids
        )

    found = [e for e in page.section.all() if e.role == "Table"]
    return [[[said(cell) for cell in row.inner()] for row in t.inner()] for t in found]


def test_the_panels_have_every_listed_shaft_once() -> None:
    kept = [z.name for panels in sheets(tables()) for panel in panels for z in panel]
    assert kept == [zone.name for zone in zones(tables())]
    assert [len(panels) for panels in sheets(tables())] == [2, 2]


@on_every_paper
def test_each_panel_is_a_table_of_its_own(paper: str) -> None:
    """Both panels have rows on the same lines; none may be read from one into the other."""
    for page, panels in zip(read(paper), sheets(tables()), strict=False):
        found = rows_of(page)
        for panel, table in zip(panels, found, strict=False):
            named = [row[0] for row in table if row[0] and row[0] != "shaft size"]
            wanted: list[str] = []
            for zone in panel:
                wanted += [f"{zone.name} key", *map(fraction_text, zone.shafts)]
            assert [" ".join(name.split()) for name in named][-len(wanted) :] == wanted
    assert [len(rows_of(page)) for page in read(paper)] == [2, 3, 1]


@on_every_paper
def test_rows_as_the_handbook_prints_them(paper: str) -> None:
    """S and T of 1 in, 1/4 square key: 0.859, 1.114 (Machinery's Handbook, 31st ed., table 2)."""
    left, right = rows_of(read(paper)[0])
    assert [row[-2:] for row in left if row[0] == "1"] == [["0.859", "1.114"]]
    assert not [row for row in right if row[0] == "1"]
    band = next(row for row in left if row[0].split() == ["1/4", "key"])
    assert re.sub(r"\s", "", band[1]) == "seatwidth0.2500to0.2520"


@on_every_paper
def test_rows_open_but_not_too_far(paper: str) -> None:
    for number, panels in enumerate(sheets(tables())):
        page = pages(paper)[number]
        levels = levels_of(page)
        u = Frame(paper, DISTANCE[paper]).unit
        for zone in (zone for panel in panels for zone in panel):
            at = [levels[seat.depth_from_crown.least.text] for seat in zone.seats]
            for above, below in pairwise(at):
                assert 1.18 <= (below - above) / u <= 1.6, (page.slug, zone.name)


def levels_of(page: Page) -> dict[str, float]:
    return {text.text: text.y for text in page.texts()}


@on_every_paper
def test_white_between_the_panels(paper: str) -> None:
    f = Frame(paper, DISTANCE[paper])
    left, right = inch_panels.places(f)
    assert right.left - left.right >= 1.2 * f.unit
    assert (left.left, right.right) == (f.left, f.right)


def test_rows_that_stand_too_close_are_refused() -> None:
    every = zones(tables())
    with pytest.raises(ValueError, match="apart"):
        inch_panels.pitch_for([every], 30.0)


def test_one_tolerance_stands_for_all_square_keys() -> None:
    """Bar stock to 3/4 in: +0, -0.002 (ASME B17.1; Machinery's Handbook, 31st ed.)."""
    every = zones(tables())
    said, rows = inch_by_key.key_tolerance(every)
    assert said == "+0 −0.002"
    assert {row.partition("/")[0] for row in rows} == {"inch_plain_key_limits"}
    key = every[0].tabled.key
    narrow = Limits(replace(key.height.most), key.height.most)
    tabled = replace(every[0].tabled, key=replace(key, height=narrow))
    odd = dataclasses.replace(every[0], tabled=tabled)
    assert inch_by_key.key_tolerance([odd, *every[1:]]) == ("", ())
    assert inch_by_key.key_tolerance([odd])[0] == "+0 −0"


def test_what_stands_once_for_a_key_is_so_for_all_its_shafts() -> None:
    for zone in zones(tables()):
        assert zone.tabled.hub_width == zone.tabled.seat_width
        for seat in zone.seats:
            assert seat.seat_width.least.value == zone.tabled.seat_width.least.value
            assert seat.seat_width.most.value == zone.tabled.seat_width.most.value
            assert zone.tabled.depth_at_edge is not None
            assert seat.depth_at_edge.least.value == zone.tabled.depth_at_edge.least.value


@on_every_paper
def test_what_is_said_once_carries_the_figures_behind_it(paper: str) -> None:
    bands = {
        "".join(t.text for t in block.texts()): set(block.all_rows())
        for block in cells(pages(paper)[0].blocks)
        if block.role == "TH" and block.header == "Row"
    }
    for zone in zones(tables())[:7]:
        assert {zone.row.width.id, zone.row.shaft_over.id, zone.row.shaft_to.id} <= (
            bands[f"{zone.name}key"]
        )
    for number in (0, 1):
        columns = {row.rpartition("/")[2] for row in pages(paper)[number].rows()}
        assert {"floor_minus", "floor_plus", "hub_floor_plus", "shaft_to"} <= columns


def cells(blocks: tuple[Block, ...]) -> list[Block]:
    found: list[Block] = []
    for block in blocks:
        inner = tuple(item for item in block.items if isinstance(item, Block))
        found += [block] if block.role in ("TH", "TD") else cells(inner)
    return found


@on_every_paper
def test_the_feet_say_which_key_and_where_the_rest_is(paper: str) -> None:
    first, second, last = (" ".join(page.words()) for page in pages(paper))
    for words in ("1.2505", "keeps", "Key by nominal size:", "sheet 2."):
        assert words in first
    assert "2.7505" in second
    for page in (first, second):
        assert "+0.0149: the standard's 0.015 less what rounding up took" in " ".join(page.split())
        assert "3 places" in " ".join(page.split())
    assert "no arc height to add" in first
    assert "sheet 3 of 3" in last


@on_every_paper
def test_the_drawing_is_of_a_real_seat(paper: str) -> None:
    """1/4 in is the key of 1 in (ASME B17.1)."""
    assert "1/4 key, 1 shaft," in "".join(pages(paper)[0].words())
