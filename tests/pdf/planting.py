"""Faults planted in a finished PDF, one at a time."""

from __future__ import annotations

import io
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pikepdf

from keyseats.build import document_bytes, file_name
from keyseats.load import Tables
from keyseats.page import Document
from keyseats.paths import tables_dir
from keyseats.proof.facts import Sheet
from keyseats.proof.proving import prove
from keyseats.proof.reading import read
from keyseats.sheets import find

Plant = Callable[[pikepdf.Pdf], None]


@cache
def printed(name: str, paper: str) -> bytes:
    """Return one file of the printed set."""
    sheet = next(s for s in find() if s.name == name)
    tables = Tables(tables_dir())
    subject = f"{sheet.title}. {sheet.kind}, {paper}, edition {tables.edition.number}"
    pages = tuple(sheet.pages(tables, paper))
    return document_bytes(
        Document(file_name(name, paper), sheet.title, subject, paper, pages, sheet.duplex)
    )


def planted(data: bytes, plant: Plant, **saving: Any) -> bytes:
    """Return a PDF with a fault planted, otherwise saved as it was finished."""
    out = io.BytesIO()
    with pikepdf.open(io.BytesIO(data)) as pdf:
        plant(pdf)
        pdf.save(out, **{"min_version": "1.7", "deterministic_id": True, **saving})
    return out.getvalue()


def faults(data: bytes, folder: Path, name: str = "sheet.pdf") -> set[str]:
    """Return what a proof finds wrong with a file's bytes."""
    path = folder / name
    path.write_bytes(data)
    return {f.what for f in prove([path]).faults}


def sheets(data: bytes, folder: Path) -> tuple[Sheet, ...]:
    """Return the pages of a file as the proof reads them."""
    path = folder / "read.pdf"
    path.write_bytes(data)
    return read(path).sheets


def draw(pdf: pikepdf.Pdf, code: str, page: int = 0) -> None:
    """Draw over a page, as decoration."""
    stream = pdf.make_stream(f"q /Artifact BMC {code} EMC Q".encode("latin-1"))
    pdf.pages[page].contents_add(stream)


def word(pdf: pikepdf.Pdf, page: int = 0) -> tuple[str, str]:
    """Return the font's name and the codes of the first longer word that a page sets."""
    font = ""
    for operands, operator in pikepdf.parse_content_stream(pdf.pages[page]):
        if str(operator) == "Tf":
            font = str(operands[0])
        if str(operator) == "Tj" and len(bytes(operands[0])) >= 4:
            return font, bytes(operands[0])[:4].hex()
    raise AssertionError("the page sets no word")


def say(
    pdf: pikepdf.Pdf, x: float, y: float, *, size: float = 24, ink: str = "0 g", page: int = 0
) -> None:
    """Set four letters from a baseline. [pt from the lower left corner]"""
    font, codes = word(pdf, page)
    draw(pdf, f"{ink} BT {font} {size} Tf 1 0 0 1 {x} {y} Tm <{codes}> Tj ET", page)


def bare_place(sheet: Sheet, wide: float = 90, high: float = 30) -> tuple[float, float]:
    """Return the lower left corner of a part of a page that has no text. [pt]"""
    for down in range(60, int(sheet.high) - 120, 6):
        for across in range(40, int(sheet.wide - wide) - 40, 6):
            if not any(
                p.box.left < across + wide
                and p.box.right > across
                and p.box.top < down + high
                and p.box.bottom > down
                for p in sheet.pieces
            ):
                return across + 6, sheet.high - down - high + 8
    raise AssertionError("no bare place")


def elements(pdf: pikepdf.Pdf, role: str) -> list[Any]:
    """Return the elements of a role."""
    return [
        o
        for o in pdf.objects
        if isinstance(o, pikepdf.Dictionary) and o.get("/S") == "/" + role and "/P" in o
    ]
