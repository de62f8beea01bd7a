"""Tables and grids for other programs: what comes back is what was there, and nothing runs."""

from __future__ import annotations

import csv
import io
import json
import re
from fractions import Fraction
from pathlib import Path
from typing import Any

import jsonschema
import pandas
import pytest

from keyseats.__main__ import main
from keyseats.export import COUNTS, HEADS, OTHER_UNIT, ROW_UNIT, inert
from keyseats.export_grids import SHAFTS
from keyseats.load import Tables, number
from keyseats.spreadsheet.cells import dated, spoilt
from keyseats.standing import MEMORY, ORDER

ROOT = Path(__file__).resolve().parents[1]
Lines = list[dict[str, str]]
GRIDS = ["arc-height", "centring-travel", "depths"]
ALL_GRIDS = [word for grid in GRIDS for word in ("--grid", grid)]


def printed(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    assert main(["tables", *words]) == 0
    return capsys.readouterr().out


def as_lines(text: str) -> Lines:
    return list(csv.DictReader(io.StringIO(text)))


def imported(text: str) -> Any:
    """Return an export as another program opens it: every cell the words that it is."""
    return pandas.read_csv(io.StringIO(text), dtype=str, keep_default_na=False)


def decimals(text: str) -> dict[tuple[str, str, str], Fraction]:
    frame = imported(text)
    filled = frame[frame["decimal"] != ""]
    return {(f.table, f.row, f.column): Fraction(f.decimal) for f in filled.itertuples(index=False)}


def test_every_figure_of_every_table_comes_back(
    capsys: pytest.CaptureFixture[str], tables: Tables
) -> None:
    text = printed(capsys, "--csv")
    wanted, words = {}, {}
    for name in tables.schema:
        for row in tables.rows(name):
            for column in tables.columns(name):
                cell = row.cells[column.name]
                if cell and column.kind in ("length", "number"):
                    wanted[name, row.id, column.name] = number(cell)
                if cell and column.kind != "source":
                    words[name, row.id, column.name] = cell
    assert len(wanted) > 4000
    assert decimals(text) == wanted
    back = {(x["table"], x["row"], x["column"]): x["as_printed"] for x in as_lines(text)}
    assert back == words


def test_every_figure_has_a_unit_and_a_standing(
    capsys: pytest.CaptureFixture[str], tables: Tables
) -> None:
    kinds = {(t, c.name): c for t in tables.schema for c in tables.columns(t)}
    for line in as_lines(printed(capsys, "--csv")):
        column = kinds[line["table"], line["column"]]
        if column.kind not in ("length", "number"):
            assert line["decimal"] == ""
            continue
        assert line["unit"] or column.name in COUNTS
        assert line["unit"] == column.unit or not column.unit
        # What names its row, such as the end of a range, has no source of its own.
        derived = any(rule.startswith(("is ", "same as ")) for rule in column.rules)
        if column.source_column or derived:
            assert line["standing"] in ORDER, line
        assert bool(line["standing"]) == bool(line["source"])


def test_columns_without_a_unit_are_known(tables: Tables) -> None:
    plain = {
        c.name
        for t in tables.schema
        for c in tables.columns(t)
        if c.kind in ("length", "number") and not c.unit
    }
    assert plain == {*ROW_UNIT, *OTHER_UNIT, *COUNTS}


def test_one_figure_as_its_sources_have_it(capsys: pytest.CaptureFixture[str]) -> None:
    """No. 608 is 0.3393 deep at the edge: Shigley Table 7-7 and a textbook's Table 11-3."""
    lines = as_lines(printed(capsys, "inch_half_moon_seats", "--csv"))
    line = next(x for x in lines if (x["row"], x["column"]) == ("608", "depth_at_edge"))
    assert line == {
        "table": "inch_half_moon_seats",
        "row": "608",
        "column": "depth_at_edge",
        "as_printed": "0.3393",
        "decimal": "0.3393",
        "unit": "in",
        "source": "shigley-t7-7 + textbook-t11-3",
        "standing": "two-sources",
        "rests_on": "",
        "meaning": "depth at edge, least",
    }
    width = next(x for x in lines if (x["row"], x["column"]) == ("608", "width"))
    assert (width["as_printed"], width["decimal"], width["unit"]) == ("3/16 in", "0.1875", "in")


@pytest.mark.slow
def test_the_grids_say_what_is_worked_out_by_hand(capsys: pytest.CaptureFixture[str]) -> None:
    """A 1 in shaft and a 3/16 in disc: 0.500 + 0.09375 in (US Army TC 9-524, half and half)."""
    found = {
        (x["table"], x["row"], x["column"]): x
        for x in as_lines(printed(capsys, *ALL_GRIDS[:4], "--csv"))
    }
    travel = found["centring travel, inch", "shaft 1 in", "cutter 3/16 in wide"]
    assert Fraction(travel["decimal"]) == Fraction(1, 2) + Fraction(3, 32)
    arc = found["arc height, inch", "shaft 1 in", "width 3/16 in"]
    # (2 Y - D)^2 + W^2 = D^2 holds for the arc height Y of a circle, whatever way it is found.
    y = Fraction(arc["decimal"])
    assert abs((2 * y - 1) ** 2 + Fraction(3, 16) ** 2 - 1) < Fraction(1, 10**9)
    assert arc["as_printed"] == "0.0089"
    assert arc["rests_on"].endswith("/width")
    assert arc["standing"] in ORDER


@pytest.mark.slow
def test_the_depths_of_a_key_by_shaft(capsys: pytest.CaptureFixture[str], tables: Tables) -> None:
    lines = as_lines(printed(capsys, "--grid", "depths", "--key", "608", "--csv"))
    assert {x["table"] for x in lines} == {"depths, inch half-moon"}
    by = {(x["row"], x["column"]): x for x in lines}
    for row in {x["row"] for x in lines}:

        def at(datum: str, end: str, row: str = row) -> Fraction:
            return Fraction(by[row, f"608 key: {datum}, {end}"]["decimal"])

        shaft = number(row.removeprefix("shaft "))
        arc = Fraction(by[row, "608 key: arc height"]["decimal"])
        near = Fraction(2, 10**10)
        for end, other in (("least", "most"), ("most", "least")):
            assert abs(at("depth at edge", end) + arc - at("depth from crown", end)) <= near
            opposite = at("floor to opposite side", other)
            assert abs(shaft - at("depth from crown", end) - opposite) <= near
    one = by["shaft 1 in", "608 key: depth at edge, most"]
    # The tolerance of half-moon seats is recalled, so this end is no better known than that.
    assert one["standing"] == MEMORY
    assert "memory" in one["source"].split(" + ")


@pytest.mark.slow
def test_first_choices_have_every_shaft_that_has_a_key(capsys: pytest.CaptureFixture[str]) -> None:
    lines = as_lines(printed(capsys, "--grid", "depths", "--csv"))
    tables = {x["table"] for x in lines}
    assert tables == {
        "depths, inch plain",
        "depths, inch half-moon",
        "depths, metric plain",
        "depths, metric half-moon",
    }
    shafts = {x["row"] for x in lines if x["table"] == "depths, metric plain"}
    assert {f"shaft {n} mm" for n in range(7, 101)} <= shafts
    assert len(SHAFTS["mm"]) >= len(shafts)


@pytest.mark.slow
def test_no_cell_is_run_or_turned_into_a_date(capsys: pytest.CaptureFixture[str]) -> None:
    text = printed(capsys, "--csv") + printed(capsys, *ALL_GRIDS, "--csv")
    cells = {cell for row in csv.reader(io.StringIO(text)) for cell in row if cell}
    negative = {c for c in cells if c.startswith("-")}
    assert "-0.0005" in negative
    for cell in cells:
        assert cell.isprintable()
        assert not cell.startswith(("=", "+", "@", "\t", "'"))
        assert spoilt(cell) is None
        assert dated(cell, length=False) is None
    for cell in negative:
        assert re.fullmatch(r"-\d+(\.\d+)?", cell)


@pytest.mark.parametrize("words", ["=1+1", "+1", "-1+1", "@SUM(A1)", "\t=1", "'=1", "-", "+a"])
def test_words_that_begin_as_a_formula_are_made_words(words: str) -> None:
    assert inert(words) == "'" + words


@pytest.mark.parametrize("words", ["-0.0005", "-3", "0.0630", "3/16 in", "a=b", "rule-depth", ""])
def test_numbers_and_other_words_stay_as_they_are(words: str) -> None:
    assert inert(words) == words


@pytest.mark.slow
def test_json_is_as_its_schema_says_and_agrees_with_csv(
    capsys: pytest.CaptureFixture[str], tables: Tables
) -> None:
    schema = json.loads((ROOT / "docs" / "tables.schema.json").read_text(encoding="utf-8"))
    names = ["inch_half_moon_seats", "gauge_blocks", "cutting_speeds", "iso286", "paper_thickness"]
    data = json.loads(printed(capsys, *names, *ALL_GRIDS, "--json"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft202012Validator(schema).validate(data)
    assert data["edition"]["number"] == tables.edition.number
    assert [t["name"] for t in data["tables"][: len(names)]] == names
    figures = {
        (table["name"], f["row"], f["column"]): Fraction(f["figure"]["text"])
        for table in data["tables"]
        for f in table["figures"]
        if f["figure"]
    }
    assert figures == decimals(printed(capsys, *names, *ALL_GRIDS, "--csv"))
    for table in data["tables"]:
        assert table["computed"] == (table["name"] not in tables.schema)
        for f in table["figures"]:
            if f["figure"]:
                assert abs(f["figure"]["value"] - float(Fraction(f["figure"]["text"]))) < 1e-9
            assert bool(f["rests_on"]) == table["computed"]


def test_a_file_is_written_whole(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "out.csv"
    said = printed(capsys, "shared_limits", "--csv", "--output", str(path))
    assert said == f"{path}: {len(as_lines(path.read_text(encoding='utf-8')))} figures and words\n"
    assert path.read_text(encoding="utf-8") == printed(capsys, "shared_limits", "--csv")
    assert list(tmp_path.iterdir()) == [path]
    assert path.read_text(encoding="utf-8").splitlines()[0] == ",".join(HEADS)


def test_without_a_form_the_names_are_listed(
    capsys: pytest.CaptureFixture[str], tables: Tables
) -> None:
    said = printed(capsys)
    for name in (*tables.schema, *GRIDS):
        assert name in said


@pytest.mark.slow
@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["inch_half_moon_seat", "--csv"], "did you mean inch_half_moon_seats"),
        (["--grid", "arc-heigt", "--csv"], "did you mean arc-height"),
        (["--grid", "depths", "--key", "6099", "--csv"], "no key '6099'"),
        (["--grid", "arc-height", "--key", "608", "--csv"], "it is for the depths"),
        (["--grid", "arc-height"], "--csv or --json"),
        (["--csv", "--json"], "not allowed with"),
    ],
)
def test_what_is_typed_wrong_is_said(
    words: list[str], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    try:
        code = main(["tables", *words])
    except SystemExit as left:
        code = int(str(left.code))
    out, err = capsys.readouterr()
    assert (code, out) == (2, "")
    assert says in err
    assert err.count("\n") == 1


def test_faulty_tables_are_not_exported(
    tmp_path: Path, tables_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    import shutil

    folder = Path(shutil.copytree(tables_folder, tmp_path / "tables"))
    path = folder / "inch_half_moon_seats.csv"
    path.write_bytes(path.read_bytes().replace(b"0.3393", b"0.3394", 1))
    assert main(["tables", "iso286", "--csv", "--tables", str(folder)]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert "nothing was exported; see keyseats check" in err
