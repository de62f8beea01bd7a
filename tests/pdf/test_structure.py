"""The structure of finished PDFs, read back: what is said, in which order, and that nothing is."""

from __future__ import annotations

import io
import re
from functools import cache
from itertools import islice
from typing import Any

import pikepdf
import pytest

from keyseats.build import document_bytes, file_name
from keyseats.load import Tables
from keyseats.page import PAPERS, Block, Document
from keyseats.paths import tables_dir
from keyseats.sheets import Sheet, find
from pdf.tagged import Element, TaggedPage, tagged

FIRST_OF_KIND = list({sheet.kind: sheet for sheet in reversed(find())}.values())
# Two pages of a hundred alike are enough for every run; the slow ones read them all.
ALIKE = {"shaft sheets": 2}
Case = tuple[Sheet, str, int | None]
QUICK: list[Case] = [(s, s.papers[0], ALIKE.get(s.kind)) for s in FIRST_OF_KIND]
REST: list[Case] = [
    (sheet, paper, None)
    for sheet in find()
    for paper in sheet.papers
    if (sheet, paper, None) not in QUICK
]
CASES = [pytest.param(*c, id=f"{c[0].name}-{c[1]}-{c[2] or 'all'}") for c in QUICK] + [
    pytest.param(*c, id=f"{c[0].name}-{c[1]}", marks=pytest.mark.slow) for c in REST
]
every_sheet = pytest.mark.parametrize(("sheet", "paper", "count"), CASES)


@cache
def made(name: str, paper: str, count: int | None) -> tuple[Document, bytes]:
    sheet = next(s for s in find() if s.name == name)
    pages = tuple(islice(sheet.pages(Tables(tables_dir()), paper), count))
    document = Document(
        file_name(name, paper), sheet.title, sheet.title, paper, pages, sheet.duplex
    )
    return document, document_bytes(document)


@cache
def read(name: str, paper: str, count: int | None) -> list[TaggedPage]:
    return tagged(made(name, paper, count)[1])


def of_role(page: TaggedPage, *roles: str) -> list[Element]:
    return [e for e in page.section.all() if e.role in roles]


@every_sheet
def test_content_and_structure_name_each_other_once(
    sheet: Sheet, paper: str, count: int | None
) -> None:
    for page in read(sheet.name, paper, count):
        assert page.numbers == list(range(len(page.numbers)))
        assert sorted(page.section.in_order()) == page.numbers
        owner = {n: e.ident for e in page.section.all() for n in e.numbers}
        assert page.owners == [owner[n] for n in page.numbers]


@every_sheet
def test_nothing_is_drawn_outside_of_marked_content(
    sheet: Sheet, paper: str, count: int | None
) -> None:
    for page in read(sheet.name, paper, count):
        assert page.bare == []


@every_sheet
def test_elements_stand_where_they_may(sheet: Sheet, paper: str, count: int | None) -> None:
    """ISO 32000-1, 14.8.4: rows in tables, cells in rows, inline elements in blocks."""
    within = {
        "Sect": {"H1", "H2", "P", "Table", "Figure"},
        "Table": {"TR"},
        "TR": {"TH", "TD"},
        "TH": {"P", "Span", "Figure"},
        "TD": {"P", "Span", "Figure", "Table"},
        "P": {"P", "Span", "Figure"},
        "H1": {"Span"},
        "H2": {"Span"},
        "Span": set(),
        "Figure": set(),
    }
    for page in read(sheet.name, paper, count):
        for element in page.section.all():
            assert {kid.role for kid in element.inner()} <= within[element.role], element
            if element.role in ("Sect", "Table", "TR"):
                assert not element.numbers
            elif element.role != "TD":
                assert element.kids, f"an empty {element.role}"


@every_sheet
def test_every_figure_says_what_it_shows(sheet: Sheet, paper: str, count: int | None) -> None:
    width, height = PAPERS[paper]
    for page in read(sheet.name, paper, count):
        figures = of_role(page, "Figure")
        assert figures
        for figure in figures:
            assert len(figure.alt) > 5
            assert figure.attributes["/O"] == "/Layout"
            left, low, right, high = (float(v) for v in figure.attributes["/BBox"])
            assert 0 <= left < right <= width
            assert 0 <= low < high <= height


@every_sheet
def test_tables_are_whole(sheet: Sheet, paper: str, count: int | None) -> None:
    """Every head says for what; every row has its columns, what spans them counted."""
    found = 0
    for page in read(sheet.name, paper, count):
        for head in of_role(page, "TH"):
            assert head.attributes["/Scope"] in ("/Column", "/Row")
        for table in of_role(page, "Table"):
            rows = columns_of(table)
            found += len(rows)
            assert len(set(rows)) == 1, rows
            assert rows[0] > 1
    assert found or sheet.kind not in ("wall chart", "pocket cards", "shaft sheets")


