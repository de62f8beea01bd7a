"""What ``keyseats shaft`` prints and its JSON say of dials, papers and touches; worked by hand.

The shop is invented. Dials: common practice, no source; the rest is geometry.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from keyseats.__main__ import main

SCHEMA = json.loads(
    (Path(__file__).resolve().parents[1] / "docs" / "shaft.schema.json").read_text(encoding="utf-8")
)
SHOP = """
deepest_pass = "0.010 in"
paper_thickness = "0.0025 in"
holder_radius = "0.75 in"
gauge_blocks = "inch-81"

[[slide]]
name = "carriage"
direction = "along the spindle"
turn = "0.25 in"
divisions = 250
can_be_zeroed = false

[[slide]]
name = "cross slide"
direction = "across the spindle"
turn = "0.0625 in"
divisions = 125
reads = "diameter"
can_be_zeroed = false

[[slide]]
name = "vertical"
direction = "up and down"
turn = "0.05 in"
divisions = 50
"""
MILL = """
spindle = "mill"
deepest_pass = "0.3 mm"
paper_thickness = "0.05 mm"

[[slide]]
name = "quill"
direction = "up and down"
turn = "2 mm"
divisions = 80

[[slide]]
name = "table"
direction = "along the table"
turn = "0.1 in"
divisions = 100
"""
PLAIN = ("7/8 in", "--key", "3/16 x 3/16")
MOON = ("3/4 in", "--key", "606", "--cutter-diameter", "0.741 in", "--cutter-width", "0.1869 in")
COLLARED = (
    *("1-1/2 in", "--key", "3/8 x 3/8", "--cutter-width", "0.375 in"),
    *("--cutter-diameter", "2.5 in", "--collar"),
)


@pytest.fixture
def said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Any:
    def answer(shop: str, *words: str) -> str:
        path = tmp_path / "shop.toml"
        path.write_text(shop, encoding="utf-8")
        assert main(["shaft", *words, "--shop", str(path)]) == 0
        return capsys.readouterr().out

    return answer


def row(text: str, label: str, after: str = "") -> str:
    """Return a figure's line with what it is wrapped into, its white squeezed."""
    lines = text[text.index(after) :].splitlines()
    start = next(n for n, line in enumerate(lines) if line.strip().startswith(label))
    found = [lines[start]]
    for line in lines[start + 1 :]:
        if not line.startswith(" " * 20):
            break
        found.append(line)
    return re.sub(r"\s+", " ", " ".join(found)).strip()


def seat_of(said: Any, shop: str, *words: str) -> dict[str, Any]:
    found = json.loads(said(shop, *words, "--json"))
    jsonschema.validate(found, SCHEMA)
    seat: dict[str, Any] = found["seats"][0]
    return seat


def test_the_place_along_is_told_in_turns_and_divisions(said: Any) -> None:
    """0.741/2 + 0.0025 is 0.3730: 5 turns are 0.3125, and 0.0605 is 121 of 0.0005."""
    text = said(SHOP, *MOON)
    assert row(text, "0.3730 on its dial").endswith("5 turns + 121 div")
    whole = row(text, "the whole on its dial")
    assert "whole travel ÷ 0.0625 = whole turns; rest ÷ 0.0005 = div" in whole
    assert "not the diameter that its marks name" in whole
    along = seat_of(said, SHOP, *MOON)["set_up"]["along"]
    assert (along["turns"], along["divisions"]) == (5, pytest.approx(121))
    assert along["to_dial"] in whole


def test_a_slide_of_the_other_system_converts_the_travel(said: Any) -> None:
    words = ("20 mm", "--key", "5 x 7.5 x 19")
    text = said(MILL, *words)
    whole = row(text, "the whole on its dial")
    assert "whole travel ÷ 25.4 (in) ÷ 0.1 = whole turns; rest ÷ 0.001 = div" in whole
    assert "diameter" not in whole
    # 19/2 + 0.05 is 9.55 mm, 0.375984 in.
    along = seat_of(said, MILL, *words)["set_up"]["along"]
    assert (along["turns"], along["divisions"]) == (3, pytest.approx(75.984, abs=1e-3))


def test_without_a_dial_nothing_is_turned(said: Any) -> None:
    bare = SHOP.replace('turn = "0.0625 in"\ndivisions = 125\nreads = "diameter"\n', "").replace(
        'direction = "across the spindle"\ncan_be_zeroed = false',
        'direction = "across the spindle"',
    )
    assert "indicator" in row(said(bare, *MOON), "no dial there, so", "Place along")
    along = seat_of(said, bare, *MOON)["set_up"]["along"]
    assert (along["turns"], along["divisions"], along["to_dial"]) == (None, None, None)


