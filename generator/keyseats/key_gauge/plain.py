"""Plain keys on the gauge: a strip to lay the key along, and its sections."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from keyseats.families import inch_plain, metric_plain
from keyseats.families.inch_plain import fraction_text
from keyseats.families.metric_plain import plain
from keyseats.frame import Frame
from keyseats.key_gauge import near
from keyseats.key_gauge.outlines import height_of_key, section, strip, width_of_key
from keyseats.key_gauge.page_parts import DISTANCE_M, Place, Said, finish, rule, start
from keyseats.load import Tables
from keyseats.page import MM, Block, Mark, Page
from keyseats.records import Figure
from keyseats.seat import Key, Work
from keyseats.setting import words

# Shafts of light lathes: ranges that begin below this. [table's unit]
LAST = {"in": Fraction(2), "mm": Fraction(50)}
INCH_STRIP, MM_STRIP = 2 * 72.0, 80 * MM
SOURCES = {
    "in": (
        "Sources.",
        "ASME B17.1 in Industrial Press, Shop Reference, table 1, and Shigley, 9th ed., table "
        "7-6. Taper keys are not covered. Larger keys: see the wall chart.",
    ),
    "mm": (
        "Sources.",
        "ISO/R 773: Engineers Edge, ISO/R 773:1969, and a one-page keyway sheet, 2007. Taper and "
        "thin keys are not covered. Larger keys: see the wall chart.",
    ),
}
SAME = " The same sections are in {}."
STEPS = (
    "Lay the key along the strips. The right one: the key hides the white, and the line shows "
    "along both sides.",
    "Turn it on its side: only a square key lies on the same strip. Square-ended, it stands on "
    "its section too.",
    "Measure width and height. Paper is for recognising; the micrometer decides.",
)


@dataclass(frozen=True)
class Row:
    """The keys of one range of shafts, the square one first; the first gives the strip."""

    over: Figure
    to: Figure
    keys: tuple[Key | None, ...]

    @property
    def first(self) -> Key:
        """Return the key whose width the row has."""
        return next(k for k in self.keys if k is not None)


def inch_rows(tables: Tables) -> list[Row]:
    """Return the keys of light lathes' inch shafts, square and rectangular."""
    found = []
    for row in inch_plain.rows(tables):
        if row.shaft_over.value < LAST["in"]:
            work = Work("in", row.shaft_to.value)
            kinds = [inch_plain.one(tables, row, s, work) for s in ("square", "rectangular")]
            keys = tuple(t.key if t is not None else None for t in kinds)
            found.append(Row(row.shaft_over, row.shaft_to, keys))
    return found


def metric_rows(tables: Tables) -> list[Row]:
    """Return the keys of light lathes' metric shafts, the default standard's main series."""
    found = []
    for row in metric_plain.rows(tables, metric_plain.STANDARDS[0]):
        if row.shaft_over.value < LAST["mm"]:
            tabled = metric_plain.one(tables, row, Work("mm", row.shaft_to.value))
            if tabled is not None:
                found.append(Row(row.shaft_over, row.shaft_to, (tabled.key,)))
    return found


def agreeing(tables: Tables, rows: list[Row]) -> list[str]:
    """Return the other metric standards that have every section of the page."""
    here = {(k.width.value, k.nominal_height.value) for k in _keys(rows) if k.nominal_height}
    names = metric_plain.STANDARDS[1:]
    return [
        name
        for name in names
        if here <= {(r.width.value, r.height.value) for r in metric_plain.rows(tables, name)}
    ]


def _keys(rows: list[Row]) -> list[Key]:
    return [k for row in rows for k in row.keys if k is not None]


def pages(tables: Tables, paper: str, unit: str, first: int, total: int) -> Iterator[Page]:
    """Yield the page of one system's plain keys."""
    inch, metric = inch_rows(tables), metric_rows(tables)
    rows, others = (inch, metric) if unit == "in" else (metric, inch)
    end = fraction_text(rows[-1].to.value) if unit == "in" else plain(rows[-1].to)
    name, standard = ("inch", "ASME B17.1") if unit == "in" else ("metric", "ISO/R 773")
    also = SAME.format(", ".join(agreeing(tables, metric))) if unit == "mm" else ""
    said = Said(
        "Which plain key is it?",
        f"{name}, shafts to {end} {unit}",
        f"Plain (parallel) keys, {standard}. True scale: the size is the inside edge of the line. "
        + ("Inches." if unit == "in" else "Millimetres."),
        f"sheet {first} of {total}",
        STEPS,
        (SOURCES[unit][0], SOURCES[unit][1] + also),
        f"{name} plain",
    )
    f = Frame(paper, DISTANCE_M)
    place = start(f, said)
    found = near.pairs(_keys(rows), _keys(others))
    kept = near.height(f, len(found))
    with f.composer.table():
        _rows(f, place, rows, unit, kept)
    near.set_pairs(f, place.bottom - kept, found)
    yield finish(
        f, tables, said, f"gauge-{name}-plain", f"Key gauge, {name} plain, shafts to {end} {unit}"
    )


