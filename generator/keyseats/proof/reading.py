"""A finished PDF read: its objects by pikepdf, what is drawn by pypdfium2. Only here are both.

They are the libraries that finish and picture the set; here they read files made by anyone.
"""

from __future__ import annotations

import ctypes
import math
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from keyseats.proof.facts import Box, File, Font, Ink, Piece, Sheet
from keyseats.proof.tags import Tree, Walk

_SUBSET = re.compile(r"/[A-Z]{6}\+")
_BOXES = ("/CropBox", "/TrimBox", "/BleedBox", "/ArtBox")
# An outline of more corners than this is judged by the box that the library gives.
_CORNERS = 200
_INVISIBLE = 3
# How the library tells a hyphen at the end of a line.
_HYPHEN = {0x02: "-", 0xFFFE: "-"}
_XMP = {
    "Title": "dc:title",
    "Subject": "dc:description",
    "Author": "dc:creator",
    "Creator": "xmp:CreatorTool",
    "Producer": "pdf:Producer",
}
Matrix = tuple[float, float, float, float, float, float]
_AS_IS: Matrix = (1, 0, 0, 1, 0, 0)


def read(path: Path) -> File:
    """Return all that is judged of a file; why not, if it cannot be read."""
    import pikepdf
    import pypdfium2

    try:
        with pikepdf.open(path) as pdf:
            if pdf.is_encrypted:
                return File(path.name, "encrypted, so that not everyone can read or print it")
            return _file(path, pikepdf, pdf)
    except pikepdf.PasswordError:
        return File(path.name, "encrypted, and a password is asked for")
    except OSError as fault:
        return File(path.name, f"cannot be read: {fault.strerror or fault}")
    except (pikepdf.PdfError, pypdfium2.PdfiumError) as fault:
        return File(path.name, f"not a PDF that can be read: {_line(fault, path)}")
    except (AttributeError, KeyError, TypeError, ValueError, IndexError) as fault:
        return File(path.name, f"a damaged PDF, some part is not what it must be: {fault!r:.120}")


def _line(fault: object, path: Path) -> str:
    return " ".join(str(fault).replace(str(path), "").split()).lstrip(": ") or "no reason given"


def _file(path: Path, pikepdf: Any, pdf: Any) -> File:
    sheets = [page.obj for page in pdf.pages]
    root = pdf.Root
    tree = Walk(pikepdf.Dictionary, pikepdf.Array, sheets).tree(root)
    marked = _marked_pages(pdf, {sheet.objgen: n for n, sheet in enumerate(sheets)})
    fonts = [_page_fonts(pikepdf, sheet) for sheet in sheets]
    hints = root.get("/ViewerPreferences", pikepdf.Dictionary())
    check = getattr(pdf, "check_pdf_syntax", None) or pdf.check
    found = [*pdf.get_warnings(), *check()]
    labels = list(root.get("/PageLabels", pikepdf.Dictionary()).get("/Nums", []))
    identity = pdf.trailer.get("/ID")
    return File(
        path.name,
        version=str(pdf.pdf_version),
        identity=bytes(identity[0]).hex() if identity is not None else "",
        info={str(k)[1:]: str(v).strip() for k, v in pdf.docinfo.items()},
        xmp=_xmp(pdf) if "/Metadata" in root else None,
        language=str(root.get("/Lang", "")),
        title_shown=bool(hints.get("/DisplayDocTitle", False)),
        scaling=str(hints.get("/PrintScaling", ""))[1:],
        duplex=str(hints.get("/Duplex", ""))[1:],
        labelled=bool(labels) and int(labels[0]) == 0,
        marked=bool(root.get("/MarkInfo", pikepdf.Dictionary()).get("/Marked", False)),
        tree="/StructTreeRoot" in root,
        classed=tree.classed,
        pictures=_pictures(pikepdf, pdf),
        spare_fonts=_spare_fonts(pikepdf, pdf, fonts),
        syntax=tuple(_line(message, path) for message in found),
        sheets=tuple(_sheets(path, sheets, tree, fonts, marked)),
    )


