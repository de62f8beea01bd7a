"""What was typed held against the rest of it: a size that cannot be so is refused in one line."""

from __future__ import annotations

import argparse
from fractions import Fraction

from keyseats.faults import TypedError, near
from keyseats.inspection import shown
from keyseats.lookup import module
from keyseats.owned import LEAST_PART, near_round, near_width
from keyseats.seat import Seat, Work

# Out of reason in any shop. [length]
THICKEST = {"in": Fraction("0.1"), "mm": Fraction("2.5")}
LONGEST = {"in": Fraction(12), "mm": Fraction(300)}
# A key's width may be milled by steps, but not from a mill under a tenth of it: our choice.
THINNEST_MILL = Fraction(1, 10)


def refuse_together(words: argparse.Namespace) -> None:
    """Refuse options that say two different things.

    Raises
    ------
    TypedError
        With both options.
    """
    for first, second, says in (
        ("end_mill", "cutter_width", "an end mill's width is its diameter"),
        ("cutter", "cutter_width", "the shop file has this cutter's sizes"),
        ("cutter", "cutter_diameter", "the shop file has this cutter's sizes"),
        ("cutter", "end_mill", "the shop file has this cutter's sizes"),
        ("json", "pdf", "--json prints and --pdf writes a page"),
        ("json", "card", "--json prints and --card writes a page"),
    ):
        if getattr(words, first, None) and getattr(words, second, None):
            one, two = (f"--{name.replace('_', '-')}" for name in (first, second))
            raise TypedError(f"{one} and {two} together: {says}; give one of the two")
    if words.cutter is not None and words.shop is None:
        raise TypedError("--cutter: names a cutter of your shop file; give --shop FILE too")


def refuse_out_of_reason(work: Work) -> None:
    """Refuse a size that cannot be so beside another, or that no shop has.

    Raises
    ------
    TypedError
        With the option, the size, and the size that it must be under or over.
    """
    shaft, disc, unit = work.shaft, work.cutter_diameter, work.unit
    for size, option, other, name in (
        (work.cutter_width, "--cutter-width", shaft, "the shaft"),
        (work.end_mill, "--end-mill", shaft, "the shaft"),
        (work.key_height, "--key-height", shaft, "the shaft"),
        (work.tip, "--tip", shaft, "the shaft"),
        (work.cutter_width, "--cutter-width", disc, "the cutter's diameter"),
        (work.neck, "--neck", disc, "the cutter's diameter"),
        (work.collar, "--collar", disc, "the cutter's diameter"),
        (work.paper, "--paper-thickness", THICKEST[unit], "any feeler's thickness"),
        (work.tip_length, "--tip-length", LONGEST[unit], "any tip's length"),
        (work.holder_radius, "--holder-radius", LONGEST[unit], "any holder's radius"),
        (work.stand_off, "--stand-off", LONGEST[unit], "any holder's distance"),
    ):
        if size is not None and other is not None and size >= other:
            raise TypedError(
                f"{option}: {float(size):g} {unit} is not under {name}, {float(other):g} {unit}; "
                "measure again"
            )
    holder, half_neck = work.holder_radius, (work.neck or Fraction(0)) / 2
    if holder is not None and holder < half_neck:
        raise TypedError(
            f"--holder-radius: {float(holder):g} {unit} is under half the neck, "
            f"{float(half_neck):g} {unit}; give the radius of what holds the cutter"
        )


def refuse_for_seats(work: Work, seats: list[Seat], *, asked: bool) -> None:
    """Refuse what cannot be so for the seats that it was typed for.

    Parameters
    ----------
    work
        What was typed, before a shop file was looked at.
    seats
        The seats that are answered in full.
    asked
        Whether their key was named, so that what was typed is meant for it alone.

    Raises
    ------
    TypedError
        With the option, the size, and the seat's own.
    """
    for seat in seats:
        if asked:
            _for_this_key(work, seat)
        _round(work, seat, asked=asked)
    if (
        seats
        and work.cutter_width is not None
        and not any(
            near_width(s.key.width.value, s.work.cutter_width or Fraction(0)) for s in seats
        )
    ):
        raise _nowhere_near("--cutter-width", seats[0].work.cutter_width, seats[0])
    milled = [s for s in seats if s.cutter_kind == "end mill" and s.work.end_mill is not None]
    if work.end_mill is not None and milled and not any(_mill_near(s) for s in milled):
        raise _nowhere_near("--end-mill", milled[0].work.end_mill, milled[0])


def _mill_near(seat: Seat) -> bool:
    size, wide = seat.work.end_mill or Fraction(0), seat.key.width.value
    return near_width(wide, size) or wide * THINNEST_MILL <= size < wide * LEAST_PART


def _nowhere_near(option: str, size: Fraction | None, seat: Seat) -> TypedError:
    limits, unit = seat.seat_width, seat.work.unit
    return TypedError(
        f"{option}: {_text(size, unit)} is nowhere near the width of a {seat.key.designation} "
        f"seat, {limits.least.text} to {limits.most.text} {unit}; measure again and look at the "
        "unit"
    )


def _for_this_key(work: Work, seat: Seat) -> None:
    """Refuse what a key's own family does not have."""
    key, family = seat.key.designation, seat.key.family
    if work.end_mill is not None and seat.key.diameter is not None:
        raise TypedError(
            f"--end-mill: no end mill cuts the seat of {key}, a half-moon key; give its cutter's "
            "--cutter-width and --cutter-diameter, or another --key"
        )
    for value, option, known in (
        (work.fit, "--fit", module(family).FITS),
        (work.standard, "--standard", module(family).STANDARDS),
    ):
        if value and value not in known:
            raise TypedError(
                f"{option}: a {key} seat, of the {family} keys, has no '{value}'; leave it out: "
                f"{near(value, list(known))}"
            )


def _round(work: Work, seat: Seat, *, asked: bool) -> None:
    """Refuse a diameter, a neck or a collar that this seat's cutter cannot have."""
    diameter, key, unit = seat.cutter_diameter, seat.key.diameter, seat.work.unit
    if diameter is None:
        return
    for typed, size, option in (
        (work.neck, seat.work.neck, "--neck"),
        (work.collar, seat.work.collar, "--collar"),
    ):
        if typed is not None and size is not None and size >= diameter.value:
            whose = "the cutter's diameter" if work.cutter_diameter else "its cutter's diameter"
            raise TypedError(
                f"{option}: {_text(size, unit)} is not under {whose}, {_text(diameter.value, unit)}"
                f" for a {seat.key.designation} seat; measure again"
            )
    if work.cutter_diameter is None:
        return
    if key is not None:
        if asked and not near_round(key.value, diameter.value):
            raise TypedError(
                f"--cutter-diameter: {_text(diameter.value, unit)} is nowhere near the diameter of "
                f"a {seat.key.designation} key, {key.text} {unit}; measure again and look at the "
                "unit"
            )
        return
    for other, what in (
        (seat.cutter_width.value, "width"),
        (seat.depth_from_crown.least.value, "depth from crown"),
    ):
        if diameter.value <= other:
            raise TypedError(
                f"--cutter-diameter: {_text(diameter.value, unit)} is not over the {what} of a "
                f"{seat.key.designation} seat, {_text(other, unit)}; measure again and look at the "
                "unit"
            )


def _text(size: Fraction | None, unit: str) -> str:
    return f"{shown(size or Fraction(0), unit)} {unit}"
