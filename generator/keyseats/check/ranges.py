"""Ranges: each from its start over to its end, and one after the other without gap or overlap."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from keyseats.check.grammar import Rule
from keyseats.check.reading import Reading, Table, value
from keyseats.load import Row

_FIRST, _LAST = Fraction(-(10**9)), Fraction(10**9)


def check_ranges(reading: Reading, table: Table) -> None:
    """Check every range of a table."""
    for ruled in table.ruled:
        for rule in ruled.rules:
            if not table.has(*rule.here()):
                continue
            if rule.kind == "range from":
                _in_order(reading, table, ruled.column.name, rule)
            elif rule.kind == "range to":
                _joined(reading, table, ruled.column.name, rule)


def _in_order(reading: Reading, table: Table, column: str, rule: Rule) -> None:
    for row in table.rows:
        first, last = value(row, column), value(row, rule.other)
        if first is not None and last is not None and first > last:
            _backward(reading, row, column, rule)


def _backward(reading: Reading, row: Row, column: str, rule: Rule) -> None:
    reading.cell_fault(
        row,
        column,
        rule.text,
        f"the range {row.cells[column]} to {row.cells[rule.other]} ends before it begins",
        "compare both ends with their source",
    )


def _joined(reading: Reading, table: Table, column: str, rule: Rule) -> None:
    groups: dict[tuple[str, ...], list[tuple[Fraction, Fraction, Row]]] = {}
    unread: list[int] = list(table.broken)
    for row in table.rows:
        if rule.where and row.cells[rule.where] != rule.value:
            continue
        over, to = row.cells[column], row.cells[rule.other]
        if not over and not to:
            continue
        start = value(row, column) if over else _FIRST
        end = value(row, rule.other) if to else _LAST
        if start is None or end is None:
            unread.append(row.line)
        elif start >= end:
            _backward(reading, row, column, rule)
            unread.append(row.line)
        else:
            group = tuple(row.cells[n] for n in rule.names)
            groups.setdefault(group, []).append((start, end, row))
    for members in groups.values():
        _neighbours(reading, members, unread, column, rule)


def _neighbours(
    reading: Reading,
    members: list[tuple[Fraction, Fraction, Row]],
    unread: list[int],
    column: str,
    rule: Rule,
) -> None:
    for (before, _, upper), (start, _, row) in pairwise(members):
        if start < before:
            reading.cell_fault(
                row,
                column,
                rule.text,
                f"the range over {row.cells[column]} stands after the one over "
                f"{upper.cells[column]}",
                "put the rows in the order of their ranges",
            )
    members = sorted(members, key=lambda m: m[:2])
    for (_, end, upper), (start, _, row) in pairwise(members):
        low, high = sorted((upper.line, row.line))
        if start == end or any(low < line < high for line in unread):
            continue
        reading.cell_fault(
            row,
            column,
            rule.text,
            f"{'a gap' if start > end else 'an overlap'}: over {row.cells[column] or 'nothing'} "
            f"here, to {upper.cells[rule.other] or 'no end'} on line {upper.line}",
            "let each range begin where the one before it ends",
        )
