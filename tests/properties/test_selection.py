"""Which key for a shaft: one first choice of each plain family, and the right one at a bound."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from asking import answer
from keyseats.__main__ import main
from keyseats.families import inch_plain, metric_plain
from keyseats.load import Tables
from keyseats.lookup import FAMILIES, OF_UNIT, seats_for
from keyseats.records import MetricPlainKey
from keyseats.seat import Seat, Work


def firsts(tables: Tables, family: str, nominal: Fraction, standard: str = "") -> list[Seat]:
    unit = "in" if family.startswith("inch") else "mm"
    found = seats_for(tables, Work(unit, nominal, standard=standard), (family,))
    chosen = [s for s in found if s.choice == "first"]
    assert found[: len(chosen)] == chosen
    return chosen


def known(tables: Tables, standard: str) -> list[MetricPlainKey]:
    """Return the rows of a standard whose tolerances are known: the rest have no limits."""
    main = [r for r in metric_plain.rows(tables, standard) if r.series == "main"]
    return [r for r in main if r.depth_plus is not None and r.hub_depth_plus is not None]


def test_every_inch_shaft_has_one_first_plain_key(tables: Tables) -> None:
    least, most = (length.value for length in inch_plain.reach(tables))
    shaft = least
    while shaft < most:
        shaft += Fraction(1, 32)
        assert len(firsts(tables, "inch plain", min(shaft, most))) == 1, shaft


@pytest.mark.slow
@pytest.mark.parametrize("standard", metric_plain.STANDARDS)
def test_every_metric_shaft_has_one_first_plain_key(standard: str, tables: Tables) -> None:
    rows = known(tables, standard)
    shaft = min(r.shaft_over.value for r in rows)
    most = max(r.shaft_to.value for r in rows)
    while shaft <= most:
        assert len(firsts(tables, "metric plain", shaft, standard)) == 1, shaft
        shaft += Fraction(1, 2)


def test_each_inch_range_ends_at_its_bound(tables: Tables) -> None:
    rows = inch_plain.rows(tables)
    for row, after in pairwise(rows):
        bound = row.shaft_to.value
        at = firsts(tables, "inch plain", bound)[0]
        over = firsts(tables, "inch plain", bound + Fraction(1, 64))[0]
        assert at.key.width.value == row.width.value
        assert over.key.width.value == after.width.value
        assert row.width.value <= after.width.value


@pytest.mark.parametrize("standard", metric_plain.STANDARDS)
def test_each_metric_range_ends_at_its_bound(standard: str, tables: Tables) -> None:
    rows = known(tables, standard)
    for row, after in pairwise(rows):
        bound = row.shaft_to.value
        at = firsts(tables, "metric plain", bound, standard)[0]
        over = firsts(tables, "metric plain", bound + Fraction(1, 1000), standard)[0]
        assert at.key.width.value == row.width.value
        assert over.key.width.value == after.width.value


def test_a_measured_size_keeps_the_nominal_key() -> None:
    """7/8 in measuring 0.8752 keeps its 3/16 key; its figures are those of 0.8752."""
    found = answer("7/8 in", "--measured", "0.8752 in")
    plain = found["seats"][0]
    assert found["shaft"]["nominal"]["value"] == 0.875
    assert found["shaft"]["measured"]["value"] == 0.8752
    assert plain["key"]["designation"] == "3/16 x 3/16"
    assert plain["warnings"] == []
    at_nominal = answer("7/8 in")["seats"][0]
    for end in ("least", "most"):
        grown = plain["floor_to_opposite_side"][end]["value"]
        assert grown - at_nominal["floor_to_opposite_side"][end]["value"] == pytest.approx(
            0.0002, abs=5e-6
        )


INCH = [Fraction(n, 16) for n in range(6, 33)]
METRIC = [Fraction(n) for n in range(8, 39)]


@pytest.mark.parametrize(
    ("unit", "shafts"), [pytest.param("in", INCH, id="inch"), pytest.param("mm", METRIC, id="mm")]
)
def test_usual_shafts_have_one_first_choice_of_each_family(
    unit: str, shafts: list[Fraction], tables: Tables
) -> None:
    """Half-moon keys to the end of series 1 (38 mm): over that the family gives no first choice."""
    for shaft in shafts:
        seats = seats_for(tables, Work(unit, shaft), OF_UNIT[unit])
        chosen = sorted(s.key.family for s in seats if s.choice == "first")
        assert chosen == sorted(OF_UNIT[unit]), shaft


@pytest.mark.parametrize("shaft", ["9 mm", "60 mm", "200 mm"])
def test_a_standard_without_the_key_is_not_left_out_in_silence(
    shaft: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """DIN 6885-2 starts over 10 mm, ends at 150, and over 50 has no tolerances that were read."""
    main(["shaft", shaft, "--standard", "DIN 6885-2"])
    said = capsys.readouterr()
    assert "DIN 6885-2" in said.out + said.err


def test_families_are_named_once() -> None:
    assert sorted(f for unit in OF_UNIT.values() for f in unit) == sorted(FAMILIES)
