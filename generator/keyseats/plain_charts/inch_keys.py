"""Last sheet of the inch plain-key chart: which key, square and rectangular, for every shaft."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from keyseats.families import inch_plain
from keyseats.families.inch_plain import fraction_text
from keyseats.frame import DISTANCE, Frame, foot, foot_height, thick_and_thin, wall_title
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.plain_charts.head import across
from keyseats.plain_charts.inch_said import ByKey, Said, each_key, exceptions, note, two_widths
from keyseats.records import Figure, InchPlainKey
from keyseats.seat import Work
from keyseats.setting import DAGGER, figure, set_width
from keyseats.shared_tolerance import signed
from keyseats.standing import Bench, derive

# The last shaft range: beyond it all figures are recalled.
LAST_RANGE = Fraction(11)
# Rows between two rules; from row to row and more white about a rule, at most. [figure sizes]
GROUP, MOST_PITCH, MOST_WHITE = 4, 1.9, 1.2
# Said in place of what is not one for all keys.
BELOW = "see foot"
# What the ids of the limits of a seat's width end in.
SEAT_WIDTH = ("/seat_width_minus", "/seat_width_plus")


def ranges(tables: Tables) -> list[InchPlainKey]:
    """Return the ranges of shafts of the last sheet."""
    return [r for r in inch_plain.rows(tables) if r.shaft_to.value <= LAST_RANGE]


def every_key(
    tables: Tables, paper: str, total: int, says: Said, notes: list[tuple[str, str]]
) -> Page:
    """Set the last sheet: square and rectangular key of every shaft range.

    Parameters
    ----------
    tables, paper
        The tables and the paper.
    total
        The sheet's number, which is how many there are.
    says
        What the rules at its head say.
    notes
        The foot's columns.
    """
    f = Frame(paper, DISTANCE[paper])
    u, c = f.unit, f.composer
    rows = ranges(tables)
    keys = each_key(tables, rows)
    differ = exceptions(keys)
    twice = {key.row.width.value: differ["width"].rows for key in two_widths(keys)}
    notes = [*notes, *note(differ)]
    which = f"all shafts to {fraction_text(LAST_RANGE)} in"
    y = wall_title(
        f,
        "Plain keyseats",
        which,
        "Which key, how deep at the edge: ASME B17.1. Inches."
        if f.narrow
        else "Which key, how deep at the edge: plain (parallel), ASME B17.1, class 1. Inches.",
        f"sheet {total} of {total}",
    )
    y = _heads(f, y if f.narrow else _rules(f, says, differ, y), rows)
    foot_top = f.bottom - foot_height(f, notes, f.note)
    room = (foot_top - y) / u - 0.5
    pitch = min(MOST_PITCH, room / len(rows))
    breaks = (len(rows) - 1) // GROUP
    white = min(MOST_WHITE, (room - pitch * len(rows)) / breaks)
    y += u * (0.62 + pitch / 2)
    for n, row in enumerate(rows):
        _row(f, tables, y, row, twice.get(row.width.value, ()))
        if n % GROUP == GROUP - 1 and n + 1 < len(rows):
            c.rule(f.left, f.right, y + u * ((pitch + white) / 2 - 0.36), u * 0.03)
            y += u * white
        y += u * pitch
    foot(f, notes, tables.edition, "Inch plain")
    slug, at = (f"plain-inch-2m-{total}", ", at 2 m") if f.narrow else (f"plain-inch-{total}", "")
    return f.page(slug, f"Plain keyseats, inch, {which}{at}")


def _rules(f: Frame, said: Said, differ: dict[str, ByKey], y: float) -> float:
    u, c = f.unit, f.composer
    clearance = said.clearance
    hub = f"+ {float(clearance.value):.3f}, {said.hub}"
    lines = (
        ("edge", "depth from crown", "depth at edge + arc height, ", said.edge),
        ("floor", "floor to opposite side", "shaft − depth from crown, ", said.floor),
        ("hub", "hub: floor to opposite side", "bore − arc height + depth at edge ", hub),
        ("", "arc height", "R − √(R² − (W/2)²): R is half the shaft, W the key width", ""),
    )
    y += u * 0.1
    for column, name, rule, tolerance in lines:
        y += u * 0.98
        c.say(f.left, y, name, u * 0.64, bold=True)
        rows = clearance.rows if column == "hub" else ()
        if column in differ:
            rows, tolerance = differ[column].rows, f"{'+ ' if column == 'hub' else ''}{BELOW}"
        c.say(f.left + u * 10.8, y, "=  " + rule + tolerance, u * 0.64, rows=rows)
    return y + u * 0.6


def _columns(f: Frame) -> dict[str, float]:
    """Return the right edges of the columns; a narrow page leaves out what follows from others."""
    if f.narrow:
        wide = f.right - f.left
        return {
            "over": f.left + wide * 0.105,
            "to": f.left + wide * 0.24,
            "width": f.left + wide * 0.39,
            "square edge": f.left + wide * 0.605,
            "rectangular": f.left + wide * 0.78,
            "rectangular edge": f.left + wide * 0.99,
        }
    return {
        "over": across(f, 2.7),
        "to": across(f, 6.5),
        "width": across(f, 10.4),
        "square": across(f, 13.7),
        "square edge": across(f, 18.1),
        "rectangular": across(f, 21.8),
        "rectangular edge": across(f, 26.2),
        "plus": across(f, 31.55),
    }


def _heads(f: Frame, y: float, rows: list[InchPlainKey]) -> float:
    u, c, col = f.unit, f.composer, _columns(f)
    thick_and_thin(f, y)
    size, step = u * 0.6, u * 0.74
    turn = fraction_text(max(r.shaft_to.value for r in rows if r.preferred == "square"))
    heads = {
        "over": ("", "", "shaft", "over"),
        "to": ("", "", "", "to"),
        "width": ("", "", "key", "width"),
        "square": ("", "", "", "height"),
        "square edge": ("square key", f"preferred to {turn}", "depth", "at edge"),
        "rectangular": ("", "", "", "height"),
        "rectangular edge": ("rectangular key", f"preferred over {turn}", "depth", "at edge"),
        "plus": ("", "seat and", "hub width:", "key width"),
    }

    def say(name: str, first: int, last: int, role: str = "TH") -> None:
        header = "Column" if role == "TH" else ""
        for n, text in enumerate(heads[name]):
            if text and first <= n < last and name in col:
                at = y + u * 0.95 + n * step + (u * 0.2 if n > 1 or name == "plus" else 0.0)
                bold = text in ("depth", "at edge")
                c.say(col[name], at, text, size, bold=bold, anchor="end", role=role, header=header)

    for name in ("over", "to", "width"):
        say(name, 0, 4)
    for name in ("square", "rectangular"):
        right = col[f"{name} edge"]
        with c.over():
            say(f"{name} edge", 0, 2, "P")
            say(name, 2, 4)
            say(f"{name} edge", 2, 4)
            wide = [set_width(text, size) for text in heads[f"{name} edge"][:2]]
            left = right - max(u * (7.4 if name in col else 5.0), *wide)
            c.rule(left, right, y + u * 1.96, u * 0.03)
    say("plus", 0, 4)
    y += u * 3.62
    c.rule(f.left, f.right, y, u * 0.03)
    return y


def _row(f: Frame, tables: Tables, y: float, row: InchPlainKey, foot: tuple[str, ...]) -> None:
    """Set one range; ``foot`` is behind its widths if they stand in the foot."""
    u, c, col = f.unit, f.composer, _columns(f)
    bench = Bench(tables)

    def fraction(name: str, size_of: Figure, size: float, *, bold: bool = False) -> None:
        shown = replace(bench.quantity(size_of), text=fraction_text(size_of.value))
        c.add(figure(col[name], y, shown, size, bold=bold, role="TH" if bold else "TD"))

    fraction("over", row.shaft_over, f.second)
    fraction("to", row.shaft_to, u, bold=True)
    fraction("width", row.width, u, bold=True)
    for section, height in (
        ("square", row.height_square),
        ("rectangular", row.height_rectangular),
    ):
        tabled = inch_plain.one(tables, row, section, Work("in", row.shaft_to.value))
        if height is None or tabled is None or tabled.depth_at_edge is None:
            for blank in (section, f"{section} edge"):
                if blank in col:
                    c.say(col[blank], y, "–", f.second, anchor="end", role="TD")
            continue
        if section in col:
            fraction(section, height, f.second)
        c.add(figure(col[f"{section} edge"], y, tabled.depth_at_edge.least.printed(4, "up"), u))
    if "plus" in col:
        _width(f, tables, y, row, foot)


def _width(f: Frame, tables: Tables, y: float, row: InchPlainKey, foot: tuple[str, ...]) -> None:
    """Set what seat and hub are over and under the key's width."""
    tabled = inch_plain.one(tables, row, row.preferred, Work("in", row.shaft_to.value))
    if tabled is None:
        return
    if foot:
        f.composer.say(_columns(f)["plus"], y, BELOW, f.second, anchor="end", role="TD", rows=foot)
        return
    limits, width = tabled.seat_width, tabled.key.width
    ends = [limits.most] if limits.least.value == width.value else [limits.most, limits.least]
    rows = tuple(row for end in ends for row in end.rows if row.endswith(SEAT_WIDTH))
    shown = replace(derive(limits.most.value, *ends), rows=rows)
    shown = replace(shown, text=signed(limits, width, 3).replace(DAGGER, ""))
    f.composer.add(figure(_columns(f)["plus"], y, shown, f.second))
