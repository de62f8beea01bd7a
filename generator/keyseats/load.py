"""Tables as rows of text, and rows as records. The one reader of the CSV files."""

from __future__ import annotations

import csv
import dataclasses
import io
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from pathlib import Path
from typing import Any, TypeVar

from keyseats.faults import TableError
from keyseats.lengths import read_fraction
from keyseats.records import Figure, Quirk, Source

Record = TypeVar("Record")
_UNIT_WORDS = (" in", " mm")


@dataclass(frozen=True)
class Column:
    """What the schema says of one column."""

    name: str
    kind: str
    unit: str
    places: int | None
    blank: bool
    source_column: str
    rules: tuple[str, ...]
    meaning: str


@dataclass(frozen=True)
class Row:
    """One line of a table, still as text."""

    table: str
    line: int
    id: str
    cells: dict[str, str]


@dataclass(frozen=True)
class Edition:
    """The edition of the tables that pages print."""

    number: str
    date: str


def read_text(path: Path) -> str:
    """Read a table file as text.

    Raises
    ------
    TableError
        If the file is missing, is not UTF-8 or cannot be read.
    """
    try:
        return path.read_bytes().decode("utf-8-sig")
    except FileNotFoundError:
        raise TableError(f"{path.name} is missing from {path.parent}; put it back") from None
    except UnicodeDecodeError as fault:
        raise TableError(
            f"{path.name}: byte {fault.start} is not UTF-8; save the file again as CSV UTF-8"
        ) from None
    except OSError as fault:
        raise TableError(f"{path.name} cannot be read: {fault.strerror}") from None


def read_csv(path: Path) -> tuple[list[str], list[tuple[int, list[str]]]]:
    """Read a CSV file: its head, and each filled line with its number.

    Raises
    ------
    TableError
        If it is not a comma-separated table with one head row.
    """
    reader = csv.reader(io.StringIO(read_text(path), newline=""), strict=True)
    lines: list[tuple[int, list[str]]] = []
    try:
        for row in reader:
            if any(cell.strip() for cell in row):
                lines.append((reader.line_num, [cell.strip() for cell in row]))
    except csv.Error as fault:
        raise TableError(
            f"{path.name}, line {reader.line_num}: {fault}; check the quotes on that line"
        ) from None
    if not lines:
        raise TableError(f"{path.name} is empty; put its head row back")
    head = lines.pop(0)[1]
    while head and not head[-1]:
        head.pop()
    return head, lines


def number(text: str) -> Fraction:
    """Read a cell exactly: a decimal, or a fraction with its unit.

    Raises
    ------
    ValueError
        If it is neither.
    """
    for word in _UNIT_WORDS:
        if text.endswith(word):
            return read_fraction(text[: -len(word)])
    if "/" in text:
        raise ValueError(f"the fraction '{text}' has lost its unit")
    return read_fraction(text)


