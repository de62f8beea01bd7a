"""Pictures of PDF pages. The only module that imports pypdfium2."""

from __future__ import annotations

import io


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
        image = sheet.render(scale=width / sheet.get_width()).to_pil().convert("L")
        out = io.BytesIO()
        image.quantize(32).save(out, format="PNG", optimize=True)
        return out.getvalue()
    finally:
        document.close()
