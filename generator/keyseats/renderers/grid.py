"""A table from cells that know only where they stand: rows, columns, heads, and what spans."""

from __future__ import annotations

from dataclasses import dataclass, replace

from keyseats.page import Block, Text
from keyseats.renderers.marking import Node, bounds, marks, text_ends

CELLS = ("TH", "TD")
# Baselines nearer than this share a row; lines of one head are nearer than the other. [size]
_ROW, _LINE = 0.5, 1.7
# How much of the narrower must be shared for a head to stand over a column.
_SHARED = 0.5
# The same for one line of a head over another.
_TOUCHED = 0.25
_HAIR = 1.0


@dataclass
class Cell:
    """A cell and where its text stands: edges, first and last baseline, type size. [pt]"""

    node: Node
    left: float
    right: float
    first: float
    base: float
    size: float

    @classmethod
    def of(cls, node: Node) -> Cell:
        """Return a head or figure cell with its place."""
        assert node.block is not None
        own = [i for i in node.block.items if not (isinstance(i, Block) and i.role == "TH")]
        block = replace(node.block, items=tuple(own))
        texts = [m for m in marks(block) if isinstance(m, Text)]
        if node.block.role == "Figure" or not texts:
            left, top, right, bottom = bounds(block)
            return cls(node, left, right, (top + bottom) / 2, (top + bottom) / 2, 0.0)
        ends = [text_ends(t) for t in texts]
        size = max(t.size for t in texts)
        lines = [t.y for t in texts if t.size == size]
        left, right = min(e[0] for e in ends), max(e[1] for e in ends)
        return cls(node, left, right, lines[0], lines[-1], size)

    @property
    def heads_column(self) -> bool:
        """Return whether it is the head of a column."""
        return self.node.role == "TH" and self.node.header == "Column"


@dataclass
class _Head:
    """A column head: its lines, the heads under it, and the columns that it stands over."""

    lines: list[Cell]
    under: list[_Head]
    first: int = -1
    last: int = -1
    depth: int = 0

    @property
    def left(self) -> float:
        return min(c.left for c in self.lines)

    @property
    def right(self) -> float:
        return max(c.right for c in self.lines)

    @property
    def top(self) -> float:
        return self.lines[0].first

    @property
    def base(self) -> float:
        return self.lines[-1].base


_Columns = list[tuple[float, float]]
_Row = dict[int, Node]


def table(cells: list[Cell], wide: list[tuple[float, Node]]) -> Node:
    """Return a table element: rows of cells, each row as many columns as the others.

    Parameters
    ----------
    cells
        Its cells; a head that is set in several lines may come as several.
    wide
        Tables within it, each with the level at which it stands. [pt]
    """
    figures = [c.first for c in cells if c.node.role == "TD"]
    until = min(figures) if figures else float("inf")
    for cell in cells:
        if cell.node.role == "TH" and not cell.node.header:
            cell.node.header = "Column" if cell.base < until else "Row"
    heads = [c for c in cells if c.heads_column and c.base < until]
    floor = max((c.base for c in heads), default=float("-inf"))
    body = [c for c in cells if not (c.heads_column and c.base < until)]
    stubs = [c for c in body if c.base <= floor + c.size * _ROW and c.base < until]
    body = [c for c in body if c not in stubs]
    stacked = _stacked(heads)
    columns = _columns(body + stubs)
    if not figures:
        columns = _columns([*body, *stubs, *(h.lines[-1] for h in stacked if not h.under)])
    rows = _head_rows(stacked, stubs, columns)
    levels = [float("-inf")] * len(rows)
    for base, row in _body_rows(body, columns):
        rows.append(row)
        levels.append(base)
    return _assembled(rows, levels, len(columns), wide)


