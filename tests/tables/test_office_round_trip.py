"""Every table opened and saved by a real spreadsheet program, where one is installed."""

from __future__ import annotations

import csv
import shutil
import subprocess
from pathlib import Path

import pytest

from keyseats.check import check
from keyseats.check.reading import comparable
from keyseats.export import as_csv, figures_of
from keyseats.export_grids import GRIDS, grid_figures
from keyseats.load import Tables
from keyseats.sheets import find

pytestmark = [pytest.mark.slow, pytest.mark.needs_office]

# Separator, quote, UTF-8, first line, columns, language, quote all, detect or save as shown.
US, GERMAN = 1033, 1031


def opened(separator: str, language: int, detect: bool) -> str:
    return f"CSV:{ord(separator)},34,76,1,,{language},false,{str(detect).lower()}"


def saved(separator: str, language: int) -> str:
    return f"csv:Text - txt - csv (StarCalc):{ord(separator)},34,76,1,,{language},false,true"


def convert(files: list[Path], to: Path, kind: str, profile: Path, how: str = "") -> list[Path]:
    """Open files in the program and save them as another kind."""
    office = shutil.which("soffice") or shutil.which("libreoffice")
    assert office, "LibreOffice is not installed, so nothing was tried"
    words = [office, "--headless", f"-env:UserInstallation={profile.as_uri()}"]
    words += [f"--infilter={how}"] if how else []
    done = subprocess.run(
        [*words, "--convert-to", kind, "--outdir", str(to), *map(str, files)],
        capture_output=True,
        timeout=300,
    )
    made = sorted(to.glob("*." + kind.split(":")[0]))
    assert len(made) == len(files), done.stderr.decode(errors="replace")
    return made


def round_trip(folder: Path, to: Path, way: str, separator: str, language: int) -> Path:
    """Return a folder of tables that were opened and saved."""
    profile, work, out = to / "profile", to / "work", to / "tables"
    files = sorted(folder.glob("*.csv"))
    how = opened(",", language, way == "detecting dates")
    if way in ("xlsx", "ods"):
        files = convert(files, work, way, profile, how)
        how = ""
    convert(files, out, saved(separator, language), profile, how)
    shutil.copy(folder / "edition.toml", out)
    if (folder / "editions").is_dir():
        shutil.copytree(folder / "editions", out / "editions")
    return out


def cells(tables: Tables, name: str) -> dict[tuple[int, str], object]:
    """Return the cells of a table: its figures exact, its words as they stand."""
    return {
        (n, column.name): comparable(row.cells[column.name])
        for n, row in enumerate(tables.rows(name))
        for column in tables.columns(name)
    }


@pytest.mark.parametrize("way", ["plain", "detecting dates", "xlsx", "ods"])
def test_every_table_survives_being_saved(way: str, tables: Tables, tmp_path: Path) -> None:
    back = Tables(round_trip(tables.folder, tmp_path, way, ",", US))
    assert [str(f) for f in check(back).faults] == []
    for name in tables.schema:
        assert cells(back, name) == cells(tables, name), name
    assert back.sources == tables.sources
    assert [q.reason for q in back.quirks] == [q.reason for q in tables.quirks]


def test_no_page_changes_when_the_tables_are_saved(tables: Tables, tmp_path: Path) -> None:
    back = Tables(round_trip(tables.folder, tmp_path, "plain", ",", US))
    for sheet in find():
        for paper in sheet.papers[:1]:
            before = [page.key() for page in sheet.pages(tables, paper)]
            assert [page.key() for page in sheet.pages(back, paper)] == before, sheet.name


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("way", ["plain", "detecting dates"])
def test_a_language_with_decimal_commas_never_changes_a_figure_unseen(
    way: str, separator: str, tables: Tables, tmp_path: Path
) -> None:
    """Set to German, it reads 0.104 as 104: the table is refused, or its figures are the same."""
    back = Tables(round_trip(tables.folder, tmp_path, way, separator, GERMAN))
    at_fault = {f.file for f in check(back).faults}
    same = []
    for name in tables.schema:
        if f"{name}.csv" not in at_fault:
            assert cells(back, name) == cells(tables, name), name
            same.append(name)
    assert "inch_half_moon_keys.csv" in at_fault
    assert "metric_lengths" in same


def test_semicolons_and_decimal_commas_are_read(tables: Tables, tmp_path: Path) -> None:
    """Opened as English and saved as German, nothing is lost: every table is read right."""
    way = tmp_path / "way"
    files = convert(
        sorted(tables.folder.glob("*.csv")), way, "ods", tmp_path / "p", opened(",", US, False)
    )
    out = tmp_path / "tables"
    convert(files, out, saved(";", GERMAN), tmp_path / "p")
    shutil.copy(tables.folder / "edition.toml", out)
    back = Tables(out)
    assert [str(f) for f in check(back).faults] == []
    for name in tables.schema:
        assert cells(back, name) == cells(tables, name), name


@pytest.mark.parametrize("way", ["plain", "detecting dates", "ods"])
def test_an_export_survives_being_saved(way: str, tables: Tables, tmp_path: Path) -> None:
    """No cell of an export is run, turned into a date or changed in its figure."""
    figures = [f for name in tables.schema for f in figures_of(tables, name)]
    figures += [f for grid in GRIDS for f in grid_figures(tables, grid, None)]
    path = tmp_path / "export.csv"
    path.write_text(as_csv(figures), encoding="utf-8")
    files, how = [path], opened(",", US, way == "detecting dates")
    if way == "ods":
        files = convert(files, tmp_path / "work", way, tmp_path / "profile", how)
        how = ""
    (back,) = convert(files, tmp_path / "back", saved(",", US), tmp_path / "profile", how)
    with path.open(newline="", encoding="utf-8") as before, back.open(newline="") as after:
        for one, other in zip(csv.reader(before), csv.reader(after), strict=True):
            assert [comparable(c) for c in other] == [comparable(c) for c in one]
