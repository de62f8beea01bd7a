"""A copy of the shipped tables with its archive, corrected cell by cell, and the commands on it."""

from __future__ import annotations

import hashlib
import shutil
from pathlib import Path

import pytest

from keyseats.__main__ import main
from keyseats.corrections.archive import FOLDER, editions
from keyseats.paths import tables_dir
from tables.planting import Bed


def copy(where: Path) -> Bed:
    """Return a copy of the shipped tables, editions included."""
    shutil.copytree(tables_dir(), where)
    return Bed(where)


def clean(where: Path) -> Bed:
    """Return a copy whose tables are those of the last archived edition."""
    bed = copy(where)
    past = editions(bed.folder)[-1]
    for name, lines in past.files.items():
        (bed.folder / name).write_bytes("\n".join(lines).encode())
    return bed


def snapshot(*folders: Path) -> dict[str, str]:
    """Return the hash of every file, and every folder, by path."""
    found = {}
    for folder in folders:
        for path in sorted(folder.rglob("*")):
            data = path.read_bytes() if path.is_file() else b"folder"
            found[str(path)] = hashlib.sha256(data).hexdigest()
    return found


def answer(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    """Run a command; return its exit code, output and messages."""
    code = main(list(words))
    said = capsys.readouterr()
    return code, said.out, said.err


__all__ = ["FOLDER", "answer", "clean", "copy", "snapshot"]
