"""Three shafts set up on the machine of a shop file, each figure worked by hand beside it.

The arithmetic is the trade's (US Army TC 9-524, ch. 8, for the touches; geometry for the rest); the
depths are the standards' own: ASME B17.2 in Shigley, table 7-7, and ASME B17.1. The shops are
invented.
"""

from __future__ import annotations

import json
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from keyseats.__main__ import main

LATHE = """
deepest_pass = "0.010 in"
paper_thickness = "0.0021 in"
gauge_blocks = "inch-81"
{lies}

[[slide]]
name = "carriage"
direction = "along the spindle"

[[slide]]
name = "cross slide"
direction = "across the spindle"
turn = "0.0625 in"
divisions = 125
reads = "diameter"

[[slide]]
name = "vertical"
direction = "up and down"
turn = "0.0625 in"
divisions = 62.5

[[cutter]]
name = "608, reground"
kind = "half-moon"
diameter = "0.985 in"
width = "0.1868 in"
neck = "0.30 in"

[[cutter]]
name = "slotting"
kind = "disc"
diameter = "2.244 in"
width = "0.1880 in"
collar = "1.1 in"

[[cutter]]
name = "3/16 end mill"
kind = "end mill"
diameter = "0.1870 in"
"""

MILL = """
spindle = "mill"
deepest_pass = "0.4 mm"
paper_thickness = "0.05 mm"
tip = "4 mm"
tip_length = "8 mm"
material = "medium-carbon"

[[slide]]
name = "knee"
direction = "up and down"
turn = "2 mm"
divisions = 100

[[slide]]
name = "cross"
direction = "across the table"
turn = "2.5 mm"
divisions = 125
can_be_zeroed = false

[[cutter]]
name = "6 mm, worn"
kind = "end mill"
diameter = "5.97 mm"
"""


def set_up(
    shop: str, tmp_path: Path, capsys: pytest.CaptureFixture[str], *words: str
) -> dict[str, Any]:
    path = tmp_path / "shop.toml"
    path.write_text(shop, encoding="utf-8")
    assert main(["shaft", *words, "--shop", str(path), "--json"]) == 0
    seats: list[dict[str, Any]] = json.loads(capsys.readouterr().out)["seats"]
    return seats[0]


