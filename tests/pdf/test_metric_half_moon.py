"""The metric half-moon charts: what is said once a width holds for every key of it."""

from __future__ import annotations

import shutil
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest

from keyseats.build import document_bytes
from keyseats.frame import DISTANCE, Frame
from keyseats.frozen import replace
from keyseats.half_moon_charts.metric_lines import (
    Line,
    OneWidth,
    alike,
    by_width,
    lines,
    reach,
    said_for,
)
from keyseats.half_moon_charts.metric_rows import LEAST, LEAST_GAP, spread
from keyseats.load import Tables
from keyseats.page import Document, Page
from keyseats.paths import tables_dir
from keyseats.renderers.marking import text_ends
from keyseats.sheets import find
from keyseats.standing import Limits
from pdf.charted import chart, tables
from pdf.measuring import rows as csv_rows
from pdf.tagged import Element, tagged
from tables.planting import Bed

SHEET = next(s for s in find() if s.name == "wall-metric-half-moon")
every_paper = pytest.mark.parametrize("paper", SHEET.papers)
NEAR = tuple(p for p in SHEET.papers if p not in ("ANSI C", "A2"))
near_papers = pytest.mark.parametrize("paper", NEAR)


def pages(paper: str) -> tuple[Page, ...]:
    return chart("wall-metric-half-moon", paper)


def groups() -> list[OneWidth]:
    return by_width(lines(tables()))


def after(page: Page, head: str, count: int) -> list[str]:
    """Return what is read after a row's head."""
    said = list(page.words())
    start = said.index(head) + 1
    return said[start : start + count]


def names() -> list[str]:
    """Return the keys' names as the table has them, read without the package."""
    found = csv_rows("metric_half_moon_keys")
    return [r["designation"] for r in found if r["standard"] == "ISO 3912"]


def test_every_key_is_under_its_width_once() -> None:
    found = groups()
    assert [line.normal.key.designation for one in found for line in one.lines] == names()
    widths = [one.width.value for one in found]
    assert widths == sorted(set(widths))
    for one in found:
        assert {line.normal.key.width.value for line in one.lines} == {one.width.value}


def test_keys_out_of_order_are_gathered() -> None:
    every = lines(tables())
    mixed = by_width([*every[1::2], *every[::2]])
    assert mixed == groups()


def parts(found: list[OneWidth]) -> list[list[str]]:
    return [[line.normal.key.designation for line in one.lines] for one in found]


@pytest.mark.parametrize("height", ["7.6", "7.4"])
def test_a_key_that_stands_otherwise_is_ruled_off(tmp_path: Path, height: str) -> None:
    """Key above crown, most: height less least depth from crown, 7.6 - 5.5 and 7.4 - 5.5."""
    bed = Bed(Path(shutil.copytree(tables_dir(), tmp_path / "tables")))
    where = {"standard": "ISO 3912", "designation": "5 x 7.5 x 19"}
    bed.plant("metric_half_moon_keys", "height", height, **where)
    found = alike(by_width(lines(Tables(bed.folder))))
    five = [one for one in found if one.width.text == "5"]
    assert parts(five) == [["5 x 6.5 x 16"], ["5 x 7.5 x 19"], ["5 x 9 x 22"]]
    above = f"{float(height) - 5.5:.2f}"
    assert [one.above_crown.text for one in five] == ["2.00", above, "2.00"]
    for paper in SHEET.papers:
        made = tuple(SHEET.pages(Tables(bed.folder), paper))
        page = made[0 if paper in NEAR else 1]
        after_name = after(page, "5 × 7.5 × 19", 9)
        assert after_name[:4] == ["18", "20", "5.50", "5.70"]
        assert above in after_name
        words = " ".join(page.words())
        assert "for every key between two rules" in words
        assert "of the width" not in words


