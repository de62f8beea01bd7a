"""Wall chart: inch plain keyseats by shaft in panels, then by key, and a sheet of every key."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from keyseats import across_room
from keyseats.across_room import inch_plain as far
from keyseats.families.inch_plain import fraction_text
from keyseats.frame import DISTANCE, Frame, foot, foot_height, thick_and_thin, wall_title
from keyseats.lengths import read_fraction
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.plain_charts import inch_by_key, inch_panels
from keyseats.plain_charts.head import BAND, CAUTION, caption, pen
from keyseats.plain_charts.inch_keys import every_key
from keyseats.plain_charts.inch_said import rounding, said
from keyseats.plain_charts.inch_zones import LAST_KEY, KeyZone, tolerances, zones
from keyseats.sheets import Sheet
from keyseats.views import View

# The last key of each panel, and the panels of each sheet by shaft. Our layout, no source.
LAST_KEYS = (("1/4", "1/2"), ("5/8", LAST_KEY))
TOTAL = len(LAST_KEYS) + 1
# The shaft that is drawn where it is listed, and the discs whose ramp is shown. [in]
DRAWN, DISC = Fraction(1), Fraction(2)
# Between the panels and the table by key, at least and at most; and under the last row.
# [figure sizes]
BETWEEN, BETWEEN_MOST, CLEAR = 0.42, 1.2, 0.12
# From key to key in the table by key, as a part of the panels' pitch: its type is smaller too.
CLOSE = 0.86
# How far the foot's example is over its nominal size. [in]
MEASURED = Fraction(5, 10000)

SOURCES = (
    "Sources.",
    "Industrial Press, Shop Reference, table 1; Shigley, 9th ed., table 7-6; Engineers Edge 14411, "
    "14413, 14414; Machinery's Handbook, 31st ed., table 2. No taper keys.",
)
EVERY = [
    CAUTION,
    (
        "Off size, by thousandths:",
        "depth from crown stays, floors move with shaft or bore. By shaft: sheets 1, 2.",
    ),
    SOURCES,
]

Panels = list[list[KeyZone]]


def sheets(tables: Tables) -> list[Panels]:
    """Return the keys of each panel of each sheet by shaft."""
    every = zones(tables)
    found: list[Panels] = []
    for lasts in LAST_KEYS:
        panels: Panels = []
        for last in lasts:
            reach = read_fraction(last)
            panels.append([zone for zone in every if zone.row.width.value <= reach])
            every = every[len(panels[-1]) :]
        found.append([panel for panel in panels if panel])
    return found


def pages(tables: Tables, paper: str) -> Iterator[Page]:
    """Yield the chart's pages for one paper."""
    if paper in across_room.PAPERS:
        yield from far.pages(tables, paper)
        return
    all_sheets = sheets(tables)
    for number in range(1, TOTAL):
        yield _page(tables, paper, all_sheets, number)
    every = [zone for panels in all_sheets for panel in panels for zone in panel]
    yield every_key(tables, paper, TOTAL, said(every), EVERY)


def _notes(panels: Panels, *, by_key: bool) -> list[tuple[str, str]]:
    """Return the foot of a sheet by shaft: which key, and why its figures are as printed."""
    here = [zone for panel in panels for zone in panel]
    zone = panels[0][-1]
    size, over = zone.shafts[-1], float(zone.shafts[-1] + MEASURED)
    # The table by key has both ends of every range.
    rows = "" if by_key else " Between two rows: the larger one's key."
    places = "The standard's floors have 3 places; reckoner, shaft sheet: 4."
    less = rounding(said(here).edge, tolerances(here)[0])
    parts = [
        f"a {fraction_text(size)} shaft that measures {over:.4f} keeps the {zone.name} key.{rows}",
        f"Off size: depth from crown stays, floors move. {places}{less}",
    ]
    if not by_key:
        parts.append(f"Depth at edge, key above edge: sheet {TOTAL - 1}.")
    return [CAUTION, ("Key by nominal size:", " ".join(parts)), SOURCES]


def _page(tables: Tables, paper: str, all_sheets: list[Panels], number: int) -> Page:
    f = Frame(paper, DISTANCE[paper])
    u = f.unit
    panels = all_sheets[number - 1]
    here = [zone for panel in panels for zone in panel]
    # The keys of the panels before, and of this page.
    before = [panel for each in all_sheets[: number - 1] for panel in each]
    groups = [*before, here] if number == TOTAL - 1 else []
    ends = f"{fraction_text(here[0].shafts[0])} to {fraction_text(here[-1].shafts[-1])} in"
    which = f"{ends}, all keys" if groups else f"shafts {ends}"
    does = "By shaft, then by key" if groups else "How deep to cut"
    y = wall_title(
        f,
        "Plain keyseats",
        which,
        f"{does}: square plain (parallel) keys, ASME B17.1, class 1. Inches.",
        f"sheet {number} of {TOTAL}",
    )
    notes = _notes(panels, by_key=bool(groups))
    foot_top = f.bottom - foot_height(f, notes, f.note)
    room = (foot_top - y) / u - BAND - CLEAR
    pitch, between, spare = _spaced(panels, groups, room)
    _drawings(f, y + u * (0.15 + spare / 2), here)
    y += u * (BAND + spare)
    thick_and_thin(f, y)
    tall = inch_panels.height(panels, pitch)
    for place, panel in zip(inch_panels.places(f), panels, strict=False):
        inch_panels.panel(f, place, y, panel, (pitch, tall), here)
    if groups:
        inch_by_key.table(f, y + u * (tall + between), groups, pitch * CLOSE)
    foot(f, notes, tables.edition, "Inch plain")
    title = f"Plain keyseats, inch, shafts {which.removeprefix('shafts ')}"
    return f.page(f"plain-inch-{number}", title)


def _spaced(panels: Panels, groups: Panels, room: float) -> tuple[float, float, float]:
    """Return the panels' pitch, the white under them, and what is left for the drawings.

    Parameters
    ----------
    panels
        The keys of each panel.
    groups
        The keys of the table by key, where the page has it.
    room
        Height for both. [figure sizes]
    """
    keys = CLOSE * sum(len(zones) for zones in groups)
    under = BETWEEN + inch_by_key.height(groups, 0) if groups else 0.0
    pitch = inch_panels.pitch_for(panels, room - under, keys)
    spare = max(0.0, room - inch_panels.height(panels, pitch) - under - keys * pitch)
    between = min(BETWEEN_MOST, BETWEEN + spare / 2) if groups else 0.0
    return pitch, between, spare - (between - BETWEEN if groups else 0.0)


def _drawings(f: Frame, y: float, here: list[KeyZone]) -> None:
    """Draw a real key of the page: its seat, both floors to their opposite sides, and the ramp."""
    u = f.unit
    zone = next((zone for zone in here if DRAWN in zone.shafts), here[-1])
    shaft = DRAWN if DRAWN in zone.shafts else zone.shafts[0]
    disc = DISC if shaft <= DISC else 2 * DISC
    view = View(f, zone.tabled, shaft, pen(f), u * 0.62, y, wide=3.0)
    view.seat(f.left + u * 6.7)
    replace(view, top=y - u * 0.2).opposite(f.left + u * 18.75)
    view.straight(f.right - u * 6.6, disc)
    caption(f, y, f"{zone.name} key, {fraction_text(shaft)} shaft", fraction_text(disc))


SHEETS = (
    Sheet(
        "wall-inch-plain",
        "wall chart",
        "Plain keyseats, inch: how deep, and how to prove it",
        ("Letter", "A4", "Tabloid", "A3", *across_room.PAPERS),
        pages,
        order=10,
    ),
)
