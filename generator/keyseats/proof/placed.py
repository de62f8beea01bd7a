"""Where things stand: paper and boxes, margins, cards within their cuts, words over words."""

from __future__ import annotations

import re
from collections.abc import Iterator

from keyseats.palette import GREYS
from keyseats.proof import papers
from keyseats.proof.cards import Grid, grid
from keyseats.proof.facts import MM, Box, Fault, File, Ink, Piece, Sheet

# An inkjet leaves up to 6.7 mm bare at the foot (a maker's manual); 10 and 12 keep clear of it.
MARGIN, FOOT, CARD = 10 * MM, 12 * MM, 3 * MM
# Rounding, half a heavy rule's width; and by how much of its size type stands past its capitals,
# to which margins are set: the tops of b, d and k. [pt]
_NEAR = 0.25 * MM
_PAST = 0.03
# Boxes of two pieces may touch by this; more is ink on ink. [pt]
_TOUCH = 0.3
_STEP = 1.01 / 255
_PAPER_TOLD = re.compile(rf"actual size on ({'|'.join(papers.PAPERS_MM)})\b")


def faults(file: File, sheet: Sheet) -> Iterator[Fault]:
    """Yield what is wrong with a page's paper, and with where things stand on it."""
    n = sheet.number
    name = papers.paper(sheet.wide, sheet.high)
    if not name:
        size = papers.told(sheet.wide, sheet.high)
        known = ", ".join(papers.PAPERS_MM)
        yield Fault(file.name, n, f"{size} is no paper's size", f"make it for one of {known}")
    told = _PAPER_TOLD.search(sheet.text)
    if name and told and told.group(1) != name:
        what = f"it says {told.group(1)} and is {name}"
        yield Fault(file.name, n, what, "set it for the paper that it names")
    for what in sheet.odd:
        yield Fault(file.name, n, what, "make every box the paper's size, upright, unscaled")
    yield from _inks(file, sheet)
    cuts = grid(sheet)
    if cuts is not None:
        yield from _cards(file, sheet, cuts)
    yield from _margins(file, sheet, cuts)
    yield from _overlaps(file, sheet)


def edge(sheet: Sheet) -> float:
    """Return the least white at a page's edge, or at a card's edge on a sheet of cards. [pt]"""
    cuts = grid(sheet)
    if cuts is None:
        return min(
            (min(_white(i.box, Box(0, 0, sheet.wide, sheet.high))) for i in _all(sheet)),
            default=0.0,
        )
    spaces = [
        min(_white(i.box, cell)) for i in _all(sheet) for cell in cuts.cells() if _in(i.box, cell)
    ]
    return min(spaces, default=0.0)


def _all(sheet: Sheet) -> list[Piece | Ink]:
    return [*(p for p in sheet.pieces if p.text.strip() or p.part), *sheet.inks]


def _white(box: Box, field: Box) -> tuple[float, float, float, float]:
    return (
        box.left - field.left,
        box.top - field.top,
        field.right - box.right,
        field.bottom - box.bottom,
    )


def _in(box: Box, cell: Box) -> bool:
    """Return whether the middle of a box is in a cell."""
    x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
    return cell.left <= x <= cell.right and cell.top <= y <= cell.bottom


def _name(item: Piece | Ink) -> str:
    return f"'{item.text.strip()[:24]}'" if isinstance(item, Piece) else f"an {item.kind}"


def _inks(file: File, sheet: Sheet) -> Iterator[Fault]:
    n = sheet.number
    kinds = [i.kind for i in sheet.inks]
    if "picture" in kinds:
        what = f"{kinds.count('picture')} raster picture(s)"
        yield Fault(file.name, n, what, "draw it in lines and type")
    if "blend" in kinds:
        what = f"{kinds.count('blend')} blend(s) of shades"
        yield Fault(file.name, n, what, "fill it with one grey")
    odd = sorted({c for i in sheet.inks for c in i.colours if not _known(c)})
    if odd:
        told = ", ".join("/".join(f"{part:.2f}" for part in colour) for colour in odd[:3])
        greys = ", ".join(f"{grey:g}" for grey in GREYS)
        yield Fault(file.name, n, f"colour {told} is not of the palette", f"use a grey: {greys}")


def _known(colour: tuple[float, float, float]) -> bool:
    return any(all(abs(part - grey) <= _STEP for part in colour) for grey in GREYS)


def _margins(file: File, sheet: Sheet, cuts: Grid | None) -> Iterator[Fault]:
    page = Box(0, 0, sheet.wide, sheet.high)
    outside, near = [], []
    for item in _all(sheet):
        if cuts is not None and _in(item.box, cuts.box):
            continue
        white = _white(item.box, page)
        past = max(_NEAR, item.size * _PAST) if isinstance(item, Piece) else _NEAR
        if min(white) < -past:
            outside.append(item)
        elif min(white[:3]) < MARGIN - past or white[3] < FOOT - past:
            near.append(item)
    if outside:
        what = f"{_more(outside)} outside the paper"
        yield Fault(file.name, sheet.number, what, "set it within the margins")
    if near:
        least = min(min(_white(i.box, page)) for i in near) / MM
        what = f"{_more(near)} in the margin, {least:.1f} mm from the edge"
        yield Fault(file.name, sheet.number, what, "leave 10 mm at the edges, 12 at the foot")


def _more(found: list[Piece | Ink]) -> str:
    first = _name(found[0])
    return first if len(found) == 1 else f"{first} and {len(found) - 1} more"


def _cards(file: File, sheet: Sheet, cuts: Grid) -> Iterator[Fault]:
    n, cells = sheet.number, cuts.cells()
    for cell in cells:
        wide, high = cell.right - cell.left, cell.bottom - cell.top
        if not papers.card(wide, high):
            known = ", ".join(papers.CARDS_MM)
            what = f"the cut marks make cards of {papers.told(wide, high)}"
            yield Fault(file.name, n, what, f"set them for one of {known}")
            break
    box = cuts.box
    if (
        abs(box.left - (sheet.wide - box.right)) > 0.1
        or abs(box.top - sheet.high + box.bottom) > 0.1
    ):
        mend = "centre it, so that fronts and backs meet"
        yield Fault(file.name, n, "the field of cards is not in the middle of the sheet", mend)
    near = []
    for item in _all(sheet):
        for cell in cells:
            if _in(item.box, cell) and min(_white(item.box, cell)) < CARD - _NEAR:
                near.append(item)
    if near:
        what = f"{_more(near)} within 3 mm of a card's edge"
        yield Fault(file.name, n, what, "leave 3 mm within the cut")


def _overlaps(file: File, sheet: Sheet) -> Iterator[Fault]:
    pieces = sorted((p for p in sheet.pieces if p.text.strip() or p.part), key=lambda p: p.box.top)
    found = []
    for n, piece in enumerate(pieces):
        for other in pieces[n + 1 :]:
            if other.box.top >= piece.box.bottom:
                break
            across, down = piece.box.over(other.box)
            if across > _TOUCH and down > _TOUCH:
                found.append((piece, other))
    if found:
        one, other = found[0]
        more = f" and {len(found) - 1} more pairs" if len(found) > 1 else ""
        what = f"{_name(one)} stands over {_name(other)}{more}"
        yield Fault(file.name, sheet.number, what, "set them apart")
