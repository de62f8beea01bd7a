"""One side of a pocket card: its type sizes, title, small tables, notes and last line."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from keyseats.cards.notes import flowed
from keyseats.corrections.qr import MODULES, QUIET, quiet_code
from keyseats.corrections.since import BAR, LEGEND, bars, legend, since
from keyseats.corrections.stamping import rows_of, stamp
from keyseats.frame import FLOOR, NOTE, PRINTER, TARGET
from keyseats.load import Edition
from keyseats.page import MM, PAPERS, Block, Stamp
from keyseats.setting import (
    DAGGER,
    GAP,
    LEADING,
    Composer,
    figure,
    set_width,
    words,
)
from keyseats.standing import Quantity
from keyseats.typeface import CAP_HEIGHT, size_for, width

CARDS = 5
DISTANCE = 0.4
INSET = 4 * MM
FIGURE = size_for(DISTANCE, TARGET)
SECOND = size_for(DISTANCE, FLOOR / PRINTER)
SMALL = size_for(DISTANCE, NOTE)
# A built fraction's digits are 0.8 of its size and must meet the floor too.
FRACTION = round(SECOND / 0.8, 1)
ID1 = "ID-1"
LEAST_GAP = 3.6
# The QR code of the card's code: modules of a third of a millimetre, and the white round it.
MODULE = 0.33 * MM
CODE_SIDE, CODE_QUIET = MODULES * MODULE, QUIET * MODULE
HAIR, THIN = 0.3, 0.5
# White that a row keeps between its ink and a rule; rows too close for it have no rule between.
ROW_CLEAR = 0.4 * MM
# How far letters hang under their baseline. [em]
DESCENT = 0.24
# Marks of corrections: how thick, how far off, how tall; they leave 3 mm along a cut white.
MARGIN_BAR = 0.65 * MM, 0.3 * MM, 1.1 * MM
# What a front says of the cautions, which its back has in full.
SEE_BACK = "Stop the spindle to measure. Read the back."
# How far a built fraction rises over its baseline, and falls under it; how far a figure rises.
RISE, FALL, CAP = FRACTION * 0.79, FRACTION * 0.1, FIGURE * CAP_HEIGHT


@dataclass
class Face:
    """One side of a card being composed, in the card's own coordinates."""

    size: str
    number: int
    side: str
    edition: Edition
    composer: Composer = field(default_factory=Composer)
    mark: Stamp | None = None

    @property
    def coded(self) -> bool:
        """Return whether this side has the card's code as a QR code, at its lower right."""
        return self.side == "front"

    @property
    def low_right(self) -> float:
        """Return the right limit of the notes and of the last line. [pt]"""
        return self.right - (CODE_SIDE + CODE_QUIET if self.coded else 0.0)

    def right_at(self, base: float) -> float:
        """Return where a line on a baseline must end, to leave the QR code its white. [pt]"""
        level = self.bottom - CODE_SIDE - CODE_QUIET
        return self.right if base + self.note * DESCENT < level else self.low_right

    @property
    def small(self) -> bool:
        """Return whether this is a bank-card size, where little fits."""
        return self.size == ID1

    @property
    def left(self) -> float:
        """Return the left limit of what is printed. [pt]"""
        return INSET

    @property
    def right(self) -> float:
        """Return the right limit of what is printed. [pt]"""
        return PAPERS[self.size][0] - INSET

    @property
    def top(self) -> float:
        """Return the upper limit of what is printed. [pt]"""
        return INSET

    @property
    def bottom(self) -> float:
        """Return the lower limit of what is printed. [pt]"""
        return PAPERS[self.size][1] - INSET

    @property
    def head(self) -> float:
        """Return the size of column heads. [pt]"""
        return 6.0 if self.small else 6.8

    @property
    def note(self) -> float:
        """Return the size of notes. [pt]"""
        return SMALL if self.small else 6.2

    def blocks(self) -> tuple[Block, ...]:
        """Return what is printed on this side."""
        return tuple(self.composer.blocks)

    def title(self, title: str, which: str, sub: str = "", *, recalled: bool = False) -> float:
        """Set the title over a thick and a thin rule; return the level under them.

        Parameters
        ----------
        title, which
            What stands left and right.
        sub
            A line under the title.
        recalled
            Whether the dagger stands at the right.
        """
        c = self.composer
        size = 8.8 if self.small else 12.0
        y = self.top + size * 0.76
        c.say(self.left, y, title, size, bold=True, role="H2")
        mark = size * 0.62
        # The dagger would hang too near the cut: the name makes room for it.
        end = self.right - (width(DAGGER, mark) + size * 0.04 if recalled else 0)
        c.say(end, y, which, size, bold=True, anchor="end")
        if recalled:
            c.say(self.right, y - size * 0.22, DAGGER, mark, anchor="end")
        if sub:
            y += self.note * 1.4
            c.say(self.left, y, sub, self.note)
        y += 3.6
        self.thick_and_thin(y)
        return y + 1.7

    def thick_and_thin(self, y: float, *, turned: bool = False) -> None:
        """Rule thick over thin, or thin over thick."""
        weights = (HAIR, 1.2) if turned else (1.2, HAIR)
        for n, weight in enumerate(weights):
            self.composer.rule(self.left, self.right, y + n * 1.7, weight)

    def finish(self, back: Face) -> None:
        """Set the last line of this front and of its back, with the code of both."""
        if self.edition.tables is not None:
            rows = rows_of((*self.blocks(), *back.blocks()))
            self.mark = back.mark = stamp(self.edition.tables, f"card-{self.number}", rows)
        self._last_line(self.mark)
        back._last_line(back.mark)

    def _last_line(self, mark: Stamp | None) -> None:
        """Set card number, code, edition and reading distance, and mark what was corrected.

        Parameters
        ----------
        mark
            The card's code, which is that of both sides.
        """
        c, y = self.composer, self.bottom - 0.6
        which = f"Card {self.number} of {CARDS}" + (", back." if self.side == "back" else ".")
        c.say(self.left, y, which, SMALL, bold=True)
        edition, tables = self.edition, self.edition.tables
        read = f"Read at {DISTANCE:g} m."
        changed = since(tables).among(rows_of(c.blocks)) if tables else frozenset()
        made = f"Edition {edition.number}, {edition.date}. {read}"
        space = width(" ", SMALL)
        if changed:
            wide = width(f"{LEGEND}. {read}", SMALL) + BAR + 2 * space
            made = f"Edition {edition.number}"
            start = self.low_right - wide
            c.say(start - space, y, made, SMALL, anchor="end")
            c.add(legend(start, y, SMALL, space, f"{LEGEND}. {read}"))
        else:
            c.say(self.low_right, y, made, SMALL, anchor="end")
        if mark is None:
            return
        start = self.left + width(which + "  ", SMALL, True)
        c.say(start, y, mark.code, SMALL, bold=True)
        if self.coded:
            x, top = self.right - CODE_SIDE, self.bottom - CODE_SIDE
            c.add(quiet_code(mark.code, x, top, MODULE))
        c.add(*bars(c.blocks, changed, self.left, *MARGIN_BAR))

    def notes(
        self,
        y: float,
        notes: Iterable[tuple[str, str]],
        rows: tuple[str, ...] = (),
        gap: float = 0.0,
    ) -> float:
        """Set notes one under the other from a first baseline; return the next baseline.

        A note led by ``CAUTION`` has the caution sign before its word.

        Raises
        ------
        ValueError
            If they run into the last line.
        """
        size = self.note
        blocks, y = flowed(y, notes, size, self.left, self.right_at, rows, gap)
        self.composer.add(*blocks)
        if y - size * LEADING > self.bottom - SMALL * 1.25:
            raise ValueError(
                f"card {self.number}, {self.side}, {self.size}: the notes are too long"
            )
        return y


