"""The plain key of each listed shaft, by which the grids are ruled and framed."""

from __future__ import annotations

from fractions import Fraction

from keyseats.families import inch_plain, metric_plain
from keyseats.load import Tables
from keyseats.records import InchPlainKey, MetricPlainKey
from keyseats.seat import Work
from keyseats.setting_up.system import System
from keyseats.standing import Bench, Quantity


def key_width(tables: Tables, system: System, shaft: Fraction) -> Quantity | None:
    """Return the width of a shaft's plain key, or None if the tables have none for it.

    It rests on the range of shafts that picks it.
    """
    work = Work(system.unit, shaft)
    family = inch_plain if system.unit == "in" else metric_plain
    found = family.tabled(tables, work)
    if not found:
        return None
    width = found[0].key.width.value
    row = next(r for r in _rows(tables, system) if _picked(r, shaft) and r.width.value == width)
    return Bench(tables).within(row.width, row.shaft_over, row.shaft_to)


def _rows(tables: Tables, system: System) -> tuple[InchPlainKey | MetricPlainKey, ...]:
    if system.unit == "in":
        return inch_plain.rows(tables)
    return metric_plain.rows(tables, metric_plain.STANDARDS[0])


def _picked(row: InchPlainKey | MetricPlainKey, shaft: Fraction) -> bool:
    """Return whether a row's range holds a shaft; the lower end too, where no other row has it."""
    return row.shaft_over.value <= shaft <= row.shaft_to.value
