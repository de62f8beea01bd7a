"""The tables as they ship: no fault, no remark, and the known quirks as they are listed."""

from __future__ import annotations

from pathlib import Path

import pytest

from keyseats.__main__ import main
from keyseats.check import check
from keyseats.check.formulas import FORMULAS
from keyseats.cli import trace_command
from keyseats.load import Tables


def test_the_shipped_tables_pass(tables_folder: Path) -> None:
    report = check(Tables(tables_folder))
    assert [str(f) for f in report.faults] == []
    assert [str(r) for r in report.remarks] == []


def test_the_known_quirks_are_settled_or_not_as_they_were_read(tables_folder: Path) -> None:
    report = check(Tables(tables_folder))
    unsettled = {(q.table, q.row, q.column) for q in report.unsettled}
    settled = {(q.table, q.row, q.column) for q in report.settled}
    for key in ("707", "708", "709", "710"):
        assert ("inch_half_moon_seats", key, "key_above_edge") in unsettled
    assert ("inch_half_moon_seats", "303", "depth_at_edge") in settled
    assert len(report.settled) + len(report.unsettled) == len(Tables(tables_folder).quirks)
    assert not settled & unsettled


def test_every_formula_is_used_by_the_schema(tables_folder: Path) -> None:
    schema = Tables(tables_folder).schema
    used = {r.removeprefix("is ") for columns in schema.values() for c in columns for r in c.rules}
    assert set(FORMULAS) <= used


def test_the_command_says_so(capsys: pytest.CaptureFixture[str], tables_folder: Path) -> None:
    assert main(["check", "--tables", str(tables_folder)]) == 0
    out = capsys.readouterr().out
    assert "no faults, no remarks" in out
    assert "  707: 0.1093 printed, the rule gives 0.109375" in out


def test_list_names_every_sheet_and_family(capsys: pytest.CaptureFixture[str]) -> None:
    from keyseats.lookup import FAMILIES
    from keyseats.sheets import find

    assert main(["list"]) == 0
    out = capsys.readouterr().out
    for name in [s.name for s in find()] + list(FAMILIES):
        assert name in out


@pytest.mark.parametrize(
    ("figure", "said"),
    [
        ("inch_half_moon_seats/608", "depth_at_edge: 0.3393 in"),
        ("inch_half_moon_seats/608/depth_at_edge", "read in two independent sources"),
        ("inch_half_moon_seats/608/width_least", "recalled, not read; prints with a dagger"),
        ("metric_plain_keys/ISO/R 773/main/8/height", "height: 7 mm"),
        ("metric_plain_keys/ISO/R 773 / main / 8/height", "height: 7 mm"),
        ("inch_plain_fits/class 1/square/1/2 in/floor_minus", "floor_minus: -0.015 in"),
        ("inch_half_moon_seats/707/key_above_edge", "gives 0.109375; unsettled"),
        ("inch_half_moon_keys/202/height_most", "starts from inch_half_moon_keys/202/diameter"),
    ],
)
def test_trace_tells_where_a_figure_comes_from(
    figure: str,
    said: str,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(trace_command, "find", lambda: ())
    assert main(["trace", figure]) == 0
    assert said in capsys.readouterr().out


@pytest.mark.slow
def test_trace_names_the_pages(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["trace", "inch_half_moon_seats/608/depth_at_edge"]) == 0
    assert "printed: wall-inch-half-moon on Letter, page" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("figure", "said"),
    [
        ("inch_half_moon_seat/608", "no table 'inch_half_moon_seat'; did you mean"),
        ("inch_half_moon_seats/6088", "no row '6088'; did you mean 608"),
        ("inch_half_moon_seats/608/depth_edge", "no figure 'depth_edge'; did you mean"),
        ("inch_half_moon_seats", "name a row too"),
        ("metric_plain_keys/ISO/R 773/main/8/hight", "no figure 'hight'; did you mean height"),
    ],
)
def test_trace_names_what_is_near(
    figure: str, said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["trace", figure]) == 2
    assert said in capsys.readouterr().err
