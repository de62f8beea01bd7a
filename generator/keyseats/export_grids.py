"""Grids that are computed, not tabled: arc height, centring travel, depths from each datum."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from keyseats import geometry
from keyseats.export import Exported, provenance
from keyseats.families.inch_plain import fraction_text
from keyseats.faults import TypedError
from keyseats.load import Tables
from keyseats.lookup import OF_UNIT, seats_for
from keyseats.seat import SETTING_PLACES, Seat, Work
from keyseats.standing import Bench, Limits, Quantity, derive, typed

ARC_PLACES = {"in": 4, "mm": 3}
SYSTEM = {"in": "inch", "mm": "metric"}
# The shafts of the grids, by sixteenths and by millimetres: our choice, no source.
SHAFTS = {
    "in": tuple(Fraction(n, 16) for n in range(4, 65)),
    "mm": tuple(Fraction(n) for n in range(6, 101)),
}
# Where the widths of keys are tabled.
WIDTHS = {
    "in": ("inch_plain_keys", "inch_half_moon_keys"),
    "mm": ("metric_plain_keys", "metric_half_moon_keys"),
}
DATUMS = (
    "depth_at_edge",
    "depth_from_crown",
    "floor_to_opposite_side",
    "over_key",
    "key_above_edge",
    "hub_floor_to_opposite_side",
)
NOT_FOR_SHAFT = "key-not-for-shaft"


def size(value: Fraction, unit: str) -> str:
    """Return a nominal size with its unit, so that no spreadsheet takes it for a date."""
    return f"{fraction_text(value) if unit == 'in' else f'{float(value):g}'} {unit}"


def widths(tables: Tables, unit: str) -> list[Quantity]:
    """Return the widths of a system's keys in rising order, each with its standing."""
    bench, found = Bench(tables), dict[Fraction, Quantity]()
    for table in WIDTHS[unit]:
        column = next(c for c in tables.columns(table) if c.name == "width")
        for row in tables.rows(table):
            figure = tables.figure(row, column)
            if figure is not None:
                found.setdefault(figure.value, bench.quantity(figure))
    return [found[value] for value in sorted(found)]


def arc_heights(tables: Tables) -> Iterator[Exported]:
    """Yield the arc height for each shaft and width of at most half of it."""
    for unit in SHAFTS:
        for shaft in SHAFTS[unit]:
            for width in widths(tables, unit):
                if width.value * 2 <= shaft:
                    value = geometry.arc_height(shaft, width.value)
                    arc = derive(value, typed(shaft, unit), width).printed(ARC_PLACES[unit])
                    yield _cell(
                        tables,
                        f"arc height, {SYSTEM[unit]}",
                        f"shaft {size(shaft, unit)}",
                        f"width {size(width.value, unit)}",
                        arc,
                        "crown down to the edge, R - sqrt(R^2 - (W/2)^2)",
                    )


def centring_travels(tables: Tables) -> Iterator[Exported]:
    """Yield the travel from a bare face touch for each shaft and cutter width."""
    for unit in SHAFTS:
        for shaft in SHAFTS[unit]:
            for width in widths(tables, unit):
                if width.value * 2 <= shaft:
                    value = geometry.face_touch_travel(shaft, width.value, Fraction(0))
                    travel = derive(value, typed(shaft, unit), width)
                    yield _cell(
                        tables,
                        f"centring travel, {SYSTEM[unit]}",
                        f"shaft {size(shaft, unit)}",
                        f"cutter {size(width.value, unit)} wide",
                        travel.printed(SETTING_PLACES[unit]),
                        "along the spindle from a bare face touch to the centreline, D/2 + W/2",
                    )


def depths(tables: Tables, key: str | None = None) -> Iterator[Exported]:
    """Yield the depths from each datum by shaft, for one key or for the first choices.

    Parameters
    ----------
    tables
        The tables.
    key
        A key's designation; its shafts are those that its standard gives it.

    Raises
    ------
    TypedError
        If no key is called so.
    """
    found: list[tuple[str, Fraction, Seat]] = []
    wrong: TypedError | None = None
    for unit, shafts in SHAFTS.items():
        for shaft in shafts:
            try:
                seats = seats_for(tables, Work(unit, shaft), OF_UNIT[unit], key)
            except TypedError as fault:
                wrong = wrong or fault
                continue
            found += [(unit, shaft, seat) for seat in seats if key or seat.choice == "first"]
    if key is not None:
        given = [f for f in found if NOT_FOR_SHAFT not in {w.code for w in f[2].warnings}]
        found = given or found
    if not found:
        raise wrong or TypedError(f"--key: no key '{key}' in the shafts of the grid")
    for unit, shaft, seat in found:
        yield from _seat(tables, unit, shaft, seat)


def _seat(tables: Tables, unit: str, shaft: Fraction, seat: Seat) -> Iterator[Exported]:
    table = f"depths, {seat.key.family}"
    row = f"shaft {size(shaft, unit)}"
    name = f"{seat.key.designation} key"
    yield _cell(tables, table, row, f"{name}: arc height", seat.arc_height, "crown to edge")
    for datum in DATUMS:
        pair: Limits = getattr(seat, datum)
        words = datum.replace("hub_", "hub, ").replace("_", " ")
        for end, quantity in (("least", pair.least), ("most", pair.most)):
            yield _cell(tables, table, row, f"{name}: {words}, {end}", quantity, seat.key.standard)


def _cell(
    tables: Tables, table: str, row: str, column: str, quantity: Quantity, meaning: str
) -> Exported:
    return Exported(
        table,
        row,
        column,
        quantity.text,
        quantity.value,
        quantity.unit,
        _sources(tables, quantity.rows),
        quantity.standing,
        quantity.rows,
        meaning,
    )


def _sources(tables: Tables, rows: tuple[str, ...]) -> str:
    """Return the sources of the figures that a computed one rests on, each once."""
    index: dict[str, str] = tables.kept.setdefault("sources by figure", {})
    for table in {row.partition("/")[0] for row in rows} - set(index):
        index[table] = ""
        for line in tables.rows(table):
            for column in tables.columns(table):
                if column.kind != "source" and line.cells[column.name]:
                    source = provenance(tables, line, column)[0]
                    index[f"{table}/{line.id}/{column.name}"] = source
    parts = (part for row in rows for part in index.get(row, "").split(" + ") if part)
    return " + ".join(dict.fromkeys(parts))


GRIDS = ("arc-height", "centring-travel", "depths")


def grid_figures(tables: Tables, name: str, key: str | None) -> Iterator[Exported]:
    """Yield the figures of one of `GRIDS`; ``key`` is for the depths alone."""
    if name == "depths":
        return depths(tables, key)
    return arc_heights(tables) if name == "arc-height" else centring_travels(tables)
