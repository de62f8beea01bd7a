"""Each cell by itself: figures, blanks, words, sources, and what a spreadsheet does to them."""

from __future__ import annotations

import re

from keyseats.check.reading import Reading, Ruled, Table, value
from keyseats.check.sources import BARE, parts
from keyseats.lengths import places_of
from keyseats.load import Column, Row, number
from keyseats.spreadsheet.cells import FIGURES, dated, noise, spoilt, unread

_UNIT = re.compile(r".* (in|mm)")


def check_cells(reading: Reading, table: Table) -> None:
    """Check every cell of a table by itself."""
    for row in table.rows:
        for ruled in table.ruled:
            text = row.cells[ruled.column.name]
            if not text:
                _blank(reading, row, ruled.column)
            elif ruled.column.kind == "source":
                _source(reading, row, ruled.column, text)
            else:
                _filled(reading, row, ruled, text)
            if not text.isascii() and ruled.column.name != "note":
                reading.unset(table.file, row.line, ruled.column.name, text)


def _blank(reading: Reading, row: Row, column: Column) -> None:
    if not column.blank:
        reading.cell_fault(
            row,
            column.name,
            "blank",
            "is blank and must not be",
            "fill it, or let the schema say that it may be blank",
        )


def _filled(reading: Reading, row: Row, ruled: Ruled, text: str) -> None:
    column = ruled.column
    if column.kind in FIGURES:
        _figure(reading, row, column, text)
    elif told := spoilt(text):
        reading.cell_fault(row, column.name, "spreadsheet", *told)
    elif column.name != "note" and (told := dated(text, length=False)):
        reading.cell_fault(row, column.name, "date", *told)
    for rule in ruled.rules:
        if rule.kind == "one of" and text not in rule.words:
            reading.cell_fault(
                row,
                column.name,
                rule.text,
                f"'{text}' is not one of the words allowed",
                reading.near(text, list(rule.words)),
            )
    if column.source_column and row.cells.get(column.source_column) == "":
        reading.cell_fault(
            row,
            column.name,
            "source",
            f"{text} has no source",
            f"say in {column.source_column} where it was read, or memory if it was not",
        )


def _figure(reading: Reading, row: Row, column: Column, text: str) -> None:
    try:
        number(text)
    except ValueError as wrong:
        date = dated(text, length=False)
        told = date or unread(text, column.unit, str(wrong))
        reading.cell_fault(row, column.name, "date" if date else "number", *told)
        return
    if len(text) == 5 and column.kind == "length" and (date := dated(text, length=True)):
        reading.cell_fault(row, column.name, "date", *date)
        return
    unit = _UNIT.fullmatch(text)
    if unit and unit.group(1) != column.unit:
        reading.cell_fault(
            row,
            column.name,
            "unit",
            f"{text} stands in a column of {column.unit or 'plain numbers'}",
            f"give it in {column.unit}" if column.unit else "type the number alone",
        )
        return
    if unit:
        return
    if noise(text):
        reading.cell_fault(
            row,
            column.name,
            "number",
            f"{text} is a binary number written out: the spreadsheet did not keep the figure",
            "type the figure as printed, in a column formatted as text",
        )
    elif column.places is not None and places_of(text) > column.places:
        reading.cell_fault(
            row,
            column.name,
            "places",
            f"{text} has {places_of(text)} decimals where the column prints {column.places}",
            "type it as printed; if a source prints more, change places in the schema",
        )


def _source(reading: Reading, row: Row, column: Column, text: str) -> None:
    names = parts(text)
    for n, name in enumerate(names):
        if name in names[:n]:
            reading.cell_fault(
                row,
                column.name,
                "source",
                f"'{name}' stands twice, and is one source",
                "name it once, or name a second one that is independent of it",
            )
        elif reading.sources is not None and name not in reading.sources and name not in BARE:
            reading.cell_fault(
                row,
                column.name,
                "source",
                f"sources.csv has no source '{name}'",
                f"correct it, or give it a row there; {reading.near(name, list(reading.sources))}",
            )
    if len(names) > 1 and set(names) & set(BARE):
        reading.cell_fault(
            row,
            column.name,
            "source",
            f"'{text}' joins a source with {' and '.join(sorted(set(names) & set(BARE)))}",
            "name what was read alone; only independent sources are joined",
        )


def check_pairs(reading: Reading, table: Table) -> None:
    """Check the limits of each row that must be in order."""
    for ruled in table.ruled:
        for rule in ruled.rules:
            if rule.kind != "not over" or not table.has(rule.other):
                continue
            for row in table.rows:
                low, high = value(row, ruled.column.name), value(row, rule.other)
                if low is not None and high is not None and low > high:
                    reading.cell_fault(
                        row,
                        ruled.column.name,
                        rule.text,
                        f"{row.cells[ruled.column.name]} is over {rule.other}, "
                        f"{row.cells[rule.other]}",
                        "compare both with their source",
                    )
