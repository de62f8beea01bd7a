"""What every sheet has in common: paper, type sizes from the distance, title and foot."""

from __future__ import annotations

from dataclasses import dataclass, field

from keyseats.load import Edition
from keyseats.page import MM, PAPERS, Block, Page, Text
from keyseats.setting import LEADING, Composer, caution_sign, paragraph, set_width, words
from keyseats.typeface import fitted, size_for, width

MARGIN = 10 * MM
FOOT = 12 * MM
PRINTER = 0.94
TARGET, FLOOR, NOTE = 20.0, 16.0, 12.0
DISTANCE = {"Letter": 0.75, "A4": 0.75, "Tabloid": 1.0, "A3": 1.0}
RECALLED = (
    "recalled, not read, or computed from such a figure. Check it against your own copy of the "
    "standard before cutting."
)
FIRST = (
    "The drawing, local rules and a qualified engineer come first where a failure can hurt someone."
)


@dataclass
class Frame:
    """A page being composed: its paper, its measure, and its type sizes."""

    paper: str
    distance_m: float
    composer: Composer = field(default_factory=Composer)

    @property
    def width(self) -> float:
        """Return the paper's width. [pt]"""
        return PAPERS[self.paper][0]

    @property
    def height(self) -> float:
        """Return the paper's height. [pt]"""
        return PAPERS[self.paper][1]

    @property
    def left(self) -> float:
        """Return the left margin. [pt]"""
        return MARGIN

    @property
    def right(self) -> float:
        """Return the right margin. [pt]"""
        return self.width - MARGIN

    @property
    def top(self) -> float:
        """Return the top margin. [pt]"""
        return MARGIN

    @property
    def bottom(self) -> float:
        """Return the level above which everything stands. [pt]"""
        return self.height - FOOT

    @property
    def unit(self) -> float:
        """Return the size of the figures that are cut to, for the distance. [pt]"""
        return size_for(self.distance_m, TARGET)

    @property
    def second(self) -> float:
        """Return the size that still meets the floor after the printer's shrink. [pt]"""
        return size_for(self.distance_m, FLOOR / PRINTER)

    @property
    def note(self) -> float:
        """Return the size of notes, which nothing is machined to. [pt]"""
        return size_for(self.distance_m, NOTE)

    def page(self, slug: str, title: str) -> Page:
        """Return the finished page."""
        return Page(
            slug,
            title,
            self.paper,
            tuple(self.composer.blocks),
            self.distance_m,
            self.width,
            self.height,
        )


def wall_title(f: Frame, title: str, which: str, sub: str, right: str) -> float:
    """Set a wall chart's title; return the level under it."""
    c, u = f.composer, f.unit
    y = f.top + u * 1.15
    size = u * 1.55
    while set_width(title, size, True) + set_width(which, size * 0.8, True) > f.right - f.left - u:
        size *= 0.97
    c.say(f.left, y, title, size, bold=True, role="H1")
    c.say(f.right, y, which, size * 0.8, bold=True, anchor="end", role="P")
    y += u * 1.0
    c.say(f.left, y, sub, u * 0.64)
    c.say(f.right, y, right, u * 0.64, anchor="end")
    y += u * 0.42
    thick_and_thin(f, y)
    return y


def thick_and_thin(f: Frame, y: float, *, turned: bool = False) -> None:
    """Rule the page thick over thin, or thin over thick."""
    heavy, hair, gap = f.unit * 0.11, f.unit * 0.03, f.unit * 0.12
    first, second = (hair, heavy) if turned else (heavy, hair)
    f.composer.rule(f.left, f.right, y, first)
    f.composer.rule(f.left, f.right, y + gap, second)


def foot_height(f: Frame, columns: list[tuple[str, str]], size: float) -> float:
    """Return the height that the foot's columns need. [pt]"""
    rooms = _column_rooms(f, columns)
    last = max(
        paragraph(0, 0, text, size, room - (size * 1.45 if lead == "CAUTION" else 0), lead=lead)[1]
        for (lead, text), room in zip(columns, rooms, strict=True)
    )
    return last + size * 3.9


def _column_rooms(f: Frame, columns: list[tuple[str, str]]) -> list[float]:
    """Return the columns' widths: more for more to say, so that they end level."""
    gap = f.note * 1.6
    share = [set_width(text, 1) ** 0.9 + 30 for _, text in columns]
    wide = f.right - f.left - gap * (len(columns) - 1)
    return [wide * one / sum(share) for one in share]


def foot(f: Frame, columns: list[tuple[str, str]], edition: Edition, left: str) -> float:
    """Set the foot: notes in columns, then edition and reading distance; return its top.

    A column led by ``CAUTION`` has the caution sign before its word.
    """
    c, size = f.composer, f.note
    top = f.bottom - foot_height(f, columns, size)
    c.rule(f.left, f.right, top, f.unit * 0.06)
    x = f.left
    for (lead, text), room in zip(columns, _column_rooms(f, columns), strict=True):
        y = top + size * 1.35
        if lead == "CAUTION":
            c.add(caution_sign(x, y, size * 0.95))
            shift = size * 1.45
            c.add(_after_sign(x, y, lead, text, size, room, shift))
        else:
            c.add(paragraph(x, y, text, size, room, lead=lead)[0])
        x += room + size * 1.6
    base = f.bottom - size * 0.25
    c.rule(f.left, f.right, base - size * 1.25, f.unit * 0.03)
    made = f"Read at {f.distance_m:g} m. Print at actual size on {f.paper}."
    c.say(f.left, base, f"{left}. Edition {edition.number}, {edition.date}", size, bold=False)
    c.add(Block("P", (words(f.right, base, made, size, anchor="end"),)))
    return top


def _after_sign(
    x: float, y: float, lead: str, text: str, size: float, room: float, shift: float
) -> Block:
    """Return a paragraph whose first line starts past a sign."""
    start = x + shift + width(lead + " ", size, True)
    first = fitted(text, size, room - (start - x))[0]
    lines = fitted(text[len(first) :].strip(), size, room)
    rest = [words(x, y + (n + 1) * size * LEADING, t, size) for n, t in enumerate(lines) if t]
    return Block("P", (Text(x + shift, y, lead, size, True), words(start, y, first, size), *rest))


def split(heights: list[float], room: float) -> list[int]:
    """Return how many zones stand on each page: as few pages as fit, as even as they can be."""
    best: dict[tuple[int, int], tuple[float, list[int]]] = {(0, 0): (0.0, [])}
    count = len(heights)
    for pages in range(1, count + 1):
        for end in range(1, count + 1):
            options = []
            for start in range(end):
                tall = sum(heights[start:end])
                before = best.get((pages - 1, start))
                if tall <= room and before is not None:
                    options.append((max(before[0], tall), [*before[1], end - start]))
            if options:
                best[pages, end] = min(options, key=lambda o: o[0])
        if (pages, count) in best:
            return best[pages, count][1]
    raise ValueError("a zone is taller than the page")
