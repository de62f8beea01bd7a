"""The last hand on a PDF: structure, labels, print hints, language, ID. Only here is pikepdf."""

from __future__ import annotations

import io
from contextlib import ExitStack
from typing import Any

from keyseats.page import Document, Page
from keyseats.renderers.graph import drawn, form_name
from keyseats.renderers.marking import Node, bounds
from keyseats.renderers.structure import structure
from keyseats.typeface import printable

# What a graph is drawn with and has no need of: colour spaces, and states of see-through.
_UNUSED = ("CS", "cs", "gs")


def finish(raw: bytes, document: Document, *, tagged: bool = True) -> bytes:
    """Return a rendered PDF with what reportlab does not write.

    Graphs in their places, the structure that the pages' marked content belongs to, page labels and
    boxes, actual size asked of the print dialog, the title shown, metadata, and an ID made from the
    content, so that the same pages always make the same bytes.

    Parameters
    ----------
    raw
        What `keyseats.renderers.pdf.render` returned for the document.
    document
        The document.
    tagged
        Whether to write the structure; without it the file can be timed against.
    """
    import pikepdf

    with ExitStack() as opened:
        pdf = opened.enter_context(pikepdf.open(io.BytesIO(raw)))
        _place_graphs(pikepdf, pdf, document, opened)
        root: Any = pdf.Root
        hints = pikepdf.Dictionary(
            PrintScaling=pikepdf.Name("/None"), DisplayDocTitle=True, PickTrayByPDFSize=True
        )
        if document.duplex:
            hints["/Duplex"] = pikepdf.Name("/DuplexFlip" + document.duplex)
        root.ViewerPreferences = hints
        root.Lang = pikepdf.String("en")
        root.PageMode = pikepdf.Name.UseOutlines
        root.PageLabels = _labels(pikepdf, document)
        for page in pdf.pages:
            # Nothing is printed to bleed: a sheet is as large as its paper, and so are its boxes.
            for name in ("/CropBox", "/TrimBox"):
                page.obj[name] = pikepdf.Array(list(page.obj.MediaBox))
        if tagged:
            _Tree(pikepdf, pdf).write(document)
        # The renderer's dates are made up so that they never change: none is truer.
        for name in ("/CreationDate", "/ModDate"):
            if name in pdf.docinfo:
                del pdf.docinfo[name]
        with pdf.open_metadata(set_pikepdf_as_editor=False) as meta:
            meta["dc:title"] = printable(document.title)
            meta["dc:description"] = printable(document.subject)
            meta["dc:language"] = {"en"}
            meta["dc:creator"] = ["keyseats"]
            meta["xmp:CreatorTool"] = "keyseats"
            meta["pdf:Producer"] = str(pdf.docinfo.Producer)
        # Half of an ID would be kept from the renderer, the same for every paper of a sheet.
        if "/ID" in pdf.trailer:
            del pdf.trailer["/ID"]
        out = io.BytesIO()
        pdf.save(
            out,
            min_version="1.7",
            deterministic_id=True,
            object_stream_mode=pikepdf.ObjectStreamMode.generate,
        )
    return out.getvalue()


def _place_graphs(pikepdf: Any, pdf: Any, document: Document, opened: ExitStack) -> None:
    """Put the graphs where the pages call for them, each as it was drawn."""
    graphs = [graph for page in document.pages for graph in page.graphs()]
    if not graphs:
        return
    # What is copied from it is read when the file is saved: until then it stays open.
    source = opened.enter_context(pikepdf.open(io.BytesIO(drawn(graphs))))
    made = iter(source.pages)
    for page, sheet in zip(document.pages, pdf.pages, strict=True):
        for n, _ in enumerate(page.graphs()):
            form = pdf.copy_foreign(next(made).as_form_xobject())
            # Lines in black and fields in grey ask for no colours, nothing to be blended with and
            # no resources: they start as the page left them.
            kept = [o for o in pikepdf.parse_content_stream(form) if str(o.operator) not in _UNUSED]
            form.write(pikepdf.unparse_content_stream(kept))
            form["/Resources"] = pikepdf.Dictionary()
            if "/Group" in form:
                del form["/Group"]
            sheet.add_resource(form, pikepdf.Name.XObject, name=pikepdf.Name("/" + form_name(n)))


