"""Figures against what their rule gives, and the known ones that break it."""

from __future__ import annotations

from fractions import Fraction

from keyseats.check.formulas import FORMULAS, NoInputError, ToldError
from keyseats.check.grammar import Rule
from keyseats.check.reading import Reading, Ruled, Table, same, value
from keyseats.lengths import decimal, places_of
from keyseats.load import Column, Row, number
from keyseats.records import Quirk

FILE = "quirks.csv"
HEAD = ["table", "row", "column", "printed", "rule_gives", "state", "reason"]
STATES = ("settled", "unsettled")
# A trailing zero that a spreadsheet dropped must not widen what passes: at least so many places.
LEAST_PLACES = {"in": 3, "mm": 3}

Quirks = list[tuple[int, Quirk]]
Address = tuple[str, str, str]


def slack(column: Column, text: str) -> Fraction:
    """Return how far a printed figure may be off: half its last place; a fraction, not at all."""
    if " " in text:
        return Fraction(0)
    known = column.places if column.places is not None else LEAST_PLACES.get(column.unit, 0)
    return Fraction(1, 2 * 10 ** max(places_of(text), known))


def _shown(exact: Fraction) -> str:
    """Return an exact figure with up to 6 decimals, without trailing zeros."""
    text = decimal(exact, 6).rstrip("0").rstrip(".")
    return text if text not in ("", "-0") else "0"


def check_decimals(reading: Reading, table: Table) -> None:
    """Check every decimal beside its fraction."""
    for ruled in table.ruled:
        for rule in ruled.rules:
            if rule.kind != "decimal of" or not table.has(rule.other):
                continue
            for row in table.rows:
                exact, given = value(row, rule.other), value(row, ruled.column.name)
                text = row.cells[ruled.column.name]
                if exact is None or given is None:
                    continue
                if abs(exact - given) > slack(ruled.column, text):
                    reading.cell_fault(
                        row,
                        ruled.column.name,
                        rule.text,
                        f"{text} is not {row.cells[rule.other]}, which is {_shown(exact)}",
                        "correct the one that differs from its source",
                    )


def read_quirks(reading: Reading) -> Quirks:
    """Read the figures that are known to break their own rule, with their lines."""
    lines = reading.whole_lines("quirks", HEAD)
    if lines is None:
        return []
    quirks: Quirks = []
    for line, cells in lines:
        quirk = Quirk(*cells)
        if quirk.state not in STATES:
            reading.fault(
                FILE,
                line,
                "state",
                "one of",
                f"'{quirk.state}' is not known",
                "use settled if it was read so in print, else unsettled",
            )
        if not quirk.reason:
            reading.fault(FILE, line, "reason", "blank", "is blank", "say why it is kept")
        quirks.append((line, quirk))
    return quirks


def check_recomputed(reading: Reading, quirks: Quirks) -> None:
    """Compute afresh every figure that a rule gives, and weigh the quirks against it."""
    listed: dict[Address, tuple[int, Quirk]] = {}
    for line, quirk in quirks:
        address = (quirk.table, quirk.row, quirk.column)
        if address in listed:
            reading.fault(
                FILE,
                line,
                "row",
                "unique",
                f"{'/'.join(address)} stands on line {listed[address][0]} already",
                "keep one of the two rows",
            )
        listed.setdefault(address, (line, quirk))
    weighed: set[Address] = set()
    for table in reading.tables.values():
        for ruled in table.ruled:
            for rule in ruled.rules:
                if rule.kind != "is":
                    continue
                for row in table.rows:
                    address = (table.name, row.id, ruled.column.name)
                    weighed.add(address)
                    _weigh(reading, row, ruled, rule, listed.get(address))
    for address, (line, quirk) in listed.items():
        if address not in weighed:
            _causeless(reading, line, quirk)


def _weigh(
    reading: Reading, row: Row, ruled: Ruled, rule: Rule, listed: tuple[int, Quirk] | None
) -> None:
    name = ruled.column.name
    text, given = row.cells[name], value(row, name)
    if listed and not same(listed[1].printed, text):
        reading.fault(
            FILE,
            listed[0],
            "printed",
            "quirk",
            f"{listed[1].printed} here, but {row.table}/{row.id}/{name} is now '{text}'",
            "take this row out, or correct the figure it was listed for",
        )
        listed = None
    if given is None:
        return
    try:
        exact = FORMULAS[rule.formula](reading, row, name)
    except (ToldError, KeyError):
        return
    except (NoInputError, ValueError) as wrong:
        if not reading.at_fault(row):
            reading.cell_fault(
                row,
                name,
                rule.text,
                f"{text} cannot be computed afresh: {wrong}",
                "fill in what the rule starts from, or leave this figure blank",
            )
        return
    off = abs(exact - given) > slack(ruled.column, text)
    if off and not listed:
        reading.cell_fault(
            row,
            name,
            rule.text,
            f"{text} is printed, but the rule gives {_shown(exact)}",
            "correct the figure, or what the rule starts from; if a source prints it so, list it "
            "in quirks.csv with the reason",
        )
    elif listed and not off:
        reading.fault(
            FILE,
            listed[0],
            "printed",
            "quirk",
            f"{row.table}/{row.id}/{name} {text} agrees with its rule now",
            "take this row out",
        )
    elif listed and not _rule_gives(listed[1].rule_gives, exact):
        reading.fault(
            FILE,
            listed[0],
            "rule_gives",
            "quirk",
            f"{listed[1].rule_gives} here, but the rule gives {_shown(exact)} now",
            "see which of the figures that the rule starts from was changed",
        )


def _rule_gives(text: str, exact: Fraction) -> bool:
    try:
        return abs(number(text) - exact) <= Fraction(1, 2 * 10 ** places_of(text))
    except ValueError:
        return False


def _causeless(reading: Reading, line: int, quirk: Quirk) -> None:
    """Note a quirk that no recomputed figure stands behind."""
    table = reading.tables.get(quirk.table)
    address = f"{quirk.table}/{quirk.row}/{quirk.column}"
    if table is None:
        if reading.schema and quirk.table not in reading.schema:
            reading.fault(
                FILE,
                line,
                "table",
                "quirk",
                f"there is no table '{quirk.table}'",
                "take this row out, or correct its table",
            )
        return
    if not any(row.id == quirk.row for row in table.rows):
        if not table.broken:
            reading.fault(
                FILE,
                line,
                "row",
                "quirk",
                f"{quirk.table} has no row '{quirk.row}'",
                "take this row out, or correct its row",
            )
        return
    reading.fault(
        FILE,
        line,
        "column",
        "quirk",
        f"{address} has no rule to break",
        "take this row out, or correct its column",
    )
