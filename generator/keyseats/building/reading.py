"""Tables that note which of their files a page's composing reads."""

from __future__ import annotations

from typing import TypeVar

from keyseats.building.inputs import BY_ALL
from keyseats.load import Column, Row, Tables
from keyseats.records import Quirk, Source

Record = TypeVar("Record")


class NotedTables(Tables):
    """The same tables, for one file of the set: what is read through them is noted.

    What others work out and keep with the tables is worked out anew, so that nothing is read behind
    the note; text, rows and records are those of the whole.

    Parameters
    ----------
    whole
        The tables that every file of the set shares.

    Attributes
    ----------
    read
        Names of the files read so far.
    """

    def __init__(self, whole: Tables) -> None:
        super().__init__(whole.folder)
        self._whole = whole
        self.read: set[str] = set(BY_ALL)

    def text(self, name: str) -> str:
        """Return a file of the folder as text."""
        self.read.add(name)
        return self._whole.text(name)

    @property
    def schema(self) -> dict[str, tuple[Column, ...]]:
        """Return the columns of each table."""
        self.read.add("schema.csv")
        return self._whole.schema

    def rows(self, table: str) -> tuple[Row, ...]:
        """Return a table's rows as text."""
        self.read |= {"schema.csv", f"{table}.csv"}
        return self._whole.rows(table)

    def records(self, kind: type[Record], table: str) -> tuple[Record, ...]:
        """Return a table's rows as records of one kind."""
        self.read |= {"schema.csv", f"{table}.csv"}
        return self._whole.records(kind, table)

    @property
    def sources(self) -> dict[str, Source]:
        """Return the sources by id."""
        self.read.add("sources.csv")
        return self._whole.sources

    @property
    def quirks(self) -> tuple[Quirk, ...]:
        """Return the figures that break their own rule."""
        self.read.add("quirks.csv")
        return self._whole.quirks
