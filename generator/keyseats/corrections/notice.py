"""The correction notice: one page to pin beside a chart, or to send to those who have one."""

from __future__ import annotations

from dataclasses import dataclass, field

from keyseats.corrections.compare import (
    ADDED,
    SOURCE,
    STANDING,
    TEXT,
    WITHDRAWN,
    Change,
    Comparison,
)
from keyseats.corrections.figures import Cell
from keyseats.corrections.told import counted
from keyseats.frame import FIRST, Frame, thick_and_thin
from keyseats.page import Block, Page
from keyseats.setting import height_of, paragraph, set_width, words

PAPERS = ("Letter", "A4")
DISTANCE = 0.5
LEADING = 1.25
_KINDS = {
    TEXT: "printed otherwise, or no cut rests on them",
    WITHDRAWN: "withdrawn",
    ADDED: "new",
    STANDING: "read now or recalled now: a dagger goes or comes",
    SOURCE: "another source, nothing printed changes",
}


@dataclass(frozen=True)
class Between:
    """The two editions in words, the command that shows every change, and titles of sources."""

    old: str
    new: str
    command: str
    titles: dict[str, str] = field(default_factory=dict)


def notice(found: Comparison, between: Between, paper: str) -> Page:
    """Return the notice as one page, what is of substance first.

    Parameters
    ----------
    found
        What differs.
    between
        The two editions.
    paper
        ``Letter`` or ``A4``.
    """
    f = Frame(paper, DISTANCE, coded=False)
    y = _head(f, found, between)
    bottom = f.bottom - f.note * 5.2
    y = _substance(f, y, bottom, found, between)
    y = _print_only(f, y, bottom, found)
    _pages(f, y, bottom, found, between)
    _foot(f, between)
    return f.page("correction-notice", f"Correction notice: {between.old} to {between.new}")


def _head(f: Frame, found: Comparison, between: Between) -> float:
    c, u = f.composer, f.unit
    y = f.top + u * 1.9
    c.say(f.left, y, "Correction notice", u * 2.0, bold=True, role="H1")
    y += u * 1.35
    c.say(f.left, y, f"Keyseat charts, cards and shaft sheets: {between.old} to {between.new}.", u)
    y += u * 0.7
    thick_and_thin(f, y)
    y += u * 1.5
    if found.substance:
        says = (
            f"{counted(len(found.substance), 'figure')} changed in substance: a cut inside the old "
            "limits can now be outside. Take the pages that are named here down, and mark or "
            "throw away copies that were handed out."
        )
    elif found.changes:
        says = (
            "No figure changed in substance: no cut inside the old limits can now be outside. "
            "Pages may stay until they are printed again."
        )
    else:
        says = "No figure differs."
    block, last = paragraph(f.left, y, says, u, f.right - f.left)
    c.add(block)
    return last + u * 0.9


def _heading(f: Frame, y: float, text: str) -> float:
    u = f.unit
    f.composer.rule(f.left, f.right, y, u * 0.09)
    f.composer.say(f.left, y + u * 1.2, text, u * 1.05, bold=True, role="H2")
    return y + u * 2.55


def _substance(f: Frame, y: float, bottom: float, found: Comparison, between: Between) -> float:
    """Set each figure of substance, old and new, as long as they leave room for the pages."""
    if not found.substance:
        return y
    c, u = f.composer, f.unit
    y = _heading(f, y, "Of substance")
    # The pages to take down are what the notice is for: a third of it is theirs.
    limit = y + (bottom - y) * 0.62
    for n, change in enumerate(found.substance):
        tall = _height(f, change)
        if y + tall > limit:
            left = len(found.substance) - n
            text = f"and {left} more: see them all with  {between.command}"
            c.say(f.left, y, text, u * 0.9, bold=True)
            return y + u * 1.5
        y = _figure(f, y, change, between)
    return y


def _height(f: Frame, change: Change) -> float:
    says = height_of(change.says, f.unit * 0.82, f.right - f.left - f.unit)
    return f.unit * (1.2 + 1.25 * 2 + 1.6) + says


def _figure(f: Frame, y: float, change: Change, between: Between) -> float:
    c, u = f.composer, f.unit
    c.add(Block("P", (words(f.left, y, _name(change), u * 0.95, bold=True),)))
    y += u * 1.25
    for word, cell in (("was", change.old), ("is", change.new)):
        c.say(f.left + u, y, word, u * 0.82)
        text = "not there" if cell is None else cell.shown
        c.add(Block("P", (words(f.left + u * 3.0, y, text, u, bold=word == "is"),)))
        if cell is not None and cell.source:
            at = f.left + u * 3.0 + max(u * 6.5, set_width(text, u, True) + u)
            c.add(_from(at, y, f, cell, between))
        y += u * 1.25
    block, last = paragraph(f.left + u, y, change.says, u * 0.82, f.right - f.left - u)
    c.add(block)
    return last + u * 1.6


