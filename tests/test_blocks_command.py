"""``keyseats blocks``: its screen, its JSON, sets from files, and what it refuses."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from keyseats.__main__ import main

ROOT = Path(__file__).resolve().parents[1]
SCHEMA = json.loads((ROOT / "docs" / "blocks.schema.json").read_text(encoding="utf-8"))
HEAD = "unit,from_size,to_size,step,pieces\n"


def answer(words: list[str], capsys: pytest.CaptureFixture[str]) -> dict[str, Any]:
    assert main(["blocks", *words, "--json"]) == 0
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    jsonschema.validate(found, SCHEMA)
    return found


def screen(words: list[str], capsys: pytest.CaptureFixture[str]) -> str:
    assert main(["blocks", *words]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    return " ".join(out.split())


def fault(words: list[str], code: int, capsys: pytest.CaptureFixture[str]) -> str:
    assert main(["blocks", *words]) == code
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("keyseats: ")
    assert err.count("\n") == 1
    return err


def values(quantities: list[dict[str, Any]]) -> list[float]:
    return [q["value"] for q in quantities]


def test_the_shape_of_a_stack(capsys: pytest.CaptureFixture[str]) -> None:
    found = answer(["0.594 in", "--set", "inch-81"], capsys)
    assert found == {
        "set": "inch-81",
        "target": {"value": 0.594, "unit": "in", "text": "0.5940"},
        "blocks": [
            {"value": 0.45, "unit": "in", "text": "0.450"},
            {"value": 0.144, "unit": "in", "text": "0.144"},
        ],
        "remainder": {"value": 0.0, "unit": "in", "text": "0.0000"},
        "nearest": None,
    }


def test_the_shape_of_a_gap(capsys: pytest.CaptureFixture[str]) -> None:
    found = answer(["3/16 in", "--set", "inch-81", "--exact"], capsys)
    assert found["blocks"] == []
    assert found["remainder"] == found["target"]
    assert values(found["nearest"]) == [0.187, 0.188]


def test_an_unrounded_remainder(capsys: pytest.CaptureFixture[str]) -> None:
    found = answer(["0.59375 in", "--set", "INCH 81"], capsys)
    assert values(found["blocks"]) == [0.45, 0.144]
    assert found["remainder"] == {"value": -0.00025, "unit": "in", "text": "-0.00025"}
    assert found["target"]["text"] == "0.59375"


def test_a_place_in_either_unit(capsys: pytest.CaptureFixture[str]) -> None:
    tenths = answer(["0.59375 in", "--set", "inch-81", "--place", "0.0001 in"], capsys)
    assert sum(values(tenths["blocks"])) == pytest.approx(0.5938, abs=1e-12)
    metric = answer(["0.59375 in", "--set", "inch-81", "--place", "0.0254 mm"], capsys)
    assert values(metric["blocks"]) == [0.45, 0.144]


def test_the_other_unit_is_told_in_the_sets_own(capsys: pytest.CaptureFixture[str]) -> None:
    found = answer(["5 mm", "--set", "inch-81"], capsys)
    assert found["target"] == {"value": 5 / 25.4, "unit": "in", "text": "0.196850"}
    said = screen(["5 mm", "--set", "inch-81"], capsys)
    assert "5 mm is 0.196850 in, converted: the set is in inches" in said
    assert "seldom makes a size in millimetres exactly" in said
    assert "seldom" not in screen(["25.4 mm", "--set", "inch-81"], capsys)


def test_the_screen_of_a_stack(capsys: pytest.CaptureFixture[str]) -> None:
    said = screen(["0.59375 in", "--set", "inch-81"], capsys)
    assert "To make: 0.594 in, the target at the place needed" in said
    assert "0.450 in 0.144 in 0.594 in 2 blocks, the fewest" in said
    # Machinery's Handbook 31, p. 2552: a seat's centreline may be 0.010 in off.
    assert "Target less stack: -0.00025 in; a seat may be 0.010 in off" in said
    assert "†" not in said


def test_the_screen_of_a_gap_tells_both_stacks(capsys: pytest.CaptureFixture[str]) -> None:
    said = screen(["3/16 in", "--set", "inch-81", "--exact"], capsys)
    assert "below: 0.187 in, 2 blocks 0.137 in 0.050 in off by 0.0005 in, inside" in said
    assert "above: 0.188 in, 2 blocks 0.138 in 0.050 in off by 0.0005 in, inside" in said


@pytest.mark.parametrize(("target", "side"), [("0.060 in", "inside"), ("0.0601 in", "outside")])
def test_off_centre_by_just_what_is_allowed(
    target: str, side: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Machinery's Handbook 31, p. 2552: 0.010 in."""
    two = tmp_path / "two.csv"
    two.write_text("0.05 in\n0.2 in\n")
    said = screen([target, "--set", str(two)], capsys)
    below, _, above = said.partition("above:")
    assert f"{side} the 0.010 in" in below
    assert "outside the 0.010 in" in above


