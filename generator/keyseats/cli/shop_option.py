"""``--shop FILE``: the shop that an answer or a set is for."""

from __future__ import annotations

from pathlib import Path

from keyseats.load import Tables
from keyseats.shop import USUAL, Shop, read_shop
from keyseats.speeds import materials


def shop_of(path: Path | str | None, tables: Tables) -> Shop:
    """Return the shop of a file, its block set and material known to the tables; or the usual one.

    Raises
    ------
    ShopError
        If the file cannot be used, with the line.
    """
    if path is None:
        return USUAL
    sets = tuple(dict.fromkeys(row.cells["set"] for row in tables.rows("gauge_blocks")))
    return read_shop(path, sets, tuple(materials(tables)))
