"""What every sheet has in common: paper, type sizes from the distance, title and foot."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache

from keyseats.corrections import qr
from keyseats.corrections.since import bars, legend, since
from keyseats.corrections.stamping import rows_of, stamp
from keyseats.load import Edition
from keyseats.page import MM, PAPERS, Block, Page, Stamp, Text
from keyseats.setting import LEADING, Composer, caution_sign, paragraph, set_width, words
from keyseats.typeface import eased, fitted, size_for, unbroken, width

MARGIN = 10 * MM
FOOT = 12 * MM
PRINTER = 0.94
TARGET, FLOOR, NOTE = 20.0, 16.0, 12.0
DISTANCE = {"Letter": 0.75, "A4": 0.75, "Tabloid": 1.0, "A3": 1.0, "ANSI C": 2.0, "A2": 2.0}
# A measure under this many figure sizes is narrow: it has fewer columns, and a last line of two.
NARROW = 28.0
RECALLED = (
    "recalled, not read, or computed from such a figure. Check it against your own copy of the "
    "standard before cutting."
)
# The QR code of the page code: modules a phone reads from a hand's breadth, and the white round it.
MODULE = 0.45 * MM
CODE_SIDE, CODE_QUIET = qr.MODULES * MODULE, qr.QUIET * MODULE
FIRST = (
    "The drawing, local rules and a qualified engineer come first where a failure can hurt someone."
)


@dataclass
class Frame:
    """A page being composed: its paper, its measure, and its type sizes.

    ``coded`` says whether the page code stands in the foot as a QR code too; ``last`` is what the
    foot's last line says of the page.
    """

    paper: str
    distance_m: float
    composer: Composer = field(default_factory=Composer)
    coded: bool = True
    last: tuple[str, Edition] | None = None

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

    @property
    def narrow(self) -> bool:
        """Return whether the measure is short for its type, as on paper for across the room."""
        return self.right - self.left < NARROW * self.unit

    def page(self, slug: str, title: str, mark: Stamp | None = None) -> Page:
        """Return the finished page, its code and the marks of corrections set.

        Parameters
        ----------
        slug, title
            The page's name and its bookmark.
        mark
            Its code, if that rests on other figures than the page prints.
        """
        marks: tuple[Stamp, ...] = ()
        if self.last is not None:
            marks = _last_line(self, *self.last, slug, mark)
        return Page(
            slug,
            title,
            self.paper,
            tuple(self.composer.blocks),
            self.distance_m,
            self.width,
            self.height,
            marks,
        )


def wall_title(f: Frame, title: str, which: str, sub: str, right: str) -> float:
    """Set a wall chart's title; return the level under it."""
    c, u = f.composer, f.unit
    y = f.top + u * 1.15
    size = u * (1.36 if f.narrow else 1.55)
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
    last = max(_fall(*said, size, room) for said, room in zip(columns, rooms, strict=True))
    tall = last + size * (3.9 + LEADING if f.narrow else 3.9)
    return max(tall, CODE_SIDE + 2 * CODE_QUIET + size * 1.5) if f.coded else tall


def _fall(lead: str, text: str, size: float, room: float) -> float:
    """Return how far a column falls from its first baseline to its last. [pt]"""
    if lead == "CAUTION":
        set_after = _after_sign(0, 0, lead, text, size, room, size * 1.45)
        return (len(set_after.items) - 2) * size * LEADING
    return paragraph(0, 0, text, size, room, lead=lead)[1]


def _column_rooms(f: Frame, columns: list[tuple[str, str]]) -> list[float]:
    """Return the columns' widths: more for more to say, so that they end level."""
    gap = f.note * 1.6
    wide = f.right - f.left - gap * (len(columns) - 1)
    if f.coded:
        return _level(tuple(columns), wide - (CODE_SIDE + CODE_QUIET + gap * 0.5), f.note)
    share = [set_width(text, 1) ** 0.9 + 30 for _, text in columns]
    return [wide * one / sum(share) for one in share]


