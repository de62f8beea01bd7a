"""Metric plain wall chart: its figures as standards print them, and none that stands for another.

Depths of ISO/R 773 as Engineers Edge prints them; widths by ISO 286-2, zones N9, P9 and JS9.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest

from keyseats.frame import Frame
from keyseats.frozen import replace
from keyseats.load import Tables
from keyseats.page import MM, Block, Page, Shape, Text
from keyseats.paths import tables_dir
from keyseats.plain_charts import metric_every_key, metric_fits, metric_keys, metric_zones
from keyseats.seat import limits_up
from keyseats.sheets import find
from keyseats.standing import typed
from pdf.charted import chart, tables

SHEET = next(s for s in find() if s.name == "wall-metric-plain")
PAPERS = ("A4", "Letter", "A3", "Tabloid")
on_each = pytest.mark.parametrize("paper", PAPERS)


def pages(paper: str) -> tuple[Page, ...]:
    return chart("wall-metric-plain", paper)


def keys() -> list[metric_keys.Key]:
    return metric_keys.keys(tables())


def listed() -> list[metric_keys.Key]:
    return [k for here in metric_keys.sheets(tables(), metric_keys.LAST_LISTED) for k in here]


def said(page: Page) -> list[str]:
    return list(page.words())


def row(words: list[str], head: str, count: int) -> list[str]:
    start = words.index(head) + 1
    return words[start : start + count]


def texts(block: Block) -> list[Text]:
    return [item for item in block.items if isinstance(item, Text)]


def depths(page: Page) -> Iterator[Block]:
    """Yield the depths from crown of a sheet by shaft, each with its tolerance."""
    yield from (b for b in page.blocks if b.role == "TD" and "−0" in [t.text for t in texts(b)])


@on_each
def test_two_sheets_by_shaft_one_of_every_key_and_one_of_the_fits(paper: str) -> None:
    assert [page.title.removeprefix("Plain keyseats, metric, ") for page in pages(paper)] == [
        "shafts 6 to 30 mm",
        "shafts over 30 to 75 mm",
        "every key",
        "widths, three fits",
    ]


@on_each
def test_the_smallest_shaft_is_in_the_first_range(paper: str) -> None:
    first, _, every, _ = pages(paper)
    assert "shafts 6 to 8" in said(first)
    assert "shafts over 8 to 10" in said(first)
    assert "6 mm itself is in the first row." in " ".join(said(every))


@on_each
def test_8_by_7_by_shaft(paper: str) -> None:
    """t1 4.0 +0.2, t2 3.3 +0.2; 8 N9 is 0 to -0.036, 8 P9 is -0.015 to -0.051; 25 - 4 = 21."""
    words = said(pages(paper)[0])
    assert row(words, "4.00", 2) == ["+0.2", "−0"]
    assert "shafts over 22 to 30" in words
    assert row(words, "25", 2) == ["20.80", "21.00"]
    assert row(words, "28", 2) == ["23.80", "24.00"]
    last = words[words.index("4.00") :]
    assert row(last, "seat N9", 2) == ["7.964", "8.000"]
    assert row(last, "seat P9", 2) == ["7.949", "7.985"]
    assert row(last, "hub depth", 2) == ["3.30", "3.50"]


@on_each
def test_100_by_50_among_every_key(paper: str) -> None:
    """t1 31.0 +0.3, t2 19.5; 100 N9 is 0 to -0.087; floor radius 2.0 to 2.5."""
    found = row(said(pages(paper)[2]), "100 × 50", 8)
    assert found == ["31.00", "+0.3", "99.913", "100.000", "19.50", "2.00", "2.50", "CAUTION"]


@on_each
def test_each_key_stands_once_on_its_sheets(paper: str) -> None:
    by_shaft = [word for page in pages(paper)[:2] for word in said(page)]
    for key in listed():
        assert by_shaft.count(key.tabled.key.in_print) == 1
    every = said(pages(paper)[2])
    assert len(keys()) == 26
    for key in keys():
        assert every.count(key.tabled.key.in_print) == 1


def test_the_end_of_each_range_is_listed_and_its_beginning_is_not() -> None:
    for key in listed():
        shafts = metric_zones.usual(key.row)
        assert shafts[-1] == key.row.shaft_to.value
        assert shafts[0] > key.row.shaft_over.value or shafts[0] == 6
        assert len(shafts) > 1


def test_a_corrected_range_is_listed_to_its_end() -> None:
    key = listed()[3]
    to = replace(key.row.shaft_to, value=Fraction("17.5"), text="17.5")
    assert metric_zones.usual(replace(key.row, shaft_to=to))[-1] == Fraction("17.5")


def test_the_least_and_the_tolerance_beside_it_are_the_most() -> None:
    for key in keys():
        assert key.tabled.depth_from_crown is not None
        shown = key.tabled.depth_from_crown.printed(2)
        assert Decimal(shown.least.text) + Decimal(metric_zones.plus_of(shown)) == Decimal(
            shown.most.text
        )


@pytest.mark.parametrize(("plus", "beside"), [("0.2", "+0.2"), ("0.25", "+0.25"), ("1", "+1.0")])
def test_a_tolerance_is_not_rounded_past_the_most(plus: str, beside: str) -> None:
    limits = limits_up(typed(Fraction(4), "mm"), typed(Fraction(plus), "mm"))
    assert metric_zones.plus_of(limits.printed(2)) == beside


@on_each
def test_a_depth_is_the_largest_figure_and_its_tolerance_can_be_cut_to(paper: str) -> None:
    f = Frame(paper, pages(paper)[0].distance_m)
    for page in pages(paper)[:2]:
        found = list(depths(page))
        assert len(found) == 6
        for block in found:
            depth, *beside = texts(block)
            assert depth.bold
            assert depth.size == pytest.approx(1.4 * f.unit)
            assert [t.size for t in beside] == pytest.approx([f.second, f.second])
            assert block.cut
            assert any(r.endswith("/depth_from_crown") for r in block.rows)
            assert any(r.endswith("/depth_plus") for r in block.rows)


@on_each
def test_keys_are_drawn_at_actual_size(paper: str) -> None:
    sizes = []
    for page in pages(paper)[:2]:
        for block in page.blocks:
            if block.role == "Figure" and block.alt.endswith("at actual size"):
                shape = block.items[0]
                assert isinstance(shape, Shape)
                (_, x1, y1), _, (_, x2, y2), *_ = shape.path
                sizes.append(((x2 - x1) / MM, (y2 - y1) / MM))
    wanted = [(float(k.row.width.value), float(k.row.height.value)) for k in listed()]
    assert [size for pair in sizes for size in pair] == pytest.approx(
        [size for pair in wanted for size in pair]
    )


@on_each
def test_sheets_say_how_to_feed_and_how_to_prove(paper: str) -> None:
    for page in pages(paper)[:3]:
        words = " ".join(said(page))
        assert "after the touch" in words
        assert "no arc height to add" in words
        assert "shaft as measured − depth from crown" in words
        assert "bore as measured + hub depth" in words


def test_a_hub_with_a_tolerance_of_its_own_is_named() -> None:
    every = keys()
    tabled = every[7].tabled
    hub = limits_up(tabled.hub_rise.least, typed(Fraction("0.1"), "mm"))
    every[7] = metric_keys.Key(every[7].row, replace(tabled, hub_rise=hub))
    page = metric_every_key.every_key_page(tables(), "A4", every, listed(), (3, 4))
    words = " ".join(said(page))
    assert "has the tolerance of the depth from crown, but 12 × 8: hub +0.1 −0." in words
    assert "of the depth from crown. " in f"{' '.join(said(pages('A4')[2]))} "


def test_a_close_fit_in_which_seat_and_hub_differ_is_said(tmp_path: Path) -> None:
    copy = Path(shutil.copytree(tables_dir(), tmp_path / "tables"))
    file = copy / "metric_width_fits.csv"
    text = file.read_text(encoding="utf-8")
    old = "\n8,close,hub,P9,-0.051,"
    assert old in text
    file.write_text(text.replace(old, "\n8,close,hub,P9,-0.050,"), encoding="utf-8")
    widths = [key.row.width.value for key in keys()]
    page = metric_fits.fits_page(Tables(copy), "A4", 4, widths, metric_keys.SOURCES)
    words = " ".join(said(page))
    assert "the hub is as the seat, but 8 wide: hub −0.050 to −0.015." in words
    assert "both P9" not in words
    assert "seat P9" in words
    assert any("8 / close / hub/lower" in row for row in page.rows())


def test_what_stands_for_several_widths_rests_on_all_of_them() -> None:
    """8 and 10 JS9 are +-0.018, said once (ISO 286-2, IT9 over 6 to 10 is 0.036)."""
    found = [b for b in pages("A4")[3].blocks if [t.text for t in texts(b)] == ["±0.018"]]
    assert len(found) == 1
    for width in (8, 10):
        for end in ("lower", "upper"):
            wanted = [r for r in found[0].rows if f"{width} / normal / hub" in r and end in r]
            assert wanted, (width, end, found[0].rows)


def test_what_agrees_with_the_chart_is_said_of_all_keys_first() -> None:
    text = metric_keys.same(tables(), keys(), listed())
    assert text == (
        "The same sizes and depths were read in DIN 6885-1 and BS 4235-1, to 75 mm also in "
        "JIS B 1301, GOST 23360 and GB/T 1095. DIN 6885-2 is deeper."
    )
