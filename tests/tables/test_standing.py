"""Every shipped figure has a standing, however its source is named."""

from __future__ import annotations

from keyseats.load import Tables
from keyseats.standing import ORDER, standing_of


def test_every_figure_from_a_rule_has_a_standing(tables: Tables) -> None:
    for name in tables.schema:
        for row in tables.rows(name):
            for column in tables.columns(name):
                if column.source_column and row.cells[column.name]:
                    assert standing_of(row.cells[column.source_column], row.id, tables) in ORDER
