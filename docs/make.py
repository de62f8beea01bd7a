"""Make docs/pictures/ and docs/sources.md from the tables and the real output.

Run after ``keyseats build``: ``.venv/bin/python docs/make.py``.
"""

from __future__ import annotations

import io
from collections import Counter
from pathlib import Path

import pypdfium2
from PIL import Image

from keyseats.build import document_bytes
from keyseats.drawing import Pen, label, leader, span
from keyseats.load import Tables
from keyseats.page import Block, Document, Line, Page
from keyseats.paths import tables_dir
from keyseats.sections import Across, crown_arc, hub_over, key_across, whole_shaft
from keyseats.standing import standing_of

DOCS = Path(__file__).resolve().parent
OUTPUT = DOCS.parent / "output"


def picture(pdf: bytes, page: int, height: int) -> Image.Image:
    """Return one page of a PDF as a grey picture of a height in pixels."""
    document = pypdfium2.PdfDocument(pdf)
    sheet = document[page]
    image = sheet.render(scale=height / sheet.get_height()).to_pil().convert("L")
    document.close()
    return image


def save(image: Image.Image, name: str) -> None:
    """Write a picture with few greys, so that it stays small."""
    out = io.BytesIO()
    image.quantize(16).save(out, format="PNG", optimize=True)
    (DOCS / "pictures" / name).write_bytes(out.getvalue())


def card(number: int, high: int) -> Image.Image:
    """Return the front of a pocket card, as it is when it has been cut out."""
    whole = picture((OUTPUT / "cards-index-letter.pdf").read_bytes(), 0, high * 11 // 3)
    left, top = (8.5 - 5) / 2, 1.0 + 3 * number
    each = whole.height / 11
    return whole.crop(tuple(round(v * each) for v in (left, top, left + 5, top + 3)))


def montage() -> None:
    """Show a wall chart, the order of work, a shaft sheet and two pocket cards side by side."""
    wanted = [
        ("wall-inch-half-moon-tabloid.pdf", 1),
        ("wall-setting-up-inch-tabloid.pdf", 0),
        ("shafts-inch-letter.pdf", 21),
    ]
    tall, gap = 900, 24
    images = [picture((OUTPUT / name).read_bytes(), page, tall) for name, page in wanted]
    cards = [card(number, (tall - gap) // 2) for number in (0, 2)]
    wide = sum(i.width for i in (*images, cards[0])) + gap * (len(images) + 2)
    canvas = Image.new("L", (wide, tall + 2 * gap), 200)
    x = gap
    for image in images:
        canvas.paste(image, (x, gap))
        x += image.width + gap
    for n, image in enumerate(cards):
        canvas.paste(image, (x, gap + n * ((tall - gap) // 2 + gap)))
    save(canvas, "set.png")


def datums() -> None:
    """Draw every datum of a plain seat, its key and hub."""
    pen = Pen(outline=1.6, thin=0.7, hatch=0.5, arrow=7.5, spacing=6.5)
    size = 11.0
    a = Across(300, 90, 110, 30, 44)
    top, roof = a.floor - 66, a.edge - 38
    marks = [
        *hub_over(a, a.edge - roof, roof - 24, 88, pen),
        *whole_shaft(a, pen),
        *key_across(a, 66, pen),
        crown_arc(a, pen),
    ]
    columns = (
        (150, a.floor, a.bottom, ["floor to", "opposite side"], -1),
        (60, top, a.bottom, ["over", "key"], -1),
        (450, a.crown, a.floor, ["depth from crown"], 1),
        (560, roof, a.bottom, ["hub: floor to", "opposite side"], 1),
    )
    for x, high, low, words, side in columns:
        for level in (high, low):
            start = a.x + (a.half_width + 3) * side if level != a.bottom else a.x + 6 * side
            marks.append(Line(start, level, x + 4 * side, level, pen.thin))
        marks += span((x, high), (x, low), pen)
        middle = (high + low) / 2 + 4
        anchor = "end" if side < 0 else "start"
        marks += label(x + 5 * side, middle, words, size, anchor=anchor)
    marks += span((195, a.edge), (195, a.floor), pen)
    marks += [Line(a.left - 3, level, 191, level, pen.thin) for level in (a.edge, a.floor)]
    marks += label(190, (a.edge + a.floor) / 2 + 4, ["depth at edge"], size, anchor="end")
    marks += label(430, 40, ["edge"], size)
    marks += leader([(428, 40), (a.right + 1, a.edge - 1)], pen)
    marks += label(330, 28, ["crown"], size)
    marks += leader([(348, 32), (a.x + 12, a.crown + 1)], pen)
    block = Block("Figure", tuple(marks), alt="Datums of a keyseat")
    page = Page("datums", "Datums", "Letter", (block,), 0.5, 680.0, 340.0)
    pdf = document_bytes(Document("datums.pdf", "Datums", "Datums", "Letter", (page,)))
    save(picture(pdf, 0, 680), "datums.png")


def sources() -> str:
    """Return docs/sources.md: every source, and how many figures stand how."""
    tables = Tables(tables_dir())
    lines = [
        "# Sources and standing",
        "",
        "Made by `docs/make.py` from `tables/`. No figure was taken from a copy of a standard:",
        "each was read in a reproduction named here, follows by a rule, is common practice, or was",
        "recalled. A recalled figure prints with a dagger.",
        "",
        "## How well the figures are known",
        "",
        "| table | two sources | one source | common practice | recalled |",
        "| --- | --- | --- | --- | --- |",
    ]
    for name in tables.schema:
        counts: Counter[str] = Counter()
        for row in tables.rows(name):
            for column in tables.columns(name):
                if column.source_column and row.cells[column.name]:
                    cell = row.cells[column.source_column]
                    counts[standing_of(cell, row.id, tables)] += 1
        if counts:
            order = ("two-sources", "one-source", "practice", "memory")
            lines.append(f"| `{name}` | " + " | ".join(str(counts[k]) for k in order) + " |")
    lines += ["", "## What was read", "", "| id | what | where |", "| --- | --- | --- |"]
    for source in tables.sources.values():
        if source.kind == "reproduction":
            lines.append(f"| `{source.id}` | {source.title} | {source.where} |")
    lines += ["", "## Rules", "", "| id | rule |", "| --- | --- |"]
    for source in tables.sources.values():
        if source.kind == "rule":
            lines.append(f"| `{source.id}` | {source.title} |")
    lines += [
        "",
        "## Figures that break their own rule",
        "",
        "| figure | printed | rule gives | why kept |",
    ]
    lines += ["| --- | --- | --- | --- |"]
    for quirk in tables.quirks:
        reason = quirk.reason + (" (not settled)" if quirk.state == "unsettled" else "")
        at = f"`{quirk.table}` {quirk.row}, {quirk.column}"
        lines.append(f"| {at} | {quirk.printed} | {quirk.rule_gives} | {reason} |")
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    (DOCS / "pictures").mkdir(exist_ok=True)
    (DOCS / "sources.md").write_text(sources(), encoding="utf-8")
    datums()
    montage()
