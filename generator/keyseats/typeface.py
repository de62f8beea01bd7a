"""Widths of DejaVu Sans, from a table of its advance widths, so that layout needs no library."""

from __future__ import annotations

import json
from functools import cache

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
    advances = _advances(bold)
    try:
        return sum(advances[c] for c in text) * size / 2048
    except KeyError as fault:
        raise ValueError(f"the typeface has no {fault.args[0]!r}, in '{text}'") from None


def has(text: str) -> bool:
    """Return whether the face can set every character of a text."""
    return all(c in _advances(False) for c in text)


def fitted(text: str, size: float, room: float, bold: bool = False) -> list[str]:
    """Break a text into lines that fit a width, at its spaces.

    A word wider than the room stands on a line of its own.
    """
    lines: list[str] = []
    line = ""
    for word in text.split(" "):
        trial = f"{line} {word}" if line else word
        if line and width(trial, size, bold) > room:
            lines.append(line)
            line = word
        else:
            line = trial
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
