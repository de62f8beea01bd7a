"""A tolerance that stands in a column's head, with the figure under it, stays inside the limits."""

from __future__ import annotations

from decimal import Decimal, localcontext

import pytest

from keyseats.cards import by_shaft
from keyseats.cards.subjects import SUBJECTS
from keyseats.lengths import article, read_fraction
from keyseats.load import Tables
from keyseats.paths import tables_dir
from keyseats.shared_tolerance import in_common
from keyseats.standing import Limits, typed

# ASME B17.1, class 1, and B17.2 (the second from memory): what the depth may be over its least.
PLUS = {"inch plain": Decimal("0.015"), "inch half-moon": Decimal("0.005")}


@pytest.mark.parametrize("family", PLUS)
def test_the_least_and_the_tolerance_of_a_head_never_pass_the_most(family: str) -> None:
    """Depth from crown: depth at edge and R - sqrt(R^2 - (W/2)^2), reckoned in decimals."""
    subject = next(s for s in SUBJECTS if s.family == family)
    listed = [
        one
        for shafts in subject.shafts
        for one in by_shaft.seats(subject, Tables(tables_dir()), shafts)
    ]
    said = in_common([seat.depth_from_crown for _, seat in listed], "least")
    assert said.endswith("−0")
    plus = Decimal(said.split()[0].strip("+†"))
    assert PLUS[family] - Decimal("0.0002") <= plus <= PLUS[family]
    with localcontext() as context:
        context.prec = 50
        for shaft, seat in listed:
            assert seat.depth_at_edge.least.text
            edge, wide, size = (
                Decimal(v.numerator) / v.denominator
                for v in (
                    seat.depth_at_edge.least.value,
                    seat.key.width.value,
                    read_fraction(shaft),
                )
            )
            least = edge + size / 2 - ((size / 2) ** 2 - (wide / 2) ** 2).sqrt()
            printed = Decimal(seat.depth_from_crown.least.text)
            assert least <= printed
            assert printed + plus <= least + PLUS[family], shaft


def limits(least: str, most: str, places: int = 4) -> Limits:
    ends = Limits(typed(read_fraction(least), "in"), typed(read_fraction(most), "in"))
    return ends.printed(places)


def test_a_tolerance_is_cut_only_by_what_rounding_took() -> None:
    exact, rounded = limits("0.1000", "0.1150"), limits("0.10003", "0.11503")
    assert in_common([exact], "least") == "+0.015 −0"
    assert in_common([exact, rounded], "least") == "+0.0149 −0"
    assert in_common([exact, rounded], "most") == "+0 −0.0149"
    assert in_common([exact, limits("0.1", "0.105")], "least") == ""


@pytest.mark.parametrize(
    ("size", "said"),
    [
        ("8 x 7", "an"),
        ("8", "an"),
        ("80", "an"),
        ("11", "an"),
        ("18", "an"),
        ("11/16", "an"),
        ("1/8", "a"),
        ("7/8", "a"),
        ("1", "a"),
        ("110", "a"),
        ("180", "a"),
        ("22", "a"),
    ],
)
def test_an_eight_an_eleven_and_an_eighteen(size: str, said: str) -> None:
    assert article(size) == f"{said} {size}"
