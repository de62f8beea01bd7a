"""The last hand on a PDF: print hints, language and an ID of its own. Only here is pikepdf."""

from __future__ import annotations

import io
from typing import Any

from keyseats.page import Document


def finish(raw: bytes, document: Document) -> bytes:
    """Return a rendered PDF with what reportlab does not write.

    Actual size asked of the print dialog, the title shown, page labels, metadata, and an ID made
    from the content, so that the same pages always make the same bytes.
    """
    import pikepdf

    with pikepdf.open(io.BytesIO(raw)) as pdf:
        root: Any = pdf.Root
        hints = pikepdf.Dictionary(
            PrintScaling=pikepdf.Name("/None"), DisplayDocTitle=True, PickTrayByPDFSize=True
        )
        if document.duplex:
            hints["/Duplex"] = pikepdf.Name("/DuplexFlip" + document.duplex)
        root.ViewerPreferences = hints
        root.Lang = pikepdf.String("en")
        root.PageMode = pikepdf.Name.UseOutlines
        with pdf.open_metadata(set_pikepdf_as_editor=False) as meta:
            meta["dc:title"] = document.title
            meta["dc:description"] = document.subject
            meta["dc:language"] = {"en"}
            meta["dc:creator"] = ["keyseats"]
        out = io.BytesIO()
        pdf.save(
            out,
            min_version="1.7",
            deterministic_id=True,
            object_stream_mode=pikepdf.ObjectStreamMode.generate,
        )
    return out.getvalue()
