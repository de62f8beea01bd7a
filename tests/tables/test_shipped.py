"""The shipped tables keep their own rules."""

from __future__ import annotations

from keyseats.check import check
from keyseats.load import Tables


def test_no_faults(tables: Tables) -> None:
    report = check(tables)
    assert report.faults == ()
    assert report.remarks == ()


def test_the_unread_keys_are_listed_as_unsettled(tables: Tables) -> None:
    unsettled = {(q.table, q.row, q.column) for q in check(tables).unsettled}
    for key in ("707", "708", "709", "710"):
        assert ("inch_half_moon_seats", key, "key_above_edge") in unsettled
    settled = {(q.table, q.row) for q in check(tables).settled}
    assert ("inch_half_moon_seats", "303") in settled


def test_every_figure_from_a_rule_has_a_standing(tables: Tables) -> None:
    from keyseats.standing import ORDER, standing_of

    for name in tables.schema:
        for row in tables.rows(name):
            for column in tables.columns(name):
                if column.source_column and row.cells[column.name]:
                    assert standing_of(row.cells[column.source_column], row.id, tables) in ORDER
