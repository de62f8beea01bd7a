"""Figures that a formula gives, computed afresh: exact but for the square root.

`FORMULAS` has one function for each ``is rule-...`` of the schema. Each takes the reading, the
row and the column, and returns what the rule gives there. [the column's unit]
"""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction

from keyseats import geometry
from keyseats.check.reading import Reading, same, value
from keyseats.load import Row

Formula = Callable[[Reading, Row, str], Fraction]


class NoInputError(Exception):
    """A figure that the formula starts from is blank or missing."""


class ToldError(NoInputError):
    """It cannot be read, which is a fault of its own place and told there."""


def _of(row: Row, column: str) -> Fraction:
    found = value(row, column)
    if found is not None:
        return found
    if row.cells.get(column) == "":
        raise NoInputError(f"{column} is blank in {row.table}.csv on line {row.line}")
    raise ToldError(column)


def _rows(reading: Reading, name: str) -> tuple[Row, ...]:
    """Return the rows of another table, if all of it could be read."""
    table = reading.tables.get(name)
    if table is None or table.broken:
        raise ToldError(name)
    return table.rows


def _partner(reading: Reading, table: str, row: Row, *keys: str) -> Row:
    """Return the row of another table with the same keys."""
    for found in _rows(reading, table):
        if all(same(found.cells.get(k, ""), row.cells.get(k, "")) for k in keys):
            return found
    raise NoInputError(f"{table} has no row {' / '.join(row.cells.get(k, '') for k in keys)}")


