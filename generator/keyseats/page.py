"""The page model: what is printed, where, and why, before anything is drawn.

Positions are in points (1/72 in) from the top left corner, downward. A renderer adds nothing to a
page and leaves nothing out. Blocks carry what tags, page codes and `trace` need: a role, whether
a cell is a head, what a picture says in words, and the ids of the figures printed.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass

MM = 72 / 25.4

# Paper sizes in points; ISO 216 and ANSI/ASME Y14.1.
PAPERS: dict[str, tuple[float, float]] = {
    "Letter": (612.0, 792.0),
    "A4": (210 * MM, 297 * MM),
    "Tabloid": (792.0, 1224.0),
    "A3": (297 * MM, 420 * MM),
    "3 x 5 in": (360.0, 216.0),
    "A7": (105 * MM, 74 * MM),
    "ID-1": (85.6 * MM, 53.98 * MM),
}


@dataclass(frozen=True)
class Text:
    """One line of text set from its baseline."""

    x: float
    y: float
    text: str
    size: float
    bold: bool = False
    anchor: str = "start"
    grey: float = 0.0


@dataclass(frozen=True)
class Line:
    """A straight stroke."""

    x1: float
    y1: float
    x2: float
    y2: float
    width: float
    dash: tuple[float, ...] = ()


@dataclass(frozen=True)
class Shape:
    """An outline of straight and curved pieces, filled, stroked or both.

    ``path`` holds ``("M", x, y)``, ``("L", x, y)``, ``("C", x1, y1, x2, y2, x, y)`` and ``("Z",)``.
    ``fill`` is a grey from 0 (black) to 1 (white), or None.
    """

    path: tuple[tuple[str | float, ...], ...]
    fill: float | None = None
    stroke: float | None = None
    dash: tuple[float, ...] = ()


Mark = Text | Line | Shape


@dataclass(frozen=True)
class Block:
    """Marks and blocks that belong together.

    Parameters
    ----------
    role
        ``H1``, ``H2``, ``P``, ``Table``, ``TR``, ``TH``, ``TD``, ``Figure``, ``Span``, or
        ``Artifact`` for rules and shades that say nothing.
    items
        Marks and blocks, in reading order.
    alt
        What a ``Figure`` says in words; for a ``Span`` the text that its pieces spell.
    header
        ``Column`` or ``Row`` for a ``TH``.
    rows
        Ids of the figures printed here, ``table/row/column``.
    cut
        Whether it holds a figure that is cut to, which must meet the legibility floor.
    """

    role: str
    items: tuple[Block | Mark, ...]
    alt: str = ""
    header: str = ""
    rows: tuple[str, ...] = ()
    cut: bool = False

    def texts(self) -> Iterator[Text]:
        """Yield every line of text in reading order."""
        for item in self.items:
            if isinstance(item, Block):
                yield from item.texts()
            elif isinstance(item, Text):
                yield item

    def words(self) -> Iterator[str]:
        """Yield what is read: each text, or the whole that a span's pieces spell."""
        if self.role == "Span" and self.alt:
            yield self.alt
            return
        for item in self.items:
            if isinstance(item, Block):
                yield from item.words()
            elif isinstance(item, Text):
                yield item.text

    def all_rows(self) -> Iterator[str]:
        """Yield the ids of the figures in this block and those inside it."""
        yield from self.rows
        for item in self.items:
            if isinstance(item, Block):
                yield from item.all_rows()


@dataclass(frozen=True)
class Page:
    """One page: paper, blocks, bookmark, and the distance it is made to be read from."""

    slug: str
    title: str
    paper: str
    blocks: tuple[Block, ...]
    distance_m: float
    width: float
    height: float

    def words(self) -> Iterator[str]:
        """Yield what is read on the page, in order."""
        for block in self.blocks:
            yield from block.words()

    def texts(self) -> Iterator[Text]:
        """Yield every line of text on the page."""
        for block in self.blocks:
            yield from block.texts()

    def rows(self) -> tuple[str, ...]:
        """Return the ids of all figures printed on the page, sorted."""
        return tuple(sorted({row for block in self.blocks for row in block.all_rows()}))

    def key(self) -> str:
        """Return a hash of all that is on the page."""
        text = json.dumps(asdict(self), sort_keys=True, ensure_ascii=False, separators=(",", ":"))
        return hashlib.sha256(text.encode()).hexdigest()


@dataclass(frozen=True)
class Document:
    """One file of pages."""

    name: str
    title: str
    subject: str
    paper: str
    pages: tuple[Page, ...]
    duplex: str = ""

    def key(self) -> str:
        """Return a hash of all its pages and what the file says of itself."""
        head = json.dumps([self.name, self.title, self.subject, self.paper, self.duplex])
        body = "".join(page.key() for page in self.pages)
        return hashlib.sha256((head + body).encode()).hexdigest()