def test_a_seat_of_another_width_is_ruled_off() -> None:
    every = lines(tables())
    n = next(n for n, x in enumerate(every) if x.normal.key.designation == "6 x 10 x 25")
    width = every[n].normal.seat_width
    other = Limits(width.least, replace(width.most, value=width.most.value + Fraction(1, 1000)))
    normal = replace(every[n].normal, seat_width=other)
    every[n] = Line(normal, every[n].close, every[n].range)
    six = next(one for one in by_width(every) if one.width.text == "6")
    assert parts(six.runs()) == [["6 x 9 x 22"], ["6 x 10 x 25"]]
    assert said_for(by_width(every)) == "for every key of the width"
    assert said_for(six.runs()) == "for every key between two rules"


def test_a_hub_that_differs_stands_apart_from_those_that_agree(tmp_path: Path) -> None:
    bed = Bed(Path(shutil.copytree(tables_dir(), tmp_path / "tables")))
    where = {"standard": "ISO 3912", "designation": "5 x 7.5 x 19"}
    bed.plant("metric_half_moon_seats", "hub_depth_plus", "0.2", **where)
    found = by_width(lines(Tables(bed.folder)))
    five = next(one for one in found if one.width.text == "5").by_hub()
    assert parts(five) == [["5 x 6.5 x 16", "5 x 9 x 22"], ["5 x 7.5 x 19"]]
    assert [one.hub_depth.most.text for one in five] == ["2.40", "2.50"]
    for paper in NEAR:
        _, hub = SHEET.pages(Tables(bed.folder), paper)
        words = " ".join(hub.words())
        assert "is for every key of its width that has no row of its own." in words
        assert list(hub.words()).count("5 × 7.5 × 19") == 1


def test_a_close_fit_that_has_two_widths_is_said(tmp_path: Path) -> None:
    """8 P9 is -0.051 to -0.015; the hub alone is planted 0.001 wider at its least."""
    bed = Bed(Path(shutil.copytree(tables_dir(), tmp_path / "tables")))
    where = {"width": "8", "fit": "close", "member": "hub"}
    bed.plant("metric_half_moon_width_fits", "lower", "-0.050", **where)
    words = " ".join(tuple(SHEET.pages(Tables(bed.folder), "A4"))[1].words())
    assert "the hub is as wide as the seat, but 8 wide: hub 7.950 to 7.985." in words
    assert "seat and hub," not in words


def test_rows_are_held_until_figures_would_touch() -> None:
    """As many groups as keys: a page may be tighter, and is refused before figures touch."""
    every = [OneWidth((line,)) for one in groups() for line in one.lines]
    rows = len(every)
    pitch, gap = spread(rows * (LEAST + LEAST_GAP) + 0.001, every)
    assert (pitch, gap) == pytest.approx((LEAST, LEAST_GAP), abs=0.001)
    with pytest.raises(ValueError, match="holds no 16 rows in 16 groups"):
        spread(rows * (LEAST + LEAST_GAP) - 0.1, every)


def test_hubs_that_differ_stand_apart() -> None:
    """GB/T 1098-2003, t2: 6 x 9 x 22 is 2.8 +0.1, 6 x 10 x 25 is 2.8 +0.2."""
    apart = {one.width.text: one.by_hub() for one in groups()}
    assert [text for text, found in apart.items() if len(found) > 1] == ["6"]
    depths = [one.hub_depth for one in apart["6"]]
    assert [(d.least.text, d.most.text) for d in depths] == [("2.80", "2.90"), ("2.80", "3.00")]


@near_papers
def test_the_shaft_as_the_standard_prints_it(paper: str) -> None:
    """GB/T 1098-2003: 5 x 7.5 x 19, t1 5.5 +0.2; 5 N9 is -0.030 to 0."""
    page = pages(paper)[0]
    assert after(page, "5 × 7.5 × 19", 4) == ["18", "20", "5.50", "5.70"]
    assert after(page, "5 × 6.5 × 16", 8)[5:] == ["4.970", "5.000", "2.00"]


