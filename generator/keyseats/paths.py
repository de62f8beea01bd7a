"""Where the tables and fonts are, in a checkout and in an installed wheel."""

from __future__ import annotations

from pathlib import Path

from keyseats.faults import TableError

_HERE = Path(__file__).resolve().parent


def tables_dir(chosen: str | None = None) -> Path:
    """Return the folder of tables: the one chosen, the wheel's own, or the checkout's.

    Raises
    ------
    TableError
        If no such folder holds ``sources.csv``.
    """
    places = [Path(chosen)] if chosen else [_HERE / "tables", _HERE.parents[1] / "tables"]
    for place in places:
        if (place / "sources.csv").is_file():
            return place
    named = " and ".join(str(p) for p in places)
    raise TableError(f"no tables: {named} has no sources.csv; give their folder with --tables")


def font_file(name: str) -> Path:
    """Return the path of a font or metrics file that ships with the package."""
    return _HERE / "fonts" / name
