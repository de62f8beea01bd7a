"""The build: only what is stale, whole or not at all, and nothing touched by a fault."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from keyseats.__main__ import main
from keyseats.manifest import load

SHEET = "wall-inch-half-moon"
FILE = "wall-inch-half-moon-letter.pdf"


@pytest.fixture
def tables_copy(tmp_path: Path, tables_folder: Path) -> Path:
    return Path(shutil.copytree(tables_folder, tmp_path / "tables"))


def build(tables: Path, output: Path, *more: str) -> int:
    words = ["build", SHEET, "--paper", "letter", "--tables", str(tables), "--output", str(output)]
    return main([*words, *more])


def contents(folder: Path) -> dict[str, bytes]:
    return {
        p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()
    }


def test_builds_then_has_nothing_to_do(
    tables_copy: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    output = tmp_path / "output"
    assert build(tables_copy, output) == 0
    assert "made " + FILE in capsys.readouterr().out
    first = contents(output)
    assert {FILE, "index.html", "manifest.json"} <= set(first)
    assert build(tables_copy, output) == 0
    assert "nothing to do" in capsys.readouterr().out
    assert contents(output) == first


def test_a_rebuild_in_an_empty_folder_gives_the_same_bytes(
    tables_copy: Path, tmp_path: Path
) -> None:
    build(tables_copy, tmp_path / "one")
    build(tables_copy, tmp_path / "two")
    assert contents(tmp_path / "one") == contents(tmp_path / "two")


def test_a_corrected_figure_names_the_page_that_changed(
    tables_copy: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    output = tmp_path / "output"
    build(tables_copy, output)
    table = tables_copy / "inch_half_moon_seats.csv"
    text = table.read_text(encoding="utf-8")
    # Invented figure: the seat of No. 505 made wider by one in the last place.
    changed = text.replace("505,5/32 in,5/8 in,0.1553,0.1568", "505,5/32 in,5/8 in,0.1553,0.1569")
    assert changed != text
    table.write_text(changed, encoding="utf-8")
    capsys.readouterr()
    assert build(tables_copy, output, "--dry-run") == 1
    assert FILE in capsys.readouterr().out
    assert build(tables_copy, output) == 0
    said = capsys.readouterr().out
    assert f"made {FILE}: figure changed\n  half-moon-" in said
    assert "figure changed: inch_half_moon_seats/505/width_most" in said


@pytest.mark.parametrize("harm", ["missing", "altered"])
def test_a_harmed_output_is_made_again(
    harm: str, tables_copy: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    output = tmp_path / "output"
    build(tables_copy, output)
    whole = (output / FILE).read_bytes()
    if harm == "missing":
        (output / FILE).unlink()
    else:
        (output / FILE).write_bytes(whole[:-7])
    capsys.readouterr()
    assert build(tables_copy, output) == 0
    assert harm in capsys.readouterr().out
    assert (output / FILE).read_bytes() == whole


def test_a_fault_in_a_table_makes_nothing_and_leaves_the_last_good_pages(
    tables_copy: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    output = tmp_path / "output"
    build(tables_copy, output)
    before = contents(output)
    table = tables_copy / "inch_half_moon_seats.csv"
    text = table.read_text(encoding="utf-8")
    table.write_text(text.replace("0.3393", "0.3939"), encoding="utf-8")
    capsys.readouterr()
    assert build(tables_copy, output) == 1
    said = capsys.readouterr().err
    assert "inch_half_moon_seats.csv" in said
    assert "depth_at_edge" in said
    assert contents(output) == before


def test_a_file_that_the_manifest_does_not_list_is_never_touched(
    tables_copy: Path, tmp_path: Path
) -> None:
    output = tmp_path / "output"
    output.mkdir()
    mine = output / "mine.pdf"
    mine.write_bytes(b"mine")
    build(tables_copy, output)
    build(tables_copy, output)
    assert mine.read_bytes() == b"mine"


def test_a_folder_in_the_place_of_a_file_is_one_line(
    tables_copy: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    output = tmp_path / "output"
    (output / FILE).mkdir(parents=True)
    assert build(tables_copy, output) == 1
    said = capsys.readouterr().err.strip()
    assert said.count("\n") == 0
    assert FILE in said
    assert not list(output.glob(".*.part"))
    assert not (output / "manifest.json").exists()


def test_the_manifest_holds_no_path_and_no_time(tables_copy: Path, tmp_path: Path) -> None:
    output = tmp_path / "output"
    build(tables_copy, output)
    text = (output / "manifest.json").read_text(encoding="utf-8")
    assert str(tmp_path) not in text
    assert FILE in load(output).files
