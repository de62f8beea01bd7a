"""``keyseats current``: codes read off pages, old and new, and what is said of each."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st

from corrections.copying import answer, clean
from keyseats.corrections.archive import editions
from keyseats.corrections.issued import issues
from keyseats.corrections.shaft_codes import shaft_sheets
from keyseats.corrections.status import CURRENT, OLDER, STALE, UNKNOWN, Register, status
from keyseats.load import Tables
from keyseats.lookup import FAMILIES, OF_UNIT, module, seats_for
from keyseats.paths import tables_dir
from keyseats.seat import Work
from keyseats.set_up import set_up_for
from keyseats.shaft_sheet import sheet as shaft_sheet
from keyseats.sheets import find
from keyseats.shop import USUAL
from keyseats.speeds import materials

pytestmark = pytest.mark.slow

DOCS = Path(__file__).resolve().parents[2] / "docs"
SCHEMA = json.loads((DOCS / "current.schema.json").read_text(encoding="utf-8"))


def code_of(tables: Tables, inch_key: str) -> str:
    """Return the code printed on a shaft sheet that is composed for one key."""
    seat = seats_for(tables, Work("in", Fraction(1)), ("inch half-moon",), inch_key)[0]
    page = shaft_sheet(tables, "Letter", set_up_for(tables, seat), "1 in")
    assert page.stamps[0].code in set(page.words())
    return page.stamps[0].code


def test_every_page_of_the_set_prints_its_code_and_is_current(tables: Tables) -> None:
    register = Register(tables)
    known = issues(tables, every=True)
    for sheet in find():
        for page in sheet.pages(tables, sheet.papers[0]):
            assert page.stamps, (sheet.name, page.slug)
            words = set(page.words())
            for one in page.stamps:
                assert one.code in words, (sheet.name, page.slug)
                assert one.code in known, (sheet.name, page.slug)
    # Some of them, through the whole of `current`.
    for code in list(known)[:: len(known) // 12]:
        found = register.find(code)
        assert found is not None
        assert status(tables, code).state == CURRENT


@cache
def shipped() -> tuple[Tables, set[str]]:
    tables = Tables(tables_dir())
    return tables, {one.code for one in shaft_sheets(tables, every=True)}


@given(st.sampled_from(list(FAMILIES)), st.data())
def test_a_shaft_sheet_has_the_code_of_its_key_whatever_was_measured(
    family: str, data: st.DataObject
) -> None:
    tables, known = shipped()
    found = module(family)
    unit = "in" if family in OF_UNIT["in"] else "mm"
    standard = data.draw(st.sampled_from(found.STANDARDS))
    fit = data.draw(st.sampled_from(found.FITS))
    rows = found.every(tables, Work(unit, Fraction(1), fit=fit, standard=standard))
    tabled = data.draw(st.sampled_from(rows)) if rows else None
    if tabled is None:
        return
    width = tabled.key.width.value
    shaft = width * 4 if tabled.key.diameter is None else tabled.key.diameter.value * 2
    near = st.fractions(Fraction(99, 100), Fraction(101, 100), max_denominator=500)
    optional = st.one_of(st.none(), near)
    scales = data.draw(st.tuples(optional, optional, optional, optional))
    work = Work(
        unit,
        shaft,
        measured=scales[0] and shaft * scales[0],
        bore=scales[1] and shaft * scales[1],
        key_height=scales[2] and tabled.key.height.most.value * scales[2],
        cutter_width=scales[3] and width * scales[3],
        fit=fit,
        standard=standard,
    )
    if tabled.key.diameter is None and data.draw(st.booleans()):
        work = Work(**{**vars(work), "end_mill": width})
    seat = seats_for(tables, work, (family,), tabled.key.designation)[0]
    material = data.draw(st.sampled_from(materials(tables)))
    page = shaft_sheet(
        tables, "A4", set_up_for(tables, seat, replace(USUAL, material=material)), "a"
    )
    assert page.stamps[0].code in known
    # All that it prints is behind its code, whatever was measured.
    assert set(page.rows()) <= set(page.stamps[0].rows)


def test_a_code_does_not_depend_on_paper_or_measured_size(tables: Tables) -> None:
    codes = set()
    for paper in ("Letter", "A4"):
        for measured in (None, Fraction("0.9984")):
            work = Work("in", Fraction(1), measured=measured)
            seat = seats_for(tables, work, ("inch half-moon",), "608")[0]
            codes.add(shaft_sheet(tables, paper, set_up_for(tables, seat), "1 in").stamps[0].code)
    assert len(codes) == 1
    other = seats_for(tables, Work("in", Fraction(1)), ("inch half-moon",), "606")[0]
    assert shaft_sheet(tables, "A4", set_up_for(tables, other), "1 in").stamps[0].code not in codes


def test_a_page_of_the_first_reading_is_told_from_one_that_stands(tmp_path: Path) -> None:
    """No. 1628's depth was recalled at the first reading and read at the second.

    608's stood; of its shaft sheet only the cutting speed for low-carbon steel was read otherwise.
    The wall charts have the figures that they had.
    """
    bed = clean(tmp_path / "tables")
    first = editions(bed.folder)[0]
    now = Tables(bed.folder)
    chart = next(s for s in find() if s.name == "wall-inch-half-moon")
    for page in chart.pages(first.tables, "Letter"):
        found = status(now, page.stamps[0].code)
        assert found.state == CURRENT
        assert found.editions[0] == "1"
    found = status(now, code_of(first.tables, "608"))
    assert found.state == STALE
    assert not found.take_down
    assert {one.id.rpartition("/")[0] for one in found.corrected} == {
        "cutting_speeds/low-carbon steel / HSS"
    }
    found = status(now, code_of(first.tables, "1628"))
    assert found.state == STALE
    assert found.editions == ("1",)
    changed = {one.id: one for one in found.corrected}
    depth = changed["inch_half_moon_seats/1628/depth_at_edge"]
    assert depth.old is not None
    assert depth.new is not None
    assert depth.old.recalled
    assert not depth.new.recalled
    assert not found.take_down


def test_a_page_of_a_figure_corrected_since_is_to_be_taken_down(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """608's least depth at edge, 0.3393 in Shigley table 7-7, made 0.0020 deeper in a copy."""
    bed = clean(tmp_path / "tables")
    old = code_of(Tables(bed.folder), "608")
    bed.plant("inch_half_moon_seats", "depth_at_edge", "0.3413", key="608")
    folder = str(bed.folder)
    code, out, _ = answer(capsys, "current", old.lower().replace("-", " "), "--tables", folder)
    assert code == 1
    assert "TAKE IT DOWN" in out
    assert "0.0020 in too shallow" in out
    code, out, _ = answer(capsys, "current", old, "--json", "--tables", folder)
    found = json.loads(out)
    jsonschema.validate(found, SCHEMA)
    assert found["state"] == STALE
    assert found["take_down"]
    (one,) = found["corrected"]
    assert one["figure"] == "inch_half_moon_seats/608/depth_at_edge"
    assert (one["old"]["text"], one["new"]["text"]) == ("0.3393", "0.3413")
    assert one["by"]["text"] == "0.0020"
    assert one["side"] == "too shallow"
    assert {s["id"] for s in one["old"]["sources"]} == {"shigley-t7-7", "textbook-t11-3"}
    # A page that does not have the figure stands; the corrected page itself is current.
    other = code_of(Tables(bed.folder), "606")
    assert answer(capsys, "current", other, "--tables", folder)[0] == 0
    new = code_of(Tables(bed.folder), "608")
    assert new != old
    code, out, _ = answer(capsys, "current", new, "--json", "--tables", folder)
    assert code == 0
    assert json.loads(out)["editions"] == []
    assert json.loads(out)["state"] == CURRENT


