"""A lenient reading of all tables: what can be read is kept, what cannot is a fault.

The loader stops at the first fault of a table, which is right for a page and wrong for a check.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from pathlib import Path

from keyseats.check.faults import Fault, Remark
from keyseats.check.grammar import Rule
from keyseats.csv_file import read_csv
from keyseats.faults import TableError, near
from keyseats.load import Column, Row, number
from keyseats.spreadsheet.cells import FIGURES, miscounted, pointless, restored, told_pointless
from keyseats.spreadsheet.files import habits

# Near words are looked for so often; what is beyond that is not one word mistyped.
_NEAR = 100
OWN = ("schema", "sources", "quirks")


@dataclass(frozen=True)
class Ruled:
    """A column of the schema with its line there and its rules read."""

    line: int
    column: Column
    rules: tuple[Rule, ...]


@dataclass
class Table:
    """What could be read of one table.

    Parameters
    ----------
    name
        Its name, without ``.csv``.
    ruled
        The columns of the schema that it has.
    rows
        Its whole rows.
    broken
        Lines that could not be read as rows.
    """

    name: str
    ruled: tuple[Ruled, ...]
    rows: tuple[Row, ...]
    broken: tuple[int, ...] = ()

    @property
    def file(self) -> str:
        """Return the name of its file."""
        return f"{self.name}.csv"

    def has(self, *columns: str) -> bool:
        """Return whether the table has all of some columns."""
        known = {r.column.name for r in self.ruled}
        return all(c in known for c in columns)


@dataclass
class Reading:
    """All tables as far as they can be read, with the faults and remarks found so far."""

    folder: Path
    schema: dict[str, tuple[Ruled, ...]] = field(default_factory=dict)
    tables: dict[str, Table] = field(default_factory=dict)
    sources: dict[str, str] | None = None
    faults: list[Fault] = field(default_factory=list)
    remarks: list[Remark] = field(default_factory=list)
    asked: int = 0

    def fault(self, file: str, line: int, column: str, rule: str, says: str, remedy: str) -> None:
        """Note a fault."""
        self.faults.append(Fault(file, line, column, rule, says, remedy))

    def cell_fault(self, row: Row, column: str, rule: str, says: str, remedy: str) -> None:
        """Note a fault of one cell."""
        self.fault(f"{row.table}.csv", row.line, column, rule, says, remedy)

    def near(self, word: str, known: list[str]) -> str:
        """Return a clause that names the near words; the first faults of a check have it."""
        self.asked += 1
        return near(word, known) if self.asked <= _NEAR else "correct it"

    def unset(self, file: str, line: int, column: str, text: str) -> None:
        """Note a character that the pages' typeface does not have."""
        from keyseats.typeface import has

        strange = next((c for c in text if not has(c)), "")
        if strange:
            says = f"the pages' typeface has no '{strange}' (U+{ord(strange):04X})"
            self.fault(file, line, column, "character", says, "write it another way")

    def at_fault(self, row: Row) -> bool:
        """Return whether a row has a fault already."""
        file = f"{row.table}.csv"
        return any(f.file == file and f.line == row.line for f in self.faults)

    def lines(self, name: str) -> tuple[list[str], list[tuple[int, list[str]]]] | None:
        """Return a file's head and lines, or None, with the fault noted, if it is unreadable."""
        file = f"{name}.csv"
        try:
            found = read_csv(self.folder / file)
            for says in habits((self.folder / file).read_bytes()):
                self.remarks.append(Remark(file, 1, "", says))
            return found
        except TableError as wrong:
            says, _, remedy = str(wrong).partition("; ")
            line = 1
            column = ""
            if says.startswith(f"{file}, line "):
                place, _, says = says.removeprefix(f"{file}, line ").partition(": ")
                at, _, column = place.partition(", ")
                line = int(at)
            self.fault(
                file, line, column, "readable", says, remedy or "put a readable copy in its place"
            )
            return None

    def whole_lines(self, name: str, head: list[str]) -> list[tuple[int, list[str]]] | None:
        """Return the whole lines of a file whose head row is fixed, every fault noted.

        None if the file cannot be used at all, so that what it lacks is not told again.
        """
        found, file = self.lines(name), f"{name}.csv"
        if found is None:
            return None
        if found[0] != head:
            self.fault(
                file,
                1,
                "",
                "columns",
                "its head row is not as it must be",
                "put: " + ",".join(head),
            )
            return None
        whole = []
        for line, cells in found[1]:
            if len(cells) < len(head) or any(cells[len(head) :]):
                self.fault(file, line, "", "cells", *miscounted(cells, len(head)))
            else:
                whole.append((line, cells[: len(head)]))
        return whole


