"""The key gauge measured in its finished PDF: bars, every outline, what the pages say."""

from __future__ import annotations

from math import hypot, sqrt
from re import fullmatch
from typing import Any

import pypdfium2
import pytest

from keyseats.frame import Frame
from pdf.measuring import (
    CLOSE,
    HALF_MOON,
    INCH,
    LINE,
    MM,
    PAGES,
    PAPERS,
    PLAIN,
    Path,
    along,
    apart,
    half_moon_sizes,
    made,
    outlines,
    paths,
    plain_sizes,
    rings,
    rows,
    strokes,
    words,
)
from pdf.reading import ReadPage, Word


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("sheet", "page"), PAGES)
def test_bars_are_true_and_at_a_right_angle(sheet: str, page: int, paper: str) -> None:
    lines = strokes(sheet, paper, page)
    upright = max((p for p in lines if p.wide < p.high), key=lambda p: p.high)
    ends = upright.points
    corner = min(ends, key=lambda p: p[1])
    level = next(
        p for p in lines if p.high < p.wide and hypot(p.x1 - corner[0], p.foot - corner[1]) < 0.01
    )
    assert abs(upright.high - 100 * MM) < CLOSE
    assert abs(level.wide - 4 * INCH) < CLOSE
    # A right angle: neither leans by a micrometre.
    assert upright.wide < 0.001 * MM
    assert level.high < 0.001 * MM
    for bar, step, count, end in (
        (level, INCH / 2, 9, "level"),
        (upright, 10 * MM, 11, "upright"),
    ):
        ticks = []
        for p in lines:
            if end == "level" and p.wide < 0.001 < p.high and abs(p.foot - bar.top) < 0.01:
                ticks.append(p.x0 - bar.x0)
            if end == "upright" and p.high < 0.001 < p.wide and abs(p.x0 - bar.x0) < 0.01:
                ticks.append(p.top - bar.top)
        ticks.sort()
        assert len(ticks) == count
        for n, at in enumerate(ticks):
            assert abs(at - n * step) < CLOSE


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("sheet", "page", "unit"), HALF_MOON)
def test_half_moon_outlines_are_their_keys(sheet: str, page: int, unit: str, paper: str) -> None:
    sizes = half_moon_sizes(unit)
    found = outlines(sheet, paper, page)
    ends, sides = [p for p in found if not p.curves], [p for p in found if p.curves]
    named = {labelled(p, words(sheet, paper)[page], set(sizes)): p for p in ends}
    assert len(named) == len(ends)
    circles = {sizes[name][2] for name in named}
    assert set(named) == {name for name, (_, _, d) in sizes.items() if d in circles}
    assert len(sides) == len(circles)
    for name, end in named.items():
        width, height, diameter = sizes[name]
        assert abs(end.wide - width) < CLOSE, name
        assert abs(end.high - height) < CLOSE, name
        side = next(p for p in sides if abs(p.foot - end.foot) < 0.01)
        assert abs(side.high - height) < CLOSE, name
        # Where the flat cuts the circle: the chord at the key's height above its foot.
        assert abs(side.wide - 2 * sqrt(diameter * height - height**2)) < CLOSE, name
        centre = ((side.x0 + side.x1) / 2, side.foot - diameter / 2)
        for curve in side.curves:
            for n in range(17):
                x, y = along(curve, n / 16)
                assert abs(hypot(x - centre[0], y - centre[1]) - diameter / 2) < CLOSE / 5, name


def labelled(path: Path, page: ReadPage, names: set[str]) -> str:
    """Return the key's name that stands nearest an outline, under it or right of it."""

    def far(word: Word) -> float:
        under = hypot((word.x0 + word.x1 - path.x0 - path.x1) / 2, word.baseline - path.foot - 12)
        middle = word.baseline - word.size * 0.365
        right = hypot(word.x0 - path.x1 - 8, middle - (path.top + path.foot) / 2)
        return min(under, right)

    near: Word = min((w for w in page.words if w.text in names), key=far)
    assert far(near) < 6, near
    return near.text


