"""How a caution prints its figures."""

from __future__ import annotations

from fractions import Fraction

from keyseats.lengths import decimal
from keyseats.seat import SETTING_PLACES, Seat
from keyseats.standing import Limits, Quantity

WIDTH_PLACES = {"in": 4, "mm": 3}


def said(value: Fraction, seat: Seat, rounding: str = "nearest") -> str:
    """Return a size with the places of a setting. [length]"""
    return decimal(value, SETTING_PLACES[seat.work.unit], rounding)


def wide(value: Fraction, seat: Seat, rounding: str = "nearest") -> str:
    """Return a width with the places that widths print. [length]"""
    return decimal(value, WIDTH_PLACES[seat.work.unit], rounding)


def marked(quantity: Quantity) -> str:
    """Return a figure's text, with its dagger if it was recalled."""
    return quantity.text + ("†" if quantity.recalled else "")


def both(limits: Limits) -> str:
    """Return limits in words."""
    return f"{marked(limits.least)} to {marked(limits.most)}"
