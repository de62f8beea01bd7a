"""Wall charts for across the room: nothing shrunk, and nothing lost that was meant to stay."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import cache

import pytest

from keyseats.across_room import PAPERS
from keyseats.across_room.inch_half_moon import SHAFTS, from_crown
from keyseats.across_room.inch_plain import fitting, usual
from keyseats.frame import DISTANCE, NOTE
from keyseats.half_moon_charts import inch_widths, metric_lines
from keyseats.load import Tables
from keyseats.page import Block, Page, Text
from keyseats.paths import tables_dir
from keyseats.plain_charts import inch_zones, metric_keys
from keyseats.setting import DAGGER
from keyseats.sheets import find
from keyseats.typeface import minutes_at

CHARTS = [sheet.name for sheet in find() if set(PAPERS) <= set(sheet.papers)]
on_both = pytest.mark.parametrize("paper", PAPERS)
every_chart = pytest.mark.parametrize("name", CHARTS)


@cache
def tables() -> Tables:
    return Tables(tables_dir())


@cache
def pages(name: str, paper: str) -> tuple[Page, ...]:
    sheet = next(s for s in find() if s.name == name)
    return tuple(sheet.pages(tables(), paper))


def words_of(name: str, paper: str) -> list[str]:
    return [word for page in pages(name, paper) for word in page.words()]


def after(said: list[str], head: str, count: int) -> list[str]:
    """Return what is read after a row's head."""
    start = said.index(head) + 1
    return said[start : start + count]


def lines_of(block: Block) -> Iterator[Text]:
    """Yield whole lines: no drawings, no halves of built fractions, no daggers."""
    if block.role == "Figure" or (block.role == "Span" and block.alt):
        return
    for item in block.items:
        if isinstance(item, Block):
            yield from lines_of(item)
        elif isinstance(item, Text) and item.text != DAGGER:
            yield item


@on_both
@every_chart
def test_no_line_is_under_the_size_of_notes(name: str, paper: str) -> None:
    assert DISTANCE[paper] == 2.0
    for page in pages(name, paper):
        assert page.distance_m == 2.0
        lines = [line for block in page.blocks for line in lines_of(block)]
        assert lines
        for line in lines:
            assert minutes_at(line.size, 2.0) >= NOTE - 0.05, (page.slug, line.text)


@on_both
def test_every_half_moon_key_stands(paper: str) -> None:
    inch = words_of("wall-inch-half-moon", paper)
    for width in inch_widths.by_width(tables()):
        for tabled in width.keys:
            assert inch.count(tabled.key.designation) == 1
    metric = words_of("wall-metric-half-moon", paper)
    for line in metric_lines.lines(tables()):
        assert metric.count(line.normal.key.in_print) == 1


@on_both
def test_every_metric_plain_key_stands(paper: str) -> None:
    said = words_of("wall-metric-plain", paper)
    for key in metric_keys.keys(tables()):
        assert said.count(key.tabled.key.in_print) == 1


def test_the_ends_of_every_inch_range_stand() -> None:
    for zone in inch_zones.zones(tables()):
        kept = usual(zone)
        assert len(kept.shafts) == len(kept.seats) >= 2
        assert kept.shafts[-1] == zone.row.shaft_to.value
        assert max(b - a for a, b in zip(kept.shafts, kept.shafts[1:], strict=False)) <= (
            Fraction(1, 8)
        )


def test_seldom_sixteenths_go_only_where_a_sheet_is_full() -> None:
    quarter = [zone for zone in inch_zones.zones(tables()) if zone.name == "1/4"]
    few, more = (len(fitting(quarter, room, 0.5)[0].shafts) for room in (6.5, 99.0))
    assert (few, more) == (len(usual(quarter[0]).shafts), len(quarter[0].shafts))
    assert few < more


@on_both
def test_where_rounding_takes_from_a_tolerance_it_is_said(paper: str) -> None:
    for page in pages("wall-inch-plain", paper)[:-1]:
        said = " ".join(" ".join(t.text for b in page.blocks for t in lines_of(b)).split())
        assert "+0.0149 −0" in said
        assert "+0.0149: the standard's 0.015 less what rounding up took." in said


@on_both
def test_depths_as_worked_by_hand(paper: str) -> None:
    """No. 608 in 1 in: 0.3393 (Shigley, table 7-7) + 0.5 - sqrt(0.25 - 0.09375^2) = 0.3482."""
    said = words_of("wall-inch-half-moon", paper)
    shafts = SHAFTS["3/16"].split()
    # Blank in 5/8 in, where the floor would be past the centre: 0.3513 + 0.005 is over 0.3125.
    row = after(said, "608", len(shafts) - 1)
    assert dict(zip(shafts[1:], row, strict=True))["1"] == "0.3482"


def test_blank_only_past_the_centre() -> None:
    blank = filled = 0
    for width in inch_widths.by_width(tables()):
        for tabled in width.keys:
            for shaft in SHAFTS[width.width].split():
                whole, _, part = shaft.rpartition("-")
                size = Fraction(whole or 0) + Fraction(part)
                edge = tabled.depth_at_edge
                assert edge is not None
                if from_crown(tabled, shaft) is None:
                    blank += 1
                    # The arc height is never over the key's width.
                    assert edge.most.value + tabled.key.width.value > size / 2
                else:
                    filled += 1
                    assert edge.most.value < size / 2
    assert 0 < blank < filled / 4


@on_both
def test_floors_as_the_standard_prints_them(paper: str) -> None:
    """ASME B17.1, S and T of 1 in (Machinery's Handbook, 31st ed., table 2): 0.859 and 1.114."""
    said = words_of("wall-inch-plain", paper)
    rows = [said[n + 1 : n + 4] for n, word in enumerate(said) if word == "1"]
    assert ["0.859", "1.114"] in [row[1:] for row in rows]


@on_both
def test_metric_depths_as_the_standard_prints_them(paper: str) -> None:
    """ISO/R 773, 8 x 7 over 22 to 30: t1 4.0 +0.2, t2 3.3 +0.2."""
    row = after(words_of("wall-metric-plain", paper), "22 to 30", 5)
    assert row == ["8 × 7", "4.00", "4.20", "3.30", "3.50"]


@on_both
@pytest.mark.parametrize("name", ["wall-setting-up-inch", "wall-setting-up-metric"])
def test_the_order_of_work_is_whole(name: str, paper: str) -> None:
    said = words_of(name, paper)
    leads = [said.index(str(n)) for n in range(1, 8)]
    assert leads == sorted(leads)
    assert [p.title.partition(": ")[2].partition(",")[0] for p in pages(name, paper)] == [
        "before the cut",
        "the cut",
        "centring travel",
        "centring travel",
    ]
