"""A printed set of two small sheets in a folder of its own, and what must hold of it."""

from __future__ import annotations

import hashlib
import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from keyseats import build as building
from keyseats.load import Tables
from keyseats.manifest import load
from keyseats.page import PAPERS, Block, Page, Text
from keyseats.sheets import Sheet, find

SHEETS = {"wall-metric-half-moon": ("A4", "Letter"), "wall-setting-up-inch": ("Letter",)}
SHEET = "wall-metric-half-moon"
# One figure of a seat: the greatest depth over the nominal.
OLD = "ISO 3912,2 x 2.6 x 7,2,2.6,7,1.8,0.1,"
NEW = OLD.replace("1.8,0.1,", "1.8,0.2,")
FILES = ("wall-metric-half-moon-a4.pdf", "wall-metric-half-moon-letter.pdf")


def small(monkeypatch: pytest.MonkeyPatch, sheets: dict[str, tuple[str, ...]] = SHEETS) -> None:
    """Let the printed set be a few sheets on a few papers."""
    known: tuple[Sheet, ...] = find()
    chosen = tuple(replace(s, papers=sheets[s.name]) for s in known if s.name in sheets)
    assert len(chosen) == len(sheets)
    monkeypatch.setattr(building, "find", lambda: chosen)


def _tiny_pages(tables: Tables, paper: str) -> list[Page]:
    wide, high = PAPERS[paper]
    pages = []
    for n, row in enumerate(tables.rows("metric_half_moon_seats")[:4], start=1):
        cell = Text(72, 100, row.cells["depth_plus"], 12)
        rows = (f"{row.table}/{row.id}/depth_plus",)
        blocks = (Block("H1", (Text(72, 72, row.id, 12),)), Block("P", (cell,), rows=rows))
        pages.append(Page(f"tiny-{n}", row.id, paper, blocks, 1.0, wide, high))
    return pages


def tiny(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the printed set be one made-up sheet, soon made, from tables that are not checked."""
    sheet = Sheet("tiny", "wall chart", "Tiny", ("A4", "Letter"), _tiny_pages)
    monkeypatch.setattr(building, "find", lambda: (sheet,))
    monkeypatch.setattr(building, "_refuse_faults", lambda tables: None)


def contents(folder: Path) -> dict[str, bytes]:
    """Return every file of a folder by its name."""
    return {
        p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()
    }


def assert_true(output: Path) -> None:
    """Assert that the manifest lists nothing that is not so."""
    made = load(output)
    assert not made.damaged
    for name, entry in [*made.files.items(), *made.derived.items()]:
        if entry.written:
            assert hashlib.sha256((output / name).read_bytes()).hexdigest() == entry.written, name


def correct(table: Path, old: str, new: str) -> None:
    """Put one text for another in a table."""
    text = table.read_text(encoding="utf-8")
    assert text.count(old) == 1
    table.write_text(text.replace(old, new), encoding="utf-8")


def quiet(done: int, count: int, name: str) -> None:
    """Tell nobody."""


def built(tables: Path, output: Path) -> None:
    """Build the whole set."""
    building.build(Tables(tables), output, building.Scope(), quiet)


def words(tables: Path, output: Path) -> list[str]:
    """Return the words that build the small sheet."""
    return ["build", SHEET, "--tables", str(tables), "--output", str(output)]


class Before:
    """A folder as it was built, the same after a figure is corrected, and what lies between."""

    def __init__(self, copied: Path, place: Path) -> None:
        self.tables, self.place = copied, place
        built(copied, place / "old")
        self.old = contents(place / "old")
        correct(copied / "metric_half_moon_seats.csv", OLD, NEW)
        built(copied, place / "new")
        self.new = contents(place / "new")

    def again(self) -> Path:
        output = self.place / "o"
        shutil.rmtree(output, ignore_errors=True)
        return Path(shutil.copytree(self.place / "old", output))

    def assert_nothing_lost(self, output: Path, *, parts: bool) -> None:
        now = contents(output)
        for name in self.old:
            if name != "manifest.json":
                assert now[name] in (self.old[name], self.new[name]), name
        assert_true(output)
        if not parts:
            assert now.keys() == self.old.keys()

    def assert_next_is_right(self, output: Path) -> None:
        built(self.tables, output)
        assert contents(output) == self.new
