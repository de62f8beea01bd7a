"""Inch half-moon (Woodruff) keys, ASME B17.2: depth tabled at the edge."""

from __future__ import annotations

from fractions import Fraction

from keyseats.families import inch_plain
from keyseats.load import Tables
from keyseats.records import (
    InchHalfMoonKey,
    InchHalfMoonSeat,
    InchHalfMoonShaft,
    SharedLimit,
)
from keyseats.seat import Key, Tabled, Work
from keyseats.standing import Bench, Limits, Quantity, off

NAME = "inch half-moon"
UNIT = "in"
STANDARDS = ("ASME B17.2",)
FITS = ("standard",)
BY_WIDTH = "by width"


def keys(tables: Tables) -> dict[str, InchHalfMoonKey]:
    """Return the family's keys by number, in the table's order."""
    found = tables.records(InchHalfMoonKey, "inch_half_moon_keys")
    return {key.key: key for key in found}


def seats(tables: Tables) -> dict[str, InchHalfMoonSeat]:
    """Return the family's seats by key number, in the table's order."""
    found = tables.records(InchHalfMoonSeat, "inch_half_moon_seats")
    return {seat.key: seat for seat in found}


def width_ranges(tables: Tables) -> dict[Fraction, InchHalfMoonShaft]:
    """Return the shafts that the list by width gives each key width."""
    lists = tables.records(InchHalfMoonShaft, "inch_half_moon_shafts")
    return {s.width.value: s for s in lists if s.list == BY_WIDTH and s.width is not None}


def shared_limits(tables: Tables, family: str) -> dict[str, SharedLimit]:
    """Return the tolerances that a whole family shares, by figure."""
    found = tables.records(SharedLimit, "shared_limits")
    return {limit.figure: limit for limit in found if limit.family == family}


def one(number: str, tables: Tables, work: Work, choice: str = "other") -> Tabled:
    """Return what the standard gives for one key number.

    Raises
    ------
    KeyError
        If the family has no such key.
    """
    bench = Bench(tables)
    key, seat = keys(tables)[number], seats(tables)[number]
    shared = shared_limits(tables, NAME)

    def spread(nominal: Quantity, figure: str) -> Limits:
        limit = shared[figure]
        minus, plus = bench.quantity(limit.minus), bench.quantity(limit.plus)
        return Limits(off(nominal, minus), off(nominal, plus))

    q = bench.quantity
    ranges = width_ranges(tables).get(key.width.value)
    shafts = ""
    if ranges is not None:
        shafts = f"{ranges.shaft_from.text} to {ranges.shaft_to.text}".replace(" in", "")
    return Tabled(
        key=Key(
            NAME,
            STANDARDS[0],
            number,
            q(key.width).printed(4),
            Limits(q(key.height_least), q(key.height_most)),
            q(key.diameter).printed(4),
            q(key.height_most),
        ),
        seat_width=Limits(q(seat.width_least), q(seat.width_most)),
        hub_width=spread(q(seat.hub_width), "hub_width"),
        hub_rise=spread(q(seat.hub_depth), "hub_depth"),
        hub_datum="edge",
        depth_at_edge=spread(q(seat.depth_at_edge), "depth_at_edge"),
        fit=FITS[0],
        choice=choice,
        seat_diameter=Limits(q(seat.dia_least), q(seat.dia_most)).printed(3),
        shafts=shafts,
    )


def first_choice(tables: Tables, nominal: Fraction) -> str | None:
    """Return the number of the key to try first in a shaft: common practice, no source.

    The plain key's width, or the widest that the list by width gives the shaft if the plain key
    is wider; of that width the standard-series key whose diameter is nearest the shaft's, the
    smaller of two equally near.
    """
    plain = inch_plain.row_for(tables, nominal)
    ranges = width_ranges(tables)
    fitting = [w for w, s in ranges.items() if s.shaft_from.value <= nominal <= s.shaft_to.value]
    if plain is None or not fitting:
        return None
    wanted = max((w for w in fitting if w <= plain.width.value), default=min(fitting))
    candidates = [
        k for k in keys(tables).values() if k.width.value == wanted and k.series == "standard"
    ]
    nearest = min(
        candidates, key=lambda k: (abs(k.diameter.value - nominal), k.diameter.value), default=None
    )
    return nearest.key if nearest else None


def tabled(tables: Tables, work: Work) -> list[Tabled]:
    """Return the keys that the list by width gives the shaft, first choice first."""
    first = first_choice(tables, work.nominal)
    ranges = width_ranges(tables)
    numbers = [
        k.key
        for k in keys(tables).values()
        if k.series == "standard"
        and k.width.value in ranges
        and ranges[k.width.value].shaft_from.value <= work.nominal
        and work.nominal <= ranges[k.width.value].shaft_to.value
        and k.key != first
    ]
    if first is not None:
        numbers.insert(0, first)
    return [one(n, tables, work, "first" if n == first else "other") for n in numbers]


def every(tables: Tables, work: Work) -> list[Tabled]:
    """Return every key of the family."""
    return [one(number, tables, work) for number in keys(tables)]
