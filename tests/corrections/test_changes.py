"""``keyseats changes``: which pages are named, and what is of substance, held against the pages."""

from __future__ import annotations

import json
from fractions import Fraction
from functools import cache
from pathlib import Path

import jsonschema
import pytest

from corrections.copying import answer, clean
from keyseats.corrections.archive import editions
from keyseats.corrections.compare import Change, compare, figures_changed
from keyseats.corrections.issued import printed
from keyseats.load import Tables, number
from keyseats.paths import tables_dir
from pdf.reading import read

pytestmark = pytest.mark.slow

DOCS = Path(__file__).resolve().parents[2] / "docs"
SCHEMA = json.loads((DOCS / "changes.schema.json").read_text(encoding="utf-8"))
# Figures taken from all over the tables, each with a row that pages print: our choice.
CORRECTED = (
    ("inch_half_moon_seats", "depth_at_edge", {"key": "608"}),
    ("inch_half_moon_seats", "width_most", {"key": "404"}),
    ("inch_half_moon_seats", "hub_depth", {"key": "1212"}),
    ("inch_half_moon_keys", "height_most", {"key": "606"}),
    ("shared_limits", "plus", {"family": "inch half-moon", "figure": "depth_at_edge"}),
    ("shared_limits", "plus", {"family": "inch plain", "figure": "top_clearance"}),
    ("inch_plain_key_limits", "height_plus", {"stock": "bar stock", "width_over": "0 in"}),
    ("inch_plain_keys", "height_square", {"shaft_over": "1-3/8 in"}),
    ("metric_plain_keys", "depth_from_crown", {"standard": "ISO/R 773", "width": "8"}),
    ("metric_plain_keys", "hub_depth", {"standard": "ISO/R 773", "width": "14"}),
    ("metric_plain_keys", "depth_from_crown", {"standard": "JIS B 1301", "width": "8"}),
    ("metric_width_fits", "upper", {"width": "8", "fit": "normal", "member": "seat"}),
    ("iso286", "value_um", {"symbol": "IT9", "size_over": "3"}),
    ("metric_half_moon_keys", "height", {"designation": "5 x 6.5 x 16"}),
    ("metric_half_moon_seats", "depth_plus", {"designation": "3 x 5 x 13"}),
    ("metric_half_moon_shafts", "shaft_to", {"designation": "4 x 7.5 x 19"}),
    ("cutting_speeds", "high", {"material": "low-carbon steel"}),
    ("alignment_limits", "most", {"feature": "offset"}),
)


def raised(text: str) -> str:
    """Return a figure a little larger, with the places that it has."""
    places = max(len(text.partition(".")[2]), 2)
    return f"{float(number(text)) + 2 * 10**-places:.{places}f}"


@pytest.mark.parametrize(("table", "column", "where"), CORRECTED)
def test_the_pages_named_are_the_pages_that_change(
    tmp_path: Path, table: str, column: str, where: dict[str, str]
) -> None:
    """Held against the page models themselves: every page of every sheet, on every paper."""
    bed = clean(tmp_path / "tables")
    lines = bed.read(table)
    row = lines[bed.line(table, **where) - 1]
    bed.plant(table, column, raised(row[lines[0].index(column)]), **where)
    old, new = last(), Tables(bed.folder)
    before = {(p.sheet, p.paper, p.slug): p for p in printed(old)}
    after = {(p.sheet, p.paper, p.slug): p for p in printed(new)}
    differ = {
        name
        for name in before.keys() | after.keys()
        if name not in before or name not in after or before[name].page != after[name].page
    }
    found = compare(old, new)
    assert len(found.changes) == 1
    named = {(p.any.sheet, p.any.paper, p.any.slug) for p in found.changes[0].pages}
    assert named == differ
    assert named or found.changes[0].sheets


@cache
def last() -> Tables:
    """Return the last edition, composed once for all tests."""
    return editions(tables_dir())[-1].tables


def corrected(tmp_path: Path, table: str, column: str, text: str, **where: str) -> Change:
    bed = clean(tmp_path / "tables")
    bed.plant(table, column, text, **where)
    (change,) = figures_changed(last(), Tables(bed.folder))
    return change


def test_a_deeper_least_depth_leaves_old_seats_too_shallow(tmp_path: Path) -> None:
    """608 is 0.3393 +0.005 -0 at the edge (Shigley table 7-7): at 0.3413 it can be 0.0020 under."""
    change = corrected(tmp_path, "inch_half_moon_seats", "depth_at_edge", "0.3413", key="608")
    assert change.substance
    assert change.worst is not None
    assert change.worst.by is not None
    assert change.worst.side == "too shallow"
    assert change.worst.by.value == Fraction("0.0020")
    assert [(e.measure, e.side) for e in change.effects] == [
        ("depth at edge", "too shallow"),
        ("depth at edge", ""),
    ]


def test_a_shallower_least_depth_leaves_old_seats_too_deep(tmp_path: Path) -> None:
    change = corrected(tmp_path, "inch_half_moon_seats", "depth_at_edge", "0.3373", key="608")
    assert change.worst is not None
    assert change.worst.side == "too deep"


def test_a_limit_moved_outward_is_of_print_only(tmp_path: Path) -> None:
    """8 wide N9 is -0.036 to 0 (ISO 286): a seat inside that is inside -0.040 to 0 too."""
    change = corrected(
        tmp_path, "metric_width_fits", "lower", "-0.040", width="8", fit="normal", member="seat"
    )
    assert not change.substance
    assert "wider" in change.says


