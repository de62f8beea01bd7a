"""Files written whole or not at all."""

from __future__ import annotations

import contextlib
import os
from pathlib import Path

from keyseats.faults import KeyseatError


def folder(path: Path) -> Path:
    """Make a folder if it is not there.

    Raises
    ------
    KeyseatError
        If a file stands in its place, or it cannot be made.
    """
    try:
        path.mkdir(parents=True, exist_ok=True)
    except (FileExistsError, NotADirectoryError):
        raise KeyseatError(
            f"{path} is a file, and a folder is wanted there; move the file or give --output"
        ) from None
    except OSError as fault:
        raise KeyseatError(f"{path} cannot be made: {fault.strerror}; give --output") from None
    return path


def write_whole(path: Path, data: bytes) -> None:
    """Write a file beside its place, then move it there.

    Raises
    ------
    KeyseatError
        If it cannot be written; what stood there before still stands.
    """
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        with part.open("wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
        part.replace(path)
    except OSError as fault:
        reason = "a folder stands in its place" if path.is_dir() else str(fault.strerror)
        raise KeyseatError(
            f"{path} cannot be written: {reason}; nothing there was changed"
        ) from None
    finally:
        with contextlib.suppress(OSError):
            part.unlink()
