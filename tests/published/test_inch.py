"""Inch seats against printed handbook and motor tables; the source stands in each test's id."""

from __future__ import annotations

import pytest

from keyseats.load import Tables
from keyseats.lookup import seats_for
from keyseats.seat import Seat, Work
from published.reading import exact, rows


def named(row: dict[str, str], what: str) -> str:
    return f"{what} {row.get('shaft', '')} [{row['source'][:60]}]"


FLOORS = [
    pytest.param(row, section, id=named(row, section))
    for row in rows("inch_plain_floors.csv")
    for section in ("square", "rectangular")
    if row[f"S_{section}"] or row[f"T_{section}"]
]


def seat(tables: Tables, shaft: str, section: str = "square") -> Seat:
    work = Work("in", exact(shaft))
    for found in seats_for(tables, work, ("inch plain",)):
        height = found.key.nominal_height
        assert height is not None
        if (height.value == found.key.width.value) == (section == "square"):
            return found
    raise AssertionError(f"no {section} key for {shaft}")


@pytest.mark.parametrize(("row", "section"), FLOORS)
def test_floors_to_opposite_side(tables: Tables, row: dict[str, str], section: str) -> None:
    found = seat(tables, row["shaft"], section)
    assert float(found.key.width.value) == float(row["width"])
    if row[f"S_{section}"]:
        assert found.floor_to_opposite_side.most.text == row[f"S_{section}"]
    if row[f"T_{section}"]:
        assert found.hub_floor_to_opposite_side.least.text == row[f"T_{section}"]


@pytest.mark.parametrize(
    "row", [pytest.param(r, id=named(r, "motor")) for r in rows("inch_motor_shafts.csv")]
)
def test_motor_shafts(tables: Tables, row: dict[str, str]) -> None:
    """Inside the limits, but for a fraction that is known to be printed wrong."""
    found = seat(tables, row["shaft"])
    assert found.key.width.value == exact(row["width"])
    floor = exact(row["floor_to_opposite_side"])
    limits = found.floor_to_opposite_side
    inside = limits.least.value <= floor <= limits.most.value
    assert inside == (row["expected"] == "inside")


@pytest.mark.parametrize(
    "row", [pytest.param(r, id=f"{r['id']} [{r['source']}]") for r in rows("width_to_depth.csv")]
)
def test_width_to_depth(tables: Tables, row: dict[str, str]) -> None:
    work = Work("in", exact(row["shaft"]) if row["shaft"] else exact(row["width"]) * 4)
    width, depth = exact(row["width"]), exact(row["depth_at_edge"])
    key = f"{row['width'].removesuffix(' in')} x {row['width'].removesuffix(' in')}"
    found = seats_for(tables, work, ("inch plain",), key)[0]
    assert found.key.width.value == width
    assert found.depth_at_edge.least.value == depth
    if row["shaft"]:
        assert found.choice == "first"


# Machine-design textbook, ch. 11, table 11-3, reprinted from ASME B17.2-1967: depth of the shaft
# seat and of the hub. The table cites the same page for these keys, so this checks transcription.
TEXTBOOK = {
    "202": ("0.0728", "0.0372"),
    "204": ("0.1668", "0.0372"),
    "406": ("0.2455", "0.0685"),
    "608": ("0.3393", "0.0997"),
    "810": ("0.4170", "0.1310"),
    "1210": ("0.3545", "0.1935"),
    "1628": ("0.6830", "0.2560"),
    "2428": ("0.5580", "0.3810"),
}


@pytest.mark.parametrize("key", TEXTBOOK, ids=[f"{k} [textbook table 11-3]" for k in TEXTBOOK])
def test_half_moon_depths(tables: Tables, key: str) -> None:
    depth, hub = TEXTBOOK[key]
    found = seats_for(tables, Work("in", exact("4 in")), ("inch half-moon",), key)[0]
    assert found.depth_at_edge.least.text == depth
    rise = found.hub_floor_to_opposite_side.least.value - exact("4 in")
    # The hub's depth is tabled at its edge, so the arc in the bore comes off.
    arc_in_bore = found.arc_height.value
    assert abs(rise + arc_in_bore - exact(hub)) < exact("0.00001")


def test_a_trade_check_of_centring(tables: Tables) -> None:
    """Common practice, no source: 3/4 in shaft, 3/16 in cutter, 0.375 + 0.09375, bare face."""
    found = seats_for(tables, Work("in", exact("3/4 in")), ("inch plain",))[0]
    touch = found.centring.face_touch
    assert touch is not None
    assert touch.value == exact("0.46875")
    assert touch.text == "0.4688"


def test_arc_height_and_total_depth_of_a_worked_example() -> None:
    """Elementary Technical Mathematics, sec. 12.3, ex. 16: 3.720 in, 1.750 wide, 0.350 deep."""
    from keyseats.geometry import arc_height

    total = arc_height(exact("3.720"), exact("1.750")) + exact("0.350")
    assert abs(total - exact("0.57")) <= exact("0.005")
