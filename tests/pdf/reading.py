"""Words read back from a finished PDF, with where they stand."""

from __future__ import annotations

import io
from dataclasses import dataclass

import pdfplumber

CAP = 0.73


@dataclass(frozen=True)
class Word:
    """A run of characters set side by side on one baseline; points from the top left."""

    text: str
    x0: float
    x1: float
    baseline: float
    size: float

    def overlaps(self, other: Word) -> bool:
        """Return whether two words' capitals cover each other by more than a hair."""
        across = min(self.x1, other.x1) - max(self.x0, other.x0)
        top, other_top = self.baseline - self.size * CAP, other.baseline - other.size * CAP
        down = min(self.baseline, other.baseline) - max(top, other_top)
        return across > 0.6 and down > 0.8


@dataclass(frozen=True)
class ReadPage:
    """One page as another program reads it."""

    width: float
    height: float
    characters: str
    words: tuple[Word, ...]


def read(pdf: bytes) -> list[ReadPage]:
    """Read every page of a PDF, characters in the order in which they are drawn."""
    pages = []
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        for page in document.pages:
            chars = page.chars
            words: list[Word] = []
            for char in chars:
                baseline = float(page.height) - char["matrix"][5]
                last = words[-1] if words else None
                joined = (
                    last is not None
                    and abs(last.baseline - baseline) < 0.01
                    and abs(last.size - char["size"]) < 0.01
                    and -0.05 <= char["x0"] - last.x1 < 0.4 * char["size"]
                )
                if joined and last is not None:
                    words[-1] = Word(
                        last.text + char["text"], last.x0, char["x1"], baseline, last.size
                    )
                else:
                    words.append(Word(char["text"], char["x0"], char["x1"], baseline, char["size"]))
            text = "".join(c["text"] for c in chars)
            pages.append(ReadPage(float(page.width), float(page.height), text, tuple(words)))
            page.close()
    return pages