def nearest(exact: Fraction, places: int) -> Fraction:
    """Return a figure rounded to a number of decimals, half up."""
    return Fraction((exact * 10**places * 2 + 1) // 2, 10**places)


def key_number(number: str) -> tuple[Fraction, Fraction]:
    """Return the width and diameter that an inch half-moon key's number spells. [in]

    The last two digits, with a half that follows them, are eighths of diameter; those before
    them are thirty-seconds of width. A suffix such as ``-1`` says nothing of the size.
    """
    match = re.fullmatch(r"(\d+)(\d\d(?:\.5)?)(?:-\d+)?", number)
    if match is None:
        raise NoInputError(f"'{number}' is not a key number such as 608 or 202.5")
    return Fraction(int(match.group(1)), 32), Fraction(match.group(2)) / 8


def number_width(reading: Reading, row: Row, column: str) -> Fraction:
    """Return the width that the key's number spells."""
    return key_number(row.cells["key"])[0]


def number_diameter(reading: Reading, row: Row, column: str) -> Fraction:
    """Return the diameter that the key's number spells."""
    return key_number(row.cells["key"])[1]


def cutter_number(reading: Reading, row: Row, column: str) -> Fraction:
    """Return the width or diameter that the cutter's number spells."""
    width, diameter = key_number(row.cells["cutter"])
    return width if column == "width" else diameter


def key_height(reading: Reading, row: Row, column: str) -> Fraction:
    """Return half the diameter less the centre's distance below the top."""
    return _of(row, "diameter") / 2 - _of(row, "centre_below_top")


def flat_height(reading: Reading, row: Row, column: str) -> Fraction:
    """Return the full height, less 0.010 for keys over 3/8 in diameter."""
    less = Fraction("0.010") if _of(row, "diameter") > Fraction(3, 8) else 0
    return _of(row, "height_most") - less


def key_length(reading: Reading, row: Row, column: str) -> Fraction:
    """Return the chord of the key's circle at its top."""
    radius = _of(row, "diameter") / 2
    return 2 * geometry.root(radius**2 - _of(row, "centre_below_top") ** 2)


def depth(reading: Reading, row: Row, column: str) -> Fraction:
    """Return the most key height less the key above the edge less 0.005."""
    key = _partner(reading, "inch_half_moon_keys", row, "key")
    return _of(key, "height_most") - _of(row, "key_above_edge") - Fraction("0.005")


def half_width(reading: Reading, row: Row, column: str) -> Fraction:
    """Return half the key's width."""
    return _of(_partner(reading, "inch_half_moon_keys", row, "key"), "width") / 2


def hub_depth(reading: Reading, row: Row, column: str) -> Fraction:
    """Return the key above the edge plus 0.006."""
    return _of(row, "key_above_edge") + Fraction("0.006")


def _key_limits(reading: Reading, row: Row) -> Row:
    """Return the one row of key limits whose range holds a fit's range of widths."""
    for found in _rows(reading, "inch_plain_key_limits"):
        if all(found.cells.get(k) == row.cells.get(k) for k in ("stock", "section")):
            over, to = value(found, "width_over"), value(found, "width_to")
            if over is None or to is None:
                continue
            if over <= _of(row, "width_over") and _of(row, "width_to") <= to:
                return found
    raise NoInputError("inch_plain_key_limits has no one row for this range of widths")


def side_fit(reading: Reading, row: Row, column: str) -> Fraction:
    """Return the clearance at the key's sides, at its most or its least."""
    key = _key_limits(reading, row)
    if column == "side_loosest":
        return _of(row, "seat_width_plus") - _of(key, "width_minus")
    return _of(row, "seat_width_minus") - _of(key, "width_plus")


def top_fit(reading: Reading, row: Row, column: str) -> Fraction:
    """Return the clearance over the key, at its most or its least; 0.005 is built in."""
    key = _key_limits(reading, row)
    ends = ("plus", "minus") if column == "top_loosest" else ("minus", "plus")
    hub, seat = _of(row, f"hub_floor_{ends[0]}"), _of(row, f"floor_{ends[1]}")
    return Fraction("0.005") + hub - seat - _of(key, f"height_{ends[1]}")


def depth_plus_as_hub(reading: Reading, row: Row, column: str) -> Fraction:
    """Return the hub depth's plus tolerance."""
    return _of(row, "hub_depth_plus")


def hub_plus_bands(reading: Reading, row: Row, column: str) -> Fraction:
    """Return 0.1 to width 6, 0.2 over 6 to 32, 0.3 over 32."""
    width = _of(row, "width")
    return Fraction(1 if width <= 6 else 2 if width <= 32 else 3, 10)


def top_clearance_metric(reading: Reading, row: Row, column: str) -> Fraction:
    """Return the depth from the crown plus the hub depth less the key's height."""
    return _of(row, "depth_from_crown") + _of(row, "hub_depth") - _of(row, "height")


def top_clearance_half_moon(reading: Reading, row: Row, column: str) -> Fraction:
    """Return the depth from the crown plus the hub depth less the key's height."""
    key = _partner(reading, "metric_half_moon_keys", row, "standard", "designation")
    return _of(row, "depth_from_crown") + _of(row, "hub_depth") - _of(key, "height")


def flat_height_metric(reading: Reading, row: Row, column: str) -> Fraction:
    """Return 0.8 of the full height, to 0.1."""
    return nearest(_of(row, "height") * Fraction("0.8"), 1)


def key_top_length(reading: Reading, row: Row, column: str) -> Fraction:
    """Return the length of the flat top of a key as high as its row says."""
    height, diameter = _of(row, "height"), _of(row, "diameter")
    return 2 * geometry.root(height * (diameter - height))


def metric_speed(reading: Reading, row: Row, column: str) -> Fraction:
    """Return a speed in m/min from one in ft/min, to 1."""
    return nearest(_of(row, column.removesuffix("_metric")) * Fraction("0.3048"), 0)


def _iso286(reading: Reading, kind: str, symbol: str, size: Fraction) -> Fraction:
    """Return a tolerance or deviation of ISO 286. [mm]"""
    for row in _rows(reading, "iso286"):
        if (row.cells.get("kind"), row.cells.get("symbol")) == (kind, symbol):
            over, to = value(row, "size_over"), value(row, "size_to")
            if over is not None and to is not None and over < size <= to:
                return _of(row, "value_um") / 1000
    raise NoInputError(f"iso286 has no {kind} {symbol} for {float(size):g} mm")


def iso286_zone(reading: Reading, row: Row, column: str) -> Fraction:
    """Return the lower or upper limit of a zone of ISO 286."""
    size = _of(row, "width")
    match = re.fullmatch(r"(JS|H|D|N|P|h|e)(\d+)", row.cells["zone"])
    if match is None:
        raise NoInputError(f"the zone '{row.cells['zone']}' is not one that is programmed")
    letter, grade = match.groups()
    whole = _iso286(reading, "IT", f"IT{grade}", size)
    if letter == "JS":
        lower, upper = -whole / 2, whole / 2
    elif letter == "H":
        lower, upper = Fraction(0), whole
    elif letter == "h":
        lower, upper = -whole, Fraction(0)
    else:
        near_zero = _iso286(reading, "deviation", letter, size)
        lower, upper = near_zero - whole, near_zero
        if letter == "D":
            lower, upper = near_zero, near_zero + whole
    return lower if column == "lower" else upper


FORMULAS: dict[str, Formula] = {
    "rule-number-width": number_width,
    "rule-number-diameter": number_diameter,
    "rule-cutter-number": cutter_number,
    "rule-key-height": key_height,
    "rule-flat-height": flat_height,
    "rule-key-length": key_length,
    "rule-depth": depth,
    "rule-half-width": half_width,
    "rule-hub-depth": hub_depth,
    "rule-side-fit": side_fit,
    "rule-top-fit": top_fit,
    "rule-depth-plus-as-hub": depth_plus_as_hub,
    "rule-hub-plus-bands": hub_plus_bands,
    "rule-top-clearance-metric": top_clearance_metric,
    "rule-top-clearance-half-moon": top_clearance_half_moon,
    "rule-flat-height-metric": flat_height_metric,
    "rule-key-top-length": key_top_length,
    "rule-metric-speed": metric_speed,
    "rule-iso286-zone": iso286_zone,
}