def test_every_half_moon_key_of_the_range_is_shown() -> None:
    """41 standard inch keys and 16 metric ones, each on one page."""
    for unit, count in (("in", 41), ("mm", 16)):
        assert len(half_moon_sizes(unit)) == count
        shown = sum(
            len([p for p in outlines(sheet, "A4", page) if not p.curves])
            for sheet, page, of in HALF_MOON
            if of == unit
        )
        assert shown == count


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("sheet", "page", "unit"), PLAIN)
def test_plain_outlines_are_their_keys(sheet: str, page: int, unit: str, paper: str) -> None:
    found = outlines(sheet, paper, page)
    long = 2 * INCH if unit == "in" else 80 * MM
    strips = [p for p in found if abs(p.wide - long) < CLOSE]
    sections = [p for p in found if p not in strips]
    wanted = plain_sizes(unit)
    assert len(strips) == len(wanted)
    assert len(sections) == sum(len(heights) for _, heights in wanted)
    for strip, (width, heights) in zip(sorted(strips, key=lambda p: p.top), wanted, strict=True):
        assert abs(strip.high - width) < CLOSE
        middle = (strip.top + strip.foot) / 2
        here = [p for p in sections if abs((p.top + p.foot) / 2 - middle) < 0.01]
        for end, height in zip(sorted(here, key=lambda p: p.x0), heights, strict=True):
            assert abs(end.wide - width) < CLOSE
            assert abs(end.high - height) < CLOSE


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("sheet", "page"), PAGES)
def test_the_inside_edge_of_the_line_is_seen_at_the_size(sheet: str, page: int, paper: str) -> None:
    """A picture of the page, greys counted as parts of a pixel: white from line to line."""
    dpi = 400
    found = outlines(sheet, paper, page)
    document = pypdfium2.PdfDocument(made(sheet, paper)[1])
    try:
        picture = document[page].render(scale=dpi / 72, grayscale=True).to_pil()
    finally:
        document.close()
    scale = dpi / 72
    for path in found:
        x, y = int((path.x0 + path.x1) / 2 * scale), int((path.top + path.foot) / 2 * scale)
        size_across = seen(picture, x, y, 1, 0)
        size_down = seen(picture, x, y, 0, 1)
        middle_chord = path.wide
        if path.curves:
            radius = (path.high**2 + path.wide**2 / 4) / (2 * path.high)
            off = path.foot - radius - (y + 0.5) / scale
            middle_chord = 2 * sqrt(radius**2 - off**2)
        for (white, first, last), wanted in ((size_across, middle_chord), (size_down, path.high)):
            assert abs(white / scale - wanted) < CLOSE * 1.5, (path.x0, path.top)
            for line in (first, last):
                assert abs(line / scale - LINE) < CLOSE * 2


def seen(picture: Any, x: int, y: int, dx: int, dy: int) -> tuple[float, float, float]:
    """Return the white between two lines and both lines' weights, in pixels."""
    white, lines = 1.0, []
    for way in (-1, 1):
        at, inside, line = 1, True, 0.0
        while True:
            level = picture.getpixel((x + way * dx * at, y + way * dy * at)) / 255
            if inside and level < 0.02:
                inside = False
            if inside and line == 0.0 and level < 1:
                # The edge's own pixel: part white, part line.
                white, line = white + level, 1 - level
                inside = False
            elif inside:
                white += level
            elif level == 1:
                break
            else:
                line += 1 - level
            at += 1
        lines.append(line)
    return white, lines[0], lines[1]


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("sheet", "page"), PAGES)
def test_both_sides_of_an_outline_are_seen_alike_on_a_screen(
    sheet: str, page: int, paper: str
) -> None:
    dpi = 80
    document = pypdfium2.PdfDocument(made(sheet, paper)[1])
    try:
        picture = document[page].render(scale=dpi / 72, grayscale=True).to_pil()
    finally:
        document.close()
    scale = dpi / 72
    for path in outlines(sheet, paper, page):
        x, y = int((path.x0 + path.x1) / 2 * scale), int((path.top + path.foot) / 2 * scale)
        _, left, right = seen(picture, x, y, 1, 0)
        _, top, foot = seen(picture, x, y, 0, 1)
        for one, other in ((left, right), (top, foot)):
            assert min(one, other) / scale > 0.9 * LINE, (path.x0, path.top)
            # A line that falls within one pixel is given the whole of it.
            assert abs(one - other) / scale < 0.3 * LINE, (path.x0, path.top)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("sheet", "page"), PAGES)
def test_line_stands_outside_the_size_all_round(sheet: str, page: int, paper: str) -> None:
    """A renderer may move a stroke to whole pixels, and white laid over it hides its sides."""
    every = paths(sheet, paper)[page]
    assert not [p for p in every if p.painted == "f*" and p.grey > 0.5]
    assert not [p for p in every if p.painted == "s" and len(p.points) > 2 and p.wide > 20]
    for inner, outer in rings(sheet, paper, page):
        assert inner.top - outer.top == pytest.approx(LINE, abs=0.003)
        assert outer.foot - inner.foot == pytest.approx(LINE, abs=0.003)
        if not inner.curves:
            assert inner.x0 - outer.x0 == pytest.approx(LINE, abs=0.003)
            assert outer.x1 - inner.x1 == pytest.approx(LINE, abs=0.003)
            continue
        radius = (inner.high**2 + inner.wide**2 / 4) / (2 * inner.high)
        centre = ((inner.x0 + inner.x1) / 2, inner.foot - radius)
        for curve in outer.curves:
            for n in range(17):
                x, y = along(curve, n / 16)
                away = hypot(x - centre[0], y - centre[1]) - radius
                assert away == pytest.approx(LINE, abs=CLOSE / 5)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("sheet", "page"), PAGES)
