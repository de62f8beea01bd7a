"""Typesetting as page marks: lines, built fractions, figures with daggers, paragraphs, rules."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

from keyseats.page import Block, Line, Mark, Shape, Text
from keyseats.palette import BAND
from keyseats.standing import Limits, Quantity
from keyseats.typeface import eased, fitted, width

DAGGER = "†"
LEADING = 1.25
# Between a whole number and its fraction, so that 1 1/8 cannot read 11/8. [em]
GAP = 0.2
_FRACTION = re.compile(r"(?:(\d+)-)?(\d+)/(\d+)")


@dataclass
class Composer:
    """Gathers the blocks of one page in reading order."""

    blocks: list[Block] = field(default_factory=list)

    def add(self, *blocks: Block) -> None:
        """Put blocks after those already there."""
        self.blocks.extend(blocks)

    @contextmanager
    def table(self) -> Iterator[None]:
        """Gather what is set meanwhile into one table, where what stands near it would not tell."""
        yield from self._gathered("Table", "")

    @contextmanager
    def row(self) -> Iterator[None]:
        """Gather the cells of one row, where they do not stand on one baseline."""
        yield from self._gathered("TR", "")

    @contextmanager
    def over(self) -> Iterator[None]:
        """Gather a column head, set as paragraphs, and the heads of the columns it stands over."""
        yield from self._gathered("TH", "Column")

    def _gathered(self, role: str, header: str) -> Iterator[None]:
        before, self.blocks = self.blocks, []
        try:
            yield
        finally:
            before.append(Block(role, tuple(self.blocks), header=header))
            self.blocks = before

    def rule(self, x1: float, x2: float, y: float, weight: float) -> None:
        """Draw a level rule."""
        self.blocks.append(Block("Artifact", (Line(x1, y, x2, y, weight),)))

    def upright(self, x: float, y1: float, y2: float, weight: float) -> None:
        """Draw an upright rule."""
        self.blocks.append(Block("Artifact", (Line(x, y1, x, y2, weight),)))

    def shade(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """Lay a light band, which is never the only carrier of a meaning."""
        self.blocks.append(Block("Artifact", (Shape(box(x1, y1, x2, y2), fill=BAND),)))

    def frame(self, x1: float, y1: float, x2: float, y2: float, weight: float) -> None:
        """Draw an empty box."""
        self.blocks.append(Block("Artifact", (Shape(box(x1, y1, x2, y2), stroke=weight),)))

    def say(
        self,
        x: float,
        y: float,
        text: str,
        size: float,
        *,
        bold: bool = False,
        anchor: str = "start",
        role: str = "P",
        header: str = "",
        rows: tuple[str, ...] = (),
    ) -> None:
        """Set one line of text."""
        line = words(x, y, text, size, bold=bold, anchor=anchor)
        self.blocks.append(Block(role, (line,), header=header, rows=rows))


def box(x1: float, y1: float, x2: float, y2: float) -> tuple[tuple[str | float, ...], ...]:
    """Return the path of a rectangle."""
    return (("M", x1, y1), ("L", x2, y1), ("L", x2, y2), ("L", x1, y2), ("Z",))


def words(
    x: float, y: float, text: str, size: float, *, bold: bool = False, anchor: str = "start"
) -> Block | Text:
    """Set a line of text; fractions in it are built, so that 1 1/8 cannot read 11/8."""
    if not _FRACTION.search(text):
        return Text(x, y, text, size, bold, anchor)
    total = set_width(text, size, bold)
    left = x - (total if anchor == "end" else total / 2 if anchor == "middle" else 0)
    pieces: list[Block | Mark] = []
    start = 0
    for match in _FRACTION.finditer(text):
        before = text[start : match.start()]
        if before:
            pieces.append(Text(left, y, before, size, bold))
            left += width(before, size, bold)
        built, left = _built(left, y, match, size, bold)
        pieces.append(built)
        start = match.end()
    if text[start:]:
        pieces.append(Text(left, y, text[start:], size, bold))
    return Block("Span", tuple(pieces))


def _built(
    x: float, y: float, match: re.Match[str], size: float, bold: bool
) -> tuple[Block, float]:
    whole, top, bottom = match.groups()
    small = size * 0.8
    marks: list[Mark] = []
    if whole:
        marks.append(Text(x, y, whole, size, bold))
        x += width(whole, size, bold) + size * GAP
    marks.append(Text(x, y - size * 0.2, top, small, bold))
    x += width(top, small, bold)
    marks.append(Text(x, y, "/", size, bold))
    x += width("/", size, bold)
    marks.append(Text(x, y + size * 0.02, bottom, small, bold))
    x += width(bottom, small, bold)
    return Block("Span", tuple(marks), alt=match.group(0)), x


def set_width(text: str, size: float, bold: bool = False) -> float:
    """Return the width of a line whose fractions are built. [pt]"""
    total, start = 0.0, 0
    for match in _FRACTION.finditer(text):
        total += width(text[start : match.start()], size, bold)
        whole, top, bottom = match.groups()
        if whole:
            total += width(whole, size, bold) + size * GAP
        total += width(top + bottom, size * 0.8, bold) + width("/", size, bold)
        start = match.end()
    return total + width(text[start:], size, bold)


def figure(
    x: float,
    y: float,
    quantity: Quantity,
    size: float,
    *,
    bold: bool = False,
    dagger: bool = True,
    cut: bool = True,
    role: str = "TD",
    header: str = "",
) -> Block:
    """Set a figure flush right at ``x``; its dagger hangs outside the alignment."""
    items: list[Block | Mark] = [words(x, y, quantity.text, size, bold=bold, anchor="end")]
    if dagger and quantity.recalled:
        items.append(Text(x + size * 0.04, y - size * 0.22, DAGGER, size * 0.62))
    return Block(role, tuple(items), rows=quantity.rows, cut=cut, header=header)


def limits_line(
    x: float,
    y: float,
    limits: Limits,
    size: float,
    *,
    small: float = 0.62,
    clear: float = 0.28,
    dagger: bool = True,
    bold: bool = False,
) -> tuple[Block, float]:
    """Set ``least to most`` from ``x`` on; return the block and where it ends.

    ``small`` is the size of ``to``, and ``clear`` what is left free on both sides of it. [em]
    """
    items: list[Block | Mark] = []
    for n, quantity in enumerate((limits.least, limits.most)):
        if n:
            items.append(Text(x + size * clear, y, "to", size * small))
            x += size * 2 * clear + width("to", size * small)
        items.append(words(x, y, quantity.text, size, bold=bold))
        x += set_width(quantity.text, size, bold)
        if dagger and quantity.recalled:
            items.append(Text(x + size * 0.04, y - size * 0.22, DAGGER, size * 0.62))
            x += size * 0.36
    return Block("Span", tuple(items), rows=limits.rows, cut=True), x


def paragraph(
    x: float,
    y: float,
    text: str,
    size: float,
    room: float,
    *,
    lead: str = "",
    leading: float = LEADING,
) -> tuple[Block, float]:
    """Set a paragraph, its lead words bold; return the block and the last baseline."""
    marks: list[Block | Mark] = []
    first_room = room
    at = x
    if lead:
        marks.append(Text(x, y, lead, size, True))
        at = x + width(lead + " ", size, True)
        first_room = room - (at - x)
    lines = eased(_ragged(text, size, first_room, room), size, room)
    for n, line in enumerate(lines):
        if line:
            marks.append(words(at if n == 0 else x, y + n * size * leading, line, size))
    return Block("P", tuple(marks)), y + (len(lines) - 1) * size * leading


def _ragged(text: str, size: float, first_room: float, room: float) -> list[str]:
    first = fitted(text, size, first_room)
    if len(first) <= 1:
        return first or [""]
    head = first[0]
    if width(head, size) > first_room:
        return ["", *fitted(text, size, room)]
    return [head, *fitted(text[len(head) :].strip(), size, room)]


def height_of(text: str, size: float, room: float, lead: str = "") -> float:
    """Return the height of a paragraph from its first to its last baseline. [pt]"""
    _, last = paragraph(0, 0, text, size, room, lead=lead)
    return last


def caution_sign(x: float, y: float, size: float) -> Block:
    """Draw the caution triangle on a baseline, its sign well clear of the edges."""
    wide = size * 1.12
    tip = (("M", x, y), ("L", x + wide / 2, y - size), ("L", x + wide, y), ("Z",))
    middle = x + wide / 2
    marks: list[Block | Mark] = [
        Shape(tip, stroke=size * 0.09),
        Line(middle, y - size * 0.66, middle, y - size * 0.32, size * 0.1),
        Line(middle, y - size * 0.22, middle, y - size * 0.12, size * 0.1),
    ]
    return Block("Figure", tuple(marks), alt="Caution sign")