def _xmp(pdf: Any) -> dict[str, str]:
    found = {}
    with pdf.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as meta:
        for name, key in _XMP.items():
            value = meta.get(key)
            if value:
                found[name] = value if isinstance(value, str) else "; ".join(sorted(value))
    return found


def _marked_pages(pdf: Any, index: dict[tuple[int, int], int]) -> set[int]:
    """Return the pages that a bookmark leads to."""
    found: set[int] = set()
    with pdf.open_outline() as outline:
        waiting = list(outline.root)
        while waiting:
            item = waiting.pop()
            waiting += item.children
            target = item.destination
            if target is None and item.action is not None:
                target = item.action.get("/D")
            if target is not None and not isinstance(target, str) and len(target):
                found.add(index.get(getattr(target[0], "objgen", (0, 0)), -1))
    return found


def _page_fonts(pikepdf: Any, sheet: Any) -> list[tuple[tuple[int, int], Font]]:
    """Return the fonts of a page and of what is drawn on it, each with its object's number."""
    found: dict[str, tuple[tuple[int, int], Font]] = {}
    waiting, seen = [sheet], set()
    while waiting:
        holder = waiting.pop()
        if holder.objgen in seen and holder.objgen != (0, 0):
            continue
        seen.add(holder.objgen)
        resources = holder.get("/Resources")
        while resources is None and "/Parent" in holder:
            holder = holder["/Parent"]
            resources = holder.get("/Resources")
        if resources is None:
            continue
        for name, font in resources.get("/Font", pikepdf.Dictionary()).items():
            found[f"{name}{font.objgen}"] = font.objgen, _font(font)
        waiting += [
            x
            for _, x in resources.get("/XObject", pikepdf.Dictionary()).items()
            if str(x.get("/Subtype")) == "/Form"
        ]
    return list(found.values())


def _font(font: Any) -> Font:
    name, kind = str(font.get("/BaseFont", "without a name")), str(font.get("/Subtype"))
    holder = font["/DescendantFonts"][0] if kind == "/Type0" else font
    descriptor = holder.get("/FontDescriptor")
    embedded = descriptor is not None and any(
        key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3")
    )
    lacks = []
    if kind == "/Type3":
        lacks.append("is of type 3, drawn and not set")
    elif not embedded:
        lacks.append("is not embedded")
    elif not _SUBSET.match(name):
        lacks.append("is not a subset")
    if "/ToUnicode" not in font:
        lacks.append("cannot be searched (no ToUnicode)")
    return Font(name.removeprefix("/"), tuple(lacks))


def _spare_fonts(pikepdf: Any, pdf: Any, used: list[Any]) -> tuple[Font, ...]:
    """Return the fonts that are in the file and on no page."""
    known = {number for page in used for number, _ in page}
    return tuple(
        _font(o)
        for o in pdf.objects
        if isinstance(o, pikepdf.Dictionary)
        and str(o.get("/Type")) == "/Font"
        and not str(o.get("/Subtype")).startswith("/CIDFont")
        and o.objgen not in known
    )


def _pictures(pikepdf: Any, pdf: Any) -> int:
    return sum(
        isinstance(o, pikepdf.Stream) and str(o.get("/Subtype")) == "/Image" for o in pdf.objects
    )


def _sheets(
    path: Path, sheets: list[Any], tree: Tree, fonts: list[Any], marked: set[int]
) -> Iterator[Sheet]:
    import pypdfium2

    document = pypdfium2.PdfDocument(path)
    try:
        for n, sheet in enumerate(sheets):
            left, low, right, high = (float(v) for v in _inherited(sheet, "/MediaBox"))
            page = document[n]
            drawn = _Drawn(page, n, tree, (left, high))
            pieces, inks = drawn.all()
            yield Sheet(
                n + 1,
                right - left,
                high - low,
                tuple(_odd(sheet, (left, low, right, high))),
                tuple(pieces),
                tuple(inks),
                tree.pages[n],
                tuple(font for _, font in fonts[n]),
                n in marked,
            )
            page.close()
    finally:
        document.close()


