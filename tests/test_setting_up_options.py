"""The setting-up options of ``keyseats shaft``: read, converted, answered, or refused."""

from __future__ import annotations

import math
import os
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from asking import answer
from keyseats import clearance
from keyseats.__main__ import main
from keyseats.cli.shaft_command import converted
from keyseats.load import Tables
from keyseats.lookup import seats_for
from keyseats.reckoner.card import UPRIGHT, side
from keyseats.seat import Work


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("1 in", "--end-mill", "1/4 in", "--tip-length", "0.4 in"), "tip-short"),
        (("1 in", "--cutter-diameter", "2 in", "--collar", "1.2 in"), "face-touch-short"),
        (
            ("1 in", "--key", "608", "--holder-radius", "0.6 in", "--stand-off", "0.1 in"),
            "holder-hits",
        ),
        (("25 mm", "--end-mill", "8 mm"), "end-mill-wide"),
        (("25 mm", "--measured", "25.4 mm"), "top-clearance-gone-at-limits"),
    ],
)
def test_by_the_command(words: tuple[str, ...], code: str) -> None:
    assert code in [w["code"] for seat in answer(*words)["seats"] for w in seat["warnings"]]


def test_the_edge_finder_is_asked_for_by_its_tip() -> None:
    """Half the shaft and half the tip: common practice, no source."""
    found = answer("1 in", "--end-mill", "0.24 in", "--tip", "0.200 in")["seats"][0]
    assert found["centring"]["edge_finder"]["value"] == 0.6
    assert found["ramp"] is None
    assert found["stand_off_needed"] is None


def test_every_size_is_converted_for_keys_of_the_other_system() -> None:
    sizes = ("tip", "tip_length", "collar", "holder_radius", "stand_off", "neck", "cutter_diameter")
    work = replace(Work("mm", Fraction(25)), **{name: Fraction("25.4") for name in sizes})
    inches = converted(work, "in")
    assert {name: getattr(inches, name) for name in sizes} == dict.fromkeys(sizes, Fraction(1))
    assert converted(inches, "mm") == work


