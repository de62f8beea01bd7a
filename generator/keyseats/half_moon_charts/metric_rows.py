"""Rows of the metric half-moon charts: keys under their width, a rule after each group."""

from __future__ import annotations

from collections.abc import Callable

from keyseats.families.metric_plain import plain
from keyseats.frame import Frame
from keyseats.half_moon_charts.metric_head import SINK, key_head, width_head
from keyseats.half_moon_charts.metric_lines import Line, OneWidth
from keyseats.load import Tables
from keyseats.page import Block
from keyseats.setting import figure, words
from keyseats.standing import Bench

# Height of a row: what it needs, and what a tall paper gives. Room between widths: the least, and
# as a part of a row. [figure sizes]
NEEDED, MOST, GAP, LOOSE = 1.2, 1.6, 0.3, 0.42
# The least height of a row, in which a depth, the tallest figure, clears the next by a fifth of its
# size, and the least room between widths at that. [figure sizes]
LEAST, LEAST_GAP = 1.05, 0.12
# The depth that is fed, against the size of what is cut to.
DEEP = 1.2


def rows(
    f: Frame,
    y: float,
    end: float,
    groups: list[OneWidth],
    own: Callable[[float, Line], None],
    shared: Callable[[float, OneWidth], None],
    *,
    closed: bool = True,
) -> float:
    """Set every group over a rule; return the level under the last.

    Parameters
    ----------
    f
        The page.
    y, end
        Upper and lower edge of the room for them. [pt]
    groups
        The keys by width, and in it by what they share.
    own, shared
        Set what is each key's own, and what every key of the group has, on a baseline.
    closed
        Whether the last group has its rule too: not where the foot's rule is the next thing.

    Raises
    ------
    ValueError
        If the groups would stand closer than `LEAST_GAP`.
    """
    u, c = f.unit, f.composer
    pitch, gap = spread((end - y) / u, groups)
    for number, one in enumerate(groups, 1):
        y += u * gap / 2
        for n, line in enumerate(one.lines):
            base = y + u * (pitch * (n + 0.5) + SINK)
            if n == 0:
                c.add(width_head(f, base, one))
            own(base, line)
            if n == 0:
                shared(base, one)
        y += u * (pitch * len(one.lines) + gap / 2)
        if closed or number < len(groups):
            c.rule(f.left, f.right, y, u * 0.03)
    return y


def spread(room: float, groups: list[OneWidth]) -> tuple[float, float]:
    """Return the height of a row and of the room between groups. [figure sizes]

    Where there is little room, the rows take what they need and the groups stand closer.
    """
    count = sum(len(one.lines) for one in groups)
    even = room / (count + LOOSE * len(groups))
    tight = (room - GAP * len(groups)) / count
    pitch = max(LEAST, min(MOST, max(even, min(NEEDED, tight))))
    gap = min(LOOSE * pitch, (room - pitch * count) / len(groups))
    if gap < LEAST_GAP:
        raise ValueError(f"the page holds no {count} rows in {len(groups)} groups")
    return pitch, gap


def key(
    f: Frame, tables: Tables, base: float, line: Line, ends: tuple[float, float, float, float]
) -> None:
    """Set a key's name, its shafts and its depth from crown.

    Parameters
    ----------
    f, tables
        The page, and where the shafts stand.
    base
        Its baseline. [pt]
    line
        The key.
    ends
        Right edges of over, to, least and most. [pt]
    """
    c, depth = f.composer, line.normal.depth_from_crown
    assert depth is not None
    c.add(key_head(f, base, line.normal.key))
    over, to, least, most = ends
    if line.range is not None and line.range.shaft_to is not None:
        for x, size in ((over, line.range.shaft_over), (to, line.range.shaft_to)):
            text = words(x, base, plain(size), f.second, anchor="end")
            c.add(Block("TD", (text,), rows=Bench(tables).quantity(size).rows))
    shown = depth.printed(2)
    c.add(figure(least, base, shown.least, f.unit * DEEP))
    c.add(figure(most, base, shown.most, f.second))
