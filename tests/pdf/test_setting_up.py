"""The setting-up chart: steps that agree on all papers, frames that follow the tables, slips."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from keyseats.frame import DISTANCE, MARGIN, Frame
from keyseats.lengths import read_fraction
from keyseats.load import Tables
from keyseats.page import Block, Line, Page, Shape
from keyseats.palette import BODY
from keyseats.paths import tables_dir
from keyseats.setting import set_width
from keyseats.setting_up.grids import Grids, alike, travel
from keyseats.setting_up.keys import key_width
from keyseats.setting_up.sketch import DASH, Sketch
from keyseats.setting_up.slip_drawings import CROWN, DRAWINGS, RADIUS, caption
from keyseats.setting_up.slips import example, slips
from keyseats.setting_up.step_drawings import DRAWINGS as STEP_DRAWINGS
from keyseats.setting_up.strip import strip
from keyseats.setting_up.system import INCH, METRIC, System
from keyseats.setting_up.words import steps
from keyseats.setting_up.wrong import wrong
from keyseats.sheets import find

PUBLISHED = Path(__file__).resolve().parents[1] / "published"
PAPERS = ("Letter", "A4", "Tabloid", "A3")
both = pytest.mark.parametrize("system", [INCH, METRIC], ids=lambda s: s.name)


@cache
def tables() -> Tables:
    return Tables(tables_dir())


@cache
def pages(system: System, paper: str) -> tuple[Page, ...]:
    sheet = next(s for s in find() if s.name == f"wall-setting-up-{system.name}")
    return tuple(sheet.pages(tables(), paper))


def flat(blocks: tuple[Block, ...]) -> Iterator[Block]:
    for block in blocks:
        yield block
        yield from flat(tuple(b for b in block.items if isinstance(b, Block)))


def printed_widths(name: str, unit: str) -> dict[Fraction, Fraction]:
    """Return the key width that print gives each shaft; the source stands in each row."""
    with (PUBLISHED / name).open(encoding="utf-8", newline="") as file:
        rows = [r for r in csv.DictReader(file) if r.get("expected") != "known wrong"]
    assert all(row["source"] for row in rows)
    kept = [r for r in rows if r.get("standard", "DIN 6885-1") == "DIN 6885-1"]
    plain = [
        (r["shaft"].removesuffix(f" {unit}"), r["width"].removesuffix(f" {unit}")) for r in kept
    ]
    return {read_fraction(shaft): read_fraction(width) for shaft, width in plain}


@pytest.mark.parametrize(
    ("system", "name", "least"),
    [
        (INCH, "inch_plain_floors.csv", 8),
        (INCH, "inch_motor_shafts.csv", 3),
        (METRIC, "metric_plain_shafts.csv", 10),
    ],
)
def test_the_plain_key_is_the_one_in_print(system: System, name: str, least: int) -> None:
    listed = {shaft for group in system.groups for shaft in group.shafts(full=True)}
    found = {s: w for s, w in printed_widths(name, system.unit).items() if s in listed}
    assert len(found) >= least
    for shaft, width in found.items():
        key = key_width(tables(), system, shaft)
        assert key.value == width, system.size(shaft)
        assert [row.rpartition("/")[2] for row in key.rows] == ["width", "shaft_over", "shaft_to"]


@both
def test_every_listed_shaft_has_its_cutter_on_every_paper(system: System) -> None:
    for group in system.groups:
        for full in (True, False):
            for shaft in group.shafts(full):
                width = key_width(tables(), system, shaft).value
                assert width in group.widths(), system.size(shaft)
                assert width in group.widths(few=True), system.size(shaft)


@both
def test_one_run_has_one_key_and_the_next_another(system: System) -> None:
    for group in system.groups:
        shafts = group.shafts(full=True)
        runs = alike(tables(), system, shafts)
        assert [shaft for run in runs for shaft in run.shafts] == shafts
        widths = [run.key.value for run in runs]
        assert len(set(widths)) == len(widths)
        for run in runs:
            for shaft in run.shafts:
                key = key_width(tables(), system, shaft)
                assert key.value == run.key.value
                # What is said once for the run is marked when any of its shafts' keys is corrected.
                assert set(key.rows) <= set(run.key.rows)


@both
@pytest.mark.parametrize("paper", PAPERS)
def test_frames_and_names_rest_on_the_keys(system: System, paper: str) -> None:
    page = pages(system, paper)[1]
    cells = list(flat(page.blocks))
    runs = [run for g in system.groups for run in alike(tables(), system, g.shafts(False))]
    for run in runs:
        for shaft in run.shafts:
            framed = [
                b
                for b in cells
                if b.role == "TD"
                and set(run.key.rows) <= set(b.rows)
                and b.cut
                and [t.text for t in b.texts()] == [travel(system, shaft, run.key.value).text]
            ]
            assert len(framed) == 1, system.size(shaft)
    named = [b for b in cells if b.role == "TH" and b.header == "Row"]
    assert named
    assert all(b.rows for b in named)


def test_travels_as_the_manual_reckons_them() -> None:
    """US Army TC 9-524, ch. 8: half the shaft plus half the cutter; 1 in and 1/4 in give 5/8."""
    assert travel(INCH, Fraction(1), Fraction(1, 4)).text == "0.6250"
    assert travel(METRIC, Fraction(25), Fraction(8)).text == "16.50"


@both
@pytest.mark.parametrize("paper", PAPERS)
def test_twelve_steps_in_the_order_of_the_far_chart(system: System, paper: str) -> None:
    near = [b for b in pages(system, paper)[0].blocks if b.role == "H2"]
    said = [[t.text for t in b.texts()] for b in near]
    here = [step.lead.rstrip(".") for step in steps(system)]
    assert said == [[str(n), lead] for n, lead in enumerate(here, 1)]
    assert len(here) == len(STEP_DRAWINGS) == 12
    far = " ".join(w for p in pages(system, "A2")[:2] for w in p.words())
    at = [far.index(f"{n} {step.lead.split()[0]}") for n, step in enumerate(steps(system), 1)]
    assert at == sorted(at)


@pytest.mark.parametrize("off", [Fraction(3, 100), Fraction(-1, 50), Fraction(0)])
def test_the_work_follows_the_wide_gap(off: Fraction) -> None:
    """Geometry: a bare mark lies on the shaft's axis, wherever the cutter stands."""
    mark, cutter, half_mark, half = Fraction(0), off, Fraction(1, 20), Fraction(1, 8)
    up, down = cutter + half - (mark + half_mark), mark - half_mark - (cutter - half)
    wide = 1 if up > down else -1
    mark += wide * abs(up - down) / 2
    assert cutter + half - (mark + half_mark) == mark - half_mark - (cutter - half)
    says = steps(INCH)[6]
    for text in (says.says, says.drawn):
        assert "Unlock, move the work half the difference towards the wide gap" in text
        assert "from the same side; lock; mark again." in text


