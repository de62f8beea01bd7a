"""A finished PDF's structure and marked content, read back by the library's own parser."""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import pdfplumber
import pikepdf

SHOWING = {"Tj", "TJ", "'", '"'}
PAINTING = {"S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "sh", "Do", "BI", "INLINE IMAGE"}


@dataclass
class Element:
    """One element of the structure, with the numbers of its own marked content."""

    role: str
    alt: str
    actual: str
    attributes: dict[str, Any]
    numbers: list[int]
    kids: list[Element | int]
    ident: tuple[int, int]

    def all(self) -> Iterator[Element]:
        yield self
        for kid in self.kids:
            if isinstance(kid, Element):
                yield from kid.all()

    def in_order(self) -> Iterator[int]:
        for kid in self.kids:
            if isinstance(kid, Element):
                yield from kid.in_order()
            else:
                yield kid

    def inner(self) -> list[Element]:
        return [kid for kid in self.kids if isinstance(kid, Element)]

    def span(self, way: str) -> int:
        return int(self.attributes.get(f"/{way}Span", 1))


@dataclass
class TaggedPage:
    """One page: its section, what its content marks, and the way back from each number."""

    section: Element
    numbers: list[int]
    bare: list[str]
    owners: list[tuple[int, int]]
    text: dict[int, str] = field(default_factory=dict)


def tagged(data: bytes) -> list[TaggedPage]:
    """Read every page's structure; the sections stand in the order of the pages."""
    pages = []
    with pikepdf.open(io.BytesIO(data)) as pdf:
        root: Any = pdf.Root
        assert bool(root.MarkInfo.Marked)
        whole = _element(root.StructTreeRoot.K, root.StructTreeRoot)
        assert whole.role == "Document"
        back = list(root.StructTreeRoot.ParentTree.Nums)
        ways = {int(back[n]): back[n + 1] for n in range(0, len(back), 2)}
        sections = whole.inner()
        assert len(sections) == len(pdf.pages) == len(ways)
        for section, page in zip(sections, pdf.pages, strict=True):
            assert section.role == "Sect"
            assert page.obj.Tabs == "/S"
            numbers, bare = _content(page)
            owners = [owner.objgen for owner in ways[int(page.obj.StructParents)]]
            pages.append(TaggedPage(section, numbers, bare, owners))
    with pdfplumber.open(io.BytesIO(data)) as read:
        for tagged_page, page in zip(pages, read.pages, strict=True):
            for char in page.chars:
                if char["mcid"] is not None:
                    text = tagged_page.text
                    text[char["mcid"]] = text.get(char["mcid"], "") + char["text"]
            page.close()
    return pages


def _element(obj: Any, parent: Any) -> Element:
    assert obj.P.objgen == parent.objgen, "an element names another parent than it has"
    raw = obj.get("/K")
    items = list(raw) if isinstance(raw, pikepdf.Array) else [] if raw is None else [raw]
    kids: list[Element | int] = [
        _element(item, obj) if isinstance(item, pikepdf.Dictionary) else int(item) for item in items
    ]
    return Element(
        str(obj.S)[1:],
        str(obj.get("/Alt", "")),
        str(obj.get("/ActualText", "")),
        dict(obj.get("/A", {}).items()),
        [k for k in kids if isinstance(k, int)],
        kids,
        obj.objgen,
    )


def _content(page: Any) -> tuple[list[int], list[str]]:
    """Return the numbers that a page's content marks, and what it draws outside of all marks."""
    numbers: list[int] = []
    bare: list[str] = []
    marks: list[bool] = []
    for operands, operator in pikepdf.parse_content_stream(page):
        name = str(operator)
        if name == "BDC":
            properties: Any = operands[1]
            if "/MCID" in properties:
                assert not any(marks), "marked content within marked content"
                numbers.append(int(properties.MCID))
            marks.append("/MCID" in properties)
        elif name == "BMC":
            assert operands[0] == "/Artifact"
            assert not any(marks), "an artifact within marked content"
            marks.append(True)
        elif name == "EMC":
            marks.pop()
        elif name in SHOWING | PAINTING and not any(marks):
            bare.append(name)
    assert not marks
    return numbers, bare
