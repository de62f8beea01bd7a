"""Metric half-moon (Woodruff) keys, the ISO 3912 family: depth tabled from the crown."""

from __future__ import annotations

from keyseats.families.metric_plain import plain, width_limits
from keyseats.load import Tables
from keyseats.records import (
    MetricHalfMoonKey,
    MetricHalfMoonSeat,
    MetricHalfMoonShaft,
)
from keyseats.seat import Key, Tabled, Work, limits_of, limits_up
from keyseats.standing import MEMORY, Bench, Limits, add

NAME = "metric half-moon"
UNIT = "mm"
STANDARDS = ("ISO 3912",)
FITS = ("normal", "close", "free")
TORQUE = "series 1"


def keys(tables: Tables, standard: str) -> dict[str, MetricHalfMoonKey]:
    """Return one standard's keys by designation."""
    found = tables.records(MetricHalfMoonKey, "metric_half_moon_keys")
    return {k.designation: k for k in found if k.standard == standard}


def seats(tables: Tables, standard: str) -> dict[str, MetricHalfMoonSeat]:
    """Return one standard's seats by designation."""
    found = tables.records(MetricHalfMoonSeat, "metric_half_moon_seats")
    return {s.designation: s for s in found if s.standard == standard}


def ranges(tables: Tables, series: str) -> dict[str, MetricHalfMoonShaft]:
    """Return the shaft range that one series gives each key, by designation."""
    found = tables.records(MetricHalfMoonShaft, "metric_half_moon_shafts")
    return {r.designation: r for r in found if r.series == series}


def one(name: str, tables: Tables, work: Work, choice: str = "other") -> Tabled | None:
    """Return what the standard gives for one key, or None if it has no such seat."""
    bench = Bench(tables)
    q = bench.quantity
    standard = work.standard if work.standard in STANDARDS else STANDARDS[0]
    key, seat = keys(tables, standard).get(name), seats(tables, standard).get(name)
    if key is None or seat is None:
        return None
    fit = work.fit if work.fit in FITS else FITS[0]
    seat_width, hub_width = _width(tables, key, fit, "seat"), _width(tables, key, fit, "hub")
    if seat_width is None or hub_width is None:
        return None
    height, depth, hub = q(key.height), q(seat.depth_from_crown), q(seat.hub_depth)
    depth_plus, hub_plus = q(seat.depth_plus), q(seat.hub_depth_plus)
    least = height
    if key.height_minus is not None:
        least = add(height, q(key.height_minus))
    given = ranges(tables, TORQUE).get(name)
    return Tabled(
        key=Key(
            NAME,
            standard,
            name,
            q(key.width).printed(3),
            Limits(least, height),
            q(key.diameter).printed(2),
            height.printed(2),
        ),
        seat_width=seat_width,
        hub_width=hub_width,
        hub_rise=limits_up(hub, hub_plus),
        hub_datum="crown",
        depth_from_crown=limits_up(depth, depth_plus),
        fit=fit,
        choice=choice,
        floor_radius=limits_of(
            bench.maybe(seat.floor_radius_least), bench.maybe(seat.floor_radius_most)
        ),
        shafts=_range(given) if given else "",
    )


def _range(row: MetricHalfMoonShaft) -> str:
    """Return a shaft range in words; its dagger says that the ranges are recalled."""
    end = f" to {plain(row.shaft_to)}" if row.shaft_to is not None else ""
    return f"over {plain(row.shaft_over)}{end}" + ("†" if row.shaft_over.source == MEMORY else "")


def _width(tables: Tables, key: MetricHalfMoonKey, fit: str, member: str) -> Limits | None:
    return width_limits(tables, key.width.value, fit, member, "metric_half_moon_width_fits")


def tabled(tables: Tables, work: Work) -> list[Tabled]:
    """Return the keys whose series 1 (torque) range holds the shaft, then those of series 2."""
    found: list[Tabled | None] = []
    seen: set[str] = set()
    for series in (TORQUE, "series 2"):
        given = list(ranges(tables, series).items())
        least = min((r.shaft_over.value for _, r in given), default=None)
        for name, row in given:
            over = row.shaft_over.value
            inside = over < work.nominal or (over == least and over == work.nominal)
            if row.shaft_to is not None and work.nominal > row.shaft_to.value:
                continue
            if name not in seen and inside:
                seen.add(name)
                first = series == TORQUE and not found
                found.append(one(name, tables, work, "first" if first else "other"))
    return [t for t in found if t is not None]


def every(tables: Tables, work: Work) -> list[Tabled]:
    """Return every key of the family."""
    standard = work.standard if work.standard in STANDARDS else STANDARDS[0]
    found = [one(name, tables, work) for name in keys(tables, standard)]
    return [t for t in found if t is not None]
