"""What the last build made, and from what: sorted, with no time and no path of a machine."""

from __future__ import annotations

import hashlib
import json
import sys
from dataclasses import asdict, dataclass, field
from pathlib import Path

from keyseats.faults import KeyseatError
from keyseats.writing import write_whole

NAME = "manifest.json"
LIBRARIES = ("jinja2", "pikepdf", "pillow", "pypdfium2", "reportlab")


@dataclass(frozen=True)
class PageRecord:
    """One page of a file: where it is, and which figures it prints."""

    slug: str
    title: str
    key: str
    rows: tuple[str, ...]


@dataclass(frozen=True)
class FileRecord:
    """One file of the set: what made it, and what was written."""

    sheet: str
    paper: str
    inputs: str
    key: str
    written: str
    title: str = ""
    kind: str = ""
    distance_m: float = 0.0
    pages: tuple[PageRecord, ...] = ()


@dataclass(frozen=True)
class Derived:
    """A file that only shows others: what it was made from, and what was written."""

    made_from: str
    written: str


@dataclass
class Manifest:
    """The files of an output folder by name: sheets, and the index and pictures that show them."""

    files: dict[str, FileRecord] = field(default_factory=dict)
    derived: dict[str, Derived] = field(default_factory=dict)

    def save(self, where: Path) -> None:
        """Write the manifest into the output folder."""
        data = {
            "derived": {name: asdict(entry) for name, entry in self.derived.items()},
            "files": {name: asdict(entry) for name, entry in self.files.items()},
        }
        text = json.dumps(data, indent=1, sort_keys=True, ensure_ascii=False) + "\n"
        write_whole(where / NAME, text.encode())


def load(where: Path) -> Manifest:
    """Read the manifest of an output folder; an absent one is empty.

    Raises
    ------
    KeyseatError
        If it is there and cannot be read.
    """
    path = where / NAME
    if not path.is_file():
        return Manifest()
    try:
        data = json.loads(path.read_bytes())
        files = {}
        for name, entry in data["files"].items():
            pages = tuple(PageRecord(**{**p, "rows": tuple(p["rows"])}) for p in entry["pages"])
            files[name] = FileRecord(**{**entry, "pages": pages})
        derived = {name: Derived(**entry) for name, entry in data["derived"].items()}
        return Manifest(files, derived)
    except (ValueError, KeyError, TypeError, AttributeError):
        raise KeyseatError(
            f"{path} is not a manifest of this program; delete it and build again"
        ) from None


def sha(data: bytes) -> str:
    """Return the SHA-256 of some bytes."""
    return hashlib.sha256(data).hexdigest()


def file_sha(path: Path) -> str:
    """Return the SHA-256 of a file, or nothing if it is not there."""
    try:
        return sha(path.read_bytes())
    except OSError:
        return ""


def library_versions() -> list[str]:
    """Return name and version of each library that can change a byte, without importing any."""
    found = []
    for entry in sys.path:
        place = Path(entry)
        if place.is_dir():
            for name in LIBRARIES:
                found += [d.name for d in place.glob(f"{name}-*.dist-info")]
    return sorted(set(found))


def inputs(tables: Path) -> str:
    """Return a hash of all that can change a page: tables, our own code, fonts and libraries."""
    digest = hashlib.sha256()
    package = Path(__file__).resolve().parent
    tables = tables.resolve()
    files = [(f"tables/{p.name}", p) for p in tables.iterdir() if p.suffix in (".csv", ".toml")]
    for path in package.rglob("*"):
        ours = path.suffix in (".py", ".ttf", ".json", ".html") and tables not in path.parents
        if ours and "__pycache__" not in path.parts:
            files.append((path.relative_to(package).as_posix(), path))
    for name, path in sorted(files):
        digest.update(f"{name}\0{file_sha(path)}\n".encode())
    digest.update("\n".join(library_versions()).encode())
    digest.update(f"{sys.version_info[:2]}".encode())
    return digest.hexdigest()


def engine() -> str:
    """Return a hash of what turns page models into bytes: renderers, typeface and libraries."""
    package = Path(__file__).resolve().parent
    paths = [package / "renderers" / "pdf.py", package / "renderers" / "finish.py"]
    paths += [*package.glob("fonts/*"), package / "typeface.py"]
    lines = [f"{p.name} {file_sha(p)}" for p in sorted(paths) if p.is_file()]
    return sha("\n".join([*lines, *library_versions(), f"{sys.version_info[:2]}"]).encode())
