"""Which owned cutter is taken: by its name, by its size, or as the one that suits a key best."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from keyseats.__main__ import main
from keyseats.lengths import parse
from keyseats.load import Tables
from keyseats.lookup import seats_for
from keyseats.owned import cut_by_owned
from keyseats.seat import Seat, Work
from keyseats.shop import Cutter, Shop
from keyseats.shop_set import best, shop_document

SEVEN_EIGHTHS = Work("in", Fraction(7, 8))
SHOP = """
[[cutter]]
name = "608, reground"
kind = "half-moon"
diameter = "0.985 in"
width = "0.1868 in"

[[cutter]]
name = "slotting"
kind = "disc"
diameter = "2.244 in"
width = "0.1880 in"
collar = "1.1 in"
stand_off = "0.25 in"

[[cutter]]
name = "slotting, wide"
kind = "disc"
diameter = "2.5 in"
width = "0.2490 in"

[[cutter]]
name = "3/16 end mill"
kind = "end mill"
diameter = "0.1869 in"

[[cutter]]
name = "404"
kind = "half-moon"
diameter = "0.5 in"
width = "0.1248 in"
"""


def disc(width: str, name: str = "disc") -> Cutter:
    return Cutter(name, "disc", "in", Fraction("2.5"), Fraction(width))


def mill(diameter: str, name: str = "mill") -> Cutter:
    return Cutter(name, "end mill", "in", Fraction(diameter))


def plain(tables: Tables, *cutters: Cutter) -> Seat:
    return seats_for(tables, SEVEN_EIGHTHS, ("inch plain",), "3/16 x 3/16", cutters)[0]


# Class 1 seat width, 3/16 +0.002 -0.000: ASME B17.1, Machinery's Handbook, 31st ed. A disc may be
# 3 % off its key's width, 0.181875 to 0.193125, and be meant for it: our choice.
@pytest.mark.parametrize(
    ("cutters", "taken"),
    [
        ((mill("0.1875"), disc("0.1875")), "disc"),
        ((mill("0.1875"), disc("0.1895")), "disc"),
        ((mill("0.1874"), disc("0.1874")), "disc"),
        ((mill("0.1874"), disc("0.181875")), "disc"),
        ((mill("0.1874"), disc("0.1818")), "mill"),
        ((mill("0.1875"), disc("0.1874")), "mill"),
        ((mill("0.1600"), disc("0.1896")), "mill"),
        ((disc("0.1896"), disc("0.1874", "narrow")), "narrow"),
        ((mill("0.1895"), mill("0.1870", "under")), "under"),
        ((mill("0.1406"),), ""),
        ((mill("0.1407"),), "mill"),
        ((mill("0.1896"),), ""),
    ],
    ids=lambda v: v if isinstance(v, str) else " ".join(f"{c.kind}" for c in v),
)
def test_a_disc_comes_before_a_mill_where_both_cut_the_seat(
    tables: Tables, cutters: tuple[Cutter, ...], taken: str
) -> None:
    seat = plain(tables, *cutters)
    assert seat.work.cutter_name == taken
    assert ("no-cutter-owned" in [w.code for w in seat.warnings]) is (taken == "")


def test_a_shop_without_cutters_is_told_nothing(tables: Tables) -> None:
    assert plain(tables).warnings == ()
    text = next(w.says for w in plain(tables, disc("0.5")).warnings)
    assert "no cutter of the shop file cuts this" in text
    assert "0.1875 to 0.1895" in text


def answer(
    words: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> list[dict[str, Any]]:
    path = tmp_path / "shop.toml"
    path.write_text(SHOP, encoding="utf-8")
    assert main(["shaft", *words, "--shop", str(path), "--json"]) == 0
    seats: list[dict[str, Any]] = json.loads(capsys.readouterr().out)["seats"]
    return seats


@pytest.mark.parametrize(
    ("words", "name"),
    [
        (["--cutter", "3/16 end mill"], "3/16 end mill"),
        (["--cutter", "3/16 END"], "3/16 end mill"),
        (["--cutter", "slotting"], "slotting"),
        (["--cutter", "slotting, w"], "slotting, wide"),
        (["--cutter-width", "0.1880 in"], "slotting"),
        (["--cutter-width", "0.1880 in", "--cutter-diameter", "2.244 in"], "slotting"),
        (["--cutter-width", "0.1880 in", "--cutter-diameter", "2.243 in"], None),
        (["--cutter-width", "0.1881 in"], None),
        (["--cutter-width", "4.7752 mm"], "slotting"),
        (["--end-mill", "0.1869 in"], "3/16 end mill"),
        (["--end-mill", "0.1870 in"], None),
        ([], "slotting"),
    ],
    ids=str,
)
def test_the_cutter_taken(
    words: list[str], name: str | None, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    seat = answer(["7/8 in", "--key", "3/16 x 3/16", *words], tmp_path, capsys)[0]
    assert seat["set_up"]["cutter"] == name
    if name == "slotting":
        assert seat["cutter"]["diameter"]["value"] == 2.244
        assert seat["set_up"]["speed"] is not None


def test_a_cutter_of_another_kind_is_left_to_the_keys_that_it_cuts(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ["1 in", "--cutter", "3/16 end mill"]
    for seat in answer(words, tmp_path, capsys):
        half_moon = seat["key"]["diameter"] is not None
        assert (seat["set_up"]["cutter"] == "3/16 end mill") is (
            not half_moon and 0.09 < seat["key"]["width"]["value"] < 0.75
        )


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["1 in", "--cutter", "sloting, wide"], "did you mean slotting, wide"),
        (["1 in", "--cutter", "s"], "slotting"),
        (["1 in", "--key", "608", "--cutter", "slotting"], "nowhere near a seat for 608"),
        (["1-1/2 in", "--cutter", "404"], "it cuts --key '404'"),
        (["5 in", "--cutter", "slotting"], "take another cutter"),
        (["5/16 in", "--cutter", "slotting"], "give one: 202"),
        (["1 in", "--cutter", "608", "--cutter-width", "0.187 in"], "give one of the two"),
        (["1 in", "--cutter", "608", "--cutter-diameter", "0.98 in"], "give one of the two"),
        (["1 in", "--cutter", "608", "--end-mill", "0.187 in"], "give one of the two"),
    ],
    ids=lambda v: v if isinstance(v, str) else " ".join(v),
)
def test_a_name_that_will_not_do(
    words: list[str], says: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "shop.toml"
    path.write_text(SHOP, encoding="utf-8")
    assert main(["shaft", *words, "--shop", str(path)]) == 2
    out, err = capsys.readouterr()
    assert (out, err.count("\n")) == ("", 1)
    assert says in err


def test_a_name_without_a_shop_or_in_an_empty_one(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["shaft", "1 in", "--cutter", "608"]) == 2
    assert "give --shop FILE too" in capsys.readouterr().err
    path = tmp_path / "shop.toml"
    path.write_text("", encoding="utf-8")
    assert main(["shaft", "1 in", "--cutter", "608", "--shop", str(path)]) == 2
    assert "lists no cutters" in capsys.readouterr().err


def half_moon(key: str, diameter: str, width: str) -> Cutter:
    return Cutter(key, "half-moon", "in", Fraction(diameter), Fraction(width))


@pytest.mark.parametrize(
    ("cutters", "key"),
    [
        # No. 607 is the first choice for 7/8 in: common practice, no source.
        ((half_moon("607", "0.875", "0.187"), half_moon("606", "0.75", "0.187")), "607"),
        ((half_moon("606", "0.75", "0.187"), half_moon("404", "0.5", "0.1248")), "606"),
        # 0.1881 is over the most of 0.1880 (memory), so the 607 cannot be cut by it.
        ((half_moon("607", "0.875", "0.1881"), half_moon("606", "0.75", "0.187")), "606"),
        ((half_moon("1212", "1.5", "0.374"),), "607"),
        ((), "607"),
    ],
)
def test_a_shop_makes_the_best_key_that_it_has_a_cutter_for(
    tables: Tables, cutters: tuple[Cutter, ...], key: str
) -> None:
    found = best(seats_for(tables, SEVEN_EIGHTHS, ("inch half-moon",), cutters=cutters))
    assert found is not None
    assert found.key.designation == key
    warned = "no-cutter-owned" in [w.code for w in found.warnings]
    assert warned is (bool(cutters) and not cut_by_owned(found))


def test_the_shops_own_sheets_are_for_those_keys(tables: Tables) -> None:
    shop = Shop(
        cutters=(half_moon("606", "0.75", "0.187"), disc("0.1880")),
        shafts=(parse("7/8 in"),),
    )
    pages = shop_document(tables, shop).pages
    said = [" ".join(page.words()) for page in pages]
    assert len(said) == 2
    assert any("606" in text for text in said)
    assert not any("607" in text or "no cutter of the shop file" in text for text in said)
