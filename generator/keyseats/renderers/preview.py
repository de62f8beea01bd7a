"""Pictures of PDF pages. The only module that imports pypdfium2."""

from __future__ import annotations

import io

# Thirty-two greys: a picture to know a page by is no larger than it needs to be.
_GREYS = [round((n >> 3) * 255 / 31) for n in range(256)]


def preview(pdf: bytes, *, page: int = 0, width: int = 480) -> bytes:
    """Return a page of a PDF as a PNG picture.

    Parameters
    ----------
    pdf
        The file's bytes.
    page
        Which page, from 0.
    width
        Width of the picture. [pixel]
    """
    import pypdfium2

    document = pypdfium2.PdfDocument(pdf)
    try:
        sheet = document[page]
        image = sheet.render(scale=width / sheet.get_width(), grayscale=True).to_pil()
        out = io.BytesIO()
        image.point(_GREYS).save(out, format="PNG")
        return out.getvalue()
    finally:
        document.close()
