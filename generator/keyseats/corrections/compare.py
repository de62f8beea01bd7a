"""Two sets of tables compared: each figure that differs, what it means, and which pages have it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from keyseats.corrections.effects import Effect, effects
from keyseats.corrections.figures import Cell, figures_of
from keyseats.corrections.issued import Printed, printed
from keyseats.corrections.renamed import renamed
from keyseats.corrections.shaft_codes import shaft_sheets
from keyseats.load import Tables, number
from keyseats.page import Stamp

TEXT, STANDING, ADDED, WITHDRAWN, SOURCE = "text", "standing", "added", "withdrawn", "source"
KINDS = (TEXT, WITHDRAWN, ADDED, STANDING, SOURCE)
_RANGES = {
    "inch_plain_keys": ("shaft_over", "shaft_to"),
    "metric_plain_keys": ("shaft_over", "shaft_to"),
    "inch_half_moon_shafts": ("shaft_from", "shaft_to"),
    "metric_half_moon_shafts": ("shaft_over", "shaft_to"),
}


@dataclass(frozen=True)
class PageChange:
    """A page that differs, before and after; None where it is not made."""

    old: Printed | None
    new: Printed | None

    @property
    def any(self) -> Printed:
        """Return the page as it is, or was."""
        found = self.new or self.old
        assert found is not None
        return found

    @property
    def alike(self) -> bool:
        """Return whether it says the same as before, whatever its code."""
        return bool(self.old and self.new and self.old.says_as(self.new))

    @property
    def same_code(self) -> bool:
        """Return whether it has the codes that it had."""
        return bool(self.old and self.new and self.old.stamps == self.new.stamps)

    @property
    def rows(self) -> frozenset[str]:
        """Return the ids of what it printed and prints."""
        none: frozenset[str] = frozenset()
        return (self.old.rows if self.old else none) | (self.new.rows if self.new else none)


@dataclass(frozen=True)
class SheetChange:
    """A shaft sheet that can be asked for, whose code differs; None where it cannot be."""

    old: Stamp | None
    new: Stamp | None

    @property
    def what(self) -> str:
        """Return its key, standard and fit."""
        found = self.new or self.old
        assert found is not None
        return found.what.removeprefix("shaft sheet: ")

    @property
    def rows(self) -> frozenset[str]:
        """Return the ids of the figures that it rested and rests on."""
        return frozenset((self.old.rows if self.old else ()) + (self.new.rows if self.new else ()))


@dataclass(frozen=True)
class Change:
    """One figure that differs.

    Parameters
    ----------
    id
        Its address.
    old, new
        The figure before and after.
    kind
        One of `KINDS`.
    effects
        Limits of seats that moved with it.
    says
        Why it is of substance, or of print only.
    substance
        Whether a cut inside the old limits can now be outside.
    pages
        Pages of the printed set that print it or a figure computed from it.
    sheets
        Shaft sheets that can be asked for, which print it or a figure computed from it.
    """

    id: str
    old: Cell | None
    new: Cell | None
    kind: str
    effects: tuple[Effect, ...]
    says: str
    substance: bool
    pages: tuple[PageChange, ...] = ()
    sheets: tuple[SheetChange, ...] = ()

    @property
    def ids(self) -> frozenset[str]:
        """Return its ids before and after, as pages have them; none if nothing printed changes."""
        cells = () if self.kind == SOURCE else (self.old, self.new)
        return frozenset(cell.id for cell in cells if cell is not None)

    @property
    def table(self) -> str:
        """Return its table."""
        return self.id.partition("/")[0]

    @property
    def row(self) -> str:
        """Return its row."""
        return self.id.partition("/")[2].rpartition("/")[0]

    @property
    def column(self) -> str:
        """Return its column."""
        return self.id.rpartition("/")[2]

    @property
    def worst(self) -> Effect | None:
        """Return the limit that a piece can be furthest outside of."""
        outside = [e for e in self.effects if e.outside]
        return max(outside, key=lambda e: e.by.value if e.by else 0, default=None)


@dataclass(frozen=True)
class Comparison:
    """All that differs between two sets of tables; figures of substance first."""

    changes: tuple[Change, ...]
    pages: tuple[PageChange, ...]
    sheets: tuple[SheetChange, ...]

    @property
    def substance(self) -> tuple[Change, ...]:
        """Return the changes of substance."""
        return tuple(c for c in self.changes if c.substance)

    def harmful(self, page: PageChange | SheetChange) -> bool:
        """Return whether a page has a figure that changed in substance."""
        ids = {c.id for change in self.substance for c in (change.old, change.new) if c}
        return not ids.isdisjoint(page.rows)


def differences(old: Tables, new: Tables) -> list[tuple[str, Cell | None, Cell | None]]:
    """Return every figure whose text, standing or source differs, in the order of the tables."""
    then = {cell.id: cell for cell in figures_of(old).all()}
    now = {cell.id: cell for cell in figures_of(new).all()}
    rows = renamed(old, new)
    found = []
    for name, cell in now.items():
        row, _, column = name.rpartition("/")
        before = then.pop(f"{rows.get(row, row)}/{column}", None)
        if before is None or replace(before, id=name) != cell:
            found.append((name, before, cell))
    return [*found, *((name, before, None) for name, before in then.items())]


def compare(old: Tables, new: Tables) -> Comparison:
    """Compare two sets of tables.

    Parameters
    ----------
    old, new
        The tables before and after.

    Returns
    -------
    Comparison
        Each figure that differs, with its meaning and its pages.
    """
    found = figures_changed(old, new)
    if not found:
        return Comparison((), (), ())
    changed = {name for change in found for name in change.ids}
    pages = page_changes(printed(old), printed(new), changed)
    sheets = _sheet_changes(old, new)
    changes = []
    for change in found:
        ids = change.ids
        here = tuple(p for p in pages if not ids.isdisjoint(p.rows))
        asked = tuple(s for s in sheets if not ids.isdisjoint(s.rows))
        changes.append(replace(change, pages=here, sheets=asked))
    changes = _follow(changes, pages, changed)
    return Comparison(tuple(changes), tuple(pages), tuple(sheets))


def figures_changed(old: Tables, new: Tables) -> list[Change]:
    """Return each figure that differs with its meaning, of substance first; pages aside.

    Parameters
    ----------
    old, new
        The tables before and after.
    """
    found = differences(old, new)
    moved = effects(old, new) if found else []
    changes = []
    for name, then, now in found:
        kind = kind_of(then, now)
        change = Change(name, then, now, kind, (), "", False)
        hit = tuple(e for e in moved if not change.ids.isdisjoint(e.rows))
        substance, says = meaning(name, then, now, kind, hit)
        changes.append(replace(change, effects=hit, says=says, substance=substance))
    return sorted(changes, key=lambda c: (not c.substance, KINDS.index(c.kind)))


def kind_of(old: Cell | None, new: Cell | None) -> str:
    """Return of which of `KINDS` a difference is."""
    if old is None:
        return ADDED
    if new is None:
        return WITHDRAWN
    if old.text != new.text:
        return TEXT
    return STANDING if old.mark != new.mark else SOURCE


def page_changes(
    old: Iterable[Printed], new: Iterable[Printed], changed: set[str]
) -> list[PageChange]:
    """Return the pages that print a changed figure, or that say something else than before."""
    then = {(p.sheet, p.paper, p.slug): p for p in old}
    now = {(p.sheet, p.paper, p.slug): p for p in new}
    names = [*now, *(name for name in then if name not in now)]
    both = [PageChange(then.get(name), now.get(name)) for name in names]
    return [p for p in both if not (changed.isdisjoint(p.rows) and p.same_code and p.alike)]


def _sheet_changes(old: Tables, new: Tables) -> list[SheetChange]:
    then = {(s.what, s.rows[0]): s for s in shaft_sheets(old)}
    now = {(s.what, s.rows[0]): s for s in shaft_sheets(new)}
    both = [SheetChange(then.get(n), now.get(n)) for n in dict.fromkeys([*now, *then])]
    return [s for s in both if s.old is None or s.new is None or s.old.code != s.new.code]


def _follow(changes: list[Change], pages: list[PageChange], changed: set[str]) -> list[Change]:
    """Give pages that say something else, but print no changed figure, to those of their tables."""
    loose = [p for p in pages if changed.isdisjoint(p.rows)]
    if not loose:
        return changes
    out = []
    for change in changes:
        mine = [p for p in loose if any(r.startswith(f"{change.table}/") for r in p.rows)]
        if change.kind == SOURCE:
            mine = []
        out.append(_with_pages(change, (*change.pages, *mine)))
    return out


def _with_pages(change: Change, pages: tuple[PageChange, ...]) -> Change:
    return replace(change, pages=pages)


def meaning(
    name: str, old: Cell | None, new: Cell | None, kind: str, hit: tuple[Effect, ...]
) -> tuple[bool, str]:
    """Return whether a change is of substance, and why.

    Parameters
    ----------
    name
        The figure's id.
    old, new
        It before and after.
    kind
        One of `KINDS`.
    hit
        The limits that moved with it.
    """
    outside = [e for e in hit if e.outside]
    if outside:
        worst = max(outside, key=lambda e: e.by.value if e.by else 0)
        more = len({e.seat for e in outside}) - 1
        return True, worst.says + (f"; and {more} more" if more else "")
    if kind == ADDED:
        return False, "new"
    if kind == WITHDRAWN:
        return False, "withdrawn; no limit of a cut rested on it"
    if kind == STANDING:
        lost = new is not None and not new.recalled
        return False, "read now; its dagger goes" if lost else "recalled now; it gets a dagger"
    if kind == SOURCE:
        return False, "another source for the same figure"
    assert old is not None
    assert new is not None
    if _same(old.text, new.text):
        return False, "the same value, printed otherwise"
    table, column = name.partition("/")[0], name.rpartition("/")[2]
    if column in _RANGES.get(table, ()) and old.text and new.text:
        low, high = sorted((old.text, new.text), key=number)
        return True, f"shafts over {low} to {high} take another key now"
    if hit:
        return False, "the limits are only wider than they were"
    return False, "no limit of a cut rests on it"


def _same(one: str, other: str) -> bool:
    try:
        return number(one) == number(other)
    except ValueError:
        return False
