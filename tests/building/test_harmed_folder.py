"""A folder that is not as a build left it: mended, or refused in one line with nothing touched."""

from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path

import pytest

import small_set
from keyseats import build
from keyseats.__main__ import main
from keyseats.manifest import load
from keyseats.sheets import find
from small_set import FILES, SHEET, Before, built, contents, words

pytestmark = pytest.mark.slow

A4, _ = FILES


@pytest.fixture
def copied(tmp_path: Path, tables_folder: Path) -> Path:
    return Path(shutil.copytree(tables_folder, tmp_path / "tables"))


@pytest.fixture
def _small(monkeypatch: pytest.MonkeyPatch) -> None:
    small_set.small(monkeypatch, {SHEET: ("A4", "Letter")})


@pytest.mark.usefixtures("_small")
@pytest.mark.parametrize(
    "harm",
    [b"", b"{", b"\x00" * 40, b"[" * 100_000, None, "cut", "flipped", "unsummed"],
    ids=["empty", "brace", "zeros", "nested", "link to itself", "cut", "flipped", "unsummed"],
)
def test_a_damaged_manifest(harm: bytes | str | None, copied: Path, tmp_path: Path) -> None:
    output = tmp_path / "o"
    built(copied, output)
    whole = contents(output)
    path = output / "manifest.json"
    good = path.read_bytes()
    if harm is None:
        path.unlink()
        path.symlink_to("manifest.json")
        assert main(words(copied, output)) == 1
        path.unlink()
    elif harm == "cut":
        path.write_bytes(good[: len(good) // 2])
    elif harm == "flipped":
        key = load(output).files[A4].key
        path.write_bytes(good.replace(key.encode(), key[::-1].encode()))
    elif harm == "unsummed":
        path.write_bytes(good[: good.rindex(b',\n "sum"')] + b"\n}\n")
    else:
        assert isinstance(harm, bytes)
        path.write_bytes(harm)
    assert harm is None or load(output).damaged
    assert main(words(copied, output)) == 0
    assert contents(output) == whole


@pytest.mark.usefixtures("_small")
@pytest.mark.parametrize("text", ["[1, 2]", '{"name": "an app"}', '"words"', "7"])
def test_another_program_s_manifest_is_let_be(
    text: str, copied: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    output = tmp_path / "o"
    output.mkdir()
    (output / "manifest.json").write_text(text)
    assert main(words(copied, output)) == 1
    said = capsys.readouterr().err
    assert "is not a manifest of this program" in said
    assert said.count("\n") == 1
    assert contents(output) == {"manifest.json": text.encode()}


def test_a_manifest_that_names_other_places_is_not_believed(tmp_path: Path) -> None:
    from keyseats.manifest import Derived, Manifest

    mine = tmp_path / "mine.pdf"
    mine.write_bytes(b"mine")
    output = tmp_path / "o"
    output.mkdir()
    for name in ("../mine.pdf", "/mine.pdf", "previews/../../mine.pdf", "notes.txt"):
        Manifest({}, {name: Derived("", "")}).save(output)
        assert load(output).damaged, name


@pytest.mark.usefixtures("_small")
@pytest.mark.parametrize("name", [A4, "manifest.json", "index.html", f"previews/{A4[:-4]}.png"])
def test_a_folder_where_a_file_goes(
    name: str, copied: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = Before(copied, tmp_path)
    output = before.again()
    (output / name).unlink()
    (output / name).mkdir()
    here = contents(output)
    assert main(words(copied, output)) == 1
    said = capsys.readouterr().err
    assert f"{output / name} cannot be written: a folder stands in its place" in said
    assert said.count("\n") == 1
    assert contents(output) == here
    (output / name).rmdir()
    before.assert_next_is_right(output)


@pytest.mark.usefixtures("_small")
@pytest.mark.parametrize("name", ["o", "o/previews"])
def test_a_file_where_a_folder_goes(
    name: str, copied: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    if "/" in name:
        (tmp_path / "o").mkdir()
    (tmp_path / name).write_bytes(b"mine")
    assert main(words(copied, tmp_path / "o")) == 1
    said = capsys.readouterr().err
    assert f"{tmp_path / name} is a file, and a folder is wanted there" in said
    assert said.count("\n") == 1
    assert (tmp_path / name).read_bytes() == b"mine"
    assert not list(tmp_path.glob("o/*.pdf"))


def test_a_sheet_that_cannot_be_laid_out_is_one_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def overruns(*_: object) -> list[object]:
        raise ValueError("the table overruns its page by 3.0 pt")

    broken = tuple(replace(sheet, pages=overruns) for sheet in find())
    monkeypatch.setattr(build, "find", lambda: broken)
    assert main(["build", SHEET, "--output", str(tmp_path / "output")]) == 1
    said = capsys.readouterr().err
    assert said.count("\n") == 1
    assert "cannot be laid out" in said
