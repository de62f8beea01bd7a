"""Which of a shop's cutters cuts a seat, so that the figures are those of the cutter in hand."""

from __future__ import annotations

from fractions import Fraction

from keyseats.faults import TypedError, near
from keyseats.frozen import replace
from keyseats.lengths import converted
from keyseats.seat import Seat, Tabled, Work
from keyseats.shop import Cutter, Shop

# How far a cutter may be from the key's size and still be meant for it: a stamped size, reground.
NEAR_WIDTH = Fraction(3, 100)
NEAR_DIAMETER = Fraction(6, 100)
# An end mill this far under the width still cuts it, stepped over.
THINNEST_MILL = Fraction(3, 4)
# A cutter under a quarter of a seat's width or over twice it was read in the wrong unit, or is for
# another key; so is one of under half the key's diameter or over twice it: our choice.
LEAST_PART, MOST_PART = Fraction(1, 4), Fraction(2)
LEAST_ROUND = Fraction(1, 2)
# Cautions with which an owned cutter cannot cut a seat after all.
CANNOT = ("cutter-wide", "end-mill-wide", "cutter-over-seat", "no-neck-clears")


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


def cutter_named(name: str, shop: Shop) -> Cutter:
    """Return the cutter of a name; its beginning will do if it is the beginning of one only.

    Parameters
    ----------
    name
        What was typed; capitals do not count.
    shop
        The shop that owns it.

    Raises
    ------
    TypedError
        If the shop file has no such cutter, with the near names.
    """
    wanted = name.strip().lower()
    begun = [c for c in shop.cutters if wanted and c.name.lower().startswith(wanted)]
    same = [c for c in begun if c.name.lower() == wanted]
    if same or len(begun) == 1:
        return (same or begun)[0]
    known = [c.name for c in begun or shop.cutters]
    if not known:
        raise TypedError(f"--cutter: no '{name}', for the shop file lists no cutters; add one")
    raise TypedError(f"--cutter: no '{name}' in the shop file; {near(name, known)}")


def typed_cutter(work: Work) -> bool:
    """Return whether a cutter's size was typed, so that none is looked for."""
    return any(
        size is not None for size in (work.cutter_width, work.cutter_diameter, work.end_mill)
    )


def with_cutter(
    tabled: Tabled, work: Work, cutters: tuple[Cutter, ...], named: Cutter | None = None
) -> Work:
    """Return the work with the owned cutter that suits a key best, as measured.

    Parameters
    ----------
    tabled
        The key and its seat's width limits.
    work
        The work; a cutter that was typed is kept, and is the owned one if its size is the same.
    cutters
        What the shop owns.
    named
        The cutter that was asked for by its name; it is taken wherever it is in reason.

    Returns
    -------
    Work
        With the cutter's sizes and name; unchanged where none is near the key's size.
    """
    if named is not None and _in_reason(tabled, work, named):
        return _taken(work, named)
    if typed_cutter(work):
        same = [c for c in cutters if _as_typed(tabled, work, c)]
        return _taken(work, same[0]) if same else work
    ranked = []
    for number, cutter in enumerate(cutters):
        rank = _rank(tabled, work, cutter)
        if rank is not None:
            ranked.append((rank, number))
    return _taken(work, cutters[min(ranked)[1]]) if ranked else work


def cut_by_owned(seat: Seat) -> bool:
    """Return whether the seat is computed for an owned cutter, and that cutter can cut it."""
    return bool(seat.work.cutter_name) and not {w.code for w in seat.warnings} & set(CANNOT)


def near_its_key(seat: Seat) -> bool:
    """Return whether the cutter that a seat is computed for is of its key's size, or nearly."""
    wide, diameter = seat.key.width.value, seat.key.diameter
    if seat.cutter_kind == "end mill":
        return wide * THINNEST_MILL <= seat.cutter_width.value <= seat.seat_width.most.value
    if abs(seat.cutter_width.value / wide - 1) > NEAR_WIDTH:
        return False
    if diameter is None or seat.cutter_diameter is None:
        return True
    return abs(seat.cutter_diameter.value / diameter.value - 1) <= NEAR_DIAMETER


