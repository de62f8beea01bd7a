"""The archive of editions: what each edition's tables said, and the page codes that it issued.

One JSON file an edition under ``editions/`` in the folder of tables, the first whole, each later
one as its difference from the one before, line by line. Text, sorted, with no time and no path.
"""

from __future__ import annotations

import difflib
import json
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from keyseats.faults import TableError
from keyseats.load import Tables, read_text
from keyseats.page import Stamp

FOLDER = "editions"
Issue = tuple[Stamp, str]


class ArchivedTables(Tables):
    """The tables of a past edition, read from the archive."""

    def __init__(self, folder: Path, files: dict[str, list[str]]) -> None:
        super().__init__(folder)
        self._files = files

    def text(self, name: str) -> str:
        """Return a file of the edition as text."""
        if name not in self._files:
            raise TableError(f"{name} is not in edition {self.edition.number} of the archive")
        return "\n".join(self._files[name])


@dataclass(frozen=True)
class Past:
    """One archived edition.

    Parameters
    ----------
    number, date
        As its pages print them.
    folder
        The folder of tables that the archive is in.
    files
        Lines of each file of its tables.
    packed
        What each of its page codes stands for: what the page is, its title if that differs, and
        its figures by the places of their groups.
    groups
        Figures that stand together: a table, its columns, and the rows that have them.
    """

    number: str
    date: str
    folder: Path
    files: dict[str, list[str]]
    packed: dict[str, list[Any]]
    groups: list[str]

    @cached_property
    def tables(self) -> ArchivedTables:
        """Return its tables."""
        return ArchivedTables(self.folder, self.files)

    def issue(self, code: str) -> Issue | None:
        """Return what a code of this edition stands for and its title, or None."""
        found = self.packed.get(code)
        if found is None:
            return None
        what, title, *rows = found
        return Stamp(code, what, unpacked(rows, self.groups)), title or what


def editions(folder: Path) -> list[Past]:
    """Return the archived editions of a folder of tables, first to last.

    An archive beyond the edition that the tables print was not finished, and is passed over.

    Raises
    ------
    TableError
        If a file of the archive cannot be read.
    """
    place = folder / FOLDER
    last = _whole(Tables(folder).edition.number)
    numbers = sorted(
        number
        for path in (place.glob("*.json") if place.is_dir() else ())
        if (number := _whole(path.stem)) and (not last or number <= last)
    )
    found: list[Past] = []
    for number in numbers:
        found.append(_read(folder, number, found[-1] if found else None))
    return found


def _whole(text: str) -> int:
    return int(text) if text.isascii() and text.isdigit() else 0


def _read(folder: Path, number: int, before: Past | None) -> Past:
    path = folder / FOLDER / f"{number}.json"
    try:
        data = json.loads(read_text(path))
        if data["after"] != (before.number if before else ""):
            raise ValueError
        files = dict(before.files) if before else {}
        packed = dict(before.packed) if before else {}
        groups = [*(before.groups if before else []), *data["groups"]]
        for name, edits in data["tables"].items():
            files[name] = _edited(files.get(name, []), edits)
        for name in data["gone"]:
            del files[name]
        for code, entry in data["issued"].items():
            # The same page as one of the edition before, with other figures.
            packed[code] = before.packed[entry] if before and isinstance(entry, str) else entry
        for code in data["withdrawn"]:
            del packed[code]
        return Past(data["number"], data["date"], folder, files, packed, groups)
    except (ValueError, KeyError, TypeError, IndexError, AttributeError):
        raise TableError(
            f"{FOLDER}/{path.name} is not an archive of an edition; put the file back as it was"
        ) from None


def _edited(lines: list[str], edits: list[Any]) -> list[str]:
    """Return lines after edits ``[at, how many go, new lines]``, the last place first."""
    done = list(lines)
    for at, count, new in edits:
        done[at : at + count] = new
    return done


def _edits(old: list[str], new: list[str]) -> list[Any]:
    found = [
        [start, end - start, new[first:last]]
        for tag, start, end, first, last in difflib.SequenceMatcher(
            None, old, new, autojunk=False
        ).get_opcodes()
        if tag != "equal"
    ]
    return found[::-1]


