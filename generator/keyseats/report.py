"""Seats as JSON for machines and as lines for a screen."""

from __future__ import annotations

from typing import Any

from keyseats.lengths import decimal
from keyseats.seat import SETTING_PLACES, Seat, Work
from keyseats.standing import EXACT, Limits, Quantity, typed, weakest
from keyseats.warn import PAST_CENTRE

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
UNITS = {"in": "inches", "mm": "millimetres"}
SINGLES = ("arc_height", "opening_at_crown", "opening_at_edge", "largest_neck")


def quantity(q: Quantity | None, places: int | None = None) -> dict[str, Any] | None:
    """Return a quantity as JSON: unrounded value, unit, printed text."""
    if q is None:
        return None
    text = q.text or decimal(q.value, places if places is not None else SETTING_PLACES[q.unit])
    return {"value": float(q.value), "unit": q.unit, "text": text}


def limits(pair: Limits) -> dict[str, Any]:
    """Return limits as JSON."""
    return {"least": quantity(pair.least), "most": quantity(pair.most)}


def standing(seat: Seat) -> dict[str, str]:
    """Return how well each figure is known.

    For limits there are three entries: ``NAME.least`` and ``NAME.most``, and ``NAME`` for the end
    that the standard tables (the better known of the two, the other being tabled plus a
    tolerance).
    """
    from keyseats.standing import ORDER

    found: dict[str, str] = {}
    for name in LIMITS:
        pair: Limits = getattr(seat, name)
        ends = [pair.least.standing, pair.most.standing]
        found[name] = min(ends, key=lambda s: ORDER.index(s) if s in ORDER else -1)
        found[f"{name}.least"], found[f"{name}.most"] = ends
    for name in SINGLES:
        single: Quantity | None = getattr(seat, name)
        if single is not None:
            found[name] = single.standing
    touches = [
        q
        for q in (seat.centring.face_touch, seat.centring.rim_touch, seat.centring.edge_finder)
        if q
    ]
    found["centring"] = weakest([q.standing for q in touches]) if touches else EXACT
    return found


def seat_json(seat: Seat) -> dict[str, Any]:
    """Return one seat as JSON; what does not apply, or is not yet computed, is null."""
    key = seat.key
    out: dict[str, Any] = {
        "key": {
            "family": key.family,
            "standard": key.standard,
            "designation": key.designation,
            "width": quantity(key.width),
            "height": limits(key.height),
            "diameter": quantity(key.diameter),
        },
        "choice": seat.choice,
        "fit": seat.fit,
        "arc_height": quantity(seat.arc_height),
    }
    for name in LIMITS:
        out[name] = limits(getattr(seat, name))
    out["centring"] = {
        "face_touch": quantity(seat.centring.face_touch),
        "rim_touch": quantity(seat.centring.rim_touch),
        "edge_finder": quantity(seat.centring.edge_finder),
    }
    for name in SINGLES[1:]:
        out[name] = quantity(getattr(seat, name))
    out["cutter"] = {
        "kind": seat.cutter_kind,
        "width": quantity(seat.cutter_width),
        "diameter": quantity(seat.cutter_diameter),
    }
    out["passes"] = None
    out["blocks"] = None
    out["standing"] = standing(seat)
    out["warnings"] = [{"code": w.code, "says": w.says} for w in seat.warnings]
    return out


def shaft_json(work: Work, seats: list[Seat]) -> dict[str, Any]:
    """Return the answer to ``keyseats shaft --json``."""
    return {
        "shaft": {
            "nominal": quantity(typed(work.nominal, work.unit)),
            "measured": quantity(typed(work.shaft, work.unit)),
        },
        "bore": quantity(typed(work.hub_bore, work.unit)),
        "seats": [seat_json(seat) for seat in seats],
    }


def _pair(pair: Limits) -> str:
    def one(q: Quantity) -> str:
        return q.text + ("†" if q.recalled else "")

    return f"{one(pair.least)} to {one(pair.most)}"


def _one(q: Quantity | None) -> str:
    return "-" if q is None else q.text + ("†" if q.recalled else "")


def seat_lines(seat: Seat) -> list[str]:
    """Return one seat's figures, one a line, in the order of the work."""
    key = seat.key
    name = f"No. {key.designation}" if key.family == "inch half-moon" else key.designation
    lines = [f"{name}  ({key.family} key, {key.standard}, {seat.fit} fit, {seat.choice} choice)"]

    def row(label: str, text: str, remark: str = "") -> None:
        lines.append(f"  {label:<30} {text}" + (f"   {remark}" if remark else ""))

    for warning in seat.warnings:
        lines.append(f"  CAUTION: {warning.says}")
    row("key width; height", f"{key.width.text}; {_pair(key.height)}")
    row("seat width", _pair(seat.seat_width))
    if seat.largest_neck is not None:
        row("largest neck of the cutter", _one(seat.largest_neck))
    touch = seat.centring.face_touch
    if touch is not None:
        row("centring travel", _one(touch), "face touch, along the spindle")
    if seat.centring.rim_touch is not None:
        row("centring travel", _one(seat.centring.rim_touch), "rim touch, across the spindle")
    row("arc height", _one(seat.arc_height))
    row("depth from crown", _pair(seat.depth_from_crown), "feed this after touching the crown")
    row("depth at edge", _pair(seat.depth_at_edge))
    row("floor to opposite side", _pair(seat.floor_to_opposite_side))
    row("over key", _pair(seat.over_key))
    row("key above edge", _pair(seat.key_above_edge))
    if seat.opening_at_crown is not None:
        row("opening at the crown", _one(seat.opening_at_crown))
    row("hub width", _pair(seat.hub_width))
    bore = decimal(seat.work.hub_bore, SETTING_PLACES[seat.work.unit])
    row("hub: floor to opposite side", _pair(seat.hub_floor_to_opposite_side), f"in a {bore} bore")
    return lines


def screen(work: Work, seats: list[Seat], shown: str, *, all_keys: bool) -> list[str]:
    """Return what ``keyseats shaft`` prints: first choices in full, the others by name."""
    taken = "at its nominal size" if work.as_nominal else f"measured {_measured(work)}"
    lines = [f"Shaft {shown}, {taken}; all figures in {UNITS[work.unit]}.", ""]
    full = seats if all_keys else [s for s in seats if s.choice == "first"]
    full = sorted(full, key=lambda s: s.work.unit != work.unit)
    unit = work.unit
    for seat in full:
        if seat.work.unit != unit:
            unit = seat.work.unit
            lines += [f"From here on in {UNITS[unit]}, for a shaft of {_measured(seat.work)}.", ""]
        lines += [*seat_lines(seat), ""]
    # A key whose seat would pass the shaft's centre is not offered; --key gives it, with a caution.
    others = [
        s
        for s in seats
        if s not in full and PAST_CENTRE not in {warning.code for warning in s.warnings}
    ]
    if others:
        names = ", ".join(s.key.designation for s in others)
        lines += _wrapped(f"Other keys for this shaft (--key NAME): {names}") + [""]
    if any("†" in line for line in lines):
        lines += _wrapped(
            "† recalled, not read: check it against your own copy of the standard before cutting."
        )
    lines += _wrapped(
        "Measure your own shaft, key and cutter. The drawing, local rules and a qualified engineer "
        "come first where a failure can hurt someone. Stop the spindle before you measure."
    )
    return lines


def _measured(work: Work) -> str:
    return decimal(work.shaft, SETTING_PLACES[work.unit])


def _wrapped(text: str, width: int = 92) -> list[str]:
    import textwrap

    return textwrap.wrap(text, width)
