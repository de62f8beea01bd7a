"""Frames of records. The only module that imports pandas; imported only where frames are made."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any


def frame(columns: Sequence[str], rows: Iterable[Sequence[str]]) -> Any:
    """Return rows of words as a frame; every cell stays the words that it is.

    Parameters
    ----------
    columns
        The heads.
    rows
        Cells in the order of the heads.
    """
    import pandas

    return pandas.DataFrame(list(rows), columns=list(columns), dtype=object)


def csv_text(filled: Any) -> str:
    """Return a frame as CSV with its heads, lines ended as on Unix."""
    text: str = filled.to_csv(index=False, lineterminator="\n")
    return text
