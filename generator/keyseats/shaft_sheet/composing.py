"""A shaft sheet being composed: its seat, its shaft, and how far down the page it has come."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from keyseats.frame import Frame
from keyseats.lengths import decimal
from keyseats.seat import SETTING_PLACES, Seat, Work

DISTANCE_M = 0.5
BIG = 34.0
MAIN, STEP, SMALL, TINY = 11.4, 8.8, 7.4, 7.0
FIGURE = 9.7


@dataclass
class ShaftSheet:
    """One sheet being composed."""

    f: Frame
    seat: Seat
    shaft: str
    drawn: float = 112.0
    pad: float = 0.0
    y: float = 0.0
    step: int = 0

    @property
    def work(self) -> Work:
        """Return what the seat's figures were computed for."""
        return self.seat.work

    @property
    def half_moon(self) -> bool:
        """Return whether the key is a half-moon key."""
        return self.seat.key.diameter is not None

    @property
    def unit(self) -> str:
        """Return the unit of every figure on the sheet."""
        return self.work.unit

    def setting(self, value: Fraction, rounding: str = "nearest") -> str:
        """Return a size with as many places as the slides are set to."""
        return decimal(value, SETTING_PLACES[self.unit], rounding)
