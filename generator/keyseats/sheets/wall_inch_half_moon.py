"""Wall chart: inch half-moon keyseats, one zone a key width."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from keyseats import across_room, geometry
from keyseats.across_room import inch_half_moon as far
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
from keyseats.half_moon_charts.inch_widths import (
    IN_LINE,
    STRIPS,
    OneWidth,
    at_edge,
    by_width,
    drawn,
    named,
    over,
    strip,
)
from keyseats.lengths import read_fraction
from keyseats.load import Tables
from keyseats.page import Block, Page
from keyseats.plain_charts.head import MEASURE, pen
from keyseats.seat import Tabled, clear_neck
from keyseats.setting import DAGGER, figure, set_width, words
from keyseats.sheets import Sheet
from keyseats.standing import Quantity, derive, typed
from keyseats.sum_line import HEIGHT as SUM_HEIGHT
from keyseats.sum_line import sum_line
from keyseats.views import View

# The height of the title. [figure sizes]
TITLE = 2.6
# From row to row: at least, at most, and where a sheet has one width alone. The white round a zone:
# at least, before its rows open, and at most. A line of the strip, and the white between two. The
# drawings, and the heads. [figure sizes]
PITCH, MOST_PITCH, ALONE = 1.22, 1.75, 2.0
GAP, ROOMY, MOST_GAP = 0.5, 0.9, 2.4
STRIP, BETWEEN = 1.9, 0.16
BAND, HEADS = 6.42, 2.0
# The part of what room is left that opens the rows; the rest is white between the zones.
SHARE = 0.5
# Between the key and the hub's floor, for they would be one line at true size. [outlines]
CLEAR = 3.0
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
        "a textbook, table 11-3. A training manual runs 0.005 deeper.",
    ),
    (
        "Also:",
        "metric charts say key above crown, not edge. The sum may differ by 0.0001. Neck clears by "
        "0.010 on diameter.",
    ),
]


SUM = [
    ("depth at edge", "from the table"),
    ("+", ""),
    ("arc height for your shaft", "strip below; or Setting up, sheet 3"),
    ("=", ""),
    ("depth from crown", "feed this after the touch"),
]


@dataclass(frozen=True)
class Zone(OneWidth):
    """All keys of one width, over the strip of their arc heights."""

    @property
    def rows(self) -> int:
        """Return the lines that the zone needs: its keys, or what they share."""
        return max(len(self.keys), len(self.constants()))

    def height(self, pitch: float = PITCH, lines: int = 1, gap: float = GAP) -> float:
        """Return the zone's height with the white round it. [figure sizes]"""
        lines = min(lines, len(STRIPS[self.width]))
        tall = lines * (STRIP + BETWEEN) - BETWEEN
        return 0.95 + pitch * (self.rows - 1) + 0.5 + tall + gap


@dataclass(frozen=True)
class Fill:
    """How a sheet's zones fill it: from row to row, lines of each zone's strip, white between."""

    pitch: float
    lines: tuple[int, ...]
    gap: float


def tall(here: list[Zone], fill: Fill) -> float:
    """Return the height of a sheet's zones with the white round them. [figure sizes]"""
    pairs = zip(here, fill.lines, strict=True)
    return sum(zone.height(fill.pitch, lines, fill.gap) for zone, lines in pairs)


def filled(here: list[Zone], room: float) -> Fill:
    """Return how a sheet is filled.

    What room its zones leave, with rows and white at their least, goes to more shafts in the
    strips; what then is left to the white round the zones and to the rows.

    Parameters
    ----------
    here
        The zones of the sheet.
    room
        What they may take. [figure sizes]
    """
    fill = Fill(PITCH, (1,) * len(here), GAP)
    while more := _more(here, fill, room):
        fill = more
    spare = max(0.0, room - tall(here, Fill(PITCH, fill.lines, ROOMY)))
    alone = len(here) == 1
    opened = (1.0 if alone else SHARE) * spare / sum(z.rows - 1 for z in here)
    pitch = min(ALONE if alone else MOST_PITCH, PITCH + opened)
    bare = tall(here, Fill(pitch, fill.lines, 0.0))
    return Fill(pitch, fill.lines, min(MOST_GAP, (room - bare) / len(here)))


