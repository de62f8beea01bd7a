"""How well a figure is known, and quantities that carry it along."""

from __future__ import annotations

from fractions import Fraction

from keyseats.frozen import frozen, replace
from keyseats.lengths import decimal
from keyseats.load import Tables
from keyseats.records import Figure

TWO, ONE, PRACTICE, MEMORY = "two-sources", "one-source", "practice", "memory"
ORDER = (TWO, ONE, PRACTICE, MEMORY)
EXACT = "typed"


def weakest(standings: list[str]) -> str:
    """Return the weakest of several standings; nothing but typed sizes is ``typed``."""
    ranked = [s for s in standings if s in ORDER]
    return max(ranked, key=ORDER.index) if ranked else EXACT


@frozen
class Quantity:
    """An exact size in its table's unit, with its standing and the figures it rests on."""

    value: Fraction
    unit: str
    standing: str
    rows: tuple[str, ...] = ()
    text: str = ""

    @property
    def recalled(self) -> bool:
        """Return whether it rests on a figure from memory, and so prints with a dagger."""
        return self.standing == MEMORY

    def printed(self, places: int, rounding: str = "nearest") -> Quantity:
        """Return the same quantity with the text that pages and screens print."""
        return replace(self, text=decimal(self.value, places, rounding))


@frozen
class Limits:
    """The least and the most that a standard's tolerance allows."""

    least: Quantity
    most: Quantity

    def printed(self, places: int, rounding: str = "inward") -> Limits:
        """Return the same limits with their printed text, rounded inward unless told otherwise."""
        if rounding == "inward":
            return Limits(self.least.printed(places, "up"), self.most.printed(places, "down"))
        return Limits(self.least.printed(places, rounding), self.most.printed(places, rounding))

    def shifted(self, by: Quantity, sign: int = 1) -> Limits:
        """Return the limits with a quantity added to (or taken from) both ends."""
        return Limits(add(self.least, by, sign), add(self.most, by, sign))

    @property
    def rows(self) -> tuple[str, ...]:
        """Return the ids of the figures behind both ends."""
        return tuple(dict.fromkeys(self.least.rows + self.most.rows))


def taken_from(whole: Quantity, part: Limits) -> Limits:
    """Return the limits of a whole less a part: the most taken leaves the least."""
    return Limits(add(whole, part.most, -1), add(whole, part.least, -1))


def between(first: Limits, second: Limits, sign: int = 1) -> Limits:
    """Return the widest limits of a sum, or with ``sign=-1`` of a difference."""
    if sign == 1:
        return Limits(add(first.least, second.least), add(first.most, second.most))
    return Limits(add(first.least, second.most, -1), add(first.most, second.least, -1))


def as_printed(limits: Limits) -> Limits:
    """Return limits whose values are what their text says, so that a sum of them holds in print."""
    return Limits(*(replace(q, value=Fraction(q.text)) for q in (limits.least, limits.most)))


def typed(value: Fraction, unit: str) -> Quantity:
    """Return a size that the user gave, which no table stands behind."""
    return Quantity(value, unit, EXACT)


def derive(value: Fraction, *inputs: Quantity) -> Quantity:
    """Return a computed size with the standing of its weakest input and all their rows."""
    rows = tuple(dict.fromkeys(row for q in inputs for row in q.rows))
    return Quantity(value, inputs[0].unit, weakest([q.standing for q in inputs]), rows)


def add(first: Quantity, second: Quantity, sign: int = 1) -> Quantity:
    """Return the sum (or with ``sign=-1`` the difference) of two quantities."""
    return derive(first.value + sign * second.value, first, second)


def off(nominal: Quantity, tolerance: Quantity, sign: int = 1) -> Quantity:
    """Return a nominal size with a tolerance added (or taken off).

    A tolerance of nothing leaves the nominal's standing as it is, although the size rests on it.
    """
    if tolerance.value == 0:
        return replace(nominal, rows=tuple(dict.fromkeys(nominal.rows + tolerance.rows)))
    return add(nominal, tolerance, sign)


def standing_of(source: str, row: str, tables: Tables, seen: frozenset[str] = frozenset()) -> str:
    """Return how well a figure is known, from its source cell.

    Parameters
    ----------
    source
        One id, two joined by `` + ``, a rule, ``practice`` or ``memory``.
    row
        The figure's row id, for a rule whose inputs stand in the same row of another table.
    tables
        Where sources and inputs are found.
    seen
        Rules already followed; guards against a circle.

    Returns
    -------
    str
        One of `ORDER`. A rule has the standing of its weakest input; a rule without inputs is
        geometry on a nominal size and stands as one source.
    """
    ids = [part.strip() for part in source.split(" + ")]
    kinds = {tables.sources[i].kind if i in tables.sources else i for i in ids}
    if kinds <= {"reproduction"}:
        return TWO if len(ids) > 1 else ONE
    if MEMORY in kinds or not source:
        return MEMORY
    if kinds == {PRACTICE}:
        return PRACTICE
    found = []
    for name in ids:
        known = tables.sources.get(name)
        if known is None or known.kind != "rule":
            found.append(standing_of(name, row, tables) if known else MEMORY)
            continue
        if name in seen:
            continue
        for part in [p.strip() for p in known.inputs.split(" + ") if p.strip()]:
            found.append(_input_standing(part, row, tables, seen | {name}))
    return weakest([f for f in found if f]) if any(found) else ONE


def _input_standing(part: str, row: str, tables: Tables, seen: frozenset[str]) -> str:
    table, dot, column = part.partition(".")
    if not dot or table not in tables.schema:
        return standing_of(part, row, tables, seen)
    columns = {c.name: c for c in tables.columns(table)}
    for found in tables.rows(table):
        if found.id == row and column in columns and columns[column].source_column:
            cell = found.cells[columns[column].source_column]
            if cell and found.cells[column]:
                return standing_of(cell, row, tables, seen)
    return ""


class Bench:
    """Turns figures of one set of tables into quantities that know their standing."""

    def __init__(self, tables: Tables) -> None:
        self.tables = tables
        self._known: dict[tuple[str, str], str] = {}

    def quantity(self, figure: Figure) -> Quantity:
        """Return a table's figure as a quantity."""
        key = (figure.source, figure.row)
        if key not in self._known:
            self._known[key] = standing_of(figure.source, figure.row, self.tables)
        return Quantity(figure.value, figure.unit, self._known[key], (figure.id,))

    def within(self, figure: Figure, *ends: Figure) -> Quantity:
        """Return a figure as a quantity that rests on the ends of its band of sizes too."""
        found = self.quantity(figure)
        return replace(found, rows=(*found.rows, *(end.id for end in ends)))

    def maybe(self, figure: Figure | None) -> Quantity | None:
        """Return a figure as a quantity, or None where the table is blank."""
        return None if figure is None else self.quantity(figure)