def test_a_reground_608_in_an_undersize_shaft(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ("1 in", "--measured", "0.9962 in", "--key", "608")
    seat = set_up(LATHE.format(lies=""), tmp_path, capsys, *words)
    done = seat["set_up"]
    assert done["cutter"] == "608, reground"
    # 0.9962/2 + 0.1868/2 + 0.0021, on a slide without a dial.
    assert done["centre"]["travel"]["text"] == "0.5936"
    assert done["centre"]["slide"] == "carriage"
    assert done["centre"]["turns"] is None
    assert len(done["centre"]["instead"]) == 4
    assert [b["value"] for b in seat["blocks"]] == [0.45, 0.144]
    # 0.985/2 + 0.0021.
    assert done["along"]["add_from_end"]["text"] == "0.4946"
    # Arc height 0.4981 - sqrt(0.4981**2 - 0.0934**2) = 0.008835; 0.3393 + 0.008835 + 0.0021 and
    # 0.005 more.
    assert seat["arc_height"]["text"] == "0.0088"
    assert done["feed"]["limits"]["least"]["text"] == "0.3503"
    assert done["feed"]["limits"]["most"]["text"] == "0.3552"
    # Five turns are 0.3125; 0.350235 is 37.7 divisions more, 0.355235 is 42.7.
    assert done["feed"]["on_dial"] == [
        {"turns": 5, "divisions": 38.0},
        {"turns": 5, "divisions": 42.0},
    ]
    assert seat["passes"][-1]["reading"]["text"] == "0.3505"
    # 12 x 80 / (pi x 0.985) = 310.2, 12 x 90 / (pi x 0.985) = 349.0.
    assert (done["speed"]["least_rpm"], done["speed"]["most_rpm"]) == (311, 349)
    codes = {w["code"] for w in seat["warnings"]}
    assert {"cutter-ground-under-key", "neck-rubs"} <= codes


def test_a_plain_seat_fed_by_a_slide_that_reads_diameter(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ("3/4 in", "--measured", "0.7485 in", "--key", "3/16 x 3/16")
    seat = set_up(LATHE.format(lies='shaft_lies = "upright"'), tmp_path, capsys, *words)
    done = seat["set_up"]
    assert done["cutter"] == "slotting"
    # 0.7485/2 + 0.1880/2 + 0.0021.
    assert done["centre"]["travel"]["text"] == "0.4704"
    assert done["centre"]["slide"] == "carriage"
    assert done["feed"]["slide"] == "cross slide"
    # Depth at edge 0.1875/2 = 0.09375; arc height 0.37425 - sqrt(0.37425**2 - 0.094**2) =
    # 0.011997; with the paper 0.107847, and 0.015 more.
    assert done["feed"]["limits"]["least"]["text"] == "0.1079"
    assert done["feed"]["limits"]["most"]["text"] == "0.1228"
    # A turn is 0.0625 and a division 0.0005 of movement: 0.045347 is 90.7, 0.060347 is 120.7.
    assert done["feed"]["on_dial"] == [
        {"turns": 1, "divisions": 91.0},
        {"turns": 1, "divisions": 120.0},
    ]
    readings = [p["reading"]["value"] for p in seat["passes"]]
    assert readings[0] == 0.01
    assert max(b - a for a, b in pairwise(readings)) <= 0.01 + 1e-12
    assert seat["passes"][0]["divisions"] == 20.0
    # sqrt(2.244 dc - dc**2) at dc 0.105747.
    assert seat["ramp"]["value"] == pytest.approx((2.244 * 0.105747 - 0.105747**2) ** 0.5, abs=1e-5)


def test_an_end_mill_under_a_mill_spindle(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ("22 mm", "--measured", "21.96 mm", "--key", "6 x 6")
    seat = set_up(MILL, tmp_path, capsys, *words)
    done = seat["set_up"]
    assert done["cutter"] == "6 mm, worn"
    # 21.96/2 + 5.97/2 + 0.05, across the table; 5 turns of 2.5 are 12.5, 1.515 is 75.75 divisions.
    assert done["centre"]["travel"]["value"] == pytest.approx(14.015)
    assert done["centre"]["slide"] == "cross"
    assert done["centre"]["turns"] == 5
    assert done["centre"]["divisions"] == pytest.approx(75.75)
    # 21.96/2 + 4/2, no paper with an edge finder.
    assert done["edge_finder"]["travel"]["text"] == "12.98"
    # t1 = 3.5 +0.1 from the crown (ISO/R 773), and the paper.
    assert done["feed"]["slide"] == "knee"
    assert done["feed"]["limits"]["least"]["text"] == "3.55"
    assert done["feed"]["limits"]["most"]["text"] == "3.65"
    # 1.55 and 1.65 past the first turn, 0.02 a division.
    assert done["feed"]["on_dial"] == [
        {"turns": 1, "divisions": 78.0},
        {"turns": 1, "divisions": 82.0},
    ]
    codes = {w["code"] for w in seat["warnings"]}
    assert "tip-too-short" in codes or any("tip" in code for code in codes)


def test_what_is_typed_overrides_the_shop(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    typed = ("--cutter-width", "0.1870 in", "--paper-thickness", "0.003 in")
    seat = set_up(LATHE.format(lies=""), tmp_path, capsys, "1 in", "--key", "608", *typed)
    assert seat["set_up"]["cutter"] is None
    assert seat["centring"]["face_touch"]["value"] == pytest.approx(0.5 + 0.0935 + 0.003)


def test_without_a_shop_file_the_usual_is_said(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["shaft", "1 in", "--key", "608"]) == 0
    said = capsys.readouterr().out
    assert "on a usual dial" in said
    assert main(["shaft", "1 in", "--key", "608", "--material", "brss"]) == 2
    assert "did you mean brass" in capsys.readouterr().err