def _columns(f: Frame, unit: str) -> dict[str, float]:
    u, x = f.unit, f.left
    if unit == "in":
        return {
            "over": x + u * 3.4,
            "to": x + u * 6.3,
            "key": x + u * 10.1,
            "strip": x + u * 11.5,
            "square": x + u * 26.4,
            "rectangular": x + u * 37.4,
        }
    return {
        "over": x + u * 3.4,
        "to": x + u * 5.5,
        "key": x + u * 10.2,
        "strip": x + u * 11.4,
        "section": x + u * 37.2,
    }


def _rows(f: Frame, place: Place, rows: list[Row], unit: str, kept: float) -> None:
    """Set a row for each range of shafts."""
    c, u, at = f.composer, f.unit, _columns(f, unit)
    long = INCH_STRIP if unit == "in" else MM_STRIP
    y = place.top
    c.rule(f.left, place.right, y, u * 0.06)
    heads = [
        ("shafts over", at["over"], "end"),
        ("to", at["to"], "end"),
        ("key width" if unit == "in" else "key", at["key"], "end"),
        (f"strip, {'2 in' if unit == 'in' else '80 mm'} long", at["strip"], "start"),
    ]
    for kind in ("square", "rectangular") if unit == "in" else ("section",):
        heads.append((kind, at[kind], "middle"))
    for text, x, anchor in heads:
        c.say(x, y + u, text, f.note, anchor=anchor, role="TH", header="Column")
    y += u * 1.4
    c.rule(f.left, place.right, y, u * 0.03)
    tall = [max(width_of_key(row.first), u * (2.2 if unit == "in" else 1.0)) for row in rows]
    pad = (place.bottom - kept - y - sum(tall)) / len(tall)
    for n, (row, high) in enumerate(zip(rows, tall, strict=True)):
        with c.row():
            _row(f, y + (pad + high) / 2, row, unit, long)
        y += pad + high
        if n + 1 < len(tall):
            rule(f, place, y)


def _row(f: Frame, middle: float, row: Row, unit: str, long: float) -> None:
    c, u, at = f.composer, f.unit, _columns(f, unit)
    base = middle + u * 0.365
    for name, size_of in (("over", row.over), ("to", row.to)):
        text = fraction_text(size_of.value) if unit == "in" else plain(size_of)
        line = words(at[name], base, text, f.second, anchor="end")
        c.add(Block("TD", (line,), rows=(size_of.id,)))
    key = row.first
    if unit == "in":
        name, base = fraction_text(key.width.value), middle - u * 0.12
    else:
        name = key.in_print
    line = words(at["key"], base, name, u, bold=True, anchor="end")
    c.add(Block("TH", (line,), header="Row", rows=key.width.rows))
    if unit == "in":
        c.say(at["key"], middle + u * 1.0, key.width.text, f.note, anchor="end")
    c.add(strip(at["strip"], middle, key, long))
    for place, one in zip(
        ("square", "rectangular") if unit == "in" else ("section",), row.keys, strict=True
    ):
        if one is not None:
            _section(f, at[place], middle, one, unit)


def _section(f: Frame, x: float, middle: float, key: Key, unit: str) -> None:
    c, u = f.composer, f.unit
    parts: list[Block | Mark] = [section(x, middle + height_of_key(key) / 2, key)]
    if unit == "in":
        assert key.nominal_height is not None
        name = key.in_print
        at = x + 18.0 + u * 0.5
        parts.append(words(at, middle - u * 0.12, name, u * 0.9, bold=True))
        high = f"{key.nominal_height.text} high"
        line = words(at, middle + u * 1.0, high, f.note)
        parts.append(Block("P", (line,), rows=key.nominal_height.rows))
    c.add(Block("TD", tuple(parts)))
