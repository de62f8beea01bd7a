"""All that can change a page, as hashes: the tables, our own code, the fonts and the libraries.

Every build hashes some hundred files: `os` does it several times as fast as `pathlib`.
"""
# ruff: noqa: PTH100, PTH112, PTH118, PTH120, PTH123, PTH208

from __future__ import annotations

import hashlib
import os
import sys
import zlib
from collections.abc import Iterable, Iterator

PACKAGE = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
# Whatever can change a byte of a page, of its picture or of the index.
LIBRARIES = (
    "fonttools",
    "jinja2",
    "matplotlib",
    "numpy",
    "pikepdf",
    "pillow",
    "pypdfium2",
    "reportlab",
    "rl_accel",
    "segno",
)
EDITIONS = "editions/"
# Read by every page: the edition is printed, and what was corrected since the last is marked.
BY_ALL = ("edition.toml", EDITIONS)
_TABLES = (".csv", ".toml")


class Inputs:
    """What pages are made from, as it is now.

    Parameters
    ----------
    code
        A hash of our own code, the fonts, and name and version of every library.
    tables
        The hash of every file of the tables by name.
    """

    def __init__(self, code: str, tables: dict[str, str]) -> None:
        self.code = code
        self.tables = tables

    def whole(self) -> str:
        """Return a hash of all of it."""
        return self.of(self.tables)

    def of(self, reads: Iterable[str]) -> str:
        """Return a hash of the code and of some files of the tables.

        Parameters
        ----------
        reads
            Names of files; a name that ends in a slash means every file in that folder.
        """
        lines = [self.code]
        for name in sorted(reads):
            if name.endswith("/"):
                lines += [f"{n}\t{h}" for n, h in sorted(self.tables.items()) if n.startswith(name)]
            lines.append(f"{name}\t{self.tables.get(name, '')}")
        return sha("\n".join(lines).encode())


def now(tables: str | os.PathLike[str]) -> Inputs:
    """Return what pages of a folder of tables are made from."""
    folder = os.path.realpath(tables)
    return Inputs(_code(folder), _tables(folder))


def _tables(folder: str) -> dict[str, str]:
    found = {}
    for name in sorted(os.listdir(folder)):
        if name.endswith(_TABLES):
            found[name] = file_sha(os.path.join(folder, name))
    archive = os.path.join(folder, EDITIONS)
    if os.path.isdir(archive):
        for name in sorted(os.listdir(archive)):
            if name.endswith(".json"):
                found[EDITIONS + name] = file_sha(os.path.join(archive, name))
    return found


def _code(tables: str) -> str:
    lines = []
    for name, path in sorted(_package_files(tables)):
        lines.append(f"{name}\t{file_sha(path)}")
    return sha("\n".join([*lines, *machine()]).encode())


def _package_files(tables: str) -> Iterator[tuple[str, str]]:
    # In a wheel the tables are a folder of the package; they are counted as tables.
    skipped = {tables, os.path.join(PACKAGE, "tables")}
    for place, folders, names in os.walk(PACKAGE):
        folders[:] = [
            f for f in folders if f != "__pycache__" and os.path.join(place, f) not in skipped
        ]
        short = place[len(PACKAGE) + 1 :].replace(os.sep, "/")
        for name in names:
            if name[0] != "." and not name.endswith((".pyc", ".orig", ".rej", "~")):
                yield f"{short}/{name}", os.path.join(place, name)


def machine() -> list[str]:
    """Return name and version of all that is not ours and can change a byte; imports none of it."""
    found = {f"python-{sys.version_info[0]}.{sys.version_info[1]}"}
    found.add(f"zlib-{zlib.ZLIB_RUNTIME_VERSION}")
    for place in sys.path:
        try:
            names = os.listdir(place or ".")
        except OSError:
            continue
        for name in names:
            if name.endswith("-info") and name.lower().startswith(LIBRARIES):
                library, version = name.lower().split("-")[:2]
                if library in LIBRARIES:
                    found.add(f"{library}-{version.removesuffix('.dist').removesuffix('.egg')}")
    return sorted(found)


def engine(*names: str) -> str:
    """Return a hash of some of our files with the fonts and the libraries.

    Parameters
    ----------
    names
        Files and folders of the package.
    """
    paths: list[str] = []
    for name in names:
        path = os.path.join(PACKAGE, name)
        if os.path.isdir(path):
            paths += [os.path.join(path, n) for n in os.listdir(path) if not n.startswith("_")]
        else:
            paths.append(path)
    lines = [f"{os.path.relpath(p, PACKAGE)}\t{file_sha(p)}" for p in sorted(paths)]
    return sha("\n".join([*lines, *machine()]).encode())


def sha(data: bytes) -> str:
    """Return the SHA-256 of some bytes."""
    return hashlib.sha256(data).hexdigest()


def file_sha(path: str | os.PathLike[str]) -> str:
    """Return the SHA-256 of a file, or nothing if it is not there or cannot be read."""
    try:
        with open(path, "rb") as file:
            return sha(file.read())
    except OSError:
        return ""
