"""``keyseats trace``: where a figure comes from, and which pages print it."""

from __future__ import annotations

import argparse

from keyseats.faults import TypedError, near
from keyseats.load import Row, Tables
from keyseats.paths import tables_dir
from keyseats.sheets import find
from keyseats.standing import MEMORY, ONE, PRACTICE, TWO, standing_of

SAYS = {
    TWO: "read in two independent sources",
    ONE: "read in one source, or follows from what was",
    PRACTICE: "common practice, no source",
    MEMORY: "recalled, not read",
}


def found(tables: Tables, words: str) -> tuple[Row, str]:
    """Return the row and the column (or nothing) that TABLE/ROW[/COLUMN] names.

    Raises
    ------
    TypedError
        If there is no such table, row or column; it names the near ones.
    """
    table, _, rest = words.partition("/")
    table = table.strip().removesuffix(".csv")
    if table not in tables.schema:
        raise TypedError(f"no table '{table}'; {near(table, list(tables.schema))}")
    rows = {" ".join(row.id.split()): row for row in tables.rows(table)}
    wanted = " ".join(rest.split())
    if wanted in rows:
        return rows[wanted], ""
    name, _, column = wanted.rpartition("/")
    name, column = name.strip(), column.strip()
    if name not in rows:
        raise TypedError(f"no row '{wanted}' in {table}; {near(wanted, list(rows))}")
    columns = [c.name for c in tables.columns(table) if c.source_column]
    if column not in columns:
        raise TypedError(f"no figure '{column}' in {table}; {near(column, columns)}")
    return rows[name], column


def run(words: argparse.Namespace) -> int:
    """Answer ``keyseats trace``."""
    tables = Tables(tables_dir(words.tables))
    row, only = found(tables, words.figure)
    print(f"{row.table}.csv, line {row.line}: {row.id}")
    for column in tables.columns(row.table):
        text = row.cells[column.name]
        if not column.source_column or not text or only not in ("", column.name):
            continue
        source = row.cells[column.source_column]
        unit = "" if text.endswith((" in", " mm")) else f" {column.unit}"
        standing = SAYS.get(standing_of(source, row.id, tables), "a nominal size")
        print(f"  {column.name} = {text}{unit}   {column.meaning}")
        print(f"    {standing}")
        for name in source.split(" + "):
            known = tables.sources.get(name.strip())
            if known is not None and known.kind not in ("memory", "practice"):
                where = f", {known.where}" if known.where else ""
                print(f"    {name}: {known.title}{where}")
        for quirk in tables.quirks:
            if (quirk.table, quirk.row, quirk.column) == (row.table, row.id, column.name):
                print(f"    breaks its rule, which gives {quirk.rule_gives}: {quirk.reason}")
    prefix = f"{row.table}/{row.id}/" + only
    print("printed on")
    pages = []
    for sheet in find():
        for page in sheet.pages(tables, sheet.papers[0]):
            if any(name.startswith(prefix) for name in page.rows()):
                pages.append(f"  {sheet.name}: {page.title}")
    for line in pages or ["  no page of the printed set"]:
        print(line)
    return 0