def _inherited(sheet: Any, key: str) -> Any:
    while key not in sheet:
        sheet = sheet["/Parent"]
    return sheet[key]


def _odd(sheet: Any, media: tuple[float, ...]) -> Iterator[str]:
    if media[0] or media[1]:
        yield "its corner is not at 0, 0"
    for name in _BOXES:
        box = sheet.get(name)
        if box is not None and any(
            abs(float(a) - b) > 0.001 for a, b in zip(box, media, strict=True)
        ):
            yield f"its {name[1:]} is not its MediaBox"
    if int(sheet.get("/Rotate", 0)) % 360:
        yield "it is turned"
    if float(sheet.get("/UserUnit", 1)) != 1:
        yield "it is scaled by UserUnit"


class _Drawn:
    """What is drawn on one page, object by object."""

    def __init__(self, page: Any, number: int, tree: Tree, corner: tuple[float, float]) -> None:
        import pypdfium2.raw

        self._raw: Any = pypdfium2.raw
        self._page, self._number, self._tree, self._corner = page, number, tree, corner
        self._f = [ctypes.c_float() for _ in range(4)]
        self._u = [ctypes.c_uint() for _ in range(4)]

    def all(self) -> tuple[list[Piece], list[Ink]]:
        """Return the pieces of text and the rest of what is drawn, in order."""
        raw, pieces, inks = self._raw, list[Piece](), list[Ink]()
        words = self._page.get_textpage()
        try:
            for item, matrix in self._objects(self._page.raw, False, _AS_IS):
                kind = raw.FPDFPageObj_GetType(item)
                if kind == raw.FPDF_PAGEOBJ_TEXT:
                    pieces.append(self._piece(item, matrix, words.raw))
                elif kind == raw.FPDF_PAGEOBJ_PATH:
                    ink = self._outline(item, matrix)
                    if ink is not None:
                        inks.append(ink)
                else:
                    name = "picture" if kind == raw.FPDF_PAGEOBJ_IMAGE else "blend"
                    inks.append(Ink(name, self._box(item, matrix)))
        finally:
            words.close()
        return pieces, inks

    def _objects(self, holder: Any, form: bool, matrix: Matrix) -> Iterator[tuple[Any, Matrix]]:
        raw = self._raw
        count = raw.FPDFFormObj_CountObjects if form else raw.FPDFPage_CountObjects
        get = raw.FPDFFormObj_GetObject if form else raw.FPDFPage_GetObject
        for n in range(count(holder)):
            item = get(holder, n)
            if raw.FPDFPageObj_GetType(item) == raw.FPDF_PAGEOBJ_FORM:
                yield from self._objects(item, True, _after(self._matrix(item), matrix))
            else:
                yield item, matrix

    def _matrix(self, item: Any) -> Matrix:
        m = self._raw.FS_MATRIX()
        self._raw.FPDFPageObj_GetMatrix(item, m)
        return m.a, m.b, m.c, m.d, m.e, m.f

    def _box(self, item: Any, matrix: Matrix) -> Box:
        self._raw.FPDFPageObj_GetBounds(item, *self._f)
        left, low, right, high = (f.value for f in self._f)
        return self._around([(left, low), (right, low), (left, high), (right, high)], matrix)

    def _around(self, points: list[tuple[float, float]], m: Matrix) -> Box:
        xs = [m[0] * x + m[2] * y + m[4] - self._corner[0] for x, y in points]
        ys = [self._corner[1] - (m[1] * x + m[3] * y + m[5]) for x, y in points]
        return Box(min(xs), min(ys), max(xs), max(ys))

    def _colour(self, get: Any, item: Any) -> tuple[float, float, float]:
        get(item, *self._u)
        red, green, blue, _ = (u.value / 255 for u in self._u)
        return red, green, blue

    def _piece(self, item: Any, matrix: Matrix, words: Any) -> Piece:
        raw, size = self._raw, self._f[0]
        raw.FPDFTextObj_GetFontSize(item, size)
        own = _after(self._matrix(item), matrix)
        tall = size.value * math.hypot(own[2], own[3])
        length = raw.FPDFTextObj_GetText(item, words, None, 0)
        spelt = (ctypes.c_ushort * (length // 2 + 1))()
        raw.FPDFTextObj_GetText(item, words, spelt, length)
        text = bytes(spelt)[: max(length - 2, 0)].decode("utf-16-le", "replace")
        text = text.translate(_HYPHEN)
        number, decoration, part = self._marks(item)
        place = (self._number, number)
        return Piece(
            text,
            self._box(item, matrix),
            tall,
            self._colour(raw.FPDFPageObj_GetFillColor, item) == (0, 0, 0),
            raw.FPDFTextObj_GetTextRenderMode(item) != _INVISIBLE,
            decoration or place in self._tree.held,
            place in self._tree.cut,
            place in self._tree.body,
            part,
        )

    def _marks(self, item: Any) -> tuple[int, bool, bool]:
        """Return the number of marked content, whether it is decoration, or spells with others."""
        raw, number, decoration, part = self._raw, -1, False, False
        found = ctypes.c_int()
        for n in range(raw.FPDFPageObj_CountMarks(item)):
            mark = raw.FPDFPageObj_GetMark(item, n)
            if raw.FPDFPageObjMark_GetParamIntValue(mark, b"MCID", found):
                number = found.value
                kind = raw.FPDFPageObjMark_GetParamValueType(mark, b"ActualText")
                part = part or kind == raw.FPDF_OBJECT_STRING
            else:
                name, length = (ctypes.c_ushort * 32)(), ctypes.c_ulong()
                raw.FPDFPageObjMark_GetName(mark, name, 64, length)
                decoration = bytes(name).decode("utf-16-le").rstrip("\0") == "Artifact"
        return number, decoration, part

    def _outline(self, item: Any, matrix: Matrix) -> Ink | None:
        """Return an outline, judged along the middle of its strokes; None if it has no ink."""
        raw = self._raw
        filled, stroked = ctypes.c_int(), ctypes.c_int()
        raw.FPDFPath_GetDrawMode(item, filled, stroked)
        colours = []
        if filled.value:
            colours.append(self._colour(raw.FPDFPageObj_GetFillColor, item))
        if stroked.value:
            colours.append(self._colour(raw.FPDFPageObj_GetStrokeColor, item))
        if not colours:
            return None
        corners = raw.FPDFPath_CountSegments(item)
        raw.FPDFPageObj_GetStrokeWidth(item, self._f[0])
        width = self._f[0].value
        if corners > _CORNERS:
            return Ink("outline", self._box(item, matrix), tuple(colours), False, width)
        points = []
        for n in range(corners):
            segment = raw.FPDFPath_GetPathSegment(item, n)
            raw.FPDFPathSegment_GetPoint(segment, self._f[0], self._f[1])
            points.append((self._f[0].value, self._f[1].value))
        box = self._around(points, _after(self._matrix(item), matrix))
        straight = corners == 2 and not filled.value
        return Ink("outline", box, tuple(colours), straight, width)


def _after(first: Matrix, then: Matrix) -> Matrix:
    """Return one matrix for two, the first applied first."""
    a, b, c, d, e, f = first
    p, q, r, s, t, u = then
    return (
        a * p + b * r,
        a * q + b * s,
        c * p + d * r,
        c * q + d * s,
        e * p + f * r + t,
        e * q + f * s + u,
    )