@both
def test_depths_that_are_wrong_are_counted_from_one_datum(system: System) -> None:
    """What is fed is the least depth from crown; the drawing is dashed there, too."""
    ex = example(tables(), system)
    least = ex.plain.depth_from_crown.least
    found = {s.done: s for s in slips(tables(), system)}
    sunk = found["Key's height fed as the depth"]
    assert sunk.error.value == ex.plain.key.height.most.value - least.value
    assert set(least.rows) <= set(sunk.error.rows)
    arc = next(s for done, s in found.items() if done.startswith("Arc height"))
    assert arc.error.value == ex.plain.arc_height.value
    scale = RADIUS / float(ex.plain.work.shaft / 2)
    for slip in (sunk, arc):
        d = Sketch(Frame("A4", DISTANCE["A4"]), 0.0, 0.0)
        DRAWINGS[slip.kind](d, slip, ex)
        dashed = next(m for m in d.marks if isinstance(m, Shape) and m.dash == DASH)
        levels = {float(p[2]) / d.u for p in dashed.path if p[0] in ("M", "L")}
        assert max(levels) == pytest.approx(min(levels))
        assert min(levels) == pytest.approx(CROWN + float(least.value) * scale)
        told = {slip.kind for slip in (sunk, arc)} - {"too shallow"}
        assert told == {"past the least"}


