"""A proof on screen: a row a page, then a line a fault."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from keyseats.proof.legible import CUT, WORDS
from keyseats.proof.proving import Proof, Row

HEAD = (
    ("page", "", 4),
    ("paper", "", 8),
    ("read at", "m", 7),
    ("characters", "", 10),
    ("figures", "cut to", 7),
    ("least", "min", 6),
    ("words", "min", 6),
    ("edge", "mm", 6),
    ("fonts", "", 5),
    ("heads", "", 5),
    ("tables", "", 6),
    ("drawn", "", 5),
    ("faults", "", 6),
)


def lines(proof: Proof) -> list[str]:
    """Return a proof as lines: the pages file by file, the faults, and the count of each."""
    out: list[str] = []
    if proof.rows:
        out += [_set(head for head, _, _ in HEAD), _set(unit for _, unit, _ in HEAD)]
    for name, rows in groupby(proof.rows, key=lambda row: row.file):
        out += [name, *(_set(_cells(row)) for row in rows)]
    if proof.rows:
        out += [
            "",
            f"least, words: smallest type in arc-minutes at 94 % scale; floors {CUT:g} for figures "
            f"that are cut to, {WORDS:.1f} for words",
        ]
    out += [str(fault) for fault in proof.faults]
    pages, faults = len(proof.rows), len(proof.faults)
    out.append(
        f"{_count(len(proof.files), 'file')}, {_count(pages, 'page')}, {_count(faults, 'fault')}"
    )
    return out


def _set(cells: Any) -> str:
    texts = [str(cell).rjust(wide) for cell, (_, _, wide) in zip(cells, HEAD, strict=True)]
    return "  ".join(texts).rstrip()


def _cells(row: Row) -> tuple[str, ...]:
    def angle(value: float | None) -> str:
        return "-" if value is None else f"{value:.1f}"

    return (
        str(row.page),
        row.paper,
        f"{row.metres:g}" if row.metres else "-",
        str(row.characters),
        str(row.figures),
        angle(row.least_figure),
        angle(row.least_word),
        f"{row.edge:.1f}",
        str(row.fonts),
        str(row.headings),
        str(row.tables),
        str(row.drawings),
        str(row.faults or "-"),
    )


def _count(number: int, word: str) -> str:
    return f"{number or 'no'} {word}{'' if number == 1 else 's'}"


def as_json(proof: Proof) -> dict[str, Any]:
    """Return a proof as data: files, pages and faults."""
    pages = []
    for row in proof.rows:
        entry = dict(vars(row))
        for name in ("least_figure", "least_word", "edge"):
            if entry[name] is not None:
                entry[name] = round(entry[name], 2)
        pages.append(entry)
    faults = [dict(vars(fault)) for fault in proof.faults]
    return {"files": list(proof.files), "pages": pages, "faults": faults}
