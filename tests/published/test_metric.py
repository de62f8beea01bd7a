"""Metric seats against shafts printed one by one in catalogues; the source stands in each id."""

from __future__ import annotations

import pytest

from keyseats.load import Tables
from keyseats.lookup import seats_for
from keyseats.seat import Seat, Work
from published.reading import exact, rows

SHAFTS = rows("metric_plain_shafts.csv")


def differences(found: Seat, row: dict[str, str]) -> list[str]:
    """Name the printed figures that the seat does not give."""
    height = found.key.nominal_height
    assert height is not None
    ours = {
        "width": found.key.width.value,
        "height": height.value,
        "depth_from_crown": found.depth_from_crown.least.value,
        "floor_to_opposite_side": found.floor_to_opposite_side.most.value,
        "hub_depth": found.hub_floor_to_opposite_side.least.value - exact(row["shaft"]),
        "hub_floor_to_opposite_side": found.hub_floor_to_opposite_side.least.value,
        "over_key": found.floor_to_opposite_side.most.value + height.value,
    }
    return [name for name, value in ours.items() if row[name] and exact(row[name]) != value]


@pytest.mark.parametrize(
    "row",
    [pytest.param(r, id=f"{r['standard']} {r['shaft']} [{r['source'][:50]}]") for r in SHAFTS],
)
def test_shafts(tables: Tables, row: dict[str, str]) -> None:
    work = Work("mm", exact(row["shaft"]), standard=row["standard"])
    found = seats_for(tables, work, ("metric plain",))
    wrong = [differences(seat, row) for seat in found]
    if row["expected"] == "agrees":
        assert [] in wrong, wrong
    else:
        assert [] not in wrong


def test_half_moon_hub_depths(tables: Tables) -> None:
    """CEMSA-RENOM sheet (older DIN 6885): agrees at width 2, differs where DIN differs from ISO."""
    keys = {"2": "2 x 3.7 x 10", "4": "4 x 7.5 x 19", "6": "6 x 10 x 25", "10": "10 x 13 x 32"}
    checked = 0
    for row in rows("half_moon_checks.csv"):
        if row["family"] == "metric half-moon" and row["quantity"] == "hub_depth":
            work = Work("mm", exact("40"))
            found = seats_for(tables, work, ("metric half-moon",), keys[row["width"]])[0]
            rise = found.hub_floor_to_opposite_side.least.value - exact("40")
            assert (rise == exact(row["printed"])) == (row["expected"] == "agrees"), row
            checked += 1
    assert checked == 4
