"""Ready reckoners: every figure read back from the PDF against arithmetic that is not ours."""

from __future__ import annotations

import re
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal, localcontext
from functools import cache
from pathlib import Path

import pytest

from keyseats.__main__ import main
from keyseats.build import document_bytes
from keyseats.load import Tables
from keyseats.page import PAPERS, Document
from keyseats.paths import tables_dir
from keyseats.sheets import find
from pdf.card_sheets import CardPage, Rect, behind, card_pages, duplex_hint

# ASME B17.1, table 1, as Machinery's Handbook, 31st ed., reproduces it: square key by shaft.
SQUARE = {
    "3/8": "3/32 x 3/32",
    "1/2": "1/8 x 1/8",
    "5/8": "3/16 x 3/16",
    "3/4": "3/16 x 3/16",
    "7/8": "3/16 x 3/16",
    "1": "1/4 x 1/4",
    "1-1/4": "1/4 x 1/4",
    "1-1/2": "3/8 x 3/8",
}
# The same, class 1: the floor to the opposite side may be 0.015 less, never more.
FLOOR_MINUS = Decimal("0.015")
# Key for the shaft: common practice, no source. Depth at edge: Shigley, 9th ed., table 7-7, and
# for 605 from its key height there, less half its width and 0.005.
HALF_MOON = {
    "3/8": ("303", "3/32", "0.1202"),
    "1/2": ("404", "1/8", "0.1355"),
    "5/8": ("605", "3/16", "0.1513"),
    "3/4": ("606", "3/16", "0.2143"),
    "7/8": ("607", "3/16", "0.2763"),
    "1": ("808", "1/4", "0.3080"),
    "1-1/4": ("810", "1/4", "0.4170"),
    "1-1/2": ("1212", "3/8", "0.4485"),
}
# ASME B17.2, from memory: the depth may be 0.005 more.
HALF_MOON_PLUS = Decimal("0.005")
# ISO/R 773 in open reproductions: key, depth in the shaft t1, its tolerance above.
METRIC = {
    "10": ("3 x 3", "1.8", "0.1"),
    "12": ("4 x 4", "2.5", "0.1"),
    "14": ("5 x 5", "3.0", "0.1"),
    "16": ("5 x 5", "3.0", "0.1"),
    "20": ("6 x 6", "3.5", "0.1"),
    "25": ("8 x 7", "4.0", "0.2"),
    "30": ("8 x 7", "4.0", "0.2"),
    "35": ("10 x 8", "5.0", "0.2"),
}
# GB/T 1098, which follows ISO 3912, in an open reproduction; the key for the shaft from memory.
METRIC_HALF_MOON = {
    "10": ("3 x 5 x 13", "3.8", "0.2"),
    "12": ("3 x 6.5 x 16", "5.3", "0.2"),
    "14": ("4 x 6.5 x 16", "5.0", "0.2"),
    "16": ("4 x 7.5 x 19", "6.0", "0.2"),
    "20": ("5 x 7.5 x 19", "5.5", "0.2"),
    "25": ("6 x 9 x 22", "6.5", "0.3"),
    "30": ("8 x 11 x 28", "8.0", "0.3"),
    "35": ("10 x 13 x 32", "10.0", "0.3"),
}
INCH_PLACE, MM_PLACE = Decimal("0.0001"), Decimal("0.01")
PAPERS_OF = [("inch", "Letter"), ("inch", "A4"), ("metric", "Letter"), ("metric", "A4")]


def number(text: str) -> Decimal:
    """Return a mixed fraction or a whole number, to fifty digits."""
    whole, _, part = text.rpartition("-")
    if "/" not in part:
        return Decimal(part)
    top, bottom = part.split("/")
    return Decimal(whole or 0) + Decimal(top) / Decimal(bottom)


def arc(shaft: Decimal, width: Decimal) -> Decimal:
    """Return the crown over the edges of a seat: R - sqrt(R^2 - (W/2)^2)."""
    return shaft / 2 - ((shaft / 2) ** 2 - (width / 2) ** 2).sqrt()


