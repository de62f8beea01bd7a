"""Keys of the metric plain-key chart by sheet, and the standards that agree with it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from keyseats.families import metric_plain
from keyseats.families.metric_plain import plain
from keyseats.load import Tables
from keyseats.records import Figure, MetricPlainKey
from keyseats.seat import Tabled, Work

STANDARD = "ISO/R 773"
MACHINE_TOOLS = "DIN 6885-2"
# The last shaft of each sheet, of the charts for across the room and of the others, which leave
# larger shafts to their sheet of every key. Our layout, no source. [mm]
LAST_SHAFTS = (50, 150, 500)
LAST_LISTED = (30, 75)
SOURCES = (
    "Sources.",
    "Engineers Edge, ISO/R 773:1969; one-page keyway sheet, 2007; MISUMI, JIS B 1301:1996; "
    "cadhome.net, GB/T 1095. Taper keys are not covered.",
)


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


def sheets(tables: Tables, last_shafts: tuple[int, ...] = LAST_SHAFTS) -> list[list[Key]]:
    """Return the keys of each sheet; a key for larger shafts than the last is on none."""
    found: list[list[Key]] = [[] for _ in last_shafts]
    for key in keys(tables):
        page = next((n for n, last in enumerate(last_shafts) if key.row.shaft_to.value <= last), -1)
        if page >= 0:
            found[page].append(key)
    return found


def _listed(names: list[str]) -> str:
    return " and ".join([*([", ".join(names[:-1])] if names[1:] else []), names[-1]])


def same(tables: Tables, here: list[Key], small: list[Key]) -> str:
    """Return a sentence on which other standards have the same rows.

    Parameters
    ----------
    tables
        The tables.
    here
        The keys of the page.
    small
        Those of them for the smallest shafts, in which more standards may agree.
    """
    names = agreeing(tables, here)
    more = [name for name in agreeing(tables, small) if name not in names]
    to = f"to {plain(small[-1].row.shaft_to)} mm"
    parts = [_listed(names)] if names else []
    if more:
        parts.append(f"{to} {'also ' if names else ''}in {_listed(more)}")
    if not parts:
        return "Other standards: on the command line, --standard."
    lead = "in " if names else ""
    not_same = f" {MACHINE_TOOLS} is deeper." if deeper(tables, here) else ""
    return f"The same sizes and depths were read {lead}{', '.join(parts)}.{not_same}"
