"""The inch half-moon charts: shafts inside their ranges, tolerances said, sheets filled alike."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import pairwise

import pytest

from keyseats.across_room import PAPERS
from keyseats.across_room import inch_half_moon as far
from keyseats.half_moon_charts import inch_widths
from keyseats.half_moon_charts.inch_widths import IN_LINE, STRIPS, by_width, over, strip
from keyseats.lengths import read_fraction
from keyseats.page import Block, Graph, Line, Page, Shape, Text
from keyseats.palette import BODY
from keyseats.records import InchHalfMoonShaft
from keyseats.setting import DAGGER
from keyseats.sheets.wall_inch_half_moon import GAP, PITCH, SHEETS, Zone, filled, tall
from keyseats.standing import EXACT, MEMORY, Limits, Quantity
from pdf.charted import chart, tables

NEAR = [paper for paper in SHEETS[0].papers if paper not in PAPERS]
on_near = pytest.mark.parametrize("paper", NEAR)
on_every = pytest.mark.parametrize("paper", SHEETS[0].papers)


def pages(paper: str) -> tuple[Page, ...]:
    return chart("wall-inch-half-moon", paper)


def zones() -> list[Zone]:
    return [Zone(one.width, one.keys) for one in by_width(tables())]


def limits(least: str, most: str, standing: str = EXACT, of_most: str = "") -> Limits:
    return Limits(
        Quantity(Fraction(least), "in", standing, (least,), least),
        Quantity(Fraction(most), "in", of_most or standing, (most,), most),
    )


def test_every_strip_stays_in_the_range_of_its_width() -> None:
    """Shigley, 9th ed., table 7-8, as the tables have it by width."""
    ranges = {
        row.width.text.removesuffix(" in"): (row.shaft_from.value, row.shaft_to.value)
        for row in tables().records(InchHalfMoonShaft, "inch_half_moon_shafts")
        if row.list == "by width" and row.width is not None
    }
    # No range of 7/32 is known.
    assert set(STRIPS) - set(ranges) == {"7/32"}
    for width, (least, most) in ranges.items():
        for line in STRIPS[width]:
            assert all(least <= read_fraction(shaft) <= most for shaft in line.split()), width


@pytest.mark.parametrize("width", STRIPS)
def test_a_strip_runs_from_small_to_large_and_says_no_shaft_twice(width: str) -> None:
    for lines in range(1, len(STRIPS[width]) + 1):
        shown = strip(width, lines)
        assert len(shown) == lines
        assert all(len(line) == IN_LINE for line in shown) or width == "1/16"
        sizes = [read_fraction(shaft) for line in shown for shaft in line]
        assert sizes == sorted(set(sizes))
        first = set(STRIPS[width][0].split())
        assert first <= {shaft for line in shown for shaft in line}
    assert strip(width, 9) == strip(width, len(STRIPS[width]))


def test_what_a_depth_may_be_over_never_passes_any_most() -> None:
    exact, rounded = limits("0.245", "0.250"), limits("0.2455", "0.2504")
    assert over([exact]).text == "0.005"
    assert over([exact, rounded]).text == "0.0049"
    assert not over([exact, rounded]).recalled
    assert over([exact, limits("0.3", "0.305", MEMORY)]).recalled
    assert over([limits("0.3", "0.305", EXACT, MEMORY)]).recalled
    assert over([exact, rounded]).rows == ("0.250", "0.2504")
    with pytest.raises(ValueError, match="min"):
        over([])


@on_every
def test_every_sheet_says_its_tolerance(paper: str) -> None:
    """ASME B17.2: +0.005 -0 on the depth at edge, recalled; 0.0049 is what rounding up leaves."""
    wanted = f"+0.0049{DAGGER} −0" if paper in PAPERS else f"+0.005{DAGGER}  −0"
    for page in pages(paper):
        said = [text.text for text in page.texts() if "−0" in text.text]
        assert len(said) == 1
        assert said[0].endswith(wanted)
        assert not any(text.text.rstrip().endswith("below,") for text in page.texts())


def test_no_depth_and_tolerance_pass_the_limit() -> None:
    for width in by_width(tables()):
        listed = far.depths([far.Zone(width.width, width.keys)])
        plus = read_fraction(over(listed).text)
        for one in listed:
            assert Fraction(one.least.text) >= one.least.value
            assert Fraction(one.least.text) + plus <= one.most.value


@on_near
def test_rows_are_alike_on_a_sheet_and_widest_where_one_width_stands_alone(paper: str) -> None:
    steps, alone = set(), set()
    for page in pages(paper):
        level = {t.text: t.y for t in page.texts() if t.bold}
        here = [z for z in zones() if z.keys[0].key.designation in level]
        each = set()
        for zone in here:
            found = [level[one.key.designation] for one in zone.keys]
            each |= {round(b - a, 3) for a, b in pairwise(found)}
        assert len(each) == 1
        (steps if len(here) > 1 else alone).update(each)
    assert not alone or min(alone) >= max(steps)


def test_a_sheet_with_room_has_more_shafts_then_wider_rows() -> None:
    every = zones()
    sheets = [every[:3], every[3:5], every[5:7], every[7:]]
    room = max(sum(z.height() for z in here) for here in sheets)
    found = [filled(here, room) for here in sheets]
    assert min(fill.pitch for fill in found) == PITCH
    for here, fill in zip(sheets, found, strict=True):
        assert tall(here, fill) <= room + 1e-9
        assert fill.gap >= GAP - 1e-9
        for zone, lines in zip(here, fill.lines, strict=True):
            assert 1 <= lines <= len(STRIPS[zone.width])
    assert found[0].lines == (1, 1, 1)
    assert max(lines for fill in found for lines in fill.lines) > 1


def rules_of(page: Page) -> list[float]:
    """Return the levels of the rules across a page, downwards."""
    return sorted(
        line.y1
        for block in page.blocks
        if block.role == "Artifact"
        for line in block.items
        if isinstance(line, Line) and line.y1 == line.y2 and line.x2 - line.x1 > page.width / 2
    )


@on_every
def test_a_sheet_is_filled_to_its_foot(paper: str) -> None:
    """Between the last row and the rule over the foot: less than a row and a half of white."""
    for page in pages(paper):
        rules = rules_of(page)
        caution = min(t.y for t in page.texts() if t.text == "CAUTION")
        foot = max(rule for rule in rules if rule < caution)
        last = max(t.y for t in page.texts() if t.y < foot)
        assert foot - last < page.height * 0.055, page.slug


def test_small_shafts_of_a_small_key_are_in_its_strip_where_there_is_room() -> None:
    """Keys 806 and 807 (3/4 and 7/8 in diameter) go in shafts from 11/16 in (Shigley, 7-8)."""
    for paper in ("Letter", "A4", "Tabloid"):
        (page,) = [p for p in pages(paper) if any(t.text == "806" and t.bold for t in p.texts())]
        alts = [block.alt for block in deep(page.blocks) if block.role == "Span"]
        assert "11/16" in alts


def deep(blocks: Iterable[Block]) -> Iterator[Block]:
    """Return blocks with all that is in them."""
    for block in blocks:
        yield block
        yield from deep(item for item in block.items if isinstance(item, Block))


def figures(page: Page, part: str) -> list[Block]:
    return [b for b in page.blocks if b.role == "Figure" and part in b.alt]


@on_near
def test_the_key_and_the_hub_s_floor_are_two_lines(paper: str) -> None:
    """What is cut at the hub is drawn over the key by two outlines of white at least."""
    for page in pages(paper):
        (hub,) = figures(page, "hub depth")
        (key,) = [i for i in hub.items if isinstance(i, Shape) and i.fill == BODY]
        outline = key.stroke
        assert outline is not None
        top = min(float(piece[2]) for piece in key.path if piece[0] != "Z")
        level = [i for i in hub.items if isinstance(i, Line) and i.y1 == i.y2]
        floor = min(line.y1 for line in level)
        assert top - floor - outline >= 2 * outline - 1e-6
        assert "gap widened" in page.words()


@on_every
def test_drawings_stay_in_their_band(paper: str) -> None:
    for page in pages(paper):
        rules = rules_of(page)
        drawn = [b for b in page.blocks if b.role == "Figure" and b.rows]
        levels = [level for block in drawn for item in block.items for level in reach(item)]
        above = max(rule for rule in rules if rule < min(levels))
        below = min(rule for rule in rules if rule > above)
        assert max(levels) < below - 2, page.slug


def reach(item: Block | Text | Line | Shape | Graph) -> list[float]:
    """Return the levels of a mark's points."""
    if isinstance(item, Line):
        return [item.y1, item.y2]
    if isinstance(item, Shape):
        return [float(piece[n]) for piece in item.path for n in range(2, len(piece), 2)]
    return [text.y for text in item.texts()] if isinstance(item, Block) else [item.y]


@on_every
def test_every_depth_of_a_sheet_is_that_of_its_key(paper: str) -> None:
    """No. 608, depth at edge 0.3393 (Shigley, 9th ed., table 7-7); in 1 in, 0.0089 more."""
    depth = "0.3482" if paper in PAPERS else "0.3393"
    (page,) = [p for p in pages(paper) if any(t.text == "608" and t.bold for t in p.texts())]
    level = next(t.y for t in page.texts() if t.text == "608" and t.bold)
    assert any(t.text == depth and abs(t.y - level) < 0.01 for t in page.texts())


def test_titles_have_one_form() -> None:
    every = by_width(tables())
    assert inch_widths.named(every[:2]) == "1/16 to 3/32 in"
    assert inch_widths.named(every[6:7]) == "1/4 in"


@pytest.mark.parametrize("paper", PAPERS)
def test_only_what_the_far_table_uses_is_drawn(paper: str) -> None:
    for page in pages(paper):
        said = {t.text for t in page.texts()}
        assert {"shaft", "crown", "depth", "from crown", "floor to", "opposite side"} <= said
        assert not said & {"arc height", "at edge", "edge", "seat"}
