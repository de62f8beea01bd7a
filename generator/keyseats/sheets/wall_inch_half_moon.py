"""Wall chart: inch half-moon keyseats, one zone a key width."""

from __future__ import annotations

from collections.abc import Iterator

from keyseats import across_room, geometry
from keyseats.across_room import inch_half_moon as far
from keyseats.drawing import Pen
from keyseats.families.inch_plain import fraction_text
from keyseats.frame import (
    DISTANCE,
    FIRST,
    RECALLED,
    Frame,
    foot,
    foot_height,
    split,
    thick_and_thin,
    wall_title,
)
from keyseats.half_moon_charts.inch_widths import STRIPS, OneWidth, by_width, drawn
from keyseats.lengths import read_fraction
from keyseats.load import Tables
from keyseats.page import Block, Page
from keyseats.seat import Tabled, clear_neck
from keyseats.setting import DAGGER, figure, set_width, words
from keyseats.sheets import Sheet
from keyseats.standing import Limits, Quantity, between, derive, typed
from keyseats.sum_line import sum_line
from keyseats.views import View

PITCH = 1.25
STRIP = 2.3
GAP = 0.8
BAND = 6.9
FOOT = [
    (
        "CAUTION",
        "Stop the spindle before you measure, brush chips or deburr. Take a loose key out before "
        "the shaft turns. Keep the floor above the shaft's centre. " + FIRST,
    ),
    (DAGGER, RECALLED),
    (
        "Sources.",
        "ASME B17.2 in Shigley, 9th ed., tables 7-7, 7-8; Machinery's Handbook, 31st ed., table 8; "
        "a textbook's table 11-3. A training manual's rule runs 0.005 deeper.",
    ),
    (
        "Also:",
        "key above edge counts from the edge (metric: crown). Neck clears by 0.010 on diameter. "
        "Rounded whole, the sum may differ by 0.0001.",
    ),
]


SUM = [
    ("depth at edge", "from the table"),
    ("+", ""),
    ("arc height for your shaft", "strip below; or Setting up, sheet 3"),
    ("=", ""),
    ("depth from crown", "feed this after the touch"),
]


class Zone(OneWidth):
    """All keys of one width, over the strip of their arc heights."""

    @property
    def rows(self) -> int:
        """Return the lines that the zone needs: its keys, and never under four."""
        return max(len(self.keys), 4)

    @property
    def height(self) -> float:
        """Return the zone's height in figure sizes."""
        return self.rows * PITCH + STRIP + GAP


def pages(tables: Tables, paper: str) -> Iterator[Page]:
    """Yield the chart's pages for one paper."""
    if paper in across_room.PAPERS:
        yield from far.pages(tables, paper)
        return
    all_zones = [Zone(w.width, w.keys) for w in by_width(tables)]
    trial = Frame(paper, DISTANCE[paper])
    u = trial.unit
    furniture = u * (2.8 + BAND + 4.35) + foot_height(trial, FOOT, trial.note)
    room = (trial.bottom - trial.top - furniture) / u
    counts = split([z.height for z in all_zones], room)
    start = 0
    for n, count in enumerate(counts):
        here = all_zones[start : start + count]
        start += count
        yield _page(tables, paper, here, n + 1, len(counts))


def _page(tables: Tables, paper: str, here: list[Zone], number: int, total: int) -> Page:
    f = Frame(paper, DISTANCE[paper])
    u = f.unit
    first, last = here[0].width, here[-1].width
    which = f"{first} in wide" if first == last else f"{first} to {last} in wide"
    y = wall_title(
        f,
        "Half-moon keyseats",
        which,
        "Woodruff keys, ASME B17.2. How deep and how wide to cut the shaft. All in inches.",
        f"sheet {number} of {total}",
    )
    _drawings(f, y + u * 0.3, here)
    y = sum_line(f, y + u * BAND, SUM)
    foot_top = f.bottom - foot_height(f, FOOT, f.note)
    with f.composer.table():
        _keys(f, y, foot_top, here)
    foot(f, FOOT, tables.edition, "Inch half-moon")
    return f.page(f"half-moon-{number}", f"Half-moon keyseats, inch, {which}")


def _keys(f: Frame, y: float, foot_top: float, here: list[Zone]) -> None:
    """Set the heads, and every width's keys over its strip of arc heights."""
    u = f.unit
    y = _heads(f, y)
    spare = (foot_top - y) / u - sum(z.height for z in here)
    rows = sum(z.rows for z in here)
    pitch = PITCH + min(0.25, 0.7 * spare / rows)
    gap = GAP + min(0.9, (spare - (pitch - PITCH) * rows) / len(here))
    for n, zone in enumerate(here):
        y = _zone(f, y, zone, pitch, gap)
        if n + 1 < len(here):
            f.composer.rule(f.left, f.right, y, u * 0.09)


def _columns(f: Frame) -> dict[str, float]:
    """Return the right edges of the columns."""
    u = f.unit
    return {
        "key": f.left + u * 6.2,
        "dia": f.left + u * 9.35,
        "depth": f.left + u * 14.55,
        "neck": f.left + u * 18.0,
        "name": f.left + u * 18.9,
        "least": f.right - u * 4.35,
        "most": f.right - u * 0.4,
    }


