"""Inch plain (parallel) keys, ASME B17.1: half the key's height at the edge."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import TypeVar

from keyseats.frozen import replace
from keyseats.lengths import Length
from keyseats.load import Tables
from keyseats.records import (
    InchPlainCorner,
    InchPlainFit,
    InchPlainKey,
    InchPlainKeyLimit,
    SharedLimit,
)
from keyseats.seat import Key, Tabled, Work, limits_about
from keyseats.standing import Bench, Limits, Quantity, add, derive, off

Band = TypeVar("Band", InchPlainKeyLimit, InchPlainFit)
NAME = "inch plain"
UNIT = "in"
STANDARDS = ("ASME B17.1",)
FITS = ("class 1", "class 2")
STOCK = {"class 1": "bar stock", "class 2": "keystock"}


def rows(tables: Tables) -> tuple[InchPlainKey, ...]:
    """Return the key of each range of shafts, in rising order."""
    return tables.records(InchPlainKey, "inch_plain_keys")


def row_for(tables: Tables, nominal: Fraction) -> InchPlainKey | None:
    """Return the row whose range (over, to and including) holds a nominal shaft."""
    for row in rows(tables):
        if row.shaft_over.value < nominal <= row.shaft_to.value:
            return row
    return None


def designation(width: Fraction, height: Fraction) -> str:
    """Return width x height in fractions, as the standard prints them."""
    return f"{fraction_text(width)} x {fraction_text(height)}"


def fraction_text(value: Fraction) -> str:
    """Return a mixed fraction such as ``1-7/16``."""
    whole, rest = divmod(value, 1)
    if rest == 0:
        return str(whole)
    part = f"{rest.numerator}/{rest.denominator}"
    return f"{whole}-{part}" if whole else part


def _banded(records: Iterable[Band], size: Fraction) -> Band | None:
    """Return the record whose band of widths (over, to and including) holds a size."""
    for record in records:
        if record.width_over.value < size <= record.width_to.value:
            return record
    return None


def key_limit(
    tables: Tables, stock: str, section: str, width: Fraction
) -> InchPlainKeyLimit | None:
    """Return the tolerances on a key's width and height, or None beyond the table."""
    rows = tables.records(InchPlainKeyLimit, "inch_plain_key_limits")
    return _banded((r for r in rows if r.stock == stock and r.section == section), width)


def fit_row(tables: Tables, fit: str, section: str, width: Fraction) -> InchPlainFit | None:
    """Return the fit's row for a key width, or None beyond the table."""
    rows = tables.records(InchPlainFit, "inch_plain_fits")
    whole = (r for r in rows if r.floor_minus is not None)
    return _banded((r for r in whole if r.fit == fit and r.section == section), width)


def one(
    tables: Tables, row: InchPlainKey, section: str, work: Work, choice: str = "other"
) -> Tabled | None:
    """Return what the standard gives for one key of one range.

    Returns
    -------
    Tabled or None
        None where the range has no such section, or its fit is not tabled.
    """
    bench = Bench(tables)
    q = bench.quantity
    figure = row.height_square if section == "square" else row.height_rectangular
    if figure is None:
        return None
    fit = work.fit if work.fit in FITS else FITS[0]
    band = fit_row(tables, fit, section, row.width.value)
    limit = key_limit(tables, STOCK[fit], section, row.width.value)
    if band is None or limit is None or band.floor_minus is None or band.floor_plus is None:
        return None
    if band.hub_floor_minus is None or band.hub_floor_plus is None:
        return None
    width, height = q(row.width), q(figure)
    ends = (band.width_over, band.width_to)
    key_ends = (limit.width_over, limit.width_to)
    half = derive(height.value / 2, height)
    # The standard's tolerance on floor to opposite side, turned round: a floor that may lie
    # 0.015 lower makes a seat that may be 0.015 deeper.
    minus, plus = bench.within(band.floor_minus, *ends), bench.within(band.floor_plus, *ends)
    at_edge = Limits(off(half, plus, -1), off(half, minus, -1))
    shared = {s.figure: s for s in tables.records(SharedLimit, "shared_limits") if s.family == NAME}
    clearance = q(shared["top_clearance"].plus)
    rise = add(half, clearance)
    seat_width = limits_about(
        width, bench.within(band.seat_width_minus, *ends), bench.within(band.seat_width_plus, *ends)
    )
    key = Key(
        NAME,
        STANDARDS[0],
        designation(width.value, height.value),
        width.printed(4),
        limits_about(
            height,
            bench.within(limit.height_minus, *key_ends),
            bench.within(limit.height_plus, *key_ends),
        ),
        None,
        height.printed(4),
    )
    return Tabled(
        key=key,
        seat_width=seat_width,
        hub_width=seat_width,
        hub_rise=limits_about(
            rise,
            bench.within(band.hub_floor_minus, *ends),
            bench.within(band.hub_floor_plus, *ends),
        ),
        hub_datum="edge",
        depth_at_edge=at_edge,
        fit=fit,
        choice=choice,
        floor_radius=_radius(tables, half, bench),
        as_standard_prints=True,
        shafts=f"over {row.shaft_over.text} to {row.shaft_to.text}".replace(" in", ""),
    )


def _radius(tables: Tables, depth: Quantity, bench: Bench) -> Limits | None:
    for corner in tables.records(InchPlainCorner, "inch_plain_corners"):
        if corner.seat_depth_over.value < depth.value <= corner.seat_depth_to.value:
            radius = bench.within(corner.floor_radius, corner.seat_depth_over, corner.seat_depth_to)
            return Limits(radius, radius)
    return None


def tabled(tables: Tables, work: Work) -> list[Tabled]:
    """Return the keys of the shaft's range, the preferred section first."""
    row = row_for(tables, work.nominal)
    if row is None:
        return []
    sections = ["square", "rectangular"]
    if row.preferred == "rectangular":
        sections.reverse()
    kept = [t for t in (one(tables, row, s, work) for s in sections) if t is not None]
    return [replace(t, choice="first") if n == 0 else t for n, t in enumerate(kept)]


def every(tables: Tables, work: Work) -> list[Tabled]:
    """Return every key of the family, square and rectangular."""
    found = [one(tables, row, s, work) for row in rows(tables) for s in ("square", "rectangular")]
    return [t for t in found if t is not None]


def reach(tables: Tables) -> tuple[Length, Length]:
    """Return the shafts that the family covers: over, to and including."""
    all_rows = rows(tables)
    first, last = all_rows[0].shaft_over, all_rows[-1].shaft_to
    return Length(first.value, UNIT, first.text), Length(last.value, UNIT, last.text)
