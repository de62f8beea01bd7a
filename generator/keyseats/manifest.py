"""What the last build made, and from what: sorted, with no time and no path of a machine."""

from __future__ import annotations

import json
import os
import re
from pathlib import Path
from typing import Any, NamedTuple

from keyseats.building.inputs import file_sha as file_sha
from keyseats.building.inputs import sha as sha
from keyseats.faults import KeyseatError

NAME = "manifest.json"
_OURS = re.compile(r"(previews/)?[a-z0-9][a-z0-9._-]*\.(pdf|png|html)")
_SUM = re.compile(rb',\n "sum": "([0-9a-f]{64})"\n}\n$')


class PageRecord(NamedTuple):
    """One page of a file: its key, and the figures that it prints or rests on.

    ``figures`` has, for ``table/row``, each column with a short hash of the figure as it was read.
    """

    slug: str
    title: str
    key: str
    figures: dict[str, str]


class FileRecord(NamedTuple):
    """One file of the set: what made it, and what was written.

    Parameters
    ----------
    sheet, paper
        What it is.
    inputs
        Hash of all the tables and code that it was last found right for.
    reads
        The files of the tables that its composing reads.
    read
        Hash of those and of the code.
    key
        Hash of all that can change its bytes.
    written
        Hash of its bytes; blank while a build replaces it.
    """

    sheet: str
    paper: str
    inputs: str
    reads: tuple[str, ...]
    read: str
    key: str
    written: str
    title: str = ""
    kind: str = ""
    distance_m: float = 0.0
    pages: tuple[PageRecord, ...] = ()


class Derived(NamedTuple):
    """A file that only shows others: a hash of what it was made from, and of its bytes."""

    made_from: str
    written: str


class Manifest:
    """The files of an output folder by name: sheets, and the index and pictures that show them.

    Attributes
    ----------
    files, derived
        What was made.
    sheets
        The papers of every sheet that there is.
    code
        The hash of the code that found them.
    damaged
        Whether a manifest was there that no build left so.
    """

    def __init__(
        self,
        files: dict[str, FileRecord] | None = None,
        derived: dict[str, Derived] | None = None,
        sheets: dict[str, tuple[str, ...]] | None = None,
        code: str = "",
    ) -> None:
        self.files = files or {}
        self.derived = derived or {}
        self.sheets = sheets or {}
        self.code = code
        self.damaged = False

    def text(self) -> bytes:
        """Return the manifest as it is written, its own sum last."""
        files = {}
        for name, record in self.files.items():
            files[name] = {**record._asdict(), "pages": [p._asdict() for p in record.pages]}
        data = {
            "code": self.code,
            "derived": {name: entry._asdict() for name, entry in self.derived.items()},
            "files": files,
            "sheets": self.sheets,
        }
        body = json.dumps(data, indent=1, sort_keys=True, ensure_ascii=False).encode()
        body = body.removesuffix(b"\n}")
        return body + f',\n "sum": "{sha(body)}"\n}}\n'.encode()

    def save(self, where: Path) -> None:
        """Write the manifest into the output folder."""
        from keyseats.writing import write_whole

        write_whole(where / NAME, self.text())


def raw(where: str | os.PathLike[str]) -> dict[str, Any] | None:
    """Read a manifest as plain data: empty if it is absent, None if no build left it so.

    Raises
    ------
    KeyseatError
        If the file is another program's.
    """
    path = Path(where, NAME)
    try:
        text = path.read_bytes()
    except (FileNotFoundError, NotADirectoryError, IsADirectoryError):
        return {}
    except OSError as fault:
        raise KeyseatError(f"{path} cannot be read: {fault.strerror}") from None
    told = _SUM.search(text)
    if told is not None and sha(text[: told.start()]) == told.group(1).decode():
        data: dict[str, Any] = json.loads(text)
        return data
    try:
        found = json.loads(text)
    except (ValueError, RecursionError):
        return None
    if not isinstance(found, dict) or not ({"files", "sum"} & found.keys()):
        raise KeyseatError(
            f"{path} is not a manifest of this program; move it away, or give --output"
        )
    return None


def load(where: Path) -> Manifest:
    """Read the manifest of an output folder; an absent one is empty, and so is a damaged one.

    Raises
    ------
    KeyseatError
        If the file is another program's.
    """
    data = raw(where)
    if not data:
        made = Manifest()
        made.damaged = data is None
        return made
    try:
        files = {}
        for name, entry in data["files"].items():
            pages = tuple(PageRecord(**page) for page in entry["pages"])
            files[name] = FileRecord(**{**entry, "reads": tuple(entry["reads"]), "pages": pages})
        derived = {name: Derived(**entry) for name, entry in data["derived"].items()}
        sheets = {name: tuple(papers) for name, papers in data["sheets"].items()}
        if all(_OURS.fullmatch(name) for name in (*files, *derived)):
            return Manifest(files, derived, sheets, data["code"])
    except (KeyError, TypeError, AttributeError):
        pass
    made = Manifest()
    made.damaged = True
    return made
