"""Wrong tables that must be caught: one planted fault for each rule; all faults are invented."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from keyseats.__main__ import main
from keyseats.check import check
from keyseats.load import Tables

SEATS, KEYS = "inch_half_moon_seats.csv", "inch_half_moon_keys.csv"

# file, text in it, what stands there instead, line, column, a word of the rule
PLANTED = {
    "unknown source": (
        SEATS,
        "0.1513,rule-depth",
        "0.1513,nobody-t1",
        None,
        "depth_from",
        "source",
    ),
    "not a number": (
        SEATS,
        "0.1863,0.1880,memory,0.3393",
        "0.1863,O.1880,memory,0.3393",
        None,
        "width_most",
        "number",
    ),
    "fraction without its unit": (
        KEYS,
        "606,standard,3/16 in",
        "606,standard,3/16",
        None,
        "width",
        "",
    ),
    "fraction and decimal disagree": (
        KEYS,
        "606,standard,3/16 in,0.1875",
        "606,standard,3/16 in,0.1785",
        None,
        "width_decimal",
        "decimal of",
    ),
    "limits out of order": (
        SEATS,
        "606,3/16 in,3/4 in,0.1863,0.1880",
        "606,3/16 in,3/4 in,0.1893,0.1880",
        None,
        "width_least",
        "not over",
    ),
    "ranges gap": (
        "inch_plain_keys.csv",
        "9/16 in,7/8 in",
        "5/8 in,7/8 in",
        None,
        "shaft_over",
        "range to",
    ),
    "ranges overlap": (
        "metric_plain_keys.csv",
        "ISO/R 773,main,8,10",
        "ISO/R 773,main,7,10",
        None,
        "shaft_over",
        "range to",
    ),
    "duplicate key": (KEYS, "607,standard", "606,standard", None, "key", "unique"),
    "recomputed figure off": (SEATS, "0.3393", "0.3395", None, "depth_at_edge", "rule-depth"),
    "recomputed zone off": (
        "metric_width_fits.csv",
        "100,close,seat,P9,-0.124",
        "100,close,seat,P9,-0.142",
        None,
        "lower",
        "rule-iso286-zone",
    ),
    "unknown key in a list": (
        "inch_half_moon_shafts.csv",
        "606 607 608",
        "606 607 699",
        None,
        "keys",
        "known in",
    ),
    "another table says otherwise": (
        SEATS,
        "608,3/16 in,1 in",
        "608,3/16 in,7/8 in",
        None,
        "diameter",
        "same as",
    ),
    "a word that is not one of its words": (
        "inch_plain_keys.csv",
        "square,ip-shop-t1",
        "sqare,ip-shop-t1",
        None,
        "preferred",
        "one of",
    ),
    "blank that must not be": (
        SEATS,
        "606,3/16 in,3/4 in,0.1863,",
        "606,3/16 in,3/4 in,,",
        None,
        "width_least",
        "blank",
    ),
    "a quirk that outlives its cause": (
        "quirks.csv",
        "303,depth_at_edge,0.1202",
        "303,depth_at_edge,0.1203",
        None,
        "",
        "",
    ),
}


@pytest.fixture
def copy(tmp_path: Path, tables_folder: Path) -> Path:
    return Path(shutil.copytree(tables_folder, tmp_path / "tables"))


def plant(folder: Path, name: str, before: str, after: str) -> int:
    path = folder / name
    text = path.read_text(encoding="utf-8")
    assert before in text, (name, before)
    start = text.index(before)
    path.write_text(text[:start] + after + text[start + len(before) :], encoding="utf-8")
    return text.count("\n", 0, start) + 1


@pytest.mark.parametrize("what", PLANTED)
def test_planted_fault(copy: Path, what: str) -> None:
    name, before, after, _, column, rule = PLANTED[what]
    line = plant(copy, name, before, after)
    faults = check(Tables(copy)).faults
    assert faults
    near = [f for f in faults if f.file == name and (not column or f.column == column)]
    assert near, [str(f) for f in faults]
    assert any(abs(f.line - line) <= 1 for f in near), (line, [str(f) for f in near])
    assert any(rule in f.rule or rule in f.says for f in near), [str(f) for f in near]
    assert all(f.remedy for f in near)


def test_every_fault_is_reported_not_the_first(copy: Path) -> None:
    plant(copy, SEATS, "0.3393", "0.3395")
    plant(copy, "inch_plain_keys.csv", "9/16 in,7/8 in", "5/8 in,7/8 in")
    files = {f.file for f in check(Tables(copy)).faults}
    assert {SEATS, "inch_plain_keys.csv"} <= files


def test_a_missing_and_an_unreadable_table(copy: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (copy / SEATS).unlink()
    (copy / "iso286.csv").write_bytes(b"\xff\xfe\x00kind")
    files = {f.file for f in check(Tables(copy)).faults}
    assert {SEATS, "iso286.csv"} <= files
    assert main(["check", "--tables", str(copy)]) == 1
    assert SEATS in capsys.readouterr().out
