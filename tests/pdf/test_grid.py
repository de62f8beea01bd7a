"""Tables found from where their cells stand."""

from __future__ import annotations

from keyseats.page import Block, Page, Shape, Text
from keyseats.renderers.marking import Node, marked
from keyseats.renderers.structure import structure
from keyseats.setting import Composer, box


def found(*blocks: Block) -> tuple[list[Node], dict[int, str]]:
    page = Page("p", "P", "A4", blocks, 1.0, 595.0, 842.0)
    runs, _ = marked(page)
    text = {
        run.number: "".join(i.text for i in run.items if isinstance(i, Text))
        for run in runs
        if run.number is not None
    }
    return structure(page), text


def shown(*blocks: Block) -> list[list[str]]:
    """Return the rows of the one table that blocks make: text, and what is spanned."""
    nodes, text = found(*blocks)
    assert [node.role for node in nodes] == ["Table"]
    return [[cell_text(cell, text) for cell in kids(row)] for row in kids(nodes[0])]


def kids(node: Node) -> list[Node]:
    return [kid for kid in node.kids if isinstance(kid, Node)]


def cell_text(cell: Node, text: dict[int, str]) -> str:
    said = " ".join(text[n] for n in cell.numbers())
    spans = f" {cell.columns}x{cell.rows}" if cell.columns * cell.rows > 1 else ""
    return said + spans


def cell(x: float, y: float, text: str, head: str = "") -> Block:
    """Return a cell flush right at a place."""
    line = Text(x, y, text, 10.0, anchor="end")
    return Block("TH" if head else "TD", (line,), header=head)


def test_rows_and_columns_follow_from_where_cells_stand() -> None:
    assert shown(
        cell(100, 20, "shaft", "Column"),
        cell(200, 20, "depth", "Column"),
        cell(100, 40, "1", "Row"),
        cell(200, 40, "0.1"),
        cell(100, 60, "2", "Row"),
        cell(200, 60, "0.2"),
    ) == [["shaft", "depth"], ["1", "0.1"], ["2", "0.2"]]


def test_lines_of_a_head_are_one_head_and_a_missing_cell_is_empty() -> None:
    assert shown(
        cell(100, 8, "depth", "Column"),
        cell(100, 20, "at edge", "Column"),
        cell(200, 20, "hub", "Column"),
        cell(100, 40, "0.1"),
        cell(200, 40, "0.2"),
        cell(200, 60, "0.3"),
    ) == [["depth at edge", "hub"], ["0.1", "0.2"], ["", "0.3"]]


def test_a_head_over_two_heads_spans_them() -> None:
    page = Composer()
    page.say(50, 20, "shaft", 10, anchor="end", role="TH", header="Column")
    with page.over():
        page.say(200, 4, "seat", 10, anchor="end")
        page.say(120, 20, "least", 10, anchor="end", role="TH", header="Column")
        page.say(200, 20, "most", 10, anchor="end", role="TH", header="Column")
    page.add(cell(50, 40, "1", "Row"), cell(120, 40, "0.1"), cell(200, 40, "0.2"))
    assert shown(*page.blocks) == [
        ["shaft 1x2", "seat 2x1"],
        ["least", "most"],
        ["1", "0.1", "0.2"],
    ]


def test_a_figure_between_two_columns_is_neither_the_one_nor_the_other() -> None:
    assert shown(
        cell(50, 20, "width", "Row"),
        cell(100, 20, "0.10"),
        cell(150, 20, "0.20"),
        cell(50, 40, "arc", "Row"),
        cell(130, 40, "0.0060"),
    ) == [["width", "0.10", "0.20"], ["arc", "0.0060 2x1"]]


def test_a_name_stands_for_the_rows_under_it() -> None:
    assert shown(
        cell(50, 20, "1/8", "Row"),
        cell(100, 20, "a"),
        cell(100, 40, "b"),
        cell(50, 60, "1/4", "Row"),
        cell(100, 60, "c"),
    ) == [["1/8 1x2", "a"], ["b"], ["1/4", "c"]]


def test_what_stands_under_a_cell_belongs_to_it_and_what_stands_aside_ends_the_table() -> None:
    aside = Block("P", (Text(40, 30, "over 1", 6.0),))
    note = Block("P", (Text(300, 40, "a note", 6.0),))
    nodes, text = found(
        cell(50, 20, "1/8", "Row"), aside, cell(100, 20, "a"), note, cell(100, 90, "b")
    )
    assert [node.role for node in nodes] == ["Table", "P", "Table"]
    assert [cell_text(c, text) for c in kids(kids(nodes[0])[0])] == ["1/8 over 1", "a"]


def test_a_table_in_a_table_takes_a_whole_row() -> None:
    page = Composer()
    with page.table():
        page.add(cell(50, 20, "1", "Row"), cell(100, 20, "a"))
        with page.table():
            page.add(cell(60, 40, "x", "Row"), cell(140, 40, "y"))
        page.add(cell(50, 60, "2", "Row"), cell(100, 60, "b"))
    nodes, text = found(*page.blocks)
    rows = kids(nodes[0])
    assert [len(kids(row)) for row in rows] == [2, 1, 2]
    wide = kids(rows[1])[0]
    assert wide.columns == 2
    assert [node.role for node in kids(wide)] == ["Table"]
    assert list(wide.numbers()) == [2, 3]
    assert text[2] + text[3] == "xy"


def test_a_drawing_in_a_declared_table_is_a_cell_of_its_row() -> None:
    drawing = Block("Figure", (Shape(box(150, 10, 190, 35), stroke=1.0),), alt="an outline")
    low = Block("Figure", (Shape(box(150, 55, 190, 80), stroke=1.0),), alt="another")
    cells = (cell(50, 20, "1", "Row"), cell(100, 20, "a"), drawing)
    more = (cell(50, 65, "2", "Row"), cell(100, 65, "b"), low)
    nodes, _ = found(Block("Table", cells + more))
    assert [[kid.role for kid in kids(row)] for row in kids(nodes[0])] == [["TH", "TD", "TD"]] * 2
    assert [kid.role for kid in kids(kids(kids(nodes[0])[1])[2])] == ["Figure"]


def test_whole_numbers_and_fractions_set_to_one_joint_are_one_column() -> None:
    whole = Block("TH", (Text(50, 20, "1", 10.0, anchor="end"),), header="Row")
    part = Block("TH", (Text(52, 40, "1/2", 10.0),), header="Row")
    mixed = Block("TH", (Text(43.6, 60, "1 1/2", 10.0),), header="Row")
    rows = (whole, cell(150, 20, "a"), part, cell(150, 40, "b"), mixed, cell(150, 60, "c"))
    assert shown(*rows) == [["1", "a"], ["1/2", "b"], ["1 1/2", "c"]]