@dataclass(frozen=True)
class Column:
    """One column of a card's table: its head, its figures and how they are set.

    ``head_rows`` are the ids of the figures that the head prints.
    """

    head: tuple[str, ...]
    cells: tuple[Quantity, ...]
    size: float = FIGURE
    bold: bool = False
    names: bool = False
    fractions: bool = False
    head_rows: tuple[str, ...] = ()

    def wide(self, head: float) -> float:
        """Return the width that the column needs. [pt]"""
        body = max(_cell_width(self, q.text) for q in self.cells)
        if self.fractions:
            body = _whole(self) + _part(self)
        heads = [set_width(line.rstrip(DAGGER), head, self.bold) for line in self.head]
        return max(body, *heads, 0.0)

    @property
    def marked(self) -> bool:
        """Return whether a dagger is printed anywhere in the column."""
        heads = any(DAGGER in line for line in self.head)
        return heads or any(q.recalled for q in self.cells)

    @property
    def recalled(self) -> bool:
        """Return whether every figure is from memory, which its head says once."""
        return all(q.recalled for q in self.cells)


def _cell_width(column: Column, text: str) -> float:
    return set_width(text, column.size, column.bold)


def _split(text: str) -> tuple[str, str]:
    whole, dash, part = text.partition("-")
    if dash:
        return whole, part
    return ("", whole) if "/" in whole else (whole, "")


def _whole(column: Column) -> float:
    size, bold = column.size, column.bold
    return max(
        (width(_split(q.text)[0], size, bold) + size * GAP) if all(_split(q.text)) else 0.0
        for q in column.cells
    )


def _part(column: Column) -> float:
    return max(set_width(_split(q.text)[1], column.size, column.bold) for q in column.cells)


