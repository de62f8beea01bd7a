"""Every figure of a set of tables by its id, ``table/row/column``: text, unit, source, standing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from keyseats.load import Column, Row, Tables
from keyseats.standing import MEMORY, standing_of

RECALLED = "†"
# Kinds of column that hold a size.
_SIZES = ("length", "number")
_KEPT = "figures"


@dataclass(frozen=True)
class Cell:
    """One figure, or word, of a table as it stands there.

    ``counted`` is what a page code counts: the text, without zeros that say nothing.
    """

    id: str
    text: str
    unit: str
    source: str
    recalled: bool
    counted: str

    @property
    def shown(self) -> str:
        """Return the text with its unit, and the dagger if the figure is recalled."""
        unit = f" {self.unit}" if self.unit and not self.text.endswith(self.unit) else ""
        return (f"{self.text}{unit}" if self.text else "blank") + self.mark

    @property
    def mark(self) -> str:
        """Return the dagger of a recalled figure."""
        return RECALLED if self.recalled and self.text else ""


class Figures:
    """The figures of one set of tables, each table read when it is first asked for."""

    def __init__(self, tables: Tables) -> None:
        self._tables = tables
        self._standing = _Standing(tables)
        self._by_table: dict[str, dict[str, Row]] = {}
        self._cells: dict[str, Cell | None] = {}

    def get(self, name: str) -> Cell | None:
        """Return one figure by its id, or None if there is none."""
        if name not in self._cells:
            self._cells[name] = self._find(name)
        return self._cells[name]

    def _find(self, name: str) -> Cell | None:
        table, _, rest = name.partition("/")
        row_id, _, column_name = rest.rpartition("/")
        if table not in self._tables.schema:
            return None
        if table not in self._by_table:
            self._by_table[table] = {row.id: row for row in self._tables.rows(table)}
        row = self._by_table[table].get(row_id)
        for column in self._tables.columns(table):
            if row is not None and column.name == column_name:
                return self._cell(row, column)
        return None

    def _cell(self, row: Row, column: Column) -> Cell:
        text = row.cells.get(column.name, "")
        source = row.cells.get(column.source_column, "") if column.source_column else ""
        recalled = bool(source) and self._standing.recalled(source, row.id)
        unit = column.unit if text else ""
        free = column.kind in _SIZES and column.places is None
        counted = _without_zeros(text) if free else text
        name = f"{row.table}/{row.id}/{column.name}"
        return Cell(name, text, unit, source, recalled, counted)

    def all(self) -> Iterator[Cell]:
        """Yield every figure and word, table by table; sources and notes are not figures."""
        for table in self._tables.schema:
            for row in self._tables.rows(table):
                for column in self._tables.columns(table):
                    if column.kind != "source" and column.name != "note":
                        yield self._cell(row, column)

    def printed(self, names: tuple[str, ...]) -> list[tuple[str, str]]:
        """Return id and text, with its dagger, of figures that a page rests on."""
        found = []
        for name in names:
            cell = self.get(name)
            found.append((name, "" if cell is None else cell.counted + cell.mark))
        return found


def _without_zeros(text: str) -> str:
    """Return a decimal without the zeros at its end, which a spreadsheet drops.

    Where the schema does not say how many places a figure is printed with, they are no part of it.
    """
    whole, point, places = text.partition(".")
    return f"{whole}.{places.rstrip('0')}".rstrip(".") if point and places.isdigit() else text


class _Standing:
    """Whether a source cell means that a figure is recalled, each answered once."""

    def __init__(self, tables: Tables) -> None:
        self._tables = tables
        self._known: dict[tuple[str, str], bool] = {}

    def recalled(self, source: str, row: str) -> bool:
        if (source, row) not in self._known:
            self._known[source, row] = standing_of(source, row, self._tables) == MEMORY
        return self._known[source, row]


def figures_of(tables: Tables) -> Figures:
    """Return the figures of some tables, read once for as long as the tables live."""
    if _KEPT not in tables.kept:
        tables.kept[_KEPT] = Figures(tables)
    found: Figures = tables.kept[_KEPT]
    return found
