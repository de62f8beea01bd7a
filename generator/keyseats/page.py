"""The page model: what is printed, where, and why, before anything is drawn.

Positions are in points (1/72 in) from the top left corner, downward. A renderer adds nothing to a
page and leaves nothing out. Blocks carry what tags, page codes and `trace` need: a role, whether
a cell is a head, what a picture says in words, and the ids of the figures printed.
"""

from __future__ import annotations

import hashlib
import json
import marshal
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

MM = 72 / 25.4

# Paper sizes in points; ISO 216 and ANSI/ASME Y14.1.
PAPERS: dict[str, tuple[float, float]] = {
    "Letter": (612.0, 792.0),
    "A4": (210 * MM, 297 * MM),
    "Tabloid": (792.0, 1224.0),
    "A3": (297 * MM, 420 * MM),
    "ANSI C": (1224.0, 1584.0),
    "A2": (420 * MM, 594 * MM),
    "3 x 5 in": (360.0, 216.0),
    "A7": (105 * MM, 74 * MM),
    "3 x 5 in upright": (216.0, 360.0),
    "A7 upright": (74 * MM, 105 * MM),
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
    ``fill`` is a grey from 0 (black) to 1 (white), or None; a path within another is left out.
    """

    path: tuple[tuple[str | float, ...], ...]
    fill: float | None = None
    stroke: float | None = None
    dash: tuple[float, ...] = ()


@dataclass(frozen=True)
class Curve:
    """A line through points of a graph, in the graph's own values."""

    xs: tuple[float, ...]
    ys: tuple[float, ...]
    weight: float
    dash: tuple[float, ...] = ()


@dataclass(frozen=True)
class Scale:
    """Ticks along one side of a graph, ``left`` or ``bottom``.

    Where they stand is in the graph's own values, whatever is written beside them.
    """

    side: str
    major: tuple[float, ...]
    minor: tuple[float, ...] = ()


@dataclass(frozen=True)
class Graph:
    """Curves over scales, in a box whose upper left corner is given; its words are set as texts.

    Parameters
    ----------
    x, y, width, height
        The field within the scales. [pt]
    across
        The values at its left and its right edge.
    upright
        The values at its lower and its upper edge; the lower may be the greater.
    curves, scales
        What is drawn. A faint grid stands on the longer ticks at the left and at the foot.
    weight
        Of the scales. [pt]
    tick
        Length of the longer ticks. [pt]
    dots
        How far apart, in values across, dots stand on the level of each short tick at the left.
    """

    x: float
    y: float
    width: float
    height: float
    across: tuple[float, float]
    upright: tuple[float, float]
    curves: tuple[Curve, ...]
    scales: tuple[Scale, ...]
    weight: float
    tick: float
    dots: float = 0.0

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Return where a pair of values stands on the page. [pt]"""
        (left, right), (foot, top) = self.across, self.upright
        return (
            self.x + (x - left) / (right - left) * self.width,
            self.y + (top - y) / (top - foot) * self.height,
        )


Mark = Text | Line | Shape | Graph


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

    def graphs(self) -> Iterator[Graph]:
        """Yield every graph in the order in which they are drawn."""
        for item in self.items:
            if isinstance(item, Block):
                yield from item.graphs()
            elif isinstance(item, Graph):
                yield item

    def all_rows(self) -> Iterator[str]:
        """Yield the ids of the figures in this block and those inside it."""
        yield from self.rows
        for item in self.items:
            if isinstance(item, Block):
                yield from item.all_rows()


@dataclass(frozen=True)
class Stamp:
    """A page code, and what it stands for: what the page is, and the figures that it rests on."""

    code: str
    what: str
    rows: tuple[str, ...]


@dataclass(frozen=True)
class Page:
    """One page: paper, blocks, bookmark, and the distance it is made to be read from.

    ``stamps`` are the codes printed on it: one, or one a card.
    """

    slug: str
    title: str
    paper: str
    blocks: tuple[Block, ...]
    distance_m: float
    width: float
    height: float
    stamps: tuple[Stamp, ...] = ()

    def words(self) -> Iterator[str]:
        """Yield what is read on the page, in order."""
        for block in self.blocks:
            yield from block.words()

    def texts(self) -> Iterator[Text]:
        """Yield every line of text on the page."""
        for block in self.blocks:
            yield from block.texts()

    def graphs(self) -> tuple[Graph, ...]:
        """Return the graphs on the page, in the order in which they are drawn."""
        return tuple(graph for block in self.blocks for graph in block.graphs())

    def rows(self) -> tuple[str, ...]:
        """Return the ids of all figures printed on the page, sorted."""
        return tuple(sorted({row for block in self.blocks for row in block.all_rows()}))

    def key(self) -> str:
        """Return a hash of all that is on the page."""
        # Version 2 of the format writes equal values as equal bytes, whatever they share.
        return hashlib.sha256(marshal.dumps(_plain(self), 2)).hexdigest()


def _plain(of: Any) -> Any:
    """Return marks, blocks and pages as plain values, the name of each kind before its fields."""
    if isinstance(of, tuple):
        return tuple([one if type(one) in _SCALAR else _plain(one) for one in of])
    fields = vars(of).values()
    if isinstance(of, Shape):
        # Its path is plain already.
        return ("Shape", *fields)
    return (
        type(of).__name__,
        *[one if type(one) in _SCALAR else _plain(one) for one in fields],
    )


_SCALAR = frozenset((str, float, int, bool, type(None)))


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
