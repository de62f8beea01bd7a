"""Spindle speeds from the published ranges for high-speed steel, by material and cutter."""

from __future__ import annotations

from math import ceil, floor

from keyseats.faults import TypedError, near
from keyseats.frozen import frozen
from keyseats.load import Tables
from keyseats.machining import revolutions
from keyseats.records import CuttingSpeed
from keyseats.standing import Bench, Quantity

USUAL_MATERIAL = "low-carbon steel"
TABLE = "cutting_speeds"


def caution_for(cutter_kind: str) -> str:
    """Return what wants a lower speed: a half-moon cutter has a neck, the others none."""
    neck = " or a thin neck" if cutter_kind == "half-moon" else ""
    return f"a light machine{neck} wants the low end or under"


@frozen
class Speed:
    """A range of spindle speeds, whole turns a minute, with the cutting speeds behind it."""

    material: str
    low: int
    high: int
    cutting_low: Quantity
    cutting_high: Quantity
    cutting_unit: str
    source: str

    @property
    def rows(self) -> tuple[str, ...]:
        """Return the ids of the table's figures behind it."""
        return tuple(dict.fromkeys(self.cutting_low.rows + self.cutting_high.rows))


def materials(tables: Tables) -> list[str]:
    """Return the materials that have a range."""
    return [row.material for row in tables.records(CuttingSpeed, TABLE)]


def speed_for(tables: Tables, material: str, diameter: Quantity) -> Speed:
    """Return the spindle speeds for a material and a cutter as measured.

    Parameters
    ----------
    tables
        The tables.
    material
        A material of the table, or the beginning of its name; the usual one if empty.
    diameter
        The cutter's diameter. [length]

    Raises
    ------
    TypedError
        If the material is not in the table.

    Notes
    -----
    rpm = 12 V / (pi D) or 1000 V / (pi D), the range rounded inward where a whole number lies
    inside it.
    """
    found = tables.records(CuttingSpeed, TABLE)
    wanted = (material or USUAL_MATERIAL).strip().lower()
    named = [row for row in found if row.material.lower() == wanted]
    named = named or [row for row in found if row.material.lower().startswith(wanted)]
    if len(named) != 1:
        raise TypedError(
            f"--material: no material '{material}' in {TABLE}; {near(wanted, materials(tables))}"
        )
    row, bench = named[0], Bench(tables)
    inch = diameter.unit == "in"
    low, high = (row.low, row.high) if inch else (row.low_metric, row.high_metric)
    slow, fast = bench.quantity(low), bench.quantity(high)
    least = revolutions(slow.value, diameter.value, diameter.unit)
    most = revolutions(fast.value, diameter.value, diameter.unit)
    inside = ceil(least) <= floor(most)
    return Speed(
        row.material,
        ceil(least) if inside else floor(least),
        floor(most) if inside else ceil(most),
        slow.printed(0),
        fast.printed(0),
        "ft/min" if inch else "m/min",
        low.source,
    )
