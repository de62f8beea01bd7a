"""Keys of the metric plain-key chart by sheet, and the standards that agree with it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from keyseats.families import metric_plain
from keyseats.load import Tables
from keyseats.records import Figure, MetricPlainKey
from keyseats.seat import Tabled, Work

STANDARD = "ISO/R 773"
MACHINE_TOOLS = "DIN 6885-2"
# The last shaft of each sheet. Our layout, no source.
LAST_SHAFTS = (50, 150, 500)


@dataclass(frozen=True)
class Key:
    """One key with its row and what its standard gives."""

    row: MetricPlainKey
    tabled: Tabled


def keys(tables: Tables) -> list[Key]:
    """Return the standard's keys, narrow first."""
    found = []
    for row in metric_plain.rows(tables, STANDARD):
        tabled = metric_plain.one(tables, row, Work("mm", row.shaft_to.value), "first")
        if tabled is not None:
            found.append(Key(row, tabled))
    return found


def agreeing(tables: Tables, here: list[Key]) -> list[str]:
    """Return the standards in which these keys were read with the same ranges, sizes and depths.

    Tolerances of the depths must be the same too, but may follow from a rule. A standard that has
    some size or depth only because it follows this one is left out.
    """

    def read(row: MetricPlainKey) -> tuple[Figure, ...]:
        sizes = (row.shaft_over, row.shaft_to, row.width, row.height)
        return (*sizes, row.depth_from_crown, row.hub_depth)

    def values(row: MetricPlainKey) -> tuple[Fraction, ...]:
        plus = [p.value for p in (row.depth_plus, row.hub_depth_plus) if p is not None]
        return (*(f.value for f in read(row)), *plus)

    ours = {k.row.width.value: values(k.row) for k in here}
    found = []
    for name in metric_plain.STANDARDS:
        rows = [r for r in metric_plain.rows(tables, name) if r.width.value in ours]
        follows = any("rule-as-iso" in f.source for r in rows for f in read(r))
        same = {r.width.value: values(r) for r in rows} == ours
        if name != STANDARD and same and not follows:
            found.append(name)
    return found


def deeper(tables: Tables, here: list[Key]) -> bool:
    """Return whether the machine-tool standard cuts the keys of a page deeper."""
    ours = {k.row.width.value: k.row.depth_from_crown.value for k in here}
    rows = [r for r in metric_plain.rows(tables, MACHINE_TOOLS) if r.width.value in ours]
    return bool(rows) and all(r.depth_from_crown.value > ours[r.width.value] for r in rows)


def sheets(tables: Tables) -> list[list[Key]]:
    """Return the keys of each sheet."""
    found: list[list[Key]] = [[] for _ in LAST_SHAFTS]
    for key in keys(tables):
        page = next(n for n, last in enumerate(LAST_SHAFTS) if key.row.shaft_to.value <= last)
        found[page].append(key)
    return found


def same(tables: Tables, here: list[Key]) -> tuple[str, str]:
    """Return the note on which other standards have the same rows."""
    names = agreeing(tables, here)
    if not names:
        return ("Other standards:", "ask for them on the command line, --standard.")
    listed = " and ".join([*([", ".join(names[:-1])] if names[1:] else []), names[-1]])
    not_same = f" {MACHINE_TOOLS} is deeper." if deeper(tables, here) else ""
    return ("The same", f"sizes and depths were read in {listed}.{not_same}")
