"""The structure of a page: its elements as they are read, cells gathered into tables."""

from __future__ import annotations

from keyseats.page import Page
from keyseats.renderers.grid import CELLS, Cell, table
from keyseats.renderers.marking import Node, bounds, marked

# How far an aside may stand from its cell's edge, as a hung dagger does. [pt]
_BESIDE = 3.0


def structure(page: Page) -> list[Node]:
    """Return the elements of a page in reading order.

    Head and figure cells that follow each other are one table; its rows and columns are where they
    stand. A block of role ``Table`` says so outright, and a head that holds heads stands over them.
    A paragraph or figure between cells, in the column of the one before, belongs to that cell; in
    a table that was said outright it is a cell of its own elsewhere.
    """
    _, nodes = marked(page)
    return _gathered(nodes)


def _gathered(nodes: list[Node]) -> list[Node]:
    out: list[Node] = []
    cells: list[Cell] = []
    asides: list[Node] = []

    def close() -> None:
        if cells:
            out.append(table(cells, []))
        out.extend(asides)
        cells.clear()
        asides.clear()

    for node in nodes:
        if node.role in CELLS:
            cell = Cell.of(node)
            if _starts_anew(cells, cell):
                close()
            elif asides:
                cells[-1].node.kids += asides
                asides.clear()
            cells.append(cell)
        elif cells and node.role in ("P", "Figure") and _beside(cells[-1], node):
            asides.append(node)
        else:
            close()
            out += _declared(node) if node.role == "Table" else [node]
    close()
    return out


def _starts_anew(cells: list[Cell], cell: Cell) -> bool:
    """Return whether a column's head under figures already set begins another table."""
    if not cell.heads_column or not any(c.node.role == "TD" for c in cells):
        return False
    return cell.first > max(c.base for c in cells)


def _beside(cell: Cell, node: Node) -> bool:
    assert node.block is not None
    left, _, right, _ = bounds(node.block)
    return left <= cell.right + _BESIDE and right >= cell.left - _BESIDE


def _level(row: Node) -> list[Cell]:
    """Return the cells of a declared row, all on the level of the first."""
    cells: list[Cell] = []
    for kid in row.kids:
        assert isinstance(kid, Node)
        if kid.role not in CELLS and cells and _beside(cells[-1], kid):
            cells[-1].node.kids.append(kid)
            continue
        node = kid if kid.role in CELLS else Node("TD", [kid], block=kid.block)
        cells.append(Cell.of(node))
    for cell in cells:
        cell.first = cell.base = cells[0].first
    return cells


def _declared(node: Node) -> list[Node]:
    """Return a table that its sheet declared, after what it holds before its first cell."""
    before: list[Node] = []
    cells: list[Cell] = []
    wide: list[tuple[float, Node]] = []
    for kid in node.kids:
        assert isinstance(kid, Node)
        if kid.role in CELLS:
            cells.append(Cell.of(kid))
        elif kid.role == "TR":
            cells += _level(kid)
        elif kid.role == "Table":
            assert kid.block is not None
            top = bounds(kid.block)[1]
            wide += [(top, inner) for inner in _declared(kid)]
        elif cells and _beside(cells[-1], kid):
            cells[-1].node.kids.append(kid)
        elif cells:
            cells.append(Cell.of(Node("TD", [kid], block=kid.block)))
        else:
            before.append(kid)
    return [*before, table(cells, wide)] if cells else before
