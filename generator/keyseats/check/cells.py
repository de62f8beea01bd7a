"""Each cell by itself: figures, blanks, words, sources, and what a spreadsheet does to them."""

from __future__ import annotations

import re

from keyseats.check.faults import Remark
from keyseats.check.reading import Reading, Ruled, Table, value
from keyseats.check.sources import BARE, parts
from keyseats.faults import near
from keyseats.lengths import places_of
from keyseats.load import Column, Row, number

_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_MONTH = "|".join(_MONTHS)
_DAY_MONTH = re.compile(rf"(\d{{1,2}})[-. ]({_MONTH})[a-z]*\.?(?:[-. ]\d{{2,4}})?", re.IGNORECASE)
_MONTH_YEAR = re.compile(rf"({_MONTH})[a-z]*[-. ]0?(\d{{1,4}})", re.IGNORECASE)
_NUMBERS = re.compile(r"\d{4}-\d{1,2}-\d{1,2}.*|\d{1,2}([/.-])\d{1,2}\1\d{2,4}.*")
_DAY_COUNT = re.compile(r"[34]\d{4}")
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
    if column.name != "note" and dated(text, column):
        reading.cell_fault(row, column.name, "date", *dated(text, column))
    elif column.kind in ("length", "number"):
        _figure(reading, row, column, text)
    for rule in ruled.rules:
        if rule.kind == "one of" and text not in rule.words:
            reading.cell_fault(
                row,
                column.name,
                rule.text,
                f"'{text}' is not one of the words allowed",
                near(text, list(rule.words)),
            )
    if column.source_column and row.cells.get(column.source_column) == "":
        reading.cell_fault(
            row,
            column.name,
            "source",
            f"{text} has no source",
            f"say in {column.source_column} where it was read, or memory if it was not",
        )


def dated(text: str, column: Column) -> tuple[str, ...]:
    """Return what a spreadsheet did to a cell and what would mend it; empty if it is no date."""
    fraction = ""
    if match := _DAY_MONTH.fullmatch(text):
        fraction = f"{_MONTHS.index(match.group(2).lower()) + 1}/{int(match.group(1))}"
    elif match := _MONTH_YEAR.fullmatch(text):
        fraction = f"{_MONTHS.index(match.group(1).lower()) + 1}/{int(match.group(2))}"
    elif not _NUMBERS.fullmatch(text):
        if not (column.kind == "length" and _DAY_COUNT.fullmatch(text)):
            return ()
        return (
            f"{text} is a spreadsheet's count of days: a fraction was taken for a date",
            "type the figure as printed, a fraction with its unit, as 1/16 in",
        )
    example = f"{fraction} in" if fraction else "1/16 in"
    was = f"the fraction {fraction}, perhaps," if fraction else "a fraction"
    return (
        f"'{text}' is a date: the spreadsheet took {was} for one",
        f"type the figure as printed, a fraction with its unit, as {example}",
    )


def _figure(reading: Reading, row: Row, column: Column, text: str) -> None:
    try:
        number(text)
    except ValueError as wrong:
        reading.cell_fault(row, column.name, "number", *_unread(text, column, str(wrong)))
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
    if column.places is None or unit:
        return
    has = places_of(text)
    if has > column.places:
        reading.cell_fault(
            row,
            column.name,
            "places",
            f"{text} has {has} decimals where the column prints {column.places}",
            "type it as printed; if a source prints more, change places in the schema",
        )
    elif has < column.places:
        full = text + ("" if "." in text else ".") + "0" * (column.places - has)
        reading.remarks.append(
            Remark(
                f"{row.table}.csv",
                row.line,
                column.name,
                f"{text} has lost trailing zeros; as printed it is {full}",
            )
        )


def _unread(text: str, column: Column, wrong: str) -> tuple[str, str]:
    """Return what is wrong with a cell that is no number, and what would mend it."""
    if re.fullmatch(r"[-\d./ ]+/\d+\s*(?:in|mm|\")?", text):
        unit = column.unit or "in"
        bare = re.sub(r"\s*(?:in|mm|\")$", "", text)
        if bare != text:
            return f"'{text}' has no space before its unit", f"type {bare} {unit}"
        return (
            f"the fraction {text} has lost its unit, and a spreadsheet will take it for a date",
            f"type {text} {unit}",
        )
    if re.fullmatch(r"[-+]?[\d.]+[eE][-+]?\d+", text):
        return (
            f"'{text}' is a power of ten: the spreadsheet did not keep the figure as printed",
            "type the figure as printed, in a column formatted as text",
        )
    if "," in text:
        return f"'{text}' holds a comma", "use a point for the decimal mark and nothing else"
    return wrong, "type the figure as printed"


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
                f"correct it, or give it a row there; {near(name, list(reading.sources))}",
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
