"""``keyseats trace``: where a figure comes from, and which pages print it."""

from __future__ import annotations

import argparse
import re
from collections.abc import Iterator

from keyseats.faults import TypedError, near
from keyseats.load import Column, Row, Tables
from keyseats.paths import tables_dir
from keyseats.sheets import find
from keyseats.standing import MEMORY, ONE, PRACTICE, TWO, standing_of

_STANDING = {
    TWO: "read in two independent sources or more",
    ONE: "read in one source",
    PRACTICE: "common practice, no source",
    MEMORY: "recalled, not read; prints with a dagger",
}
_OWN_WORDS = (PRACTICE, MEMORY)


def run(words: argparse.Namespace) -> int:
    """Answer ``keyseats trace``."""
    tables = Tables(tables_dir(words.tables))
    row, columns = locate(tables, words.figure)
    pages = printed_on(tables, {f"{row.table}/{row.id}/{c.name}" for c in columns})
    print(f"{row.table}/{row.id}  ({row.table}.csv, line {row.line})")
    for column in columns:
        print()
        for line in figure_lines(tables, row, column, pages):
            print(line)
    note = row.cells.get("note")
    if note:
        print()
        print(f"note: {note}")
    return 0


def _plain(text: str) -> str:
    """Return an address in the form that addresses are compared in."""
    return re.sub(r"\s*/\s*", "/", text.strip()).casefold()


def locate(tables: Tables, figure: str) -> tuple[Row, tuple[Column, ...]]:
    """Find the row, and the figures in it, that an address names.

    Parameters
    ----------
    tables
        The tables.
    figure
        ``TABLE/ROW`` or ``TABLE/ROW/COLUMN``; a row's name may hold slashes itself.

    Raises
    ------
    TypedError
        If the table, the row or the column is not known.
    """
    table, _, rest = (part.strip() for part in figure.partition("/"))
    if table not in tables.schema:
        raise TypedError(f"no table '{table}'; {near(table, list(tables.schema))}")
    rows = tables.rows(table)
    ids = [row.id for row in rows]
    if not rest:
        raise TypedError(
            f"{figure}: name a row too, as TABLE/ROW or TABLE/ROW/COLUMN; {near('', ids)}"
        )
    wanted = _plain(rest)
    columns = tables.columns(table)
    figures = tuple(c for c in columns if c.kind != "source" and c.name != "note")
    shown = tuple(c for c in figures if c.source_column or c.kind in ("length", "number"))
    begun = None
    for row in sorted(rows, key=lambda r: -len(r.id)):
        name = _plain(row.id)
        if wanted == name:
            return row, shown
        if wanted.startswith(name + "/"):
            asked = wanted[len(name) + 1 :]
            named = tuple(c for c in figures if c.name == asked)
            if named:
                return row, named
            begun = begun or (row, asked)
    if begun is not None:
        row, asked = begun
        raise TypedError(
            f"{table}/{row.id} has no figure '{asked}'; {near(asked, [c.name for c in figures])}"
        )
    raise TypedError(f"{table} has no row '{rest}'; {near(rest, ids)}")


def printed_on(tables: Tables, wanted: set[str]) -> dict[str, list[str]]:
    """Return for each figure the pages that print it or a figure computed from it.

    Every sheet is laid out for its usual paper.
    """
    found: dict[str, list[str]] = {figure: [] for figure in wanted}
    for sheet in find():
        paper = sheet.papers[0]
        pages: dict[str, list[str]] = {}
        for number, page in enumerate(sheet.pages(tables, paper), start=1):
            for figure in wanted.intersection(page.rows()):
                pages.setdefault(figure, []).append(f"{number} ({page.title})")
        for figure, places in pages.items():
            word = "page" if len(places) == 1 else "pages"
            found[figure].append(f"{sheet.name} on {paper}, {word} {', '.join(places)}")
    return found


def figure_lines(
    tables: Tables, row: Row, column: Column, pages: dict[str, list[str]]
) -> Iterator[str]:
    """Yield what is known of one figure."""
    text = row.cells[column.name]
    unit = f" {column.unit}" if column.unit and not text.endswith(f" {column.unit}") else ""
    meaning = f"  ({column.meaning})" if column.meaning else ""
    if not text:
        yield f"{column.name}: blank, not known{meaning}"
        return
    yield f"{column.name}: {text}{unit}{meaning}"
    source = row.cells[column.source_column] if column.source_column else ""
    if source:
        yield f"  standing: {standing_words(tables, row, source)}"
        for part in source.split(" + "):
            yield from _source_lines(tables, row, part.strip(), "  source: ")
    else:
        yield from _sourceless(column)
    for rule in column.rules:
        name = rule.removeprefix("is ")
        if name != rule and name not in source:
            yield from _source_lines(tables, row, name, "  held against: ")
    for quirk in tables.quirks:
        if (quirk.table, quirk.row, quirk.column) == (row.table, row.id, column.name):
            yield (
                f"  breaks its rule, which gives {quirk.rule_gives}; {quirk.state}: {quirk.reason}"
            )
    places = pages[f"{row.table}/{row.id}/{column.name}"]
    yield from (f"  printed: {place}" for place in places)
    if not places:
        yield "  printed: on no page of the set"


def _sourceless(column: Column) -> Iterator[str]:
    for rule in column.rules:
        if rule.startswith(("same as ", "known in ", "is ")):
            yield f"  source: none of its own; it must be {rule.removeprefix('is ')}"
            return
    yield "  source: none of its own; it names the row"


def standing_words(tables: Tables, row: Row, source: str) -> str:
    """Return in words how well a figure is known."""
    words = _STANDING[standing_of(source, row.id, tables)]
    known = tables.sources.get(source)
    if known is None or known.kind != "rule":
        return words
    if not known.inputs:
        return "derived by a rule that starts from no tabled figure"
    return f"derived; the weakest of what it starts from: {words}"


def _source_lines(tables: Tables, row: Row, name: str, head: str) -> Iterator[str]:
    known = tables.sources.get(name)
    if known is None:
        yield f"{head}{name}" + ("" if name in _OWN_WORDS else ", which sources.csv lacks")
        return
    where = f"; {known.where}" if known.where else ""
    note = f" ({known.note})" if known.note else ""
    yield f"{head}{name}: {known.title}{where}{note}"
    for part in (p.strip() for p in known.inputs.split(" + ") if p.strip()):
        yield f"    starts from {_input(tables, row, part)}"


def _input(tables: Tables, row: Row, part: str) -> str:
    """Return a rule's input with its figure, if a row of the same name has one."""
    table, dot, column = part.partition(".")
    if not dot:
        known = tables.sources.get(part)
        return f"{part}: {known.title}" if known else part
    for found in tables.rows(table) if table in tables.schema else ():
        if found.id == row.id and found.cells.get(column):
            return f"{table}/{found.id}/{column}: {found.cells[column]}"
    return part