def _heads(f: Frame, y: float) -> float:
    u, c, col = f.unit, f.composer, _columns(f)
    thick_and_thin(f, y)
    size = u * 0.6

    def head(x: float, lines: list[str], bold: bool = False, anchor: str = "end") -> None:
        for n, line in enumerate(lines):
            c.say(
                x,
                y + u * (0.95 + 0.74 * n),
                line,
                size,
                bold=bold,
                anchor=anchor,
                role="TH",
                header="Column",
            )

    head(f.left, ["key", "width"], anchor="start")
    head(col["key"], ["key", "number"])
    head(col["dia"], ["dia-", "meter"])
    head(col["depth"], ["depth at edge", f"+0.005{DAGGER}  −0"], bold=True)
    head(col["neck"], ["largest", f"neck{DAGGER}"])
    head(col["name"], ["for every key of this width"], anchor="start")
    for x, text in ((col["least"], "least"), (col["most"], "most")):
        c.say(x, y + u * 1.69, text, size, anchor="end", role="TH", header="Column")
    y += u * 2.0
    c.rule(f.left, f.right, y, u * 0.03)
    return y


def _zone(f: Frame, y: float, zone: Zone, pitch: float, gap: float) -> float:
    u, c, col = f.unit, f.composer, _columns(f)
    first = row = y + u * (0.85 + gap * 0.45)
    c.say(f.left, row + u * 0.42, zone.width, u * 1.45, bold=True, role="TH", header="Row")
    for tabled in zone.keys:
        key, depth = tabled.key, tabled.depth_at_edge
        assert depth is not None
        assert key.diameter is not None
        hang = set_width(key.designation.partition(".")[2], u, True)
        hang += u * 0.38 if hang else 0.0
        c.say(
            col["key"] + hang,
            row,
            key.designation,
            u,
            bold=True,
            anchor="end",
            role="TH",
            header="Row",
            rows=key.width.rows,
        )
        dia = words(col["dia"], row, fraction_text(key.diameter.value), f.second, anchor="end")
        c.add(Block("TD", (dia,), rows=key.diameter.rows))
        c.add(figure(col["depth"], row, depth.least.printed(4), u))
        c.add(figure(col["neck"], row, _neck(tabled), f.second, dagger=False, cut=False))
        row += u * pitch
    _constants(f, first, zone, pitch)
    bottom = first + u * (pitch * (zone.rows - 1) + 0.45 + gap * 0.2)
    with c.table():
        _strip(f, bottom, zone)
    return bottom + u * (1.98 + gap * 0.5)


def _neck(tabled: Tabled) -> Quantity:
    key, depth = tabled.key, tabled.depth_at_edge
    assert depth is not None
    assert key.diameter is not None
    return clear_neck(key.diameter, depth.most).printed(3, "down")


def above_edge(zone: Zone) -> Limits:
    """Return the key's height above the edge: the least and the most of the width's keys."""
    all_limits = []
    for tabled in zone.keys:
        assert tabled.depth_at_edge is not None
        all_limits.append(between(tabled.key.height, tabled.depth_at_edge, -1))
    least = min((one.least for one in all_limits), key=lambda q: q.value)
    most = max((one.most for one in all_limits), key=lambda q: q.value)
    return Limits(least, most)


def _constants(f: Frame, y: float, zone: Zone, pitch: float) -> None:
    u, c, col = f.unit, f.composer, _columns(f)
    any_key = zone.keys[0]
    lines: list[tuple[str, Limits]] = [
        ("seat width", any_key.seat_width),
        ("key above edge", above_edge(zone)),
        ("hub width", any_key.hub_width),
        ("hub depth", any_key.hub_rise),
    ]
    for n, (name, limits) in enumerate(lines):
        row = y + n * u * pitch
        c.say(col["name"], row, name, u * 0.62, role="TH", header="Row")
        shown = limits.printed(4)
        c.add(figure(col["least"], row, shown.least, f.second))
        c.add(figure(col["most"], row, shown.most, f.second))


def _strip(f: Frame, y: float, zone: Zone) -> None:
    u, c = f.unit, f.composer
    shafts = STRIPS[zone.width].split()
    left = f.left + u * 3.1
    room = (f.right - left) / 8
    height = u * 1.98
    c.shade(f.left, y, left + room * len(shafts), y + height)
    c.say(f.left + u * 0.2, y + u * 0.78, "shaft", u * 0.6, role="TH", header="Row")
    c.say(f.left + u * 0.2, y + u * 1.7, "+ add", u * 0.8, bold=True, role="TH", header="Row")
    wide = typed(read_fraction(zone.width), "in")
    for n, shaft in enumerate(shafts):
        x = left + room * (n + 1)
        c.upright(x - room, y, y + height, u * 0.03)
        right = x - u * 0.26
        c.say(
            right, y + u * 0.8, shaft, u * 0.74, bold=True, anchor="end", role="TH", header="Column"
        )
        arc = geometry.arc_height(read_fraction(shaft), wide.value)
        c.add(figure(right, y + u * 1.76, derive(arc, zone.keys[0].key.width).printed(4), f.second))


def _drawings(f: Frame, y: float, here: list[Zone]) -> None:
    """Draw a real key of the page: the seat, the key in its hub, and the cutter along the shaft."""
    u = f.unit
    pen = Pen(outline=u * 0.08, thin=u * 0.034, hatch=u * 0.024, arrow=u * 0.34, spacing=u * 0.25)
    tabled = drawn(here[-1].keys)
    shaft = read_fraction(STRIPS[here[-1].width].split()[0])
    view = View(f, tabled, shaft, pen, u * 0.64, y)
    wide = f.right - f.left
    view.seat(f.left + wide * 0.203)
    view.hub(f.left + wide * 0.575)
    view.side(f.right - u * 4.0)
    caption = f"No. {tabled.key.designation}, {fraction_text(shaft)} shaft, to scale"
    f.composer.say(f.right, y + u * (BAND - 0.6), caption, f.note, anchor="end")


SHEETS = (
    Sheet(
        "wall-inch-half-moon",
        "wall chart",
        "Half-moon keyseats, inch: how deep and how wide",
        ("Letter", "A4", "Tabloid", "A3", *across_room.PAPERS),
        pages,
        order=20,
    ),
)
