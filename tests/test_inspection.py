"""A cut seat judged: against print, on each limit and just outside it, and in words."""

from __future__ import annotations

import json
import math
import re
from fractions import Fraction
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from keyseats.__main__ import main
from keyseats.inspection import hub_clearance, inspect, measures
from keyseats.inspection_report import says
from keyseats.load import Tables
from keyseats.lookup import seats_for
from keyseats.seat import Seat, Work
from published.reading import exact, rows

SCHEMA = json.loads(
    (Path(__file__).resolve().parents[1] / "docs" / "inspect.schema.json").read_text(
        encoding="utf-8"
    )
)
CODES = {"inside": 0, "shallow": 1, "deep": 1, "undecided": 1}


def asked(words: list[str], capsys: pytest.CaptureFixture[str]) -> dict[str, Any]:
    """Return the JSON answer, its shape and its exit code proved on the way."""
    code = main(["inspect", *words, "--json"])
    out, err = capsys.readouterr()
    assert err == ""
    found: dict[str, Any] = json.loads(out)
    jsonschema.validate(found, SCHEMA)
    assert code == CODES[found["verdict"]]
    return found


def printed(words: list[str], capsys: pytest.CaptureFixture[str]) -> str:
    main(["inspect", *words])
    return " ".join(capsys.readouterr().out.split())


def named(value: str | list[str]) -> str:
    return value if isinstance(value, str) else " ".join(value)


def seat_of(tables: Tables, work: Work, family: str, key: str) -> Seat:
    return seats_for(tables, work, (family,), key)[0]


ONE_INCH = Work("in", Fraction(1))
SHAFT_608 = ["1 in", "--key", "608"]
# No. 608: depth at edge 0.3393, Shigley, table 7-7, and textbook, table 11-3; +0.005 from memory.
# Arc height in a 1 in shaft by hand: 0.5 - sqrt(0.25 - 0.09375^2) = 0.00887; key 0.433 to 0.438,
# Machinery's Handbook, table 8.
# 22 mm shaft: 6 x 6, t1 3.5, d - t1 18.5, Ganter catalogue p. 2078; +0.1 as ISO/R 773 tables it.
ON_LIMITS = [
    (SHAFT_608, "--at-edge", "0.3393 in", "0.3443 in"),
    (SHAFT_608, "--from-crown", "0.3482 in", "0.3531 in"),
    (SHAFT_608, "--opposite-side", "0.6518 in", "0.6469 in"),
    ([*SHAFT_608, "--key-height", "0.438 in"], "--over-key", "1.0898 in", "1.0849 in"),
    (["22 mm", "--key", "6 x 6"], "--from-crown", "3.5 mm", "3.6 mm"),
    (["22 mm", "--key", "6 x 6"], "--opposite-side", "18.5 mm", "18.4 mm"),
    (["22 mm", "--key", "6 x 6", "--key-height", "6 mm"], "--over-key", "24.5 mm", "24.4 mm"),
]


@pytest.mark.parametrize(("words", "option", "shallowest", "deepest"), ON_LIMITS)
def test_on_a_limit_is_inside_and_a_little_outside_is_not(
    words: list[str],
    option: str,
    shallowest: str,
    deepest: str,
    capsys: pytest.CaptureFixture[str],
) -> None:
    step = Fraction("0.0001")
    deeper = 1 if option in ("--at-edge", "--from-crown") else -1
    for on, way, verdict in ((shallowest, -deeper, "shallow"), (deepest, deeper, "deep")):
        found = asked([*words, option, on], capsys)
        assert (found["verdict"], found["by"]["value"]) == ("inside", 0)
        value, unit = on.split()
        off = asked([*words, option, f"{float(Fraction(value) + way * step):.4f} {unit}"], capsys)
        assert off["verdict"] == verdict
        assert 0 < off["by"]["value"] <= 0.0001 + 1e-12
        assert off["by"]["text"] == ("0.0001" if unit == "in" else "0.01")


FLOORS = [
    pytest.param(row, section, id=f"{section} {row['shaft']} [{row['source'][:60]}]")
    for row in rows("inch_plain_floors.csv")
    for section in ("square", "rectangular")
    if row[f"S_{section}"]
]


