"""A page's PDF operators composed as text: a tenth of the cost of calls on a canvas."""

from __future__ import annotations

from collections.abc import Callable

from keyseats.page import Block, Graph, Line, Mark, Page, Shape, Text
from keyseats.renderers.graph import PAD, form_name
from keyseats.renderers.marking import Run, marked
from keyseats.typeface import printable, width

# What a string's bytes are written as: themselves, or in octal.
_SPELT = {n: chr(n) if 32 <= n < 127 and chr(n) not in "()\\" else f"\\{n:03o}" for n in range(256)}
# Of a bold or regular text: the font's name in the file and the bytes, for each subset of the font.
Encode = Callable[[str, bool], list[tuple[str, bytes]]]
_PAINT = {(True, True): "B*", (True, False): "f*", (False, True): "S", (False, False): "n"}


def operators(page: Page, encode: Encode) -> str:
    """Return the operators that draw a page, each piece of marked content in its turn.

    Parameters
    ----------
    page
        The page.
    encode
        Gives a text as the file's fonts have it.
    """
    writing = _Writing(page.height, encode)
    for run in marked(page)[0]:
        writing.run(run)
    return "\n".join(writing.out)


class _Writing:
    """Operators as they are written. What is set already is not set again."""

    def __init__(self, height: float, encode: Encode) -> None:
        self._height = height
        self._encode = encode
        self._encoded: dict[tuple[str, bool], list[tuple[str, str]]] = {}
        self._set: dict[str, str] = {}
        self._graphs = 0
        self.out: list[str] = []

    def run(self, run: Run) -> None:
        if run.number is None:
            self.out.append("/Artifact BMC")
        elif run.actual:
            spelt = _spelt(run.actual)
            self.out.append(f"/{run.tag} <</MCID {run.number}/ActualText {spelt}>> BDC")
        else:
            self.out.append(f"/{run.tag} <</MCID {run.number}>> BDC")
        self._items(run.items)
        self.out.append("EMC")

    def _items(self, items: tuple[Block | Mark, ...]) -> None:
        for item in items:
            if isinstance(item, Text):
                self._text(item)
            elif isinstance(item, Line):
                self._line(item)
            elif isinstance(item, Shape):
                self._shape(item)
            elif isinstance(item, Graph):
                self._graph(item)
            elif item.role == "Span" and item.alt:
                self.out.append(f"/Span <</ActualText {_spelt(item.alt)}>> BDC")
                self._items(item.items)
                self.out.append("EMC")
            else:
                self._items(item.items)

    def _once(self, what: str, value: str) -> None:
        if self._set.get(what) != value:
            self._set[what] = value
            self.out.append(f"{value} {what}")

    def _text(self, mark: Text) -> None:
        x = mark.x
        if mark.anchor != "start":
            wide = width(mark.text, mark.size, mark.bold)
            x -= wide if mark.anchor == "end" else wide / 2
        self._once("g", f"{mark.grey:.3f}")
        key = mark.text, mark.bold
        pieces = self._encoded.get(key)
        if pieces is None:
            found = self._encode(mark.text, mark.bold)
            pieces = [(font, data.decode("latin-1").translate(_SPELT)) for font, data in found]
            self._encoded[key] = pieces
        self.out.append("BT")
        for n, (font, spelt) in enumerate(pieces):
            self._once("Tf", f"{font} {mark.size:.3f}")
            if n == 0:
                self.out.append(f"{x:.3f} {self._height - mark.y:.3f} Td")
            self.out.append(f"({spelt}) Tj")
        self.out.append("ET")

    def _stroke(self, wide: float, dash: tuple[float, ...]) -> None:
        self._once("G", "0")
        self._once("w", f"{wide:.3f}")
        self._once("d", f"[{' '.join(f'{n:.3f}' for n in dash)}] 0")

    def _line(self, mark: Line) -> None:
        self._stroke(mark.width, mark.dash)
        high = self._height
        self.out.append(
            f"{mark.x1:.3f} {high - mark.y1:.3f} m {mark.x2:.3f} {high - mark.y2:.3f} l S"
        )

    def _graph(self, graph: Graph) -> None:
        """Leave place for a graph, in black as it begins, which the last hand puts there."""
        x, y = graph.x - PAD, self._height - graph.y - graph.height - PAD
        form = form_name(self._graphs)
        self.out.append(f"q 0 g 0 G [] 0 d 1 0 0 1 {x:.3f} {y:.3f} cm /{form} Do Q")
        self._graphs += 1

    def _shape(self, shape: Shape) -> None:
        if shape.fill is not None:
            self._once("g", f"{shape.fill:.3f}")
        if shape.stroke is not None:
            self._stroke(shape.stroke, shape.dash)
        high = self._height
        for kind, *numbers in shape.path:
            if kind == "Z":
                self.out.append("h")
                continue
            spelt = [f"{high - float(n) if i % 2 else float(n):.3f}" for i, n in enumerate(numbers)]
            self.out.append(f"{' '.join(spelt)} {str(kind).lower()}")
        self.out.append(_PAINT[shape.fill is not None, shape.stroke is not None])


def _spelt(text: str) -> str:
    return "<FEFF" + printable(text).encode("utf-16-be").hex().upper() + ">"
