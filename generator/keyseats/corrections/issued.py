"""Every page code that some tables issue: those of the printed set, and of any shaft sheet."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from keyseats.corrections.archive import Issue
from keyseats.corrections.shaft_codes import shaft_sheets
from keyseats.corrections.since import LEGEND
from keyseats.faults import KeyseatError
from keyseats.imposing import SHORT
from keyseats.load import Tables
from keyseats.page import Block, Page, Stamp

if TYPE_CHECKING:
    from keyseats.sheets import Sheet


_KEPT = "printed pages"


@dataclass(frozen=True)
class Printed:
    """One page of the printed set.

    Parameters
    ----------
    sheet, paper, number
        Its file, and its place in it.
    page
        The page.
    """

    sheet: str
    paper: str
    number: int
    page: Page

    @property
    def slug(self) -> str:
        """Return its name."""
        return self.page.slug

    @property
    def title(self) -> str:
        """Return its bookmark."""
        return self.page.title

    @property
    def stamps(self) -> tuple[Stamp, ...]:
        """Return the codes on it."""
        return self.page.stamps

    @cached_property
    def rows(self) -> frozenset[str]:
        """Return the ids of the figures that it prints or rests on."""
        return frozenset(self.page.rows()).union(*(s.rows for s in self.page.stamps))

    @cached_property
    def subject(self) -> tuple[Block, ...]:
        """Return what it says of its subject: not its edition, its code or margin marks."""
        own = ("Edition ", "Read at ", LEGEND, *(s.code for s in self.stamps))
        return tuple(
            block
            for block in self.page.blocks
            if not block.alt.startswith(("QR code", "Margin mark"))
            and not any(text in word for word in block.words() for text in own)
        )

    def says_as(self, other: Printed) -> bool:
        """Return whether it says the same of its subject as another page."""
        return (self.title, self.subject) == (other.title, other.subject)


def printed(tables: Tables, *, codes_only: bool = False) -> list[Printed]:
    """Return every page of the printed set on every paper, composed but not drawn.

    Parameters
    ----------
    tables
        The tables.
    codes_only
        Whether to leave out what has no code of its own: shaft sheets, which are known by key, and
        cards that are the long edge's over again.
    """
    from keyseats.sheets import find

    name = f"{_KEPT}, {'codes' if codes_only else 'all'}"
    if name in tables.kept:
        kept: list[Printed] = tables.kept[name]
        return kept
    found = []
    for sheet in find():
        if codes_only and (sheet.kind == "shaft sheets" or sheet.duplex == SHORT):
            continue
        for paper in sheet.papers:
            for number, page in enumerate(_composed(sheet, tables, paper), start=1):
                found.append(Printed(sheet.name, paper, number, page))
    tables.kept[name] = found
    return found


def _composed(sheet: Sheet, tables: Tables, paper: str) -> list[Page]:
    """Return a sheet's pages, or none if these tables cannot make it."""
    try:
        return list(sheet.pages(tables, paper))
    except (ValueError, LookupError, KeyseatError):
        return []


def issues(
    tables: Tables, pages: Iterable[Printed] | None = None, *, every: bool = False
) -> dict[str, Issue]:
    """Return every code that some tables issue, with the title of its page.

    Parameters
    ----------
    tables
        The tables.
    pages
        The pages of the printed set, if they were composed already.
    every
        Whether shaft sheets are wanted in every material, or in the usual one alone.
    """
    sheets = shaft_sheets(tables, every=every)
    found: dict[str, Issue] = {one.code: (one, one.what) for one in sheets}
    for page in pages if pages is not None else printed(tables, codes_only=True):
        for one in page.stamps:
            found.setdefault(one.code, (one, title_of(one, page.title)))
    return found


def title_of(mark: Stamp, title: str) -> str:
    """Return what a code stands for in words: a card by its number, a page by its title."""
    if mark.what.startswith("card-"):
        return f"pocket card {mark.what.removeprefix('card-')}"
    return title