@pytest.mark.parametrize(("row", "section"), FLOORS)
def test_printed_floors_to_opposite_side(tables: Tables, row: dict[str, str], section: str) -> None:
    """S of ASME B17.1, +0.000/-0.015: both ends are inside, the next thousandth is not."""
    floor = exact(row[f"S_{section}"])
    for seat in seats_for(tables, Work("in", exact(row["shaft"])), ("inch plain",)):
        if seat.key.nominal_height is None or (
            seat.key.nominal_height.value != exact(row[f"height_{section}"])
        ):
            continue
        for off, verdict in (("0", "inside"), ("-0.015", "inside"), ("0.001", "shallow")):
            assert inspect(seat, "opposite-side", floor + Fraction(off)).verdict == verdict
        deep = inspect(seat, "opposite-side", floor - Fraction("0.016"))
        assert deep.verdict == "deep"
        assert Fraction("0.0005") <= deep.by.value <= Fraction("0.0015")
        return
    raise AssertionError("no such key")


def test_a_floor_that_only_the_standards_rounding_lets_in_says_so(tables: Tables) -> None:
    """S for 1/2 in is printed 0.430; (1/2 - 1/8 + sqrt(1/4 - 1/64))/2 is 0.42956."""
    seat = seat_of(tables, Work("in", Fraction(1, 2)), "inch plain", "1/8 x 1/8")
    found = inspect(seat, "opposite-side", Fraction("0.430"))
    assert found.verdict == "inside"
    assert any("prints 0.430" in told and "0.4296" in told for told in says(found))
    plain = inspect(seat, "opposite-side", Fraction("0.429"))
    assert plain.verdict == "inside"
    assert not any("prints" in told for told in says(plain))


