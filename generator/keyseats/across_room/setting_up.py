"""Setting up for across the room: the order of the work, and the centring travel."""

from __future__ import annotations

from collections.abc import Iterator

from keyseats.across_room.composing import stacked_sum
from keyseats.frame import DISTANCE, FIRST, Frame, foot, foot_height, wall_title
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.setting_up.drawings import TOUCH_HEIGHT, touch
from keyseats.setting_up.grids import Grids, travel
from keyseats.setting_up.order import order_of_work
from keyseats.setting_up.system import System
from keyseats.setting_up.words import PLAIN_KEYS, PRACTICE, steps

# The first steps are for the machine, the others are at the cut.
BEFORE = 6
SHEETS = 4
EYES = ("CAUTION", f"Stop the spindle before you measure. Eye protection on. {FIRST}")
REST = "Arc height, dial, errors: smaller chart, sheets 3–5."
ORDER = [
    EYES,
    ("Sources.", f"US Army TC 9-524, ch. 8, for centring. The rest: {PRACTICE}. {REST}"),
]


def _centring_foot(system: System) -> list[tuple[str, str]]:
    return [
        EYES,
        (
            "A bare touch",
            "has no paper. A disc touches with its free face, its rim past the widest point; an "
            "end mill with its rim. Framed: cutter of the shaft's plain key; a rule where that key "
            "changes. Blank: cutter too wide. Sources: US Army TC 9-524, ch. 8; keys "
            f"{PLAIN_KEYS[system.unit]}. {REST}",
        ),
    ]


def pages(tables: Tables, paper: str, system: System) -> Iterator[Page]:
    """Yield the chart's pages for one paper."""
    said = steps(system, f"sheets {BEFORE // 2} and {SHEETS}")
    for n, (which, here, start) in enumerate(
        (("before the cut", said[:BEFORE], 1), ("the cut", said[BEFORE:], BEFORE + 1)), 1
    ):
        f = Frame(paper, DISTANCE[paper])
        sub = f"Order of work, plain and half-moon. {system.says}."
        y = wall_title(f, "Setting up", which, sub, f"sheet {n} of {SHEETS}")
        order_of_work(f, here, start, y, f.bottom - foot_height(f, ORDER, f.note))
        yield _finished(f, tables, system, n, which)
    for n, group in enumerate(system.groups, SHEETS - 1):
        f = Frame(paper, DISTANCE[paper])
        which = "centring travel"
        sub = f"From the side to the centreline. {system.says}."
        y = wall_title(f, "Setting up", which, sub, f"sheet {n} of {SHEETS}")
        _centring(
            f,
            tables,
            system,
            n - SHEETS + 1,
            y,
            f.bottom - foot_height(f, _centring_foot(system), f.note),
        )
        shafts = group.shafts(full=True)
        span = f"shafts {system.size(shafts[0])} to {system.size(shafts[-1])}"
        yield _finished(f, tables, system, n, f"{which}, {span}")


def _finished(f: Frame, tables: Tables, system: System, number: int, which: str) -> Page:
    columns = ORDER if number < SHEETS - 1 else _centring_foot(system)
    foot(f, columns, tables.edition, f"Setting up, {system.name}")
    slug = f"setting-up-{system.name}-2m-{number}"
    return f.page(slug, f"Setting up, {system.name}: {which}, at 2 m")


def _centring(
    f: Frame, tables: Tables, system: System, group: int, y: float, bottom: float
) -> None:
    u = f.unit
    top = y + u * 0.5
    touch(f, f.left + u * 6.2, top, u * 0.64, end_mill=False)
    parts = [
        ("", "½ shaft", "as measured"),
        ("+", "½ cutter", "width, or end mill diameter"),
        ("+", "paper or feeler", "none in a bare touch"),
        ("=", "travel", "clear, go on the same way, lock"),
    ]
    stacked_sum(f, f.left + u * 11.6, y + u * 0.15, parts, 1.8)
    head = "cutter width, or end mill diameter"
    only = (system.groups[group],)
    grids = Grids(f, tables, system, travel, head, only, framed=True, closed=False)
    grids.set(y + u * (TOUCH_HEIGHT + 0.6), bottom - u * 0.4)
