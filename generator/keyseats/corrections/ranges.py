"""The figures that say for which shafts a key is: a page that lists a key rests on them too."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from keyseats.families import inch_half_moon, inch_plain, metric_half_moon
from keyseats.load import Tables
from keyseats.records import Figure
from keyseats.seat import Key


def range_rows(tables: Tables, key: Key) -> tuple[str, ...]:
    """Return the ids of the shaft range that a key's standard or list gives it.

    Parameters
    ----------
    tables
        The tables.
    key
        A key of any family.
    """
    return tuple(_ranges(tables, key))


def _ranges(tables: Tables, key: Key) -> Iterator[str]:
    ends: tuple[Figure | None, ...] = ()
    if key.family == inch_half_moon.NAME:
        listed = inch_half_moon.width_ranges(tables).get(key.width.value)
        ends = (listed.shaft_from, listed.shaft_to) if listed else ()
    elif key.family == metric_half_moon.NAME:
        given = metric_half_moon.ranges(tables, metric_half_moon.TORQUE).get(key.designation)
        ends = (given.shaft_over, given.shaft_to) if given else ()
    else:
        # A plain key's range stands in the row of its width.
        row = key.width.rows[0].rpartition("/")[0]
        yield from (f"{row}/shaft_over", f"{row}/shaft_to")
    yield from (end.id for end in ends if end is not None)


def choice_rows(tables: Tables, key: Key, nominal: Fraction) -> tuple[str, ...]:
    """Return the ids of the figures that make a key the first choice of a shaft.

    Parameters
    ----------
    tables
        The tables.
    key
        The first choice.
    nominal
        The shaft. [in or mm]
    """
    rows = range_rows(tables, key)
    if key.family == inch_half_moon.NAME:
        plain = inch_plain.row_for(tables, nominal)
        if plain is not None:
            rows += (plain.shaft_over.id, plain.shaft_to.id, plain.width.id)
    return rows