def test_a_wider_limit_is_of_print_only(tmp_path: Path) -> None:
    bed = clean(tmp_path / "tables")
    old = code_of(Tables(bed.folder), "608")
    bed.plant("inch_half_moon_seats", "width_most", "0.1890", key="608")
    found = status(Tables(bed.folder), old)
    assert found.state == STALE
    assert not found.take_down


def test_mistyped_and_unknown_are_told_apart(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    bed = clean(tmp_path / "tables")
    old = code_of(Tables(bed.folder), "608")
    bed.plant("inch_half_moon_seats", "depth_at_edge", "0.3413", key="608")
    corrected = code_of(Tables(bed.folder), "608")
    shipped = str(clean(tmp_path / "shipped").folder)
    code, out, err = answer(capsys, "current", corrected, "--tables", shipped)
    assert (code, err) == (1, "")
    assert "unknown" in out
    code, out, err = answer(capsys, "current", corrected, "--json", "--tables", shipped)
    found = json.loads(out)
    jsonschema.validate(found, SCHEMA)
    assert (code, found["state"], found["page"]) == (1, UNKNOWN, None)
    wrong = old[:-1] + ("X" if old[-1] != "X" else "Y")
    code, out, err = answer(capsys, "current", wrong, "--tables", shipped)
    assert (code, out) == (2, "")
    assert "mistyped" in err
    assert err.count("\n") == 1


def test_current_figures_of_an_older_edition(tmp_path: Path) -> None:
    """A page that is set otherwise by the last edition, with figures that never changed."""
    bed = clean(tmp_path / "tables")
    past = editions(bed.folder)
    code = next(c for c in past[0].packed if c in past[1].packed)
    path = bed.folder / "editions" / "2.json"
    data = json.loads(path.read_text(encoding="utf-8"))
    data["withdrawn"].append(code)
    path.write_text(json.dumps(data), encoding="utf-8")
    found = status(Tables(bed.folder), code)
    assert found.state == OLDER
    assert found.good
    assert found.editions == ("1",)