def _size(value: Fraction | None, cutter: Cutter, work: Work) -> Fraction | None:
    return None if value is None else converted(value, cutter.unit, work.unit)


def _taken(work: Work, cutter: Cutter) -> Work:
    """Return the work with one cutter's sizes; of those, what was typed is kept."""

    def own(typed: Fraction | None, size: Fraction | None) -> Fraction | None:
        return typed if typed is not None else _size(size, cutter, work)

    if cutter.kind == "end mill":
        return replace(work, end_mill=own(None, cutter.diameter), cutter_name=cutter.name)
    return replace(
        work,
        cutter_width=own(None, cutter.width),
        cutter_diameter=own(work.cutter_diameter, cutter.diameter),
        neck=own(work.neck, cutter.neck),
        collar=own(work.collar, cutter.collar),
        stand_off=own(work.stand_off, cutter.stand_off),
        cutter_name=cutter.name,
    )


def _as_typed(tabled: Tabled, work: Work, cutter: Cutter) -> bool:
    """Return whether what was typed is just this cutter."""
    across = _size(cutter.diameter, cutter, work)
    if work.end_mill is not None:
        return cutter.kind == "end mill" and across == work.end_mill
    if cutter.kind == "end mill" or not _in_reason(tabled, work, cutter):
        return False
    wide = _size(cutter.width, cutter, work)
    if work.cutter_width != wide or work.cutter_diameter not in (None, across):
        return False
    return cutter.kind == "disc" or _half_moon(tabled, work, cutter) is not None


def _in_reason(tabled: Tabled, work: Work, cutter: Cutter) -> bool:
    """Return whether a cutter is of the kind that cuts a key's seat, and anywhere near its size."""
    diameter = tabled.key.diameter
    if (diameter is not None) != (cutter.kind == "half-moon"):
        return False
    across = converted(cutter.diameter, cutter.unit, work.unit)
    wide = across if cutter.kind == "end mill" else _size(cutter.width, cutter, work)
    if wide is None or not near_width(tabled.key.width.value, wide):
        return False
    return diameter is None or near_round(diameter.value, across)


def near_width(seat: Fraction, cutter: Fraction) -> bool:
    """Return whether a cutter's width can have been meant for a seat's. [length]"""
    return seat * LEAST_PART <= cutter <= seat * MOST_PART


def near_round(key: Fraction, cutter: Fraction) -> bool:
    """Return whether a half-moon cutter's diameter can have been meant for a key's. [length]"""
    return key * LEAST_ROUND <= cutter <= key * MOST_PART


Rank = tuple[int, Fraction, Fraction]


def _rank(tabled: Tabled, work: Work, cutter: Cutter) -> Rank | None:
    half_moon = tabled.key.diameter is not None
    return _half_moon(tabled, work, cutter) if half_moon else _plain(tabled, work, cutter)


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
    limits = tabled.seat_width
    outside = 0 if limits.least.value <= wide <= limits.most.value else 1
    return outside, off_diameter, off_width


def _plain(tabled: Tabled, work: Work, cutter: Cutter) -> Rank | None:
    """Return how well a disc or an end mill suits a plain key.

    Inside the width a disc comes before a mill, under it too, and over it neither cuts the seat. A
    mill of the most width cuts over it.
    """
    nominal, limits = tabled.key.width.value, tabled.seat_width
    least, most = limits.least.value, limits.most.value
    if cutter.kind == "end mill":
        across = converted(cutter.diameter, cutter.unit, work.unit)
        if not nominal * THINNEST_MILL <= across <= most:
            return None
        order = 4 if across == most else 1 if across >= least else 3
        return order, abs(across / nominal - 1), Fraction(0)
    if cutter.kind != "disc" or cutter.width is None:
        return None
    wide = converted(cutter.width, cutter.unit, work.unit)
    off = abs(wide / nominal - 1)
    if off > NEAR_WIDTH:
        return None
    order = 4 if wide > most else 0 if wide >= least else 2
    return order, off, Fraction(0)