def _columns(cells: list[Cell]) -> _Columns:
    """Return the columns' edges from left to right, as the fullest rows show them first."""
    rows: dict[float, list[Cell]] = {}
    for cell in cells:
        rows.setdefault(round(cell.base, 1), []).append(cell)
    columns: _Columns = []
    for _, row in sorted(rows.items(), key=lambda r: (-len(r[1]), r[0])):
        for cell in sorted(row, key=lambda c: c.left):
            over = _over(cell, columns)
            if not over:
                columns.append((cell.left, cell.right))
                columns.sort()
            elif len(over) == 1:
                n = over[0]
                before = columns[n - 1][1] if n else float("-inf")
                after = columns[n + 1][0] if n + 1 < len(columns) else float("inf")
                left, right = columns[n]
                columns[n] = max(min(left, cell.left), before), min(max(right, cell.right), after)
    return _joined(columns, list(rows.values()))


def _joined(columns: _Columns, rows: list[list[Cell]]) -> _Columns:
    """Join neighbours that no row fills both, as whole numbers and fractions set to one joint."""
    out = columns[:1]
    size = max((c.size for row in rows for c in row), default=0.0)
    for column in columns[1:]:
        pair = [out[-1], column]
        used = [[_over(cell, pair) for cell in row] for row in rows]
        both = any([0] in row and [1] in row for row in used)
        whole = any([0, 1] in row for row in used)
        if whole and not both and column[0] - out[-1][1] < size * _ROW:
            out[-1] = (out[-1][0], column[1])
        else:
            out.append(column)
    return out


def _over(cell: Cell, columns: _Columns) -> list[int]:
    """Return the columns that a cell stands in; one that stands between two is in both."""
    over = [
        n
        for n, (left, right) in enumerate(columns)
        if min(cell.right, right) - max(cell.left, left) > _HAIR
    ]
    if len(over) == 1:
        n, middle = over[0], (cell.left + cell.right) / 2
        if middle < columns[n][0] and n and cell.left < columns[n - 1][1] + _HAIR:
            return [n - 1, n]
        if middle > columns[n][1] and n + 1 < len(columns):
            return [n, n + 1] if cell.right > columns[n + 1][0] - _HAIR else over
    return over


def _stacked(cells: list[Cell]) -> list[_Head]:
    """Return the heads, lines that stand over one another made one, and what they stand over."""
    heads: list[_Head] = []
    for cell in sorted(cells, key=lambda c: (-c.base, c.left)):
        below = [
            h
            for h in heads
            if 0 < h.top - cell.base <= _LINE * max(cell.size, h.lines[0].size)
            and min(h.right, cell.right) - max(h.left, cell.left)
            > _TOUCHED * min(h.right - h.left, cell.right - cell.left)
        ]
        # A line over one head continues it upward; over several it stands above them all.
        if len(below) == 1:
            below[0].lines.insert(0, cell)
        else:
            heads.append(_Head([cell], [h for h in below if not _held(h, heads)]))
            inner = [k for k in cell.node.kids if isinstance(k, Node) and k.role == "TH"]
            if inner:
                cell.node.kids = [k for k in cell.node.kids if k not in inner]
                held = _stacked([Cell.of(node) for node in inner])
                heads[-1].under = [h for h in held if not _held(h, held)]
                heads += held
    return heads


def _held(head: _Head, heads: list[_Head]) -> bool:
    return any(head in other.under for other in heads)


def _claimed(heads: list[_Head], columns: _Columns) -> None:
    """Give each head its columns: first those with nothing under them, the lowest first."""
    free = set(range(len(columns)))
    for head in sorted((h for h in heads if not h.under), key=lambda h: (-h.base, h.left)):
        over = [n for n in sorted(free) if _stands_over(head, columns[n])]
        if not over and free:
            middle = (head.left + head.right) / 2
            over = [min(free, key=lambda n: abs(sum(columns[n]) / 2 - middle))]
        if over:
            head.first, head.last = over[0], over[0]
            while head.last + 1 in over:
                head.last += 1
            free -= set(range(head.first, head.last + 1))
    for head in sorted((h for h in heads if h.under), key=lambda h: -h.base):
        head.first = min(h.first for h in head.under)
        head.last = max(h.last for h in head.under)
    for head in heads:
        _sink(head, 0)


def _sink(head: _Head, depth: int) -> None:
    head.depth = max(head.depth, depth)
    for other in head.under:
        _sink(other, head.depth + 1)


