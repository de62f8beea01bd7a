"""One seat, whatever datum it is measured from: every family, any shaft, nominal or measured."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from keyseats import geometry
from keyseats.families import inch_half_moon, metric_half_moon, metric_plain
from keyseats.load import Tables
from keyseats.lookup import FAMILIES, seats_for
from keyseats.paths import tables_dir
from keyseats.seat import Seat, Work
from keyseats.standing import Limits, Quantity

TABLES = Tables(tables_dir())
UNITS = {f: "in" if f.startswith("inch") else "mm" for f in FAMILIES}
STANDARDS = {"metric plain": metric_plain.STANDARDS}
FITS = {
    "inch plain": ("", "class 1", "class 2"),
    "inch half-moon": ("",),
    "metric plain": ("", "normal", "close", "loose"),
    "metric half-moon": ("", "normal", "close"),
}
LIMITS = (
    "depth_at_edge",
    "depth_from_crown",
    "floor_to_opposite_side",
    "over_key",
    "key_above_edge",
    "seat_width",
    "hub_width",
    "hub_floor_to_opposite_side",
)


def nominals(family: str) -> st.SearchStrategy[Fraction]:
    """Return shafts that a family has keys for: whole 64ths of an inch, or halves of a mm."""
    step = Fraction(1, 64) if UNITS[family] == "in" else Fraction(1, 2)
    if family == "inch plain":
        low, high = Fraction(21, 64), Fraction(15)
    elif family == "inch half-moon":
        ranges = inch_half_moon.width_ranges(TABLES).values()
        low = min(r.shaft_from.value for r in ranges)
        high = max(r.shaft_to.value for r in ranges)
    elif family == "metric plain":
        low, high = Fraction(11), Fraction(50)
    else:
        ranges = metric_half_moon.ranges(TABLES, metric_half_moon.TORQUE).values()
        low = min(r.shaft_over.value for r in ranges) + step
        high = max(r.shaft_to.value for r in ranges if r.shaft_to is not None)
    return st.integers(-(-low // step), high // step).map(lambda n: n * step)


@st.composite
def works(draw: st.DrawFn, family: str) -> Work:
    """Return a shaft with any of the sizes that a machinist measures."""
    nominal = draw(nominals(family))
    small = Fraction(1, 10000) if UNITS[family] == "in" else Fraction(1, 1000)

    def about(size: Fraction) -> st.SearchStrategy[Fraction | None]:
        return st.none() | st.integers(-60, 60).map(lambda n: size + n * small)

    def part(low: int, high: int) -> st.SearchStrategy[Fraction | None]:
        return st.none() | st.integers(low, high).map(lambda n: nominal * n / 1000)

    return Work(
        unit=UNITS[family],
        nominal=nominal,
        measured=draw(about(nominal)),
        bore=draw(about(nominal)),
        key_height=draw(part(150, 300)),
        cutter_width=draw(part(50, 250)),
        end_mill=draw(part(50, 250)),
        paper=draw(st.integers(0, 50)) * small,
        fit=draw(st.sampled_from(FITS[family])),
        standard=draw(st.sampled_from(STANDARDS.get(family, ("",)))),
    )


def both(seat: Seat) -> list[tuple[str, Limits]]:
    return [(name, getattr(seat, name)) for name in LIMITS]


def found(family: str, work: Work) -> list[Seat]:
    seats = seats_for(TABLES, work, (family,))
    assert seats
    return seats


def each_family(*names: str) -> pytest.MarkDecorator:
    return pytest.mark.parametrize("family", names or tuple(FAMILIES))


@each_family()
@given(data=st.data())
def test_the_same_seat_from_each_datum(family: str, data: st.DataObject) -> None:
    work = data.draw(works(family))
    shaft = work.shaft
    for seat in found(family, work):
        arc = seat.arc_height.value
        edge, crown = seat.depth_at_edge, seat.depth_from_crown
        floor, over = seat.floor_to_opposite_side, seat.over_key
        above, high = seat.key_above_edge, seat.key.height
        least = work.key_height if work.key_height is not None else high.least.value
        most = work.key_height if work.key_height is not None else high.most.value
        # An end mill under the seat's limits steps over to the key's width.
        stepped = seat.cutter_kind == "end mill" and (
            seat.cutter_width.value < seat.seat_width.least.value
        )
        wide = seat.key.width.value if stepped else seat.cutter_width.value
        assert arc == geometry.arc_height(shaft, wide)
        assert crown.least.value == edge.least.value + arc
        assert crown.most.value == edge.most.value + arc
        assert floor.least.value + crown.most.value == shaft
        assert floor.most.value + crown.least.value == shaft
        assert over.least.value == floor.least.value + least
        assert over.most.value == floor.most.value + most
        # From the opposite side up to the edge, and from there to the top of the key.
        assert over.least.value == shaft - arc + above.least.value
        assert over.most.value == shaft - arc + above.most.value
        assert above.least.value + edge.most.value == least
        assert above.most.value + edge.least.value == most


@each_family()
@given(data=st.data())
def test_limits_are_in_order_and_printed_no_wider(family: str, data: st.DataObject) -> None:
    """S and T at nominal sizes are printed to nearest at 3 places, as ASME B17.1 does."""
    work = data.draw(works(family))
    for seat in found(family, work):
        for name, pair in both(seat):
            least, most = pair.least, pair.most
            assert least.value <= most.value, name
            assert Fraction(least.text) <= Fraction(most.text), name
            if family == "inch plain" and places(least) == 3 and "floor" in name:
                assert work.as_nominal or work.bore is None
                assert abs(Fraction(least.text) - least.value) <= Fraction("0.0005")
                assert abs(Fraction(most.text) - most.value) <= Fraction("0.0005")
                continue
            assert Fraction(least.text) >= least.value, name
            assert Fraction(most.text) <= most.value, name
        neck = seat.largest_neck
        assert neck is None or Fraction(neck.text) <= neck.value


def places(quantity: Quantity) -> int:
    return len(quantity.text.partition(".")[2])


@each_family()
@given(data=st.data())
def test_measured_sizes_change_the_depths_and_never_the_key(
    family: str, data: st.DataObject
) -> None:
    work = data.draw(works(family))
    nominal = Work(work.unit, work.nominal, fit=work.fit, standard=work.standard)
    mine, plain = found(family, work), found(family, nominal)
    assert [s.key.designation for s in mine] == [s.key.designation for s in plain]
    assert [s.choice for s in mine] == [s.choice for s in plain]
    for seat, other in zip(mine, plain, strict=True):
        datum = "depth_at_edge" if family.startswith("inch") else "depth_from_crown"
        assert getattr(seat, datum) == getattr(other, datum)
        if work.bore is None:
            assert seat.hub_floor_to_opposite_side == other.hub_floor_to_opposite_side


@each_family()
@given(data=st.data())
def test_a_hub_clears_the_seated_key(family: str, data: st.DataObject) -> None:
    """At nominal sizes the hub's floor stands over the highest key in the shallowest seat."""
    nominal = data.draw(nominals(family))
    for standard in STANDARDS.get(family, ("",)):
        for seat in found(family, Work(UNITS[family], nominal, standard=standard)):
            room = seat.hub_floor_to_opposite_side.least.value - seat.over_key.most.value
            # JIS brackets sizes, not for new designs, whose two depths are the key's height.
            bracketed = standard == "JIS B 1301" and seat.choice == "other"
            assert room >= 0 if bracketed else room > 0


