"""Graphs for the wall, for where one would rather look than read."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from keyseats.frame import DISTANCE, FIRST, RECALLED, Frame, foot, foot_height, wall_title
from keyseats.graphs.arc_height import arc_height
from keyseats.graphs.slip import CASES, found, recalled, slips
from keyseats.graphs.slip_figures import slip
from keyseats.lengths import article
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.setting import DAGGER
from keyseats.sheets import Sheet

NAMES = {"in": "inch", "mm": "metric"}
SAYS = {"in": "All in inches", "mm": "All in millimetres"}
SHEETS_EACH = 3
CAUTION = {
    "": "Stop the spindle before you measure. ",
    "plain": "A hub that drives on too little key can let go. ",
    "half-moon": "A hub that drives on too little key can let go. ",
}
GEOMETRY = "Geometry; height of arc in US Navy, Machinery Repairman, ch. 7. "
SOURCES = {
    ("in", ""): GEOMETRY
    + "Shafts: ASME B17.1, and Shigley, 9th ed., table 7-8, for half-moon keys.",
    ("mm", ""): GEOMETRY + "Shafts: ISO/R 773, and both series of ISO 3912.",
    ("in", "plain"): "Limits, key and hub: ASME B17.1. The rest is geometry. Which key and shaft: "
    "our choice.",
    ("in", "half-moon"): "Depth, key and hub: ASME B17.2. The rest is geometry. Which key and "
    "shaft: our choice.",
    ("mm", "plain"): "Limits, key and hub: ISO/R 773 family. The rest is geometry. Which key and "
    "shaft: our choice.",
    ("mm", "half-moon"): "Depth, key and hub: ISO 3912 family. The rest is geometry. Which key "
    "and shaft: our choice.",
}


def pages(tables: Tables, paper: str, unit: str) -> Iterator[Page]:
    """Yield the chart's pages for one paper."""
    for n, kind in enumerate(("", "plain", "half-moon"), 1):
        f = Frame(paper, DISTANCE[paper])
        said = [("CAUTION", CAUTION[kind] + FIRST), ("Sources.", SOURCES[unit, kind])]
        daggers = recalled(slips(tables, unit, kind)) if kind else unit == "mm"
        if daggers:
            said.insert(1, (DAGGER, RECALLED))
        title, which, sub = _title(tables, unit, kind)
        y = wall_title(f, title, which, f"{sub} {SAYS[unit]}.", f"sheet {n} of {SHEETS_EACH}")
        bottom = f.bottom - foot_height(f, said, f.note)
        if kind:
            slip(f, tables, unit, kind, y, bottom)
        else:
            arc_height(f, tables, unit, y, bottom)
        foot(f, said, tables.edition, f"Graphs, {NAMES[unit]}")
        yield f.page(
            f"graphs-{NAMES[unit]}-{n}", f"Graphs, {NAMES[unit]}: {title.lower()}, {which}"
        )


def _title(tables: Tables, unit: str, kind: str) -> tuple[str, str, str]:
    if not kind:
        return "Arc height", "by shaft and width", "From the crown down to the seat's edge."
    key = found(tables, unit, kind).key.in_print
    number = "No. " if unit == "in" and kind == "half-moon" else ""
    shaft = article(CASES[unit, kind].shaft)
    sub = f"What the depth fed does to the key: {number}{key} in {shaft} {unit} shaft."
    return "A slip in depth", f"{kind} key", sub


_PAPERS = ("Letter", "A4", "Tabloid", "A3")
SHEETS = (
    Sheet(
        "wall-graphs-inch",
        "graphs",
        "Graphs, inch: arc height by shaft and width, and what a slip in depth does to the key",
        _PAPERS,
        partial(pages, unit="in"),
        order=52,
    ),
    Sheet(
        "wall-graphs-metric",
        "graphs",
        "Graphs, metric: arc height by shaft and width, and what a slip in depth does to the key",
        ("A4", "Letter", "A3", "Tabloid"),
        partial(pages, unit="mm"),
        order=53,
    ),
)
