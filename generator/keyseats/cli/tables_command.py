"""``keyseats tables``: tables and computed grids as CSV or JSON for other programs."""

from __future__ import annotations

import argparse
import sys
from itertools import chain
from pathlib import Path

from keyseats.export import Exported, as_csv, as_json, figures_of
from keyseats.export_grids import GRIDS, grid_figures
from keyseats.faults import KeyseatError, TypedError, near
from keyseats.load import Tables
from keyseats.paths import tables_dir
from keyseats.writing import write_whole

_SAYS = {
    "arc-height": "crown to edge, by shaft and width",
    "centring-travel": "face touch to centreline, by shaft and cutter width",
    "depths": "from each datum, by shaft: of one key (--key), or of the first choices",
}


def run(words: argparse.Namespace) -> int:
    """Answer ``keyseats tables``."""
    tables = Tables(tables_dir(words.tables))
    if not (words.csv or words.json):
        if words.output or words.grid or words.key:
            raise TypedError("tables: say which form is wanted, --csv or --json")
        for line in _listed(tables, words.names):
            print(line)
        return 0
    figures = _figures(tables, words)
    text = as_csv(figures) if words.csv else as_json(figures, tables)
    if not words.output:
        sys.stdout.write(text)
        return 0
    path = Path(words.output)
    if path.is_dir() or not path.parent.is_dir():
        wrong = "it is a folder" if path.is_dir() else f"there is no folder {path.parent}"
        raise KeyseatError(f"{path} cannot be written: {wrong}; give --output the name of a file")
    write_whole(path, text.encode())
    print(f"{path}: {len(figures)} figures and words")
    return 0


def _figures(tables: Tables, words: argparse.Namespace) -> list[Exported]:
    """Return what was asked for: the tables named, or all if there is no grid either.

    Raises
    ------
    KeyseatError
        If the tables have a fault: what is exported must be what would be printed.
    TypedError
        For a table, grid or key that is not known.
    """
    from keyseats.check import check

    names, grids = words.names, list(dict.fromkeys(words.grid or ()))
    _known(tables, names)
    for grid in grids:
        if grid not in GRIDS:
            raise TypedError(f"--grid: no grid '{grid}'; {near(grid, list(GRIDS))}")
    if words.key and "depths" not in grids:
        raise TypedError("--key: it is for the depths; say --grid depths too")
    faults = check(tables).faults
    if faults:
        raise KeyseatError(
            f"the tables have {len(faults)} fault(s), so nothing was exported; see keyseats check"
        )
    if not names and not grids:
        names = list(tables.schema)
    parts = [figures_of(tables, name) for name in dict.fromkeys(names)]
    parts += [grid_figures(tables, grid, words.key) for grid in grids]
    return list(chain.from_iterable(parts))


def _known(tables: Tables, names: list[str]) -> None:
    for name in names:
        if name not in tables.schema:
            raise TypedError(f"tables: no table '{name}'; {near(name, list(tables.schema))}")


def _listed(tables: Tables, names: list[str]) -> list[str]:
    _known(tables, names)
    wide = max(len(name) for name in tables.schema)
    lines = ["Tables (keyseats tables NAME --csv):"]
    for name in names or tables.schema:
        columns = len([c for c in tables.columns(name) if c.kind != "source"])
        lines.append(f"  {name:<{wide}}  {len(tables.rows(name))} rows, {columns} columns")
    if not names:
        lines += ["", "Computed grids (keyseats tables --grid NAME --csv):"]
        lines += [f"  {name:<{wide}}  {says}" for name, says in _SAYS.items()]
    return lines