@dataclass(frozen=True)
class Table:
    """Columns between two limits, with heads that may span several of them."""

    columns: tuple[Column, ...]
    left: float
    right: float
    spans: tuple[tuple[int, int, tuple[str, ...], bool], ...] = ()
    breaks: tuple[int, ...] = ()
    widest_gap: float = 22.0

    def fits(self, head: float) -> bool:
        """Return whether the columns fit, with white between them."""
        return self._gap([c.wide(head) for c in self.columns]) >= LEAST_GAP

    def _gap(self, wide: list[float]) -> float:
        return (self.right - self.left - sum(wide)) / max(len(wide) - 1, 1)

    def edges(self, head: float) -> list[float]:
        """Return the columns' right edges, all gaps alike.

        Raises
        ------
        ValueError
            If the columns do not fit.
        """
        wide = [c.wide(head) for c in self.columns]
        gap = self._gap(wide)
        if gap < LEAST_GAP:
            raise ValueError(f"the columns leave gaps of {gap:.1f} pt: {[round(w) for w in wide]}")
        gap = min(gap, self.widest_gap)
        return [self.left + sum(wide[: n + 1]) + n * gap for n in range(len(wide))]


def set_table(face: Face, y: float, table: Table, pitch: float) -> float:
    """Set a table under its heads; return the level of the rule that closes it."""
    c, size = face.composer, face.head
    edges = table.edges(size)
    lead = size
    tall = max(len(column.head) for column in table.columns)
    base = y + size * 1.1
    for first, last, lines, bold in table.spans:
        start = edges[first] - table.columns[first].wide(size)
        at = base + (tall - len(lines) - len(table.columns[first].head)) * lead
        middle = (start + edges[last]) / 2
        for n, line in enumerate(lines):
            say = (middle, at + n * lead, line, size)
            c.say(*say, bold=bold, anchor="middle", role="TH", header="Column")
    for column, right in zip(table.columns, edges, strict=True):
        _head(face, column, right, base + (tall - len(column.head)) * lead, lead)
    y = base + (tall - 1) * lead + size * 0.5
    c.rule(table.left, edges[-1], y, THIN)
    # Rows stand midway between their rules, from the top of what they hold to its foot.
    built = any(column.fractions for column in table.columns)
    rise, fall = (RISE, FALL) if built else (CAP, 0.0)
    clear = (pitch - rise - fall) / 2
    y += max(0.0, ROW_CLEAR + THIN / 2 - clear)
    for n in range(len(table.columns[0].cells)):
        if n in table.breaks and clear >= ROW_CLEAR + HAIR / 2:
            c.rule(table.left, edges[-1], y, HAIR)
        for column, right in zip(table.columns, edges, strict=True):
            c.add(cell(column, column.cells[n], right, y + (pitch + rise - fall) / 2, size))
        y += pitch
    return y


def _head(face: Face, column: Column, right: float, y: float, lead: float) -> None:
    """Set a column's head, its daggers hung outside the alignment."""
    c, size = face.composer, face.head
    x, anchor = (right, "end")
    if column.fractions:
        x, anchor = (right - column.wide(size), "start")
    for n, line in enumerate(column.head):
        at, last = y + n * lead, n == len(column.head) - 1
        rows = column.head_rows if line[:1] in ("+", "−") else ()
        say = line.rstrip(DAGGER)
        c.say(
            x,
            at,
            say,
            size,
            bold=column.bold,
            anchor=anchor,
            role="TH",
            header="Column",
            rows=rows,
        )
        if line.endswith(DAGGER) or (last and column.recalled):
            c.say(right + 0.4, at - size * 0.2, DAGGER, size * 0.8)


def cell(column: Column, q: Quantity, right: float, y: float, head: float) -> Block:
    """Return one figure of a column, its right edge and the size of the heads given."""
    role, header = ("TH", "Row") if column.names else ("TD", "")
    if column.fractions:
        whole, _ = _split(q.text)
        joint = right - column.wide(head) + _whole(column)
        before = width(whole, column.size, column.bold) + column.size * GAP if whole else 0.0
        before = min(before, _whole(column))
        text = words(joint - before, y, q.text, column.size, bold=column.bold)
        return Block(role, (text,), header=header, rows=q.rows)
    return figure(
        right,
        y,
        q,
        column.size,
        bold=column.bold,
        dagger=not column.recalled,
        cut=not column.names,
        role=role,
        header=header,
    )


def alike(texts: Iterable[str]) -> str:
    """Return the one text that several figures share, or nothing if they differ."""
    found = list(dict.fromkeys(texts))
    return found[0] if len(found) == 1 else ""


def changes(names: list[str]) -> tuple[int, ...]:
    """Return the rows whose name differs from that of the row before."""
    return tuple(n for n in range(1, len(names)) if names[n] != names[n - 1])
