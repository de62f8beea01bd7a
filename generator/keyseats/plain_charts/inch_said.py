"""What the inch plain-key charts say once of many keys, and of which keys where they differ."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from keyseats.families import inch_plain
from keyseats.families.inch_plain import fraction_text
from keyseats.load import Tables
from keyseats.plain_charts.inch_zones import KeyZone, listed, tolerances, tolerances_of
from keyseats.records import InchPlainKey
from keyseats.seat import Tabled, Work, seat_of
from keyseats.shared_tolerance import signed
from keyseats.standing import Limits, Quantity, add

SECTIONS = ("square", "rectangular")


@dataclass(frozen=True)
class Said:
    """Tolerances as the chart's heads print them, and the hub's clearance over the key.

    ``edge`` is the tolerance of the depth at the edge, which the depth from the crown has too where
    both are reckoned exactly. A tolerance that the keys do not share is blank.
    """

    edge: str
    depth: str
    floor: str
    hub: str
    clearance: Quantity


def said(zones: Sequence[KeyZone]) -> Said:
    """Return what the heads of the charts say of some keys."""
    tabled = [zone.tabled for zone in zones]
    edges = {edge_of(one) for one in tabled}
    edge = edges.pop() if len(edges) == 1 else ""
    return Said(edge, *tolerances(zones), clearance_of(tabled[0]))


def rounding(edge: str, depth: str) -> str:
    """Return, for a foot, why the depth's tolerance as a head has it is less than the standard's.

    Parameters
    ----------
    edge, depth
        The tolerances of depth at edge and depth from crown, blank where keys do not share them.
    """
    exact, kept = (text.partition(" ")[0] for text in (edge, depth))
    if kept == exact or not (kept and exact):
        return ""
    return f" {kept}: the standard's {exact.lstrip('+')} less what rounding up took."


def edge_of(tabled: Tabled) -> str:
    """Return the tolerance of a key's depth at the edge, from its least."""
    edge = tabled.depth_at_edge
    assert edge is not None
    return signed(edge, edge.least, 3)


def clearance_of(tabled: Tabled) -> Quantity:
    """Return how far the lowest hub stands over a key in the shallowest seat. [in]"""
    edge = tabled.depth_at_edge
    assert edge is not None
    return add(tabled.hub_rise.least, edge.least, -1)


@dataclass(frozen=True)
class Each:
    """One key of the last sheet: its section and what is tabled for it."""

    section: str
    row: InchPlainKey
    tabled: Tabled

    @property
    def width(self) -> str:
        """Return what its seat and its hub may be over and under the key's width."""
        return signed(self.tabled.seat_width, self.tabled.key.width, 3)

    @property
    def edge(self) -> str:
        """Return the tolerance of its depth at the edge."""
        return edge_of(self.tabled)

    @property
    def hub(self) -> tuple[Fraction, Fraction]:
        """Return the lowest hub's clearance over the key, and the hub's tolerance. [in]"""
        rise = self.tabled.hub_rise
        return clearance_of(self.tabled).value, rise.most.value - rise.least.value


def each_key(tables: Tables, rows: Sequence[InchPlainKey]) -> list[Each]:
    """Return the square keys of some ranges, then the rectangular ones, narrow first."""
    found = []
    for section in SECTIONS:
        for row in rows:
            tabled = inch_plain.one(tables, row, section, Work("in", row.shaft_to.value))
            if tabled is not None:
                found.append(Each(section, row, tabled))
    return found


@dataclass(frozen=True)
class ByKey:
    """What a rule of the last sheet cannot say for all keys: of which it is what, and its rows."""

    name: str
    says: str
    rows: tuple[str, ...]


def exceptions(keys: Sequence[Each]) -> dict[str, ByKey]:
    """Return what differs among some keys, by ``edge``, ``floor``, ``hub`` and ``width``.

    Parameters
    ----------
    keys
        The keys of the last sheet, each section together, narrow first.
    """
    found = {}
    if len({key.edge for key in keys}) > 1:
        edges = [one for key in keys if (one := key.tabled.depth_at_edge) is not None]
        rows = _all_rows(edges)
        found["edge"] = ByKey("Depth from crown", _by_key(keys, [key.edge for key in keys]), rows)
        kept = [kept_inside(keys, key, 1) for key in keys]
        found["floor"] = ByKey("Floor to opposite side", _by_key(keys, kept), rows)
    if len({key.hub for key in keys}) > 1:
        hubs = [f"+ {float(key.hub[0]):.3f}, {kept_inside(keys, key, 2)}" for key in keys]
        rows = _all_rows([key.tabled.hub_rise for key in keys])
        found["hub"] = ByKey("Hub", _by_key(keys, hubs), rows)
    if widths := two_widths(keys):
        rows = _all_rows([key.tabled.seat_width for key in widths])
        spans = _spans(widths, [key.width for key in widths])
        said = ", ".join(f"{span} {text}" for span, text in spans)
        found["width"] = ByKey("Seat and hub width", said, rows)
    return found


def two_widths(keys: Sequence[Each]) -> list[Each]:
    """Return the keys whose seat's limits are not those of the other section of their range."""
    found: dict[Fraction, set[str]] = {}
    for key in keys:
        found.setdefault(key.row.width.value, set()).add(key.width)
    return [key for key in keys if len(found[key.row.width.value]) > 1]


def kept_inside(keys: Sequence[Each], one: Each, column: int) -> str:
    """Return a tolerance that holds for the printed figures of all keys that have it as one has."""
    same = [key for key in keys if (key.edge, key.hub) == (one.edge, one.hub)]
    seats = [seat_of(k.tabled, Work("in", shaft)) for k in same for shaft in listed(k.row)]
    return tolerances_of(seats)[column]


def _all_rows(limits: Sequence[Limits]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(row for one in limits for row in one.rows))


def _spans(keys: Sequence[Each], texts: Sequence[str]) -> list[tuple[str, str]]:
    """Return runs of keys of one section and text, ``square 3/32 to 1/2``, each with the text."""
    found = []
    for (section, text), run in groupby(
        zip(keys, texts, strict=True), key=lambda pair: (pair[0].section, pair[1])
    ):
        wide = [fraction_text(key.row.width.value) for key, _ in run]
        span = wide[0] if len(wide) == 1 else f"{wide[0]} to {wide[-1]}"
        found.append((f"{section} {span}", text))
    return found


def _by_key(keys: Sequence[Each], texts: Sequence[str]) -> str:
    """Return what differs in words, ``square 3/32 to 1/2 +0.016 −0, all others +0.015 −0``."""
    most = max(texts, key=texts.count)
    parts = [f"{span} {text}" for span, text in _spans(keys, texts) if text != most]
    return f"{', '.join(parts)}, all others {most}"


def note(found: dict[str, ByKey]) -> list[tuple[str, str]]:
    """Return the foot's column of what differs, none if nothing does."""
    said = [f"{one.name}: {one.says}." for one in found.values()]
    return [("Keys differ.", " ".join(said))] if said else []
