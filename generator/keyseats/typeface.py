"""Widths of DejaVu Sans, from a table of its advance widths, so that layout needs no library."""

from __future__ import annotations

import json
from collections.abc import Callable
from functools import cache, lru_cache
from typing import TypeVar

from keyseats.paths import font_file

Word = TypeVar("Word")
CAP_HEIGHT = 0.729
# What is never parted from the word after it: a standard and its number, a chapter, a sum's sign.
KEPT = frozenset(
    (
        *("ASME", "B", "BS", "DIN", "GOST", "GB/T", "ISO", "ISO/R", "JIS", "US", "TC", "No."),
        *("ch.", "table", "tables", "sheet", "sheets", "step", "p.", "9th", "31st", "=", "+", "−"),
    )
)
# A last line narrower than this, of the room, takes words from the line before it.
SHORT = 0.15


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

    What `KEPT` names stays with the word after it. A word wider than the room stands on a line of
    its own.
    """
    lines: list[str] = []
    line, wide, space = "", 0, _units(" ", bold)
    for word in unbroken(text):
        more = _units(word, bold)
        if line and (wide + space + more) * size / 2048 > room:
            lines.append(line)
            line, wide = word, more
        elif line:
            line, wide = f"{line} {word}", wide + space + more
        else:
            line, wide = word, more
    return [*lines, line] if line else lines


def unbroken(text: str) -> list[str]:
    """Return the words of a text, those that are never parted as one."""
    found: list[str] = []
    for word in text.split(" "):
        before = found[-1].rpartition(" ")[2].lstrip("(") if found else ""
        if before in KEPT or (before[-1:].isdigit() and word.rstrip(".,;:)") == "mm"):
            found[-1] += f" {word}"
        else:
            found.append(word)
    return found


def eased(lines: list[str], size: float, room: float) -> list[str]:
    """Return lines of which the last is not one word alone, nor very short, if words can be moved.

    As many lines as before: words come down from the line over the last, which stays the wider.
    """
    if len(lines) < 2:
        return lines
    over, last = unbroken(lines[-2]), unbroken(lines[-1])
    over, last = brought_down(over, last, lambda words: width(" ".join(words), size), room)
    return [*lines[:-2], " ".join(over), " ".join(last)]


def brought_down(
    over: list[Word], last: list[Word], long: Callable[[list[Word]], float], room: float
) -> tuple[list[Word], list[Word]]:
    """Return a last line and the one over it, with words brought down to a last that is short.

    Parameters
    ----------
    over, last
        What is never parted, of each line.
    long
        The width of a line of it. [pt]
    room
        The width of the lines. [pt]
    """
    while len(over) > 2 and (len(last) == 1 or long(last) < SHORT * room):
        moved = [over[-1], *last]
        if long(moved) > min(long(over[:-1]), room):
            break
        over, last = over[:-1], moved
    return over, last


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
