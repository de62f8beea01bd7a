"""Which of a shop's cutters cuts a seat, so that the figures are those of the cutter in hand."""

from __future__ import annotations

from fractions import Fraction

from keyseats.frozen import replace
from keyseats.lengths import converted
from keyseats.seat import Tabled, Work
from keyseats.shop import Cutter, Shop

# How far a cutter may be from the key's size and still be meant for it: a stamped size, reground.
NEAR_WIDTH = Fraction(3, 100)
NEAR_DIAMETER = Fraction(6, 100)
# An end mill this far under the width still cuts it, stepped over.
THINNEST_MILL = Fraction(3, 4)


def with_shop(work: Work, shop: Shop) -> Work:
    """Return the work with what the shop file says of touches and holder, where nothing was typed.

    Parameters
    ----------
    work
        What was typed; it overrides the shop file. [length]
    shop
        The shop.
    """

    def own(typed: Fraction | None, name: str) -> Fraction | None:
        length = getattr(shop, name)
        if typed is not None or length is None:
            return typed
        return converted(length.value, length.unit, work.unit)

    return replace(
        work,
        paper=own(work.paper or None, "paper_thickness") or Fraction(0),
        tip=own(work.tip, "tip"),
        tip_length=own(work.tip_length, "tip_length"),
        holder_radius=own(work.holder_radius, "holder_radius"),
    )


def with_cutter(tabled: Tabled, work: Work, cutters: tuple[Cutter, ...]) -> Work:
    """Return the work with the owned cutter that suits a key best, as measured.

    Parameters
    ----------
    tabled
        The key and its seat's width limits.
    work
        The work; a cutter that was typed is kept.
    cutters
        What the shop owns.

    Returns
    -------
    Work
        With the cutter's sizes and name; unchanged where none is near the key's size.
    """
    if work.cutter_width or work.cutter_diameter or work.end_mill:
        return work
    half_moon = tabled.key.diameter is not None
    ranked = []
    for number, cutter in enumerate(cutters):
        rank = _half_moon(tabled, work, cutter) if half_moon else _plain(tabled, work, cutter)
        if rank is not None:
            ranked.append((rank, number))
    if not ranked:
        return work
    best = cutters[min(ranked)[1]]

    def size(value: Fraction | None) -> Fraction | None:
        return None if value is None else converted(value, best.unit, work.unit)

    if best.kind == "end mill":
        return replace(work, end_mill=size(best.diameter), cutter_name=best.name)
    return replace(
        work,
        cutter_width=size(best.width),
        cutter_diameter=size(best.diameter),
        neck=work.neck if work.neck is not None else size(best.neck),
        collar=work.collar if work.collar is not None else size(best.collar),
        stand_off=work.stand_off if work.stand_off is not None else size(best.stand_off),
        cutter_name=best.name,
    )


Rank = tuple[int, Fraction, Fraction]


def _outside(tabled: Tabled, width: Fraction) -> int:
    limits = tabled.seat_width
    return 0 if limits.least.value <= width <= limits.most.value else 1


def _half_moon(tabled: Tabled, work: Work, cutter: Cutter) -> Rank | None:
    """Return how well a half-moon cutter suits a key: inside its width first, then the nearest."""
    diameter = tabled.key.diameter
    if cutter.kind != "half-moon" or cutter.width is None or diameter is None:
        return None
    wide = converted(cutter.width, cutter.unit, work.unit)
    across = converted(cutter.diameter, cutter.unit, work.unit)
    off_width = abs(wide / tabled.key.width.value - 1)
    off_diameter = abs(across / diameter.value - 1)
    if off_width > NEAR_WIDTH or off_diameter > NEAR_DIAMETER:
        return None
    return _outside(tabled, wide), off_diameter, off_width


def _plain(tabled: Tabled, work: Work, cutter: Cutter) -> Rank | None:
    """Return how well a disc or an end mill suits a plain key: a disc inside its width first."""
    nominal = tabled.key.width.value
    if cutter.kind == "end mill":
        across = converted(cutter.diameter, cutter.unit, work.unit)
        if not nominal * THINNEST_MILL <= across <= tabled.seat_width.most.value:
            return None
        return 1, abs(across / nominal - 1), Fraction(0)
    if cutter.kind != "disc" or cutter.width is None:
        return None
    wide = converted(cutter.width, cutter.unit, work.unit)
    off = abs(wide / nominal - 1)
    if off > NEAR_WIDTH:
        return None
    return 2 * _outside(tabled, wide), off, Fraction(0)
