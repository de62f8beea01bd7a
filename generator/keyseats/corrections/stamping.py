"""The code of a page being composed, from what it is and the figures that it rests on."""

from __future__ import annotations

from collections.abc import Iterable

from keyseats.corrections.code import code_for
from keyseats.corrections.figures import figures_of
from keyseats.load import Tables
from keyseats.page import Block, Stamp


def rows_of(blocks: Iterable[Block]) -> tuple[str, ...]:
    """Return the ids of the figures in some blocks, sorted."""
    return tuple(sorted({row for block in blocks for row in block.all_rows()}))


def stamp(tables: Tables, what: str, rows: Iterable[str]) -> Stamp:
    """Return a page's code with what it stands for.

    Parameters
    ----------
    tables
        Where the figures stand.
    what
        What the page is; never its paper or a measured size.
    rows
        Ids of the figures that it rests on.
    """
    ids = tuple(sorted(set(rows)))
    return Stamp(code_for(what, figures_of(tables).printed(ids)), what, ids)
