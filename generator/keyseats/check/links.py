"""Rows against rows: names that stand once, and names that other tables must know."""

from __future__ import annotations

from fractions import Fraction

from keyseats.check.grammar import Rule
from keyseats.check.reading import Reading, Table, comparable, same
from keyseats.load import Row


def check_links(reading: Reading, table: Table) -> None:
    """Check every rule of a table that compares rows or looks into another table."""
    for ruled in table.ruled:
        for rule in ruled.rules:
            if not table.has(*rule.here()):
                continue
            if rule.kind == "unique":
                _unique(reading, table, ruled.column.name, rule)
            elif rule.kind in ("known in", "all known in"):
                _known(reading, table, ruled.column.name, rule)
            elif rule.kind == "same as":
                _same(reading, table, ruled.column.name, rule)


def _unique(reading: Reading, table: Table, column: str, rule: Rule) -> None:
    seen: dict[tuple[Fraction | str, ...], int] = {}
    for row in table.rows:
        key = tuple(comparable(row.cells[c]) for c in (column, *rule.names))
        if key in seen:
            name = " / ".join(row.cells[c] for c in (column, *rule.names))
            reading.cell_fault(
                row,
                column,
                rule.text,
                f"'{name}' stands on line {seen[key]} already",
                "keep one of the two rows, or correct what tells them apart",
            )
        seen.setdefault(key, row.line)


def _target(reading: Reading, rule: Rule, *columns: str) -> Table | None:
    """Return the other table, unless a fault of its own would make every name unknown."""
    other = reading.tables.get(rule.table)
    return other if other and not other.broken and other.has(rule.other, *columns) else None


def _known(reading: Reading, table: Table, column: str, rule: Rule) -> None:
    other = _target(reading, rule)
    if other is None:
        return
    texts = list(dict.fromkeys(row.cells[rule.other] for row in other.rows))
    known = {comparable(t) for t in texts}
    for row in table.rows:
        text = row.cells[column]
        for word in text.split() if rule.kind == "all known in" else [text] if text else []:
            if comparable(word) not in known:
                reading.cell_fault(
                    row,
                    column,
                    rule.text,
                    f"{rule.table} has no {rule.other} '{word}'",
                    reading.near(word, texts),
                )


def _same(reading: Reading, table: Table, column: str, rule: Rule) -> None:
    other = _target(reading, rule, *rule.names)
    if other is None:
        return
    partners: dict[tuple[Fraction | str, ...], Row] = {}
    for found in other.rows:
        partners.setdefault(tuple(comparable(found.cells[n]) for n in rule.names), found)
    known = {n: {comparable(r.cells[n]) for r in other.rows} for n in rule.names}
    for row in table.rows:
        text = row.cells[column]
        keys = tuple(comparable(row.cells[n]) for n in rule.names)
        partner = partners.get(keys)
        each_known = all(key in known[n] for key, n in zip(keys, rule.names, strict=True))
        if partner is None and each_known and not reading.at_fault(row):
            reading.cell_fault(
                row,
                column,
                rule.text,
                f"{rule.table} has no row {' / '.join(row.cells[n] for n in rule.names)}",
                f"give {rule.table} that row, or correct {' and '.join(rule.names)} here",
            )
        elif partner and _unread_there(partner.cells[rule.other], text):
            continue
        elif partner and text and not same(partner.cells[rule.other], text):
            reading.cell_fault(
                row,
                column,
                rule.text,
                f"{text} here, but {partner.cells[rule.other]} in {rule.table} on line "
                f"{partner.line}",
                "correct the one that differs from its source",
            )


def _unread_there(there: str, here: str) -> bool:
    """Return whether only the other cell cannot be read, which is a fault of that cell."""
    return isinstance(comparable(here), Fraction) and isinstance(comparable(there), str)