@lru_cache(maxsize=8192)
def _figure(text: str) -> Fraction | None:
    try:
        return number(text)
    except ValueError:
        return None


def value(row: Row, column: str) -> Fraction | None:
    """Return a cell's exact figure, or None if it is blank or is not a number."""
    return _figure(row.cells.get(column, ""))


def same(one: str, other: str) -> bool:
    """Return whether two cells say the same, as figures or as words."""
    return one == other or comparable(one) == comparable(other)


def comparable(text: str) -> Fraction | str:
    """Return a cell in the form that cells are compared in: ``1/2 in`` and ``0.5`` are one."""
    found = _figure(text)
    return text if found is None else found


def read_table(reading: Reading, name: str) -> Table | None:
    """Read one table by its schema, and note what stands in the way."""
    found = reading.lines(name)
    if found is None:
        return None
    head, lines = found
    file, ruled = f"{name}.csv", reading.schema[name]
    known = [r.column.name for r in ruled]
    missing = [c for c in known if c not in head]
    if len(head) == 1 and (";" in head[0] or "\t" in head[0]):
        reading.fault(
            file, 1, "", "columns", "it is not separated by commas", "save it as CSV with commas"
        )
        return None
    if missing:
        reading.fault(
            file,
            1,
            missing[0],
            "columns",
            f"no column {', '.join(missing)}",
            "make the head row the schema's again",
        )
    for n, column in enumerate(head):
        if column not in known:
            reading.fault(
                file,
                1,
                column,
                "columns",
                f"the schema has no column '{column}' in this table",
                "give it a row in schema.csv, or take it out",
            )
        elif column in head[:n]:
            reading.fault(
                file, 1, column, "columns", "the column stands twice", "keep one of the two"
            )
    if not lines:
        reading.fault(file, 1, "", "rows", "it has no rows", "put its rows back")
    whole: list[tuple[int, dict[str, str]]] = []
    broken = []
    for line, cells in lines:
        if len(cells) < len(head) or any(cells[len(head) :]):
            reading.fault(file, line, "", "cells", *miscounted(cells, len(head)))
            broken.append(line)
            continue
        whole.append((line, dict(zip(head, cells, strict=False))))
    present = tuple(r for r in ruled if r.column.name in head)
    if not _with_zeros(reading, file, [r.column for r in present], whole):
        return None
    named = identity(ruled)
    rows = tuple(
        Row(name, at, " / ".join(c.get(n, "") for n in named) if named else f"line {at}", c)
        for at, c in whole
    )
    return Table(name, present, rows, tuple(broken))


def _with_zeros(
    reading: Reading, file: str, columns: list[Column], whole: list[tuple[int, dict[str, str]]]
) -> bool:
    """Put lost trailing zeros back, each with a remark; False if decimal marks are lost."""
    figures = [c for c in columns if c.kind in FIGURES]
    lost = pointless((c.places, [cells[c.name] for _, cells in whole]) for c in figures)
    for at, row in lost:
        line, cells = whole[row]
        name = figures[at].name
        reading.fault(file, line, name, "number", *told_pointless(cells[name]))
    for line, cells in () if lost else whole:
        for column in figures:
            text = cells[column.name]
            full = restored(text, column.places or 0)
            if full != text:
                cells[column.name] = full
                says = f"{text} has lost trailing zeros; as printed it is {full}"
                reading.remarks.append(Remark(file, line, column.name, says))
    return not lost


def identity(ruled: tuple[Ruled, ...]) -> tuple[str, ...]:
    """Return the columns that name a row, as the loader does."""
    for each in ruled:
        for rule in each.rules:
            if rule.kind == "unique":
                named = {each.column.name, *rule.names}
                return tuple(r.column.name for r in ruled if r.column.name in named)
    return ()
