"""Pages as PDF. The only module that imports reportlab."""

from __future__ import annotations

import io
from functools import cache
from typing import Any

from keyseats.page import Document
from keyseats.paths import font_file
from keyseats.renderers.operators import Encode, operators
from keyseats.typeface import printable

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
    canvas.setTitle(printable(document.title))
    canvas.setSubject(printable(document.subject))
    canvas.setAuthor("keyseats")
    canvas.setCreator("keyseats")
    encode = _encoding(canvas)
    for page in document.pages:
        canvas.setPageSize((page.width, page.height))
        canvas.bookmarkPage(printable(page.slug))
        canvas.addOutlineEntry(printable(page.title), printable(page.slug), 0, False)
        canvas.addLiteral(operators(page, encode))
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _encoding(canvas: Any) -> Encode:
    """Return what spells a text in the subsets of the fonts that a canvas' document embeds."""
    from reportlab.pdfbase.pdfmetrics import getFont

    fonts = {False: getFont(REGULAR), True: getFont(BOLD)}
    document = canvas._doc

    def encode(text: str, bold: bool) -> list[tuple[str, bytes]]:
        font = fonts[bold]
        return [
            (font.getSubsetInternalName(subset, document), data)
            for subset, data in font.splitString(text, document)
        ]

    return encode
