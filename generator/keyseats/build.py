"""The printed set: what is stale and why, made whole, with nothing else touched."""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import NamedTuple

from keyseats import manifest
from keyseats.building import inputs
from keyseats.building.lock import alone
from keyseats.building.placing import Placing, refuse_folders, sweep
from keyseats.building.reading import NotedTables
from keyseats.building.reasons import Reason, file_reason, page_reasons, page_record
from keyseats.building.showing import Showing
from keyseats.building.untouched import INDEX, PREVIEWS, all_names, file_names, picture_name
from keyseats.building.untouched import file_name as file_name
from keyseats.faults import KeyseatError, TypedError, near
from keyseats.load import Tables
from keyseats.manifest import FileRecord, Manifest, file_sha, sha
from keyseats.page import Document
from keyseats.sheets import Sheet, find
from keyseats.writing import folder, refused

Tell = Callable[[int, int, str], None]
# Of the renderers, those that write no PDF.
_SHOWING = ("preview.py", "index.py")


class Planned(NamedTuple):
    """One file to be made, with the reason for it and for each of its pages."""

    name: str
    document: Document
    record: FileRecord
    reason: str
    pages: tuple[Reason, ...] = ()


class Scope(NamedTuple):
    """What was asked for: sheets by name and one paper, or all."""

    sheets: tuple[str, ...] = ()
    paper: str = ""

    def holds(self, sheet: str, paper: str) -> bool:
        """Return whether a sheet on a paper is asked for."""
        return (not self.sheets or sheet in self.sheets) and (not self.paper or paper == self.paper)

    @property
    def whole(self) -> bool:
        """Return whether all is asked for."""
        return not self.sheets and not self.paper


class Plan(NamedTuple):
    """What a build makes and removes.

    Parameters
    ----------
    planned
        The files to be made, with reasons.
    gone
        Files to be removed: no sheet makes them now, and they are as they were made.
    left
        Files that no sheet makes now, and that someone altered since: they are let be.
    harmed
        Pictures, and the index, to be made again though nothing that they show is; with reasons.
    files
        The record of every file that stays as it is.
    now
        What the pages are made from.
    sheets
        The papers of every sheet.
    """

    planned: list[Planned]
    gone: list[str]
    left: list[str]
    harmed: dict[str, str]
    files: dict[str, FileRecord]
    now: inputs.Inputs
    sheets: dict[str, tuple[str, ...]]

    @property
    def empty(self) -> bool:
        """Return whether nothing is to be made or removed."""
        return not (self.planned or self.gone or self.harmed)


def resolve(scope: Scope) -> Scope:
    """Check the words of a scope against the sheets and papers that there are.

    Raises
    ------
    TypedError
        If a sheet or paper is not known.
    """
    known = find()
    names = [s.name for s in known]
    for name in scope.sheets:
        if name not in names:
            raise TypedError(f"no sheet '{name}'; {near(name, names)}")
    papers = sorted({p for s in known for p in s.papers})
    if not scope.paper:
        return scope
    found = [p for p in papers if p.lower() == scope.paper.lower()]
    if not found:
        raise TypedError(f"--paper: no paper '{scope.paper}'; {near(scope.paper, papers)}")
    return Scope(scope.sheets, found[0])