def _stands_over(head: _Head, column: tuple[float, float]) -> bool:
    shared = min(head.right, column[1]) - max(head.left, column[0])
    return shared > _SHARED * min(head.right - head.left, column[1] - column[0])


def _head_rows(heads: list[_Head], stubs: list[Cell], columns: _Columns) -> list[_Row]:
    if not heads and not stubs:
        return []
    _claimed(heads, columns)
    deep = max((h.depth for h in heads), default=0) + 1
    rows: list[_Row] = [{} for _ in range(deep)]
    for head in heads:
        nodes = [line.node for line in head.lines]
        node = nodes[0]
        if len(nodes) > 1:
            node = Node("TH", [Node("P", n.kids) for n in nodes], header="Column")
        if head.first < 0:
            rows[0][min(rows[0])].kids.append(Node("P", node.kids))
            continue
        node.columns = head.last - head.first + 1
        node.rows = 1 if head.under else deep - head.depth
        rows[head.depth][head.first] = node
    for stub in stubs:
        _put(rows[-1], stub, columns)
    return rows


def _body_rows(cells: list[Cell], columns: _Columns) -> list[tuple[float, _Row]]:
    rows: list[tuple[float, _Row]] = []
    size = 0.0
    for cell in sorted((c for c in cells if c.size), key=lambda c: (c.first, c.left)):
        size = max(size, cell.size)
        if not rows or cell.first - rows[-1][0] > size * _ROW:
            rows.append((cell.first, {}))
            size = cell.size
        _put(rows[-1][1], cell, columns)
    for cell in cells:
        if not cell.size:
            _put(min(rows, key=lambda r: abs(r[0] - cell.base))[1], cell, columns)
    return rows


def _put(row: _Row, cell: Cell, columns: _Columns) -> None:
    over = _over(cell, columns)
    at = over[0]
    if at in row:
        row[at].kids.append(Node("P", cell.node.kids))
        return
    cell.node.columns = over[-1] - at + 1
    row[at] = cell.node


def _assembled(
    rows: list[_Row], levels: list[float], count: int, wide: list[tuple[float, Node]]
) -> Node:
    """Return the table's element; places that no cell covers are empty cells."""
    breaks = {next((n for n, y in enumerate(levels) if y > top), len(rows)) for top, _ in wide}
    for n, row in enumerate(rows):
        first = row.get(0)
        if first is not None and first.header == "Row" and first.rows == 1:
            last = n + 1
            while last < len(rows) and 0 not in rows[last] and last not in breaks:
                last += 1
            first.rows = last - n
    for column in range(1, count):
        for n, row in enumerate(rows):
            _deepen(rows, row.get(column), n, column)
    built = Node("Table")
    held: dict[int, int] = {}
    pending = sorted(wide, key=lambda w: w[0])
    for level, row in zip(levels, rows, strict=True):
        while pending and pending[0][0] < level:
            built.kids.append(_wide_row(pending.pop(0)[1], count))
        built.kids.append(_row(row, count, held))
    built.kids += [_wide_row(node, count) for _, node in pending]
    return built


def _deepen(rows: list[_Row], node: Node | None, n: int, column: int) -> None:
    """Let a row's name stand for the rows under it that have names of their own beside it."""
    if node is None or node.header != "Row" or node.rows > 1:
        return
    last = n + 1
    while last < len(rows) and column not in rows[last]:
        beside = rows[last].get(column + 1)
        if beside is None or beside.header != "Row" or 0 in rows[last]:
            break
        last += 1
    node.rows = last - n


def _row(row: _Row, count: int, held: dict[int, int]) -> Node:
    """Return one row; ``held`` says for how many rows to come a column is taken from above."""
    cells: list[Node | int] = []
    column = 0
    while column < count:
        if held.get(column, 0):
            held[column] -= 1
            column += 1
            continue
        node = row.get(column) or Node("TD")
        cells.append(node)
        for taken in range(column, column + node.columns):
            held[taken] = node.rows - 1
        column += node.columns
    return Node("TR", cells)


def _wide_row(node: Node, count: int) -> Node:
    return Node("TR", [Node("TD", [node], columns=count)])
