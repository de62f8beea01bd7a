"""The list of sources, and what the rules among them start from."""

from __future__ import annotations

from keyseats.check.reading import Reading

FILE = "sources.csv"
HEAD = ["id", "kind", "title", "where", "inputs", "note"]
KINDS = ("reproduction", "rule", "practice", "memory")
BARE = ("practice", "memory")


def parts(text: str) -> list[str]:
    """Return the ids that a source cell or a rule's inputs join by `` + ``."""
    return [part.strip() for part in text.split(" + ")] if text else []


def read_sources(reading: Reading) -> None:
    """Read the sources into a reading, with every fault among them noted."""
    lines = reading.whole_lines("sources", HEAD)
    if lines is None:
        return
    first: dict[str, int] = {}
    rules: list[tuple[int, str]] = []
    kinds: dict[str, str] = {}
    for line, cells in lines:
        name, kind, title, _, inputs, _ = cells
        for column, text in zip(HEAD, cells, strict=True):
            if not text.isascii():
                reading.unset(FILE, line, column, text)
        if name in first:
            reading.fault(
                FILE,
                line,
                "id",
                "unique",
                f"the source '{name}' stands on line {first[name]} already",
                "keep one of the two, or give this one an id of its own",
            )
        first.setdefault(name, line)
        kinds.setdefault(name, kind)
        if not name or not title:
            reading.fault(
                FILE,
                line,
                "title" if name else "id",
                "blank",
                "is blank",
                "say what the source is" if name else "give the source an id",
            )
        if kind not in KINDS:
            reading.fault(
                FILE, line, "kind", "one of", f"'{kind}' is not known", "use " + ", ".join(KINDS)
            )
        elif (kind == "rule") != name.startswith("rule-"):
            reading.fault(
                FILE,
                line,
                "kind",
                "one of",
                f"'{name}' is of kind {kind}",
                "a rule's id begins with rule-, and no other does",
            )
        if inputs:
            rules.append((line, inputs))
    reading.sources = kinds
    for line, inputs in rules:
        _inputs(reading, line, inputs)


def _inputs(reading: Reading, line: int, inputs: str) -> None:
    known = list(reading.sources or ())
    for part in parts(inputs):
        table, dot, column = part.partition(".")
        if not dot:
            if part not in known:
                reading.fault(
                    FILE,
                    line,
                    "inputs",
                    "source",
                    f"no source or table column is called '{part}'",
                    reading.near(part, known),
                )
            continue
        columns = [r.column.name for r in reading.schema.get(table, ())]
        if reading.schema and column not in columns:
            reading.fault(
                FILE,
                line,
                "inputs",
                "source",
                f"no table column is called '{part}'",
                reading.near(column, columns)
                if columns
                else reading.near(table, list(reading.schema)),
            )


def check_formulas(reading: Reading) -> None:
    """Find formulas that the schema names and the sources do not explain."""
    if reading.sources is None:
        return
    for columns in reading.schema.values():
        for each in columns:
            for rule in each.rules:
                if rule.kind == "is" and rule.formula not in reading.sources:
                    reading.fault(
                        "schema.csv",
                        each.line,
                        "rule",
                        "source",
                        f"sources.csv has no source '{rule.formula}'",
                        "give it a row there, of kind rule, with the formula as its title",
                    )
