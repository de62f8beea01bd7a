"""Every sheet on every paper, finished, then read back with other programs than made it."""

from __future__ import annotations

import io
import re
from functools import cache

import pikepdf
import pytest

from keyseats.build import document_bytes, file_name
from keyseats.frame import FLOOR, FOOT, MARGIN, PRINTER
from keyseats.load import Tables
from keyseats.page import PAPERS, Block, Document, Text
from keyseats.paths import tables_dir
from keyseats.sheets import Sheet, find
from keyseats.typeface import minutes_at
from pdf.reading import read


def quick(sheet: Sheet, paper: str) -> bool:
    """Return whether a sheet on a paper is read in every run: one paper of each, where few."""
    many = sheet.kind == "shaft sheets" or "short-edge" in sheet.name or "reckoners" in sheet.name
    return paper == sheet.papers[0] and not many


CASES = [
    pytest.param(
        sheet,
        paper,
        id=f"{sheet.name}-{paper}",
        marks=[] if quick(sheet, paper) else [pytest.mark.slow],
    )
    for sheet in find()
    for paper in sheet.papers
]


@cache
def made(name: str, paper: str) -> tuple[Document, bytes]:
    sheet = next(s for s in find() if s.name == name)
    pages = tuple(sheet.pages(Tables(tables_dir()), paper))
    document = Document(
        file_name(name, paper), sheet.title, sheet.title, paper, pages, sheet.duplex
    )
    return document, document_bytes(document)


def squeezed(text: str) -> str:
    return re.sub(r"\s", "", text)


@pytest.mark.parametrize(("sheet", "paper"), CASES)
def test_read_back(sheet: Sheet, paper: str) -> None:
    document, pdf = made(sheet.name, paper)
    pages = read(pdf)
    assert len(pages) == len(document.pages) > 0
    for page, found in zip(document.pages, pages, strict=True):
        # Both ways at once: nothing of the model is lost, nothing is printed that is not in it.
        wanted = squeezed("".join(t.text for t in page.texts()))
        assert squeezed(found.characters) == wanted, page.slug
        width, height = PAPERS[paper]
        assert abs(found.width - width) < 0.01
        assert abs(found.height - height) < 0.01
        edge, foot = (5.0, 5.0) if sheet.kind == "pocket cards" else (MARGIN, FOOT)
        for word in found.words:
            if word.text.strip():
                assert word.x0 >= edge - 0.1, (page.slug, word)
                assert word.x1 <= width - edge + 0.1, (page.slug, word)
                assert word.baseline <= height - foot + 0.5, (page.slug, word)
                assert word.baseline - word.size * 0.73 >= edge - 0.1, (page.slug, word)


@pytest.mark.parametrize(("sheet", "paper"), CASES)
def test_no_words_overlap(sheet: Sheet, paper: str) -> None:
    _, pdf = made(sheet.name, paper)
    for number, page in enumerate(read(pdf)):
        words = sorted((w for w in page.words if w.text.strip()), key=lambda w: w.baseline)
        for n, word in enumerate(words):
            for other in words[n + 1 :]:
                if other.baseline - other.size > word.baseline:
                    break
                assert not word.overlaps(other), (number, word, other)


@pytest.mark.parametrize(("sheet", "paper"), CASES)
def test_fonts_embedded_and_catalogue(sheet: Sheet, paper: str) -> None:
    document, data = made(sheet.name, paper)
    with pikepdf.open(io.BytesIO(data)) as pdf:
        fonts = [
            o
            for o in pdf.objects
            if isinstance(o, pikepdf.Dictionary) and o.get("/Type") == "/Font"
        ]
        assert fonts
        for font in fonts:
            assert "/FontFile2" in font.FontDescriptor, font.get("/BaseFont")
            assert "/ToUnicode" in font
        assert not [
            o
            for o in pdf.objects
            if isinstance(o, pikepdf.Stream) and o.get("/Subtype") == "/Image"
        ]
        assert str(pdf.Root.Lang) == "en"
        assert pdf.Root.ViewerPreferences.PrintScaling == "/None"
        assert pdf.Root.ViewerPreferences.DisplayDocTitle
        assert str(pdf.docinfo.Title) == document.title
        with pdf.open_outline() as outline:
            assert [item.title for item in outline.root] == [p.title for p in document.pages]


@pytest.mark.parametrize(("sheet", "paper"), CASES)
def test_figures_that_are_cut_to_stay_legible_when_a_printer_shrinks(
    sheet: Sheet, paper: str
) -> None:
    """Floor 16 arc-minutes after 6 % shrink; ISO 9241-3 and NUREG-0700 give 16 as the least."""
    document, _ = made(sheet.name, paper)
    found = 0
    for page in document.pages:
        sizes = [t.size for block in page.blocks for t in cut_figures(block)]
        found += len(sizes)
        for size in sizes:
            assert minutes_at(size * PRINTER, page.distance_m) >= FLOOR - 0.02, page.slug
    assert found


def cut_figures(block: Block) -> list[Text]:
    found: list[Text] = []
    if block.cut:
        texts = [t for t in block.texts() if re.fullmatch(r"\d+\.\d+", t.text)]
        found += texts
    else:
        for item in block.items:
            if isinstance(item, Block):
                found += cut_figures(item)
    return found


@pytest.mark.parametrize(("sheet", "paper"), CASES)
def test_every_page_says_what_it_must(sheet: Sheet, paper: str) -> None:
    document, _ = made(sheet.name, paper)
    edition = Tables(tables_dir()).edition
    assert "CAUTION" in " ".join(w for page in document.pages for w in page.words())
    for page in document.pages:
        text = " ".join(page.words())
        assert edition.number in text
        assert edition.date in text
        assert "actual size" in text
        assert f"{page.distance_m:g} m" in text
        if sheet.kind != "pocket cards":
            assert "CAUTION" in text
        if "†" in text:
            assert "recalled" in text