def _from(x: float, y: float, f: Frame, cell: Cell, between: Between) -> Block:
    """Return where a figure was read: the sources' titles, or their ids where those do not fit."""
    size = f.unit * 0.72
    names = cell.source.split(" + ")
    text = "; ".join(between.titles.get(name, name) for name in names)
    if set_width(text, size) > f.right - x:
        text = cell.source
    return Block("P", (words(x, y, text, size),))


def _name(change: Change) -> str:
    column = change.column.replace("_", " ")
    return f"{change.table.replace('_', ' ')}, {change.row}: {column}"


def _print_only(f: Frame, y: float, bottom: float, found: Comparison) -> float:
    """Count what is of print only, by table and kind."""
    rest = [change for change in found.changes if not change.substance]
    if not rest:
        return y
    c, u = f.composer, f.unit
    y = _heading(f, y, f"Of print only: {counted(len(rest), 'figure')}")
    size = u * 0.82
    for kind, head in _KINDS.items():
        counts: dict[str, int] = {}
        for change in rest:
            if change.kind == kind:
                counts[change.table] = counts.get(change.table, 0) + 1
        if not counts:
            continue
        text = ", ".join(f"{t.replace('_', ' ')} {n}" for t, n in counts.items())
        tall = height_of(text + ".", size, f.right - f.left, head.capitalize() + ":")
        if y + tall > bottom - u * 3:
            c.say(f.left, y, "and more", size)
            return y + size * 1.9
        block, last = paragraph(
            f.left, y, text + ".", size, f.right - f.left, lead=head.capitalize() + ":"
        )
        c.add(block)
        y = last + size * 1.6
    return y + u * 0.3


def _pages(f: Frame, y: float, bottom: float, found: Comparison, between: Between) -> None:
    """Name the pages by the codes that they print, those to take down first."""
    for harmful, head in ((True, "Take down"), (False, "May stay; print again when you can")):
        entries = _entries(found, harmful)
        if not entries or y + f.unit * 4 > bottom:
            continue
        y = _heading(f, y, head)
        y = _listed(f, y, bottom, entries, between)


def _entries(found: Comparison, harmful: bool) -> list[str]:
    by_code: dict[str, str] = {}
    for page in found.pages:
        if page.old is not None and found.harmful(page) == harmful:
            now = {s.code for s in page.new.stamps} if page.new else set()
            for one in page.old.stamps:
                if one.code not in now and not one.what.startswith("shaft sheet"):
                    card = one.what.startswith("card-")
                    name = one.what.replace("card-", "Pocket card ") if card else page.old.title
                    by_code.setdefault(one.code, name)
    entries = [f"{code}  {name}" for code, name in by_code.items()]
    asked: dict[str, list[str]] = {}
    for sheet in found.sheets:
        if sheet.old is not None and found.harmful(sheet) == harmful:
            family, standard, name, fit = sheet.what.split(", ")
            asked.setdefault(f"{family}, {standard}, {fit}", []).append(name)
    for head, names in asked.items():
        shown = ", ".join(names[:8]) + (f" and {len(names) - 8} more" if len(names) > 8 else "")
        entries.append(f"Shaft sheets, {head}: {shown}")
    return entries


def _listed(f: Frame, y: float, bottom: float, entries: list[str], between: Between) -> float:
    """List pages in two columns, as many as there is room for."""
    c, u = f.composer, f.unit
    size, gap = u * 0.8, u * 1.2
    room = (f.right - f.left - gap) / 2
    place, column, low = y, 0, y
    # Both columns end level where there is room for all.
    half = sum(height_of(text, size, room) + size * 1.45 for text in entries) / 2
    for n, text in enumerate(entries):
        tall = height_of(text, size, room)
        last = n + 1 == len(entries)
        keep = 0.0 if last or column == 0 else size * 1.5
        if column == 0 and (place + tall > bottom - keep or place - y >= half):
            column, place = 1, y
        if place + tall > bottom - (0.0 if last else size * 1.5) and column == 1:
            text = f"and {len(entries) - n} more: {between.command}"
            c.say(f.left + room + gap, place, text, size, bold=True)
            return max(low, place) + size * 1.6
        block, end = paragraph(f.left + column * (room + gap), place, text, size, room)
        c.add(block)
        place = end + size * 1.45
        low = max(low, place)
    return low + u * 0.4


def _foot(f: Frame, between: Between) -> None:
    c, size = f.composer, f.note
    top = f.bottom - size * 4.2
    c.rule(f.left, f.right, top, f.unit * 0.06)
    text = (
        "Each page prints its code in its foot. keyseats current CODE says whether a page is "
        f"current, with no network. All changes: {between.command}. {FIRST}"
    )
    c.add(paragraph(f.left, top + size * 1.4, text, size, f.right - f.left)[0])
    made = f"Read at {f.distance_m:g} m. Print at actual size on {f.paper}."
    c.say(f.right, f.bottom - size * 0.25, made, size, anchor="end")
