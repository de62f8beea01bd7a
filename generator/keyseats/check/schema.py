"""The schema itself: its columns, its rules, and the files that it stands for."""

from __future__ import annotations

import re

from keyseats.check.formulas import FORMULAS
from keyseats.check.grammar import KINDS, Rule, read_rule
from keyseats.check.reading import OWN, Reading, Ruled
from keyseats.load import Column

FILE = "schema.csv"
HEAD = ["table", "column", "kind", "unit", "places", "blank", "from", "rule", "meaning"]
COLUMN_KINDS = ("length", "number", "text", "word", "source")
_NAME = re.compile("[a-z][a-z0-9_]{0,59}")
UNITS = ("", "in", "mm", "um")


def read_schema(reading: Reading) -> None:
    """Read the schema into a reading, each faulty line noted and kept as far as it goes."""
    lines = reading.whole_lines("schema", HEAD)
    if lines is None:
        return
    tables: dict[str, list[Ruled]] = {}
    for line, cells in lines:
        if not (_NAME.fullmatch(cells[0]) and _NAME.fullmatch(cells[1])):
            reading.fault(
                FILE,
                line,
                "column",
                "name",
                f"'{cells[0]}.{cells[1]}' does not name a table and a column",
                "use small letters, digits and _",
            )
            continue
        ruled = _line(reading, line, cells)
        columns = tables.setdefault(cells[0], [])
        if any(r.column.name == cells[1] for r in columns):
            reading.fault(
                FILE,
                line,
                "column",
                "unique",
                f"{cells[0]}.{cells[1]} stands twice",
                "keep one of the two rows",
            )
            continue
        columns.append(ruled)
    reading.schema = {table: tuple(columns) for table, columns in tables.items()}
    for columns in tables.values():
        _sources(reading, columns)
    for table, columns in tables.items():
        for each in columns:
            for rule in each.rules:
                _names(reading, table, each, rule)


def _line(reading: Reading, line: int, cells: list[str]) -> Ruled:
    _, name, kind, unit, places, blank, source, rule_text, meaning = cells
    for cell, given, allowed in (
        ("kind", kind, COLUMN_KINDS),
        ("unit", unit, UNITS),
        ("blank", blank, ("", "yes")),
    ):
        if given not in allowed:
            words = ", ".join(k or "empty" for k in allowed)
            reading.fault(FILE, line, cell, "one of", f"'{given}' is not known", f"use {words}")
    if places and not (places.isascii() and places.isdecimal() and len(places) < 3):
        reading.fault(
            FILE, line, "places", "number", f"'{places}' is not a count", "type a whole number"
        )
        places = ""
    texts = tuple(r.strip() for r in rule_text.split(";") if r.strip())
    rules = []
    for text in texts:
        rule = read_rule(text)
        if rule is None:
            reading.fault(
                FILE,
                line,
                "rule",
                "rule",
                f"the rule '{text}' is not known",
                "use one of: " + ", ".join(KINDS),
            )
        elif rule.kind == "is" and rule.formula not in FORMULAS:
            reading.fault(
                FILE,
                line,
                "rule",
                "rule",
                f"no formula '{rule.formula}' is programmed",
                reading.near(rule.formula, list(FORMULAS)),
            )
        else:
            rules.append(rule)
    count = int(places) if places else None
    read = Column(name, kind, unit, count, blank == "yes", source, texts, meaning)
    return Ruled(line, read, tuple(rules))


def _sources(reading: Reading, columns: list[Ruled]) -> None:
    kinds = {r.column.name: r.column.kind for r in columns}
    exempt = {"unique", "known in", "same as", "is"}
    for each in columns:
        column = each.column
        if column.source_column and kinds.get(column.source_column) != "source":
            reading.fault(
                FILE,
                each.line,
                "from",
                "source",
                f"'{column.source_column}' is not a source column of this table",
                reading.near(column.source_column, [k for k, v in kinds.items() if v == "source"]),
            )
        if column.kind not in ("length", "number") or column.source_column:
            continue
        ends = {
            r.other
            for other in columns
            for r in other.rules
            if r.kind in ("range to", "range from")
        }
        if not exempt & {r.kind for r in each.rules} and column.name not in ends:
            reading.fault(
                FILE,
                each.line,
                "from",
                "source",
                f"the figures in {column.name} have no source column",
                "name the column that says where they were read",
            )


def _names(reading: Reading, table: str, each: Ruled, rule: Rule) -> None:
    wanted = [(table, name) for name in rule.here()]
    if rule.table:
        wanted.append((rule.table, rule.other))
        if rule.kind == "same as":
            wanted += [(rule.table, name) for name in rule.names]
    for where, name in wanted:
        known = [r.column.name for r in reading.schema.get(where, ())]
        if name not in known:
            reading.fault(
                FILE,
                each.line,
                "rule",
                "rule",
                f"'{rule.text}' names {where}.{name}, which the schema does not have",
                reading.near(name, known) if known else reading.near(where, list(reading.schema)),
            )


def check_files(reading: Reading) -> None:
    """Find CSV files that the schema does not speak of."""
    if not reading.schema:
        return
    for path in sorted(reading.folder.glob("*.csv")):
        if path.stem not in reading.schema and path.stem not in OWN and path.name[0] != ".":
            reading.fault(
                path.name,
                1,
                "",
                "schema",
                "schema.csv says nothing of this table",
                "give each of its columns a row there, or take the file away",
            )