def plan(tables: Tables, output: Path, scope: Scope, made: Manifest) -> Plan:
    """Return what is stale, with its reasons; pages are composed only where what they read changed.

    Raises
    ------
    KeyseatError
        If the tables have a fault, all are named; or if they change while they are read.
    """
    now, engine = inputs.now(tables.folder), pdf_engine()
    whole = now.whole()
    if all(record.inputs != whole for record in made.files.values()):
        _refuse_faults(tables)
    known = find()
    planned: list[Planned] = []
    files = dict(made.files)
    for sheet in known:
        for paper in sheet.papers:
            if scope.holds(sheet.name, paper):
                name = file_name(sheet.name, paper)
                old = made.files.get(name)
                if old is not None and _stands(old, now, output / name):
                    files[name] = old._replace(inputs=whole)
                    continue
                item = _composed(tables, sheet, paper, now, engine)
                reason = file_reason(old, item.record, output / name)
                if reason:
                    pages = page_reasons(old, item.record)
                    planned.append(item._replace(reason=reason, pages=pages))
                elif old is not None:
                    files[name] = item.record._replace(written=old.written)
    if inputs.now(tables.folder).whole() != whole:
        raise KeyseatError(
            f"{tables.folder} or this program changed while it was read; nothing was made; "
            "build again"
        )
    catalogue = {sheet.name: sheet.papers for sheet in known}
    gone, left = _gone(output, scope, made, catalogue)
    for name in (*gone, *left):
        del files[name]
    making = {item.name for item in planned}
    harmed = {}
    if not gone and not left:
        harmed = dict(Showing(output, made).harmed(files, making, tables.edition))
    return Plan(planned, gone, left, harmed, files, now, catalogue)


def _stands(old: FileRecord, now: inputs.Inputs, path: Path) -> bool:
    """Return whether a file is as it was made, and all that its composing read is as it was."""
    return bool(old.written) and old.read == now.of(old.reads) and file_sha(path) == old.written


def _refuse_faults(tables: Tables) -> None:
    from keyseats.check import check

    report = check(tables)
    if report.faults:
        lines = "\n".join(f"  {fault}" for fault in report.faults)
        raise KeyseatError(
            f"the tables have {len(report.faults)} fault(s); nothing was made:\n{lines}"
        )


def pdf_engine() -> str:
    """Return a hash of all that turns page models into bytes."""
    renderers = Path(inputs.PACKAGE, "renderers")
    names = sorted(p.name for p in renderers.glob("*.py") if p.name not in _SHOWING)
    return inputs.engine("fonts", "page.py", "typeface.py", *(f"renderers/{n}" for n in names))


def _composed(tables: Tables, sheet: Sheet, paper: str, now: inputs.Inputs, engine: str) -> Planned:
    """Return a sheet's file on one paper, composed, with its record but for what is written."""
    noted = NotedTables(tables)
    try:
        pages = tuple(sheet.pages(noted, paper))
    except ValueError as fault:
        raise KeyseatError(
            f"{sheet.name} on {paper} cannot be laid out with these tables: {fault}; nothing was "
            "made; look at what was corrected last"
        ) from None
    subject = f"{sheet.title}. {sheet.kind}, {paper}, edition {noted.edition.number}"
    name = file_name(sheet.name, paper)
    document = Document(name, sheet.title, subject, paper, pages, sheet.duplex)
    records = tuple(page_record(page, noted) for page in pages)
    record = FileRecord(
        sheet.name,
        paper,
        now.whole(),
        tuple(sorted(noted.read)),
        now.of(noted.read),
        sha(f"{document.key()} {engine}".encode()),
        "",
        sheet.title,
        sheet.kind,
        pages[0].distance_m,
        records,
    )
    return Planned(name, document, record, "")


def _gone(
    output: Path, scope: Scope, made: Manifest, sheets: dict[str, tuple[str, ...]]
) -> tuple[list[str], list[str]]:
    """Return the listed files that no sheet makes now: as they were made, and otherwise."""
    names = file_names(sheets)
    gone: list[str] = []
    left: list[str] = []
    for name, record in sorted(made.files.items()):
        asked = scope.holds(record.sheet, record.paper) if record.sheet in sheets else scope.whole
        if name not in names and asked:
            as_made = file_sha(output / name) == record.written
            (gone if as_made and not (output / name).is_symlink() else left).append(name)
    return gone, left


def make(tables: Tables, output: Path, scope: Scope, tell: Tell) -> list[Planned]:
    """Make what is stale; return the files that were made, with reasons. See `build`."""
    return build(tables, output, scope, tell).planned


