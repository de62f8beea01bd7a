"""The graphs' curves, scales and names, read back from the finished files."""

from __future__ import annotations

import hashlib
import io
import os
import subprocess
import sys
from itertools import pairwise
from math import ceil, hypot
from pathlib import Path

import pikepdf
import pytest

from keyseats.build import file_name
from keyseats.lengths import read_fraction
from keyseats.page import Document, Graph
from keyseats.proof.proving import prove
from pdf.arcs import CLOSE, arc, at, curves, names, shafts
from pdf.graphed import (
    PAPERS,
    SHEETS,
    Stroke,
    field,
    inside,
    ruled,
    solid,
    strokes,
    ticks,
)
from pdf.measuring import made
from published.reading import rows

GENERATOR = Path(__file__).resolve().parents[2] / "generator"
# One paper of each in every run; the slow ones read them all.
MARKS = {paper: [] if paper == PAPERS[0] else [pytest.mark.slow] for paper in PAPERS}
CASES = [pytest.param(name, paper, marks=MARKS[paper]) for name in SHEETS for paper in PAPERS]
PAGES = [
    pytest.param(name, paper, page, marks=MARKS[paper])
    for name in SHEETS
    for paper in PAPERS
    for page in range(3)
]


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_every_point_of_every_curve_lies_where_the_formula_puts_it(name: str, paper: str) -> None:
    across, up = shafts(name, paper), ruled(name, paper, 0, "left")
    points = 0
    for width, stroke in curves(name, paper):
        for x, y in stroke.points:
            assert abs(up.at(arc(across.value(x), width)) - y) < CLOSE, (width, x)
            points += 1
    assert points > 1000


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_a_straight_piece_of_a_curve_strays_from_it_by_less_than_a_line_is_wide(
    name: str, paper: str
) -> None:
    across, up = shafts(name, paper), ruled(name, paper, 0, "left")
    for width, stroke in curves(name, paper):
        for (x1, y1), (x2, y2) in pairwise(stroke.points):
            middle = up.at(arc(across.value((x1 + x2) / 2), width))
            assert abs(middle - (y1 + y2) / 2) < 0.05


@pytest.mark.parametrize(
    "row",
    [
        pytest.param(row, id=f"{row['shaft']} [{row['source'][:50]}]")
        for row in rows("inch_plain_floors.csv")
        if read_fraction(row["shaft"].removesuffix(" in")) <= 2 and row["S_square"]
    ],
)
def test_heavy_curves_agree_with_printed_floors(row: dict[str, str]) -> None:
    """ASME B17.1: S = D - H/2 - arc height, printed to a thousandth; the source is in the id."""
    shaft = float(read_fraction(row["shaft"].removesuffix(" in")))
    printed = shaft - float(row["height_square"]) / 2 - float(row["S_square"])
    read = at("wall-graphs-inch", "Letter", float(row["width"]), shaft, heavy=True)
    assert abs(read - printed) < 0.00051


# ASME B17.1 as Shigley, 9th ed., table 7-6 prints it: width, over, to (and including).
INCH_PLAIN = (
    (0.09375, 0.3125, 0.4375),
    (0.125, 0.4375, 0.5625),
    (0.1875, 0.5625, 0.875),
    (0.25, 0.875, 1.25),
    (0.3125, 1.25, 1.375),
    (0.375, 1.375, 1.75),
    (0.5, 1.75, 2.0),
)
# ISO/R 773, 1969, in two reproductions: width, over, to (and including).
METRIC_PLAIN = (
    (2, 6, 8),
    (3, 8, 10),
    (4, 10, 12),
    (5, 12, 17),
    (6, 17, 22),
    (8, 22, 30),
    (10, 30, 38),
    (12, 38, 44),
    (14, 44, 50),
)


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_a_curve_is_heavy_where_the_standard_has_the_plain_key(name: str, paper: str) -> None:
    across = shafts(name, paper)
    drawn = curves(name, paper)
    least = min(s.weight for _, s in drawn)
    heavy = sorted((w, s) for w, s in drawn if s.weight > 2 * least)
    wanted = INCH_PLAIN if name == "wall-graphs-inch" else METRIC_PLAIN
    for (width, stroke), (key, over, to) in zip(heavy, wanted, strict=True):
        assert width == key
        assert across.value(stroke.points[0][0]) == pytest.approx(over, abs=1e-3)
        assert across.value(stroke.points[-1][0]) == pytest.approx(to, abs=1e-3)


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_the_curve_nearest_to_a_name_is_its_own(name: str, paper: str) -> None:
    document, _ = made(name, paper)
    named = list(names(document.pages[0].blocks))
    drawn = curves(name, paper)
    # Ends of whole curves: where the thin line starts or stops, and the heavy goes no further.
    ends = []
    for width in sorted({w for w, _ in drawn}):
        points = sorted(p for w, s in drawn if w == width for p in (s.points[0], s.points[-1]))
        ends += [(width, points[0]), (width, points[-1])]
    for x, y, size, text in named:
        near = sorted((hypot(x - px, y - py), width) for width, (px, py) in ends)
        assert near[0][1] == float(read_fraction(text)), (text, near[:2])
        assert near[0][0] < 2.2 * size
    assert {float(read_fraction(text)) for *_, text in named} == {w for w, _ in drawn}


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
NECKS = {
    "wall-graphs-inch": [3 / 8, 5 / 16, 1 / 4, 3 / 16, 1 / 8],
    "wall-graphs-metric": [10, 9, 8, 7, 6, 5, 4],
}


