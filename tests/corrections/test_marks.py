"""QR codes read back from rendered pages, and the margin mark beside what was corrected."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pypdfium2
import pytest
import zxingcpp

from corrections.copying import clean
from keyseats.build import document_bytes
from keyseats.cards.face import MODULE as CARD_MODULE
from keyseats.corrections.archive import editions
from keyseats.corrections.since import LEGEND, changed_since, since
from keyseats.frame import MARGIN, MODULE
from keyseats.load import Tables
from keyseats.page import MM, Block, Document, Line, Page, Shape
from keyseats.sheets import Sheet, find

pytestmark = pytest.mark.slow

CODED = [s for s in find() if s.name in ("wall-inch-half-moon", "wall-setting-up-metric")]
CODED += [s for s in find() if s.name in ("cards-id1", "cards-index")]
QUIET = 4


def codes_in(page: Page, dpi: int) -> list[str]:
    """Return the text of every QR code on a page, as another program sees it in a picture."""
    pdf = pypdfium2.PdfDocument(document_bytes(Document("a", "a", "a", page.paper, (page,))))
    picture = pdf[0].render(scale=dpi / 72).to_pil()
    pdf.close()
    found = zxingcpp.read_barcodes(picture)
    assert {str(code.format) for code in found} <= {"QR Code", "QRCode", "BarcodeFormat.QRCode"}
    return [code.text for code in found]


@pytest.mark.parametrize("sheet", CODED, ids=[s.name for s in CODED])
def test_every_qr_code_is_read_back_as_the_code_printed(sheet: Sheet, tables: Tables) -> None:
    for paper in sheet.papers[:2]:
        for page in sheet.pages(tables, paper):
            found = codes_in(page, 300)
            printed = {mark.code for mark in page.stamps}
            if sheet.kind == "wall chart":
                assert found == [page.stamps[0].code]
            elif "fronts" in page.slug:
                assert set(found) == printed
                assert len(found) == sum("QR code" in b.alt for b in page.blocks)
            else:
                assert not found


def test_shaft_sheets_have_the_code_in_letters_only(tables: Tables) -> None:
    sheet = next(s for s in find() if s.name == "shafts-inch")
    page = next(iter(sheet.pages(tables, "Letter")))
    assert page.stamps[0].code in set(page.words())
    assert not [b for b in page.blocks if "QR code" in b.alt]


def boxes(blocks: tuple[Block, ...]) -> Iterator[tuple[float, float, float, float, str]]:
    from keyseats.typeface import width

    for block in blocks:
        for text in block.texts():
            wide = width(text.text, text.size, text.bold)
            off = {"start": 0.0, "middle": wide / 2, "end": wide}[text.anchor]
            yield text.x - off, text.y - text.size * 0.73, text.x - off + wide, text.y, text.text
        for item in block.items:
            if isinstance(item, Line):
                x1, x2 = sorted((item.x1, item.x2))
                y1, y2 = sorted((item.y1, item.y2))
                yield x1, y1 - item.width / 2, x2, y2 + item.width / 2, "a rule"


@pytest.mark.parametrize(
    "sheet",
    [s for s in find() if s.kind in ("wall chart", "pocket cards")],
    ids=lambda s: s.name,
)
def test_four_modules_round_each_qr_code_are_white(sheet: Sheet, tables: Tables) -> None:
    """ISO/IEC 18004: a quiet zone of four modules. A third of a millimetre is our least module."""
    seen = 0
    module = MODULE if sheet.kind == "wall chart" else CARD_MODULE
    assert module >= 0.33 * MM
    for page in sheet.pages(tables, sheet.papers[0]):
        rest = list(boxes(page.blocks))
        for block in page.blocks:
            if "QR code" not in block.alt:
                continue
            seen += 1
            (shape,) = block.items
            assert isinstance(shape, Shape)
            xs = [float(p[1]) for p in shape.path if len(p) == 3]
            ys = [float(p[2]) for p in shape.path if len(p) == 3]
            assert abs(max(xs) - min(xs) - 21 * module) < 0.01
            gap = QUIET * module - 0.01
            left, top, right, low = min(xs) - gap, min(ys) - gap, max(xs) + gap, max(ys) + gap
            for x1, y1, x2, y2, what in rest:
                assert x2 <= left or x1 >= right or y2 <= top or y1 >= low, (page.slug, what)
    assert seen


def corrected(tmp_path: Path) -> Tables:
    bed = clean(tmp_path / "tables")
    bed.plant("inch_half_moon_seats", "depth_at_edge", "0.3413", key="608")
    return Tables(bed.folder)


def marks(page: Page) -> list[Line]:
    return [
        item
        for block in page.blocks
        if block.alt.startswith("Margin mark")
        for item in block.items
        if isinstance(item, Line)
    ]


def test_nothing_is_marked_right_after_an_edition(tmp_path: Path) -> None:
    tables = Tables(clean(tmp_path / "tables").folder)
    assert changed_since(tables, editions(tables.folder)[-1]) == frozenset()
    for sheet in find():
        if sheet.kind != "shaft sheets":
            for page in sheet.pages(tables, sheet.papers[0]):
                assert not marks(page), page.slug
                assert LEGEND not in " ".join(page.words())


def test_what_was_corrected_is_marked_and_explained(tmp_path: Path) -> None:
    tables = corrected(tmp_path)
    name = "inch_half_moon_seats/608/depth_at_edge"
    assert changed_since(tables, editions(tables.folder)[-1]) == {name}
    assert since(tables).among((name, "inch_half_moon_seats/606/depth_at_edge")) == {name}
    sheet = next(s for s in find() if s.name == "wall-inch-half-moon")
    seen = 0
    for page in sheet.pages(tables, "Letter"):
        found = marks(page)
        assert bool(found) == (name in page.rows())
        assert (LEGEND in " ".join(page.words())) == bool(found)
        if found:
            seen += 1
            level = next(t.y for t in page.texts() if t.text == "0.3413")
            assert any(mark.y1 < level - 1 < mark.y2 for mark in found)
            for mark in found:
                # In the margin, and within what printers reach: 1/4 in from the edge.
                assert mark.x1 - mark.width / 2 > 18.0
                assert mark.x1 + mark.width / 2 < MARGIN
    assert seen == 1


def test_a_card_is_marked_on_both_sides_where_it_has_the_figure(tmp_path: Path) -> None:
    bed = clean(tmp_path / "tables")
    bed.plant("shared_limits", "plus", "0.006", family="inch half-moon", figure="depth_at_edge")
    tables = Tables(bed.folder)
    sheet = next(s for s in find() if s.name == "cards-id1")
    pages = list(sheet.pages(tables, "Letter"))
    assert all(marks(page) for page in pages)
    assert all(LEGEND in " ".join(page.words()) for page in pages)
