"""Metric plain (parallel) keys, the ISO/R 773 family: depth tabled from the crown."""

from __future__ import annotations

from fractions import Fraction

from keyseats.frozen import replace
from keyseats.load import Tables
from keyseats.records import Figure, Iso286, MetricKeyLimit, MetricPlainKey, MetricWidthFit
from keyseats.seat import Key, Tabled, Work, limits_about, limits_of, limits_up
from keyseats.standing import Bench, Limits, Quantity, derive, weakest

NAME = "metric plain"
UNIT = "mm"
STANDARDS = (
    "ISO/R 773",
    "DIN 6885-1",
    "BS 4235-1",
    "JIS B 1301",
    "GOST 23360",
    "GB/T 1095",
    "DIN 6885-2",
)
FITS = ("normal", "close", "loose")


def rows(tables: Tables, standard: str) -> tuple[MetricPlainKey, ...]:
    """Return one standard's keys, main series before bracketed sizes."""
    found = [
        r for r in tables.records(MetricPlainKey, "metric_plain_keys") if r.standard == standard
    ]
    return tuple(sorted(found, key=lambda r: r.series != "main"))


def holds(row: MetricPlainKey, nominal: Fraction, smallest: bool) -> bool:
    """Return whether a row's range holds a shaft; the smallest range includes its lower end."""
    over = row.shaft_over.value
    return (over < nominal or (smallest and over == nominal)) and nominal <= row.shaft_to.value


def plain(figure: Figure) -> str:
    """Return a metric size as sizes are named: 8, 2.5, without idle zeros."""
    text = figure.text
    return text.rstrip("0").rstrip(".") if "." in text else text


def width_limits(
    tables: Tables, width: Fraction, fit: str, member: str, table: str = "metric_width_fits"
) -> Limits | None:
    """Return the limits of a seat's or hub keyway's width, or None where not tabled."""
    bench = Bench(tables)
    for row in tables.records(MetricWidthFit, table):
        if row.width.value == width and row.fit == fit and row.member == member:
            nominal = Quantity(width, UNIT, "typed")
            return limits_about(nominal, bench.quantity(row.lower), bench.quantity(row.upper))
    return None


def zone_below(tables: Tables, zone: str, size: Fraction) -> Quantity | None:
    """Return the lower deviation of an ISO 286 ``h`` zone for a size, or None beyond the table."""
    grade = "IT" + zone.removeprefix("h")
    for row in tables.records(Iso286, "iso286"):
        if row.kind == "IT" and row.symbol == grade:
            first = row.size_over.value == 0 and size <= row.size_to.value
            if first or row.size_over.value < size <= row.size_to.value:
                value = Bench(tables).within(row.value_um, row.size_over, row.size_to)
                return replace(value, value=-value.value / 1000, unit=UNIT)
    return None


def key_height(tables: Tables, row: MetricPlainKey, height: Quantity) -> Limits:
    """Return the limits of a key's height by its standard's zone."""
    part = (
        "height square section"
        if row.width.value == row.height.value
        else ("height rectangular section")
    )
    for limit in tables.records(MetricKeyLimit, "metric_key_limits"):
        if limit.standard == row.standard and limit.part == part:
            below = zone_below(tables, limit.zone, row.height.value)
            if below is not None:
                zone = Bench(tables).quantity(
                    Figure(
                        Fraction(0),
                        UNIT,
                        "0",
                        limit.source,
                        "metric_key_limits",
                        f"{limit.standard} / {limit.part}",
                        "zone",
                    )
                )
                below = replace(
                    below,
                    standing=weakest([below.standing, zone.standing]),
                    rows=below.rows + zone.rows,
                )
                return Limits(derive(height.value + below.value, height, below), height)
    return Limits(height, height)


def one(tables: Tables, row: MetricPlainKey, work: Work, choice: str = "other") -> Tabled | None:
    """Return what one standard gives for one key."""
    bench = Bench(tables)
    q = bench.quantity
    fit = work.fit if work.fit in FITS else FITS[0]
    seat_width = width_limits(tables, row.width.value, fit, "seat")
    hub_width = width_limits(tables, row.width.value, fit, "hub")
    if seat_width is None or hub_width is None:
        return None
    if row.depth_plus is None or row.hub_depth_plus is None:
        return None
    width, height = q(row.width), q(row.height)
    depth, depth_plus = q(row.depth_from_crown), q(row.depth_plus)
    hub, hub_plus = q(row.hub_depth), q(row.hub_depth_plus)
    return Tabled(
        key=Key(
            NAME,
            row.standard,
            f"{plain(row.width)} x {plain(row.height)}",
            width.printed(3),
            key_height(tables, row, height),
            None,
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
            bench.maybe(row.floor_radius_least), bench.maybe(row.floor_radius_most)
        ),
        shafts=f"over {plain(row.shaft_over)} to {plain(row.shaft_to)}",
    )


def tabled(tables: Tables, work: Work) -> list[Tabled]:
    """Return the keys of the shaft's range; a bracketed size is never the first choice."""
    standard = work.standard if work.standard in STANDARDS else STANDARDS[0]
    found = rows(tables, standard)
    least = min((r.shaft_over.value for r in found), default=Fraction(0))
    fitting = [r for r in found if holds(r, work.nominal, r.shaft_over.value == least)]
    kept = [one(tables, r, work, "first" if n == 0 else "other") for n, r in enumerate(fitting)]
    return [t for t in kept if t is not None]


def every(tables: Tables, work: Work) -> list[Tabled]:
    """Return every key of the standard asked for."""
    standard = work.standard if work.standard in STANDARDS else STANDARDS[0]
    found = [one(tables, row, work) for row in rows(tables, standard)]
    return [t for t in found if t is not None]
