"""The printed set: what is stale and why, made whole, with nothing else touched."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from keyseats import manifest
from keyseats.faults import KeyseatError, TypedError, near
from keyseats.load import Edition, Tables
from keyseats.manifest import Derived, FileRecord, Manifest, PageRecord
from keyseats.page import Document, Page
from keyseats.writing import folder, write_whole

Tell = Callable[[int, int, str], None]


@dataclass(frozen=True)
class Planned:
    """One file to be made, with the reason."""

    name: str
    document: Document
    record: FileRecord
    reason: str


@dataclass(frozen=True)
class Scope:
    """What was asked for: sheets by name and one paper, or all."""

    sheets: tuple[str, ...] = ()
    paper: str = ""

    def holds(self, sheet: str, paper: str) -> bool:
        """Return whether a sheet on a paper is asked for."""
        return (not self.sheets or sheet in self.sheets) and (not self.paper or paper == self.paper)


def file_name(sheet: str, paper: str) -> str:
    """Return the name of a sheet's file on one paper."""
    return f"{sheet}-{paper.lower()}.pdf"


def nothing_to_do(tables: Path, output: Path, scope: Scope) -> bool:
    """Return whether every file asked for is there, as written, from inputs unchanged.

    Only hashes are compared; nothing heavy is imported.
    """
    if not (output / manifest.NAME).is_file() or scope.sheets:
        return False
    made = manifest.load(output)
    now = manifest.inputs(tables)
    wanted = [r for r in made.files.items() if scope.holds(r[1].sheet, r[1].paper)]
    if not wanted or (scope.paper and not any(r.paper == scope.paper for _, r in wanted)):
        return False
    shown = all(manifest.file_sha(output / n) == d.written for n, d in made.derived.items())
    return shown and all(
        r.inputs == now and manifest.file_sha(output / n) == r.written for n, r in wanted
    )


def resolve(scope: Scope) -> Scope:
    """Check the words of a scope against the sheets and papers that there are.

    Raises
    ------
    TypedError
        If a sheet or paper is not known.
    """
    from keyseats.sheets import find

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


def plan(
    tables: Tables, output: Path, scope: Scope, made: Manifest
) -> tuple[list[Planned], list[str]]:
    """Return the files that are stale with their reasons, and the names that are not planned.

    Raises
    ------
    KeyseatError
        If the tables have a fault; they are all named.
    """
    from keyseats.check import check
    from keyseats.sheets import find

    report = check(tables)
    if report.faults:
        lines = "\n".join(f"  {fault}" for fault in report.faults)
        raise KeyseatError(
            f"the tables have {len(report.faults)} fault(s); nothing was made:\n{lines}"
        )
    now, engine = manifest.inputs(tables.folder), manifest.engine()
    planned: list[Planned] = []
    names: set[str] = set()
    for sheet in find():
        for paper in sheet.papers:
            name = file_name(sheet.name, paper)
            names.add(name)
            if not scope.holds(sheet.name, paper):
                continue
            pages = tuple(sheet.pages(tables, paper))
            subject = f"{sheet.title}. {sheet.kind}, {paper}, edition {tables.edition.number}"
            document = Document(name, sheet.title, subject, paper, pages, sheet.duplex)
            key = manifest.sha(f"{document.key()} {engine}".encode())
            record = FileRecord(
                sheet.name,
                paper,
                now,
                key,
                "",
                sheet.title,
                sheet.kind,
                pages[0].distance_m,
                tuple(_record(page) for page in pages),
            )
            old = made.files.get(name)
            reason = _reason(old, record, output / name)
            if reason:
                planned.append(Planned(name, document, record, reason))
            elif old is not None:
                made.files[name] = FileRecord(**{**vars(record), "written": old.written})
    gone = [
        name
        for name, record in made.files.items()
        if name.endswith(".pdf") and name not in names and scope.holds(record.sheet, record.paper)
    ]
    return planned, gone


def _record(page: Page) -> PageRecord:
    return PageRecord(page.slug, page.title, page.key(), page.rows())


def _reason(old: FileRecord | None, new: FileRecord, path: Path) -> str:
    if old is None:
        return "new"
    if old.key != new.key:
        before = {p.slug: p.key for p in old.pages}
        changed = [p.slug for p in new.pages if before.get(p.slug) != p.key]
        if not changed:
            return "made by other code or libraries"
        return "changed: " + (changed[0] if len(changed) == 1 else f"{len(changed)} pages")
    written = manifest.file_sha(path)
    if not written:
        return "missing"
    return "" if written == old.written else "altered since it was made"


def make(tables: Tables, output: Path, scope: Scope, tell: Tell) -> list[Planned]:
    """Make what is stale, each file whole or not at all, the manifest last.

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
        If the tables have a fault, or a file cannot be written. What was whole before stays.
    """
    folder(output)
    made = manifest.load(output)
    planned, gone = plan(tables, output, scope, made)
    for n, item in enumerate(planned):
        tell(n, len(planned), item.name)
        data = document_bytes(item.document)
        write_whole(output / item.name, data)
        made.files[item.name] = FileRecord(**{**vars(item.record), "written": manifest.sha(data)})
    for name in gone:
        if manifest.file_sha(output / name) == made.files[name].written:
            (output / name).unlink()
        del made.files[name]
    _show(output, made, tables.edition)
    made.save(output)
    return planned


def _show(output: Path, made: Manifest, edition: Edition) -> None:
    """Make the pictures and the index page that show the files, where they are not as made."""
    from keyseats.renderers.index import Card, index_page
    from keyseats.renderers.preview import preview

    folder(output / "previews")
    cards, derived = [], {}
    for name in sorted(made.files):
        record = made.files[name]
        picture = f"previews/{name.removesuffix('.pdf')}.png"
        entry = made.derived.get(picture)
        kept = entry is not None and entry.made_from == record.written
        if entry is None or not kept or manifest.file_sha(output / picture) != entry.written:
            data = preview((output / name).read_bytes())
            write_whole(output / picture, data)
            entry = Derived(record.written, manifest.sha(data))
        derived[picture] = entry
        pages = len(record.pages)
        cards.append(
            Card(name, picture, record.title, record.kind, record.paper, record.distance_m, pages)
        )
    page = index_page(cards, edition.number, edition.date)
    write_whole(output / "index.html", page)
    derived["index.html"] = Derived("", manifest.sha(page))
    for picture in made.derived.keys() - derived.keys():
        (output / picture).unlink(missing_ok=True)
    made.derived = derived


def document_bytes(document: Document) -> bytes:
    """Return one document's finished PDF."""
    from keyseats.renderers.finish import finish
    from keyseats.renderers.pdf import render

    return finish(render(document), document)
