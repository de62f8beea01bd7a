"""Rows that a correction renamed: their name is made of cells, and one of those was corrected."""

from __future__ import annotations

from keyseats.load import Row, Tables


def renamed(old: Tables, new: Tables) -> dict[str, str]:
    """Return old row addresses by the new ones, ``table/row``, of rows that only changed names.

    A row that is gone and a row that came are the same row if they differ in nothing but cells of
    their name, and no other pair is as like.
    """
    found: dict[str, str] = {}
    for table in new.schema:
        if table not in old.schema:
            continue
        then = {row.id: row for row in old.rows(table)}
        now = {row.id: row for row in new.rows(table)}
        gone = [row for name, row in then.items() if name not in now]
        come = [row for name, row in now.items() if name not in then]
        for row in come:
            like = [other for other in gone if _alike(other, row, new.identity(table))]
            if len(like) == 1:
                found[f"{table}/{row.id}"] = f"{table}/{like[0].id}"
                gone.remove(like[0])
    return found


def _alike(old: Row, new: Row, named: tuple[str, ...]) -> bool:
    rest = [c for c in new.cells if c not in named]
    changed = [c for c in named if old.cells.get(c) != new.cells[c]]
    return len(changed) == 1 and all(old.cells.get(c) == new.cells[c] for c in rest)
