"""Every caution at its boundary: just under, at, and just over the figure that it turns on."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal, localcontext
from fractions import Fraction
from typing import Any

import pytest

from keyseats.load import Tables
from keyseats.lookup import seats_for
from keyseats.seat import Seat, Work
from keyseats.warn import PAST_CENTRE

HAIR = Fraction(1, 10**9)
ONE_INCH = Work("in", Fraction(1))
SEVEN_EIGHTHS = Work("in", Fraction(7, 8))
MM_25 = Work("mm", Fraction(25))
FAMILY = {
    "608": "inch half-moon",
    "1/4 x 1/4": "inch plain",
    "3/16 x 3/16": "inch plain",
    "8 x 7": "metric plain",
}


def in_(text: str) -> Fraction:
    return Fraction(text)


def seat_for(tables: Tables, work: Work, key: str) -> Seat:
    return seats_for(tables, work, (FAMILY[key],), key)[0]


def codes(seat: Seat) -> list[str]:
    return [w.code for w in seat.warnings]


def says(seat: Seat, code: str) -> str:
    return next(w.says for w in seat.warnings if w.code == code)


def depth_608() -> Decimal:
    """Return the most depth of a 608 seat from the crown of a 1 in shaft, by Decimal alone.

    0.3393 at the edge is printed in Shigley, table 7-7; +0.005 is B17.2's, from memory.
    """
    with localcontext() as c:
        c.prec = 50
        half = Decimal("0.09375")
        return Decimal("0.3443") + Decimal("0.5") - (Decimal("0.25") - half**2).sqrt()


def holder_needs(radius: str) -> Fraction:
    """Return the stand-off of a holder over a 608 seat in 1 in: its corner is on the circle."""
    with localcontext() as c:
        c.prec = 50
        low = Decimal("0.5") - depth_608() + Decimal("0.5") - Decimal(radius)
        return Fraction((Decimal("0.25") - low**2).sqrt() - Decimal("0.09375"))


# Work, key, what is measured, the figure that the caution turns on, the caution, and whether it is
# given just under, at and just over that figure. Sources of the figures stand beside them.
BOUNDARIES = [
    # Seat width of a 608, 0.1863 to 0.1880: ASME B17.2, from memory.
    (ONE_INCH, "608", "cutter_width", in_("0.1863"), "cutter-narrow", (1, 0, 0)),
    (ONE_INCH, "608", "cutter_width", in_("0.1880"), "cutter-wide", (0, 0, 1)),
    # Class 1 seat width, 3/16 +0.002 -0.000: ASME B17.1, Machinery's Handbook, 31st ed.
    (SEVEN_EIGHTHS, "3/16 x 3/16", "cutter_width", in_("0.1875"), "cutter-narrow", (1, 0, 0)),
    (SEVEN_EIGHTHS, "3/16 x 3/16", "cutter_width", in_("0.1895"), "cutter-wide", (0, 0, 1)),
    (SEVEN_EIGHTHS, "3/16 x 3/16", "end_mill", in_("0.1875"), "cutter-narrow", (1, 0, 0)),
    (SEVEN_EIGHTHS, "3/16 x 3/16", "end_mill", in_("0.1895"), "end-mill-wide", (0, 1, 1)),
    # N9 over 6 to 10 mm is 0 to -0.036: ISO 286. A nominal end mill is at the most.
    (MM_25, "8 x 7", "end_mill", in_("7.964"), "cutter-narrow", (1, 0, 0)),
    (MM_25, "8 x 7", "end_mill", in_("8"), "end-mill-wide", (0, 1, 1)),
    (MM_25, "8 x 7", "cutter_width", in_("8"), "cutter-wide", (0, 0, 1)),
    # The key's own diameter; seats to 1.020: ASME B17.2, from memory.
    (ONE_INCH, "608", "cutter_diameter", in_("1"), "cutter-ground-under-key", (1, 0, 0)),
    (ONE_INCH, "608", "cutter_diameter", in_("1"), "cutter-oversize", (0, 0, 1)),
    (ONE_INCH, "608", "cutter_diameter", in_("1.020"), "cutter-oversize", (1, 1, 0)),
    (ONE_INCH, "608", "cutter_diameter", in_("1.020"), "cutter-over-seat", (0, 0, 1)),
    # 1 less twice 0.3443, less 0.010 to be clear: geometry.
    (ONE_INCH, "608", "neck", in_("0.3014"), "neck-rubs", (0, 0, 1)),
    (ONE_INCH, "608", "collar", in_("0.3014"), "collar-rubs", (0, 0, 1)),
    # Twice 0.3443 and 0.010 leave nothing for a neck: geometry.
    (ONE_INCH, "608", "cutter_diameter", in_("0.6986"), "no-neck-clears", (1, 1, 0)),
    # Half the shaft less half the cutter clears any holder: geometry.
    (ONE_INCH, "608", "stand_off", in_("0.40625"), "holder-hits", (1, 0, 0)),
    # Half the shaft: geometry.
    (
        replace(ONE_INCH, end_mill=in_("0.24")),
        "1/4 x 1/4",
        "tip_length",
        in_("0.5"),
        "tip-short",
        (1, 0, 0),
    ),
    # The collar of a 2-1/2 in disc on a 1 in shaft: Dc - D, geometry.
    (
        replace(ONE_INCH, cutter_diameter=in_("2.5")),
        "1/4 x 1/4",
        "collar",
        in_("1.5"),
        "face-touch-short",
        (0, 0, 1),
    ),
    (ONE_INCH, "608", "bore", in_("1"), "bore-under-shaft", (1, 0, 0)),
    # No fit is so far from its nominal size: common practice, no source.
    (ONE_INCH, "608", "measured", in_("1.015"), "far-off-nominal", (0, 0, 1)),
    (MM_25, "8 x 7", "measured", in_("24.6"), "far-off-nominal", (1, 0, 0)),
    # t1 4 +0.2, t2 3.3 +0.2, height 7 -0.09: ISO/R 773. Over key D + 3 and D + 2.71, hub 28.3
    # and 28.5.
    (MM_25, "8 x 7", "measured", in_("25.3"), "top-clearance-gone-at-limits", (0, 0, 1)),
    (MM_25, "8 x 7", "measured", in_("25.79"), "top-clearance-gone-at-limits", (1, 1, 0)),
    (MM_25, "8 x 7", "measured", in_("25.79"), "top-clearance-gone", (0, 0, 1)),
    (MM_25, "8 x 7", "bore", in_("24.7"), "top-clearance-gone-at-limits", (1, 0, 0)),
    # 3/16 keys to 7/8, 1/4 keys over it: ASME B17.1. Half a sixteenth off: common practice.
    (SEVEN_EIGHTHS, "3/16 x 3/16", "measured", in_("29/32"), "another-key-as-measured", (0, 0, 1)),
    # Bar-stock keys to 3/4 in are +0.000 -0.002: ASME B17.1, Machinery's Handbook, 31st ed.
    (SEVEN_EIGHTHS, "3/16 x 3/16", "key_height", in_("0.1875"), "key-high", (0, 0, 1)),
    (SEVEN_EIGHTHS, "3/16 x 3/16", "key_height", in_("0.1855"), "key-low", (1, 0, 0)),
    # 0.433 to 0.438: Machinery's Handbook, 31st ed., table 8.
    (ONE_INCH, "608", "key_height", in_("0.438"), "key-high", (0, 0, 1)),
    (ONE_INCH, "608", "key_height", in_("0.433"), "key-low", (1, 0, 0)),
]


@pytest.mark.parametrize(
    ("work", "key", "field", "figure", "code", "given"),
    BOUNDARIES,
    ids=[f"{b[1]} {b[2]} {float(b[3]):g} {b[4]}" for b in BOUNDARIES],
)
def test_boundary(
    tables: Tables,
    work: Work,
    key: str,
    field: str,
    figure: Fraction,
    code: str,
    given: tuple[int, int, int],
) -> None:
    sizes = (figure - HAIR, figure, figure + HAIR)
    found = []
    for size in sizes:
        changed: dict[str, Any] = {field: size}
        found.append(int(code in codes(seat_for(tables, replace(work, **changed), key))))
    assert tuple(found) == given


@pytest.mark.parametrize("radius", ["0.3", "0.45", "0.5"])
def test_a_holder_of_a_radius_hits_under_its_own_stand_off(tables: Tables, radius: str) -> None:
    needs = holder_needs(radius)
    work = replace(ONE_INCH, holder_radius=Fraction(radius))
    for stand_off, hits in ((needs - HAIR, True), (needs + HAIR, False)):
        seat = seat_for(tables, replace(work, stand_off=stand_off), "608")
        assert ("holder-hits" in codes(seat)) is hits
        assert seat.stand_off_needed is not None
        assert abs(seat.stand_off_needed.value - needs) < Fraction(1, 10**30)


def test_a_holder_past_the_centre_line_needs_half_the_shaft(tables: Tables) -> None:
    """Where it reaches below the centre line at full depth: half the shaft less half the cutter."""
    work = replace(ONE_INCH, holder_radius=in_("0.7"), stand_off=in_("0.40625"))
    seat = seat_for(tables, work, "608")
    assert codes(seat) == []
    assert seat.stand_off_needed is not None
    assert seat.stand_off_needed.value == in_("0.40625")


def test_a_holder_that_passes_over_the_crown_needs_no_stand_off(tables: Tables) -> None:
    work = replace(ONE_INCH, holder_radius=in_("0.14"), stand_off=in_("0.001"))
    seat = seat_for(tables, work, "608")
    assert codes(seat) == []
    assert seat.stand_off_needed is not None
    assert seat.stand_off_needed.text == "0.0000"


def test_a_radius_alone_is_no_caution(tables: Tables) -> None:
    seat = seat_for(tables, replace(ONE_INCH, holder_radius=in_("0.5")), "608")
    assert codes(seat) == []
    assert seat.stand_off_needed is not None
    needs = holder_needs("0.5")
    assert 0 <= Fraction(seat.stand_off_needed.text) - needs < in_("0.0001")


def test_a_floor_past_the_centre(tables: Tables) -> None:
    """No. 812, 0.5110 at the edge: ASME B17.2 by its depth rule. Common sense on the section."""
    for shaft in range(8000, 13000, 43):
        work = Work("in", Fraction(shaft, 10000))
        seat = seats_for(tables, work, ("inch half-moon",), "812")[0]
        past = seat.floor_to_opposite_side.least.value < work.shaft / 2
        assert (PAST_CENTRE in codes(seat)) is past


def test_a_key_out_of_range_is_told(tables: Tables) -> None:
    """1/4 keys start over 7/8: ASME B17.1."""
    at = seats_for(tables, SEVEN_EIGHTHS, ("inch plain",), "1/4 x 1/4")[0]
    over = seats_for(tables, Work("in", Fraction(15, 16)), ("inch plain",), "1/4 x 1/4")[0]
    assert codes(at) == ["key-not-for-shaft"]
    assert codes(over) == []


def test_0_8752_keeps_the_key_of_seven_eighths(tables: Tables) -> None:
    """Nominal picks the key, measured sets the depths."""
    seat = seat_for(tables, replace(SEVEN_EIGHTHS, measured=in_("0.8752")), "3/16 x 3/16")
    assert codes(seat) == []


def test_a_measured_shaft_in_the_same_range_keeps_its_key(tables: Tables) -> None:
    """8 x 7 is for over 22 to 30 mm: ISO/R 773."""
    for size in ("22.1", "27", "30"):
        seat = seat_for(tables, replace(MM_25, measured=in_(size), bore=in_(size)), "8 x 7")
        assert "another-key-as-measured" not in codes(seat)
    for size in ("22", "30.001"):
        seat = seat_for(tables, replace(MM_25, measured=in_(size), bore=in_(size)), "8 x 7")
        assert "another-key-as-measured" in codes(seat)


def test_a_high_key_takes_the_clearance_and_the_shaft_is_not_blamed(tables: Tables) -> None:
    """Key 7.31 on t1 4 and t2 3.3 stands 0.01 into the hub at nominal sizes: ISO/R 773."""
    for height, blamed in (("7.3", False), ("7.31", True)):
        work = replace(MM_25, measured=in_("25.01"), key_height=in_(height))
        seat = seat_for(tables, work, "8 x 7")
        assert ("clearance is gone by 0.02 " in says(seat, "key-high")) is blamed
        assert ("top-clearance-gone-at-limits" in codes(seat)) is not blamed


def test_the_lift_is_compared_with_the_standing_limits(tables: Tables) -> None:
    """A lift over the depth's own tolerance, 0.005 (memory), leaves no depth that is right."""
    small = seat_for(tables, replace(ONE_INCH, cutter_diameter=in_("0.999")), "608")
    large = seat_for(tables, replace(ONE_INCH, cutter_diameter=in_("0.980")), "608")
    for seat, words in ((small, "toward the deep end"), (large, "no depth within the limits")):
        text = says(seat, "cutter-ground-under-key")
        assert words in text
        assert seat.lift is not None
        stands = seat.key_above_edge.most.value + seat.lift.value
        assert stands > seat.key_above_edge.most.value
        shown = Fraction(text.partition("stands up to ")[2].split()[0])
        assert 0 <= shown - stands < in_("0.0001")
        assert seat.lift.text in text