@near_papers
def test_the_hub_as_the_standard_prints_it(paper: str) -> None:
    """GB/T 1098-2003, 10 wide: N9 -0.036 to 0, P9 -0.051 to -0.015, JS9 ±0.018, t2 3.3 +0.2."""
    said = list(pages(paper)[1].words())
    start = said.index("10")
    least = [said[start - 1], *said[start + 1 : start + 6]]
    assert least == ["least", "9.964", "9.949", "9.982", "3.30", "0.25"]
    most = said[start + 6 : start + 12]
    assert most == ["most", "10.000", "9.985", "10.018", "3.50", "0.40"]


@every_paper
def test_a_correction_to_any_key_marks_its_page(paper: str) -> None:
    """Each figure of each key is among what its pages rest on, though it be printed once."""
    found = {row for page in pages(paper) for row in page.rows()}
    for name in names():
        key, seat = (f"metric_half_moon_{t}/ISO 3912 / {name}" for t in ("keys", "seats"))
        assert {f"{key}/{column}" for column in ("width", "height", "diameter")} <= found
        assert {f"{seat}/{column}" for column in ("depth_from_crown", "depth_plus")} <= found
        if paper in NEAR:
            last = pages(paper)[1].rows()
            hub = ("hub_depth", "hub_depth_plus", "floor_radius_least", "floor_radius_most")
            assert {f"{seat}/{column}" for column in hub} <= set(last)
            assert f"{key}/width" in last


@near_papers
def test_one_figure_carries_the_rows_of_all_its_keys(paper: str) -> None:
    """What stands beside 5 wide rests on three heights and three depths."""
    five = next(one for one in groups() if one.width.text == "5")
    wanted = {row for line in five.lines for row in line.above_crown.rows}
    assert len(wanted) == 6
    cells = [block for block in pages(paper)[0].blocks if block.role == "TD"]
    above = [block for block in cells if wanted <= set(block.rows)]
    assert [list(block.words()) for block in above] == [["2.00"]]


@every_paper
def test_every_row_is_headed_by_the_whole_name(paper: str) -> None:
    document = Document("x.pdf", "x", "x", paper, pages(paper))
    found = []
    read = tagged(document_bytes(document))
    for page in read if paper not in NEAR else read[:1]:
        table = next(e for e in page.section.all() if e.role == "Table")
        for row in table.inner():
            spelt = spelt_in(row)
            assert len(spelt) == (1 if any(c.role == "TD" for c in row.inner()) else 0), spelt
            found += spelt
    assert found == [name.replace(" x ", " × ") for name in names()]


def spelt_in(row: Element) -> list[str]:
    return [e.actual for e in row.all() if e.role == "Span" and "×" in e.actual]


@every_paper
def test_columns_stand_clear_of_one_another(paper: str) -> None:
    """In the widest row, six tenths of the size of what is cut to; our layout, no source."""
    page = pages(paper)[0 if paper in NEAR else 1]
    unit = Frame(paper, DISTANCE[paper]).unit
    cells = [block for block in page.blocks if block.role in ("TH", "TD")]
    last = next(t.y for c in cells for t in c.texts() if t.text == "10.00")
    row = [t for c in cells for t in c.texts() if t.y == last]
    ends = sorted(text_ends(t) for t in row)
    assert len(ends) == (11 if paper in NEAR else 8)
    for (_, right), (left, _) in pairwise(ends):
        assert left - right > 0.6 * unit


@near_papers
def test_what_names_the_datums_is_said(paper: str) -> None:
    shaft, hub = (" ".join(page.words()) for page in pages(paper))
    assert "Key above crown: from the crown's line; inch charts count from the edge." in shaft
    assert "for every key of the width" in shaft
    assert "normal fit N9" in shaft
    assert "hub: floor to opposite side measure this" in hub


def test_the_keys_that_reach_the_centre_are_named_with_their_last_shaft() -> None:
    """1.5 x 2.6 x 7: 2.0 +0.1 is half of 4.2; 3 x 6.5 x 16: 5.3 +0.2 is half of 11."""
    said = reach(lines(tables()))
    assert said == "1.5 × 2.6 × 7 can reach in shafts to 4.2, and 3 × 6.5 × 16 to 11 mm"
    assert reach([]) == ""
