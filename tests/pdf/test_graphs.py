"""The graphs' curves, scales and names, read back from the finished files."""

from __future__ import annotations

import hashlib
import io
import os
import subprocess
import sys
from itertools import pairwise
from math import hypot
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
    inside,
    ruled,
    runs_through,
    solid,
    strokes,
)
from pdf.measuring import made
from published.reading import rows

GENERATOR = Path(__file__).resolve().parents[2] / "generator"
# One paper of each in every run; the slow ones read them all.
MARKS = {paper: [] if paper == PAPERS[0] else [pytest.mark.slow] for paper in PAPERS}
CASES = [pytest.param(name, paper, marks=MARKS[paper]) for name in SHEETS for paper in PAPERS]


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


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_the_scale_is_even_and_its_labels_stand_at_their_ticks(name: str, paper: str) -> None:
    # `ruled` holds every label against its tick; here the ticks against one straight line.
    scale = ruled(name, paper, 0, "left")
    for value, place in zip(scale.values, scale.places, strict=True):
        assert abs(scale.at(value) - place) < CLOSE


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_no_word_touches_a_curve(name: str, paper: str) -> None:
    lines = [s for s in solid(name, paper, 0) if max(s.wide, s.high) > 30]
    for word in inside(name, paper, 0):
        box = (word.x0, word.baseline - word.size * 0.73, word.x1, word.baseline)
        for stroke in lines:
            assert not runs_through(stroke, box), (word, stroke.middle)


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_forms_hold_no_words_no_raster_and_nothing_seen_through(name: str, paper: str) -> None:
    with pikepdf.open(io.BytesIO(made(name, paper)[1])) as pdf:
        assert not pdf.check_pdf_syntax()
        # The slips are drawn by the pages themselves.
        assert ["/XObject" in page.Resources for page in pdf.pages] == [True, False, False]
        forms = pdf.pages[0].Resources.XObject
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


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_a_graph_is_a_figure_with_words_and_rows(name: str, paper: str) -> None:
    document, _ = made(name, paper)
    holder = next(b for b in document.pages[0].blocks if any(b.graphs()))
    assert holder.role == "Figure"
    assert len(holder.alt) > 40
    assert len(holder.rows) > 3
    # Its words are set by the page, in the fonts of the page.
    assert sum(1 for _ in holder.texts()) > 15
    assert any(s.dashed for s in strokes(name, paper, 0))


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_a_print_shop_finds_nothing(name: str, paper: str, tmp_path: Path) -> None:
    path = tmp_path / file_name(name, paper)
    path.write_bytes(made(name, paper)[1])
    assert not [str(fault) for fault in prove([path]).faults]


@pytest.mark.slow
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
    graph = Graph(50, 30, 100, 200, (10, 20), (0, 4), (), (), 1, 5)
    assert graph.at(10, 4) == (50, 30)
    assert graph.at(15, 1) == (100, 180)
    turned = Graph(50, 30, 100, 200, (10, 20), (4, 0), (), (), 1, 5)
    assert turned.at(20, 1) == (150, 80)


def test_documents_differ_where_a_graph_does() -> None:
    document, _ = made("wall-graphs-inch", "Letter")
    other, _ = made("wall-graphs-metric", "Letter")
    assert isinstance(document, Document)
    assert document.key() != other.key()