def build(tables: Tables, output: Path, scope: Scope, tell: Tell) -> Plan:
    """Make what is stale, all of it written before any of it is moved to its place.

    Parameters
    ----------
    tables
        The tables.
    output
        The folder for the files; made if need be.
    scope
        What was asked for.
    tell
        Called before each file with how many are done, how many there are, and its name.

    Raises
    ------
    KeyseatError
        If the tables have a fault, another build is at work in the folder, or a file cannot be
        written. What was whole before stays, and the manifest lists nothing that is not so.
    """
    folder(output)
    with alone(output):
        made = manifest.load(output)
        names = all_names(file_names({s.name: s.papers for s in find()}) | made.files)
        sweep(output, names)
        found = plan(tables, output, scope, made)
        refuse_folders(output, names)
        folder(output / PREVIEWS)
        before = _copy(made)
        placing = Placing(output)
        try:
            after = _stage(tables, output, found, made, placing, tell)
            _swap(output, before, after, placing, found.gone)
        finally:
            placing.clear()
    return found


def _copy(made: Manifest) -> Manifest:
    return Manifest(dict(made.files), dict(made.derived), dict(made.sheets), made.code)


def _stage(
    tables: Tables, output: Path, found: Plan, made: Manifest, placing: Placing, tell: Tell
) -> Manifest:
    """Write every file beside its place; return the manifest of the set when they are moved."""
    showing = Showing(output, made)
    files = dict(found.files)
    for n, item in enumerate(found.planned):
        tell(n, len(found.planned), item.name)
        data = document_bytes(item.document)
        files[item.name] = item.record._replace(written=sha(data))
        placing.stage(item.name, data)
        showing.picture(item.name, files[item.name], data, placing.stage)
    for name, record in files.items():
        showing.picture(name, record, None, placing.stage)
    showing.index(files, tables.edition, placing.stage)
    shown = {INDEX, *(picture_name(name) for name in files)}
    derived = {name: entry for name, entry in made.derived.items() if name in shown}
    return Manifest(files, derived, found.sheets, found.now.code)


def _swap(
    output: Path, before: Manifest, after: Manifest, placing: Placing, gone: Iterable[str]
) -> None:
    """Move the files to their places. At no moment does the manifest list what is not so."""
    moving = placing.names
    if any(name in before.files or name in before.derived for name in moving):
        during = _copy(before)
        for name in moving:
            if name in during.files:
                during.files[name] = during.files[name]._replace(written="")
            during.derived.pop(name, None)
        during.save(output)
    try:
        for _ in placing.move():
            pass
        for name in gone:
            _remove(output / name)
        for name, entry in before.derived.items():
            if name not in after.derived and file_sha(output / name) == entry.written:
                _remove(output / name)
        _save(output, after)
    except BaseException:
        with contextlib.suppress(KeyseatError):
            _as_it_stands(output, before, after).save(output)
        raise


def _save(output: Path, after: Manifest) -> None:
    """Write the manifest, if it is not there just so."""
    if file_sha(output / manifest.NAME) != sha(after.text()):
        after.save(output)


def _as_it_stands(output: Path, before: Manifest, after: Manifest) -> Manifest:
    """Return the manifest of what is there when moving was broken off."""
    found = _copy(before)
    for name in before.files.keys() - after.files.keys():
        if not file_sha(output / name):
            del found.files[name]
    for name, record in after.files.items():
        if file_sha(output / name) == record.written:
            found.files[name] = record
    for name, entry in after.derived.items():
        if file_sha(output / name) == entry.written:
            found.derived[name] = entry
    return found


def _remove(path: Path) -> None:
    try:
        path.unlink(missing_ok=True)
    except OSError as fault:
        raise refused(path, fault) from None


def document_bytes(document: Document) -> bytes:
    """Return one document's finished PDF."""
    from keyseats.renderers.finish import finish
    from keyseats.renderers.pdf import render

    return finish(render(document), document)
