"""Heads of the metric half-moon charts: the band of drawings and sum, columns, and keys' names."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from keyseats.families import metric_half_moon
from keyseats.frame import Frame
from keyseats.half_moon_charts.metric_lines import OneWidth
from keyseats.lengths import article
from keyseats.load import Tables
from keyseats.page import Block, Mark, Text
from keyseats.plain_charts.head import across, pen
from keyseats.seat import Key, Work
from keyseats.setting import set_width, words
from keyseats.typeface import CAP_HEIGHT
from keyseats.views import View

DRAWN, DRAWN_SHAFT = "5 x 6.5 x 16", 18
# The band of drawings and sum, the heads of the columns, three lines, and from one to the next.
# [figure sizes]
BAND, HEADS, HEAD_STEP = 6.3, 2.85, 0.76
SOURCES = (
    "Sources.",
    "ISO 3912 family: a table laid out as GB/T 1098-2003, and RoyMech (BS 4235-2, ISO 3912). "
    "Limits of GOST 24071 and depths of DIN 6888 differ and are not mixed in.",
)
# From the left margin to the points of a key's width and height and to the right edge of its
# diameter; the size of the width, which is said once for all its keys. [figure sizes]
WIDTH, HEIGHT, DIAMETER = 1.85, 4.7, 8.3
BIG = 1.3
# Capitals stand in the middle of a row if its baseline is so far under. [figure sizes]
SINK = 0.44
Part = tuple[str, tuple[str, ...], str]


def band(f: Frame, tables: Tables, y: float, parts: list[Part], *, hub: bool = False) -> float:
    """Draw a real key, and set the sum beside it; return the level under both.

    Parameters
    ----------
    f, tables
        The page, and where the key's figures stand.
    y
        Upper edge. [pt]
    parts
        The sum: sign, words in lines, and what stands under them.
    hub
        Whether the whole shaft in its hub is drawn beside the section, or the cutter along it.
    """
    u = f.unit
    shaft = Fraction(DRAWN_SHAFT)
    tabled = metric_half_moon.one(DRAWN, tables, Work("mm", shaft))
    assert tabled is not None
    section = View(f, tabled, shaft, pen(f), u * 0.62, y + u * 0.3, seat_wide=2.2)
    beside = replace(section, top=y + u * 0.1)
    if hub:
        section.from_crown(across(f, 4.0))
        beside.opposite(across(f, 16.9))
    else:
        section.from_crown(across(f, 5.9), stands=True)
        beside.side(across(f, 15.75))
    _sum(f, y, parts)
    says = f"{tabled.key.in_print} in {article(str(DRAWN_SHAFT))} mm shaft, to scale"
    f.composer.say(f.left, y + u * (BAND - 0.22), says, f.note)
    return y + u * BAND


def _sum(f: Frame, y: float, parts: list[Part]) -> None:
    """Set a sum as on paper at the right of the band: signs in a column, a line over the result."""
    u, c = f.unit, f.composer
    size, step = u * 0.7, u * 0.73
    wide = [set_width(line, size, True) for _, lines, _ in parts for line in lines]
    at = f.right - max(wide + [set_width(note, f.note) for _, _, note in parts])
    x = at - u * 0.85
    # Its height from the first line's capitals to the last baseline, the lines closed up.
    tall = (sum(len(lines) + 1 for _, lines, _ in parts) - 1) * step + size * CAP_HEIGHT
    after = min(u * 0.42, (u * (BAND - 0.9) - tall) / (len(parts) - 1))
    y += (u * BAND - tall - after * (len(parts) - 1)) / 2 + size * CAP_HEIGHT
    for n, (sign, lines, note) in enumerate(parts):
        if n == len(parts) - 1:
            c.rule(x, f.right, y - u * 0.7, u * 0.05)
        if sign:
            c.say(x, y, sign, size, bold=True)
        for line in lines:
            c.say(at, y, line, size, bold=True)
            y += step
        c.say(at, y, note, f.note)
        y += step + after


def head(
    f: Frame, x: float, y: float, lines: list[str], *, bold: bool = False, anchor: str = "end"
) -> None:
    """Set a column's head, its last line lowest, under the upper edge ``y``."""
    for n, text in enumerate(lines, 3 - len(lines)):
        level = _level(f, y, n)
        f.composer.say(x, level, text, f.note, bold=bold, anchor=anchor, role="TH", header="Column")


def pair(
    f: Frame,
    ends: tuple[float, float, float],
    y: float,
    over: list[str],
    names: tuple[str, str] = ("least", "most"),
    *,
    bold: bool = False,
) -> None:
    """Set what two columns share over the head of each, a fine rule between.

    Parameters
    ----------
    f
        The page.
    ends
        Left edge of the first column, right edges of both. [pt]
    y
        Upper edge. [pt]
    over
        What they share, in one line or two.
    names
        Their own heads.
    bold
        Whether what is cut to stands here: then what they share is bold, and the first head.
    """
    left, *rights = ends
    with f.composer.over():
        for n, text in enumerate(over, 2 - len(over)):
            middle = (left + rights[-1]) / 2
            f.composer.say(middle, _level(f, y, n), text, f.note, bold=bold, anchor="middle")
        for x, name in zip(rights, names, strict=True):
            head(f, x, y, [name], bold=bold and name == "least")
    f.composer.rule(left, rights[-1], _level(f, y, 1) + f.unit * 0.2, f.unit * 0.03)


def _level(f: Frame, y: float, n: int) -> float:
    return y + f.unit * (0.92 + HEAD_STEP * n)


def key_heads(f: Frame, y: float, *, sizes: bool = True) -> None:
    """Set the heads over a key's width and, if ``sizes``, over its height and diameter."""
    u, size = f.unit, f.note
    head(f, f.left, y, ["key", "width"], anchor="start")
    if not sizes:
        return
    low, right = _level(f, y, 2), f.left + u * DIAMETER
    marks = (
        Text(f.left + u * (HEIGHT - 0.1), low, "height", size, anchor="middle"),
        Text(right, low, "dia.", size, anchor="end"),
    )
    said = Block("Span", marks, alt="height and diameter")
    f.composer.add(Block("TH", (said,), header="Column"))


def width_head(f: Frame, base: float, one: OneWidth) -> Block:
    """Return the width of a group of keys as their head."""
    width = one.width
    mark = _pointed(f.left + f.unit * WIDTH, base, width.text, f.unit * BIG)
    return Block("TH", (mark,), header="Row", rows=width.rows)


def key_head(f: Frame, base: float, key: Key) -> Block:
    """Return the head of one key's row: height and diameter, read as its whole name."""
    u = f.unit
    _, height, diameter = key.designation.split(" x ")
    marks = (
        _pointed(f.left + u * HEIGHT, base, height, u),
        words(f.left + u * DIAMETER, base, diameter, u, bold=True, anchor="end"),
    )
    rows = (*key.width.rows, *key.height.most.rows, *(key.diameter.rows if key.diameter else ()))
    name = Block("Span", marks, alt=key.in_print)
    return Block("TH", (name,), header="Row", rows=tuple(dict.fromkeys(rows)))


def _pointed(x: float, y: float, text: str, size: float) -> Block | Mark:
    """Return a size in bold whose decimal point stands at ``x``, as if whole sizes had one."""
    whole = text.partition(".")[0]
    return words(x - set_width(whole, size, True), y, text, size, bold=True)