def _more(here: list[Zone], fill: Fill, room: float) -> Fill | None:
    """Return a fill with one line more in a strip, or None if there is no room for one.

    The shortest strip has it first, and of those alike that of the most keys.
    """
    order = sorted(range(len(here)), key=lambda n: (fill.lines[n], -len(here[n].keys)))
    for n in order:
        lines = tuple(line + (k == n) for k, line in enumerate(fill.lines))
        more = Fill(fill.pitch, lines, GAP)
        if lines[n] <= len(STRIPS[here[n].width]) and tall(here, more) <= room:
            return more
    return None


def pages(tables: Tables, paper: str) -> Iterator[Page]:
    """Yield the chart's pages for one paper."""
    if paper in across_room.PAPERS:
        yield from far.pages(tables, paper)
        return
    rest = [Zone(w.width, w.keys) for w in by_width(tables)]
    trial = Frame(paper, DISTANCE[paper])
    furniture = trial.unit * (TITLE + BAND + SUM_HEIGHT + HEADS)
    room = trial.bottom - trial.top - furniture - foot_height(trial, FOOT, trial.note)
    room /= trial.unit
    sheets = []
    for count in split([z.height() for z in rest], room):
        sheets.append(rest[:count])
        rest = rest[count:]
    for n, here in enumerate(sheets, 1):
        yield _page(tables, paper, here, filled(here, room), f"sheet {n} of {len(sheets)}")


def _page(tables: Tables, paper: str, here: list[Zone], fill: Fill, which_sheet: str) -> Page:
    f = Frame(paper, DISTANCE[paper])
    u = f.unit
    which = named(here)
    y = wall_title(
        f,
        "Half-moon keyseats",
        which,
        "Woodruff keys, ASME B17.2. How deep and how wide to cut the shaft. All in inches.",
        which_sheet,
    )
    _drawings(f, y + u * 0.25, here)
    y = sum_line(f, y + u * BAND, SUM)
    with f.composer.table():
        y = _heads(f, y, here)
        for n, (zone, lines) in enumerate(zip(here, fill.lines, strict=True)):
            if n:
                f.composer.rule(f.left, f.right, y, u * 0.09)
            y = _zone(f, y, zone, fill, lines)
    foot(f, FOOT, tables.edition, "Inch half-moon")
    number = which_sheet.split()[1]
    return f.page(f"half-moon-{number}", f"Half-moon keyseats, inch, {which}")


def _columns(f: Frame) -> dict[str, float]:
    """Return the right edges of the columns; what a wider paper has more goes between them.

    ``block`` is the rule between what each key has of its own and what all of a width have.
    """
    u = f.unit
    more = (f.right - f.left) / u - MEASURE
    most = f.right - u * 0.4
    least = most - u * 3.8
    neck = f.left + u * (17.65 + 0.45 * more)
    name = least - u * 3.5
    return {
        "key": f.left + u * (6.25 + 0.1 * more),
        "dia": f.left + u * (9.65 + 0.2 * more),
        "depth": f.left + u * (14.2 + 0.35 * more),
        "neck": neck,
        "block": (neck + name - set_width("key above edge", f.note)) / 2,
        "name": name,
        "least": least,
        "most": most,
    }


def _heads(f: Frame, y: float, here: list[Zone]) -> float:
    u, c, col = f.unit, f.composer, _columns(f)
    thick_and_thin(f, y)
    size = u * 0.6
    depths = [one.printed(4) for one in (at_edge(tabled) for z in here for tabled in z.keys)]
    plus = over(depths)
    mark = DAGGER if plus.recalled else ""

    def head(
        x: float,
        lines: list[str],
        anchor: str = "end",
        *,
        bold: bool = False,
        rows: tuple[str, ...] = (),
    ) -> None:
        for n, line in enumerate(lines, 2 - len(lines)):
            level = y + u * (0.95 + 0.74 * n)
            c.say(
                x,
                level,
                line,
                size,
                bold=bold and not n,
                anchor=anchor,
                role="TH",
                header="Column",
                rows=rows,
            )

    head(f.left, ["key", "width"], "start")
    head(col["key"], ["key", "number"])
    head(col["dia"], ["dia."])
    head(col["depth"], ["depth at edge", f"+{plus.text}{mark}  −0"], bold=True, rows=plus.rows)
    head(col["neck"], ["largest", f"neck{DAGGER}"])
    but = ", or as named" if any(zone.parted for zone in here) else ""
    head(col["most"], [f"for every key of this width{but}", "most"])
    head(col["least"], ["least"])
    y += u * HEADS
    c.rule(f.left, f.right, y, u * 0.03)
    return y


