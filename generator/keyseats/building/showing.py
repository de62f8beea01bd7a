"""The pictures and the index page that show the files of a set."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from keyseats.building.inputs import engine, file_sha, sha
from keyseats.building.untouched import INDEX, picture_name
from keyseats.load import Edition
from keyseats.manifest import Derived, FileRecord, Manifest

Stage = Callable[[str, bytes], None]


class Showing:
    """What shows the files of a set, and whether it is as it would be made.

    Parameters
    ----------
    output
        The folder.
    made
        What the last build made.
    """

    def __init__(self, output: Path, made: Manifest) -> None:
        self._output = output
        self._made = made
        self._eye = engine("renderers/preview.py")

    def harmed(
        self, files: dict[str, FileRecord], planned: set[str], edition: Edition
    ) -> Iterator[tuple[str, str]]:
        """Yield the pictures that are to be made again though their files stand, and the index.

        Parameters
        ----------
        files
            Every file of the set.
        planned
            Those that are made again; their pictures are a matter of course.
        edition
            The edition that the index names.
        """
        for name, record in sorted(files.items()):
            if name in planned or self._stands(picture_name(name), self._from(record)):
                continue
            if file_sha(self._output / name) == record.written:
                yield picture_name(name), self._why(picture_name(name))
        if not planned and files and not self._stands(INDEX, _index_of(files, edition)):
            yield INDEX, self._why(INDEX)

    def _stands(self, name: str, made_from: str) -> bool:
        entry = self._made.derived.get(name)
        if entry is None or entry.made_from != made_from:
            return False
        return file_sha(self._output / name) == entry.written

    def _why(self, name: str) -> str:
        entry = self._made.derived.get(name)
        written = file_sha(self._output / name)
        if entry is None:
            return "new"
        if not written:
            return "missing"
        return "altered since it was made" if written != entry.written else "made by other code"

    def _from(self, record: FileRecord) -> str:
        return sha(f"{record.written} {self._eye}".encode())

    def picture(self, name: str, record: FileRecord, pdf: bytes | None, stage: Stage) -> None:
        """Stage the picture of a file, if it is not there as it would be made.

        Parameters
        ----------
        name, record
            The file.
        pdf
            Its bytes; None to read those that stand there.
        stage
            Takes the picture.
        """
        if self._stands(picture_name(name), self._from(record)):
            return
        if pdf is None:
            try:
                pdf = (self._output / name).read_bytes()
            except OSError:
                return
            if sha(pdf) != record.written:
                return
        from keyseats.renderers.preview import preview

        data = preview(pdf)
        self._made.derived[picture_name(name)] = Derived(self._from(record), sha(data))
        stage(picture_name(name), data)

    def index(self, files: dict[str, FileRecord], edition: Edition, stage: Stage) -> None:
        """Stage the index page of all files, if it is not there as it would be made."""
        made_from = _index_of(files, edition)
        if self._stands(INDEX, made_from):
            return
        from keyseats.renderers.index import Card, index_page

        page = index_page([Card(*row) for row in _shown(files)], edition.number, edition.date)
        self._made.derived[INDEX] = Derived(made_from, sha(page))
        stage(INDEX, page)


def _shown(files: dict[str, FileRecord]) -> list[tuple[str, str, str, str, str, float, int]]:
    return [
        (name, picture_name(name), r.title, r.kind, r.paper, r.distance_m, len(r.pages))
        for name, r in sorted(files.items())
    ]


def _index_of(files: dict[str, FileRecord], edition: Edition) -> str:
    """Return a hash of all that the index is made from."""
    code = engine("renderers/index.py", "renderers/index.html")
    return sha(f"{_shown(files)} {edition.number} {edition.date} {code}".encode())
