"""A page code as a small QR code of plain text. The only module that imports segno."""

from __future__ import annotations

from functools import lru_cache

from keyseats.page import Block, Shape

# Version 1 holds a code and its hyphen even at the highest level of error correction.
MODULES = 21
QUIET = 4


@lru_cache(maxsize=256)
def _runs(code: str) -> tuple[tuple[int, int, int], ...]:
    """Return row, first column and end of every run of dark modules."""
    import segno

    made = segno.make(code, version=1, error="h", mode="alphanumeric", boost_error=False)
    found = []
    for row, modules in enumerate(made.matrix):
        start = None
        for column, dark in enumerate([*modules, 0]):
            if dark and start is None:
                start = column
            elif not dark and start is not None:
                found.append((row, start, column))
                start = None
    return tuple(found)


def quiet_code(code: str, x: float, y: float, module: float) -> Block:
    """Return a page code's QR code; the four modules round it must stay white.

    Parameters
    ----------
    code
        The page code, which is the text that it holds.
    x, y
        Its top left corner, without the quiet zone. [pt]
    module
        Size of a module. [pt]
    """
    path: list[tuple[str | float, ...]] = []
    for row, start, end in _runs(code):
        left, right = x + start * module, x + end * module
        top, bottom = y + row * module, y + (row + 1) * module
        path += [("M", left, top), ("L", right, top), ("L", right, bottom), ("L", left, bottom)]
        path.append(("Z",))
    return Block("Figure", (Shape(tuple(path), fill=0.0),), alt=f"QR code of the page code {code}")
