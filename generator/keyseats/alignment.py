"""How true a seat must stand: beside the shaft's centreline, and along it."""

from __future__ import annotations

from fractions import Fraction

from keyseats.lengths import converted
from keyseats.load import Tables
from keyseats.records import AlignmentLimit
from keyseats.standing import Bench, Quantity


def alignment(tables: Tables, unit: str, length: Quantity | None) -> tuple[Quantity, Quantity]:
    """Return how far a seat may stand off centre, and run out over its length. [length]

    Parameters
    ----------
    tables
        Where ``alignment_limits`` is read.
    unit
        ``in`` or ``mm``; the standard's inches are converted.
    length
        The seat's length; the shortest range of the standard is taken where it is not known.
    """
    bench = Bench(tables)
    found = tables.records(AlignmentLimit, "alignment_limits")
    inches = Fraction(0) if length is None else converted(length.value, length.unit, "in")
    offset = next(row for row in found if row.feature == "offset")
    skew = next(
        row
        for row in found
        if row.feature == "skew" and (row.length_to is None or inches <= row.length_to.value)
    )
    each = skew.unit_of_length.startswith("per")
    figures = []
    for row, times in ((offset, Fraction(1)), (skew, inches if each else Fraction(1))):
        most = bench.quantity(row.most)
        value = converted(most.value * times, "in", unit)
        places = 4 if unit == "in" and times != 1 else 3 if unit == "in" else 2
        figures.append(Quantity(value, unit, most.standing, most.rows).printed(places, "down"))
    return figures[0], figures[1]
