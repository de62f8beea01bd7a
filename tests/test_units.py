"""Units, checked against pint on its own."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pint
import pytest

from keyseats.cli.shaft_command import converted
from keyseats.faults import TypedError
from keyseats.lengths import INCH, parse
from keyseats.seat import Work

REGISTRY = pint.UnitRegistry(non_int_type=Decimal, cache_folder=None)


def test_an_inch() -> None:
    assert Fraction(REGISTRY.Quantity(Decimal(1), "inch").to("mm").magnitude) == INCH


@pytest.mark.parametrize("text", ["2.2 cm", "0.022 m", "0.5 ft", "1200 thou", "250 um"])
def test_other_units(text: str) -> None:
    read = parse(text)
    number, unit = text.split()
    there = REGISTRY.Quantity(Decimal(number), unit).to("inch" if read.unit == "in" else "mm")
    assert abs(read.value - Fraction(there.magnitude)) < Fraction(1, 10**20)


def test_a_shaft_in_the_other_system() -> None:
    work = converted(Work("in", Fraction(7, 8), measured=Fraction("0.8752")), "mm")
    assert work.measured == Fraction("0.8752") * INCH
    assert work.nominal == Fraction(7, 8) * INCH


@pytest.mark.parametrize("text", ["3 kg", "5 parsnips", "7 )(", "2 s"])
def test_no_length(text: str) -> None:
    with pytest.raises(TypedError):
        parse(text)
