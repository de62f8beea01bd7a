"""Sheet of every metric plain key: one line a key, for shafts too big for the lists as well."""

from __future__ import annotations

from functools import partial

from keyseats.families.metric_plain import plain
from keyseats.frame import DISTANCE, Frame, foot, foot_height, wall_title
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.plain_charts.head import CAUTION, NO_ARC, across
from keyseats.plain_charts.metric_fits import width_bands, zones_of
from keyseats.plain_charts.metric_keys import SOURCES, STANDARD, Key, same
from keyseats.plain_charts.metric_zones import end_too, plus_of
from keyseats.setting import figure
from keyseats.standing import Limits

# Between two groups of widths, in lines; a line at most, in figure sizes.
BETWEEN, MOST_PITCH, LEAST_PITCH = 0.28, 1.4, 0.98
SUMS = (
    "Floor to opposite side",
    "= shaft as measured − depth from crown. Hub: bore as measured + hub depth, which has the "
    "tolerance of the depth from crown",
)


def every_key_page(
    tables: Tables, paper: str, keys: list[Key], small: list[Key], at: tuple[int, int]
) -> Page:
    """Set the sheet of every key.

    Parameters
    ----------
    tables, paper
        The tables and the paper.
    keys
        All keys, narrow first.
    small
        Those of the sheets by shaft.
    at
        The sheet's number, and how many there are.

    Raises
    ------
    ValueError
        If the lines are too many for the paper.
    """
    number, total = at
    f = Frame(paper, DISTANCE[paper])
    u, c = f.unit, f.composer
    normal = zones_of(tables)["normal", "seat"]
    y = wall_title(
        f,
        "Plain keyseats",
        "every key",
        f"{STANDARD}, in mm. Feed depth from crown after the touch, {NO_ARC}.",
        f"sheet {number} of {total}",
    )
    y = _heads(f, y, normal)
    notes = [
        CAUTION,
        (SUMS[0], f"{SUMS[1]}{_but(keys)}.{end_too(keys[0].row)}"),
        (SOURCES[0], f"{SOURCES[1]} {same(tables, keys, small)}"),
    ]
    foot_top = f.bottom - foot_height(f, notes, f.note)
    ends = {band[-1].width.value for band in width_bands(tables, [k.row.width.value for k in keys])}
    room = (foot_top - y) / u - 0.25
    pitch = u * min(MOST_PITCH, room / (len(keys) + BETWEEN * (len(ends) - 1)))
    if pitch < u * LEAST_PITCH:
        raise ValueError(f"the lines are {pitch / u:.2f} figure sizes apart on {paper}")
    base = y + pitch / 2 + u * 0.4
    for n, key in enumerate(keys):
        _row(f, base, key)
        if key.row.width.value in ends and n + 1 < len(keys):
            between = pitch * BETWEEN
            c.rule(f.left, f.right, base - u * 0.36 + (pitch + between) / 2, u * 0.035)
            base += between
        base += pitch
    foot(f, notes, tables.edition, "Metric plain")
    return f.page(f"plain-metric-{number}", "Plain keyseats, metric, every key")


def _columns(f: Frame) -> dict[str, float]:
    """Return the right edges of the columns; of ``plus`` the left one too."""
    return {
        "over": across(f, 1.7),
        "to": across(f, 4.0),
        "key": across(f, 9.0),
        "depth": across(f, 13.25),
        "plus": across(f, 13.25) + f.unit * 0.25,
        "plus end": across(f, 13.25) + f.unit * 2.2,
        "seat least": across(f, 19.4),
        "seat most": across(f, 23.5),
        "hub": across(f, 26.5),
        "radius least": across(f, 29.2),
        "radius most": f.right - f.unit * 0.05,
    }


def _heads(f: Frame, y: float, zone: str) -> float:
    u, c, col = f.unit, f.composer, _columns(f)
    first, second = y + u * 0.95, y + u * 1.69
    say = partial(c.say, size=u * 0.6)
    cell = partial(say, role="TH", header="Column")
    for left, right, text in (
        ("over", "to", "shaft"),
        ("seat least", "seat most", f"seat width {zone}, normal fit"),
        ("radius least", "radius most", "floor radius"),
    ):
        with c.over():
            say(col[right], first, text, anchor="end")
            words = ("over", "to") if left == "over" else ("least", "most")
            for name, word in zip((left, right), words, strict=True):
                cell(col[name], second, word, anchor="end")
    cell(col["key"], second, "key", anchor="end")
    with c.over():
        say(col["plus end"], first, "depth from crown", anchor="end", bold=True)
        cell(col["depth"], second, "least", anchor="end", bold=True)
        cell(col["plus end"], second, "plus", anchor="end")
    for level, hub in ((first, "hub"), (second, "depth")):
        cell(col["hub"], level, hub, anchor="end")
    y += u * 2.0
    c.rule(f.left, f.right, y, u * 0.03)
    return y


def _limits(key: Key) -> tuple[Limits, Limits]:
    """Return the limits of depth from crown and hub depth as printed."""
    depth = key.tabled.depth_from_crown
    assert depth is not None
    return depth.printed(2), key.tabled.hub_rise.printed(2)


def _but(keys: list[Key]) -> str:
    """Return the keys whose hub depth has a tolerance of its own, for the foot."""
    found = []
    for key in keys:
        plus, hub_plus = (plus_of(limits) for limits in _limits(key))
        if plus != hub_plus:
            found.append(f"{key.tabled.key.in_print}: hub {hub_plus} −0")
    return f", but {', '.join(found)}" if found else ""


def _row(f: Frame, base: float, key: Key) -> None:
    u, c, col = f.unit, f.composer, _columns(f)
    row, tabled = key.row, key.tabled
    over, to, wide, tall = row.shaft_over, row.shaft_to, row.width, row.height
    depth, hub = _limits(key)
    c.say(col["over"], base, plain(over), f.second, anchor="end", role="TD", rows=(over.id,))
    head = partial(c.say, anchor="end", bold=True, role="TH", header="Row")
    head(col["to"], base, plain(to), f.second, rows=(to.id,))
    head(col["key"], base, tabled.key.in_print, f.second, rows=(wide.id, tall.id))
    c.add(figure(col["depth"], base, depth.least, u, bold=True))
    both = tuple(dict.fromkeys((*depth.rows, *hub.rows)))
    c.say(col["plus"], base, plus_of(depth), f.second, role="TD", rows=both)
    seat = tabled.seat_width.printed(3)
    c.add(figure(col["seat least"], base, seat.least, f.second))
    c.add(figure(col["seat most"], base, seat.most, f.second))
    c.add(figure(col["hub"], base, hub.least, f.second))
    if tabled.floor_radius is not None:
        radius = tabled.floor_radius.printed(2, "nearest")
        c.add(figure(col["radius least"], base, radius.least, f.second))
        c.add(figure(col["radius most"], base, radius.most, f.second))
