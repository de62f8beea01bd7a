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
from keyseats.standing import Bench, Quantity, derive
from keyseats.typeface import width

# The column whose figures have a fourth place, half of an odd tolerance.
FOUR = ("normal", "hub")
# Left edges of the rows' least and most: beside the key's width, and beside the close fit.
LABELS = (5.95, 26.15)
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
    """Return the fits of each run of widths that share all limits, narrow first."""
    records = tables.records(MetricWidthFit, "metric_width_fits")

    def fits(width: Fraction) -> list[MetricWidthFit]:
        return [r for r in records if r.width.value == width]

    def limits(width: Fraction) -> list[tuple[str, str, Fraction, Fraction]]:
        return [(r.fit, r.member, r.lower.value, r.upper.value) for r in fits(width)]

    return [[r for width in run for r in fits(width)] for _, run in groupby(widths, key=limits)]


def _columns(f: Frame) -> list[tuple[str, str, float]]:
    """Return fit, member and right edge of each column; `FOUR` has room for a fourth place."""
    return [
        ("loose", "seat", across(f, 11.6)),
        ("loose", "hub", across(f, 15.7)),
        ("normal", "seat", across(f, 20.15)),
        ("normal", "hub", across(f, 24.95)),
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
    apart = _hub_apart(tables, bands)
    notes = [CAUTION, _worked(tables), *apart, sources]
    foot_top = f.bottom - foot_height(f, notes, f.note)
    y = _heads(f, tables, y, close="seat" if apart else "both")
    tall = min(4.8, ((foot_top - y) / u - 0.2) / len(bands))
    line = min(1.3, LINE + (tall - 2 * LINE - BETWEEN) * 0.2)
    for n, band in enumerate(bands):
        _band(f, tables, y + u * (0.76 + (tall - 2 * line) / 2), band, line)
        y += u * tall
        if n + 1 < len(bands):
            c.rule(f.left, f.right, y, u * 0.035)
    foot(f, notes, tables.edition, "Metric plain")
    return f.page(f"plain-metric-{total}", "Plain keyseats, metric, widths, three fits")


def _heads(f: Frame, tables: Tables, y: float, *, close: str) -> float:
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
                text = f"{member} {zone}" if member else f"{close} {zone}"
                c.say(at, y + u * 3.1, text, size, anchor="end", role="TH", header="Column")
    c.say(f.left, y + u * 3.1, "key width", size, role="TH", header="Column")
    y += u * 3.42
    c.rule(f.left, f.right, y, u * 0.03)
    return y


def _worked(tables: Tables) -> tuple[str, str]:
    """Return one seat and its hub worked out, for the foot of the fits' sheet."""
    wide = Fraction(8)
    seat = metric_plain.width_limits(tables, wide, "normal", "seat")
    hub = metric_plain.width_limits(tables, wide, "normal", "hub")
    assert seat is not None
    assert hub is not None
    said = [
        f"{shown.least.text} to {shown.most.text}" for shown in (seat.printed(3), hub.printed(3))
    ]
    return (
        "Worked once.",
        f"Key {wide} wide, normal fit: seat {said[0]} wide, hub {said[1]}. "
        "The depths are the same in every fit.",
    )


def _signed(value: Quantity, sign: str = "") -> Quantity:
    """Return a deviation with its sign, to 4 places where the third would round it."""
    shown = value.printed(3 if (value.value * 1000).denominator == 1 else 4)
    sign = sign or ("−" if value.value < 0 else "+" if value.value > 0 else "")
    return replace(shown, text=sign + shown.text.lstrip("-"))


def _shared(
    bench: Bench, band: list[MetricWidthFit], fit: str, members: tuple[str, ...]
) -> tuple[Quantity, Quantity]:
    """Return the first member's deviations, which all widths of a band share, with all their rows.

    What the second has is the same, or stands in the foot.
    """
    found = [r for r in band if r.fit == fit and r.member in members]
    first = next(r for r in found if r.member == members[0])
    lower = derive(first.lower.value, *(bench.quantity(r.lower) for r in found))
    return lower, derive(first.upper.value, *(bench.quantity(r.upper) for r in found))


def _hub_apart(tables: Tables, bands: list[list[MetricWidthFit]]) -> list[tuple[str, str]]:
    """Return the foot's column of hubs that are not as their seats in the close fit, if any."""
    bench, found = Bench(tables), []
    for band in bands:
        ends = [_shared(bench, band, "close", (member,)) for member in ("seat", "hub")]
        seat, hub = ([end.value for end in pair] for pair in ends)
        if seat != hub:
            least, most = (_signed(end).text for end in ends[1])
            found.append(f"{_named(band)} wide: hub {least} to {most}")
    return [("Close fit:", f"the hub is as the seat, but {', '.join(found)}.")] if found else []


def _named(band: list[MetricWidthFit]) -> str:
    first, last = band[0].width, band[-1].width
    return plain(first) if first.value == last.value else f"{plain(first)} to {plain(last)}"


def _band(f: Frame, tables: Tables, y: float, band: list[MetricWidthFit], line: float) -> None:
    u, c = f.unit, f.composer
    bench = Bench(tables)
    ids = tuple(dict.fromkeys(r.width.id for r in band))
    c.say(f.left, y, _named(band), u, bold=True, role="TH", header="Row", rows=ids)
    # Said twice, so that the eye need not cross the page from a width to its last column.
    for x in (across(f, at) for at in LABELS):
        c.say(x, y, "least", u * 0.6, role="TH", header="Row")
        c.say(x, y + u * line, "most", u * 0.6, role="TH", header="Row")
    for fit, member, right in _columns(f):
        lower, upper = _shared(bench, band, fit, (member,) if member else ("seat", "hub"))
        if (fit, member) == FOUR:
            right -= width("0", u)
        if lower.value == -upper.value:
            _deviation(f, right, y, _signed(derive(upper.value, lower, upper), "±"))
            continue
        for level, value in ((y, lower), (y + u * line, upper)):
            _deviation(f, right, level, _signed(value))


def _deviation(f: Frame, right: float, base: float, shown: Quantity) -> None:
    """Set a deviation; a fourth place stands past the others' third."""
    hang = width("0", f.unit) * (len(shown.text.partition(".")[2]) - 3)
    f.composer.add(figure(right + hang, base, shown, f.unit))
