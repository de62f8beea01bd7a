"""The structure tree of a file, walked: what each page has of it, and what each piece belongs to.

The door `keyseats.proof.reading` hands over the objects and their kinds; nothing is imported.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from keyseats.proof.facts import Tags

HEADINGS = ("/H", "/H1", "/H2", "/H3", "/H4", "/H5", "/H6")
# Page, counted from 0, and number of marked content.
Place = tuple[int, int]


@dataclass
class Tree:
    """What a structure tree says: per page its counts, per piece of marked content its element."""

    pages: list[Tags]
    cut: set[Place] = field(default_factory=set)
    body: set[Place] = field(default_factory=set)
    held: set[Place] = field(default_factory=set)
    classed: bool = False


@dataclass(frozen=True)
class _At:
    """What an element has from those that it is in: page, class, body cell."""

    page: int = -1
    cut: bool = False
    body: bool = False


@dataclass(frozen=True)
class Walk:
    """A walk of one file's structure.

    Parameters
    ----------
    dictionary, array
        The library's kinds of object.
    sheets
        The page objects.
    """

    dictionary: Any
    array: Any
    sheets: list[Any]

    def tree(self, root: Any) -> Tree:
        """Return what the structure tree under a file's catalogue says of its pages."""
        tree = Tree([Tags() for _ in self.sheets])
        top = root.get("/StructTreeRoot")
        if not isinstance(top, self.dictionary):
            return tree
        index = {sheet.objgen: n for n, sheet in enumerate(self.sheets)}
        back = self._ways_back(top)
        seen: set[tuple[int, int]] = set()
        waiting = [(kid, _At()) for kid in self._kids(top)]
        while waiting:
            element, at = waiting.pop()
            if not isinstance(element, self.dictionary) or element.objgen in seen:
                continue
            if element.objgen != (0, 0):
                seen.add(element.objgen)
            at = self._at(element, at, index)
            tree.classed = tree.classed or at.cut
            if at.page >= 0:
                self._count(element, tree.pages[at.page])
            for kid in self._kids(element):
                place = self._content(kid, at.page, index)
                if place is None:
                    waiting.append((kid, at))
                elif place[0] >= 0:
                    tree.held.add(place)
                    if at.cut:
                        tree.cut.add(place)
                    if at.body:
                        tree.body.add(place)
                    tree.pages[place[0]].untied += back.get(place) != element.objgen
        return tree

    def _at(self, element: Any, at: _At, index: dict[tuple[int, int], int]) -> _At:
        page = index.get(element["/Pg"].objgen, -1) if "/Pg" in element else at.page
        classes = element.get("/C")
        names = list(classes) if isinstance(classes, self.array) else [classes]
        cut = at.cut or "/Cut" in [str(name) for name in names]
        return _At(page, cut, at.body or str(element.get("/S")) == "/TD")

    def _kids(self, element: Any) -> list[Any]:
        kids = element.get("/K")
        if kids is None:
            return []
        return list(kids) if isinstance(kids, self.array) else [kids]

    def _content(self, kid: Any, page: int, index: dict[tuple[int, int], int]) -> Place | None:
        """Return page and number of a piece of marked content, or None for an element."""
        if isinstance(kid, int):
            return page, kid
        kind = str(kid.get("/Type")) if isinstance(kid, self.dictionary) else ""
        if kind == "/MCR":
            return index.get(kid["/Pg"].objgen, -1) if "/Pg" in kid else page, int(kid["/MCID"])
        return (-1, -1) if kind == "/OBJR" else None

    def _count(self, element: Any, tags: Tags) -> None:
        role = str(element.get("/S"))
        if role in HEADINGS:
            tags.headings += 1
        elif role == "/Table":
            tags.tables += 1
            tags.headless += not any(self._heads(element))
        elif role == "/TH":
            tags.unscoped += not self._scoped(element)
        elif role == "/Figure":
            tags.figures += 1
            tags.silent += not str(element.get("/Alt", "")).strip()

    def _heads(self, table: Any) -> Iterator[bool]:
        """Yield for each head cell of a table, not of tables in it."""
        for part in self._kids(table):
            if isinstance(part, self.dictionary):
                role = str(part.get("/S"))
                if role == "/TH":
                    yield True
                elif role in ("/TR", "/THead", "/TBody", "/TFoot"):
                    yield from self._heads(part)

    def _scoped(self, element: Any) -> bool:
        attributes = element.get("/A")
        each = list(attributes) if isinstance(attributes, self.array) else [attributes]
        return any(isinstance(a, self.dictionary) and "/Scope" in a for a in each)

    def _ways_back(self, top: Any) -> dict[Place, tuple[int, int]]:
        """Return for each piece of marked content the element that the parent tree names."""
        found: dict[Place, tuple[int, int]] = {}
        parents = dict(self._numbers(top.get("/ParentTree")))
        for page, sheet in enumerate(self.sheets):
            ways = parents.get(int(sheet.get("/StructParents", -1)))
            if isinstance(ways, self.array):
                for number, element in enumerate(ways):
                    if isinstance(element, self.dictionary):
                        found[page, number] = element.objgen
        return found

    def _numbers(self, tree: Any) -> Iterator[tuple[int, Any]]:
        """Yield the entries of a number tree."""
        if not isinstance(tree, self.dictionary):
            return
        nums = list(tree.get("/Nums", []))
        yield from ((int(n), value) for n, value in zip(nums[::2], nums[1::2], strict=False))
        for kid in tree.get("/Kids", []):
            yield from self._numbers(kid)