def test_a_key_that_lies_on_its_floor_has_no_lift(tables: Tables) -> None:
    for diameter in ("1", "1.01"):
        seat = seat_for(tables, replace(ONE_INCH, cutter_diameter=in_(diameter)), "608")
        assert seat.lift is None


@pytest.mark.parametrize(
    ("work", "key", "code", "figures"),
    [
        # (1 - 0.5)/2 at the edge, and 0.00886 more from the crown.
        (replace(ONE_INCH, neck=in_("0.5")), "608", "neck-rubs", ("0.2500", "0.2588", "0.3014")),
        # (1 - 0.305)/2 is past the most, 0.3443: it would only be too close.
        (replace(ONE_INCH, neck=in_("0.305")), "608", "neck-rubs", ("0.3475", "0.0100", "0.3014")),
        # (8 - 7.5)/2 to (8 - 7.964)/2 inward.
        (replace(MM_25, end_mill=in_("7.5")), "8 x 7", "cutter-narrow", ("0.232 to 0.250",)),
        # Reach (2 - 1.2)/2, needs 0.5, cutter 1 + 1.2; rim 0.105 above, sqrt(0.25 - 0.105^2) + 1/8.
        (
            replace(ONE_INCH, cutter_diameter=in_("2"), collar=in_("1.2")),
            "1/4 x 1/4",
            "face-touch-short",
            ("0.4000", "0.5000", "2.2000", "0.1050", "0.6139"),
        ),
        (
            replace(ONE_INCH, end_mill=in_("0.24"), tip_length=in_("0.4")),
            "1/4 x 1/4",
            "tip-short",
            ("0.4000", "0.5000"),
        ),
        (replace(ONE_INCH, bore=in_("0.998")), "608", "bore-under-shaft", ("0.9980", "0.0020")),
        # 25.4 + 3 over 28.3.
        (
            replace(MM_25, measured=in_("25.4")),
            "8 x 7",
            "top-clearance-gone-at-limits",
            ("28.40", "28.30", "0.10"),
        ),
        # 25.9 + 2.71 over 28.5.
        (
            replace(MM_25, measured=in_("25.9")),
            "8 x 7",
            "top-clearance-gone",
            ("28.61", "28.50", "0.11"),
        ),
        (
            replace(ONE_INCH, stand_off=in_("0.2")),
            "608",
            "holder-hits",
            ("0.2000", "0.4063", "any holder", "its radius"),
        ),
    ],
    ids=lambda v: v if isinstance(v, str) else "",
)
def test_figures_by_hand(
    tables: Tables, work: Work, key: str, code: str, figures: tuple[str, ...]
) -> None:
    text = says(seat_for(tables, work, key), code)
    for figure in figures:
        assert figure in text, text


