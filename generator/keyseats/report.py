"""Seats as JSON, for machines."""

from __future__ import annotations

from typing import Any

from keyseats.frozen import replace
from keyseats.inspection import hub_clearance
from keyseats.lengths import decimal
from keyseats.seat import SETTING_PLACES, Seat, Work
from keyseats.set_up import Move, SetUp, reading_text
from keyseats.slides import DialReading
from keyseats.standing import EXACT, Limits, Quantity, typed, weakest

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
SINGLES = (
    "arc_height",
    "opening_at_crown",
    "opening_at_edge",
    "largest_neck",
    "ramp",
    "stand_off_needed",
)


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


def seat_json(done: SetUp) -> dict[str, Any]:
    """Return one seat and its set-up as JSON; what does not apply is null."""
    seat, key = done.seat, done.seat.key
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
    out["passes"] = passes_json(done)
    out["blocks"] = None if done.blocks is None else [quantity(b) for b in done.blocks.blocks]
    out["set_up"] = set_up_json(done)
    out["standing"] = standing(seat)
    out["warnings"] = [{"code": w.code, "says": w.says} for w in seat.warnings]
    return out


def dial_json(dial: DialReading | None) -> dict[str, Any]:
    """Return a dial's reading as JSON; nulls where there is no dial."""
    if dial is None:
        return {"turns": None, "divisions": None}
    return {"turns": dial.turns, "divisions": float(dial.divisions)}


def _move_json(move: Move | None) -> dict[str, Any] | None:
    if move is None:
        return None
    return {
        "slide": move.slide.name if move.slide is not None else None,
        "direction": move.direction,
        "travel": quantity(move.travel),
        "rim_above_centre": quantity(move.above),
        **dial_json(move.dial),
        "instead": list(move.instead),
    }


def passes_json(done: SetUp) -> list[dict[str, Any]]:
    """Return the cuts as JSON, each reading counted from the touch."""
    unit = done.seat.work.unit
    return [
        {
            "reading": quantity(
                replace(typed(cut.reading, unit), text=reading_text(cut.reading, unit))
            ),
            **dial_json(dial),
            "measure": cut.measure,
        }
        for cut, dial in zip(done.feed.plan.cuts, done.feed.dials, strict=True)
    ]


def set_up_json(done: SetUp) -> dict[str, Any]:
    """Return what each slide is set to, as JSON."""
    along, feed, speed = done.along, done.feed, done.speed
    ends = feed.ends
    return {
        "cutter": done.seat.work.cutter_name or None,
        "centre": _move_json(done.centre),
        "edge_finder": _move_json(done.finder),
        "along": {
            "slide": along.slide.name if along.slide is not None else None,
            "direction": along.direction,
            "add_from_end": quantity(along.add_from_end),
            "take_from_shoulder": quantity(along.take_from_shoulder),
            "least_from_shoulder": quantity(along.least_from_shoulder),
            **dial_json(along.dial),
            "to_dial": along.to_dial or None,
        },
        "feed": {
            "slide": feed.slide.name,
            "usual": feed.usual,
            "direction": feed.direction,
            "limits": limits(feed.limits),
            "on_dial": None if ends is None else [dial_json(ends[0]), dial_json(ends[1])],
        },
        "speed": None
        if speed is None
        else {
            "material": speed.material,
            "least_rpm": speed.low,
            "most_rpm": speed.high,
            "from": speed.source,
        },
        "offset": quantity(done.offset),
        "skew": quantity(done.skew),
        "hub_clearance": limits(hub_clearance(done.seat)),
    }


def shaft_json(work: Work, ready: list[SetUp]) -> dict[str, Any]:
    """Return the answer to ``keyseats shaft --json``."""
    return {
        "shaft": {
            "nominal": quantity(typed(work.nominal, work.unit)),
            "measured": quantity(typed(work.shaft, work.unit)),
        },
        "bore": quantity(typed(work.hub_bore, work.unit)),
        "seats": [seat_json(done) for done in ready],
    }
