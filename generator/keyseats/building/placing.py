"""Files of one build: written beside their places, then all moved there together."""

from __future__ import annotations

import contextlib
import os
import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from keyseats.building.untouched import PREVIEWS
from keyseats.faults import KeyseatError
from keyseats.writing import refused, write_beside

_PART = re.compile(r"\.(.+)\.\d+\.part")


class Placing:
    """Files waiting to be moved to their places in one folder.

    Parameters
    ----------
    output
        The folder.
    """

    def __init__(self, output: Path) -> None:
        self._output = output
        self._waiting: dict[str, Path] = {}

    @property
    def names(self) -> tuple[str, ...]:
        """Return the names of the files that wait."""
        return tuple(self._waiting)

    def stage(self, name: str, data: bytes) -> None:
        """Write a file beside its place, as safely on the disk as it will be."""
        self._waiting[name] = write_beside(self._output / name, data)

    def move(self) -> Iterator[str]:
        """Move the files to their places; yield each name when it is there."""
        while self._waiting:
            name = next(iter(self._waiting))
            target = self._output / name
            try:
                self._waiting[name].replace(target)
            except OSError as fault:
                raise refused(target, fault) from None
            del self._waiting[name]
            yield name

    def clear(self) -> None:
        """Remove what still waits."""
        for part in self._waiting.values():
            with contextlib.suppress(OSError):
                part.unlink()


def refuse_folders(output: Path, names: Iterable[str]) -> None:
    """Refuse, before anything is written, a folder that stands where a file goes.

    Raises
    ------
    KeyseatError
        If one does.
    """
    for name in names:
        path = output / name
        if path.is_dir() and not path.is_symlink():
            raise KeyseatError(
                f"{path} cannot be written: a folder stands in its place; move it. Nothing was "
                "changed"
            )


def leftovers(output: str | os.PathLike[str], names: Iterable[str]) -> list[str]:
    """Return files that a killed build left beside the places of some names.

    Parameters
    ----------
    output
        The folder.
    names
        Names that builds write, such as ``wall-inch-plain-a4.pdf`` or ``previews/....png``.
    """
    known = set(names)
    found = []
    for inside in ("", f"{PREVIEWS}/"):
        try:
            here = [path.name for path in Path(output, inside).iterdir()]
        except OSError:
            continue
        for name in here:
            part = _PART.fullmatch(name)
            if part is not None and inside + part.group(1) in known:
                found.append(inside + name)
    return sorted(found)


def sweep(output: Path, names: Iterable[str]) -> None:
    """Remove what a killed build left beside the places of some names."""
    for name in leftovers(output, names):
        with contextlib.suppress(OSError):
            (output / name).unlink()