@each_family("inch half-moon", "metric half-moon")
@given(data=st.data())
def test_a_half_moon_seat_opens_wider_at_the_crown(family: str, data: st.DataObject) -> None:
    work = replace(data.draw(works(family)), cutter_width=None)
    for seat in found(family, work):
        diameter = seat.key.diameter
        assert diameter is not None
        assert seat.opening_at_edge is not None
        assert seat.largest_neck is not None
        assert 0 < seat.opening_at_edge.value <= diameter.value
        if seat.opening_at_crown is not None and 2 * seat.depth_from_crown.least.value <= (
            diameter.value
        ):
            assert seat.opening_at_edge.value < seat.opening_at_crown.value <= diameter.value
        assert seat.largest_neck.value < diameter.value - 2 * seat.depth_at_edge.most.value


@each_family()
@given(data=st.data())
@settings(max_examples=20)
def test_centring_has_the_touch_that_the_cutter_has(family: str, data: st.DataObject) -> None:
    work = data.draw(works(family))
    for seat in found(family, work):
        face, rim = seat.centring.face_touch, seat.centring.rim_touch
        milled = "plain" in family and work.end_mill is not None
        assert seat.cutter_kind == (
            "end mill" if milled else "disc" if "plain" in family else "half-moon"
        )
        one = rim if milled else face
        assert one is not None
        assert (face if milled else rim) is None
        assert 2 * one.value == work.shaft + seat.cutter_width.value + 2 * work.paper
