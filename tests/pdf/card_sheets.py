"""Sheets of cards as another program reads them: the cards between their cut marks, and the ink."""

from __future__ import annotations

import io
import re
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import pdfplumber
import pikepdf

from pdf.reading import CAP

MM = 72 / 25.4
# A cut mark, as the sheets are told to have it: 5 mm of the thinnest line. [pt]
MARK_LONG, MARK_WIDTH = 5 * MM, 0.25


@dataclass(frozen=True)
class Rect:
    """A rectangle in points from the top left."""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def size_mm(self) -> tuple[float, float]:
        return (self.x1 - self.x0) / MM, (self.y1 - self.y0) / MM

    def inside(self, other: Rect, by: float) -> bool:
        return (
            self.x0 >= other.x0 + by
            and self.y0 >= other.y0 + by
            and self.x1 <= other.x1 - by
            and self.y1 <= other.y1 - by
        )

    def clear(self, other: Rect, by: float) -> bool:
        return (
            self.x1 <= other.x0 - by
            or self.x0 >= other.x1 + by
            or self.y1 <= other.y0 - by
            or self.y0 >= other.y1 + by
        )

    def corners(self) -> list[tuple[float, float]]:
        return [(x, y) for x in (self.x0, self.x1) for y in (self.y0, self.y1)]


@dataclass(frozen=True)
class Letter:
    """One character: its box, baseline, and whether it is bold."""

    text: str
    box: Rect
    base: float
    bold: bool


@dataclass(frozen=True)
class CardPage:
    """One page: its size, its letters in reading order, the boxes of all other ink, its cards."""

    width: float
    height: float
    letters: tuple[Letter, ...]
    ink: tuple[Rect, ...]
    marks: tuple[Rect, ...]
    cards: tuple[Rect, ...]

    def text(self, where: Rect) -> str:
        """Return what is read in a rectangle, one line for each change of baseline."""
        out, base = "", None
        for letter in self.letters:
            if letter.box.inside(where, 0):
                if base is not None and abs(letter.base - base) > 0.01:
                    out += "\n"
                base = letter.base
                out += letter.text
        return out

    def rows(self, where: Rect, count: int) -> list[tuple[list[str], bool]]:
        """Return the rows of just so many figures, top to bottom, and whether all are bold."""
        lines: dict[float, list[Letter]] = {}
        for letter in self.letters:
            if letter.box.inside(where, 0):
                lines.setdefault(round(letter.base, 1), []).append(letter)
        found = []
        for _, line in sorted(lines.items()):
            figures: list[list[Letter]] = []
            for letter in sorted(line, key=lambda one: one.box.x0):
                near = figures and letter.box.x0 - figures[-1][-1].box.x1 < 1.0
                if near:
                    figures[-1].append(letter)
                else:
                    figures.append([letter])
            texts = ["".join(one.text for one in figure) for figure in figures]
            if len(texts) == count and all(re.fullmatch(r"\d+\.\d+", t) for t in texts):
                found.append((texts, all(one.bold for figure in figures for one in figure)))
        return found


def card_pages(pdf: bytes) -> list[CardPage]:
    """Read every page of a PDF of cards."""
    pages = []
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        for page in document.pages:
            pages.append(_page(page))
            page.close()
    return pages


def _page(page: Any) -> CardPage:
    height = float(page.height)
    letters = []
    for char in page.chars:
        assert char["upright"]
        base = height - char["matrix"][5]
        box = Rect(char["x0"], base - char["size"] * CAP, char["x1"], base)
        letters.append(Letter(char["text"], box, base, "Bold" in char["fontname"]))
    ink, marks = [], []
    for item in (*page.lines, *page.rects, *page.curves):
        half = (item["linewidth"] if item["stroke"] else 0) / 2
        box = Rect(item["x0"] - half, item["top"] - half, item["x1"] + half, item["bottom"] + half)
        long = max(item["x1"] - item["x0"], item["bottom"] - item["top"])
        cut = abs(long - MARK_LONG) < 0.01 and abs(item["linewidth"] - MARK_WIDTH) < 1e-6
        (marks if cut else ink).append(box)
    return CardPage(
        float(page.width), height, tuple(letters), tuple(ink), tuple(marks), _cards(marks)
    )


def _cards(marks: list[Rect]) -> tuple[Rect, ...]:
    """Return the cards that the cut marks stand in line with, in reading order."""
    across, down = set(), set()
    for mark in marks:
        if mark.y1 - mark.y0 > mark.x1 - mark.x0:
            across.add(round((mark.x0 + mark.x1) / 2, 2))
        else:
            down.add(round((mark.y0 + mark.y1) / 2, 2))
    xs, ys = sorted(across), sorted(down)
    return tuple(Rect(x0, y0, x1, y1) for y0, y1 in pairwise(ys) for x0, x1 in pairwise(xs))


def duplex_hint(pdf: bytes) -> str:
    """Return the edge on which the file asks to be flipped, or nothing."""
    with pikepdf.open(io.BytesIO(pdf)) as document:
        hint = document.Root.ViewerPreferences.get("/Duplex")
        return "" if hint is None else str(hint)


def behind(card: Rect, page: CardPage, hint: str) -> Rect:
    """Return where a card of a front lies on the page of its back.

    An upright sheet turned on its long edge mirrors left and right, on its short edge top and
    bottom; each page is read upright on its own side.
    """
    if hint == "/DuplexFlipLongEdge":
        return Rect(page.width - card.x1, card.y0, page.width - card.x0, card.y1)
    assert hint == "/DuplexFlipShortEdge"
    return Rect(card.x0, page.height - card.y1, card.x1, page.height - card.y0)


def number(text: str) -> str:
    """Return a card's number as its last line prints it."""
    match = re.search(r"(?:Card|Reckoner) (\d+) of \d+", text)
    assert match, text
    return match.group(1)