def test_the_depth_where_a_holder_hits_is_told(tables: Tables) -> None:
    """Its corner is on the circle there: (W/2 + 0.3)^2 + (R + Dc/2 - r - depth)^2 = R^2."""
    work = replace(ONE_INCH, holder_radius=in_("0.5"), stand_off=in_("0.3"))
    text = says(seat_for(tables, work, "608"), "holder-hits")
    depth = Fraction(text.partition("hits the shaft ")[2].split()[0])
    for at, inside in ((depth, False), (depth + in_("0.0001"), True)):
        low = Fraction(1, 2) + Fraction(1, 2) - Fraction(1, 2) - at
        assert (in_("0.39375") ** 2 + low**2 < Fraction(1, 4)) is inside
    early = replace(work, holder_radius=in_("0.95"))
    assert "before the cutter is on the crown" in says(
        seat_for(tables, early, "608"), "holder-hits"
    )


def test_an_end_mill_under_size_steps_over_to_the_keys_width(tables: Tables) -> None:
    """The depths belong to the seat, not to the mill: geometry, Y in ASME B17.1."""
    plain = seat_for(tables, SEVEN_EIGHTHS, "3/16 x 3/16")
    under = seat_for(tables, replace(SEVEN_EIGHTHS, end_mill=in_("0.125")), "3/16 x 3/16")
    wide = seat_for(tables, replace(SEVEN_EIGHTHS, end_mill=in_("0.1950")), "3/16 x 3/16")
    assert under.depth_from_crown == plain.depth_from_crown
    assert wide.depth_from_crown.least.value > plain.depth_from_crown.least.value
    assert under.centring.rim_touch is not None
    assert under.centring.rim_touch.value == in_("0.5")


