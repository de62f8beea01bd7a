"""Inch half-moon keys as printed: hub depths, and numbers decoded."""

from __future__ import annotations

from fractions import Fraction

import pytest

from asking import label
from keyseats.families import inch_half_moon
from keyseats.load import Tables
from keyseats.seat import Tabled, Work
from published import reading
from published.reading import exact

HALF_MOON = reading.rows("half_moon_checks.csv")


def rows(family: str, quantity: str) -> list[object]:
    return [
        pytest.param(row, id=label(row["key"] or row["width"], row["expected"], row["source"]))
        for row in HALF_MOON
        if row["family"] == family and row["quantity"] == quantity
    ]


def tabled(tables: Tables, key: str) -> Tabled:
    return inch_half_moon.one(key, tables, Work("in", Fraction(4)))


@pytest.mark.parametrize("row", rows("inch half-moon", "hub_depth"))
def test_inch_hub_depth(row: dict[str, str], tables: Tables) -> None:
    """The print is the table's own source; the rule half the width + 0.006 is not."""
    found = tabled(tables, row["key"])
    assert found.hub_rise.least.value == exact(row["printed"])
    assert found.key.width.value == exact(row["width"])
    rule = exact(row["width"]) / 2 + Fraction("0.006")
    assert abs(rule - exact(row["printed"])) <= Fraction("0.00005")


@pytest.mark.parametrize(
    "row", rows("inch half-moon", "width") + rows("inch half-moon", "diameter")
)
def test_number_is_decoded(row: dict[str, str], tables: Tables) -> None:
    key = tabled(tables, row["key"]).key
    assert key.diameter is not None
    ours = key.width if row["quantity"] == "width" else key.diameter
    assert ours.value == exact(row["printed"])


def test_every_standard_number_holds_its_size(tables: Tables) -> None:
    """Numbering: last two figures eighths of the diameter, those before 32nds of the width.

    Fox Valley Technical College sheet, NUM-01, for the rule; a half stands for a sixteenth.
    A tail such as -1 marks a second key of the same cutter.
    """
    for number, key in inch_half_moon.keys(tables).items():
        whole, _, half = number.partition("-")[0].partition(".")
        eighths = Fraction(int(whole[-2:])) + (Fraction(1, 2) if half else 0)
        assert key.width.value == Fraction(int(whole[:-2]), 32), number
        assert key.diameter.value == eighths / 8, number
