"""Cautions before a cutter is chosen: the key, the shaft and the hub as measured."""

from __future__ import annotations

from fractions import Fraction

from keyseats.geometry import top_clearance
from keyseats.seat import Seat, Warning
from keyseats.warn.wording import marked, said

PAST_CENTRE = "floor-past-centre"
FAR_OFF_NOMINAL = "far-off-nominal"
# No fit is so far from its nominal size: common practice, no source. [length]
FAR_OFF = {"in": Fraction("0.015"), "mm": Fraction("0.4")}


def shaft_and_hub(
    seat: Seat,
    *,
    in_range: bool,
    at_nominal: Seat | None,
    as_measured: tuple[str, ...] | None,
) -> list[Warning]:
    """Return the cautions about key, bore, shaft and the room over the key.

    Parameters
    ----------
    seat, in_range, at_nominal, as_measured
        As in `keyseats.warn.with_warnings`.
    """
    found: list[Warning] = _far_off(seat)
    if not in_range:
        found.append(
            Warning(
                "key-not-for-shaft",
                f"{seat.key.standard} does not give a {seat.key.designation} key for this shaft; "
                "the drawing or the hub must ask for it",
            )
        )
    found += _bore(seat)
    found += _other_key(seat, as_measured)
    room = _clearance(seat, at_nominal)
    found += room
    if seat.depth_from_crown.most.value > seat.work.shaft / 2:
        found.append(
            Warning(
                PAST_CENTRE,
                "the seat's floor lies past the shaft's centre and leaves less than half of it; "
                "take a smaller key",
            )
        )
    return found + _key_height(seat, told=bool(room))


def _far_off(seat: Seat) -> list[Warning]:
    """Return a caution where the size measured is more likely a slip than the shaft's own."""
    work = seat.work
    off = work.shaft - work.nominal
    if abs(off) <= FAR_OFF[work.unit]:
        return []
    return [
        Warning(
            FAR_OFF_NOMINAL,
            f"the shaft as measured, {said(work.shaft, seat)}, is {said(abs(off), seat)} "
            f"{'over' if off > 0 else 'under'} its nominal size, {said(work.nominal, seat)}, and "
            "every depth is reckoned from it; measure again, or give the nominal size that the "
            "shaft was made to",
        )
    ]


def _bore(seat: Seat) -> list[Warning]:
    bore, shaft = seat.work.bore, seat.work.shaft
    if bore is None or bore >= shaft:
        return []
    return [
        Warning(
            "bore-under-shaft",
            f"a bore of {said(bore, seat)} is {said(shaft - bore, seat)} under the shaft, "
            f"{said(shaft, seat)}: the hub does not slide on; measure both again, and press it on "
            "only if the drawing says so",
        )
    ]


def _other_key(seat: Seat, as_measured: tuple[str, ...] | None) -> list[Warning]:
    if as_measured is None or seat.key.designation in as_measured:
        return []
    off = seat.work.shaft - seat.work.nominal
    side = "over" if off > 0 else "under"
    gives = f"a {as_measured[0]} key" if as_measured else "no key of this family"
    return [
        Warning(
            "another-key-as-measured",
            f"the shaft measures {said(seat.work.shaft, seat)}, {said(abs(off), seat)} {side} its "
            f"nominal size, where {seat.key.standard} gives {gives}; see which key the hub has "
            "before you cut",
        )
    ]


def _clearance(seat: Seat, at_nominal: Seat | None) -> list[Warning]:
    """Return a caution where the sizes measured took the hub's top clearance away."""
    if at_nominal is None or tightest(seat) >= 0:
        return []
    hub, over = seat.hub_floor_to_opposite_side, seat.over_key
    sizes = (
        f"a shaft of {said(seat.work.shaft, seat)} in a bore of {said(seat.work.hub_bore, seat)}"
    )
    if roomiest(seat) < 0 and roomiest(at_nominal) >= 0:
        return [
            Warning(
                "top-clearance-gone",
                f"{sizes}: over key is {said(over.least.value, seat)} at least and the hub's floor "
                f"to opposite side {said(hub.most.value, seat)} at most, so the hub's top "
                f"clearance is gone by {said(-roomiest(seat), seat, 'up')} for any seat within the "
                "limits; bring the shaft to size, or have the hub's keyway cut for it",
            )
        ]
    if tightest(at_nominal) < 0:
        return []
    return [
        Warning(
            "top-clearance-gone-at-limits",
            f"{sizes}: over key may be {said(over.most.value, seat)} and the hub's floor to "
            f"opposite side {said(hub.least.value, seat)}, so the hub's top clearance is gone by "
            f"{said(-tightest(seat), seat, 'up')} at the limits; measure the hub, and keep over "
            "key under its floor to opposite side",
        )
    ]


def _key_height(seat: Seat, *, told: bool) -> list[Warning]:
    height, limits = seat.work.key_height, seat.key.height
    if height is None:
        return []
    if height > limits.most.value:
        room = tightest(seat)
        gone = ""
        if room < 0 and not told:
            gone = (
                f" and the hub's top clearance is gone by {said(-room, seat, 'up')} at the limits"
            )
        return [
            Warning(
                "key-high",
                f"a key {said(height, seat)} high is over its most, {marked(limits.most)}: it "
                f"stands that much higher{gone}; take another key, or dress this one to height",
            )
        ]
    if height < limits.least.value:
        flat = "; one with a flat below stands on its round: give the whole round's height"
        return [
            Warning(
                "key-low",
                f"a key {said(height, seat)} high is under its least, {marked(limits.least)}, and "
                "leaves the hub less of its side; take another key"
                + (flat if seat.key.diameter is not None else ""),
            )
        ]
    return []


def tightest(seat: Seat) -> Fraction:
    """Return the hub's top clearance over the highest key in the shallowest seat. [length]"""
    return top_clearance(seat.hub_floor_to_opposite_side.least.value, seat.over_key.most.value)


def roomiest(seat: Seat) -> Fraction:
    """Return the hub's top clearance over the lowest key in the deepest seat. [length]"""
    return top_clearance(seat.hub_floor_to_opposite_side.most.value, seat.over_key.least.value)
