"""Second sheet of the metric half-moon chart: widths of both fits, and the hub, by key width."""

from __future__ import annotations

from keyseats.frame import DISTANCE, Frame, foot, foot_height, thick_and_thin, wall_title
from keyseats.half_moon_charts.metric_head import (
    HEAD_STEP,
    HEADS,
    SINK,
    SOURCES,
    Part,
    band,
    head,
    key_head,
    key_heads,
    width_head,
)
from keyseats.half_moon_charts.metric_lines import OneWidth
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.plain_charts.head import CAUTION, across
from keyseats.setting import figure, height_of, paragraph

# Height of a width with its two lines, and the step between them, at most and at least.
# [figure sizes]
MOST, STEP = 2.9, 1.2
LEAST, LEAST_STEP = 1.6, 0.8
# Where least and most are named, and right edges of the columns. [figure sizes]
ENDS, SEAT, CLOSE, HUB_WIDTH, HUB_DEPTH, RADIUS = 8.8, 13.9, 18.6, 24.0, 28.4, 31.65
SUM: list[Part] = [
    ("", ("bore",), "as measured"),
    ("+", ("hub depth",), "from the table"),
    ("=", ("hub: floor to", "opposite side"), "measure this"),
]


def page(tables: Tables, paper: str, groups: list[OneWidth]) -> Page:
    """Return the sheet: a width's keys as one, and each alone that differs from the others.

    Raises
    ------
    ValueError
        If the rows would be lower than `LEAST`.
    """
    f = Frame(paper, DISTANCE[paper])
    u = f.unit
    sub = "Woodruff keys, ISO 3912 family. Both fits, and the hub, by key width. All in mm."
    y = wall_title(f, "Half-moon keyseats", "widths, hub", sub, "sheet 2 of 2")
    y = band(f, tables, y, SUM, hub=True)
    thick_and_thin(f, y)
    columns = [CAUTION, SOURCES]
    wide = f.right - f.left
    rows = _rows(groups)
    note = _note(rows)
    end = f.bottom - foot_height(f, columns, f.note) - u * 1.25 - height_of(note, f.note, wide)
    with f.composer.table():
        y = _table(f, y + u * 0.1, end, rows)
    f.composer.add(paragraph(f.left, y + u * 0.85, note, f.note, wide)[0])
    foot(f, columns, tables.edition, "Metric half-moon")
    return f.page("metric-half-moon-2", "Half-moon keyseats, metric: widths, hub")


def _rows(groups: list[OneWidth]) -> list[tuple[OneWidth, bool]]:
    """Return what has a row, each with whether its key is named: one that stands apart is."""
    return [
        (one, len(apart) > 1 and len(one.lines) == 1)
        for apart in (group.by_hub() for group in groups)
        for one in apart
    ]


def _note(rows: list[tuple[OneWidth, bool]]) -> str:
    named = {one.width.value for one, named in rows if named}
    alone = " without a height and a diameter" if named else ""
    others = any(one.width.value in named for one, named_too in rows if not named_too)
    which = f"every key of its width{' that has no row of its own' if others else ''}"
    return (
        f"A row{alone} is for {which}. Close fit: the hub is as wide as the seat"
        f"{_but(rows)}. Radius: between the walls of the seat and its floor."
    )


def _but(rows: list[tuple[OneWidth, bool]]) -> str:
    """Return the close fits in which the hub is not as wide as the seat, for the note."""
    found = []
    for one, named in rows:
        seat, hub = one.close_width, one.close_hub_width
        if (seat.least.value, seat.most.value) != (hub.least.value, hub.most.value):
            name = one.lines[0].normal.key.in_print if named else one.width.text
            found.append(f"{name} wide: hub {hub.least.text} to {hub.most.text}")
    return f", but {', '.join(found)}" if found else ""


def _table(f: Frame, y: float, end: float, rows: list[tuple[OneWidth, bool]]) -> float:
    """Set heads and rows, each with whether its key is named; return the level under them."""
    u = f.unit
    # These heads have two lines.
    y -= u * HEAD_STEP
    key_heads(f, y, sizes=any(named for _, named in rows))
    for at, lines in (
        (SEAT, ["seat width,", "normal fit N9"]),
        (CLOSE, ["seat" + (" and hub," if not _but(rows) else ","), "close fit P9"]),
        (HUB_WIDTH, ["hub width,", "normal fit JS9"]),
        (HUB_DEPTH, ["hub depth,", "from bore"]),
        (RADIUS, ["floor", "radius"]),
    ):
        head(f, across(f, at), y, lines, bold=at == HUB_DEPTH)
    y += u * HEADS
    f.composer.rule(f.left, f.right, y, u * 0.03)
    tall = u * min(MOST, (end - y) / u / len(rows))
    if tall < u * LEAST:
        raise ValueError(f"the page holds no {len(rows)} rows of two lines")
    for one, named in rows:
        _row(f, y, tall, one, named)
        y += tall
        f.composer.rule(f.left, f.right, y, u * 0.03)
    return y


def _row(f: Frame, y: float, tall: float, one: OneWidth, named: bool) -> None:
    """Set one width, least over most."""
    u, c = f.unit, f.composer
    step = max(u * LEAST_STEP, min(u * STEP, tall * 0.44))
    first = y + (tall - step) / 2 + u * 0.34
    limits = (
        (SEAT, one.seat_width),
        (CLOSE, one.close_width),
        (HUB_WIDTH, one.hub_width),
        (HUB_DEPTH, one.hub_depth),
        (RADIUS, one.floor_radius),
    )
    for n, end in enumerate(("least", "most")):
        base = first + step * n
        with c.row():
            c.say(across(f, ENDS), base, end, f.note, role="TH", header="Row")
            if n == 0:
                middle = y + tall / 2 + u * SINK
                c.add(width_head(f, middle, one))
                if named:
                    c.add(key_head(f, middle, one.lines[0].normal.key))
            for at, found in limits:
                if found is not None:
                    size = u if at == HUB_DEPTH else f.second
                    c.add(figure(across(f, at), base, getattr(found, end), size))
