"""The machine interface: its shape by the committed schema, and what must be null."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from keyseats.__main__ import main

SCHEMA = json.loads(
    (Path(__file__).resolve().parents[1] / "docs" / "shaft.schema.json").read_text(encoding="utf-8")
)
CASES = [
    ["3/8 in"],
    ["1 in"],
    ["2 in", "--key", "1212"],
    ["10-1/2 in"],
    ["1 in", "--key", "608", "--measured", "0.9985 in", "--bore", "1.0005 in"],
    ["1 in", "--key", "608", "--neck", "0.5 in", "--cutter-diameter", "0.98 in"],
    ["7/8 in", "--end-mill", "3/16 in", "--paper-thickness", "0.003 in"],
    ["1 in", "--cutter-width", "0.26 in", "--key-height", "0.249 in", "--fit", "class 2"],
    ["22 mm"],
    ["6 mm"],
    ["22 mm", "--standard", "JIS B 1301", "--fit", "close"],
    ["450 mm"],
    ["25 mm", "--family", "inch plain"],
]


def answer(words: list[str], capsys: pytest.CaptureFixture[str]) -> dict[str, Any]:
    assert main(["shaft", *words, "--json"]) == 0
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    return found


@pytest.mark.parametrize("words", CASES, ids=" ".join)
def test_shape(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    found = answer(words, capsys)
    jsonschema.validate(found, SCHEMA)
    for seat in found["seats"]:
        half_moon = seat["key"]["diameter"] is not None
        assert half_moon == ("half-moon" in seat["key"]["family"])
        assert (seat["largest_neck"] is None) != half_moon
        assert (seat["opening_at_crown"] is None) != half_moon
        touches = seat["centring"]
        by_rim = seat["cutter"]["kind"] == "end mill"
        assert (touches["face_touch"] is None) == by_rim
        assert (touches["rim_touch"] is None) != by_rim


def test_first_choices_come_first(capsys: pytest.CaptureFixture[str]) -> None:
    seats = answer(["1 in"], capsys)["seats"]
    assert [s["choice"] for s in seats[:2]] == ["first", "first"]
    assert {s["choice"] for s in seats[2:]} == {"other"}


def test_a_seat_worked_by_hand(capsys: pytest.CaptureFixture[str]) -> None:
    """No. 608 in 1 in: arithmetic on the depth printed in Shigley, table 7-7, and textbook 11-3."""
    seat = answer(["1 in", "--key", "608"], capsys)["seats"][0]
    ends = {
        "depth_at_edge": ("0.3393", "0.3443"),
        "depth_from_crown": ("0.3482", "0.3531"),
        "hub_floor_to_opposite_side": ("1.0909", "1.0958"),
        "key_above_edge": ("0.0887", "0.0987"),
    }
    for name, (least, most) in ends.items():
        assert seat[name]["least"]["text"] == least
        assert seat[name]["most"]["text"] == most
    assert seat["arc_height"]["text"] == "0.0089"
    assert seat["centring"]["face_touch"]["value"] == 0.59375
    assert seat["standing"]["depth_at_edge"] == "two-sources"
    assert seat["standing"]["depth_at_edge.most"] == "memory"


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (["1 in", "--key", "608", "--neck", "0.3015 in"], "neck-rubs"),
        (["1 in", "--key", "608", "--cutter-diameter", "0.9999 in"], "cutter-ground-under-key"),
        (["1 in", "--key", "608", "--cutter-width", "0.1881 in"], "cutter-wide"),
        (["1 in", "--key", "608", "--cutter-width", "0.1862 in"], "cutter-narrow"),
        (["3/8 in", "--key", "808"], "key-not-for-shaft"),
        (["1 in", "--key", "608", "--cutter-diameter", "0.5 in"], "no-neck-clears"),
    ],
)
def test_cautions(words: list[str], code: str, capsys: pytest.CaptureFixture[str]) -> None:
    seats = answer(words, capsys)["seats"]
    assert code in [w["code"] for s in seats for w in s["warnings"]]


@pytest.mark.parametrize(
    "words",
    [
        ["1 in", "--key", "608", "--neck", "0.3014 in"],
        ["1 in", "--key", "608", "--cutter-diameter", "1 in"],
        ["1 in", "--key", "608", "--cutter-width", "0.1880 in"],
        ["1 in", "--key", "608", "--cutter-width", "0.1863 in"],
    ],
)
def test_no_caution_at_the_limit(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert answer(words, capsys)["seats"][0]["warnings"] == []


def test_a_neck_is_never_below_zero(capsys: pytest.CaptureFixture[str]) -> None:
    words = ["1 in", "--key", "608", "--cutter-diameter", "0.5 in"]
    assert answer(words, capsys)["seats"][0]["largest_neck"] is None


def test_a_key_asked_for_is_given_where_its_standard_has_none_for_the_shaft(
    capsys: pytest.CaptureFixture[str],
) -> None:
    seats = answer(["9 mm", "--standard", "DIN 6885-2", "--key", "4 x 4"], capsys)["seats"]
    assert seats[0]["key"]["standard"] == "DIN 6885-2"
    assert [w["code"] for w in seats[0]["warnings"]] == ["key-not-for-shaft"]
