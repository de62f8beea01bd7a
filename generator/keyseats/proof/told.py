"""What a file says of itself, and the structure of its pages."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from keyseats.proof.cards import grid
from keyseats.proof.facts import Fault, File, Sheet

# What reportlab writes where nothing was said, and what other writers do.
_UNSAID = ("", "anonymous", "unspecified", "untitled")


def faults(file: File) -> Iterator[Fault]:
    """Yield what is wrong with a file as a whole."""

    def fault(what: str, mend: str) -> Fault:
        return Fault(file.name, 0, what, mend)

    if file.syntax:
        more = f", and {len(file.syntax) - 1} more" if len(file.syntax) > 1 else ""
        yield fault(f"damaged: {file.syntax[0][:160]}{more}", "make it again")
    if _version(file.version) < (1, 7):
        yield fault(f"PDF {file.version}", "write 1.7, which its print hints need")
    if not file.identity:
        yield fault("no ID", "write /ID, made from its content")
    if not file.sheets:
        yield fault("no page", "make it again")
    for font in file.spare_fonts:
        if font.lacks:
            yield fault(f"font {font.name} is on no page and {font.lacks[0]}", "leave it out")
    drawn = sum(i.kind == "picture" for s in file.sheets for i in s.inks)
    if file.pictures and not drawn:
        yield fault(f"{file.pictures} raster picture(s) on no page", "leave them out")
    for name in ("Title", "Subject", "Author"):
        if file.info.get(name, "").lower() in _UNSAID:
            yield fault(f"no {name.lower()}", f"say it in Info, /{name}")
    if not file.title_shown:
        yield fault("its title is not shown", "set DisplayDocTitle")
    if not file.language:
        yield fault("no language", "set /Lang")
    if file.scaling != "None":
        yield fault("it does not ask for actual size", "set PrintScaling to None")
    if any(grid(s) for s in file.sheets) and not file.duplex.startswith("DuplexFlip"):
        yield fault("cards with two sides, and no side to flip on", "set Duplex")
    if not file.labelled:
        yield fault("no page labels", "set /PageLabels from page 1")
    yield from _metadata(file)
    if not file.tree or not file.marked:
        yield fault("not tagged", "write its structure, /StructTreeRoot and /MarkInfo")


def _version(text: str) -> tuple[int, ...]:
    return tuple(int(part) for part in text.split(".") if part.isdigit())


def _metadata(file: File) -> Iterator[Fault]:
    if file.xmp is None:
        yield Fault(file.name, 0, "no XMP metadata", "write it, with what Info says")
        return
    for name in ("Title", "Subject", "Author", "Creator", "Producer"):
        told, xmp = file.info.get(name, ""), file.xmp.get(name, "")
        if told != xmp:
            what = f"{name.lower()} is '{told[:40]}' in Info and '{xmp[:40]}' in XMP"
            yield Fault(file.name, 0, what, "say the same in both")


def page_faults(file: File, sheet: Sheet) -> Iterator[Fault]:
    """Yield what is wrong with a page's fonts, bookmark and structure."""

    def fault(what: str, mend: str) -> Fault:
        return Fault(file.name, sheet.number, what, mend)

    for font in sheet.fonts:
        for what in font.lacks:
            yield fault(f"font {font.name} {what}", "embed a subset of it, with ToUnicode")
    if not sheet.bookmarked:
        yield fault("no bookmark leads to it", "name it in the outline")
    if not file.tree:
        return
    tags = sheet.tags
    if not tags.headings:
        yield fault("no heading in its structure", "tag its title H1")
    if tags.headless:
        yield fault(f"{tags.headless} table(s) without a head cell", "tag their heads TH")
    if tags.unscoped:
        mend = "say Row or Column of each"
        yield fault(f"{tags.unscoped} head cell(s) that do not say of what", mend)
    if tags.silent:
        mend = "say in Alt what each shows"
        yield fault(f"{tags.silent} figure(s) without alternative text", mend)
    if tags.untied:
        mend = "name its element in /ParentTree"
        yield fault(f"{tags.untied} piece(s) of content lead to another element", mend)
    loose = [p for p in sheet.pieces if not p.tagged and p.text.strip()]
    if loose:
        what = f"'{loose[0].text.strip()[:24]}' and {len(loose) - 1} more not in the structure"
        yield fault(what, "tag it, or mark it as decoration")


def shared_identities(files: Sequence[File]) -> Iterator[Fault]:
    """Yield the files that carry the ID of another."""
    counts = Counter(f.identity for f in files if f.identity)
    first: dict[str, str] = {}
    for file in files:
        if counts[file.identity] > 1:
            if file.identity in first:
                what = f"the same ID as {first[file.identity]}"
                yield Fault(file.name, 0, what, "make /ID from the content")
            first.setdefault(file.identity, file.name)
