"""One module a sheet: tables in, pages out. Adding a sheet adds one file here.

Each module holds ``SHEETS``, a tuple of `keyseats.sheets.Sheet`. `find` reads them all, so no list
has to be kept.
"""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from keyseats.load import Tables
from keyseats.page import Page


@dataclass(frozen=True)
class Sheet:
    """A sheet of the printed set, in one file a paper.

    Parameters
    ----------
    name
        What it is called on the command line and in the file's name.
    kind
        ``wall chart``, ``graphs``, ``pocket cards`` or ``shaft sheets``.
    title
        What it answers.
    papers
        The papers it is laid out for, the usual one first.
    pages
        Makes its pages for one paper.
    duplex
        ``LongEdge`` or ``ShortEdge`` if it is printed on both sides.
    order
        Where it stands among the sheets.
    """

    name: str
    kind: str
    title: str
    papers: tuple[str, ...]
    pages: Callable[[Tables, str], Iterable[Page]]
    duplex: str = ""
    order: int = 50


def find() -> tuple[Sheet, ...]:
    """Return every sheet of this package, in order."""
    found: list[Sheet] = []
    for module in pkgutil.iter_modules(__path__):
        loaded = importlib.import_module(f"{__name__}.{module.name}")
        found.extend(getattr(loaded, "SHEETS", ()))
    return tuple(sorted(found, key=lambda s: (s.order, s.name)))
