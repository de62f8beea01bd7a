"""Worked examples from print, and sums of the trade, against the arithmetic."""

from __future__ import annotations

from fractions import Fraction

import pytest

from asking import answer, label, seat
from keyseats import geometry
from keyseats.lengths import decimal
from keyseats.machining import plan
from published.reading import rows

EXAMPLES = {row["id"]: row for row in rows("worked_examples.csv")}


def named(example: str) -> object:
    return pytest.param(EXAMPLES[example], id=label(example, EXAMPLES[example]["source"]))


@pytest.mark.parametrize("row", [named("DT-02")])
def test_square_key_is_fed_the_arc_height_and_half_the_key(row: dict[str, str]) -> None:
    assert row["recomputed"] == "depth at edge = height / 2; hub + 0.005"
    found = seat("inch plain", "1 in")
    height = found["key"]["height"]["most"]["value"]
    assert found["depth_at_edge"]["least"]["value"] == height / 2
    fed = found["arc_height"]["value"] + height / 2
    assert found["depth_from_crown"]["least"]["value"] == pytest.approx(fed, abs=1e-15)


@pytest.mark.parametrize("row", [named("NUM-01")])
def test_number_608(row: dict[str, str]) -> None:
    key = answer("1 in", "--key", "608")["seats"][0]["key"]
    assert row["published"] == "1 in diameter x 3/16 in wide"
    assert key["diameter"]["value"] == 1
    assert key["width"]["value"] == 3 / 16


@pytest.mark.parametrize("row", [named("PN-01")])
def test_passes_are_counted_in_decimal(row: dict[str, str]) -> None:
    """The print says 19 cuts of 0.0055 and is wrong: 0.0990 takes 18, one after measuring."""
    assert row["expected"] == "known error"
    depth = Fraction("0.0990")
    assert len(plan(depth, depth, Fraction("0.0055")).cuts) == int(row["recomputed"])


def test_face_touch_of_a_one_inch_shaft_us_army_tc_9_524() -> None:
    """Half the shaft plus half the cutter: 0.500 + 0.09375."""
    found = answer("1 in", "--key", "608")["seats"][0]
    assert found["centring"]["face_touch"]["value"] == 0.59375
    paper = answer("1 in", "--key", "608", "--paper-thickness", "0.003 in")["seats"][0]
    assert paper["centring"]["face_touch"]["value"] == 0.59675


def test_rim_touch_of_an_end_mill_us_army_tc_9_524() -> None:
    """Half the shaft plus half the end mill, and no face touch."""
    found = seat("inch plain", "1 in", "--end-mill", "1/4 in")
    assert found["centring"]["rim_touch"]["value"] == 0.625
    assert found["centring"]["face_touch"] is None
    assert found["cutter"]["kind"] == "end mill"


def test_608_fed_to_the_key_height_is_scrap_worked_by_geometry_from_asme_b17_2() -> None:
    arc = geometry.arc_height(Fraction(1), Fraction(3, 16))
    height = Fraction("0.438")
    assert decimal(height - (Fraction("0.3443") + arc), 3) == "0.085"
    at_edge = height - arc
    assert decimal(height - at_edge, 3) == "0.009"
    assert decimal(height - Fraction("0.3443"), 3) == "0.094"
    assert decimal(geometry.largest_neck(Fraction(1), at_edge), 2) == "0.14"
