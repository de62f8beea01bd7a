"""What is typed wrong is one clear line, the right exit code, and nothing written."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from keyseats.__main__ import main

TYPED = {
    "a bare number": ["shaft", "1"],
    "no length": ["shaft", "one inch"],
    "a unit that is none": ["shaft", "3 bananas"],
    "negative": ["shaft", "-1 in"],
    "zero": ["shaft", "0 in"],
    "nothing below the line": ["shaft", "1/0 in"],
    "a decimal comma": ["shaft", "22,5 mm"],
    "very long": ["shaft", "9" * 5000 + " in"],
    "a shaft beyond the table": ["shaft", "40 in"],
    "a shaft below the table": ["shaft", "1 mm"],
    "an unknown key": ["shaft", "1 in", "--key", "6O8"],
    "a key that cannot be let in": ["shaft", "3/8 in", "--key", "1212"],
    "measured far from nominal": ["shaft", "1 in", "--measured", "2 in"],
    "an unknown fit": ["shaft", "1 in", "--fit", "snug"],
    "an unknown standard": ["shaft", "22 mm", "--standard", "ISO 1"],
    "an unknown family": ["shaft", "1 in", "--family", "inch taper"],
    "an unknown command": ["shfat", "1 in"],
    "an unknown option": ["shaft", "1 in", "--keys", "608"],
    "an unknown sheet": ["build", "wall-inch-plane"],
    "a sheet that is a path": ["build", "../../etc/passwd"],
    "an unknown paper": ["build", "--paper", "A44"],
    "a figure that is nowhere": ["trace", "inch_half_moon_seats/999"],
    "a table that is nowhere": ["trace", "inch_half_moons/608"],
    "nothing at all": [],
}


def one_line(words: list[str], capsys: pytest.CaptureFixture[str]) -> tuple[int, str]:
    try:
        code = main(words)
    except SystemExit as left:
        code = int(str(left.code))
    said = capsys.readouterr()
    assert said.out == ""
    lines = said.err.strip().splitlines()
    assert len(lines) == 1, said.err
    assert lines[0].startswith("keyseats: ")
    assert "Traceback" not in said.err
    return code, lines[0]


@pytest.mark.parametrize("what", TYPED)
def test_typed_wrong(
    what: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    code, _ = one_line(TYPED[what], capsys)
    assert code == 2
    assert list(tmp_path.iterdir()) == []


def test_a_wrong_word_names_the_near_ones(capsys: pytest.CaptureFixture[str]) -> None:
    assert "608" in one_line(["shaft", "1 in", "--key", "6088"], capsys)[1]
    assert "shaft" in one_line(["shfat", "1 in"], capsys)[1]
    assert "wall-inch-plain" in one_line(["build", "wall-inch-plane"], capsys)[1]


@pytest.mark.parametrize(
    "name", ["sources.csv", "schema.csv", "inch_half_moon_seats.csv", "inch_plain_keys.csv"]
)
@pytest.mark.parametrize("harm", ["missing", "not text", "no head", "folder"])
def test_a_table_that_cannot_be_read(
    name: str, harm: str, tmp_path: Path, tables_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    copy = Path(shutil.copytree(tables_folder, tmp_path / "tables"))
    (copy / name).unlink()
    if harm == "not text":
        (copy / name).write_bytes(b"\xff\x00\xfe")
    elif harm == "no head":
        (copy / name).write_text("a,b\n1,2\n")
    elif harm == "folder":
        (copy / name).mkdir()
    code, line = one_line(["shaft", "1 in", "--tables", str(copy)], capsys)
    assert code == 1
    assert name in line


def test_no_tables(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, line = one_line(["shaft", "1 in", "--tables", str(tmp_path / "none")], capsys)
    assert code == 1
    assert "--tables" in line


@pytest.mark.parametrize("where", ["none/seat.pdf", "."])
def test_a_sheet_that_cannot_be_written(
    where: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, _ = one_line(["shaft", "1 in", "--pdf", str(tmp_path / where)], capsys)
    assert code == 1
    assert list(tmp_path.iterdir()) == []


def test_a_file_where_the_output_should_be(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    place = tmp_path / "output"
    place.write_text("mine")
    code, line = one_line(["build", "cards-id1", "--output", str(place)], capsys)
    assert code == 1
    assert "output" in line
    assert place.read_text() == "mine"


def test_a_sheet_for_a_shaft_as_measured(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "seat.pdf"
    words = ["shaft", "1 in", "--measured", "0.9985 in", "--key", "608", "--pdf", str(path)]
    assert main(words) == 0
    assert path.read_bytes().startswith(b"%PDF-1.7")
    assert "actual size" in capsys.readouterr().out


def test_trace(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["trace", "inch_half_moon_seats/608/depth_at_edge"]) == 0
    said = capsys.readouterr().out
    assert "0.3393" in said
    assert "two independent sources" in said
    assert "wall-inch-half-moon" in said


def test_list(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["list"]) == 0
    said = capsys.readouterr().out
    assert "wall-metric-plain" in said
    assert "JIS B 1301" in said
