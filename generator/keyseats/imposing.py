"""Cards on a sheet: a grid of faces, backs in register, cut marks outside the cards."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from keyseats.page import MM, PAPERS, Block, Graph, Line, Mark, Text

Cell = tuple[int, int]
LONG, SHORT = "LongEdge", "ShortEdge"
EDGE = 10 * MM
MARK_WIDTH, MARK_LONG, MARK_OFF = 0.25, 5 * MM, 3 * MM


@dataclass(frozen=True)
class Grid:
    """Cells of one card size, edge to edge, centred on a sheet so that both sides coincide."""

    paper: str
    card: str
    columns: int
    rows: int

    @property
    def cells(self) -> tuple[Cell, ...]:
        """Return the cells, column and row, in reading order."""
        return tuple((c, r) for r in range(self.rows) for c in range(self.columns))

    @property
    def left(self) -> float:
        """Return the left edge of the first column. [pt]"""
        return (PAPERS[self.paper][0] - self.columns * PAPERS[self.card][0]) / 2

    @property
    def top(self) -> float:
        """Return the top edge of the first row. [pt]"""
        return (PAPERS[self.paper][1] - self.rows * PAPERS[self.card][1]) / 2

    @property
    def right(self) -> float:
        """Return the right edge of the last column. [pt]"""
        return PAPERS[self.paper][0] - self.left

    @property
    def bottom(self) -> float:
        """Return the bottom edge of the last row. [pt]"""
        return PAPERS[self.paper][1] - self.top

    def corner(self, cell: Cell) -> tuple[float, float]:
        """Return a cell's top left corner on the sheet. [pt]"""
        wide, high = PAPERS[self.card]
        return self.left + cell[0] * wide, self.top + cell[1] * high


def grid_for(paper: str, card: str, ends: float) -> Grid:
    """Return the largest grid of a card that leaves the sheet its edges.

    Parameters
    ----------
    paper, card
        Names of `keyseats.page.PAPERS`; the paper upright.
    ends
        Room kept at the head and the foot for the sheet's own words. [pt]

    Raises
    ------
    ValueError
        If not one card fits.
    """
    wide, high = PAPERS[card]
    side = EDGE + MARK_OFF + MARK_LONG
    columns = int((PAPERS[paper][0] - 2 * side) // wide)
    rows = int((PAPERS[paper][1] - 2 * max(ends, side)) // high)
    if columns < 1 or rows < 1:
        raise ValueError(f"a {card} card does not fit on {paper}")
    return Grid(paper, card, columns, rows)


def back_cell(cell: Cell, grid: Grid, flip: str = LONG) -> Cell:
    """Return the cell that holds a front cell's back, on a sheet printed on both sides.

    Flipped on its long edge an upright sheet turns like a book page, and so does each card.
    Flipped on its short edge it turns like a calendar leaf, and so does each card: the backs
    stand upright on their own page either way.

    Parameters
    ----------
    cell
        Column and row of the front.
    grid
        The sheet's grid.
    flip
        ``LongEdge`` or ``ShortEdge``.

    Raises
    ------
    ValueError
        If the flip is neither.
    """
    column, row = cell
    if flip == LONG:
        return grid.columns - 1 - column, row
    if flip == SHORT:
        return column, grid.rows - 1 - row
    raise ValueError(f"a sheet is flipped on its {LONG} or its {SHORT}, not on {flip}")


def moved(item: Block | Mark, dx: float, dy: float) -> Block | Mark:
    """Return a block or mark shifted right and down. [pt]"""
    if isinstance(item, Block):
        return moved_block(item, dx, dy)
    if isinstance(item, Text):
        return replace(item, x=item.x + dx, y=item.y + dy)
    if isinstance(item, Graph):
        return replace(item, x=item.x + dx, y=item.y + dy)
    if isinstance(item, Line):
        return replace(item, x1=item.x1 + dx, y1=item.y1 + dy, x2=item.x2 + dx, y2=item.y2 + dy)
    return replace(item, path=tuple(_moved_piece(piece, dx, dy) for piece in item.path))


def moved_block(block: Block, dx: float, dy: float) -> Block:
    """Return a block shifted right and down with all that is in it. [pt]"""
    return replace(block, items=tuple(moved(item, dx, dy) for item in block.items))


def _moved_piece(piece: tuple[str | float, ...], dx: float, dy: float) -> tuple[str | float, ...]:
    numbers = [float(n) + (dy if i % 2 else dx) for i, n in enumerate(piece[1:])]
    return (piece[0], *numbers)


def placed(
    faces: Sequence[tuple[Block, ...]], grid: Grid, *, backs: bool = False, flip: str = LONG
) -> tuple[Block, ...]:
    """Return faces moved into their cells, in reading order of the fronts.

    Parameters
    ----------
    faces
        One face a cell, each in its card's own coordinates.
    grid
        The sheet's grid.
    backs
        Whether these are backs, which stand behind their fronts.
    flip
        Edge on which the sheet is turned over.
    """
    blocks: list[Block] = []
    for cell, face in zip(grid.cells, faces, strict=False):
        dx, dy = grid.corner(back_cell(cell, grid, flip) if backs else cell)
        blocks += [moved_block(block, dx, dy) for block in face]
    return tuple(blocks)


def cut_marks(grid: Grid) -> Block:
    """Return the cut marks, in line with the cards' edges and clear of them."""
    near, far = MARK_OFF, MARK_OFF + MARK_LONG
    wide, high = PAPERS[grid.card]
    marks: list[Mark] = []
    for n in range(grid.columns + 1):
        x = grid.left + n * wide
        marks.append(Line(x, grid.top - far, x, grid.top - near, MARK_WIDTH))
        marks.append(Line(x, grid.bottom + near, x, grid.bottom + far, MARK_WIDTH))
    for n in range(grid.rows + 1):
        y = grid.top + n * high
        marks.append(Line(grid.left - far, y, grid.left - near, y, MARK_WIDTH))
        marks.append(Line(grid.right + near, y, grid.right + far, y, MARK_WIDTH))
    return Block("Artifact", tuple(marks))


__all__ = [
    "LONG",
    "SHORT",
    "Cell",
    "Grid",
    "back_cell",
    "cut_marks",
    "grid_for",
    "moved",
    "moved_block",
    "placed",
]
