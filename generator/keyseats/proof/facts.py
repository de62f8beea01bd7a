"""What was read of a finished file, and what is wrong with it."""

from __future__ import annotations

from dataclasses import dataclass, field

MM = 72 / 25.4


@dataclass(frozen=True)
class Box:
    """Where something stands on its page: points from the top left corner, downward."""

    left: float
    top: float
    right: float
    bottom: float

    def over(self, other: Box) -> tuple[float, float]:
        """Return how far two boxes lie over each other across and down; below zero, apart. [pt]"""
        across = min(self.right, other.right) - max(self.left, other.left)
        return across, min(self.bottom, other.bottom) - max(self.top, other.top)


@dataclass(frozen=True)
class Piece:
    """A run of characters set in one go.

    Parameters
    ----------
    text
        Its characters; none for a part of what another piece spells.
    box, size
        Where its ink stands, and its type size as printed. [pt]
    black, seen
        Whether its ink is black, and whether it is inked at all.
    tagged
        Whether the structure, or a mark as decoration, holds it.
    cut, body
        Whether its element is of the class ``Cut``, and whether it is in a table's body cell.
    part
        Whether it spells something together with others, as a built fraction does.
    """

    text: str
    box: Box
    size: float
    black: bool
    seen: bool
    tagged: bool
    cut: bool
    body: bool
    part: bool


@dataclass(frozen=True)
class Ink:
    """A picture, a blend, or an outline with the colours that it is filled and stroked in.

    ``colours`` are red, green and blue from 0 to 1; ``straight`` says that it is one stroke of
    ``width`` between two corners of its box. [pt]
    """

    kind: str
    box: Box
    colours: tuple[tuple[float, float, float], ...] = ()
    straight: bool = False
    width: float = 0.0


@dataclass
class Tags:
    """The structure of one page, counted."""

    headings: int = 0
    tables: int = 0
    headless: int = 0
    unscoped: int = 0
    figures: int = 0
    silent: int = 0
    untied: int = 0


@dataclass(frozen=True)
class Font:
    """A font of a page: its name, and what it lacks."""

    name: str
    lacks: tuple[str, ...]


@dataclass(frozen=True)
class Sheet:
    """One page: paper, boxes that are not the paper's, and all that is on it."""

    number: int
    wide: float
    high: float
    odd: tuple[str, ...]
    pieces: tuple[Piece, ...]
    inks: tuple[Ink, ...]
    tags: Tags
    fonts: tuple[Font, ...]
    bookmarked: bool

    @property
    def text(self) -> str:
        """Return all that is read on the page, in the order in which it is drawn."""
        return " ".join(" ".join(p.text for p in self.pieces).split())


@dataclass(frozen=True)
class File:
    """A file as another program reads it; ``unread`` says why it could not be read."""

    name: str
    unread: str = ""
    version: str = ""
    identity: str = ""
    info: dict[str, str] = field(default_factory=dict)
    xmp: dict[str, str] | None = None
    language: str = ""
    title_shown: bool = False
    scaling: str = ""
    duplex: str = ""
    labelled: bool = False
    marked: bool = False
    tree: bool = False
    classed: bool = False
    pictures: int = 0
    spare_fonts: tuple[Font, ...] = ()
    syntax: tuple[str, ...] = ()
    sheets: tuple[Sheet, ...] = ()


@dataclass(frozen=True)
class Fault:
    """What is wrong, where, and what would do; page 0 is the file as a whole."""

    file: str
    page: int
    what: str
    mend: str

    def __str__(self) -> str:
        """Return the fault as one line."""
        where = f"{self.file}, page {self.page}" if self.page else self.file
        return f"{where}: {self.what}; {self.mend}"