def inward(least: Decimal, most: Decimal, place: Decimal) -> list[str]:
    return [
        str(least.quantize(place, ROUND_CEILING)),
        str(most.quantize(place, ROUND_FLOOR)),
    ]


def plain_row(shaft: Decimal, width: Decimal, height: Decimal) -> list[str]:
    """ASME B17.1: S = (D - H + sqrt(D^2 - W^2)) / 2, +0 -0.015."""
    floor = (shaft - height + (shaft**2 - width**2).sqrt()) / 2
    depths = inward(shaft - floor, shaft - floor + FLOOR_MINUS, INCH_PLACE)
    return depths + inward(floor - FLOOR_MINUS, floor, INCH_PLACE)


def half_moon_row(shaft: Decimal, width: Decimal, at_edge: Decimal) -> list[str]:
    """ASME B17.2: the depth is tabled at the edge, under the arc."""
    depth = at_edge + arc(shaft, width)
    depths = inward(depth, depth + HALF_MOON_PLUS, INCH_PLACE)
    return depths + inward(shaft - depth - HALF_MOON_PLUS, shaft - depth, INCH_PLACE)


def metric_row(shaft: Decimal, depth: Decimal, plus: Decimal) -> list[str]:
    """D - t1: the depth is tabled from the crown, whatever the shaft measures."""
    depths = inward(depth, depth + plus, MM_PLACE)
    return depths + inward(shaft - depth - plus, shaft - depth, MM_PLACE)


def expected(shaft: str, unit: str, side: int) -> tuple[str, list[list[str]]]:
    """Return the key and the sixteen rows of one side, reckoned in decimals."""
    with localcontext() as context:
        context.prec = 50
        nominal = number(shaft)
        step, place = Decimal("0.001"), Decimal("0.001")
        if unit == "mm":
            step, place = Decimal("0.02"), Decimal("0.01")
        sizes = [nominal + n * step for n in range(-10, 6)]
        if unit == "in" and side == 0:
            key = SQUARE[shaft]
            wide, high = map(number, key.split(" x "))
            rows = [plain_row(size, wide, high) for size in sizes]
        elif unit == "in":
            name, wide_text, at_edge = HALF_MOON[shaft]
            key = f"No. {name}"
            wide = number(wide_text)
            rows = [half_moon_row(size, wide, Decimal(at_edge)) for size in sizes]
        else:
            key, depth, plus = (METRIC, METRIC_HALF_MOON)[side][shaft]
            rows = [metric_row(size, Decimal(depth), Decimal(plus)) for size in sizes]
        named = [str(size.quantize(place)) for size in sizes]
        return key, [[name, *row] for name, row in zip(named, rows, strict=True)]


@cache
def finished(unit: str, paper: str) -> list[CardPage]:
    name = f"reckoners-{unit}"
    sheet = next(s for s in find() if s.name == name)
    pages = tuple(sheet.pages(Tables(tables_dir()), paper))
    return card_pages(document_bytes(Document(name, name, name, paper, pages, sheet.duplex)))


def flat(text: str) -> str:
    """Return a card's text with its built fractions run together and its lines joined."""
    return " ".join(re.sub(r"\n?/\n?", "/", text).split())


@pytest.mark.slow
@pytest.mark.parametrize(("system", "paper"), PAPERS_OF)
def test_every_figure_is_what_decimals_give(system: str, paper: str) -> None:
    unit = "in" if system == "inch" else "mm"
    listed = list(SQUARE if unit == "in" else METRIC)
    seen: set[tuple[str, int]] = set()
    for n, page in enumerate(finished(system, paper)):
        for card in page.cards:
            rows = page.rows(card, 5)
            bold = [figures[0] for figures, all_bold in rows if all_bold]
            assert len(rows) == 16
            assert len(bold) == 1
            with localcontext() as context:
                context.prec = 50
                shaft = next(s for s in listed if number(s) == Decimal(bold[0]))
            key, wanted = expected(shaft, unit, n % 2)
            assert [figures for figures, _ in rows] == wanted, (shaft, key)
            text = flat(page.text(card))
            title = f"{shaft.replace('-', ' ')} {unit} shaft"
            assert text.startswith(title), text
            printed = key.replace(" x ", " × ")
            assert printed in text[: len(title) + len(printed) + 2], text
            seen.add((shaft, n % 2))
    assert seen == {(shaft, side) for shaft in listed for side in (0, 1)}


