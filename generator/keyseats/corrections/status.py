"""What a page code says of its page: current, not current and why, or unknown."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any

from keyseats.corrections.archive import Issue, Past, editions, table_files
from keyseats.corrections.code import read_code
from keyseats.corrections.compare import kind_of, meaning
from keyseats.corrections.effects import Effect, effects
from keyseats.corrections.figures import Cell, figures_of
from keyseats.corrections.issued import Printed, issues, printed, title_of
from keyseats.corrections.shaft_codes import shaft_sheets
from keyseats.corrections.stamping import stamp
from keyseats.corrections.told import cell_data, quantity
from keyseats.load import Tables

CURRENT, OLDER, STALE, UNKNOWN = "current", "older edition", "not current", "unknown"


@dataclass(frozen=True)
class Corrected:
    """A figure of a page that is not what it was when the page was made, and what that means."""

    old: Cell | None
    new: Cell | None
    effects: tuple[Effect, ...]
    substance: bool
    says: str

    @property
    def id(self) -> str:
        """Return its address."""
        return _id(self.old, self.new)

    @property
    def worst(self) -> Effect | None:
        """Return the limit that a piece can be furthest outside of, if any."""
        outside = [e for e in self.effects if e.outside]
        return max(outside, key=lambda e: e.by.value if e.by else 0, default=None)


@dataclass(frozen=True)
class Status:
    """What is known of a page by its code.

    Parameters
    ----------
    code
        The code as pages print it.
    state
        ``current``, ``older edition``, ``not current`` or ``unknown``.
    title
        The page, or nothing if unknown.
    editions
        Numbers of the editions that issued the code.
    latest
        The edition to compare with.
    corrected
        The figures that changed.
    then
        The tables that the page was made from.
    """

    code: str
    state: str
    title: str
    editions: tuple[str, ...]
    latest: str
    corrected: tuple[Corrected, ...] = ()
    then: Tables | None = None

    @property
    def take_down(self) -> bool:
        """Return whether the page can lead to a cut outside the limits."""
        return any(c.substance for c in self.corrected)

    @property
    def good(self) -> bool:
        """Return whether its figures are those of the tables now."""
        return self.state in (CURRENT, OLDER)


class Register:
    """All page codes that are known: of archived editions, and of the tables now."""

    def __init__(self, tables: Tables) -> None:
        self.tables = tables
        self.past = editions(tables.folder)

    @cached_property
    def settled(self) -> bool:
        """Return whether the tables are those of the last edition."""
        return bool(self.past) and table_files(self.tables.folder) == self.past[-1].files

    @cached_property
    def pages(self) -> list[Printed]:
        """Return the pages of the printed set as the tables now make them."""
        return printed(self.tables, codes_only=True)

    @cached_property
    def rows(self) -> frozenset[str]:
        """Return the ids of all that those pages rest on."""
        return frozenset(row for page in self.pages for one in page.stamps for row in one.rows)

    def find(self, code: str) -> tuple[Issue, tuple[Past, ...]] | None:
        """Return what a code stands for and the editions that issued it, or None if unknown.

        Codes are looked for in the archive first; then, since sheets may be laid out otherwise
        than when an edition was archived, or be in another material, among those that its tables
        would issue now: shaft sheets, then the printed set.
        """
        listed = [(past, past.issue(code)) for past in self.past]
        found = [(past, issue) for past, issue in listed if issue is not None]
        if found:
            return found[-1][1], tuple(past for past, _ in found)
        sides: list[tuple[Tables, tuple[Past, ...]]] = [
            (past.tables, (past,)) for past in reversed(self.past)
        ]
        if not self.settled:
            sides.insert(0, (self.tables, ()))
        for look in (_among_sheets, self._among_pages):
            for tables, past in sides:
                issue = look(tables, code)
                if issue is not None:
                    return issue, past
        return None

    def _among_pages(self, tables: Tables, code: str) -> Issue | None:
        """Look among the pages of the printed set, composed anew only where that can matter."""
        for page in self.pages:
            for one in page.stamps:
                made = stamp(tables, one.what, one.rows)
                if made.code == code:
                    return made, title_of(made, page.title)
        then, now = figures_of(tables), figures_of(self.tables)
        if all(_text(then.get(row)) == _text(now.get(row)) for row in self.rows):
            return None
        return issues(tables, printed(tables, codes_only=True)).get(code)


def _among_sheets(tables: Tables, code: str) -> Issue | None:
    for one in shaft_sheets(tables, every=True):
        if one.code == code:
            return one, one.what
    return None


def _text(cell: Cell | None) -> str | None:
    return cell.text if cell else None


def status(tables: Tables, typed: str) -> Status:
    """Return what is known of the page that a code was read off.

    Parameters
    ----------
    tables
        The tables now, with the archive beside them.
    typed
        The code as it was typed.

    Raises
    ------
    TypedError
        If the code is mistyped.
    """
    code = read_code(typed)
    register = Register(tables)
    latest = register.past[-1].number if register.past else tables.edition.number
    found = register.find(code)
    if found is None:
        return Status(code, UNKNOWN, "", (), latest)
    (stamp, title), from_editions = found
    numbers = tuple(past.number for past in from_editions)
    if not from_editions:
        return Status(code, CURRENT, title, (), latest, (), tables)
    then = from_editions[-1].tables
    old, new = figures_of(then), figures_of(tables)
    changed = []
    for name in stamp.rows:
        before, after = old.get(name), new.get(name)
        if _printed(before) != _printed(after):
            changed.append((before, after))
    if not changed:
        state = CURRENT if latest in numbers else OLDER
        return Status(code, state, title, numbers, latest, (), then)
    moved = effects(then, tables)
    corrected = []
    for before, after in changed:
        name = _id(before, after)
        hit = tuple(e for e in moved if name in e.rows)
        substance, says = meaning(name, before, after, kind_of(before, after), hit)
        corrected.append(Corrected(before, after, hit, substance, says))
    order = tuple(sorted(corrected, key=lambda c: not c.substance))
    return Status(code, STALE, title, numbers, latest, order, then)


def _printed(cell: Cell | None) -> tuple[str, str] | None:
    return (cell.counted, cell.mark) if cell else None


def _id(before: Cell | None, after: Cell | None) -> str:
    found = after or before
    return found.id if found else ""


def lines(found: Status) -> list[str]:
    """Return a status as lines for a screen."""
    if found.state == UNKNOWN:
        return [
            f"{found.code}: unknown. It is a page code, but no edition to {found.latest} issued "
            "it: the page was made from a corrected copy of the tables, or from a later edition"
        ]
    said = [f"{found.code}: {found.title}"]
    issued = _of(found.editions)
    if found.state == CURRENT:
        whose = f"{issued}" if issued else "the tables now, corrected since the last edition"
        said.append(f"current: its figures are those of {whose}")
        if len(found.editions) > 1:
            said.append("the page may say any of them: nothing on it changed")
    elif found.state == OLDER:
        said.append(
            f"older edition, current figures: made from {issued}; edition {found.latest} has the "
            "same figures, but sets the page otherwise. It may stay"
        )
    else:
        count = len(found.corrected)
        said.append(
            f"not current: made from {issued}; {count} figure{'s' if count > 1 else ''} of it "
            "changed since"
        )
        for one in found.corrected:
            said += _corrected(one)
        said.append(
            "TAKE IT DOWN: a cut inside its limits can be outside the new ones"
            if found.take_down
            else "it may stay: print it again when you can"
        )
    return said


def _of(numbers: tuple[str, ...]) -> str:
    if not numbers:
        return ""
    word = "edition" if len(numbers) == 1 else "editions"
    return f"{word} {' and '.join(numbers)}"


def _corrected(one: Corrected) -> list[str]:
    said = [f"  {one.id}"]
    for word, cell in (("was", one.old), ("is", one.new)):
        shown = "not there" if cell is None else cell.shown
        source = f"  ({cell.source})" if cell and cell.source else ""
        said.append(f"    {word:<4}{shown}{source}")
    said.append(f"    {'of substance' if one.substance else 'of print only'}: {one.says}")
    return said


def data(found: Status, now: Tables) -> dict[str, Any]:
    """Return a status as data, by ``docs/current.schema.json``."""
    then = found.then or now
    return {
        "code": found.code,
        "state": found.state,
        "page": found.title or None,
        "editions": list(found.editions),
        "latest": found.latest,
        "take_down": found.take_down,
        "corrected": [
            {
                "figure": one.id,
                "old": cell_data(one.old, then),
                "new": cell_data(one.new, now),
                "substance": one.substance,
                "by": quantity(one.worst.by) if one.worst else None,
                "side": one.worst.side if one.worst else None,
                "says": one.says,
            }
            for one in found.corrected
        ],
    }
