"""Cards on their sheets: backs behind their fronts, and nothing near a cut."""

from __future__ import annotations

import re

import pytest

from keyseats.build import document_bytes
from keyseats.imposing import LONG, SHORT, Grid, back_cell, grid_for
from keyseats.load import Tables
from keyseats.page import MM, PAPERS, Document
from keyseats.sheets import find
from pdf.reading import ReadPage, read

SHEETS = {sheet.name: sheet for sheet in find() if sheet.kind == "pocket cards"}
CASES = [
    ("cards-id1", "Letter", "ID-1"),
    ("cards-id1", "A4", "ID-1"),
    ("cards-index", "Letter", "3 x 5 in"),
    ("cards-index", "A4", "A7"),
]


def corners(grid: Grid) -> list[tuple[float, float, float, float]]:
    wide, high = PAPERS[grid.card]
    return [(x, y, x + wide, y + high) for x, y in (grid.corner(cell) for cell in grid.cells)]


@pytest.mark.parametrize(("paper", "card"), [(p, c) for _, p, c in CASES])
def test_a_back_lies_behind_its_front(paper: str, card: str) -> None:
    """Turned on the long edge a sheet mirrors left and right, on the short edge top and bottom."""
    grid = grid_for(paper, card, 18 * MM)
    wide, high = PAPERS[paper]
    for cell in grid.cells:
        x, y = grid.corner(cell)
        bx, by = grid.corner(back_cell(cell, grid, LONG))
        assert abs((wide - bx - PAPERS[card][0]) - x) < 1e-6
        assert abs(by - y) < 1e-6
        bx, by = grid.corner(back_cell(cell, grid, SHORT))
        assert abs(bx - x) < 1e-6
        assert abs((high - by - PAPERS[card][1]) - y) < 1e-6


def pages(name: str, paper: str, tables: Tables) -> list[ReadPage]:
    made = tuple(SHEETS[name].pages(tables, paper))
    return read(document_bytes(Document(name, name, name, paper, made)))


@pytest.mark.parametrize(("name", "paper", "card"), CASES)
def test_nothing_is_printed_within_3_mm_of_a_cut(
    name: str, paper: str, card: str, tables: Tables
) -> None:
    grid = grid_for(paper, card, 18 * MM)
    for page in pages(name, paper, tables):
        inside = 0
        for word in page.words:
            for x1, y1, x2, y2 in corners(grid):
                if x1 < (word.x0 + word.x1) / 2 < x2 and y1 < word.baseline < y2:
                    inside += 1
                    assert word.x0 >= x1 + 3 * MM, word
                    assert word.x1 <= x2 - 3 * MM, word
                    assert word.baseline - word.size * 0.73 >= y1 + 3 * MM, word
                    assert word.baseline <= y2 - 3 * MM, word
        assert inside > 50


@pytest.mark.parametrize(("name", "paper", "card"), CASES)
def test_each_back_has_the_number_of_its_front(
    name: str, paper: str, card: str, tables: Tables
) -> None:
    grid = grid_for(paper, card, 18 * MM)
    found = pages(name, paper, tables)
    for front, back in zip(found[::2], found[1::2], strict=True):
        for cell in grid.cells:
            assert number(front, grid, cell) == number(back, grid, back_cell(cell, grid, LONG))


def number(page: ReadPage, grid: Grid, cell: tuple[int, int]) -> str:
    x, y = grid.corner(cell)
    wide, high = PAPERS[grid.card]
    text = " ".join(w.text for w in page.words if x < w.x0 < x + wide and y < w.baseline < y + high)
    match = re.search(r"Card (\d) of", text)
    assert match, text
    return match.group(1)
