"""The sheet of errors: eight slips, each with its drawing, its error and what to do instead."""

from __future__ import annotations

from dataclasses import dataclass

from keyseats.frame import Frame
from keyseats.load import Tables
from keyseats.page import Block
from keyseats.setting import figure, paragraph, set_width, words
from keyseats.setting_up.sketch import Sketch
from keyseats.setting_up.slip_drawings import DRAWINGS, HEIGHT, WIDE, caption
from keyseats.setting_up.slips import Example, Slip, example, slips
from keyseats.setting_up.system import System

ACROSS, GAP = 2, 1.2
# Sizes of the words beside a drawing: the largest that fits every cell; the least is that of notes.
SIZES, CAPTION_SIZE, LEADING = (0.72, 0.66, 0.6), 0.6, 1.2
# The lead words over a cell, what stands under a drawing, and the least room of the words beside.
HEAD, CAPTION, BESIDE = 1.35, 0.75, 9.3


@dataclass(frozen=True)
class Cell:
    """The place of one slip: its upper left corner, and its size. [pt]"""

    x: float
    top: float
    wide: float
    tall: float

    def scale(self, u: float) -> float:
        """Return the scale of its drawing, as large as height and words leave room for."""
        high = (self.tall / u - HEAD - CAPTION) / HEIGHT
        return min(high, (self.wide / u - 0.4 - BESIDE) / WIDE)


def wrong(f: Frame, tables: Tables, system: System, y: float, bottom: float) -> None:
    """Set the slips between two levels, two in a row.

    Raises
    ------
    ValueError
        If the words of a slip are taller than its cell.
    """
    u, c = f.unit, f.composer
    ex = example(tables, system)
    said = (
        f"{ex.says}. Full line: as cut. Dashed: as it should be, at the least depth from crown. "
        "Small errors are drawn larger, as said under them."
    )
    block, last = paragraph(f.left, y + u * 1.0, said, u * 0.62, f.right - f.left)
    c.add(block)
    all_slips = slips(tables, system)
    cells = _cells(f, last + u * 0.5, bottom, len(all_slips))
    for cell in cells:
        c.rule(cell.x, cell.x + cell.wide, cell.top, u * 0.06)
    placed = list(zip(all_slips, cells, strict=True))
    size = next((s for s in SIZES if all(_fits(f, slip, cell, s) for slip, cell in placed)), None)
    if size is None:
        raise ValueError("the words of a slip are taller than their cell")
    for slip, cell in placed:
        c.say(cell.x, cell.top + u * 1.05, slip.done, u * 0.66, bold=True, role="H2")
        c.add(*_drawing(f, slip, ex, cell), _error(f, slip, cell))
        c.add(*_beside(f, slip, cell, size)[0])


def _cells(f: Frame, y: float, bottom: float, count: int) -> list[Cell]:
    gap = GAP * f.unit
    wide, tall = (f.right - f.left - gap) / ACROSS, (bottom - y) / -(-count // ACROSS)
    return [
        Cell(f.left + (n % ACROSS) * (wide + gap), y + n // ACROSS * tall, wide, tall)
        for n in range(count)
    ]


def _drawing(f: Frame, slip: Slip, ex: Example, cell: Cell) -> list[Block]:
    """Return the drawing, and how many times its size the error is drawn.

    Raises
    ------
    ValueError
        If the words under the drawing run under those beside it.
    """
    u = f.unit
    d = Sketch(f, cell.x, cell.top + u * HEAD, cell.scale(u))
    DRAWINGS[slip.kind](d, slip, ex)
    shows = d.block(f"{slip.done}: the seat as cut, and as it should be", rows=slip.error.rows)
    said = caption(slip)
    if not said:
        return [shows]
    if set_width(said, u * CAPTION_SIZE) > WIDE * d.u:
        raise ValueError(f"'{said}' runs under the words beside it")
    # Under its drawing, clear of the rule of the next cell.
    under = min(d.y + HEIGHT * d.u + u * 0.8, cell.top + cell.tall - u * 0.3)
    return [shows, Block("P", (words(cell.x, under, said, u * CAPTION_SIZE),))]


def _at(f: Frame, cell: Cell) -> float:
    """Return where the words beside a drawing begin. [pt]"""
    return cell.x + WIDE * cell.scale(f.unit) * f.unit + f.unit * 0.4


def _error(f: Frame, slip: Slip, cell: Cell) -> Block:
    u, base = f.unit, cell.top + f.unit * 2.45
    end = _at(f, cell) + set_width(slip.error.text, u, True)
    error = figure(end, base, slip.error, u, bold=True, role="Span", cut=False)
    return Block("P", (error, words(end + u * 0.75, base, slip.kind, u * 0.66)))


def _beside(f: Frame, slip: Slip, cell: Cell, size: float) -> tuple[list[Block], float]:
    """Return what follows and what to do instead, and the last baseline."""
    u, at = f.unit, _at(f, cell)
    size, room = u * size, cell.x + cell.wide - at
    y = cell.top + u * 2.45 + size * 1.58
    follows, last = paragraph(at, y, slip.follows, size, room, leading=LEADING)
    last += size * 1.43
    instead, last = paragraph(at, last, slip.instead, size, room, lead="Instead:", leading=LEADING)
    return [follows, instead], last


def _fits(f: Frame, slip: Slip, cell: Cell, size: float) -> bool:
    return _beside(f, slip, cell, size)[1] <= cell.top + cell.tall - f.unit * 0.35
