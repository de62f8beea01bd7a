"""Lengths as machinists type and print them: exact inside, rounded once on the way out."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from keyseats.faults import TypedError

__all__ = [
    "INCH",
    "Length",
    "article",
    "converted",
    "decimal",
    "parse",
    "places_of",
    "read_fraction",
]

_FRACTION = re.compile(r"(?:(\d+)(?:\s*-\s*|\s+))?(\d+)\s*/\s*(\d+)", re.ASCII)
_DECIMAL = re.compile(r"[-−]?(?:\d+(?:\.\d*)?|\.\d+)", re.ASCII)
# Sizes that begin with a vowel when read aloud: eight, eighty, eleven, eighteen.
_VOWEL = re.compile(r"(?:8\d*|11|18)(?!\d)", re.ASCII)
_GLYPHS = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_INCH = {"in", "in.", "inch", "inches", '"', "”", "″", "''"}
_MM = {"mm", "mm.", "millimetre", "millimetres", "millimeter", "millimeters"}
LARGEST = Fraction(1000000)
INCH = Fraction("25.4")


class Length(NamedTuple):
    """An exact length in inches or millimetres, with the text it was read from."""

    value: Fraction
    unit: str
    text: str


@lru_cache(maxsize=4096)
def converted(value: Fraction, unit: str, wanted: str) -> Fraction:
    """Return a length in another unit, ``in`` or ``mm``, exactly. [length]"""
    if unit == wanted:
        return Fraction(value)
    return Fraction(value) * INCH if wanted == "mm" else Fraction(value) / INCH


def read_fraction(text: str) -> Fraction:
    """Read a whole number, a decimal or a fraction such as ``1-7/16``, exactly.

    Raises
    ------
    ValueError
        If the text is none of these.
    """
    text = text.strip()
    match = _FRACTION.fullmatch(text)
    if match:
        whole, top, bottom = match.groups()
        if int(bottom) == 0:
            raise ValueError("a fraction cannot have nothing below the line")
        return Fraction(int(whole or 0)) + Fraction(int(top), int(bottom))
    if _DECIMAL.fullmatch(text):
        whole, _, part = text.replace("−", "-").partition(".")
        return Fraction(int(whole + part), 10 ** len(part))
    raise ValueError(f"'{text}' is not a number or a fraction")


def parse(text: str, what: str = "the length") -> Length:
    """Read a length as typed: ``7/8 in``, ``1-7/16"``, ``0.875in``, ``22 mm``.

    Parameters
    ----------
    text
        The length with its unit.
    what
        What the length is, for the message.

    Returns
    -------
    Length
        Exact; in inches or millimetres. Other units of length are converted by pint.

    Raises
    ------
    TypedError
        For a bare number, an unknown unit, or a length that is not above zero.
    """
    shown = text.strip()
    if not shown.isprintable():
        shown = " ".join(shown.split())
    if len(shown) > 60:
        raise TypedError(f"{what}: {len(shown)} characters is no length; type one such as 7/8 in")
    if not shown.isprintable():
        raise TypedError(f"{what}: '{shown}' holds a character that does not print; type it again")
    body = shown
    for glyph, plain in _GLYPHS.items():
        body = body.replace(glyph, (" " if body[:1] != glyph else "") + plain)
    split = re.fullmatch(r"(?a)\s*([-−+]?[\d\s./-]*\d[\d./]*\.?)\s*([^\d\s.,/-][^\d]*)?", body)
    if split is None or "," in body:
        hint = "; use a point for the decimal mark" if "," in body else ""
        raise TypedError(
            f"{what}: '{shown}' is not a length; type one such as 7/8 in, 0.875 in or 22 mm{hint}"
        )
    number, unit = split.group(1).lstrip("+"), (split.group(2) or "").strip().lower()
    try:
        value = read_fraction(number)
    except ValueError:
        raise TypedError(
            f"{what}: '{shown}' is not a length; type one such as 7/8 in, 1-7/16 in or 22 mm"
        ) from None
    if not unit:
        raise TypedError(
            f"{what}: {shown} has no unit, and an inch taken for a millimetre is scrap; "
            f"type {shown} in or {shown} mm"
        )
    if unit in _INCH:
        unit = "in"
    elif unit in _MM:
        unit = "mm"
    else:
        from keyseats import conversion

        value, unit = conversion.to_shop_unit(value, unit, shown, what)
    if value < 0 or (value == 0 and "paper" not in what):
        raise TypedError(f"{what}: {shown} is not above zero")
    if value > LARGEST:
        raise TypedError(f"{what}: {shown} is beyond anything that is turned")
    return Length(value, unit, shown)


def article(size: str) -> str:
    """Return a size with its article, as it is read aloud: ``a 7/8 in``, ``an 18 mm``."""
    return f"an {size}" if _VOWEL.match(size) else f"a {size}"


def places_of(text: str) -> int:
    """Count the digits after the decimal mark of a printed figure."""
    return len(text.partition(".")[2])


def decimal(value: Fraction, places: int, rounding: str = "nearest") -> str:
    """Write an exact figure with a fixed number of decimals, rounded once.

    Parameters
    ----------
    value
        The exact figure.
    places
        Digits after the decimal mark.
    rounding
        ``nearest`` (half up), ``up`` or ``down``; the last two set limits inward.

    Returns
    -------
    str
        With a zero before the decimal mark; a true minus sign is never used, so that the figure
        can be read back.
    """
    over, under = value.numerator * 10**places, value.denominator
    if rounding == "nearest":
        units = (over * 2 + under) // (under * 2)
    elif rounding == "up":
        units = -(-over // under)
    elif rounding == "down":
        units = over // under
    else:
        raise ValueError(f"rounding is nearest, up or down, not {rounding}")
    digits = str(abs(units)).rjust(places + 1, "0")
    sign = "-" if units < 0 else ""
    if places == 0:
        return sign + digits
    return f"{sign}{digits[:-places]}.{digits[-places:]}"