def _labels(pikepdf: Any, document: Document) -> Any:
    """Return the page labels: numbers, or for sheets with two sides ``front 1``, ``back 1``."""
    decimal = pikepdf.Name.D
    if not document.duplex:
        return pikepdf.Dictionary(Nums=[0, pikepdf.Dictionary(S=decimal)])
    nums: list[Any] = []
    for n in range(len(document.pages)):
        side = pikepdf.String(("front ", "back ")[n % 2])
        nums += [n, pikepdf.Dictionary(S=decimal, P=side, St=n // 2 + 1)]
    return pikepdf.Dictionary(Nums=nums)


class _Tree:
    """The structure tree of one file, written element by element."""

    def __init__(self, pikepdf: Any, pdf: Any) -> None:
        self._pikepdf, self._pdf = pikepdf, pdf
        self._names: dict[str, Any] = {}
        self._spans: dict[tuple[str, int, int], Any] = {}

    def write(self, document: Document) -> None:
        """Write the elements of every page, and from each piece of marked content the way back."""
        pikepdf, pdf = self._pikepdf, self._pdf
        top = pdf.make_indirect(pikepdf.Dictionary(Type=pikepdf.Name.StructTreeRoot))
        whole = self._element("Document", top)
        back: list[Any] = []
        sections = []
        for n, (page, obj) in enumerate(zip(document.pages, pdf.pages, strict=True)):
            section = self._element("Sect", whole)
            section["/T"] = pikepdf.String(printable(page.title))
            owners: dict[int, Any] = {}
            kids = [self._node(node, section, obj.obj, page, owners) for node in structure(page)]
            section["/K"] = pikepdf.Array(kids)
            sections.append(section)
            obj.obj.StructParents = n
            obj.obj.Tabs = pikepdf.Name.S
            ways = pikepdf.Array([owners[number] for number in sorted(owners)])
            back += [n, pdf.make_indirect(ways)]
        whole["/K"] = pikepdf.Array(sections)
        top["/K"] = whole
        top["/ParentTree"] = pdf.make_indirect(pikepdf.Dictionary(Nums=pikepdf.Array(back)))
        top["/ParentTreeNextKey"] = len(document.pages)
        pdf.Root.StructTreeRoot = top
        pdf.Root.MarkInfo = pikepdf.Dictionary(Marked=True, UserProperties=True)
        # The class of what is cut to, so that a proof can hold it to the floor of legibility.
        use = pikepdf.Dictionary(N=pikepdf.String("Use"), V=pikepdf.String("cut to"))
        top["/ClassMap"] = pikepdf.Dictionary(
            Cut=pikepdf.Dictionary(O=pikepdf.Name.UserProperties, P=pikepdf.Array([use]))
        )

    def _name(self, name: str) -> Any:
        if name not in self._names:
            self._names[name] = self._pikepdf.Name("/" + name)
        return self._names[name]

    def _element(self, role: str, parent: Any, more: dict[str, Any] | None = None) -> Any:
        entries = {"/S": self._name(role), "/P": parent, **(more or {})}
        return self._pdf.make_indirect(self._pikepdf.Dictionary(entries))

    def _node(self, node: Node, parent: Any, sheet: Any, page: Page, owners: dict[int, Any]) -> Any:
        pikepdf = self._pikepdf
        more: dict[str, Any] = {"/Pg": sheet}
        numbers = [kid for kid in node.kids if not isinstance(kid, Node)]
        plain = bool(numbers) and len(numbers) == len(node.kids)
        if plain:
            more["/K"] = numbers[0] if len(numbers) == 1 else pikepdf.Array(numbers)
        if node.alt:
            more["/Alt"] = pikepdf.String(printable(node.alt))
        if node.actual:
            more["/ActualText"] = pikepdf.String(printable(node.actual))
        if node.cut:
            more["/C"] = self._name("Cut")
        attributes = self._attributes(node, page)
        if attributes is not None:
            more["/A"] = attributes
        element = self._element(node.role, parent, more)
        owners.update((number, element) for number in numbers)
        if node.kids and not plain:
            element["/K"] = pikepdf.Array(
                self._node(kid, element, sheet, page, owners) if isinstance(kid, Node) else kid
                for kid in node.kids
            )
        return element

    def _attributes(self, node: Node, page: Page) -> Any:
        pikepdf = self._pikepdf
        if node.role == "Figure" and node.block is not None:
            left, top, right, bottom = bounds(node.block)
            box = [round(v, 2) for v in (left, page.height - bottom, right, page.height - top)]
            return pikepdf.Dictionary(
                O=self._name("Layout"), BBox=pikepdf.Array(box), Placement=self._name("Block")
            )
        spans = (node.header if node.role == "TH" else "", node.columns, node.rows)
        if spans == ("", 1, 1):
            return None
        if spans not in self._spans:
            self._spans[spans] = self._pdf.make_indirect(self._cell(*spans))
        return self._spans[spans]

    def _cell(self, scope: str, columns: int, rows: int) -> Any:
        entries: dict[str, Any] = {"/O": self._name("Table")}
        if scope:
            entries["/Scope"] = self._name(scope)
        if columns > 1:
            entries["/ColSpan"] = columns
        if rows > 1:
            entries["/RowSpan"] = rows
        return self._pikepdf.Dictionary(entries)
