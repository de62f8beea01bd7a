"""Published values, typed from print, with the source beside each row."""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

from keyseats.load import number

HERE = Path(__file__).parent


def rows(name: str) -> list[dict[str, str]]:
    with (HERE / name).open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def exact(text: str) -> Fraction:
    return number(text)


def half_place(text: str) -> Fraction:
    """Half of the last printed place: what a printed figure can be off by."""
    return Fraction(1, 2 * 10 ** len(text.partition(".")[2]))
