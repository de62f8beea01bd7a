"""Slips in depth: each key drawn and told where its arithmetic puts it, read from the files."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from math import ceil, floor

import pytest

from keyseats.graphs.slip import CASES as SEATS
from keyseats.graphs.slip import recalled, slips
from keyseats.graphs.slip_figures import zones
from keyseats.load import Tables
from keyseats.page import Block
from keyseats.palette import BAND
from keyseats.paths import tables_dir
from keyseats.setting import DAGGER
from pdf.arcs import CLOSE, arc
from pdf.graphed import PAPERS, SHEETS, runs_through
from pdf.measuring import made, paths, words
from pdf.slipped import axis, heavy, keys, levels, roofs, scale, ticks, under

# One paper of each in every run; the slow ones read them all.
CASES = [
    pytest.param(name, paper, page, marks=[] if paper == PAPERS[0] else [pytest.mark.slow])
    for name in SHEETS
    for paper in PAPERS
    for page in (1, 2)
]
every_page = pytest.mark.parametrize(("name", "paper", "page"), CASES)

# The worked seats: shaft, key width, tallest and lowest key, least and most depth from crown,
# lowest hub floor to the opposite side, necks by the cutter's diameter. Sizes of ASME B17.1 in
# Shigley, 9th ed., table 7-6, and OO-M-340F (floor +0/-0.015, hub +0.005); of ASME B17.2 in
# Shigley, table 7-7, and Machinery's Handbook, 31st ed., table 8 (depth tolerance from memory);
# of ISO/R 773 in two reproductions; of ISO 3912 in two (heights h11 from memory).
SLIPS = {
    ("wall-graphs-inch", 1): (1.0, 0.25, 0.250, 0.248, 0.125, 0.140, None),
    ("wall-graphs-inch", 2): (1.0, 0.1875, 0.438, 0.433, 0.3393, 0.3443, 1.0),
    ("wall-graphs-metric", 1): (25.0, 8.0, 7.0, 6.91, 4.0, 4.2, None),
    ("wall-graphs-metric", 2): (25.0, 6.0, 9.0, 8.85, 6.5, 6.8, 22.0),
}
HUB = {
    # 1.114: printed T for the square key, Machinery's Handbook, 31st ed., p. 2552.
    ("wall-graphs-inch", 1): 1.114,
    # Hub depth 0.0997 at the edge of the keyway in a 1 in bore: 1 - arc + 0.0997.
    ("wall-graphs-inch", 2): 1.0 - arc(1.0, 0.1875) + 0.0997,
    ("wall-graphs-metric", 1): 28.3,
    ("wall-graphs-metric", 2): 27.8,
}


def by_hand(name: str, page: int) -> tuple[list[float], list[float]]:
    """Return the five depths from the crown, as a dial has them, and the height of each key.

    In inches the depth at edge without the arc height, the limits, 0.05 over the most; in
    millimetres 0.5 too little, the limits, the arc height added to the least. Last, the key's own.
    """
    shaft, width, tallest, lowest, least, most, _ = SLIPS[name, page]
    rise = arc(shaft, width)
    if name == "wall-graphs-inch":
        first, last = ceil((least + rise) * 1e4) / 1e4, floor((most + rise) * 1e4) / 1e4
        depths = [least, first, last, last + 0.05, tallest]
    else:
        depths = [least - 0.5, least, most, round(least + rise, 2), tallest]
    return depths, [tallest, tallest, lowest, lowest, tallest]


@every_page
def test_each_keys_floor_and_top_stand_at_what_is_fed_and_over_key_on_their_scales(
    name: str, paper: str, page: int
) -> None:
    shaft = SLIPS[name, page][0]
    fed, over = scale(name, paper, page, "left"), scale(name, paper, page, "right")
    depths, heights = by_hand(name, page)
    drawn = keys(name, paper, page)
    for key, depth, height in zip(drawn, depths, heights, strict=True):
        assert abs(fed.at(depth) - key.foot) < CLOSE, depth
        assert abs(over.at(shaft - depth + height) - key.top) < CLOSE, depth


@every_page
def test_both_scales_have_one_pitch_and_meet_at_the_crown(name: str, paper: str, page: int) -> None:
    fed, over = scale(name, paper, page, "left"), scale(name, paper, page, "right")
    assert fed.pitch == pytest.approx(-over.pitch, rel=1e-4)
    assert abs(fed.at(0) - over.at(SLIPS[name, page][0])) < CLOSE
    assert sum(abs(line.top - fed.at(0)) < CLOSE for line in levels(name, paper, page)) == 1


@every_page
def test_the_figures_under_a_key_are_where_it_is_drawn_and_their_sums_agree(
    name: str, paper: str, page: int
) -> None:
    shaft = Fraction(SLIPS[name, page][0])
    rise = arc(SLIPS[name, page][0], SLIPS[name, page][1])
    unit = 1e-4 if name == "wall-graphs-inch" else 1e-2
    depths, heights = by_hand(name, page)
    found = zip(keys(name, paper, page), depths, heights, strict=True)
    for n, (key, depth, height) in enumerate(found):
        fed, high, over, above = map(Fraction, under(name, paper, page, key))
        assert float(fed) == pytest.approx(depth, abs=unit / 100)
        assert float(high) == pytest.approx(height, abs=unit / 100)
        assert over == shaft - fed + high
        # A limit is rounded inward; the others are to the nearest.
        off = unit if n in (1, 2) else unit * 0.51
        assert abs(float(above) - (height + rise - depth)) < off


@every_page
def test_the_hub_is_drawn_at_its_least_and_only_the_first_key_stops_it(
    name: str, paper: str, page: int
) -> None:
    over = scale(name, paper, page, "right")
    rounded = 0.0005 * abs(over.pitch) if page == 1 and "inch" in name else 0
    for n, (key, roof) in enumerate(
        zip(keys(name, paper, page), roofs(name, paper, page), strict=True)
    ):
        assert abs(over.at(HUB[name, page]) - roof) < rounded + CLOSE
        assert (key.top < roof) == (n == 0)


@every_page
def test_limits_are_one_line_each_a_band_and_a_heavy_piece_of_the_scale(
    name: str, paper: str, page: int
) -> None:
    _, highest, lowest, *_ = keys(name, paper, page)
    bands = [
        p
        for p in paths(name, paper)[page]
        if p.painted in ("f", "f*") and abs(p.grey - BAND) < 1e-3
    ]
    for side, ends in (("left", (highest.foot, lowest.foot)), ("right", (highest.top, lowest.top))):
        for end in ends:
            lines = [s for s in levels(name, paper, page) if abs(s.top - end) < CLOSE]
            assert len(lines) == 1
        piece = heavy(name, paper, page, side)
        assert (piece.top, piece.foot) == pytest.approx(ends, abs=CLOSE)
        assert sum((b.top, b.foot) == pytest.approx(ends, abs=CLOSE) for b in bands) == 1


@every_page
def test_heights_are_stretched_as_often_as_the_page_says(name: str, paper: str, page: int) -> None:
    width = SLIPS[name, page][1]
    said = re.search(r"Heights are drawn (\d+) times widths", _read(name, paper, page))
    assert said
    for key, height in zip(keys(name, paper, page), by_hand(name, page)[1], strict=True):
        times = key.high / height / (key.wide / width)
        assert times == pytest.approx(int(said[1]), rel=1e-3)


@every_page
def test_a_tick_stands_where_the_tallest_plain_key_stops_the_hub(
    name: str, paper: str, page: int
) -> None:
    """By hand: the depth at which the tallest key's top is level with the lowest hub floor."""
    shaft, _, tallest, *_ = SLIPS[name, page]
    stops = shaft + tallest - HUB[name, page]
    fed, line = scale(name, paper, page, "left"), axis(name, paper, page, "left")
    odd = [t for t in ticks(name, paper, page, "left") if t.weight > line.weight * 1.5]
    unit = 1e-4 if name == "wall-graphs-inch" else 1e-2
    said = re.search(r"Down to (\d*\.\d+) from the crown", _read(name, paper, page))
    assert said
    # The hub's floor of the inch plain key is printed to a thousandth.
    assert float(said[1]) == pytest.approx(stops, abs=unit + 0.0005 * (unit < 1e-3))
    assert len(odd) == (page == 1)
    for tick in odd:
        assert abs(tick.top - fed.at(float(said[1]))) < unit * fed.pitch + CLOSE
        assert by_hand(name, page)[0][0] < float(said[1]) < by_hand(name, page)[0][1]


