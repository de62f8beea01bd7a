"""A copy of the shipped tables, and faults planted in it cell by cell."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path

from keyseats.check import Report, check
from keyseats.load import Tables

Place = tuple[str, int, str, str]


@dataclass
class Bed:
    """A folder of tables to spoil."""

    folder: Path

    def read(self, table: str) -> list[list[str]]:
        with (self.folder / f"{table}.csv").open(encoding="utf-8", newline="") as file:
            return list(csv.reader(file))

    def write(self, table: str, lines: list[list[str]]) -> None:
        with (self.folder / f"{table}.csv").open("w", encoding="utf-8", newline="") as file:
            csv.writer(file, lineterminator="\n").writerows(lines)

    def line(self, table: str, /, **where: str) -> int:
        """Return the line of the first row whose cells are those given."""
        lines = self.read(table)
        wanted = {lines[0].index(c): text for c, text in where.items()}
        for n, cells in enumerate(lines[1:], start=2):
            if all(cells[i] == text for i, text in wanted.items()):
                return n
        raise AssertionError(f"{table} has no row {where}")

    def plant(self, table: str, column: str, text: str, /, **where: str) -> int:
        """Put a text in one cell and return its line."""
        lines = self.read(table)
        line = self.line(table, **where)
        at = lines[0].index(column)
        assert lines[line - 1][at] != text, "nothing would change"
        lines[line - 1][at] = text
        self.write(table, lines)
        return line

    def add(self, table: str, *cells: str) -> int:
        """Add a row at the end and return its line."""
        lines = self.read(table)
        lines.append([*cells, *[""] * (len(lines[0]) - len(cells))])
        self.write(table, lines)
        return len(lines)

    def drop(self, table: str, /, **where: str) -> int:
        """Take a row out and return the line that it had."""
        lines = self.read(table)
        line = self.line(table, **where)
        del lines[line - 1]
        self.write(table, lines)
        return line

    def check(self) -> Report:
        return check(Tables(self.folder))

    def places(self) -> list[Place]:
        """Return file, line, column and rule of every fault."""
        return [(f.file, f.line, f.column, f.rule) for f in self.check().faults]
