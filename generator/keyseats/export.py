"""Tables and computed grids for other programs: one figure a line, with all that is known of it."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from keyseats.check.grammar import read_rule
from keyseats.check.reading import comparable
from keyseats.lengths import decimal
from keyseats.load import Column, Row, Tables, number
from keyseats.spreadsheet.cells import FIGURES
from keyseats.standing import standing_of

HEADS = (
    "table",
    "row",
    "column",
    "as_printed",
    "decimal",
    "unit",
    "source",
    "standing",
    "rests_on",
    "meaning",
)
# Units of columns whose unit the schema leaves to the row, or cannot name.
ROW_UNIT = ("from_size", "to_size", "step", "thickness", "low", "high")
OTHER_UNIT = {"low_metric": "m/min", "high_metric": "m/min"}
COUNTS = ("pieces",)
UNROUNDED_PLACES = 10
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
_RUNS = ("=", "+", "-", "@", "'", "\t", "\r", "\n")


@dataclass(frozen=True)
class Exported:
    """One figure or word of a table, or one computed figure.

    ``value`` is exact; None for words. ``rests_on`` are the ids of the figures behind a computed
    one.
    """

    table: str
    row: str
    column: str
    as_printed: str
    value: Fraction | None
    unit: str
    source: str
    standing: str
    rests_on: tuple[str, ...]
    meaning: str

    @property
    def decimal(self) -> str:
        """Return the value as a decimal: exact if it ends, else to ten places."""
        return "" if self.value is None else in_full(self.value)


def in_full(value: Fraction) -> str:
    """Return an exact value as a decimal, whole if it ends within twenty places."""
    for places in range(20):
        if (value * 10**places).denominator == 1:
            return decimal(value, places)
    return decimal(value, UNROUNDED_PLACES)


def figures_of(tables: Tables, name: str) -> Iterator[Exported]:
    """Yield every figure and word of a table; a cell that is blank there has no line.

    Parameters
    ----------
    tables
        The tables.
    name
        Which of them.
    """
    columns = [c for c in tables.columns(name) if c.kind != "source"]
    for row in tables.rows(name):
        for column in columns:
            text = row.cells[column.name]
            if text:
                source, standing = provenance(tables, row, column)
                value = number(text) if column.kind in FIGURES else None
                yield Exported(
                    name,
                    row.id,
                    column.name,
                    text,
                    value,
                    _unit(row, column),
                    source,
                    standing,
                    (),
                    column.meaning,
                )


def _unit(row: Row, column: Column) -> str:
    if column.kind not in FIGURES or column.unit:
        return column.unit
    if column.name in ROW_UNIT:
        return row.cells.get("unit", "")
    return OTHER_UNIT.get(column.name, "")


def provenance(tables: Tables, row: Row, column: Column) -> tuple[str, str]:
    """Return where a figure comes from, and how well it is known.

    A column without sources of its own has those of the column that it must be the same as, or the
    rule that gives it; a name has neither.
    """
    if column.source_column:
        source = row.cells[column.source_column]
        return source, standing_of(source, row.id, tables) if source else ""
    for text in column.rules:
        rule = read_rule(text)
        if rule is not None and rule.kind == "is":
            return rule.formula, standing_of(rule.formula, row.id, tables)
        if rule is not None and rule.kind == "same as":
            other = {c.name: c for c in tables.columns(rule.table)}[rule.other]
            partner = _partner(tables, rule.table, rule.names, row)
            if partner is not None:
                return provenance(tables, partner, other)
    return "", ""


def _partner(tables: Tables, table: str, names: tuple[str, ...], row: Row) -> Row | None:
    index: dict[tuple[Fraction | str, ...], Row]
    index = tables.kept.setdefault(f"partners in {table} by {' + '.join(names)}", {})
    if not index:
        for found in tables.rows(table):
            index.setdefault(tuple(comparable(found.cells[n]) for n in names), found)
    return index.get(tuple(comparable(row.cells[n]) for n in names))


def inert(text: str) -> str:
    """Return a cell that no spreadsheet runs: a plain number as it is, words never a formula.

    Words that begin as a formula does get an apostrophe before them, which a spreadsheet shows as
    words; so do words that begin with an apostrophe, so that it can be taken off again.
    """
    return "'" + text if text.startswith(_RUNS) and not _NUMBER.fullmatch(text) else text


def as_csv(figures: Iterable[Exported]) -> str:
    """Return figures as CSV, one a line under `HEADS`."""
    from keyseats.frames import csv_text, frame

    rows = []
    for f in figures:
        cells = (
            f.table,
            f.row,
            f.column,
            f.as_printed,
            f.decimal,
            f.unit,
            f.source,
            f.standing,
            " + ".join(f.rests_on),
            f.meaning,
        )
        rows.append([inert(cell) for cell in cells])
    return csv_text(frame(HEADS, rows))


def as_json(figures: Iterable[Exported], tables: Tables) -> str:
    """Return figures as JSON, by table; ``docs/tables.schema.json`` describes it."""
    by_table: dict[str, list[dict[str, Any]]] = {}
    for f in figures:
        quantity = None
        if f.value is not None:
            quantity = {"value": float(f.value), "unit": f.unit, "text": f.decimal}
        by_table.setdefault(f.table, []).append(
            {
                "row": f.row,
                "column": f.column,
                "as_printed": f.as_printed,
                "figure": quantity,
                "source": f.source.split(" + ") if f.source else [],
                "standing": f.standing or None,
                "rests_on": list(f.rests_on),
                "meaning": f.meaning,
            }
        )
    out = {
        "edition": {"number": tables.edition.number, "date": tables.edition.date},
        "tables": [
            {"name": name, "computed": name not in tables.schema, "figures": found}
            for name, found in by_table.items()
        ],
    }
    return json.dumps(out, indent=1, ensure_ascii=False) + "\n"