@every_page
def test_no_word_touches_a_line(name: str, paper: str, page: int) -> None:
    lines = [p for p in paths(name, paper)[page] if p.painted in ("s", "b", "b*")]
    for word in words(name, paper)[page].words:
        box = (word.x0, word.baseline - word.size * 0.73, word.x1, word.baseline)
        for stroke in lines:
            # The caution sign is drawn of lines, beside its word.
            assert not word.text.strip() or not runs_through(stroke, box), (word, stroke.points[:2])


# Cutter diameter less twice the most depth at edge, less the house's clearance.
@pytest.mark.parametrize(
    ("name", "clear"), [("wall-graphs-inch", 0.010), ("wall-graphs-metric", 0.25)]
)
def test_the_largest_neck_is_said_with_the_half_moon_key(name: str, clear: float) -> None:
    shaft, width, *_, most, cutter = SLIPS[name, 2]
    assert cutter is not None
    at_edge = most if "inch" in name else most - arc(shaft, width)
    said = re.search(rf"Largest neck (\d*\.\d+)({DAGGER}?)\.", _read(name, PAPERS[0], 2))
    assert said
    assert (
        0
        <= cutter - 2 * at_edge - clear - float(said[1]) + 1e-9
        < 10.0 ** -len(said[1].split(".")[1])
    )
    # The tolerance of depth of ASME B17.2 is from memory, that of ISO 3912 was read.
    assert bool(said[2]) == ("inch" in name)
    assert "Largest neck" not in _read(name, PAPERS[0], 1)