def columns_of(table: Element) -> list[int]:
    """Return how many columns each row has, those held from above with it."""
    counts: list[int] = []
    held: list[int] = []
    for row in table.inner():
        wide = sum(cell.span("Col") for cell in row.inner())
        counts.append(wide + len(held))
        held = [left - 1 for left in held if left > 1]
        for cell in row.inner():
            if cell.span("Row") > 1:
                held += [cell.span("Row") - 1] * cell.span("Col")
    assert not held, "a cell reaches under its table"
    return counts


@every_sheet
def test_the_title_is_read_first(sheet: Sheet, paper: str, count: int | None) -> None:
    document, _ = made(sheet.name, paper, count)
    for model, page in zip(document.pages, read(sheet.name, paper, count), strict=True):
        assert page.section.inner()[0].role == "H1"
        assert len(of_role(page, "H1")) == 1
        title = next(b for b in model.blocks if b.role == "H1")
        said = "".join(page.text.get(n, "") for n in page.section.in_order())
        wanted = "".join(t.text for t in title.texts())
        assert re.sub(r"\s", "", said).startswith(re.sub(r"\s", "", wanted))


@every_sheet
def test_built_fractions_are_read_as_one(sheet: Sheet, paper: str, count: int | None) -> None:
    document, _ = made(sheet.name, paper, count)
    for model, page in zip(document.pages, read(sheet.name, paper, count), strict=True):
        wanted = [alt for block in model.blocks for alt in spelt(block)]
        assert sorted(e.actual for e in of_role(page, "Span") if e.actual) == sorted(wanted)


def spelt(block: Block) -> list[str]:
    if block.role in ("Figure", "Artifact"):
        return []
    if block.role == "Span" and block.alt:
        return [block.alt]
    return [alt for item in block.items if isinstance(item, Block) for alt in spelt(item)]


@every_sheet
def test_labels_boxes_and_bookmarks(sheet: Sheet, paper: str, count: int | None) -> None:
    document, data = made(sheet.name, paper, count)
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert pdf.pdf_version == "1.7"
        labels = [page.label for page in pdf.pages]
        if sheet.duplex:
            sides = [("front", "back")[n % 2] + f" {n // 2 + 1}" for n in range(len(labels))]
            assert labels == sides
        else:
            assert labels == [str(n + 1) for n in range(len(labels))]
        for model, page in zip(document.pages, pdf.pages, strict=True):
            for name in ("/MediaBox", "/CropBox", "/TrimBox"):
                box = [float(v) for v in page.obj[name]]
                assert box[:2] == [0, 0]
                assert abs(box[2] - model.width) < 0.001
                assert abs(box[3] - model.height) < 0.001
        opened = [target(pdf, item.destination) for item in outline(pdf)]
        assert [place[0].objgen for place in opened] == [p.obj.objgen for p in pdf.pages]
        assert {str(place[1]) for place in opened} == {"/Fit"}


def outline(pdf: pikepdf.Pdf) -> list[Any]:
    with pdf.open_outline() as found:
        return list(found.root)


def target(pdf: pikepdf.Pdf, destination: Any) -> Any:
    if isinstance(destination, pikepdf.Array):
        return destination
    place = pdf.Root.Dests[str(destination)]
    return place.D if isinstance(place, pikepdf.Dictionary) else place


@every_sheet
def test_metadata_says_what_the_file_is_and_claims_nothing(
    sheet: Sheet, paper: str, count: int | None
) -> None:
    document, data = made(sheet.name, paper, count)
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert set(pdf.docinfo.keys()) == {
            "/Title",
            "/Subject",
            "/Author",
            "/Creator",
            "/Producer",
            "/Trapped",
        }
        xmp = pdf.open_metadata()
        assert xmp["dc:title"] == document.title
        assert list(xmp["dc:language"]) == ["en"]
        assert xmp["pdf:Producer"] == str(pdf.docinfo.Producer)
        assert not re.search(r"pdf(ua|a|x)id", str(xmp))
        fonts = [o for o in pdf.objects if isinstance(o, pikepdf.Dictionary) and "/BaseFont" in o]
        assert 1 <= len(fonts) <= 2
        for font in fonts:
            assert re.fullmatch(r"/[A-Z]{6}\+DejaVuSans(-Bold)?", str(font.BaseFont))


def test_the_ids_of_files_differ() -> None:
    found = set()
    for sheet, paper, count in QUICK:
        with pikepdf.open(io.BytesIO(made(sheet.name, paper, count)[1])) as pdf:
            ids = [bytes(part) for part in pdf.trailer.ID]
        assert len(ids) == 2
        found.add(ids[0])
    assert len(found) == len(QUICK)


def test_papers_of_one_sheet_differ_in_id() -> None:
    sheet = FIRST_OF_KIND[0]
    found = set()
    for paper in sheet.papers[:2]:
        with pikepdf.open(io.BytesIO(made(sheet.name, paper, ALIKE.get(sheet.kind))[1])) as pdf:
            found.add(bytes(pdf.trailer.ID[0]))
    assert len(found) == 2