@both
@pytest.mark.parametrize("paper", PAPERS)
def test_errors_and_what_they_are_stay_in_their_columns(system: System, paper: str) -> None:
    page = pages(system, paper)[4]
    kinds = {slip.kind for slip in slips(tables(), system)}
    told = [t for b in flat(page.blocks) if b.role == "P" for t in b.texts() if t.text in kinds]
    assert len(told) == len(slips(tables(), system))
    for text in told:
        end = text.x + set_width(text.text, text.size, text.bold)
        middle = page.width / 2
        assert end <= (middle if text.x < middle else page.width - MARGIN), text.text


@both
def test_the_stock_before_the_cutter_is_one_pass_high(system: System) -> None:
    d = Sketch(Frame("A4", DISTANCE["A4"]), 0.0, 0.0)
    STEP_DRAWINGS[8](d, 12.0, system)
    outline = next(m for m in d.marks if isinstance(m, Shape) and m.fill is None and not m.dash)
    points = [(float(p[1]) / d.u, float(p[2]) / d.u) for p in outline.path if p[0] in ("M", "L")]
    crown, floor = points[0][1], points[-1][1]
    before = (floor - crown) / 3
    flat_parts = [a for (_, a), (_, b) in pairwise(points) if abs(a - b) < 1e-9]
    assert flat_parts == [pytest.approx(y) for y in (crown, floor - before, floor)]


@both
@pytest.mark.parametrize("paper", ["ANSI C", "A2"])
def test_the_foot_alone_rules_off_the_far_tables(system: System, paper: str) -> None:
    for page in pages(system, paper)[2:]:
        rules = sorted(
            m.y1
            for b in flat(page.blocks)
            for m in b.items
            if isinstance(m, Line) and m.y1 == m.y2 and m.x2 - m.x1 > page.width * 0.9
        )
        last = max(t.y for b in flat(page.blocks) if b.role == "TD" for t in b.texts())
        assert [y > last for y in rules].count(True) == 2  # the foot's own: above it, and its line


@both
def test_the_neck_stands_on_the_seats_edge(system: System) -> None:
    slip, ex = slips(tables(), system)[-1], example(tables(), system)
    d = Sketch(Frame("A4", DISTANCE["A4"]), 0.0, 0.0)
    DRAWINGS[slip.kind](d, slip, ex)
    bodies = [m for m in d.marks if isinstance(m, Shape) and m.fill == BODY]
    neck, cutter = bodies
    low = max(float(p[2]) for p in neck.path if p[0] in ("M", "L"))
    wall = min(float(p[1]) for p in cutter.path if p[0] in ("M", "L"))
    cut = next(m for m in d.marks if isinstance(m, Shape) and m.fill is None)
    corners = [(float(p[1]), float(p[2])) for p in cut.path if p[0] in ("M", "L")]
    assert any(abs(x - wall) < 1e-6 and abs(y - low) < 1e-6 for x, y in corners)


@both
@pytest.mark.parametrize("paper", PAPERS)
def test_what_is_drawn_larger_says_so(system: System, paper: str) -> None:
    said = " ".join(pages(system, paper)[4].words())
    for slip in slips(tables(), system):
        assert (caption(slip) == "") == (slip.times == 1)
        assert caption(slip) in said
        assert slip.done in said
    errors = [b for b in flat(pages(system, paper)[4].blocks) if b.role == "Span" and not b.alt]
    for slip in slips(tables(), system):
        assert any(b.rows == slip.error.rows for b in errors)


@both
def test_a_page_that_is_too_low_is_refused(system: System) -> None:
    f = Frame("A4", DISTANCE["A4"])
    with pytest.raises(ValueError, match="too low for the drawings"):
        strip(f, system, steps(system), 100.0, 500.0)
    with pytest.raises(ValueError, match="too low for the rows"):
        Grids(f, tables(), system, travel, "cutter", framed=True).set(200.0, 400.0)
    with pytest.raises(ValueError, match="taller than their cell"):
        wrong(f, tables(), system, 100.0, 400.0)


def test_a_shaft_without_a_plain_key_has_no_width() -> None:
    assert key_width(tables(), INCH, Fraction(1, 8)) is None
    runs = alike(tables(), INCH, [Fraction(1, 8), Fraction(1, 4), Fraction(1, 2)])
    assert [(run.key is None, len(run.shafts)) for run in runs] == [(True, 2), (False, 1)]
