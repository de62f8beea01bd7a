"""Last sheet of the metric plain-key chart: seat and hub widths of the three fits."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import groupby

from keyseats.families import metric_plain
from keyseats.families.metric_plain import plain
from keyseats.frame import DISTANCE, Frame, foot, foot_height, wall_title
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.plain_charts.head import CAUTION, across
from keyseats.records import MetricWidthFit
from keyseats.setting import figure, set_width
from keyseats.standing import Bench, Quantity
from keyseats.typeface import width

LINE = 1.08
BETWEEN = 0.36
FITS = (
    ("loose", "the key slides"),
    ("normal", "the usual fit"),
    ("close", "pressed in"),
)


def zones_of(tables: Tables) -> dict[tuple[str, str], str]:
    """Return the ISO 286 zone of each fit and member."""
    fits = tables.records(MetricWidthFit, "metric_width_fits")
    return {(r.fit, r.member): r.zone for r in fits}


def width_bands(tables: Tables, widths: list[Fraction]) -> list[list[MetricWidthFit]]:
    """Return the fits of each run of widths that share all limits: the first's, then the last's."""
    records = tables.records(MetricWidthFit, "metric_width_fits")

    def fits(width: Fraction) -> list[MetricWidthFit]:
        return [r for r in records if r.width.value == width]

    def limits(width: Fraction) -> list[tuple[str, str, Fraction, Fraction]]:
        return [(r.fit, r.member, r.lower.value, r.upper.value) for r in fits(width)]

    runs = [list(run) for _, run in groupby(widths, key=limits)]
    return [[*fits(run[0]), *fits(run[-1])] for run in runs]


def _columns(f: Frame) -> list[tuple[str, str, float]]:
    return [
        ("loose", "seat", across(f, 11.4)),
        ("loose", "hub", across(f, 15.65)),
        ("normal", "seat", across(f, 20.2)),
        ("normal", "hub", across(f, 24.35)),
        ("close", "", across(f, 31.6)),
    ]


def fits_page(
    tables: Tables,
    paper: str,
    total: int,
    widths: list[Fraction],
    sources: tuple[str, str],
) -> Page:
    """Set the last sheet: what each fit adds to the key's width, least over most.

    Parameters
    ----------
    tables, paper
        The tables and the paper.
    total
        The sheet's number, which is how many there are.
    widths
        The chart's key widths, in rising order. [mm]
    sources
        The foot's column of sources.
    """
    f = Frame(paper, DISTANCE[paper])
    u, c = f.unit, f.composer
    y = wall_title(
        f,
        "Plain keyseats",
        "widths, three fits",
        "What to add to the key's width: plain (parallel) keys, ISO/R 773. All in mm.",
        f"sheet {total} of {total}",
    )
    bands = width_bands(tables, widths)
    notes = [CAUTION, _worked(tables), sources]
    foot_top = f.bottom - foot_height(f, notes, f.note)
    y = _heads(f, tables, y)
    tall = min(4.2, ((foot_top - y) / u - 0.2) / len(bands))
    line = min(1.3, LINE + (tall - 2 * LINE - BETWEEN) * 0.2)
    for n, band in enumerate(bands):
        _band(f, tables, y + u * (0.76 + (tall - 2 * line) / 2), band, line)
        y += u * tall
        if n + 1 < len(bands):
            c.rule(f.left, f.right, y, u * 0.035)
    foot(f, notes, tables.edition, "Metric plain")
    return f.page(f"plain-metric-{total}", "Plain keyseats, metric, widths, three fits")


def _heads(f: Frame, tables: Tables, y: float) -> float:
    u, c = f.unit, f.composer
    zones = zones_of(tables)
    size = u * 0.6
    columns = _columns(f)
    for fit, says in FITS:
        rights = [x for name, _, x in columns if name == fit]
        right = rights[-1]
        left = rights[0] - u * 3.3
        with c.over():
            c.say(right, y + u * 1.25, fit, u * 0.9, bold=True, anchor="end")
            c.say(right, y + u * 2.05, says, size, anchor="end")
            c.rule(min(left, right - set_width(says, size)), right, y + u * 2.35, u * 0.03)
            for member, at in ((m, x) for name, m, x in columns if name == fit):
                zone = zones[fit, member or "seat"]
                text = f"{member} {zone}" if member else f"both {zone}"
                c.say(at, y + u * 3.1, text, size, anchor="end", role="TH", header="Column")
    c.say(f.left, y + u * 3.1, "key width", size, role="TH", header="Column")
    y += u * 3.42
    c.rule(f.left, f.right, y, u * 0.03)
    return y


def _worked(tables: Tables) -> tuple[str, str]:
    """Return one width worked out, for the foot of the fits' sheet."""
    wide = Fraction(8)
    limits = metric_plain.width_limits(tables, wide, "normal", "seat")
    assert limits is not None
    shown = limits.printed(3)
    return (
        "Worked once.",
        f"Key {wide} wide, normal fit: the seat is {shown.least.text} to {shown.most.text} wide. "
        "The depths are the same in every fit.",
    )


def _signed(value: Quantity) -> Quantity:
    """Return a deviation with its sign, to 4 places where the third would round it."""
    shown = value.printed(3 if (value.value * 1000).denominator == 1 else 4)
    sign = "−" if value.value < 0 else "+" if value.value > 0 else ""
    return replace(shown, text=sign + shown.text.lstrip("-"))


def _band(f: Frame, tables: Tables, y: float, band: list[MetricWidthFit], line: float) -> None:
    u, c = f.unit, f.composer
    bench = Bench(tables)
    first, last = band[0].width, band[-1].width
    name = plain(first) if first.value == last.value else f"{plain(first)} to {plain(last)}"
    ids = (first.id, last.id)
    c.say(f.left, y, name, u, bold=True, role="TH", header="Row", rows=ids)
    # Said twice, so that the eye need not cross the page from a width to its last column.
    for x in (across(f, 5.65), across(f, 25.5)):
        c.say(x, y, "least", u * 0.6, role="TH", header="Row")
        c.say(x, y + u * line, "most", u * 0.6, role="TH", header="Row")
    for fit, member, right in _columns(f):
        found = next(r for r in band if r.fit == fit and r.member == (member or "seat"))
        for level, value in ((y, found.lower), (y + u * line, found.upper)):
            shown = _signed(bench.quantity(value))
            hang = width("0", u) * (len(shown.text.partition(".")[2]) - 3)
            c.add(figure(right + hang, level, shown, u))
