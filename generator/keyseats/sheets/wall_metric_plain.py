"""Wall chart: metric plain keyseats, one band a key, least over most, and a sheet of the fits."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import partial

from keyseats import across_room
from keyseats.across_room import metric_plain as far
from keyseats.families import metric_plain
from keyseats.families.metric_plain import plain
from keyseats.frame import DISTANCE, Frame, foot, foot_height, thick_and_thin, wall_title
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.plain_charts.head import BAND, CAUTION, NO_ARC, across, caption, pen
from keyseats.plain_charts.metric_fits import fits_page, zones_of
from keyseats.plain_charts.metric_keys import STANDARD, Key, same, sheets
from keyseats.records import MetricPlainKey
from keyseats.setting import figure
from keyseats.sheets import Sheet
from keyseats.standing import Limits
from keyseats.views import View

LINE = 1.08
BETWEEN = 0.36
# The shaft drawn on each sheet, and the disc whose ramp is shown. [mm]
DRAWN = ((25, 40), (60, 80), (160, 200))
# Shaft sizes that each range lists so that the band is found at once: usual ones, no source.
USUAL = (
    *(6, 7, 8, 9, 10, 11, 12, 14, 15, 16, 17, 18, 19, 20, 22, 24, 25, 28, 30, 32, 35, 36, 38),
    *(40, 42, 44, 45, 48, 50, 55, 58, 60, 65, 70, 75, 80, 85, 90, 95, 100, 110, 120, 125, 130),
    *(140, 150, 160, 170, 180, 200, 220, 230, 240, 250, 260, 280, 290, 300, 320, 330),
    *(340, 360, 380, 400, 420, 440, 450, 480, 500),
)
SOURCES = (
    "Sources.",
    "Engineers Edge, ISO/R 773:1969; one-page keyway sheet, 2007; MISUMI, JIS B 1301:1996; "
    "cadhome.net, GB/T 1095. Taper keys are not covered.",
)


def pages(tables: Tables, paper: str) -> Iterator[Page]:
    """Yield the chart's pages for one paper."""
    if paper in across_room.PAPERS:
        yield from far.pages(tables, paper)
        return
    all_sheets = sheets(tables)
    total = len(all_sheets) + 1
    for n, here in enumerate(all_sheets):
        yield _page(tables, paper, here, n, total)
    widths = [key.row.width.value for here in all_sheets for key in here]
    yield fits_page(tables, paper, total, widths, SOURCES)


def _page(tables: Tables, paper: str, here: list[Key], number: int, total: int) -> Page:
    f = Frame(paper, DISTANCE[paper])
    u = f.unit
    which = f"shafts {plain(here[0].row.shaft_over)} to {plain(here[-1].row.shaft_to)} mm"
    y = wall_title(
        f,
        "Plain keyseats",
        which,
        f"How deep, how wide: plain (parallel) keys, {STANDARD}, normal fit. All in mm.",
        f"sheet {number + 1} of {total}",
    )
    _drawings(f, y + u * 0.15, here, DRAWN[number])
    y = _heads(f, tables, _rule(f, y + u * BAND))
    notes = [CAUTION, same(tables, here), SOURCES]
    foot_top = f.bottom - foot_height(f, notes, f.note)
    room = (foot_top - y) / u - 0.1
    spare = room / len(here) - 2 * LINE - BETWEEN
    if spare < -0.02:
        raise ValueError(f"the bands are {-spare:.2f} figure sizes each too tall for {paper}")
    line = LINE + min(0.15, spare * 0.3)
    between = BETWEEN + min(0.9, spare - 2 * (line - LINE))
    for n, key in enumerate(here):
        _band(f, y + u * (0.76 + between / 2), key, line)
        y += u * (2 * line + between)
        if n + 1 < len(here):
            f.composer.rule(f.left, f.right, y, u * 0.035)
    foot(f, notes, tables.edition, "Metric plain")
    return f.page(f"plain-metric-{number + 1}", f"Plain keyseats, metric, {which}")


def _rule(f: Frame, y: float) -> float:
    """Say once what is fed, and how both floors are found from shaft and bore as measured."""
    u, c = f.unit, f.composer
    c.rule(f.left, f.right, y, u * 0.03)
    for n, (name, rule) in enumerate(
        (
            ("depth from crown", f"feed this after the touch, {NO_ARC}"),
            ("shaft: floor to opposite side", "shaft as measured − depth from crown"),
            ("hub: floor to opposite side", "bore as measured + hub depth"),
        )
    ):
        base = y + u * (0.98 + 0.92 * n)
        c.say(f.left, base, name, u * 0.66, bold=True)
        c.say(f.left + u * 12.6, base, "=  " + rule, u * 0.66)
    return y + u * 3.2