@pytest.mark.parametrize(("name", "paper"), CASES)
@pytest.mark.parametrize("page", [1, 2])
def test_a_slip_in_depth(name: str, paper: str, page: int) -> None:
    """The keys' lines, the crown, the hub's floor, the limits and the necks by hand arithmetic."""
    shaft, width, tallest, lowest, least, most, _ = SLIPS[name, page]
    rise = arc(shaft, width)
    if name == "wall-graphs-inch":
        least, most = least + rise, most + rise
    depth = ruled(name, paper, page, "left")
    above, over = ruled(name, paper, page, "top"), ruled(name, paper, page, "bottom")
    left, top, right, foot = field(name, paper, page)
    # One line serves both scales: over key is the shaft less the arc height, and key above edge.
    for place in (left, (left + right) / 2, right):
        assert over.value(place) == pytest.approx(above.value(place) + shaft - rise, abs=1e-4)
    lines = [s for s in solid(name, paper, page) if len(s.points) == 2]
    slanted = sorted((s for s in lines if s.wide > 5 and s.high > 5), key=lambda s: s.weight)
    thin, heavy = slanted
    assert heavy.weight > 2 * thin.weight
    for stroke, height in ((heavy, tallest), (thin, lowest)):
        for x, y in stroke.points:
            fed, stands = depth.value(y), over.value(x)
            # What was fed comes off, the key's height comes on.
            assert abs(over.at(shaft - fed + height) - x) < CLOSE, (fed, stands)
    upright = [s.middle[0] for s in lines if s.wide < 0.01 and s.high > (foot - top) * 0.99]
    level = [s.middle[1] for s in lines if s.high < 0.01 and s.wide > (right - left) * 0.99]
    rounded = 0.0005 * abs(over.pitch) if page == 1 and "inch" in name else CLOSE
    assert min(abs(x - over.at(shaft)) for x in upright) < CLOSE
    assert min(abs(x - over.at(HUB[name, page])) for x in upright) < rounded + CLOSE
    for limit in (least, most):
        assert min(abs(y - depth.at(limit)) for y in level) < CLOSE


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_a_neck_rubs_where_half_of_what_it_is_under_the_cutter_is_let_in(
    name: str, paper: str
) -> None:
    shaft, width, *_, cutter = SLIPS[name, 2]
    assert cutter is not None
    depth = ruled(name, paper, 2, "left")
    wanted = [depth.at((cutter - n) / 2 + arc(shaft, width)) for n in NECKS[name]]
    assert ticks(name, paper, 2, "right") == pytest.approx(wanted, abs=CLOSE)


@pytest.mark.parametrize(("name", "paper", "page"), PAGES)
def test_scales_are_even_and_their_labels_stand_at_their_ticks(
    name: str, paper: str, page: int
) -> None:
    # `ruled` holds every label against its tick; here the ticks against one straight line.
    for side in ("left", *(("bottom", "top") if page else ())):
        scale = ruled(name, paper, page, side)
        for value, place in zip(scale.values, scale.places, strict=True):
            assert abs(scale.at(value) - place) < CLOSE


@pytest.mark.parametrize(("name", "paper", "page"), PAGES)
def test_no_word_touches_a_curve(name: str, paper: str, page: int) -> None:
    lines = [s for s in solid(name, paper, page) if max(s.wide, s.high) > 30]
    for word in inside(name, paper, page):
        box = (word.x0, word.baseline - word.size * 0.73, word.x1, word.baseline)
        for stroke in lines:
            assert not runs_through(stroke, box), (word, stroke.middle)


