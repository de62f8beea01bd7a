"""Pages as PDF. The only module that imports reportlab."""

from __future__ import annotations

import io
from functools import cache
from typing import Any

from keyseats.page import Block, Document, Line, Mark, Page, Shape, Text
from keyseats.paths import font_file
from keyseats.typeface import width

REGULAR, BOLD = "DejaVuSans", "DejaVuSans-Bold"


@cache
def _reportlab() -> Any:
    from reportlab import rl_config
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.pdfgen import canvas

    rl_config.useA85 = 0
    for name in (REGULAR, BOLD):
        pdfmetrics.registerFont(TTFont(name, str(font_file(f"{name}.ttf"))))
    return canvas


def render(document: Document) -> bytes:
    """Return a document's pages as one PDF, before finishing.

    Parameters
    ----------
    document
        The pages; their order, boxes and bookmarks are kept.

    Returns
    -------
    bytes
        A PDF; the same bytes for the same document.
    """
    canvas_module = _reportlab()
    buffer = io.BytesIO()
    first = document.pages[0]
    canvas = canvas_module.Canvas(
        buffer,
        pagesize=(first.width, first.height),
        pageCompression=1,
        invariant=1,
        pdfVersion=(1, 7),
        initialFontName=REGULAR,
        lang="en",
    )
    canvas.setTitle(document.title)
    canvas.setSubject(document.subject)
    canvas.setAuthor("keyseats")
    canvas.setCreator("keyseats")
    for page in document.pages:
        canvas.setPageSize((page.width, page.height))
        canvas.bookmarkPage(page.slug)
        canvas.addOutlineEntry(page.title, page.slug, 0, False)
        for block in page.blocks:
            _draw_block(canvas, block, page)
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _draw_block(canvas: Any, block: Block, page: Page) -> None:
    spelt = block.role == "Span" and block.alt
    if spelt:
        canvas.addLiteral(f"/Span <</ActualText {_pdf_string(block.alt)}>> BDC")
    for item in block.items:
        if isinstance(item, Block):
            _draw_block(canvas, item, page)
        else:
            _draw_mark(canvas, item, page.height)
    if spelt:
        canvas.addLiteral("EMC")


def _pdf_string(text: str) -> str:
    return "<FEFF" + text.encode("utf-16-be").hex().upper() + ">"


def _draw_mark(canvas: Any, mark: Mark, height: float) -> None:
    if isinstance(mark, Text):
        x = mark.x
        if mark.anchor != "start":
            wide = width(mark.text, mark.size, mark.bold)
            x -= wide if mark.anchor == "end" else wide / 2
        canvas.setFillGray(mark.grey)
        canvas.setFont(BOLD if mark.bold else REGULAR, mark.size)
        canvas.drawString(x, height - mark.y, mark.text)
    elif isinstance(mark, Line):
        canvas.setStrokeGray(0)
        canvas.setLineWidth(mark.width)
        canvas.setDash(list(mark.dash))
        canvas.setLineCap(0)
        canvas.line(mark.x1, height - mark.y1, mark.x2, height - mark.y2)
    else:
        _draw_shape(canvas, mark, height)


def _draw_shape(canvas: Any, shape: Shape, height: float) -> None:
    path = canvas.beginPath()
    for piece in shape.path:
        kind, numbers = piece[0], [float(n) for n in piece[1:]]
        flipped = [n if i % 2 == 0 else height - n for i, n in enumerate(numbers)]
        if kind == "M":
            path.moveTo(*flipped)
        elif kind == "L":
            path.lineTo(*flipped)
        elif kind == "C":
            path.curveTo(*flipped)
        else:
            path.close()
    if shape.fill is not None:
        canvas.setFillGray(shape.fill)
    canvas.setStrokeGray(0)
    canvas.setLineWidth(shape.stroke or 0)
    canvas.setDash(list(shape.dash))
    canvas.setLineJoin(0)
    canvas.drawPath(path, stroke=int(shape.stroke is not None), fill=int(shape.fill is not None))