def _columns(f: Frame) -> dict[str, float]:
    """Return the right edges of the columns; ``tag`` is a left edge."""
    u = f.unit
    return {
        "key": across(f, 11.9),
        "tag": across(f, 12.4),
        "depth": across(f, 17.2),
        "seat": across(f, 21.2),
        "hub": across(f, 24.2),
        "hub width": across(f, 28.3),
        "radius": f.right - u * 0.1,
    }


def _heads(f: Frame, tables: Tables, y: float) -> float:
    u, c, col, zones = f.unit, f.composer, _columns(f), zones_of(tables)
    thick_and_thin(f, y)
    size = u * 0.6
    say = partial(c.say, size=size, role="TH", header="Column")
    first, second = y + u * 0.95, y + u * 1.69
    say(f.left, first, "shaft: over, to and including;")
    say(f.left, second, "usual sizes in it")
    for name, texts, bold in (
        ("key", ("", "key"), False),
        ("depth", ("depth", "from crown"), True),
        ("seat", ("seat", f"width {zones['normal', 'seat']}"), False),
        ("hub", ("hub", "depth"), False),
        ("hub width", ("hub", f"width {zones['normal', 'hub']}"), False),
        ("radius", ("floor", "radius"), False),
    ):
        for level, text in zip((first, second), texts, strict=True):
            if text:
                say(col[name], level, text, bold=bold, anchor="end")
    y += u * 2.0
    c.rule(f.left, f.right, y, u * 0.03)
    return y


def _band(f: Frame, y: float, key: Key, line: float) -> None:
    """Set one key: its least figures over its most, the shafts that it is for beside them."""
    u, c, col = f.unit, f.composer, _columns(f)
    row, tabled = key.row, key.tabled
    assert tabled.depth_from_crown is not None
    low = y + u * line
    ids = (row.shaft_over.id, row.shaft_to.id)
    c.say(
        f.left,
        y,
        f"{plain(row.shaft_over)} to {plain(row.shaft_to)}",
        u,
        bold=True,
        role="TH",
        header="Row",
        rows=ids,
    )
    c.say(f.left, low - u * 0.08, _usual(row), u * 0.62)
    name = f"{plain(row.width)} × {plain(row.height)}"
    size = (row.width.id, row.height.id)
    c.say(col["key"], y, name, u, bold=True, anchor="end", role="TH", header="Row", rows=size)
    c.say(col["tag"], y, "least", u * 0.6, role="TH", header="Row")
    c.say(col["tag"], low, "most", u * 0.6, role="TH", header="Row")
    cells: list[tuple[str, Limits, float]] = [
        ("depth", tabled.depth_from_crown.printed(2), u),
        ("seat", tabled.seat_width.printed(3), f.second),
        ("hub", tabled.hub_rise.printed(2), f.second),
        ("hub width", tabled.hub_width.printed(3), f.second),
    ]
    if tabled.floor_radius is not None:
        cells.append(("radius", tabled.floor_radius.printed(2, "nearest"), f.second))
    for level, end in ((y, "least"), (low, "most")):
        for column, limits, big in cells:
            c.add(figure(col[column], level, getattr(limits, end), big))


def _usual(row: MetricPlainKey) -> str:
    """Return the usual shafts of a range; the smallest range has its lower end too."""
    over = row.shaft_over.value
    inside = [d for d in USUAL if (over < d or d == USUAL[0] == over) and d <= row.shaft_to.value]
    return "  ".join(str(d) for d in inside)


def _drawings(f: Frame, y: float, here: list[Key], drawn: tuple[int, int]) -> None:
    """Draw a real key of the page: both depths, both floors to their opposite sides, the ramp."""
    u = f.unit
    shaft, disc = (Fraction(d) for d in drawn)
    key = next(k for k in here if metric_plain.holds(k.row, shaft, smallest=False))
    view = View(f, key.tabled, shaft, pen(f), u * 0.62, y)
    view.from_crown(f.left + u * 4.85)
    view.opposite(f.left + u * 18.35)
    view.straight(f.right - u * 6.6, disc)
    name = f"{plain(key.row.width)} × {plain(key.row.height)}"
    caption(f, y, f"{name} key, {shaft} shaft", str(disc))


SHEETS = (
    Sheet(
        "wall-metric-plain",
        "wall chart",
        "Plain keyseats, metric: how deep and how wide",
        ("A4", "Letter", "A3", "Tabloid", *reversed(across_room.PAPERS)),
        pages,
        order=30,
    ),
)