def test_a_limit_moved_inward_is_of_substance(tmp_path: Path) -> None:
    change = corrected(
        tmp_path, "metric_width_fits", "upper", "-0.004", width="8", fit="normal", member="seat"
    )
    assert change.worst is not None
    assert change.worst.by is not None
    assert (change.worst.side, change.worst.by.text) == ("too wide", "0.004")


def test_another_place_or_source_is_of_print_only(tmp_path: Path) -> None:
    change = corrected(
        tmp_path,
        "metric_plain_keys",
        "depth_from_crown",
        "4.0",
        standard="ISO/R 773",
        series="main",
        width="8",
    )
    assert not change.substance
    assert change.says == "the same value, printed otherwise"


def test_a_range_says_which_shafts_take_another_key(tmp_path: Path) -> None:
    """1-1/4 in ends the range of the 1/4 key (ASME B17.1); both ends are moved together."""
    bed = clean(tmp_path / "tables")
    bed.plant("inch_plain_keys", "shaft_to", "1-3/16 in", shaft_over="7/8 in")
    bed.plant("inch_plain_keys", "shaft_over", "1-3/16 in", shaft_over="1-1/4 in")
    found = compare(last(), Tables(bed.folder))
    assert [c.id for c in found.changes] == [
        "inch_plain_keys/7/8 in/shaft_to",
        "inch_plain_keys/1-3/16 in/shaft_over",
    ]
    for change in found.changes:
        assert change.substance
        assert change.says == "shafts over 1-3/16 in to 1-1/4 in take another key now"
    cards = {p.any.sheet for p in found.changes[0].pages}
    assert {"cards-id1", "cards-index", "wall-inch-plain"} <= cards


def test_a_key_that_is_gone_is_of_substance(tmp_path: Path) -> None:
    bed = clean(tmp_path / "tables")
    bed.drop("metric_half_moon_seats", designation="10 x 13 x 32")
    found = figures_changed(last(), Tables(bed.folder))
    assert {c.kind for c in found} == {"withdrawn"}
    depth = next(c for c in found if c.column == "depth_from_crown")
    assert depth.substance
    assert "no longer tabled" in depth.says


def test_two_editions_by_name(capsys: pytest.CaptureFixture[str]) -> None:
    """The first reading and the second: no limit of a cut that was read moved."""
    folder = str(tables_dir())
    code, out, _ = answer(capsys, "changes", "1", "2", "--json", "--tables", folder)
    found = json.loads(out)
    jsonschema.validate(found, SCHEMA)
    assert code == 0
    assert [found[s]["edition"] for s in ("old", "new")] == ["1", "2"]
    by_name = {c["figure"]: c for c in found["changes"]}
    brass = by_name["cutting_speeds/brass / HSS/high"]
    assert (brass["old"]["text"], brass["new"]["text"]) == ("150", "250")
    assert brass["new"]["sources"][0]["title"]
    assert not [c for c in found["changes"] if c["substance"]]
    assert not [p for p in found["pages"] if p["take_down"]]
    code, out, _ = answer(capsys, "changes", "1", "2", "--tables", folder)
    assert code == 0
    assert out.startswith("edition 1 (2026-11-25) -> edition 2 (2026-11-25)")


def test_nothing_differs_right_after_an_edition(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    bed = clean(tmp_path / "tables")
    code, out, _ = answer(capsys, "changes", "--tables", str(bed.folder))
    assert (code, out.count("\n")) == (0, 1)
    assert "no figures differ" in out


def test_no_such_edition(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = answer(capsys, "changes", "9")
    assert (code, out) == (2, "")
    assert err == "keyseats: no edition '9'; known: 1, 2\n"


@pytest.mark.parametrize("paper", ["Letter", "A4"])
def test_the_notice_is_one_page_with_what_is_of_substance(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], paper: str
) -> None:
    bed = clean(tmp_path / "tables")
    bed.plant("inch_half_moon_seats", "depth_at_edge", "0.3413", key="608")
    file = tmp_path / "notice.pdf"
    words = ("--notice", str(file), "--paper", paper, "--tables", str(bed.folder))
    code, out, _ = answer(capsys, "changes", *words)
    assert code == 0
    assert str(file) in out
    (page,) = read(file.read_bytes())
    text = " ".join(w.text for w in page.words)
    for wanted in ("Correction notice", "0.3393 in", "0.3413 in", "0.0020 in too", "Take down"):
        assert wanted in text
    chart = [p for p in printed(last()) if p.sheet == "wall-inch-half-moon"]
    code_of_608 = {
        s.code for p in chart for s in p.stamps if any("/608/depth" in row for row in s.rows)
    }
    assert all(code in text for code in code_of_608)


@pytest.mark.parametrize("paper", ["Letter", "A4"])
def test_a_notice_of_many_figures_stays_one_page_and_says_how_many_more(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], paper: str
) -> None:
    bed = clean(tmp_path / "tables")
    lines = bed.read("inch_half_moon_seats")
    at = lines[0].index("depth_at_edge")
    for row in lines[1:]:
        row[at] = raised(row[at])
    bed.write("inch_half_moon_seats", lines)
    file = tmp_path / "notice.pdf"
    words = ("--notice", str(file), "--paper", paper, "--tables", str(bed.folder))
    assert answer(capsys, "changes", *words)[0] == 0
    (page,) = read(file.read_bytes())
    text = " ".join(w.text for w in page.words)
    assert "more: see them all with" in text
    assert "keyseats changes 2" in text
    assert f"{len(lines) - 1} figures changed in substance" in text
    for word in page.words:
        assert word.x1 <= page.width - 28
        assert word.baseline <= page.height - 33