@pytest.mark.parametrize(
    ("words", "option"),
    [
        (["--tip", "1 in"], "--tip"),
        (["--neck", "1 in", "--cutter-diameter", "1 in"], "--neck"),
        (["--collar", "2.5 in", "--cutter-diameter", "2.5 in"], "--collar"),
        (["--cutter-width", "0.5 in", "--cutter-diameter", "0.5 in"], "--cutter-width"),
        (["--paper-thickness", "0.1 in"], "--paper-thickness"),
        (["--tip-length", "12 in"], "--tip-length"),
        (["--holder-radius", "305 mm"], "--holder-radius"),
        (["--stand-off", "1 m"], "--stand-off"),
        (["--stand-off", "1"], "--stand-off"),
        (["--holder-radius", "0.19 in", "--neck", "0.4 in"], "--holder-radius"),
        # The key's own diameter, 1 in, is the cutter's where none was typed.
        (["--key", "608", "--neck", "1 in"], "--neck"),
        (["--neck", "1 in"], "--neck"),
        (["--key", "608", "--collar", "25.4 mm"], "--collar"),
        (["--key", "608", "--cutter-diameter", "0.4999 in"], "--cutter-diameter"),
        (["--key", "608", "--cutter-diameter", "2.0001 in"], "--cutter-diameter"),
        (["--key", "1/4 x 1/4", "--cutter-diameter", "0.25 in"], "--cutter-diameter"),
        # 1/8 at the edge and 0.5 - sqrt(0.25 - 0.035^2) = 0.0012 for a disc 0.07 wide: 0.1262.
        (
            ["--key", "1/4 x 1/4", "--cutter-width", "0.07 in", "--cutter-diameter", "0.126 in"],
            "--cutter-diameter",
        ),
        (["--key", "608", "--cutter-width", "0.0468 in"], "--cutter-width"),
        (["--key", "608", "--cutter-width", "0.3751 in"], "--cutter-width"),
        (["--cutter-width", "0.1869 mm"], "--cutter-width"),
        (["--end-mill", "0.0249 in"], "--end-mill"),
        (["--end-mill", "0.5001 in"], "--end-mill"),
        (["--key", "608", "--end-mill", "3/16 in"], "--end-mill"),
        (["--key", "608", "--fit", "class 1"], "--fit"),
        (
            ["--key", "1/4 x 1/4", "--family", "metric plain", "--standard", "ISO/R 773"],
            "--standard",
        ),
    ],
)
def test_absurd_sizes_are_refused_in_one_line(
    words: list[str], option: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["shaft", "1 in", *words]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith(f"keyseats: {option}: ")
    assert err.count("\n") == 1


@pytest.mark.parametrize(
    "words",
    [
        ["--neck", "0.999 in", "--cutter-diameter", "1 in"],
        ["--holder-radius", "0.2 in", "--neck", "0.4 in"],
        ["--tip", "0.999 in"],
        ["--key", "608", "--neck", "0.9999 in"],
        ["--key", "608", "--cutter-diameter", "0.5 in"],
        ["--key", "608", "--cutter-diameter", "2 in"],
        ["--key", "1/4 x 1/4", "--cutter-diameter", "0.2501 in"],
        ["--key", "608", "--cutter-width", "0.0469 in"],
        ["--key", "608", "--cutter-width", "0.375 in"],
        ["--end-mill", "0.025 in"],
        ["--end-mill", "0.5 in"],
        ["--fit", "class 1"],
        ["--key", "608", "--fit", "standard"],
        ["--key", "1/4 x 1/4", "--fit", "class 2"],
    ],
    ids=" ".join,
)
def test_sizes_just_within_reason_are_taken(words: list[str]) -> None:
    assert main(["shaft", "1 in", *words, "--json"]) == 0


@pytest.mark.parametrize(
    "words",
    [
        ["--end-mill", "0.25 in", "--cutter-width", "0.25 in"],
        ["--json", "--pdf", "seat.pdf"],
        ["--json", "--card", "card.pdf"],
        ["--pdf", "seat.pdf", "--card", "./seat.pdf"],
    ],
    ids=" ".join,
)
def test_two_that_do_not_go_together_write_nothing(
    words: list[str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["shaft", "1 in", *words]) == 2
    out, err = capsys.readouterr()
    assert (out, err.count("\n")) == ("", 1)
    assert words[0] in err
    assert list(tmp_path.iterdir()) == []


def test_one_file_by_two_names_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "a.pdf").write_bytes(b"%PDF-1.7\n")
    (tmp_path / "b.pdf").hardlink_to(tmp_path / "a.pdf")
    words = ["--pdf", str(tmp_path / "a.pdf"), "--card", str(tmp_path / "b.pdf")]
    assert main(["shaft", "1 in", *words]) == 2
    assert "write over the other" in capsys.readouterr().err
    assert (tmp_path / "a.pdf").read_bytes() == b"%PDF-1.7\n"


@pytest.mark.parametrize("option", ["--pdf", "--card"])
@pytest.mark.parametrize("data", [b"[[cutter]]\n", b"", b"%PD", b" %PDF"])
def test_no_file_is_written_over_that_is_not_a_page(
    option: str, data: bytes, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "shop.toml"
    path.write_bytes(data)
    for more in ([], ["--card" if option == "--pdf" else "--pdf", str(tmp_path / "other.pdf")]):
        assert main(["shaft", "1 in", option, str(path), *more]) == 1
        out, err = capsys.readouterr()
        assert (out, err.count("\n")) == ("", 1)
        assert f"{path} is there already" in err
        assert path.read_bytes() == data
        assert [p.name for p in tmp_path.iterdir()] == ["shop.toml"]


def test_a_page_is_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "seat.pdf"
    path.write_bytes(b"%PDF")
    assert main(["shaft", "1 in", "--key", "608", "--pdf", str(path)]) == 0
    assert path.stat().st_size > 1000
    assert "1 page" in capsys.readouterr().out


def test_a_pipe_is_not_written_to(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    os.mkfifo(tmp_path / "pipe")
    assert main(["shaft", "1 in", "--pdf", str(tmp_path / "pipe")]) == 1
    assert "is there already" in capsys.readouterr().err


def test_a_shaft_without_a_first_choice_has_no_page(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for option in ("--pdf", "--card"):
        assert main(["shaft", "5/16 in", option, str(tmp_path / "seat.pdf")]) == 2
        assert "give one: 202" in capsys.readouterr().err


@pytest.mark.parametrize("size", list(UPRIGHT.values()))
@pytest.mark.parametrize(
    ("work", "family", "stops"),
    [
        (Work("in", Fraction(1)), "inch half-moon", False),
        (Work("in", Fraction(1), neck=Fraction("0.45")), "inch half-moon", True),
        (Work("in", Fraction(1), cutter_width=Fraction("0.2521")), "inch plain", True),
        (Work("in", Fraction(1), cutter_width=Fraction("0.2499")), "inch plain", False),
        (Work("mm", Fraction(14), neck=Fraction(15)), "metric half-moon", True),
        (Work("mm", Fraction(25), end_mill=Fraction(8)), "metric plain", True),
    ],
)
def test_a_card_says_stop_where_the_shaft_sheet_does(
    tables: Tables, work: Work, family: str, stops: bool, size: str
) -> None:
    seat = seats_for(tables, work, (family,))[0]
    made = side(tables, seat, size, "front", "this", "Ready reckoner.")
    words = " ".join(word for block in made.composer.blocks for word in block.words())
    assert ("Stop: see the shaft sheet." in words) is stops


# R 0.4984, W 0.1869, r 0.45: the lowest line of a holder whose axis is level with the crown is
# 0.0484 over the centre line, so it stands off sqrt(0.4984^2 - 0.0484^2) - W/2. Geometry.
@pytest.mark.parametrize(("stand_off", "hits"), [("0.4025", True), ("0.4026", False)])
def test_a_holder_larger_than_its_cutter_at_the_end_face(stand_off: str, hits: bool) -> None:
    words = ("0.9968 in", "--key", "606", "--cutter-diameter", "0.752 in", "--cutter-width")
    more = ("0.1869 in", "--holder-radius", "0.45 in", "--stand-off", f"{stand_off} in")
    seat = answer(*words, *more)["seats"][0]
    needs = math.sqrt(0.4984**2 - 0.0484**2) - 0.1869 / 2
    assert seat["stand_off_needed"]["value"] == pytest.approx(needs, abs=1e-12)
    assert seat["stand_off_needed"]["text"] == "0.4026"
    said = [w["says"] for w in seat["warnings"] if w["code"] == "holder-hits"]
    assert len(said) == int(hits)
    assert all("touches an end face" in s and "0.4026 off" in s for s in said)


@pytest.mark.parametrize(("radius", "least"), [("0.3", "0.5"), ("0.5", "0.5"), ("0.51", "0.51")])
def test_the_larger_of_cutter_and_holder_keeps_off_a_shoulder(radius: str, least: str) -> None:
    assert clearance.least_from_shoulder(Fraction(1), Fraction(radius)) == Fraction(least)
    assert clearance.least_from_shoulder(Fraction(1), None) == Fraction(1, 2)


@pytest.mark.parametrize(("radius", "needs"), [("0.5", False), ("0.5001", True)])
def test_a_holder_no_larger_than_its_cutter_never_comes_first(radius: str, needs: bool) -> None:
    found = clearance.stand_off_at_end_face(
        Fraction(1), Fraction(3, 16), Fraction(1), Fraction(radius)
    )
    assert (found > 0) is needs
