"""Which figures were corrected since the last edition, and the mark beside them on a page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property

from keyseats.corrections.archive import ArchivedTables, Past, editions
from keyseats.corrections.figures import Cell, Figures, figures_of
from keyseats.corrections.renamed import renamed
from keyseats.load import Tables
from keyseats.page import MM, Block, Line, Text

_KEPT = "since"
# A short thick bar in the margin, clear of the words and of what printers cannot reach.
BAR, OFF = 0.9 * MM, 1.2 * MM
LEGEND = "corrected since"


class Since:
    """What differs between some tables and the last edition of them."""

    def __init__(self, tables: Tables, past: Past | None) -> None:
        self._tables = tables
        self._past = past
        self._now = figures_of(tables)
        self._then: Figures | None = figures_of(past.tables) if past else None

    @cached_property
    def _names(self) -> dict[str, str]:
        return renamed(self._past.tables, self._tables) if self._past else {}

    def _before(self, name: str) -> Cell | None:
        """Return a figure as it was in the edition, also if its row had another name."""
        assert self._then is not None
        found = self._then.get(name)
        if found is None:
            row, _, column = name.rpartition("/")
            found = self._then.get(f"{self._names[row]}/{column}") if row in self._names else None
        return found

    def among(self, rows: Iterable[str]) -> frozenset[str]:
        """Return the ids whose figure, or whose dagger, is not that of the last edition."""
        if self._then is None:
            return frozenset()
        found = []
        for name in rows:
            now, then = self._now.get(name), self._before(name)
            if now is None or then is None or (now.counted, now.mark) != (then.counted, then.mark):
                found.append(name)
        return frozenset(found)


def since(tables: Tables) -> Since:
    """Return what was corrected in some tables since their last edition."""
    if _KEPT not in tables.kept:
        past = None
        if not isinstance(tables, ArchivedTables):
            known = editions(tables.folder)
            past = known[-1] if known else None
        tables.kept[_KEPT] = Since(tables, past)
    found: Since = tables.kept[_KEPT]
    return found


def changed_since(tables: Tables, past: Past) -> frozenset[str]:
    """Return the ids of every figure that is not as it was in an edition.

    Parameters
    ----------
    tables
        The tables now.
    past
        The edition to compare with.
    """
    then = {cell.id for cell in figures_of(past.tables).all()}
    now = {cell.id for cell in figures_of(tables).all()}
    return Since(tables, past).among(now | then)


def bars(
    blocks: Iterable[Block],
    changed: frozenset[str],
    left: float,
    bar: float = BAR,
    off: float = OFF,
    tall: float = 0.0,
) -> list[Block]:
    """Return margin marks beside the blocks that print a changed figure.

    Parameters
    ----------
    blocks
        What is on the page.
    changed
        Ids of the changed figures.
    left
        Left end of what is printed; the marks stand in the margin beside it. [pt]
    bar, off
        How thick they are, and how far off what is printed. [pt]
    tall
        How tall, in the middle of what they stand beside: where they stand so near to a figure
        that a bar as tall as its digits would be read as a 1. [pt]
    """
    listed = list(blocks)
    spans = sorted(span for block in listed for span in _spans(block, changed))
    if changed and not spans:
        # What picks the page's key was corrected: its title is marked.
        spans = sorted(_span(block) for block in listed if block.role in ("H1", "H2"))
    joined: list[tuple[float, float]] = []
    for top, bottom in spans:
        if joined and top <= joined[-1][1] + 1:
            joined[-1] = (joined[-1][0], max(bottom, joined[-1][1]))
        else:
            joined.append((top, bottom))
    if tall:
        middles = [(top + low) / 2 for top, low in joined]
        joined = [(middle - tall / 2, middle + tall / 2) for middle in middles]
    x = left - off - bar / 2
    alt = "Margin mark: a figure here was corrected since this edition"
    return [Block("Figure", (Line(x, top, x, low, bar),), alt=alt) for top, low in joined]


def _spans(block: Block, changed: frozenset[str]) -> Iterator[tuple[float, float]]:
    if changed.intersection(block.rows):
        if block.role != "Figure":
            yield _span(block)
        return
    for item in block.items:
        if isinstance(item, Block):
            yield from _spans(item, changed)


def _span(block: Block) -> tuple[float, float]:
    texts = list(block.texts())
    return min(t.y - t.size * 0.74 for t in texts), max(t.y + t.size * 0.04 for t in texts)


def legend(x: float, y: float, size: float, wide: float, says: str = LEGEND) -> Block:
    """Return what the marks mean, beside one of them.

    Parameters
    ----------
    x, y
        Left end and baseline. [pt]
    size
        Type size. [pt]
    wide
        Width of a word space. [pt]
    says
        The words.
    """
    bar = Line(x + BAR / 2, y - size * 0.74, x + BAR / 2, y + size * 0.04, BAR)
    return Block("P", (bar, Text(x + BAR + wide, y, says, size)))