def test_a_narrow_disc_is_fed_deeper_once_the_seat_is_widened(tables: Tables) -> None:
    narrow = seat_for(tables, replace(SEVEN_EIGHTHS, cutter_width=in_("0.150")), "3/16 x 3/16")
    plain = seat_for(tables, SEVEN_EIGHTHS, "3/16 x 3/16")
    more = plain.depth_from_crown.least.value - narrow.depth_from_crown.least.value
    text = says(narrow, "cutter-narrow")
    fed = Fraction(text.partition("fed ")[2].split()[0])
    assert abs(fed - more) <= in_("0.00005")


def test_a_disc_of_known_diameter_has_a_ramp(tables: Tables) -> None:
    """The point at the crown lies on the cutter: ramp^2 + (Dc/2 - depth)^2 = (Dc/2)^2."""
    seat = seat_for(tables, replace(ONE_INCH, cutter_diameter=in_("2.5")), "1/4 x 1/4")
    assert seat.ramp is not None
    up = in_("1.25") - seat.depth_from_crown.least.value
    assert abs(seat.ramp.value**2 + up**2 - in_("1.25") ** 2) < Fraction(1, 10**30)
    assert seat.largest_neck is None
    assert seat_for(tables, ONE_INCH, "1/4 x 1/4").ramp is None
    assert seat_for(tables, ONE_INCH, "608").ramp is None
    milled = replace(ONE_INCH, cutter_diameter=in_("2.5"), end_mill=in_("0.25"))
    assert seat_for(tables, milled, "1/4 x 1/4").ramp is None


