"""Why a file is made again, page by page."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

from keyseats.corrections.figures import figures_of
from keyseats.load import Tables
from keyseats.manifest import FileRecord, PageRecord, file_sha, sha
from keyseats.page import Page

NEW = "new"
FIGURE = "figure changed"
LAYOUT = "layout changed"
GONE = "page gone"
# How many figures, and how many pages, are named before they are only counted.
NAMED = 4
_SHORT = 8


class Reason(NamedTuple):
    """Why one page is made again, with the figures that differ."""

    slug: str
    says: str
    figures: tuple[str, ...] = ()

    def told(self) -> str:
        """Return the reason with its figures named, or counted if they are many."""
        if not self.figures:
            return self.says
        if len(self.figures) > NAMED:
            return f"{len(self.figures)} figures changed"
        return f"{self.says}: {', '.join(self.figures)}"


def page_record(page: Page, tables: Tables) -> PageRecord:
    """Return what the manifest keeps of a page."""
    names = set(page.rows()).union(*(mark.rows for mark in page.stamps))
    rows: dict[str, list[str]] = {}
    for name, text in figures_of(tables).printed(tuple(sorted(names))):
        row, _, column = name.rpartition("/")
        rows.setdefault(row, []).append(f"{column}={sha(text.encode())[:_SHORT]}")
    figures = {row: " ".join(columns) for row, columns in rows.items()}
    return PageRecord(page.slug, page.title, page.key(), figures)


def file_reason(old: FileRecord | None, new: FileRecord, path: Path) -> str:
    """Return why a file is made again, in a word or two; blank if it is as it would be made."""
    if old is None:
        return NEW
    if not old.written:
        return "the last build did not end"
    written = file_sha(path)
    if not written:
        return "missing"
    if written != old.written:
        return "altered since it was made"
    if old.key == new.key:
        return ""
    pages = page_reasons(old, new)
    for says in (FIGURE, LAYOUT, NEW, GONE):
        if any(reason.says == says for reason in pages):
            return says
    if [p.slug for p in old.pages] != [p.slug for p in new.pages]:
        return "pages in another order"
    if (old.title, old.kind) != (new.title, new.kind):
        return "title changed"
    return "made by other code or libraries"


def page_reasons(old: FileRecord | None, new: FileRecord) -> tuple[Reason, ...]:
    """Return, for each page that is not as it was, why."""
    before = {page.slug: page for page in old.pages} if old else {}
    found = []
    for page in new.pages:
        known = before.pop(page.slug, None)
        if known is None:
            found.append(Reason(page.slug, NEW))
        elif known.key != page.key:
            figures = _differing(known, page)
            found.append(Reason(page.slug, FIGURE if figures else LAYOUT, figures))
    found += [Reason(slug, GONE) for slug in before]
    return tuple(found)


def _differing(old: PageRecord, new: PageRecord) -> tuple[str, ...]:
    was, now = (dict(_figures(page)) for page in (old, new))
    return tuple(sorted(n for n in was.keys() | now.keys() if was.get(n) != now.get(n)))


def _figures(page: PageRecord) -> Iterable[tuple[str, str]]:
    for row, columns in page.figures.items():
        for one in columns.split(" "):
            column, _, told = one.partition("=")
            yield f"{row}/{column}", told


def told(reasons: Iterable[Reason]) -> list[str]:
    """Return the reasons as lines, pages of one reason on one line."""
    together: dict[str, list[str]] = {}
    for reason in reasons:
        together.setdefault(reason.told(), []).append(reason.slug)
    lines = []
    for says, slugs in together.items():
        named = ", ".join(slugs[:NAMED])
        more = f" and {len(slugs) - NAMED} more" if len(slugs) > NAMED else ""
        lines.append(f"{named}{more}: {says}")
    return lines
