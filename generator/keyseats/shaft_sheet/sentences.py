"""Sentences whose figures are set to: these stand at the size of a figure among smaller words."""

from __future__ import annotations

from collections.abc import Sequence

from keyseats.page import Block, Mark, Text
from keyseats.setting import set_width, words
from keyseats.shaft_sheet.composing import FIGURE, LEADING, TEXT, ShaftSheet
from keyseats.typeface import CAP_HEIGHT, KEPT, brought_down, width

# White over a line with figures, past the capitals and the depth of the line before it. [pt]
CLEAR = 1.3
# Words that are never parted from the figure after them.
WITH_NEXT = KEPT | {"less", "under", "over"}
# How far letters hang below a baseline, of their size.
DEPTH = 0.24


class Set(str):
    """A piece of a sentence that a slide or a gauge is set to; never broken over two lines."""

    __slots__ = ()


Piece = str
Line = list[tuple[str, bool]]


def sentence(
    s: ShaftSheet,
    y: float,
    lead: str,
    pieces: Sequence[Piece],
    *,
    room: float = 0.0,
    x: float = 0.0,
    rows: tuple[str, ...] = (),
) -> float:
    """Set a paragraph whose set figures are as large as figures are; return its last baseline.

    Parameters
    ----------
    s
        The sheet.
    y
        The first baseline. [pt]
    lead
        What it begins with, in bold.
    pieces
        Plain words and `Set` figures, with the spaces between them in the words.
    room, x
        How wide, and from where; the whole of a step if not given. [pt]
    rows
        Ids of the figures.
    """
    x = x or s.f.left + TEXT
    room = room or s.f.right - x - 4
    size = s.ease.words
    start = width(lead + " ", size, True) if lead else 0.0
    marks: list[Block | Mark] = [Text(x, y, lead, size, True)] if lead else []
    hang = DEPTH * size
    for n, line in enumerate(_lines(pieces, size, room, start)):
        if n:
            tall = FIGURE * CAP_HEIGHT if any(large for _, large in line) else size * CAP_HEIGHT
            y += max(size * LEADING, hang + tall + CLEAR)
        hang = DEPTH * max((FIGURE if large else size for _, large in line), default=size)
        at = x + (0.0 if n else start)
        for text, large in line:
            placed = words(at, y, text, FIGURE if large else size)
            marks.append(Block("Span", (placed,), cut=True) if large else placed)
            at += set_width(text, FIGURE if large else size)
    s.f.composer.add(Block("P", tuple(marks), rows=rows))
    return y


def _lines(pieces: Sequence[Piece], size: float, room: float, start: float) -> list[Line]:
    """Return the pieces broken into lines, each a run of words or a figure with its size."""
    lines: list[list[Line]] = [[]]
    used = start
    for token in _tokens(pieces):
        wide = _wide(token, size)
        gap = width(" ", size) if lines[-1] else 0.0
        if used + gap + wide > room and (lines[-1] or used):
            lines.append([])
            used, gap = 0.0, 0.0
        lines[-1].append(token)
        used += gap + wide
    if len(lines) > 1:
        lines[-2:] = brought_down(lines[-2], lines[-1], lambda tokens: _long(tokens, size), room)
    return [_joined(line) for line in lines]


def _long(tokens: list[Line], size: float) -> float:
    return sum(_wide(token, size) for token in tokens) + width(" ", size) * (len(tokens) - 1)


def _joined(tokens: list[Line]) -> Line:
    line: Line = []
    for token in tokens:
        if line:
            _join(line, " ", False)
        for text, large in token:
            _join(line, text, large)
    return line


def _join(line: Line, text: str, large: bool) -> None:
    if line and not large and not line[-1][1]:
        line[-1] = (line[-1][0] + text, False)
    else:
        line.append((text, large))


def _wide(token: Line, size: float) -> float:
    return sum(set_width(text, FIGURE if large else size) for text, large in token)


def _tokens(pieces: Sequence[Piece]) -> list[Line]:
    """Return what is never broken: a word, a figure, and what touches either of them."""
    tokens: list[Line] = [[]]
    for piece in pieces:
        if isinstance(piece, Set):
            tokens[-1].append((str(piece), True))
            continue
        for n, word in enumerate(piece.split(" ")):
            if n:
                tokens.append([])
            if word:
                tokens[-1].append((word, False))
    whole: list[Line] = []
    for token in tokens:
        if whole and token and whole[-1][-1][0] in WITH_NEXT:
            whole[-1] += [(" ", False), *token]
        elif token:
            whole.append(token)
    return whole
