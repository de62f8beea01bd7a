"""Half-moon keys on the gauge: one side view for each circle, an end view for each key."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import groupby

from keyseats.families import inch_half_moon, metric_half_moon
from keyseats.families.inch_plain import fraction_text
from keyseats.frame import Frame
from keyseats.key_gauge import near
from keyseats.key_gauge.outlines import height_of_key, section, side, width_of_key
from keyseats.key_gauge.page_parts import DISTANCE_M, Place, Said, finish, rule, start
from keyseats.load import Tables
from keyseats.page import Block, Page
from keyseats.seat import Key, Work
from keyseats.setting import figure, limits_line, words

# The largest circle of the first inch page: more room for small keys, more for large ones.
FIRST_PAGE = Fraction(3, 4)
# Height of the inch pages' table head. [figure size]
HEAD = 3.65
SOURCES = {
    "in": (
        "Sources.",
        "ASME B17.2 in Machinery's Handbook, 31st ed., table 8; Shigley, 9th ed., table 7-7; a "
        "textbook's table 11-3. Drawn at the most height. A key with a flat foot leaves a sliver "
        "of white at the foot. The large series, 2-1/8 diameter and over, is not drawn.",
    ),
    "mm": (
        "Sources.",
        "ISO 3912 family: a table of Woodruff keyways in the layout of GB/T 1098-2003, and GOST "
        "24071-97, table 1. A key with a flat foot is about 0.8 as high and leaves white at the "
        "foot.",
    ),
}
STEPS = (
    "Lay the key on its side on the side views. The right one: the key hides the white, and the "
    "line shows all round it.",
    "Stand it on its flat top on that row's end views. The right one: the line shows along "
    "both sides.",
    "Measure width, height and diameter. Paper is for recognising; the micrometer decides.",
)


def inch_keys(tables: Tables) -> list[Key]:
    """Return the keys of the standard series, by circle, narrow first."""
    series = {n for n, k in inch_half_moon.keys(tables).items() if k.series == "standard"}
    found = [t.key for t in inch_half_moon.every(tables, Work("in", Fraction(1)))]
    return sorted((k for k in found if k.designation in series), key=_order)


def metric_keys(tables: Tables) -> list[Key]:
    """Return the keys of the default standard, by circle, narrow first."""
    return sorted(
        (t.key for t in metric_half_moon.every(tables, Work("mm", Fraction(1)))), key=_order
    )


def _circle(key: Key) -> Fraction:
    assert key.diameter is not None
    return key.diameter.value


def _order(key: Key) -> tuple[Fraction, Fraction]:
    return _circle(key), key.width.value


def inch_pages(tables: Tables, paper: str, first: int, total: int) -> Iterator[Page]:
    """Yield the inch pages: small circles, then large ones."""
    every, others = inch_keys(tables), metric_keys(tables)
    halves = (
        [k for k in every if _circle(k) <= FIRST_PAGE],
        [k for k in every if _circle(k) > FIRST_PAGE],
    )
    for n, keys in enumerate(halves):
        least, most = fraction_text(_circle(keys[0])), fraction_text(_circle(keys[-1]))
        said = Said(
            "Which half-moon key is it?",
            f"inch, {least} to {most} diameter",
            "Woodruff keys, ASME B17.2, by diameter. True scale: the size is the inside edge of "
            "the line. Inches.",
            f"sheet {first + n} of {total}",
            STEPS,
            SOURCES["in"],
            "inch half-moon",
        )
        f = Frame(paper, DISTANCE_M)
        place = start(f, said)
        found = near.pairs(keys, others)
        kept = near.height(f, len(found))
        with f.composer.table():
            _matrix(f, place, keys, kept)
        near.set_pairs(f, place.bottom - kept, found)
        yield finish(
            f,
            tables,
            said,
            f"gauge-inch-half-moon-{n + 1}",
            f"Key gauge, inch half-moon, {least} to {most} diameter",
        )


def _matrix(f: Frame, place: Place, keys: list[Key], kept: float) -> None:
    """Set a row for each circle and a column for each width."""
    c, u = f.composer, f.unit
    widths = sorted({k.width.value for k in keys})
    side_at = f.left + u * 13.6
    first = f.left + u * 19.1
    pitch = (place.right - first) / len(widths)
    columns = {w: first + pitch * (n + 0.5) for n, w in enumerate(widths)}
    y = place.top
    c.rule(f.left, place.right, y, u * 0.06)
    _matrix_head(f, y, keys, side_at, columns)
    y += HEAD * u
    c.rule(f.left, place.right, y, u * 0.03)
    circles = [list(group) for _, group in groupby(keys, key=_circle)]
    label = u * 1.55
    tall = [max(height_of_key(g[0]) + label, u * 2.5) for g in circles]
    pad = (place.bottom - kept - y - sum(tall)) / len(tall)
    for n, (group, high) in enumerate(zip(circles, tall, strict=True)):
        floor = y + pad / 2 + high - label
        with c.row():
            _stub(f, y + (pad + high) / 2, group[0])
            c.add(side(side_at, floor, group[0]))
            for key in group:
                x = columns[key.width.value]
                named = words(x, floor + u * 1.25, key.in_print, u, bold=True, anchor="middle")
                c.add(Block("TD", (section(x, floor, key), named)))
        y += pad + high
        if n + 1 < len(tall):
            rule(f, place, y)


def _matrix_head(
    f: Frame, y: float, keys: list[Key], side_at: float, columns: dict[Fraction, float]
) -> None:
    """Set the heads of rows and side views, and the widths under what they head."""
    c, u = f.composer, f.unit
    upper, lower = y + u * (HEAD - 1.4), y + u * (HEAD - 0.45)
    for at, text, x, anchor in (
        (upper, "diameter", f.left, "start"),
        (lower, "height, least to most", f.left, "start"),
        (upper, "side view", side_at, "middle"),
        (lower, "flat top up", side_at, "middle"),
    ):
        c.say(x, at, text, f.note, anchor=anchor, role="TH", header="Column")
    left, right = min(columns.values()) - u * 1.6, max(columns.values()) + u * 1.6
    with c.over():
        c.say((left + right) / 2, y + u * 0.85, "end view, by width", f.note, anchor="middle")
        for width, x in columns.items():
            key = next(k for k in keys if k.width.value == width)
            name = (words(x, upper, fraction_text(width), u, bold=True, anchor="middle"),)
            c.add(Block("TH", name, header="Column", rows=key.width.rows))
            text = key.width.printed(4).text
            c.say(x, lower, text, f.note, anchor="middle", role="TH", header="Column")
    c.rule(left, right, y + u * 1.12, u * 0.03)


def _stub(f: Frame, middle: float, key: Key) -> None:
    u = f.unit
    assert key.diameter is not None
    text = fraction_text(key.diameter.value)
    name = (words(f.left, middle - u * 0.1, text, u * 1.15, bold=True),)
    f.composer.add(Block("TH", name, header="Row", rows=key.diameter.rows))
    limits, small = key.height.printed(3), f.note / f.second
    f.composer.add(limits_line(f.left, middle + u * 1.1, limits, f.second, small=small)[0])


def metric_pages(tables: Tables, paper: str, first: int, total: int) -> Iterator[Page]:
    """Yield the metric page: a row for each circle."""
    keys, others = metric_keys(tables), inch_keys(tables)
    least, most = f"{_circle(keys[0])}", f"{_circle(keys[-1])}"
    said = Said(
        "Which half-moon key is it?",
        f"metric, {least} to {most} diameter",
        "Woodruff keys, ISO 3912 family. True scale: the size is the inside edge of the line. "
        "Millimetres.",
        f"sheet {first} of {total}",
        STEPS,
        SOURCES["mm"],
        "metric half-moon",
    )
    f = Frame(paper, DISTANCE_M)
    place = start(f, said)
    found = near.pairs(keys, others)
    kept = near.height(f, len(found))
    with f.composer.table():
        _circles(f, place, keys, kept)
    near.set_pairs(f, place.bottom - kept, found)
    yield finish(f, tables, said, "gauge-metric-half-moon", "Key gauge, metric half-moon")


def _circles(f: Frame, place: Place, keys: list[Key], kept: float) -> None:
    """Set a row for each circle, its keys' end views side by side."""
    c, u = f.composer, f.unit
    diameter_at, height_at, side_at = f.left + u * 2.8, f.left + u * 5.9, f.left + u * 10.7
    first = f.left + u * 18.2
    pitch = (place.right - first + u * 1.0) / 3
    y = place.top
    c.rule(f.left, place.right, y, u * 0.06)
    for text, x, anchor in (
        ("diameter", diameter_at, "end"),
        ("height", height_at, "end"),
        ("side view, flat top up", side_at, "middle"),
        ("end view, and key: width × height × diameter", first - u * 1.4, "start"),
    ):
        c.say(x, y + u * 1.0, text, f.note, anchor=anchor, role="TH", header="Column")
    y += u * 1.4
    c.rule(f.left, place.right, y, u * 0.03)
    circles = [list(group) for _, group in groupby(keys, key=_circle)]
    tall = [max(height_of_key(g[0]), u) for g in circles]
    pad = (place.bottom - kept - y - sum(tall)) / len(tall)
    for n, (group, high) in enumerate(zip(circles, tall, strict=True)):
        middle = y + (pad + high) / 2
        floor, base = middle + height_of_key(group[0]) / 2, middle + u * 0.365
        key = group[0]
        assert key.diameter is not None
        assert key.nominal_height is not None
        with c.row():
            for x, quantity, places in (
                (diameter_at, key.diameter, 0),
                (height_at, key.nominal_height, 1),
            ):
                shown, bold = quantity.printed(places), places == 0
                c.add(figure(x, base, shown, u, bold=bold, role="TH" if bold else "TD"))
            c.add(side(side_at, floor, key))
            for k, one in enumerate(group):
                x = first + pitch * k
                outline = section(x - width_of_key(one) / 2, floor, one)
                label = words(x + u * 0.5, base, one.in_print, u * 0.88, bold=True)
                c.add(Block("TD", (outline, label), rows=one.width.rows))
        y += pad + high
        if n + 1 < len(tall):
            rule(f, place, y)
