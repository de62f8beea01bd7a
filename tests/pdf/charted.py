"""The wall charts as page models, each made once for all that read it."""

from __future__ import annotations

from functools import cache

from keyseats.load import Tables
from keyseats.page import Page
from keyseats.paths import tables_dir
from keyseats.sheets import find


@cache
def tables() -> Tables:
    """Return the shipped tables."""
    return Tables(tables_dir())


@cache
def chart(name: str, paper: str) -> tuple[Page, ...]:
    """Return the pages of a sheet on one paper."""
    sheet = next(s for s in find() if s.name == name)
    return tuple(sheet.pages(tables(), paper))
