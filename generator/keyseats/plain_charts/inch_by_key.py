"""The inch plain-key chart's table by key: what is the same for every shaft of a key."""

from __future__ import annotations

from collections.abc import Sequence

from keyseats.families.inch_plain import fraction_text
from keyseats.frame import Frame, thick_and_thin
from keyseats.plain_charts.head import across
from keyseats.plain_charts.inch_zones import KeyZone
from keyseats.setting import figure, set_width
from keyseats.shared_tolerance import signed
from keyseats.standing import between

# All in figure sizes.
HEADS = 2.12
# The white about a rule between two groups of keys.
BETWEEN = 0.2
GROUPS = ("seat width, hub width", "depth at edge", "key above edge")


def key_tolerance(zones: Sequence[KeyZone]) -> tuple[str, tuple[str, ...]]:
    """Return what square keys may be over and under their size, and the figures behind it.

    What is returned is blank if they do not share it, and nothing is behind it.
    """
    found: dict[str, None] = {}
    rows: dict[str, None] = {}
    for zone in zones:
        limits, nominal = zone.tabled.key.height, zone.tabled.key.nominal_height
        assert nominal is not None
        found[signed(limits, nominal, 3)] = None
        rows.update(dict.fromkeys(row for row in limits.rows if row not in nominal.rows))
    return (next(iter(found)), tuple(rows)) if len(found) == 1 else ("", ())


def height(groups: Sequence[Sequence[KeyZone]], pitch: float) -> float:
    """Return the table's height from the rule over it. [figure sizes]"""
    keys = sum(len(zones) for zones in groups)
    return HEADS + keys * pitch + (len(groups) - 1) * BETWEEN + 0.1


def _columns(f: Frame, *, own: bool) -> dict[str, float]:
    """Return the right edges of the columns; ``key`` is a left edge.

    ``own`` says whether each key's own tolerance stands beside it, for which others make way.
    """
    return {
        "key": f.left,
        "over": across(f, 8.25 if own else 6.6),
        "to": across(f, 10.48 if own else 9.15),
        "seat width, hub width": across(f, 17.3 if own else 16.7),
        "depth at edge": across(f, 24.45 if own else 24.15),
        "key above edge": across(f, 31.6),
    }


def table(f: Frame, y: float, groups: Sequence[Sequence[KeyZone]], pitch: float) -> None:
    """Set the table, a rule between groups.

    Parameters
    ----------
    f
        The page.
    y
        The thick and thin rule over it. [pt]
    groups
        The keys, as the panels have them.
    pitch
        From key to key. [figure sizes]
    """
    u, c = f.unit, f.composer
    thick_and_thin(f, y)
    every = [zone for zones in groups for zone in zones]
    own = not key_tolerance(every)[0]
    col = _columns(f, own=own)
    with c.table():
        _heads(f, y, every, col)
        y += u * HEADS
        for n, zones in enumerate(groups):
            if n:
                c.rule(f.left, f.right, y + u * (BETWEEN / 2 + 0.04), u * 0.03)
                y += u * BETWEEN
            for zone in zones:
                _row(f, y + u * (pitch / 2 + 0.36), zone, col, own=own)
                y += u * pitch


def _pair(f: Frame, right: float) -> tuple[float, float]:
    """Return the right edges of a group's least and most. [pt]"""
    return right - across(f, 3.6) + f.left, right


def _heads(f: Frame, y: float, zones: Sequence[KeyZone], col: dict[str, float]) -> None:
    u, c = f.unit, f.composer
    size = f.note
    first, second = y + u * 0.9, y + u * 1.72

    def head(right: float, text: str) -> None:
        c.say(right, second, text, size, anchor="end", role="TH", header="Column")

    def over(text: str, left: float, right: float) -> None:
        c.say(right, first, text, size, anchor="end")
        c.rule(min(left, right - set_width(text, size)), right, first + u * 0.17, u * 0.03)

    said, rows = key_tolerance(zones)
    if said:
        c.say(col["key"], first, "square key", size, role="TH", header="Column")
        c.say(col["key"], second, said, size, role="TH", header="Column", rows=rows)
    else:
        c.say(col["key"], second, "square key", size, role="TH", header="Column")
    with c.over():
        over("shafts", col["over"] - set_width("over", size), col["to"])
        head(col["over"], "over")
        head(col["to"], "to")
    for name in GROUPS:
        least, most = _pair(f, col[name])
        with c.over():
            over(name, least - set_width("0.0000", f.second), most)
            head(least, "least")
            head(most, "most")
    c.rule(f.left, f.right, y + u * HEADS, u * 0.03)


def _row(f: Frame, y: float, zone: KeyZone, col: dict[str, float], *, own: bool) -> None:
    c = f.composer
    tabled, edge = zone.tabled, zone.tabled.depth_at_edge
    assert edge is not None
    ids = tabled.key.width.rows
    c.say(col["key"], y, zone.name, f.second, bold=True, role="TH", header="Row", rows=ids)
    if own:
        said, rows = key_tolerance([zone])
        at = col["key"] + set_width(zone.name, f.second, True) + f.unit * 0.2
        c.say(at, y, said, f.note, role="TD", rows=rows)
    for name, shaft in (("over", zone.row.shaft_over), ("to", zone.row.shaft_to)):
        size = fraction_text(shaft.value)
        c.say(col[name], y, size, f.second, anchor="end", role="TD", rows=(shaft.id,))
    above = between(tabled.key.height, edge, -1)
    for name, limits in zip(GROUPS, (tabled.seat_width, edge, above), strict=True):
        shown = limits.printed(4)
        for at, end in zip(_pair(f, col[name]), (shown.least, shown.most), strict=True):
            c.add(figure(at, y, end, f.second))
