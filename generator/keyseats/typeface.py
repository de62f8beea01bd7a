"""Widths of DejaVu Sans, from a table of its advance widths, so that layout needs no library."""

from __future__ import annotations

import json
from functools import cache, lru_cache

from keyseats.paths import font_file

CAP_HEIGHT = 0.729


@cache
def _advances(bold: bool) -> dict[str, int]:
    data = json.loads(font_file("advances.json").read_text(encoding="utf-8"))
    widths: dict[str, int] = data["bold" if bold else "regular"]
    return widths


def width(text: str, size: float, bold: bool = False) -> float:
    """Return the width of a line of text. [pt]

    Raises
    ------
    ValueError
        If the face's table lacks a character.
    """
    return _units(text, bold) * size / 2048


@lru_cache(maxsize=8192)
def _units(text: str, bold: bool) -> int:
    """Return the width of a line of text in the font's own units, 2048 to the type size."""
    try:
        return sum(map(_advances(bold).__getitem__, text))
    except KeyError as fault:
        raise ValueError(f"the typeface has no {fault.args[0]!r}, in '{text}'") from None


def has(text: str) -> bool:
    """Return whether the face can set every character of a text."""
    return all(c in _advances(False) for c in text)


def printable(text: str) -> str:
    """Return a text with a question mark for each character that cannot stand in a line of words.

    Control characters, marks that turn text round, lone surrogates and characters that are no
    characters would harm a file's strings, its metadata or the order in which it is read.
    """
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() else "?" for c in text)


def fitted(text: str, size: float, room: float, bold: bool = False) -> list[str]:
    """Break a text into lines that fit a width, at its spaces.

    A word wider than the room stands on a line of its own.
    """
    lines: list[str] = []
    line, wide, space = "", 0, _units(" ", bold)
    for word in text.split(" "):
        more = _units(word, bold)
        if line and (wide + space + more) * size / 2048 > room:
            lines.append(line)
            line, wide = word, more
        elif line:
            line, wide = f"{line} {word}", wide + space + more
        else:
            line, wide = word, more
    return [*lines, line] if line else lines


def size_for(distance_m: float, minutes: float) -> float:
    """Return the type size whose capitals stand at a visual angle, up to the next tenth of a point.

    Parameters
    ----------
    distance_m
        Reading distance. [m]
    minutes
        Height of a capital. [arc-minute]

    Returns
    -------
    float
        Type size. [pt]
    """
    from math import ceil, pi, tan

    height_mm = 2 * distance_m * 1000 * tan(minutes / 60 / 2 * pi / 180)
    return ceil(height_mm / 25.4 * 72 / CAP_HEIGHT * 10) / 10


def minutes_at(size: float, distance_m: float) -> float:
    """Return the visual angle of a capital. [arc-minute]"""
    from math import atan, pi

    height_mm = size * CAP_HEIGHT * 25.4 / 72
    return 2 * atan(height_mm / (2 * distance_m * 1000)) * 180 / pi * 60
