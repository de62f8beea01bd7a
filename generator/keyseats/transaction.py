"""Several files written and removed as one step: all of it, or nothing.

Everything that needs room is done first, beside its place; then files only change names, and are
changed back if one cannot. A journal of that last part lets the next run undo what a killed one
left behind.
"""

from __future__ import annotations

import contextlib
import json
import os
import shutil
from collections.abc import Mapping
from pathlib import Path

from keyseats.faults import KeyseatError

PART, BEFORE = ".part", ".before"


def replace_all(files: Mapping[Path, bytes | None], journal: Path) -> None:
    """Write files, and remove those that have None, as one step.

    Parameters
    ----------
    files
        Contents by path; the folders must be there. They take effect in this order.
    journal
        Where the step is noted while it is under way.

    Raises
    ------
    KeyseatError
        If any of it cannot be done; all files are as they were.
    """
    done: list[Path] = []
    where = journal
    try:
        for where, data in files.items():
            if data is not None:
                _write(_beside(where, PART), data)
            if where.exists():
                _keep(where, _beside(where, BEFORE))
        where = journal
        _write(journal, _noted(files))
        for where, data in files.items():
            done.append(where)
            if data is not None:
                _beside(where, PART).replace(where)
            elif where.exists():
                where.unlink()
        where = journal
        journal.unlink()
    except BaseException as fault:
        _undo(done)
        _clear(files, journal)
        if isinstance(fault, OSError):
            raise KeyseatError(
                f"{where} cannot be written: {fault.strerror or fault}; nothing was changed"
            ) from None
        raise
    _clear(files, journal)


def recover(journal: Path) -> bool:
    """Undo a step that was cut short, such as by a power cut; return whether there was one."""
    if not journal.is_file():
        return False
    try:
        noted = json.loads(journal.read_bytes())
        paths = {Path(name): None for name in noted["files"]}
    except (OSError, ValueError, KeyError, TypeError):
        paths = {}
    _undo(list(paths))
    _clear(paths, journal)
    return True


def _noted(files: Mapping[Path, bytes | None]) -> bytes:
    return json.dumps({"files": [str(path.absolute()) for path in files]}).encode()


def _beside(path: Path, end: str) -> Path:
    return path.with_name(f".{path.name}{end}")


def _write(path: Path, data: bytes) -> None:
    with path.open("wb") as out:
        out.write(data)
        out.flush()
        os.fsync(out.fileno())


def _keep(path: Path, beside: Path) -> None:
    """Give a file a second name, or copy it where a file can have one only."""
    beside.unlink(missing_ok=True)
    try:
        beside.hardlink_to(path)
    except OSError:
        shutil.copy2(path, beside)


def _undo(done: list[Path]) -> None:
    for path in reversed(done):
        before = _beside(path, BEFORE)
        if before.exists():
            before.replace(path)
        else:
            path.unlink(missing_ok=True)


def _clear(files: Mapping[Path, bytes | None], journal: Path) -> None:
    for path in files:
        for end in (PART, BEFORE):
            with contextlib.suppress(OSError):
                _beside(path, end).unlink()
    with contextlib.suppress(OSError):
        journal.unlink()
