"""First pages as small grey pictures, and how far two of them are apart.

A picture is compared in cells of a few pixels, so that another version of the renderer, which
smooths edges in another way, makes no difference, and a word or an outline that went or came does.
"""

from __future__ import annotations

import io
from dataclasses import dataclass
from pathlib import Path

import pypdfium2
from PIL import Image, ImageChops, ImageOps, ImageStat

HERE = Path(__file__).resolve().parent
REFERENCE, DIFFERENCES = HERE / "reference", HERE / "differences"
DPI, SHADES = 40, 10
CELL = 4
# Of 255: the most that one cell may differ, and all of them on average.
MOST, MEAN = 64, 2.0


@dataclass(frozen=True)
class Difference:
    """How far two pictures are apart; a different size is as far as can be."""

    most: float
    mean: float

    @property
    def seen(self) -> bool:
        """Return whether a person would see it."""
        return self.most > MOST or self.mean > MEAN


def rendered(pdf: bytes) -> Image.Image:
    """Return the first page of a PDF as a small grey picture."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        image: Image.Image = document[0].render(scale=DPI / 72).to_pil().convert("L")
        return image.copy()
    finally:
        document.close()


def stored(image: Image.Image) -> bytes:
    """Return a picture as a PNG of few shades."""
    out = io.BytesIO()
    image.quantize(SHADES).save(out, format="PNG", optimize=True)
    return out.getvalue()


def opened(path: Path) -> Image.Image:
    """Return a stored picture in grey."""
    with Image.open(path) as image:
        return image.convert("L")


def apart(one: Image.Image, other: Image.Image) -> Difference:
    """Return how far two pictures are apart, cell by cell."""
    if one.size != other.size:
        return Difference(255.0, 255.0)
    cells = ImageChops.difference(one.reduce(CELL), other.reduce(CELL))
    return Difference(float(cells.getextrema()[1]), ImageStat.Stat(cells).mean[0])


def side_by_side(reference: Image.Image, now: Image.Image) -> Image.Image:
    """Return reference, picture now and what differs, darker for more, from left to right."""
    size = max(reference.width, now.width), max(reference.height, now.height)
    both = [ImageOps.pad(image, size, color=255, centering=(0, 0)) for image in (reference, now)]
    differs = ImageOps.invert(ImageChops.difference(*both))
    out = Image.new("L", (3 * size[0] + 20, size[1]), 128)
    for n, image in enumerate([*both, differs]):
        out.paste(image, (n * (size[0] + 10), 0))
    return out