class Tables:
    """The tables of one folder, each read when it is first asked for.

    Parameters
    ----------
    folder
        Where the CSV files are.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._rows: dict[str, tuple[Row, ...]] = {}
        self._records: dict[str, Any] = {}

    @cached_property
    def schema(self) -> dict[str, tuple[Column, ...]]:
        """Read the columns of each table, in the order of the schema."""
        wanted = ["table", "column", "kind", "unit", "places", "blank", "from", "rule", "meaning"]
        head, lines = read_csv(self.folder / "schema.csv")
        if head != wanted:
            raise TableError(f"schema.csv, line 1: the columns must be {', '.join(wanted)}")
        tables: dict[str, list[Column]] = {}
        for line, cells in lines:
            if len(cells) < len(wanted):
                raise TableError(f"schema.csv, line {line}: {len(wanted)} cells are wanted")
            table, name, kind, unit, places, blank, source, rule, meaning = cells[:9]
            if places and not places.isdigit():
                raise TableError(f"schema.csv, line {line}, places: '{places}' is not a count")
            rules = tuple(r.strip() for r in rule.split(";") if r.strip())
            column = Column(
                name,
                kind,
                unit,
                int(places) if places else None,
                blank == "yes",
                source,
                rules,
                meaning,
            )
            tables.setdefault(table, []).append(column)
        return {table: tuple(columns) for table, columns in tables.items()}

    def columns(self, table: str) -> tuple[Column, ...]:
        """Return what the schema says of a table's columns.

        Raises
        ------
        TableError
            If the schema does not know the table.
        """
        if table not in self.schema:
            raise TableError(f"schema.csv says nothing of {table}; add a row for each column")
        return self.schema[table]

    def identity(self, table: str) -> tuple[str, ...]:
        """Return the columns that together name a row of a table."""
        for column in self.columns(table):
            for rule in column.rules:
                if rule == "unique":
                    return (column.name,)
                if rule.startswith("unique with "):
                    rest = rule.removeprefix("unique with ").split("+")
                    named = {column.name, *(r.strip() for r in rest)}
                    return tuple(c.name for c in self.columns(table) if c.name in named)
        return ()

    def rows(self, table: str) -> tuple[Row, ...]:
        """Return a table's rows as text.

        Raises
        ------
        TableError
            If a column of the schema is missing, or a row has too few or too many cells.
        """
        if table in self._rows:
            return self._rows[table]
        columns = self.columns(table)
        head, lines = read_csv(self.folder / f"{table}.csv")
        missing = [c.name for c in columns if c.name not in head]
        if missing:
            raise TableError(
                f"{table}.csv, line 1: no column {', '.join(missing)}; the head row must be the "
                "schema's (is the file separated by commas?)"
            )
        named = self.identity(table)
        rows = []
        for line, cells in lines:
            if len(cells) < len(head) or any(cells[len(head) :]):
                raise TableError(
                    f"{table}.csv, line {line}: {len(cells)} cells under {len(head)} heads; a "
                    "comma inside a cell needs quotes round the cell"
                )
            row = dict(zip(head, cells, strict=False))
            name = " / ".join(row[c] for c in named) if named else f"line {line}"
            rows.append(Row(table, line, name, row))
        self._rows[table] = tuple(rows)
        return self._rows[table]

    def figure(self, row: Row, column: Column) -> Figure | None:
        """Return one cell as a figure, or None if it is blank.

        Raises
        ------
        TableError
            If the cell is not a number.
        """
        text = row.cells[column.name]
        if not text:
            return None
        try:
            value = number(text)
        except ValueError as fault:
            raise TableError(
                f"{row.table}.csv, line {row.line}, {column.name}: {fault}; type the figure as "
                "printed"
            ) from None
        source = row.cells[column.source_column] if column.source_column else ""
        return Figure(value, column.unit, text, source, row.table, row.id, column.name)

    def records(self, kind: type[Record], table: str) -> tuple[Record, ...]:
        """Return a table's rows as records of one kind.

        Parameters
        ----------
        kind
            A dataclass of ``keyseats.records`` whose fields are columns of the table.
        table
            The table's name, without ``.csv``.

        Raises
        ------
        TableError
            If the table cannot be read, or a cell is not what the schema says.
        """
        if table not in self._records:
            self._records[table] = tuple(self._read(kind, table))
        found: tuple[Record, ...] = self._records[table]
        return found

    def _read(self, kind: type[Record], table: str) -> Iterator[Record]:
        columns = {c.name: c for c in self.columns(table)}
        for row in self.rows(table):
            values: dict[str, Any] = {}
            for field in dataclasses.fields(kind):  # type: ignore[arg-type]
                name = "from" if field.name == "source" and "from" in columns else field.name
                if str(field.type).startswith("Figure"):
                    figure = self.figure(row, columns[name])
                    if figure is None and "None" not in str(field.type):
                        raise TableError(
                            f"{table}.csv, line {row.line}, {name}: is blank and must not be"
                        )
                    values[field.name] = figure
                else:
                    values[field.name] = row.cells.get(name, "")
            yield kind(**values)

    @cached_property
    def sources(self) -> dict[str, Source]:
        """Read the sources by id."""
        head, lines = read_csv(self.folder / "sources.csv")
        wanted = ["id", "kind", "title", "where", "inputs", "note"]
        if head != wanted:
            raise TableError(f"sources.csv, line 1: the columns must be {', '.join(wanted)}")
        return {cells[0]: Source(*(cells + [""] * 6)[:6]) for _, cells in lines}

    @cached_property
    def quirks(self) -> tuple[Quirk, ...]:
        """Read the figures that break their own rule, as printed."""
        _, lines = read_csv(self.folder / "quirks.csv")
        return tuple(Quirk(*(cells + [""] * 7)[:7]) for _, cells in lines)

    @cached_property
    def edition(self) -> Edition:
        """Read the number and date of the edition."""
        path = self.folder / "edition.toml"
        try:
            data = tomllib.loads(read_text(path))
            return Edition(str(data["number"]), str(data["date"]))
        except (tomllib.TOMLDecodeError, KeyError) as fault:
            raise TableError(
                f"edition.toml: {fault}; it needs two lines, number = and date ="
            ) from None
