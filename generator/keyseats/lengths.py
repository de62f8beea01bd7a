"""Lengths as machinists type and print them: exact inside, rounded once on the way out."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from keyseats.faults import TypedError

__all__ = ["Length", "decimal", "parse", "places_of", "read_fraction"]

_FRACTION = re.compile(r"(?:(\d+)(?:\s*-\s*|\s+))?(\d+)\s*/\s*(\d+)")
_DECIMAL = re.compile(r"[-−]?(?:\d+(?:\.\d*)?|\.\d+)")
_GLYPHS = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_INCH = {"in", "in.", "inch", "inches", '"', "”", "″", "''"}
_MM = {"mm", "mm.", "millimetre", "millimetres", "millimeter", "millimeters"}
LARGEST = Fraction(1000000)


@dataclass(frozen=True)
class Length:
    """An exact length in inches or millimetres, with the text it was read from."""

    value: Fraction
    unit: str
    text: str


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
        return Fraction(text.replace("−", "-"))
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
    if len(shown) > 60:
        raise TypedError(f"{what}: {len(shown)} characters is no length; type one such as 7/8 in")
    body = shown
    for glyph, plain in _GLYPHS.items():
        body = body.replace(glyph, (" " if body[:1] != glyph else "") + plain)
    split = re.fullmatch(r"\s*([-−+]?[\d\s./-]*\d[\d./]*\.?)\s*([^\d\s.,/-][^\d]*)?", body)
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
    scaled = value * 10**places
    if rounding == "nearest":
        units = (scaled * 2 + 1) // 2
    elif rounding == "up":
        units = -((-scaled) // 1)
    elif rounding == "down":
        units = scaled // 1
    else:
        raise ValueError(f"rounding is nearest, up or down, not {rounding}")
    digits = str(abs(int(units))).rjust(places + 1, "0")
    sign = "-" if units < 0 else ""
    if places == 0:
        return sign + digits
    return f"{sign}{digits[:-places]}.{digits[-places:]}"
