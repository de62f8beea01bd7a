"""``keyseats shaft --pdf``: the shaft sheet of one seat, written to a file."""

from __future__ import annotations

import argparse
from pathlib import Path

from keyseats.build import document_bytes
from keyseats.faults import KeyseatError, TypedError, near
from keyseats.lengths import article, parse
from keyseats.load import Tables
from keyseats.page import Document
from keyseats.set_up import SetUp
from keyseats.shaft_sheet import PAPERS, sheet
from keyseats.writing import write_whole


def write_sheet(tables: Tables, ready: list[SetUp], words: argparse.Namespace) -> int:
    """Write one page for each seat.

    Raises
    ------
    KeyseatError
        If the file cannot be written.
    TypedError
        If the paper is not one of the sheet's.
    """
    paper = paper_for(words.paper, ready[0].seat.work.unit, "shaft sheet")
    path = file_for(words.pdf, "--pdf")
    refuse_faults(tables, "sheet")
    shown = _shown(words.length)
    pages = tuple(sheet(tables, paper, done, shown) for done in ready)
    title = f"Keyseats in {article(shown)} shaft"
    write_document(path, Document(path.name, title, "Shaft sheets", paper, pages))
    return 0


def paper_for(asked: str | None, unit: str, what: str) -> str:
    """Return the paper asked for, or the usual one of a unit.

    Parameters
    ----------
    asked
        What was typed, in any case.
    unit
        ``in`` or ``mm``.
    what
        What is printed, for the message.

    Raises
    ------
    TypedError
        If it is not laid out for that paper.
    """
    paper = asked or ("Letter" if unit == "in" else "A4")
    for known in PAPERS:
        if known.lower() == paper.lower():
            return known
    raise TypedError(f"--paper: no paper '{paper}' for a {what}; {near(paper, list(PAPERS))}")


def file_for(name: str, option: str) -> Path:
    """Return the path of a file to be written.

    Raises
    ------
    KeyseatError
        If it is a folder, its folder is not there, or a file stands there that is not a PDF.
    """
    path = Path(name)
    if path.is_dir() or not path.parent.is_dir():
        raise KeyseatError(
            f"{path} cannot be written: "
            + ("it is a folder" if path.is_dir() else f"there is no folder {path.parent}")
            + f"; give {option} the name of a file"
        )
    if path.exists() and not _is_pdf(path):
        raise KeyseatError(
            f"{path} is there already, is not a PDF, and was not changed; give {option} another "
            "name"
        )
    return path


def _is_pdf(path: Path) -> bool:
    """Return whether a file can be written over: a page that is made again."""
    try:
        if not path.is_file():
            return False
        with path.open("rb") as file:
            return file.read(4) == b"%PDF"
    except OSError:
        return False


def refuse_one_file(pdf: str, card: str) -> None:
    """Refuse one name for two files, and a file that cannot be written before either is.

    Raises
    ------
    KeyseatError
        If one of them cannot be written.
    TypedError
        If they are the same file.
    """
    sheet, other = file_for(pdf, "--pdf"), file_for(card, "--card")
    there = sheet.exists() and other.exists()
    if sheet.resolve() == other.resolve() or (there and sheet.samefile(other)):
        raise TypedError(
            f"--pdf and --card: both name {card}, and one would write over the other; give two "
            "names"
        )


def refuse_faults(tables: Tables, what: str) -> None:
    """Refuse to print from tables that have a fault.

    Raises
    ------
    KeyseatError
        If they have one.
    """
    from keyseats.check import check

    faults = check(tables).faults
    if faults:
        raise KeyseatError(
            f"the tables have {len(faults)} fault(s), so no {what} was made; see keyseats check"
        )


def write_document(path: Path, document: Document) -> None:
    """Write a document and say how many pages it has."""
    write_whole(path, document_bytes(document))
    pages = len(document.pages)
    count = f"{pages} page{'s' if pages > 1 else ''}"
    print(f"{path}: {count}; print at actual size on {document.paper}")


def _shown(length: str) -> str:
    """Return the shaft's size as a page names it: number, space, unit."""
    read = parse(length, "the shaft")
    number = read.text.rstrip("\"”″'")
    for word in ("inches", "inch", "in.", "in", "mm", "millimetres", "millimeters"):
        number = number.removesuffix(word).strip()
    return f"{number} {read.unit}"