def test_wear_blocks(capsys: pytest.CaptureFixture[str]) -> None:
    found = answer(["0.594 in", "--set", "inch-81", "--wear"], capsys)
    assert values(found["blocks"]) == [0.05, 0.35, 0.144, 0.05]
    said = screen(["0.594 in", "--set", "inch-81", "--wear"], capsys)
    assert said.count("wear block, at the end") == 2
    assert "4 blocks" in said


def test_a_set_from_memory_has_its_dagger(capsys: pytest.CaptureFixture[str]) -> None:
    said = screen(["0.250 in", "--set", "inch-36"], capsys)
    assert "in†" in said
    assert "† recalled, not read" in said


SIZES = {
    "one a line": "0.05 in\n0.1 in\n0.123 in\n",
    "a head, a blank line, wear": '\nsize,\n0.05 in,\n\n"1/10 in",\n0.123",\n0.06 in,wear\n',
    "the table's columns": HEAD + "in,0.05,0.1,0.05,2\nin,0.123,0.123,,1\n",
    "all the table's columns": "set,unit,from_size,to_size,step,pieces,wear,from,note\n"
    "mine,in,0.05,1/10 in,1/20 in,2,,bought,\nmine,in,0.123,0.123,,1,,,\n"
    "mine,in,0.06,0.06,,2,yes,,hard\n",
}


