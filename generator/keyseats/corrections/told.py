"""Changes between two editions as lines for a screen and as data for machines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from keyseats.corrections.compare import (
    ADDED,
    SOURCE,
    STANDING,
    TEXT,
    WITHDRAWN,
    Change,
    Comparison,
    PageChange,
    SheetChange,
)
from keyseats.corrections.effects import Effect
from keyseats.corrections.figures import Cell
from keyseats.load import Tables
from keyseats.standing import Quantity

_FEW = 6
HEADS = {
    TEXT: "the figure changed",
    WITHDRAWN: "withdrawn",
    ADDED: "new",
    STANDING: "its dagger comes or goes",
    SOURCE: "another source, nothing printed changes",
}


def counted(number: int, word: str) -> str:
    """Return a count with its word."""
    return f"{number or 'no'} {word}{'' if number == 1 else 's'}"


def screen(found: Comparison, old: str, new: str) -> Iterator[str]:
    """Yield a comparison as lines, figures of substance in full, the others by table.

    Parameters
    ----------
    found
        What differs.
    old, new
        The two editions in words.
    """
    changes = found.changes
    told = f"{counted(len(changes), 'figure')} differ{'s' if len(changes) == 1 else ''}"
    yield f"{old} -> {new}: {told}" + (f", {len(found.substance)} of substance" if changes else "")
    if found.substance:
        yield ""
        yield "Of substance: a cut inside the old limits can now be outside."
        for change in found.substance:
            yield from _in_full(change)
    rest = [c for c in changes if not c.substance]
    if rest:
        yield ""
        yield "Of print only:"
    for kind, head in HEADS.items():
        here = [c for c in rest if c.kind == kind]
        if here:
            yield f"  {head}:"
            yield from _by_table(here, kind)
    yield from _pages(found)


def _in_full(change: Change) -> Iterator[str]:
    yield f"  {change.id}"
    for cell, word in ((change.old, "was"), (change.new, "is")):
        yield f"    {word:<4}{_cell(cell)}"
    yield f"    {change.says}"


def _cell(cell: Cell | None) -> str:
    if cell is None:
        return "not there"
    return cell.shown + (f"  ({cell.source})" if cell.source else "")


def _sources(cell: Cell | None) -> str:
    return (cell.source if cell else "") or "no source"


def _by_table(changes: list[Change], kind: str) -> Iterator[str]:
    groups: dict[tuple[str, str], list[Change]] = {}
    for change in changes:
        column = "" if kind in (ADDED, WITHDRAWN) else change.column
        groups.setdefault((change.table, column), []).append(change)
    for (table, column), here in groups.items():
        rows = list(dict.fromkeys(c.row for c in here))
        if kind == TEXT and len(here) <= _FEW:
            for c in here:
                yield f"    {c.id}: {_cell(c.old)} -> {_cell(c.new)}; {c.says}"
            continue
        name = f"{table}/{column}" if column else table
        yield f"    {name}: {counted(len(rows), 'row')}: {_listed(rows)}"
        if kind == TEXT:
            yield f"      {'; '.join(dict.fromkeys(c.says for c in here))}"
        sources = dict.fromkeys(f"{_sources(c.old)} -> {_sources(c.new)}" for c in here)
        if kind not in (ADDED, WITHDRAWN):
            yield f"      {_listed(sources, 3)}"


def _listed(names: Iterable[str], most: int = _FEW) -> str:
    found = list(names)
    more = len(found) - most
    return ", ".join(found[:most]) + (f" and {more} more" if more > 0 else "")


def _pages(found: Comparison) -> Iterator[str]:
    for harmful, head in ((True, "Take down"), (False, "May stay; print again when you can")):
        lines = [*page_lines(found, harmful), *sheet_lines(found, harmful)]
        if lines:
            yield ""
            yield f"{head}:"
            yield from (f"  {line}" for line in lines)
    if found.changes and not found.pages and not found.sheets:
        yield ""
        yield "No page prints any of it."


def page_lines(found: Comparison, harmful: bool) -> list[str]:
    """Return pages of the printed set with their old and new codes, one code a line."""
    lines: dict[tuple[str, str, str], dict[str, list[str]]] = {}
    for page in found.pages:
        if found.harmful(page) == harmful:
            for what, codes in stamps(page).items():
                on = lines.setdefault((page.any.sheet, what, codes), {})
                on.setdefault(page.any.paper, []).append(str(page.any.number))
    return [
        f"{sheet}, {what}: {codes}, "
        + "; ".join(f"{paper} page {', '.join(pages)}" for paper, pages in on.items())
        for (sheet, what, codes), on in lines.items()
    ]


def stamps(page: PageChange) -> dict[str, str]:
    """Return each code of a page that changed, old and new in words, by what it stands for."""
    then = {s.what: s.code for s in page.old.stamps} if page.old else {}
    now = {s.what: s.code for s in page.new.stamps} if page.new else {}
    found = {}
    for what in dict.fromkeys([*then, *now]):
        old, new = then.get(what), now.get(what)
        if old != new:
            found[what] = f"{old or 'new'} -> {new or 'not made now'}"
    return found or {page.any.slug: "same code, other words"}


def sheet_lines(found: Comparison, harmful: bool) -> list[str]:
    """Return shaft sheets that can be asked for, by family and standard."""
    lines: dict[str, list[str]] = {}
    for sheet in found.sheets:
        if sheet.old is not None and found.harmful(sheet) == harmful:
            family, standard, name, fit = sheet.what.split(", ")
            lines.setdefault(f"{family}, {standard}, {fit}", []).append(name)
    return [f"shaft sheets, {head}: {_listed(names, 12)}" for head, names in lines.items()]


def data(found: Comparison, old: Tables, new: Tables, sides: tuple[Any, Any]) -> dict[str, Any]:
    """Return a comparison as data, by ``docs/changes.schema.json``.

    Parameters
    ----------
    found
        What differs.
    old, new
        Both sets of tables, for the titles of sources.
    sides
        What the two are: number, date and whether it is the tables as they are now.
    """
    return {
        "old": sides[0],
        "new": sides[1],
        "changes": [_change(change, found, old, new) for change in found.changes],
        "pages": [_page(page, found) for page in found.pages],
        "shaft_sheets": [_sheet(sheet, found) for sheet in found.sheets],
    }


def _change(change: Change, found: Comparison, old: Tables, new: Tables) -> dict[str, Any]:
    worst = change.worst
    return {
        "figure": change.id,
        "kind": change.kind,
        "old": cell_data(change.old, old),
        "new": cell_data(change.new, new),
        "substance": change.substance,
        "by": quantity(worst.by) if worst else None,
        "side": worst.side if worst else None,
        "says": change.says,
        "effects": [_effect(effect) for effect in change.effects],
        "pages": [found.pages.index(page) for page in change.pages],
        "shaft_sheets": [sheet.what for sheet in change.sheets],
    }


def cell_data(cell: Cell | None, tables: Tables) -> dict[str, Any] | None:
    """Return one figure as data: text, unit, sources and whether it is recalled."""
    if cell is None:
        return None
    names = [part.strip() for part in cell.source.split(" + ") if part.strip()]
    titles = [tables.sources[n].title if n in tables.sources else n for n in names]
    sources = [{"id": n, "title": t} for n, t in zip(names, titles, strict=True)]
    return {"text": cell.text, "unit": cell.unit, "sources": sources, "recalled": cell.recalled}


def quantity(q: Quantity | None) -> dict[str, Any] | None:
    """Return a quantity as data."""
    return None if q is None else {"value": float(q.value), "unit": q.unit, "text": q.text}


def _effect(effect: Effect) -> dict[str, Any]:
    return {
        "seat": effect.seat,
        "measure": effect.measure,
        "outside": effect.outside,
        "side": effect.side or None,
        "by": quantity(effect.by),
        "says": effect.says,
    }


def _page(page: PageChange, found: Comparison) -> dict[str, Any]:
    here = page.any
    return {
        "sheet": here.sheet,
        "paper": here.paper,
        "page": here.number,
        "slug": here.slug,
        "title": here.title,
        "old_codes": [s.code for s in page.old.stamps] if page.old else None,
        "new_codes": [s.code for s in page.new.stamps] if page.new else None,
        "looks_alike": page.alike,
        "take_down": found.harmful(page),
    }


def _sheet(sheet: SheetChange, found: Comparison) -> dict[str, Any]:
    return {
        "what": sheet.what,
        "old_code": sheet.old.code if sheet.old else None,
        "new_code": sheet.new.code if sheet.new else None,
        "take_down": found.harmful(sheet),
    }