def test_cautions_come_in_the_order_of_the_work(tables: Tables) -> None:
    work = replace(
        ONE_INCH,
        measured=in_("1.04"),
        bore=in_("1.001"),
        key_height=in_("0.440"),
        cutter_width=in_("0.19"),
        cutter_diameter=in_("0.99"),
        neck=in_("0.4"),
        collar=in_("0.5"),
        stand_off=in_("0.1"),
        holder_radius=in_("0.6"),
    )
    assert codes(seat_for(tables, work, "608")) == [
        "far-off-nominal",
        "bore-under-shaft",
        "top-clearance-gone",
        "key-high",
        "cutter-wide",
        "cutter-ground-under-key",
        "neck-rubs",
        "collar-rubs",
        "holder-hits",
        "face-touch-short",
    ]


EVERY = [
    *[(replace(b[0], **{b[2]: b[3] - HAIR}), b[1]) for b in BOUNDARIES if b[5][0]],
    *[(replace(b[0], **{b[2]: b[3] + HAIR}), b[1]) for b in BOUNDARIES if b[5][2]],
]


@pytest.mark.parametrize(("work", "key"), EVERY)
def test_each_caution_has_a_figure_and_a_remedy_in_one_line(
    tables: Tables, work: Work, key: str
) -> None:
    warnings = seat_for(tables, work, key).warnings
    assert warnings
    for warning in warnings:
        assert any(c.isdigit() for c in warning.says), warning
        assert ";" in warning.says, warning
        assert "\n" not in warning.says
        assert not warning.says.endswith(".")
        assert "-0." not in warning.says
        assert len(warning.says) <= 340, len(warning.says)