def runs_through(stroke: Stroke, box: tuple[float, float, float, float]) -> bool:
    half = stroke.weight / 2
    for (x1, y1), (x2, y2) in pairwise(stroke.points):
        steps = max(1, ceil(hypot(x2 - x1, y2 - y1)))
        for n in range(steps + 1):
            x, y = x1 + (x2 - x1) * n / steps, y1 + (y2 - y1) * n / steps
            if box[0] - half < x < box[2] + half and box[1] - half < y < box[3] + half:
                return True
    return False


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_forms_hold_no_words_no_raster_and_nothing_seen_through(name: str, paper: str) -> None:
    with pikepdf.open(io.BytesIO(made(name, paper)[1])) as pdf:
        assert not pdf.check_pdf_syntax()
        for page in pdf.pages:
            forms = page.Resources.XObject
            assert list(forms) == ["/Graph-1"]
            form = forms["/Graph-1"]
            assert "/Group" not in form
            signs = {str(sign) for _, sign in pikepdf.parse_content_stream(form)}
            # Greys only, straight onto the paper.
            assert signs <= {"q", "Q", "m", "l", "h", "re", "W", "n", "S", "f", "B", *"wdjJgG"}
            assert not list(form.Resources)
        assert not [
            o
            for o in pdf.objects
            if isinstance(o, pikepdf.Stream) and o.get("/Subtype") == "/Image"
        ]


@pytest.mark.parametrize(("name", "paper", "page"), PAGES)
def test_a_graph_is_a_figure_with_words_and_rows(name: str, paper: str, page: int) -> None:
    document, _ = made(name, paper)
    holder = next(b for b in document.pages[page].blocks if any(b.graphs()))
    assert holder.role == "Figure"
    assert len(holder.alt) > 40
    assert len(holder.rows) > 3
    # Its words are set by the page, in the fonts of the page.
    assert sum(1 for _ in holder.texts()) > 15
    assert any(s.dashed for s in strokes(name, paper, page))


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_a_print_shop_finds_nothing(name: str, paper: str, tmp_path: Path) -> None:
    path = tmp_path / file_name(name, paper)
    path.write_bytes(made(name, paper)[1])
    assert not [str(fault) for fault in prove([path]).faults]


def test_same_bytes_in_two_processes_whatever_style_the_user_has_set(tmp_path: Path) -> None:
    style = tmp_path / "matplotlibrc"
    style.write_text("axes.grid: True\nlines.linewidth: 9\npdf.compression: 0\nxtick.top: True\n")
    code = (
        "import hashlib; from pdf.measuring import made; "
        "print(hashlib.sha256(made('wall-graphs-inch', 'Letter')[1]).hexdigest())"
    )
    found = {hashlib.sha256(made("wall-graphs-inch", "Letter")[1]).hexdigest()}
    for seed, more in (("1", {}), ("2", {"MATPLOTLIBRC": str(style)})):
        done = subprocess.run(
            [sys.executable, "-c", code],
            capture_output=True,
            text=True,
            check=True,
            env={
                **os.environ,
                "PYTHONPATH": f"{GENERATOR}{os.pathsep}{GENERATOR.parent / 'tests'}",
                "PYTHONHASHSEED": seed,
                **more,
            },
        )
        assert done.stderr == ""
        found.add(done.stdout.strip())
    assert len(found) == 1


def test_a_page_without_a_graph_asks_for_no_graphs() -> None:
    code = (
        "import sys; from pdf.measuring import made; made('wall-metric-half-moon', 'A4'); "
        "print([m for m in ('matplotlib', 'numpy') if m in sys.modules])"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        env={
            **os.environ,
            "PYTHONPATH": f"{GENERATOR}{os.pathsep}{GENERATOR.parent / 'tests'}",
        },
    )
    assert done.stdout.strip() == "[]"


def test_a_graph_puts_values_where_they_belong() -> None:
    """By hand: 10 to 20 across 100 pt from 50; 0 at the foot and 4 at the top of 200 pt from 30."""
    graph = Graph(50, 30, 100, 200, (10, 20), (0, 4), (), (), (), 1, 5)
    assert graph.at(10, 4) == (50, 30)
    assert graph.at(15, 1) == (100, 180)
    turned = Graph(50, 30, 100, 200, (10, 20), (4, 0), (), (), (), 1, 5)
    assert turned.at(20, 1) == (150, 80)


def test_documents_differ_where_a_graph_does() -> None:
    document, _ = made("wall-graphs-inch", "Letter")
    other, _ = made("wall-graphs-metric", "Letter")
    assert isinstance(document, Document)
    assert document.key() != other.key()
