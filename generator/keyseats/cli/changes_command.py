"""``keyseats changes``: what differs between two editions, and which pages have it."""

from __future__ import annotations

import argparse
import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from keyseats.corrections.archive import Past, editions
from keyseats.faults import KeyseatError, TypedError, near
from keyseats.load import Tables
from keyseats.paths import tables_dir
from keyseats.writing import write_whole


@dataclass(frozen=True)
class Side:
    """One of the two editions that are compared."""

    tables: Tables
    number: str
    date: str
    now: bool

    @property
    def says(self) -> str:
        """Return it in words."""
        return "the tables now" if self.now else f"edition {self.number} ({self.date})"

    @property
    def data(self) -> dict[str, Any]:
        """Return it as data."""
        return {"edition": self.number, "date": self.date, "tables_now": self.now}


def sides(tables: Tables, old: str | None, new: str | None) -> tuple[Side, Side]:
    """Return the two editions asked for: the last one and the tables now, if none is named.

    Raises
    ------
    TypedError
        If there is no such edition.
    KeyseatError
        If no edition is archived.
    """
    known = editions(tables.folder)
    if not known:
        raise KeyseatError(
            f"{tables.folder / 'editions'} holds no archived edition to compare with; archive one "
            "with keyseats edition"
        )

    def past(number: str) -> Side:
        found = [p for p in known if p.number == number]
        if not found:
            raise TypedError(f"no edition '{number}'; {near(number, [p.number for p in known])}")
        return _side(found[0])

    edition = tables.edition
    now = Side(tables, edition.number, edition.date, True)
    first = past(old) if old is not None else _side(known[-1])
    return first, past(new) if new is not None else now


def _side(past: Past) -> Side:
    return Side(past.tables, past.number, past.date, False)


def run(words: argparse.Namespace) -> int:
    """Answer ``keyseats changes``."""
    from keyseats.corrections.compare import compare
    from keyseats.corrections.told import data, screen

    if words.paper and not words.notice:
        raise TypedError("--paper: it is the notice's paper; give --notice FILE too")
    tables = Tables(tables_dir(words.tables))
    old, new = sides(tables, words.old, words.new)
    target = _target(words.notice) if words.notice else None
    paper = _paper(words.paper)
    found = compare(old.tables, new.tables)
    if target is not None:
        write_whole(target, _notice(found, old, new, paper))
    if words.json:
        both = (old.data, new.data)
        print(json.dumps(data(found, old.tables, new.tables, both), indent=1, ensure_ascii=False))
        return 0
    for line in screen(found, old.says, new.says):
        print(line)
    if target is not None:
        print()
        print(f"{target}: the notice, 1 page; print at actual size on {paper}")
    return 0


def _target(name: str) -> Path:
    path = Path(name)
    if path.is_dir() or not path.parent.is_dir():
        wrong = "it is a folder" if path.is_dir() else f"there is no folder {path.parent}"
        raise KeyseatError(f"{path} cannot be written: {wrong}; give --notice the name of a file")
    return path


def _paper(asked: str | None) -> str:
    papers = ("Letter", "A4")
    found = [p for p in papers if p.lower() == (asked or "Letter").lower()]
    if not found:
        raise TypedError(f"--paper: no paper '{asked}' for a notice; {near(str(asked), [*papers])}")
    return found[0]


def _notice(found: Any, old: Side, new: Side, paper: str) -> bytes:
    from keyseats.build import document_bytes
    from keyseats.corrections.notice import Between, notice
    from keyseats.page import Document

    command = " ".join(["keyseats changes", old.number, *([] if new.now else [new.number])])
    sources = {**old.tables.sources, **new.tables.sources}
    titles = {name: source.title for name, source in sources.items()}
    page = notice(found, Between(old.says, new.says, command, titles), paper)
    title = f"Correction notice: {old.says} to {new.says}"
    return document_bytes(Document("notice", title, "Corrections", paper, (page,)))