@pytest.mark.parametrize("what", SIZES)
def test_a_set_from_a_file(what: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "mine.CSV"
    path.write_text(SIZES[what], encoding="utf-8-sig")
    found = answer(["0.273 in", "--set", str(path)], capsys)
    assert found["set"] == "mine.CSV"
    assert values(found["blocks"]) == [0.123, 0.1, 0.05]


def test_one_size_twice_is_two_blocks(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "two.csv"
    path.write_text("0.1 in\n0.100 in\n0.05 in\n")
    assert values(answer(["0.2 in", "--set", str(path)], capsys)["blocks"]) == [0.1, 0.1]
    assert "taken as separate blocks: 0.1" in screen(["0.2 in", "--set", str(path)], capsys)
    path.write_text("0.1 in\n0.05 in\n0.07 in\n")
    found = answer(["0.2 in", "--set", str(path)], capsys)
    assert values(found["nearest"]) == [0.17, 0.22]


def test_a_grain_finer_than_the_place(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "fine.csv"
    path.write_text("0.100025 in\n0.100975 in\n0.1 in\n0.05 in\n")
    assert values(answer(["0.201 in", "--set", str(path)], capsys)["blocks"]) == [
        0.100975,
        0.100025,
    ]


def test_one_wear_block_is_not_two(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "one.csv"
    path.write_text("0.1 in\n0.05 in,wear\n")
    assert "only one wear block" in fault(["0.1 in", "--set", str(path), "--wear"], 2, capsys)


FAULTS = {
    "no unit": ("0.1 in\n0.2\n", "line 2: 0.2 has no unit"),
    "no size": ("0.1 in\n\nabc 1\n", "line 3: 'abc 1' is not a length"),
    "two units": ("0.1 in\n5 mm\n", "line 2: 5 mm stands in a list of in"),
    "a decimal comma": ("0,1 in\n", "line 1: '0,1 in' is more than one size"),
    "nothing in it": ("", "is empty"),
    "only a head": ("size\n", "lists no blocks"),
    "only wear": ("0.05 in,wear\n", "lists no blocks"),
    "zero": ("\n0 in\n", "line 2: no gauge block is 0 in"),
    "too long": ("1 in\n40.1 in\n", "line 2: no gauge block is 40.1 in"),
    "too fine": ("0.1000001 in\n", "line 1: a size of 0.1000001 in is finer"),
    "a column missing": ("unit,from_size,to_size,step\nin,1,1,\n", "no column pieces"),
    "a cell missing": (HEAD + "in,1,1,1\n", "line 2: 4 cells under 5 heads"),
    "an odd unit": (HEAD + "cm,1,1,,1\n", "line 2, unit: 'cm' is not in or mm"),
    "rows of two units": (HEAD + "in,1,1,,1\nmm,1,1,,1\n", "line 3, unit: mm in a set of in"),
    "another unit in a cell": (HEAD + "in,1 mm,1 mm,,1\n", "line 2, from_size: '1 mm' stands in"),
    "no number": (HEAD + "in,one,1,,1\n", "line 2, from_size: 'one' is not a number"),
    "no step": (HEAD + "in,1,2,,2\n", "line 2, step: the step from 1 to 2 is wanted"),
    "a wrong count": (HEAD + "in,1,4,1,5\n", "line 2, pieces: 1 to 4 by 1 is not 5 blocks"),
    "a part of a block": (HEAD + "in,1,1,,1.5\n", "line 2, pieces: 1.5 is no count"),
    "no block": (HEAD + "in,1,1,,0\n", "line 2, pieces: 0 is no count"),
    "below zero": (HEAD + "in,-1,-1,,1\n", "line 2: no gauge block is -1 in"),
    "an odd wear": (
        "wear," + HEAD + "no,in,1,1,,1\n",
        "line 2, wear: 'no' is not yes",
    ),
    "two sets": (
        "set," + HEAD + "a,in,1,1,,1\nb,in,2,2,,1\n",
        "line 3, set: 'b' is another set",
    ),
    "too many": (HEAD + "in,0.00001,0.004,0.00001,400\nin,39,39,,1\n", "lists 401 blocks"),
    "too much to search": (
        HEAD + "in,0.000001,0.000300,0.000001,300\nin,20,20,,1\n",
        "lists 301 blocks in steps of 1e-06 in",
    ),
}


@pytest.mark.parametrize("what", FAULTS)
def test_a_fault_in_a_file_names_its_line(
    what: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text, says = FAULTS[what]
    path = tmp_path / "paper.csv"
    path.write_text(text)
    said = fault(["1 in", "--set", str(path)], 1, capsys)
    assert "paper.csv" in said
    assert says in said


def test_files_that_are_no_lists(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "odd.csv"
    path.write_bytes(b"0.1 in\n\xff\n")
    assert "is not UTF-8" in fault(["1 in", "--set", str(path)], 1, capsys)
    path.write_text("0.1 in\n" * 200_000)
    assert "too large" in fault(["1 in", "--set", str(path)], 1, capsys)
    assert "no file" in fault(["1 in", "--set", str(tmp_path / "none.csv")], 2, capsys)
    (tmp_path / "folder.csv").mkdir()
    assert "no file" in fault(["1 in", "--set", str(tmp_path / "folder.csv")], 2, capsys)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["1 in", "--set", "inch-18"], "did you mean inch-81"),
        (["1 in", "--set", "a\nb"], "no set 'a b'"),
        (["1", "--set", "inch-81"], "has no unit"),
        (["27 in", "--set", "inch-81"], "over all 81 blocks of inch-81 together, 26.5295 in"),
        (["0.04 in", "--set", "inch-81"], "under the smallest block of inch-81, 0.05 in"),
        (["0.09 in", "--set", "inch-81", "--wear"], "the two wear blocks alone"),
        (["1 in", "--set", "inch-36", "--wear"], "inch-36 lists no wear blocks"),
        (["1 in", "--set", "inch-81", "--place", "0.0101 in"], "coarser than the 0.010 in"),
        (["20 mm", "--set", "metric-87", "--place", "0.26 mm"], "coarser than the 0.25 mm"),
        (["1 in", "--set", "inch-81", "--place", "0.001 in", "--exact"], "one of the two"),
        (["1 in", "--set", "inch-81", "--place", "0 in"], "--place: 0 in is not above zero"),
        (["999999 in", "--set", "inch-81"], "over all 81 blocks"),
    ],
)
def test_what_was_typed_is_refused(
    words: list[str], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert says in fault(words, 2, capsys)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ([], "--set --shop is required"),
        (["--set", "inch-81", "--shop", "shop.toml"], "not allowed with"),
    ],
)
def test_one_set_is_asked_for(
    words: list[str], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as left:
        main(["blocks", "1 in", *words])
    err = capsys.readouterr().err
    assert left.value.code == 2
    assert says in err
    assert err.count("\n") == 1


def test_the_set_of_a_shop_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "shop.toml"
    path.write_text('gauge_blocks = "inch-36"\n')
    assert answer(["0.594 in", "--shop", str(path)], capsys)["set"] == "inch-36"
    path.write_text('tip = "5 mm"\n')
    said = fault(["0.594 in", "--shop", str(path)], 1, capsys)
    assert "has no gauge_blocks" in said
    assert "inch-81" in said


def test_the_coarsest_place_is_the_offset(capsys: pytest.CaptureFixture[str]) -> None:
    found = answer(["0.594 in", "--set", "inch-81", "--place", "0.010 in"], capsys)
    assert sum(values(found["blocks"])) == pytest.approx(0.59, abs=1e-12)


def test_a_fault_in_the_tables_names_its_line(
    tmp_path: Path, tables_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shutil.copytree(tables_folder, tmp_path, dirs_exist_ok=True)
    table = tmp_path / "gauge_blocks.csv"
    text = table.read_text(encoding="utf-8")
    table.write_text(text.replace("0.149,0.001,49", "0.149,0.001,48"), encoding="utf-8")
    said = fault(["1 in", "--set", "inch-81", "--tables", str(tmp_path)], 1, capsys)
    assert "gauge_blocks.csv, line 3, pieces: 0.101 to 0.149 by 0.001 is not 48 blocks" in said


def test_it_imports_nothing_heavy() -> None:
    heavy = ("pandas", "pint", "matplotlib", "numpy", "reportlab", "jinja2", "pikepdf", "pypdfium2")
    code = (
        "import sys; from keyseats.__main__ import main; "
        "assert main(['blocks', '1 in', '--set', 'inch-81']) == 0; "
        f"print([m for m in {heavy!r} if m in sys.modules], file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        env={"PYTHONPATH": str(ROOT / "generator")},
    )
    assert done.stderr.strip() == "[]"