def asked(tmp_path: Path, *words: str) -> tuple[str, list[CardPage]]:
    path = tmp_path / "card.pdf"
    assert main(["shaft", *words, "--card", str(path)]) == 0
    pdf = path.read_bytes()
    return duplex_hint(pdf), card_pages(pdf)


def test_a_card_by_command_has_the_plain_key_in_front_and_the_half_moon_key_behind(
    tmp_path: Path,
) -> None:
    hint, pages = asked(tmp_path, "3/4 in")
    assert len(pages) == 2
    for side, page in enumerate(pages):
        (card,) = page.cards
        assert (page.width, page.height) == pytest.approx(PAPERS["Letter"])
        assert [figures for figures, _ in page.rows(card, 5)] == expected("3/4", "in", side)[1]
        assert "of 8" not in page.text(card)
        # Alone in the middle, it lies behind itself on whichever edge the sheet is flipped.
        for edge in (hint, "/DuplexFlipShortEdge"):
            there = behind(card, page, edge)
            assert max(abs(there.x0 - card.x0), abs(there.y0 - card.y0)) < 0.02


def test_one_key_makes_one_side(tmp_path: Path) -> None:
    hint, pages = asked(tmp_path, "16 mm", "--key", "5 x 5", "--paper", "letter")
    assert hint == ""
    (page,) = pages
    (card,) = page.cards
    assert card.size_mm == pytest.approx((76.2, 127.0), abs=0.02)
    assert [figures for figures, _ in page.rows(card, 5)] == expected("16", "mm", 0)[1]
    assert "on one side" in page.text(Rect(0, 0, page.width, page.height))


def test_a_size_between_thousandths_has_rows_at_whole_thousandths(tmp_path: Path) -> None:
    """The micrometer shows 0.437; 7/16 itself stands between its neighbours, bold."""
    _, pages = asked(tmp_path, "7/16 in", "--key", "3/32 x 3/32")
    rows = pages[0].rows(pages[0].cards[0], 5)
    named = [figures[0] for figures, _ in rows]
    assert named == [f"{n / 1000:.4f}" for n in range(428, 438)] + ["0.4375"] + [
        f"{n / 1000:.4f}" for n in range(438, 443)
    ]
    assert [figures[0] for figures, bold in rows if bold] == ["0.4375"]
    with localcontext() as context:
        context.prec = 50
        side = Decimal(3) / 32
        for figures, _ in rows:
            assert figures[1:] == plain_row(Decimal(figures[0]), side, side)


def test_a_reground_cutter_changes_the_arc_and_the_card_says_so(tmp_path: Path) -> None:
    words = ("3/4 in", "--key", "606", "--cutter-width", "0.1865 in", "--paper", "A4")
    _, pages = asked(tmp_path, *words)
    card = pages[0].cards[0]
    assert "cut 0.1865 wide" in pages[0].text(card)
    with localcontext() as context:
        context.prec = 50
        for figures, _ in pages[0].rows(card, 5):
            wanted = half_moon_row(Decimal(figures[0]), Decimal("0.1865"), Decimal("0.2143"))
            assert figures[1:] == wanted


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        (("1 in", "--measured", "0.999 in"), 2, "leave --measured out"),
        (("1 in", "--paper", "tabloid"), 2, "no paper 'tabloid' for a card"),
    ],
)
def test_what_a_card_cannot_be_is_refused_in_a_line(
    words: tuple[str, ...],
    code: int,
    says: str,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    path = tmp_path / "card.pdf"
    assert main(["shaft", *words, "--card", str(path)]) == code
    assert says in capsys.readouterr().err
    assert not path.exists()


def test_a_folder_is_no_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["shaft", "1 in", "--card", str(tmp_path)]) == 1
    assert "give --card the name of a file" in capsys.readouterr().err
