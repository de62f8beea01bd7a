"""What every page of the key gauge has: title, way of use, check bars, foot."""

from __future__ import annotations

from dataclasses import dataclass

from keyseats.frame import FIRST, Frame, foot, foot_height, wall_title
from keyseats.key_gauge.scale import INCH_BAR, bars, judged
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.setting import paragraph

# A bench is read from half a metre.
DISTANCE_M = 0.5
CAUTION = (
    "CAUTION",
    "Paper is for recognising; the micrometer decides. Measure the key's width and height before "
    "a seat is cut for it. A worn or filed key is no pattern. " + FIRST,
)


@dataclass(frozen=True)
class Said:
    """What a page says in words: title, sources, and how it is used."""

    title: str
    which: str
    sub: str
    sheet: str
    steps: tuple[str, ...]
    sources: tuple[str, str]
    family: str


@dataclass(frozen=True)
class Place:
    """Where a page's outlines stand, between the head and the foot. [pt]

    Down to ``clear`` the upright check bar stands at their right.
    """

    top: float
    bottom: float
    right: float
    clear: float


def start(f: Frame, said: Said) -> Place:
    """Set title, way of use and check bars; return the room for the outlines."""
    c, u = f.composer, f.unit
    y = wall_title(f, said.title, said.which, said.sub, said.sheet)
    size = u * 0.76
    corner = f.right - u * 1.95
    level = y + u * 1.75
    low = bars(f, corner, level)
    first = level + size * 1.75
    last = judged(f, corner - INCH_BAR, first, corner - u * 1.1, size)
    room = corner - INCH_BAR - f.left - u * 1.9
    at = y + u * 1.25
    for n, text in enumerate(said.steps, 1):
        c.say(f.left, at, str(n), size, bold=True)
        block, at = paragraph(f.left + u * 0.95, at, text, size, room - u * 0.95)
        c.add(block)
        last = max(last, at)
        at += size * 1.62
    bottom = f.bottom - foot_height(f, _columns(said), f.note)
    return Place(last + u * 0.75, bottom, corner - u * 1.1, low + size * 2.5)


def rule(f: Frame, place: Place, y: float) -> None:
    """Rule between two rows: up to the check bar, and under it across the page."""
    f.composer.rule(f.left, f.right if y > place.clear else place.right, y, f.unit * 0.03)


def finish(f: Frame, tables: Tables, said: Said, slug: str, bookmark: str) -> Page:
    """Set the foot and return the page."""
    foot(f, _columns(said), tables.edition, f"Key gauge, {said.family}")
    return f.page(slug, bookmark)


def _columns(said: Said) -> list[tuple[str, str]]:
    return [CAUTION, said.sources]
