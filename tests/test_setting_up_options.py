"""The setting-up options of ``keyseats shaft``: read, converted, answered, or refused."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from asking import answer
from keyseats.__main__ import main
from keyseats.cli.shaft_command import converted
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
    ],
)
def test_sizes_just_within_reason_are_taken(words: list[str]) -> None:
    assert main(["shaft", "1 in", *words, "--json"]) == 0
