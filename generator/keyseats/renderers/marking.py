"""A page cut into marked content in drawing order, and the structure that the pieces belong to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from keyseats.page import Block, Graph, Line, Mark, Page, Text
from keyseats.typeface import width

Box = tuple[float, float, float, float]
_ARTIFACT = "Artifact"
# What holds elements and draws nothing itself.
_HOLDERS = ("Table", "TR")


@dataclass(frozen=True)
class Run:
    """Marks drawn between one opening and one closing of marked content.

    Parameters
    ----------
    tag
        The structure role, or ``Artifact``.
    items
        What is drawn.
    number
        Its number on the page, None for an artifact.
    actual
        The text that its pieces spell, if they must be read as one.
    """

    tag: str
    items: tuple[Block | Mark, ...]
    number: int | None = None
    actual: str = ""


@dataclass
class Node:
    """One element of the structure: what it is, and the runs and elements in it, as read."""

    role: str
    kids: list[Node | int] = field(default_factory=list)
    alt: str = ""
    actual: str = ""
    header: str = ""
    columns: int = 1
    rows: int = 1
    block: Block | None = None
    cut: bool = False

    def numbers(self) -> Iterator[int]:
        """Yield the numbers of the runs in it, as they are read."""
        for kid in self.kids:
            if isinstance(kid, Node):
                yield from kid.numbers()
            else:
                yield kid


def marked(page: Page) -> tuple[list[Run], list[Node]]:
    """Return a page's runs in drawing order, and its elements in the order of its blocks."""
    marking = _Marking()
    nodes = [node for block in page.blocks if (node := marking.element(block)) is not None]
    return marking.runs, nodes


@dataclass
class _Marking:
    runs: list[Run] = field(default_factory=list)
    count: int = 0

    def run(self, tag: str, items: tuple[Block | Mark, ...], actual: str = "") -> int:
        number = self.count
        self.runs.append(Run(tag, items, number, actual))
        self.count += 1
        return number

    def element(self, block: Block) -> Node | None:
        """Cut a block into runs; return its element, or None if it says nothing."""
        if block.role == _ARTIFACT:
            self.runs.append(Run(_ARTIFACT, block.items))
            return None
        node = Node(block.role, alt=block.alt, header=block.header, block=block, cut=_cut_to(block))
        if block.role == "Figure":
            node.kids.append(self.run("Figure", block.items))
            return node
        if block.role in _HOLDERS:
            inner = [self.element(item) for item in block.items if isinstance(item, Block)]
            node.kids += [kid for kid in inner if kid is not None]
            return node
        if block.role == "Span":
            # Words that stand by themselves are a paragraph.
            node.role, node.alt = "P", ""
            number = self.run("Span", block.items, block.alt) if block.alt else None
            if number is not None:
                node.kids.append(Node("Span", [number], actual=block.alt))
                return node
        self._cut(block, node)
        return node

    def _cut(self, block: Block, node: Node) -> None:
        pending: list[Block | Mark] = []

        def flush() -> None:
            if pending:
                node.kids.append(self.run(node.role, tuple(pending)))
                pending.clear()

        for item in _inlined(block):
            if not isinstance(item, Block):
                pending.append(item)
            elif item.role == "Span":
                flush()
                number = self.run("Span", item.items, item.alt)
                node.kids.append(Node("Span", [number], actual=item.alt))
            else:
                flush()
                kid = self.element(item)
                if kid is not None:
                    node.kids.append(kid)
        flush()


def _cut_to(block: Block) -> bool:
    """Return whether a block, or a span that is opened into it, holds a figure that is cut to."""
    inlined = (i for i in block.items if isinstance(i, Block) and i.role == "Span" and not i.alt)
    return block.cut or any(_cut_to(item) for item in inlined)


def _inlined(block: Block) -> Iterator[Block | Mark]:
    """Yield what is in a block, spans that spell nothing of their own opened."""
    for item in block.items:
        if isinstance(item, Block) and item.role == "Span" and not item.alt:
            yield from _inlined(item)
        else:
            yield item


def marks(block: Block) -> Iterator[Mark]:
    """Yield every mark in a block."""
    for item in block.items:
        if isinstance(item, Block):
            yield from marks(item)
        else:
            yield item


def text_ends(text: Text) -> tuple[float, float]:
    """Return where a line of text starts and ends across the page. [pt]"""
    wide = width(text.text, text.size, text.bold)
    start = text.x
    if text.anchor != "start":
        start -= wide if text.anchor == "end" else wide / 2
    return start, start + wide


def bounds(block: Block) -> Box:
    """Return left, top, right and bottom of all that a block draws. [pt]"""
    xs: list[float] = []
    ys: list[float] = []
    for mark in marks(block):
        if isinstance(mark, Text):
            xs += text_ends(mark)
            ys += (mark.y - mark.size * 0.76, mark.y + mark.size * 0.24)
        elif isinstance(mark, Line):
            xs += (mark.x1, mark.x2)
            ys += (mark.y1, mark.y2)
        elif isinstance(mark, Graph):
            xs += (mark.x, mark.x + mark.width)
            ys += (mark.y, mark.y + mark.height)
        else:
            for _, *numbers in mark.path:
                xs += [float(n) for n in numbers[::2]]
                ys += [float(n) for n in numbers[1::2]]
    return min(xs), min(ys), max(xs), max(ys)
