"""The gauge's list of keys that paper cannot tell apart, found again from the tables."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from re import fullmatch

import pytest

from keyseats.frame import Frame
from keyseats.key_gauge import near
from keyseats.typeface import width as set_width
from pdf.measuring import (
    HALF_MOON,
    INCH,
    MM,
    PAGES,
    PAPERS,
    PLAIN,
    half_moon_sizes,
    least_heights,
    made,
    plain_sizes,
    words,
)

# The size that the list's figures are set in.
SECOND = Frame("A4", 0.5).second


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("sheet", "page", "unit"), [*PLAIN, *HALF_MOON])
def test_keys_that_lie_on_each_other_are_named(
    sheet: str, page: int, unit: str, paper: str
) -> None:
    """Every pair nearer than 0.5 mm in every figure, found again here, and no other."""
    said = list(made(sheet, paper)[0].pages[page].words())
    other = "mm" if unit == "in" else "in"
    if (sheet, page, unit) in PLAIN:
        here, others = spread(named_plain(unit)), spread(named_plain(other))
    else:
        shown = {w.text for w in words(sheet, paper)[page].words}
        here = {n: s for n, s in half_moon_limits(unit).items() if n in shown}
        others = half_moon_limits(other)
    wanted = nearer(here, others)
    assert wanted
    listed = said[said.index("Paper cannot tell these apart") :]
    listed = listed[listed.index("diameter" if len(here[wanted[0][0]]) == 3 else "height") :]
    names = [text for text in squashed(listed) if text in here or text in others]
    assert sorted(zip(names[::2], names[1::2], strict=True)) == sorted(wanted)


Figures = dict[str, list[tuple[float, float]]]


def nearer(here: Figures, others: Figures) -> list[tuple[str, str]]:
    """Return the keys whose limits come nearer than 0.5 mm, in every figure."""
    return [
        (a, b)
        for a, x in here.items()
        for b, y in others.items()
        if all(max(q[0] - p[1], p[0] - q[1]) < 0.5 * MM for p, q in zip(x, y, strict=True))
    ]


def spread(sizes: dict[str, tuple[float, ...]]) -> Figures:
    return {name: [(one, one) for one in found] for name, found in sizes.items()}


def half_moon_limits(unit: str, *, recalled: bool = False) -> Figures:
    """Return width, height and diameter as least and most, as the standard tables them. [pt]

    A metric key's least height is a tolerance off the height, and recalled.
    """
    found = spread(half_moon_sizes(unit))
    if unit == "in" or recalled:
        for name, least in least_heights(unit).items():
            if name in found:
                found[name][1] = (least, found[name][1][1])
    return found


def test_a_metric_keys_recalled_least_height_makes_no_other_pair() -> None:
    inch = half_moon_limits("in")
    assert nearer(inch, half_moon_limits("mm", recalled=True)) == nearer(
        inch, half_moon_limits("mm")
    )


@dataclass
class Printed:
    """A figure of the list of pairs as the page has it: least, most, weight, and its edges."""

    least: float
    most: float
    bold: bool
    x0: float
    x1: float


def printed_pairs(sheet: str, page: int, paper: str) -> list[list[Printed]]:
    """Return the rows of the list: the figures of the page's own key, then the other's."""
    texts = list(made(sheet, paper)[0].pages[page].texts())
    start = next(n for n, t in enumerate(texts) if t.text == "Paper cannot tell these apart")
    found: dict[float, list[Printed]] = {}
    to = False
    for text in texts[start:]:
        if text.text == "to":
            to = True
        elif fullmatch(r"\d+\.\d+", text.text) and text.size == SECOND:
            wide = set_width(text.text, text.size, text.bold)
            x0 = text.x - (wide if text.anchor == "end" else 0)
            value = float(text.text)
            row = found.setdefault(round(text.y, 3), [])
            if to:
                row[-1].most, row[-1].x1, to = value, x0 + wide, False
            else:
                row.append(Printed(value, value, text.bold, x0, x0 + wide))
    return list(found.values())


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("sheet", "page", "unit"), [*PLAIN, *HALF_MOON])
def test_figures_of_a_pair_are_as_near_as_the_page_says(
    sheet: str, page: int, unit: str, paper: str
) -> None:
    """As printed: each nearer than 0.5 mm, and where they differ most is bold, in both keys."""
    last = 0.00005 if unit == "in" else 0.005
    found = printed_pairs(sheet, page, paper)
    assert len(found) >= 3
    for row in found:
        half = len(row) // 2
        both = list(zip(row[:half], row[half:], strict=True))
        away = [max(b.least - a.most, a.least - b.most, 0) for a, b in both]
        assert max(away) < 0.5 * (1 / 25.4 if unit == "in" else 1)
        for (a, b), gap in zip(both, away, strict=True):
            assert a.bold == b.bold
            assert not a.bold or gap > max(away) - 4 * last
        assert sum(a.bold for a, _ in both) == 1


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("sheet", "page"), PAGES)
def test_the_two_keys_of_a_pair_stand_further_apart_than_a_keys_own_figures(
    sheet: str, page: int, paper: str
) -> None:
    texts = list(made(sheet, paper)[0].pages[page].texts())
    other = next(t.x for t in texts if t.text.startswith("or this, converted"))
    for row in printed_pairs(sheet, page, paper):
        half = len(row) // 2
        within = [b.x0 - a.x1 for side in (row[:half], row[half:]) for a, b in pairwise(side)]
        assert other - row[half - 1].x1 > 2 * max(within)
        assert row[half].x0 > other


def test_607_707_and_807_lie_on_metric_keys_of_22() -> None:
    """ASME B17.2: 0.370 to 0.375 high, 7/8 diameter; ISO 3912: 9 high, 22 diameter."""
    for first, second in (("607", "5 × 9 × 22"), ("707", "6 × 9 × 22"), ("807", "6 × 9 × 22")):
        assert pair_on_one_line("key-gauge-inch", 2, first, second)
        assert pair_on_one_line("key-gauge-metric", 1, second, first)


def test_a_page_without_pairs_says_so() -> None:
    f = Frame("A4", 0.5)
    near.set_pairs(f, 700.0, near.pairs([], []))
    assert [t for block in f.composer.blocks for t in block.words()] == [near.NONE]
    assert near.height(f, 0) < near.height(f, 1)


def squashed(said: list[str]) -> list[str]:
    """Return words with the pieces of a name such as 1/8 × 1/8 put together again."""
    out: list[str] = []
    for text in said:
        if text == " × " or (out and out[-1].endswith("× ")):
            out[-1] += text
        else:
            out.append(text)
    return out


def named_plain(unit: str) -> dict[str, tuple[float, ...]]:
    """Return width and height of the plain keys, named as the page prints them. [pt]"""
    found: dict[str, tuple[float, ...]] = {}
    for width, heights in plain_sizes(unit):
        for height in heights:
            found[f"{as_named(width, unit)} × {as_named(height, unit)}"] = (width, height)
    return found


def as_named(points: float, unit: str) -> str:
    if unit == "mm":
        return f"{points / MM:g}"
    top, bottom = round(points / INCH * 32), 32
    while top % 2 == 0:
        top, bottom = top // 2, bottom // 2
    return f"{top}/{bottom}"


def test_a_5_x_6_5_x_16_lies_on_a_605() -> None:
    assert pair_on_one_line("key-gauge-inch", 1, "605", "5 × 6.5 × 16")
    assert pair_on_one_line("key-gauge-metric", 1, "5 × 6.5 × 16", "605")


def pair_on_one_line(sheet: str, page: int, first: str, second: str) -> bool:
    found = words(sheet, "Letter")[page].words
    levels = {w.baseline for w in found if w.text == first}
    return any(w.text == second and w.baseline in levels for w in found)