@every_page
def test_what_is_seen_is_said_with_the_figures_that_it_rests_on(
    name: str, paper: str, page: int
) -> None:
    document, _ = made(name, paper)
    figure = max(
        (b for b in document.pages[page].blocks if b.role == "Figure"), key=lambda b: len(b.items)
    )
    unit, kind = ("in" if "inch" in name else "mm"), ("plain", "half-moon")[page - 1]
    told = slips(Tables(tables_dir()), unit, kind)
    for state in told.states():
        assert state.fed.text in figure.alt
    seat = told.seat
    rests = {*seat.depth_from_crown.rows, *seat.key.height.rows, *told.hub.rows}
    assert rests <= set(figure.rows)
    note = next(b for b in document.pages[page].blocks if "To read:" in b.words())
    assert {*told.stops.rows, *(seat.largest_neck.rows if seat.largest_neck else ())} == set(
        note.rows
    )


@every_page
def test_a_dagger_on_the_page_is_explained_on_the_page(name: str, paper: str, page: int) -> None:
    unit, kind = ("in" if "inch" in name else "mm"), ("plain", "half-moon")[page - 1]
    blocks = made(name, paper)[0].pages[page].blocks
    explained = [b for b in blocks if b.role == "P" and next(b.words(), "") == DAGGER]
    shown = [t for t in _texts(blocks) if DAGGER in t]
    assert len(explained) == recalled(slips(Tables(tables_dir()), unit, kind))
    assert bool(explained) == (len(shown) > len(explained))


def test_a_page_is_not_made_of_depths_that_are_not_what_it_says() -> None:
    tables = Tables(tables_dir())
    inch, metric = slips(tables, "in", "plain"), slips(tables, "mm", "plain")
    # Fed no more than the most, it is not too deep.
    wrong = replace(inch, case=replace(inch.case, slip="0"))
    with pytest.raises(ValueError, match="not too shallow, right and too deep"):
        wrong.states()
    # 3.90 of 4.00 lets the hub of 28.3 go on, and the page says so.
    passed = replace(metric, case=replace(metric.case, slip="0.1"))
    assert passed.states()[0].fed.text == "3.90"
    assert zones(passed)[0][3] == ("tallest key", "lets the hub pass")
    assert zones(metric)[0][3] == ("tallest key", "stops the hub")
    assert all(len(slips(tables, *seat).states()) == 5 for seat in SEATS)


def _read(name: str, paper: str, page: int) -> str:
    return " ".join(made(name, paper)[0].pages[page].words())


def _texts(blocks: tuple[Block, ...]) -> list[str]:
    return [text.text for block in blocks for text in block.texts()]
