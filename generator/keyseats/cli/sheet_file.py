"""``keyseats shaft --pdf``: the shaft sheet of one seat, written to a file."""

from __future__ import annotations

import argparse
from pathlib import Path

from keyseats.build import document_bytes
from keyseats.faults import KeyseatError, TypedError, near
from keyseats.lengths import parse
from keyseats.load import Tables
from keyseats.page import Document
from keyseats.seat import Seat
from keyseats.shaft_sheet import PAPERS, sheet
from keyseats.writing import write_whole


def write_sheet(tables: Tables, seats: list[Seat], words: argparse.Namespace) -> int:
    """Write one page for each first choice, or for the one key asked for.

    Raises
    ------
    KeyseatError
        If the file cannot be written.
    TypedError
        If the paper is not one of the sheet's.
    """
    from keyseats.check import check

    path = Path(words.pdf)
    paper = words.paper or ("Letter" if seats[0].work.unit == "in" else "A4")
    named = [p for p in PAPERS if p.lower() == paper.lower()]
    if not named:
        raise TypedError(
            f"--paper: no paper '{paper}' for a shaft sheet; {near(paper, list(PAPERS))}"
        )
    if path.is_dir() or not path.parent.is_dir():
        raise KeyseatError(
            f"{path} cannot be written: "
            + ("it is a folder" if path.is_dir() else f"there is no folder {path.parent}")
            + "; give --pdf the name of a file"
        )
    faults = check(tables).faults
    if faults:
        raise KeyseatError(
            f"the tables have {len(faults)} fault(s), so no sheet was made; see keyseats check"
        )
    wanted = seats if words.key else [s for s in seats if s.choice == "first"]
    shown = _shown(words.length)
    pages = tuple(sheet(tables, named[0], seat, shown) for seat in wanted)
    title = f"Keyseats in a {shown} shaft"
    document = Document(path.name, title, "Shaft sheets", named[0], pages)
    write_whole(path, document_bytes(document))
    count = f"{len(pages)} page{'s' if len(pages) > 1 else ''}"
    print(f"{path}: {count}; print at actual size on {named[0]}")
    return 0


def _shown(length: str) -> str:
    """Return the shaft's size as a page names it: number, space, unit."""
    read = parse(length, "the shaft")
    number = read.text.rstrip("\"”″'")
    for word in ("inches", "inch", "in.", "in", "mm", "millimetres", "millimeters"):
        number = number.removesuffix(word).strip()
    return f"{number} {read.unit}"
