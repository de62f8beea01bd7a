"""Last sheet of the inch plain-key chart: which key, square and rectangular, for every shaft."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from keyseats.families import inch_plain
from keyseats.families.inch_plain import fraction_text
from keyseats.frame import DISTANCE, Frame, foot, foot_height, thick_and_thin, wall_title
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.plain_charts.head import across
from keyseats.plain_charts.inch_zones import KeyZone, tolerances
from keyseats.records import Figure, InchPlainKey
from keyseats.seat import Work
from keyseats.setting import figure
from keyseats.shared_tolerance import signed
from keyseats.standing import Bench, Quantity, add

# The last shaft range: beyond it all figures are recalled.
LAST_RANGE = Fraction(11)


@dataclass(frozen=True)
class Said:
    """Tolerances as the chart's heads print them, and the hub's clearance over the key.

    ``edge`` is the tolerance of the depth at the edge, which the depth from the crown has too where
    both are reckoned exactly.
    """

    edge: str
    depth: str
    floor: str
    hub: str
    clearance: Quantity


def said(zones: Sequence[KeyZone]) -> Said:
    """Return what the heads of the charts say of some keys.

    Raises
    ------
    TableError
        If they do not share their tolerances.
    """
    tabled = zones[0].tabled
    edge = tabled.depth_at_edge
    assert edge is not None
    plus = signed(edge, edge.least, 3)
    return Said(plus, *tolerances(zones), add(tabled.hub_rise.least, edge.least, -1))


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
    rows = [r for r in inch_plain.rows(tables) if r.shaft_to.value <= LAST_RANGE]
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
    y = _heads(f, y if f.narrow else _rules(f, says, y), rows)
    foot_top = f.bottom - foot_height(f, notes, f.note)
    pitch = min(1.9, ((foot_top - y) / u - 0.5) / len(rows))
    y += u * (0.62 + pitch / 2)
    for n, row in enumerate(rows):
        _row(f, tables, y, row)
        if n % 4 == 3 and n + 1 < len(rows):
            c.rule(f.left, f.right, y + u * (pitch / 2 - 0.36), u * 0.03)
        y += u * pitch
    foot(f, notes, tables.edition, "Inch plain")
    slug, at = (f"plain-inch-2m-{total}", ", at 2 m") if f.narrow else (f"plain-inch-{total}", "")
    return f.page(slug, f"Plain keyseats, inch, {which}{at}")


def _rules(f: Frame, said: Said, y: float) -> float:
    u, c = f.unit, f.composer
    clearance = said.clearance
    lines = (
        ("depth from crown", f"depth at edge + arc height, {said.edge}"),
        ("floor to opposite side", f"shaft − depth from crown, {said.floor}"),
        (
            "hub: floor to opposite side",
            f"bore − arc height + depth at edge + {float(clearance.value):.3f}, {said.hub}",
        ),
        ("arc height", "R − √(R² − (W/2)²): R is half the shaft, W the key width"),
    )
    y += u * 0.1
    for n, (name, rule) in enumerate(lines):
        y += u * 0.98
        c.say(f.left, y, name, u * 0.64, bold=True)
        rows = clearance.rows if n == 2 else ()
        c.say(f.left + u * 10.8, y, "=  " + rule, u * 0.64, rows=rows)
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
                at = y + u * 0.95 + n * step + (u * 0.2 if n > 1 else 0.0)
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
            left = right - u * (7.4 if name in col else 5.0)
            c.rule(left, right, y + u * 1.96, u * 0.03)
    say("plus", 0, 4)
    y += u * 3.62
    c.rule(f.left, f.right, y, u * 0.03)
    return y


def _row(f: Frame, tables: Tables, y: float, row: InchPlainKey) -> None:
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
    fit = inch_plain.fit_row(tables, "class 1", row.preferred, row.width.value)
    if fit is not None and "plus" in col:
        shown = bench.quantity(fit.seat_width_plus).printed(3)
        c.add(figure(col["plus"], y, replace(shown, text=f"+{shown.text} −0"), f.second))
