"""One build at a time in a folder, by a lock that dies with the process that holds it."""

from __future__ import annotations

import contextlib
import errno
import os
import sys
from collections.abc import Iterator
from pathlib import Path

from keyseats.faults import KeyseatError

_HELD = (errno.EACCES, errno.EAGAIN)


@contextlib.contextmanager
def alone(folder: Path) -> Iterator[None]:
    """Hold a folder for one build.

    The folder itself is locked, so that no file is left behind; on Windows, which cannot, a file in
    it. The system lets go of it when the process ends, however it ends. A file system without locks
    is built on without one.

    Raises
    ------
    KeyseatError
        If another build holds it.
    """
    try:
        handle = _open(folder)
    except OSError as fault:
        raise KeyseatError(f"{folder} cannot be read: {fault.strerror}") from None
    try:
        try:
            _lock(handle)
        except OSError as fault:
            if fault.errno in _HELD:
                raise KeyseatError(
                    f"another build is at work in {folder}; let it end, then build again"
                ) from None
        yield
    finally:
        os.close(handle)


if sys.platform == "win32":
    import msvcrt

    def _open(folder: Path) -> int:
        # The file goes when the last process that holds it closes it.
        return os.open(folder / ".building", os.O_RDWR | os.O_CREAT | os.O_TEMPORARY)

    def _lock(handle: int) -> None:
        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)

else:
    import fcntl

    def _open(folder: Path) -> int:
        return os.open(folder, os.O_RDONLY | os.O_CLOEXEC)

    def _lock(handle: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