@lru_cache(maxsize=64)
def _level(columns: tuple[tuple[str, str], ...], wide: float, size: float) -> list[float]:
    """Return the columns' widths that take the fewest lines, what is over shared out alike.

    Raises
    ------
    ValueError
        If a foot of twenty lines does not hold them.
    """
    measured = [_measured(lead, text, size) for lead, text in columns]
    for most in range(1, 21):
        rooms = [_narrowest(first, each, most, wide, size) for first, each in measured]
        if sum(rooms) <= wide:
            return [room + (wide - sum(rooms)) / len(rooms) for room in rooms]
    raise ValueError("the foot's columns are too long")


def _measured(lead: str, text: str, size: float) -> tuple[float, list[float]]:
    """Return how far a column's first line starts in, and the width of each word. [pt]"""
    sign = size * 1.45 if lead == "CAUTION" else 0.0
    return sign + width(lead + " ", size, True), [width(word, size) for word in unbroken(text)]


def _narrowest(start: float, each: list[float], most: int, wide: float, size: float) -> float:
    """Return the least width, on a grid of 2 pt, at which words take no more lines. [pt]"""
    space = width(" ", size)
    room = max(*each, start, 60.0)
    while room < wide:
        lines, at = 1, start
        for word in each:
            if at + word > room:
                lines, at = lines + 1, 0.0
            at += word + space
        if lines <= most:
            return room
        room += 2.0
    return wide + 1


def foot(f: Frame, columns: list[tuple[str, str]], edition: Edition, left: str) -> float:
    """Set the foot: notes in columns; return its top.

    Its last line, with edition, reading distance and code, is set when the page is finished. A
    column led by ``CAUTION`` has the caution sign before its word.
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
    f.last = (left, edition)
    return top


def _last_line(
    f: Frame, left: str, edition: Edition, slug: str, mark: Stamp | None
) -> tuple[Stamp, ...]:
    """Set what the page is, its edition, distance and code; mark what was corrected since."""
    c, size = f.composer, f.note
    base = f.bottom - size * 0.25
    first = base - size * LEADING if f.narrow else base
    rule = first - size * 1.25
    rows = rows_of(c.blocks)
    c.rule(f.left, f.right, rule, f.unit * 0.03)
    tables = edition.tables
    rests = (*rows, *(mark.rows if mark else ()))
    changed = since(tables).among(rests) if tables else frozenset()
    says = f"{left}. Edition {edition.number}, {edition.date}"
    made = f"Read at {f.distance_m:g} m. Print at actual size on {f.paper}."
    c.say(f.left, first, says, size)
    if changed:
        gap = width(" ", size)
        c.add(legend(f.left + set_width(says, size) + 2 * gap, first, size, gap))
        if not f.narrow:
            made = f"Read at {f.distance_m:g} m, at actual size."
    if tables is None:
        c.say(f.right, base, made, size, anchor="end")
        return ()
    mark = mark or stamp(tables, slug, rows)
    end = f.right - width(mark.code, size, True) - size
    if f.narrow:
        c.say(f.left, base, made, size)
    else:
        c.add(Block("P", (words(end, base, made, size, anchor="end"),)))
    c.say(f.right, base, mark.code, size, bold=True, anchor="end")
    if f.coded:
        top = rule - f.unit * 0.03 - CODE_QUIET - CODE_SIDE
        c.add(qr.quiet_code(mark.code, f.right - CODE_SIDE, top, MODULE))
    c.add(*bars(c.blocks, changed, f.left))
    return (mark,)


def _after_sign(
    x: float, y: float, lead: str, text: str, size: float, room: float, shift: float
) -> Block:
    """Return a paragraph whose first line starts past a sign."""
    start = x + shift + width(lead + " ", size, True)
    first = fitted(text, size, room - (start - x))[0]
    more = fitted(text[len(first) :].strip(), size, room)
    first, *lines = eased([first, *more], size, room)
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