def table_files(folder: Path) -> dict[str, list[str]]:
    """Return the lines of every file of a folder of tables."""
    paths = [*folder.glob("*.csv"), folder / "edition.toml"]
    kept = [path for path in sorted(paths) if not path.name.startswith(".")]
    return {path.name: read_text(path).split("\n") for path in kept}


def archived(folder: Path, before: Past | None, issues: Iterable[Issue]) -> bytes:
    """Return the archive file of a folder's edition.

    Parameters
    ----------
    folder
        The tables, whose ``edition.toml`` names the edition.
    before
        The last edition archived before it.
    issues
        Every page code that it issues, with the title of its page.
    """
    files, edition = table_files(folder), Tables(folder).edition
    old = before.files if before else {}
    known = before.packed if before else {}
    groups = list(before.groups) if before else []
    same = {json.dumps(entry): code for code, entry in known.items()}
    packed: dict[str, list[Any]] = {}
    for code, stamp, title in sorted((s.code, s, title) for s, title in issues):
        shown = "" if title == stamp.what else title
        packed[code] = [stamp.what, shown, *rows_packed(stamp.rows, groups)]
    data = {
        "number": edition.number,
        "date": edition.date,
        "after": before.number if before else "",
        "tables": {n: _edits(old.get(n, []), files[n]) for n in files if files[n] != old.get(n)},
        "groups": groups[len(before.groups) if before else 0 :],
        "gone": sorted(old.keys() - files.keys()),
        "withdrawn": sorted(known.keys() - packed.keys()),
        "issued": {
            code: same.get(json.dumps(entry), entry)
            for code, entry in packed.items()
            if known.get(code) != entry
        },
    }
    return _laid_out(data).encode()


def _laid_out(data: dict[str, Any]) -> str:
    """Return JSON with one line a table row and one a page code, so that differences read well."""

    def short(value: Any) -> str:
        return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"))

    out = ["{"]
    for name in ("number", "date", "after", "gone", "withdrawn"):
        out.append(f"{short(name)}:{short(data[name])},")
    out.append('"groups":[')
    out.append(",\n".join(short(group) for group in data["groups"]))
    out.append("],")
    out.append('"tables":{')
    for n, name in enumerate(sorted(data["tables"])):
        out.append(("," if n else "") + f"{short(name)}:[")
        for m, (at, count, new) in enumerate(data["tables"][name]):
            out.append(("," if m else "") + f"[{at},{count},[")
            out.append(",\n".join(short(line) for line in new))
            out.append("]]")
        out.append("]")
    out.append('},"issued":{')
    issued = data["issued"]
    out.append(",\n".join(f"{short(code)}:{short(issued[code])}" for code in sorted(issued)))
    out.append("}}")
    return "\n".join(out) + "\n"


def rows_packed(rows: Iterable[str], groups: list[str]) -> list[int]:
    """Return row ids packed: the places of their groups.

    Parameters
    ----------
    rows
        Ids of figures.
    groups
        Figures that stand together, each written once; new ones are added at the end.
    """
    by_row: dict[tuple[str, str], list[str]] = {}
    for name in sorted(rows):
        table, _, rest = name.partition("/")
        row, _, column = rest.rpartition("/")
        by_row.setdefault((table, row), []).append(column)
    together: dict[str, list[str]] = {}
    for (table, row), columns in by_row.items():
        together.setdefault(f"{table} {' '.join(columns)}", []).append(row)
    found = []
    for head, names in together.items():
        group = "|".join((head, *names))
        if group not in groups:
            groups.append(group)
        found.append(groups.index(group))
    return found


def unpacked(packed: Iterable[int], groups: list[str]) -> tuple[str, ...]:
    """Return the row ids of a packed list, sorted."""
    found = []
    for place in packed:
        columns, *rows = groups[place].split("|")
        table, *names = columns.split(" ")
        found += [f"{table}/{row}/{name}" for row in rows for name in names]
    return tuple(sorted(found))
