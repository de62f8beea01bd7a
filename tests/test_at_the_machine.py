"""What a machinist reading the answers could still have got wrong, held by a test each."""

from __future__ import annotations

import json
from fractions import Fraction

import pytest

from keyseats.__main__ import main
from keyseats.load import Tables
from keyseats.lookup import seats_for
from keyseats.seat import Work
from keyseats.set_up import set_up_for
from keyseats.shaft_sheet import sheet
from keyseats.warn import PAST_CENTRE


def codes(words: list[str], capsys: pytest.CaptureFixture[str]) -> list[str]:
    assert main(["shaft", *words, "--json"]) == 0
    seats = json.loads(capsys.readouterr().out)["seats"]
    return [w["code"] for seat in seats for w in seat["warnings"]]


def test_a_floor_past_the_centre_is_a_caution_on_one_side_only(tables: Tables) -> None:
    for shaft in range(700, 1300, 25):
        work = Work("in", Fraction(shaft, 1000))
        seat = seats_for(tables, work, ("inch half-moon",), "812")[0]
        past = seat.depth_from_crown.most.value > work.shaft / 2
        assert past == (PAST_CENTRE in {w.code for w in seat.warnings})


def test_such_a_key_is_not_offered_but_given_when_asked_for(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["shaft", "7/8 in"]) == 0
    offered = capsys.readouterr().out
    assert " 812" not in offered.partition("Other keys")[2]
    assert PAST_CENTRE in codes(["7/8 in", "--key", "812"], capsys)
    assert PAST_CENTRE not in codes(["2 in", "--key", "812"], capsys)


def test_no_first_choice_passes_the_centre(tables: Tables) -> None:
    for sixteenths in range(6, 33):
        work = Work("in", Fraction(sixteenths, 16))
        for family in ("inch plain", "inch half-moon"):
            assert not seats_for(tables, work, (family,))[0].warnings


def test_a_key_height_keeps_the_places_of_its_limits(tables: Tables) -> None:
    """ASME B17.1 class 1: a 3/16 key is 0.1875 +0.000 -0.002; 0.1875 itself must pass."""
    seat = seats_for(tables, Work("in", Fraction(7, 8)), ("inch plain",))[0]
    assert (seat.key.height.least.text, seat.key.height.most.text) == ("0.1855", "0.1875")


def test_the_plain_sheet_counts_half_the_disc_from_the_end_face(tables: Tables) -> None:
    """Geometry: a disc's rim touches, but full depth ends under its axis.

    7/8 - 3/32 - arc 0.010162 is 0.77109, and 0.015 deeper 0.75609: ASME B17.1; inward.
    """
    seat = seats_for(tables, Work("in", Fraction(7, 8)), ("inch plain",))[0]
    for paper in ("Letter", "A4"):
        text = " ".join(sheet(tables, paper, set_up_for(tables, seat), "7/8 in").words())
        assert "half cutter diameter" in text
        assert "H + 0.7561 =" in text
        assert "H + 0.7710 =" in text