def test_a_disc_of_unknown_diameter_counts_the_paper_too(said: Any) -> None:
    place = row(said(SHOP, *PLAIN), "from an end face")
    assert "half the cutter's diameter + 0.0025, the paper" in place
    along = seat_of(said, SHOP, *PLAIN)["set_up"]["along"]
    assert along["add_from_end"] is None
    assert along["turns"] is None
    assert along["to_dial"].startswith("whole travel ÷ 0.0625")


def test_a_dial_that_cannot_be_zeroed_is_noted_wherever_it_counts(said: Any) -> None:
    text = said(SHOP, *MOON)
    centre, place = text.index("Centre ("), text.index("Place along (")
    feed = text.index("Feed (")
    note = "dial cannot be zeroed"
    assert note in text[centre:place]
    assert note in text[place:feed]
    # The slide that feeds has a dial that can.
    assert note not in text[feed:]
    assert "zeroed where it first cuts that" in text[feed:]
    fixed = SHOP.replace("divisions = 50\n", "divisions = 50\ncan_be_zeroed = false\n")
    again = said(fixed, *MOON)
    again = again[again.index("Feed (") :]
    assert note in again
    assert "zeroed where" not in again


def test_a_reading_between_two_sizes_is_printed_in_full(said: Any) -> None:
    """3.5 and 0.0635 of paper: the first mark inside, on 0.025 a division, is 3.575."""
    shop = MILL.replace('"0.05 mm"', '"0.0025 in"')
    words = ("20 mm", "--key", "6 x 6", "--end-mill", "5.97 mm")
    assert "then to 3.575" in row(said(shop, *words), "passes")
    assert seat_of(said, shop, *words)["passes"][-1]["reading"]["text"] == "3.575"
    assert seat_of(said, shop, *words)["passes"][0]["reading"]["text"] == "0.30"


def test_only_a_half_moon_cutter_has_a_neck_to_be_careful_of(said: Any) -> None:
    assert "thin neck" in said(SHOP, *MOON)
    milled = said(MILL, "20 mm", "--key", "6 x 6", "--end-mill", "5.97 mm")
    assert "a light machine wants the low end" in re.sub(r"\s+", " ", milled)
    assert "thin neck" not in milled


def test_a_face_touch_that_falls_short_gives_the_higher_one(said: Any) -> None:
    """Reach (2.5 - 1.3)/2 less 0.005: 0.155 over centre; sqrt(0.75^2 - 0.155^2) is 0.73381."""
    seat = seat_of(said, SHOP, *COLLARED, "1.3 in")
    centre = seat["set_up"]["centre"]
    # + 0.375/2 + 0.0025; 3 turns of 0.25 and 173.8 of 0.001.
    assert centre["travel"]["text"] == "0.9238"
    assert centre["rim_above_centre"]["text"] == "0.1550"
    assert (centre["turns"], centre["divisions"]) == (3, pytest.approx(173.8, abs=0.06))
    assert sum(b["value"] for b in seat["blocks"]) == pytest.approx(0.924, abs=5e-4)
    caution = next(w["says"] for w in seat["warnings"] if w["code"] == "face-touch-short")
    assert "0.1550" in caution
    assert "0.9238" in caution
    text = said(SHOP, *COLLARED, "1.3 in")
    assert "face touch with the rim 0.1550 above the centre line" in re.sub(r"\s+", " ", text)
    assert "0.9400" not in text


def test_where_no_touch_can_be_made_no_travel_is_given(said: Any) -> None:
    seat = seat_of(said, SHOP, *COLLARED, "2.495 in")
    centre = seat["set_up"]["centre"]
    assert (centre["travel"], centre["turns"], centre["instead"]) == (None, None, [])
    assert seat["blocks"] is None
    text = said(SHOP, *COLLARED, "2.495 in")
    assert "by indicator: no face touch can be made" in row(text, "centring travel")


def test_a_touch_that_can_be_made_stays_at_the_widest_point(said: Any) -> None:
    centre = seat_of(said, SHOP, *COLLARED, "0.9 in")["set_up"]["centre"]
    assert centre["rim_above_centre"] is None
    # 0.75 + 0.375/2 + 0.0025.
    assert centre["travel"]["value"] == pytest.approx(0.94)


def test_over_key_is_for_a_key_on_the_floor_where_the_seat_lifts_it(said: Any) -> None:
    assert "on the floor; this seat lifts it" in row(said(SHOP, *MOON), "over key")
    whole = (*MOON[:3], "--cutter-diameter", "0.75 in", "--cutter-width", "0.1869 in")
    assert "on the floor" not in row(said(SHOP, *whole), "over key")
