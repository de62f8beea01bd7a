"""The archive: small, whole, the same every time, and true to the tables as they were read."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest

from corrections.copying import FOLDER, clean, copy
from keyseats.check import check
from keyseats.corrections.archive import archived, editions, rows_packed, unpacked
from keyseats.corrections.code import read_code
from keyseats.corrections.compare import differences
from keyseats.corrections.figures import figures_of
from keyseats.corrections.stamping import stamp
from keyseats.faults import TableError
from keyseats.load import Tables
from keyseats.paths import tables_dir


def test_the_archive_is_small_and_names_no_machine() -> None:
    files = list((tables_dir() / FOLDER).iterdir())
    assert {p.suffix for p in files} == {".json"}
    assert sum(p.stat().st_size for p in files) < 450_000
    for path in files:
        text = path.read_text(encoding="utf-8")
        assert str(Path.home()) not in text
        assert "/work/" not in text
        assert json.loads(text)["number"] == path.stem


def test_an_edition_is_given_back_as_it_was(tmp_path: Path) -> None:
    """The first reading's 202 has its hub depth from memory; the second read it in two places."""
    first, second = editions(tables_dir())[:2]
    assert (first.number, second.number) == ("1", "2")
    for past in (first, second):
        folder = tmp_path / past.number
        folder.mkdir()
        for name, lines in past.files.items():
            (folder / name).write_bytes("\n".join(lines).encode())
        assert not check(Tables(folder)).faults
        assert Tables(folder).edition == past.tables.edition
        assert {c.id: c for c in figures_of(Tables(folder)).all()} == {
            c.id: c for c in figures_of(past.tables).all()
        }


def test_writing_an_edition_again_gives_the_same_bytes(tmp_path: Path) -> None:
    bed = clean(tmp_path / "tables")
    past = editions(bed.folder)
    before = past[-2]
    issued = [past[-1].issue(code) for code in past[-1].packed]
    again = archived(bed.folder, before, [issue for issue in issued if issue is not None])
    assert again == (bed.folder / FOLDER / f"{past[-1].number}.json").read_bytes()


@pytest.mark.parametrize("which", [0, 1])
def test_every_archived_code_is_made_of_what_it_stands_for(which: int) -> None:
    past = editions(tables_dir())[which]
    assert len(past.packed) > 700
    for code in past.packed:
        issue = past.issue(code)
        assert issue is not None
        found, title = issue
        assert title
        assert read_code(code) == code == stamp(past.tables, found.what, found.rows).code


def test_rows_come_back_from_packing() -> None:
    rows = (
        "inch_plain_keys/7/8 in/shaft_to",
        "inch_plain_keys/7/8 in/width",
        "inch_plain_keys/1-1/4 in/width",
        "metric_key_limits/ISO/R 773 / width/zone",
    )
    groups: list[str] = []
    packed = rows_packed(rows, groups)
    assert unpacked(packed, groups) == tuple(sorted(rows))
    assert rows_packed(rows, groups) == packed


def test_what_the_second_reading_changed() -> None:
    """The project's own history: what was read again is named as it was found.

    JIS B 1301's depths were printed with a place more, a sheet of speeds was read beside the first,
    and no depth or width of a seat that had been read moved.
    """
    first, second = editions(tables_dir())[:2]
    found = {name: (old, new) for name, old, new in differences(first.tables, second.tables)}
    old, new = found["metric_plain_keys/JIS B 1301 / main / 8/depth_from_crown"]
    assert old is not None
    assert new is not None
    assert (old.text, new.text) == ("4", "4.0")
    assert (old.source, new.source) == ("misumi-jis-1301", "misumi-jis-1301 + sanei-jis")
    old, new = found["cutting_speeds/brass / HSS/high"]
    assert old is not None
    assert new is not None
    assert (old.text, new.text) == ("150", "250")
    assert "metric_half_moon_keys/GOST 24071 / 1 x 1.4 x 4/width" in found
    assert found["metric_half_moon_keys/GOST 24071 / 1 x 1.4 x 4/width"][0] is None
    assert not [n for n, (old, new) in found.items() if new is None]


def test_the_differences_are_those_of_the_files(tmp_path: Path) -> None:
    """Against another reading: the csv module alone, cell by cell, rows named by the schema."""
    first, second = editions(tables_dir())[:2]
    wanted = set()
    for table in second.tables.schema:
        named = second.tables.identity(table)
        kinds = {c.name: c for c in second.tables.columns(table)}
        sides = []
        for past in (first, second):
            rows = csv.DictReader(io.StringIO("\n".join(past.files[f"{table}.csv"])))
            sides.append({" / ".join(r[c] for c in named): r for r in rows})
        for row in sides[0].keys() | sides[1].keys():
            for name, column in kinds.items():
                if column.kind == "source" or name == "note":
                    continue
                pair = [
                    (s[row][name], s[row].get(column.source_column, "")) if row in s else None
                    for s in sides
                ]
                if pair[0] != pair[1]:
                    wanted.add(f"{table}/{row}/{name}")
    found = {name for name, _, _ in differences(first.tables, second.tables)}
    # A figure derived by a rule can change its standing although its own source cell did not.
    standing = {
        name
        for name, old, new in differences(first.tables, second.tables)
        if old and new and (old.text, old.source) == (new.text, new.source)
    }
    assert found - standing == wanted


@pytest.mark.parametrize("spoilt", ["", "{}", '{"number":"2"}', "[1, 2]", '{"after":"1"'])
def test_a_spoilt_archive_is_one_line(tmp_path: Path, spoilt: str) -> None:
    bed = copy(tmp_path / "tables")
    (bed.folder / FOLDER / "2.json").write_text(spoilt)
    with pytest.raises(TableError, match=r"editions/2\.json is not an archive") as raised:
        editions(bed.folder)
    assert "\n" not in str(raised.value)


def test_an_archive_beyond_the_edition_was_not_finished(tmp_path: Path) -> None:
    bed = copy(tmp_path / "tables")
    (bed.folder / "edition.toml").write_text('number = "1"\ndate = "2026-11-25"\n')
    assert [past.number for past in editions(bed.folder)] == ["1"]


def test_tables_without_an_archive_have_no_editions(tmp_path: Path) -> None:
    bed = copy(tmp_path / "tables")
    for path in (bed.folder / FOLDER).iterdir():
        path.unlink()
    assert editions(bed.folder) == []
