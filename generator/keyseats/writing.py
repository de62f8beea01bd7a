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


def write_beside(path: Path, data: bytes) -> Path:
    """Write a file beside its place, whole and on the disk; return where.

    Raises
    ------
    KeyseatError
        If it cannot be written; then nothing is left beside.
    """
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        with part.open("wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
    except BaseException as fault:
        with contextlib.suppress(OSError):
            part.unlink()
        if isinstance(fault, OSError):
            raise refused(path, fault) from None
        raise
    return part


def refused(path: Path, fault: OSError) -> KeyseatError:
    """Return the fault of a file that cannot be written, in one line."""
    reason = "a folder stands in its place" if path.is_dir() else str(fault.strerror or fault)
    return KeyseatError(f"{path} cannot be written: {reason}; what stood there still stands")


def write_whole(path: Path, data: bytes) -> None:
    """Write a file beside its place, then move it there.

    Raises
    ------
    KeyseatError
        If it cannot be written; what stood there before still stands.
    """
    part = write_beside(path, data)
    try:
        part.replace(path)
    except OSError as fault:
        raise refused(path, fault) from None
    finally:
        with contextlib.suppress(OSError):
            part.unlink()
