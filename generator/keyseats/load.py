"""Tables as rows of text, and rows as records. The one reader of the CSV files."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import cached_property
from pathlib import Path
from typing import Any, NamedTuple, TypeVar

from keyseats.csv_file import read_csv as read_csv
from keyseats.csv_file import read_text as read_text
from keyseats.faults import TableError
from keyseats.frozen import aside, frozen
from keyseats.lengths import read_fraction
from keyseats.records import Figure, Quirk, Source

Record = TypeVar("Record")
_UNIT_WORDS = (" in", " mm")
LONGEST_WORD = 40
_NAME = re.compile("[a-z][a-z0-9_]{0,59}")


class Column(NamedTuple):
    """What the schema says of one column."""

    name: str
    kind: str
    unit: str
    places: int | None
    blank: bool
    source_column: str
    rules: tuple[str, ...]
    meaning: str


class Row(NamedTuple):
    """One line of a table, still as text."""

    table: str
    line: int
    id: str
    cells: dict[str, str]


@frozen
class Edition:
    """The edition of the tables that pages print, and the tables that it is of."""

    number: str
    date: str
    tables: Tables | None = aside(default=None)


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
        # What others work out from these tables and keep as long as they live.
        self.kept: dict[str, Any] = {}

    def text(self, name: str) -> str:
        """Return a file of the folder as text."""
        return read_text(self.folder / name)

    def csv(self, table: str) -> tuple[list[str], list[tuple[int, list[str]]]]:
        """Return a table's head, and each filled line with its number."""
        return read_csv(self.folder / f"{table}.csv", self.text(f"{table}.csv"))

    @cached_property
    def schema(self) -> dict[str, tuple[Column, ...]]:
        """Read the columns of each table, in the order of the schema."""
        wanted = ["table", "column", "kind", "unit", "places", "blank", "from", "rule", "meaning"]
        head, lines = self.csv("schema")
        if head != wanted:
            raise TableError(f"schema.csv, line 1: the columns must be {', '.join(wanted)}")
        tables: dict[str, list[Column]] = {}
        for line, cells in lines:
            if len(cells) < len(wanted):
                raise TableError(f"schema.csv, line {line}: {len(wanted)} cells are wanted")
            table, name, kind, unit, places, blank, source, rule, meaning = cells[:9]
            if places and not (places.isascii() and places.isdecimal() and len(places) < 3):
                raise TableError(f"schema.csv, line {line}, places: '{places}' is not a count")
            if not (_NAME.fullmatch(table) and _NAME.fullmatch(name)):
                raise TableError(
                    f"schema.csv, line {line}: '{table}.{name}' does not name a table and a "
                    "column; use small letters, digits and _"
                )
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
        head, lines = self.csv(table)
        missing = [c.name for c in columns if c.name not in head]
        if missing:
            raise TableError(
                f"{table}.csv, line 1: no column {', '.join(missing)}; the head row must be the "
                "schema's (is the file separated by commas?)"
            )
        placed = [(c.name, c.places) for c in columns if c.places]
        whole: list[tuple[int, dict[str, str]]] = []
        short = False
        for line, cells in lines:
            if len(cells) < len(head) or any(cells[len(head) :]):
                from keyseats.spreadsheet.cells import miscounted

                says, remedy = miscounted(cells, len(head))
                raise TableError(f"{table}.csv, line {line}: {says}; {remedy}")
            row = dict(zip(head, cells, strict=False))
            for name, places in placed:
                text = row[name]
                if text and text[-1 - places : -places] != "." and " " not in text:
                    short = True
            whole.append((line, row))
        if short:
            from keyseats.spreadsheet.cells import mend

            mend(f"{table}.csv", columns, whole)
        named = self.identity(table)
        self._rows[table] = tuple(
            Row(table, line, " / ".join(row[c] for c in named) if named else f"line {line}", row)
            for line, row in whole
        )
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
            if text[-1].isalpha() and not text.endswith(column.unit or "?"):
                raise ValueError(f"{text} stands in a column of {column.unit or 'plain numbers'}")
            if len(text) == 5 and column.unit and text.isdecimal():
                raise ValueError(f"{text} is beyond anything that is turned")
        except ValueError as fault:
            from keyseats.spreadsheet.cells import unread

            says, remedy = unread(text, column.unit, str(fault))
            raise TableError(
                f"{row.table}.csv, line {row.line}, {column.name}: {says}; {remedy}"
            ) from None
        source = row.cells[column.source_column] if column.source_column else ""
        return Figure(value, column.unit, text, source, row.table, row.id, column.name)

    def records(self, kind: type[Record], table: str) -> tuple[Record, ...]:
        """Return a table's rows as records of one kind.

        Parameters
        ----------
        kind
            A class of ``keyseats.records`` whose fields are columns of the table.
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
        fields: list[tuple[str, str, bool, bool]] = []
        for field, told in kind.__annotations__.items():
            name = "from" if field == "source" and "from" in columns else field
            fields.append((field, name, told.startswith("Figure"), "None" in told))
        for row in self.rows(table):
            values: dict[str, Any] = {}
            for field, name, is_figure, maybe in fields:
                if not is_figure:
                    values[field] = row.cells.get(name, "")
                    continue
                figure = self.figure(row, columns[name])
                if figure is None and not maybe:
                    raise TableError(
                        f"{table}.csv, line {row.line}, {name}: is blank and must not be"
                    )
                values[field] = figure
            yield kind(**values)

    @cached_property
    def sources(self) -> dict[str, Source]:
        """Read the sources by id."""
        head, lines = self.csv("sources")
        wanted = ["id", "kind", "title", "where", "inputs", "note"]
        if head != wanted:
            raise TableError(f"sources.csv, line 1: the columns must be {', '.join(wanted)}")
        return {cells[0]: Source(*(cells + [""] * 6)[:6]) for _, cells in lines}

    @cached_property
    def quirks(self) -> tuple[Quirk, ...]:
        """Read the figures that break their own rule, as printed."""
        _, lines = self.csv("quirks")
        return tuple(Quirk(*(cells + [""] * 7)[:7]) for _, cells in lines)

    @cached_property
    def edition(self) -> Edition:
        """Read the number and date of the edition."""
        import tomllib

        try:
            data = tomllib.loads(self.text("edition.toml"))
            number, date = str(data["number"]), str(data["date"])
            if not all(len(w) <= LONGEST_WORD and w.isprintable() for w in (number, date)):
                raise ValueError(f"number and date are words of up to {LONGEST_WORD} characters")
            return Edition(number, date, self)
        except (ValueError, KeyError, RecursionError) as fault:
            raise TableError(
                f"edition.toml: {fault}; it needs two lines, number = and date ="
            ) from None