def _zone(f: Frame, y: float, zone: Zone, fill: Fill, lines: int) -> float:
    u, c, col = f.unit, f.composer, _columns(f)
    first = row = y + u * (0.95 + fill.gap * 0.5)
    c.say(f.left, row, zone.width, u * 1.18, bold=True, role="TH", header="Row")
    for tabled in zone.keys:
        _key(f, row, tabled)
        row += u * fill.pitch
    last = first + u * fill.pitch * (zone.rows - 1)
    c.upright(col["block"], first - u * 0.75, last + u * 0.05, u * 0.03)
    _constants(f, first, zone, fill.pitch)
    y = last + u * (0.5 + fill.gap * 0.12)
    for shafts in strip(zone.width, lines):
        with c.table():
            _strip(f, y, zone, shafts)
        y += u * (STRIP + BETWEEN)
    return y + u * (fill.gap * 0.38 - BETWEEN)


def _key(f: Frame, row: float, tabled: Tabled) -> None:
    """Set one key's row; the half of a number hangs, so that whole numbers stand in line."""
    u, c, col = f.unit, f.composer, _columns(f)
    key = tabled.key
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
    c.add(figure(col["depth"], row, at_edge(tabled).least.printed(4), u))
    c.add(figure(col["neck"], row, _neck(tabled), f.second, dagger=False, cut=False))


def _neck(tabled: Tabled) -> Quantity:
    assert tabled.key.diameter is not None
    return clear_neck(tabled.key.diameter, at_edge(tabled).most).printed(3, "down")


def _constants(f: Frame, y: float, zone: Zone, pitch: float) -> None:
    u, c, col = f.unit, f.composer, _columns(f)
    for n, (name, limits) in enumerate(zone.constants()):
        row = y + n * u * pitch
        c.say(col["name"], row, name, f.note, anchor="end", role="TH", header="Row")
        shown = limits.printed(4)
        c.add(figure(col["least"], row, shown.least, f.second))
        c.add(figure(col["most"], row, shown.most, f.second))


def _strip(f: Frame, y: float, zone: Zone, shafts: list[str]) -> None:
    """Set one line of a width's arc heights, shaft over height."""
    u, c = f.unit, f.composer
    left = f.left + u * 3.1
    room = (f.right - left) / IN_LINE
    height = u * STRIP
    c.shade(f.left, y, left + room * len(shafts), y + height)
    c.say(f.left + u * 0.2, y + u * 0.76, "shaft", u * 0.6, role="TH", header="Row")
    c.say(f.left + u * 0.2, y + u * 1.66, "+ add", u * 0.8, bold=True, role="TH", header="Row")
    wide = typed(read_fraction(zone.width), "in")
    for n, shaft in enumerate(shafts):
        x = left + room * (n + 1)
        c.upright(x - room, y, y + height, u * 0.03)
        right, top = x - u * 0.26, y + u * 0.76
        name = words(right, top, shaft, u * 0.74, bold=True, anchor="end")
        c.add(Block("TH", (name,), header="Column"))
        arc = geometry.arc_height(read_fraction(shaft), wide.value)
        c.add(figure(right, y + u * 1.66, derive(arc, zone.keys[0].key.width).printed(4), f.second))


def _drawings(f: Frame, y: float, here: list[Zone]) -> None:
    """Draw a real key of the page: the seat, the key in its hub, and the cutter along the shaft."""
    u = f.unit
    lines = pen(f)
    tabled = drawn(tuple(one for zone in here for one in zone.keys))
    width = next(zone.width for zone in here if tabled in zone.keys)
    shaft = read_fraction(strip(width, 1)[0][0])
    view = View(f, tabled, shaft, lines, u * 0.64, y)
    wide = f.right - f.left
    view.seat(f.left + wide * 0.203)
    middle = f.left + wide * 0.575
    view.hub(middle, lines.outline * CLEAR)
    view.side(f.right - u * 4.0)
    said = (f"No. {tabled.key.designation}", f"in {fraction_text(shaft)},", "gap widened")
    for n, line in enumerate(said):
        f.composer.say(middle + u * 2.55, y + u * (4.3 + 0.72 * n), line, f.note)


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