def test_nothing_touches_an_outline_or_a_bar(sheet: str, page: int, paper: str) -> None:
    found = outlines(sheet, paper, page)
    grown = [(p.x0 - LINE, p.top - LINE, p.x1 + LINE, p.foot + LINE) for p in found]
    clear = 0.8 * MM
    for n, box in enumerate(grown):
        for other in grown[n + 1 :]:
            assert apart(box, other) > clear, (box, other)
    lines = strokes(sheet, paper, page)
    for p in lines:
        for box in grown:
            assert apart((p.x0, p.top, p.x1, p.foot), box) > clear, (p, box)
    bars = [p for p in lines if max(p.wide, p.high) > 200 and p.weight > 0.8]
    assert len(bars) >= 2
    for word in words(sheet, paper)[page].words:
        if not word.text.strip():
            continue
        drop = 0.24 if any(c in "gjpqy,;()/" for c in word.text) else 0.02
        box = (word.x0, word.baseline - word.size * 0.76, word.x1, word.baseline + word.size * drop)
        for other in grown:
            assert apart(box, other) > clear, (word, other)
        for p in lines:
            weight = p.weight / 2
            edge = (p.x0 - weight, p.top - weight, p.x1 + weight, p.foot + weight)
            assert apart(box, edge) > 0.2, (word, p)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("sheet", "page"), PAGES)
def test_nothing_in_words_is_smaller_than_the_notes(sheet: str, page: int, paper: str) -> None:
    """Also ``to`` between limits; the pieces of a built fraction are of the size of its line."""
    document, _ = made(sheet, paper)
    note = Frame(paper, 0.5).note
    for text in document.pages[page].texts():
        assert text.size >= note * (0.8 if text.text.isdigit() else 1) - 1e-9, text
        assert text.text != "to" or text.size == pytest.approx(note)


def test_heads_say_what_they_head() -> None:
    for page in (1, 2):
        assert "end view, by width" in set(made("key-gauge-inch", "A4")[0].pages[page].words())
    metric = made("key-gauge-metric", "A4")[0].pages[1]
    said = list(metric.words())
    assert "end view, and key: width × height × diameter" in said
    assert "metric, 4 to 32 diameter" in said
    assert not [text for text in said if " x " in text]


@pytest.mark.parametrize("paper", PAPERS)
def test_no_line_parts_a_standard_from_its_number(paper: str) -> None:
    for sheet, page in PAGES:
        for text in made(sheet, paper)[0].pages[page].texts():
            assert not fullmatch(r".*\b(ASME|BS|DIN|GB/T|GOST|ISO|JIS|JIS B|table)", text.text), (
                text
            )


@pytest.mark.parametrize(
    ("paper", "lengths"),
    [
        # Geometry of ISO 216 and ANSI/ASME Y14.1 sizes: sheet less white edges over page.
        (
            "Letter",
            [(215.9 - 8) / 215.9, (8.5 - 0.5) / 8.5, 210 / 215.9, (210 - 12.7) / 215.9],
        ),
        ("A4", [(210 - 8) / 210, (210 - 12.7) / 210, 279.4 / 297, (279.4 - 12.7) / 297]),
    ],
)
@pytest.mark.parametrize(("sheet", "page"), PAGES)
def test_false_lengths_are_those_of_the_paper(
    sheet: str, page: int, paper: str, lengths: list[float]
) -> None:
    said = list(made(sheet, paper)[0].pages[page].words())
    start = said.index("printed to fit on")
    table = said[start + 3 : start + 40]
    millimetres = [t for t in table if t.count(".") == 1 and len(t) == 4 and t[2] == "."]
    inches = [t for t in table if t.count(".") == 1 and len(t) == 4 and t[1] == "."]
    assert millimetres[:4] == [f"{100 * s:.1f}" for s in lengths]
    assert inches[:4] == [f"{4 * s:.2f}" for s in lengths]


@pytest.mark.parametrize(("sheet", "page"), PAGES)
def test_page_says_what_decides(sheet: str, page: int) -> None:
    said = " ".join(made(sheet, "A4")[0].pages[page].words())
    for text in (
        "First measure both bars.",
        "the micrometer decides",
        "the size is the inside edge of the line",
    ):
        assert text in said


def test_what_the_notes_say_of_the_tables() -> None:
    """A flat foot is about 0.8 as high; the standards named have every metric section shown."""
    for row in rows("metric_half_moon_keys"):
        assert 0.78 < float(row["flat_height"]) / float(row["height"]) < 0.82
    every = rows("metric_plain_keys")
    shown = {(r["width"], r["height"]) for r in every if r["standard"] == "ISO/R 773"}
    shown = {s for s in shown if float(s[0]) <= 14}
    said = " ".join(made("key-gauge-metric", "A4")[0].pages[0].words())
    sources = said[said.index("The same sections are in") :]
    for standard in {r["standard"] for r in every} - {"ISO/R 773"}:
        have = {(r["width"], r["height"]) for r in every if r["standard"] == standard}
        assert (standard in sources) == (shown <= have), standard
