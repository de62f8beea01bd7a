"""The rules that a column of the schema can name, read from their words."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

_NAME = r"[a-z][a-z0-9_]*"
_NAMES = rf"{_NAME}(?: \+ {_NAME})*"
_WORDS = {
    "unique": rf"unique(?: with (?P<names>{_NAMES}))?",
    "known in": rf"known in (?P<table>{_NAME})\.(?P<other>{_NAME})",
    "all known in": rf"all known in (?P<table>{_NAME})\.(?P<other>{_NAME})",
    "one of": r"one of (?P<words>[^|]+(?:\|[^|]+)*)",
    "not over": rf"not over (?P<other>{_NAME})",
    "range to": rf"range to (?P<other>{_NAME})(?: within (?P<names>{_NAMES}))?"
    rf"(?: where (?P<where>{_NAME}) = (?P<value>.+))?",
    "range from": rf"range from, to (?P<other>{_NAME}), may overlap"
    rf"(?:, within (?P<names>{_NAMES}))?",
    "decimal of": rf"decimal of (?P<other>{_NAME})",
    "same as": rf"same as (?P<table>{_NAME})\.(?P<other>{_NAME}) by (?P<names>{_NAMES})",
    "is": r"is (?P<formula>rule-[a-z0-9-]+)",
}
KINDS = tuple(_WORDS)


@dataclass(frozen=True)
class Rule:
    """One rule of a column.

    Parameters
    ----------
    kind
        One of `KINDS`.
    text
        Its words in the schema.
    other
        The other column, of the same table or of ``table``.
    table
        The other table.
    names
        Columns of the same table that the rule goes by.
    words
        The words allowed.
    where, value
        The column and the word that pick the rows of a range.
    formula
        The rule that gives the figure.
    """

    kind: str
    text: str
    other: str = ""
    table: str = ""
    names: tuple[str, ...] = ()
    words: tuple[str, ...] = field(default=())
    where: str = ""
    value: str = ""
    formula: str = ""

    def here(self) -> tuple[str, ...]:
        """Return the columns of the rule's own table that it names."""
        other = () if self.table else (self.other,)
        return tuple(n for n in (*other, *self.names, self.where) if n)


def read_rule(text: str) -> Rule | None:
    """Read one rule, or return None if its words are not known."""
    for kind, pattern in _WORDS.items():
        match = re.fullmatch(pattern, text)
        if match:
            found = {k: v or "" for k, v in match.groupdict().items()}
            return Rule(
                kind,
                text,
                other=found.get("other", ""),
                table=found.get("table", ""),
                names=tuple(n for n in found.get("names", "").split(" + ") if n),
                words=tuple(w.strip() for w in found.get("words", "").split("|") if w.strip()),
                where=found.get("where", ""),
                value=found.get("value", ""),
                formula=found.get("formula", ""),
            )
    return None