def test_fed_to_the_keys_own_height(capsys: pytest.CaptureFixture[str]) -> None:
    """No. 608 fed 0.438: 0.438 - 0.3393 - 0.005 - 0.00887 is 0.0849 too deep, from print."""
    words = [*SHAFT_608, "--from-crown", "0.438 in"]
    found = asked(words, capsys)
    arc = 0.5 - math.sqrt(0.25 - 0.09375**2)
    assert found["verdict"] == "deep"
    assert found["by"]["value"] == pytest.approx(0.438 - 0.3443 - arc, abs=1e-9)
    assert found["by"]["text"] == "0.0849"
    assert found["depth_from_crown"]["text"] == "0.4380"
    assert found["key_above_edge"]["most"]["value"] == pytest.approx(arc, abs=1e-9)
    assert found["key_above_edge"]["least"]["value"] == pytest.approx(arc - 0.005, abs=1e-9)
    for told in (
        "the key's height was fed",
        "drive on as good as nothing",
        "0.0000 to 0.0050 below the crown",
        "a neck over 0.1417 has rubbed",
        "cannot be put back",
        "0.5179 to 0.5278 high",
    ):
        assert told in found["says"]
    assert "DEEP by 0.0849" in printed(words, capsys)
    assert "shim under the key is nothing to count on" in found["says"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--from-crown", "0.3400 in"], "the depth at edge was fed"),
        (["--from-crown", "0.3400 in"], "Feed 0.0082 to 0.0131 more"),
        (["--from-crown", "0.3400 in"], "give --at-edge"),
        (["--from-crown", "0.65 in"], "give --opposite-side"),
        (["--opposite-side", "0.345 in"], "give --at-edge"),
        (["--from-crown", "0.008 in"], "not yet cut its full width"),
        (["--from-crown", "0.175 in"], "half the depth"),
        (["--from-crown", "0.7 in"], "twice the depth"),
        (["--from-crown", "0.35 in"], "A dial shows what was fed"),
        (["--at-edge", "0.34 in"], "Deburring moves the edge down"),
        (["--opposite-side", "0.65 in"], "give --measured"),
        (["--opposite-side", "0.65 in"], "at mid-length, with a ball anvil"),
        (
            ["--over-key", "1.1 in", "--cutter-diameter", "1 in"],
            "Feed 0.0102 more, which cannot be too much",
        ),
        (["--over-key", "1.1 in"], "Feed nothing before the cutter is measured"),
        (["--at-edge", "0.34 in", "--key-height", "0.44 in"], "outside its own limits"),
        (["--at-edge", "0.34 in", "--cutter-width", "0.2 in"], "Caution: a cutter 0.2000 wide"),
        (["--at-edge", "0.345 in"], "a key picked or made to measure, 0.4337 to 0.4437 high"),
        (["--at-edge", "0.35 in"], "a higher key made to measure, 0.4387 to 0.4487 high"),
        (["--from-crown", "0.35 in"], "The hub passes"),
        (["--from-crown", "0.345 in"], "The hub may not pass"),
        (["--from-crown", "0.2 in"], "The hub will not pass"),
    ],
    ids=named,
)
def test_what_it_says(words: list[str], told: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert told in asked([*SHAFT_608, *words], capsys)["says"]
    assert told in printed([*SHAFT_608, *words], capsys)


@pytest.mark.parametrize(
    ("words", "untold"),
    [
        (["--from-crown", "0.35 in"], "Deburring"),
        (["--from-crown", "0.35 in"], "Feed"),
        (["--from-crown", "0.35 in"], "shim"),
        (["--at-edge", "0.34 in"], "dial"),
        (["--opposite-side", "0.65 in", "--measured", "1 in"], "give --measured"),
        (["--from-crown", "0.36 in"], "as good as nothing"),
        (["--from-crown", "0.36 in"], "give --at-edge"),
        (["--at-edge", "0.34 in", "--key-height", "0.438 in"], "outside its own limits"),
    ],
    ids=named,
)
def test_what_it_does_not_say(
    words: list[str], untold: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert untold not in asked([*SHAFT_608, *words], capsys)["says"]


def test_over_key_without_the_keys_height(capsys: pytest.CaptureFixture[str]) -> None:
    """With 0.433 to 0.438 of key, 1.0850 over key is a floor 0.348 to 0.353 from the crown."""
    words = [*SHAFT_608, "--over-key", "1.0850 in"]
    found = asked(words, capsys)
    assert found["verdict"] == "undecided"
    assert found["by"]["value"] == 0
    depth = found["depth_from_crown"]
    assert (depth["least"]["text"], depth["most"]["text"]) == ("0.3480", "0.3530")
    above = found["key_above_edge"]
    assert above["least"] == above["most"]
    assert "right or too shallow" in found["says"]
    heights = re.search(r"right if this key is ([0-9.]+) to ([0-9.]+) high", found["says"])
    assert heights is not None
    for height in heights.groups():
        measured = asked([*words, "--key-height", f"{height} in"], capsys)
        assert measured["verdict"] == "inside"
    assert asked([*words, "--key-height", "0.4331 in"], capsys)["verdict"] == "shallow"


def test_over_key_alone_judges_a_seat_that_may_vary_more_than_its_key(tables: Tables) -> None:
    """7/8 in: S 0.771 -0.015, key 0.1875 -0.002 (ASME B17.1): decided but near the ends."""
    seat = seat_of(tables, Work("in", Fraction(7, 8)), "inch plain", "3/16 x 3/16")
    for measured, verdict, told in (
        ("0.9587", "shallow", "Shallow by"),
        ("0.9580", "undecided", "right or too shallow"),
        ("0.9560", "inside", "right whatever the key's height"),
        ("0.9440", "inside", "right whatever the key's height"),
        ("0.9430", "undecided", "right or too deep"),
        ("0.9414", "deep", "Deep by"),
    ):
        found = inspect(seat, "over-key", Fraction(measured))
        assert found.verdict == verdict
        assert any(told in sentence for sentence in says(found))


def test_over_key_may_be_wrong_either_way(tables: Tables) -> None:
    """2 x 3.7 x 10 half-moon: a key that may vary more than its seat, in the middle of both."""
    seat = seat_of(tables, Work("mm", Fraction(7)), "metric half-moon", "2 x 3.7 x 10")
    middle = (seat.over_key.least.value + seat.over_key.most.value) / 2
    found = inspect(seat, "over-key", middle)
    assert found.verdict == "undecided"
    assert any("right or too shallow or too deep" in told for told in says(found))


def test_hub_and_key_by_coordinates(tables: Tables) -> None:
    """Shaft and bore both rest on height zero; the key's side meets each circle where it does."""
    shaft, bore, deep, high, wide = 0.9985, 1.0005, 0.3550, 0.4360, 0.1875
    work = Work(
        "in",
        Fraction(1),
        measured=Fraction("0.9985"),
        bore=Fraction("1.0005"),
        key_height=Fraction("0.4360"),
        cutter_width=Fraction("0.1875"),
    )
    found = inspect(
        seat_of(tables, work, "inch half-moon", "608"), "from-crown", Fraction("0.3550")
    )
    top = shaft - deep + high
    shaft_edge = shaft / 2 + math.sqrt((shaft / 2) ** 2 - (wide / 2) ** 2)
    bore_edge = bore / 2 + math.sqrt((bore / 2) ** 2 - (wide / 2) ** 2)
    for span, value in (
        (found.key_above_edge, top - shaft_edge),
        (found.key_above_crown, top - shaft),
        (found.key_in_hub, top - bore_edge),
    ):
        assert float(span.least.value) == pytest.approx(value, abs=1e-12)
        assert float(span.most.value) == pytest.approx(value, abs=1e-12)
    # Shigley, table 7-7: hub depth 0.0997 from the keyway's edge; +0.005 is from memory.
    clear = bore_edge + 0.0997 - top
    assert float(found.hub_clearance.least.value) == pytest.approx(clear, abs=1e-12)
    assert float(found.hub_clearance.most.value) == pytest.approx(clear + 0.005, abs=1e-12)


def test_a_looser_bore_takes_from_what_drives(tables: Tables) -> None:
    def side(bore: str) -> Fraction:
        work = Work("in", Fraction(1), bore=Fraction(bore))
        seat = seat_of(tables, work, "inch half-moon", "608")
        return inspect(seat, "from-crown", Fraction("0.35")).key_in_hub.most.value

    assert side("1.002") < side("1.000")
    assert float(side("1.000") - side("1.002")) == pytest.approx(0.002, abs=0.0001)


def test_least_hub_clearance_is_what_print_leaves(tables: Tables) -> None:
    """Shigley, table 7-7, No. 608: 0.3393 + 0.0997 - 0.438 is 0.001, shaft and bore alike."""
    found = hub_clearance(seat_of(tables, ONE_INCH, "inch half-moon", "608"))
    assert float(found.least.value) == pytest.approx(0.001, abs=1e-12)
    assert found.least.text == "0.0010"
    # At the other end both tolerances of 0.005 and the key's own 0.005 are in it.
    assert float(found.most.value) == pytest.approx(0.016, abs=1e-12)


def test_plain_inch_hub_clearance_is_from_the_hub_as_printed(tables: Tables) -> None:
    """5/8 in, Industrial Press, Shop Reference, table 1: T 0.709, that is 0.7093 in full.

    S 0.517 is 0.5168 in full; under a key of 0.1875 that is 0.7043, and T is 0.0047 over it.
    """
    seat = seat_of(tables, Work("in", Fraction(5, 8)), "inch plain", "3/16 x 3/16")
    assert seat.hub_floor_to_opposite_side.least.text == "0.709"
    assert seat.over_key.most.text == "0.7043"
    assert hub_clearance(seat).least.text == "0.0047"


def test_metric_hub_clearance(tables: Tables) -> None:
    """22 mm, Ganter p. 2078: 24.8 in the hub, 18.5 in the shaft, a 6 mm key: 0.3 is left."""
    seat = seat_of(tables, Work("mm", Fraction(22)), "metric plain", "6 x 6")
    assert hub_clearance(seat).least.value == Fraction("0.3")


def test_what_to_measure_with_what(tables: Tables) -> None:
    half_moon = measures(seat_of(tables, ONE_INCH, "inch half-moon", "608"))
    names = ["floor to opposite side", "depth from crown", "depth at edge", "over key"]
    assert [m.name for m in half_moon] == names
    assert [m.limits.least.text for m in half_moon] == ["0.6469", "0.3482", "0.3393", "1.0799"]
    assert "ball anvil, at mid-length" in half_moon[0].says
    assert "along the crown" in half_moon[1].says
    assert "before they are broken" in half_moon[2].says
    assert "cannot judge" in half_moon[3].says
    known = Work("in", Fraction(1), key_height=Fraction("0.438"))
    over = measures(seat_of(tables, known, "inch half-moon", "608"))[3]
    assert "cannot judge" not in over.says
    assert (over.limits.least.text, over.limits.most.text) == ("1.0849", "1.0898")
    plain = measures(seat_of(tables, Work("mm", Fraction(22)), "metric plain", "6 x 6"))
    assert [m.name for m in plain] == names
    assert not any("mid-length" in m.says for m in plain)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ([], "--from-crown --at-edge --opposite-side --over-key is required"),
        (["--from-crown", "0.35 in", "--at-edge", "0.34 in"], "not allowed with"),
        (["--from-crown", "0.35"], "--from-crown: 0.35 has no unit"),
        (["--from-crown", "1.0 in"], "--from-crown: 1.0000 in would put the floor right through"),
        (["--from-crown", "1.085 in"], "did you mean --over-key?"),
        (["--at-edge", "1.3 in"], "--at-edge: 1.3000 in would put"),
        (["--at-edge", "0.9912 in"], "--at-edge: 0.9912 in would put"),
        (["--opposite-side", "1.0 in"], "--opposite-side: 1.0000 in is not under the shaft"),
        (["--opposite-side", "0.01 in"], "--opposite-side: 0.0100 in would put the floor 0.9900"),
        (["--over-key", "1.438 in"], "--over-key: 1.4380 in is not under the shaft, 1.0000 in, "),
        (["--over-key", "0.3 in"], "--over-key: 0.3000 in would put the floor"),
        (["--at-edge", "0.34 in", "--fit", "tight"], "--fit: no 'tight' here"),
        (["--at-edge", "0.34 in", "--key", "6080"], "--key: no key '6080'"),
        (["--at-edge", "0.34 in", "--cutter-width", "1.2 in"], "--cutter-width"),
    ],
    ids=named,
)
def test_refused_in_one_line(
    words: list[str], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    try:
        code = main(["inspect", *SHAFT_608, *words])
    except SystemExit as left:
        code = int(str(left.code))
    out, err = capsys.readouterr()
    assert (code, out, err.count("\n")) == (2, "", 1)
    assert told in err


def test_the_farthest_that_is_still_answered(capsys: pytest.CaptureFixture[str]) -> None:
    assert asked([*SHAFT_608, "--over-key", "1.4379 in"], capsys)["verdict"] == "shallow"
    assert asked([*SHAFT_608, "--opposite-side", "0.9999 in"], capsys)["verdict"] == "shallow"
    assert asked([*SHAFT_608, "--from-crown", "0.79 in"], capsys)["verdict"] == "deep"


def test_the_width_as_cut_sets_the_arc_height(capsys: pytest.CaptureFixture[str]) -> None:
    """No. 608 cut 0.25 wide: 0.3393 + 0.5 - sqrt(0.25 - 0.125^2) is 0.35518 from the crown."""
    words = [*SHAFT_608, "--cutter-width", "0.25 in", "--from-crown"]
    assert asked([*words, "0.3552 in"], capsys)["verdict"] == "inside"
    found = asked([*words, "0.3551 in"], capsys)
    assert found["verdict"] == "shallow"


def test_any_unit_and_the_other_system(capsys: pytest.CaptureFixture[str]) -> None:
    """8.9 mm is 0.3504 in; t1 of an 8 x 7 key is 4.0 to 4.2 (Ganter p. 2078; ISO/R 773)."""
    assert asked([*SHAFT_608, "--from-crown", "8.9 mm"], capsys)["verdict"] == "inside"
    words = ["1 in", "--family", "metric plain", "--key", "8 x 7", "--from-crown", "0.165 in"]
    found = asked(words, capsys)
    assert found["verdict"] == "inside"
    assert found["limits"]["most"] == {"value": 4.2, "unit": "mm", "text": "4.20"}
    assert found["depth_from_crown"]["value"] == pytest.approx(4.191)
    end_mill = ["22 mm", "--key", "6 x 6", "--end-mill", "6 mm", "--from-crown", "3.55 mm"]
    assert asked(end_mill, capsys)["verdict"] == "inside"
