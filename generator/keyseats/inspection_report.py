"""What a measurement of a cut seat means, in sentences, as JSON and on screen."""

from __future__ import annotations

import textwrap
from fractions import Fraction
from typing import Any

from keyseats import geometry
from keyseats.inspection import (
    DEEP,
    INSIDE,
    NAMES,
    SHALLOW,
    UNDECIDED,
    Inspection,
    allowed,
    nearer,
    shown,
)
from keyseats.inspection_slips import slip
from keyseats.lengths import decimal
from keyseats.report import limits, quantity
from keyseats.screen import UNITS
from keyseats.seat import SETTING_PLACES
from keyseats.standing import Limits, Quantity, between
from keyseats.warn import FAR_OFF_NOMINAL

DAGGER = "†"
GROUND_UNDER = "cutter-ground-under-key"
# Said before the verdict: with one of these the figures below it mean something else.
FIRST = (FAR_OFF_NOMINAL, GROUND_UNDER)
RECALLED = "† recalled, not read: check it against your own copy of the standard before cutting."
FOOT = (
    "The drawing, local rules and a qualified engineer come first where a failure can hurt "
    "someone. Stop the spindle before you measure."
)


def says(found: Inspection) -> tuple[str, ...]:
    """Return what to mind first, the verdict, what it means, what to do and mind, as sentences."""
    told = [*first(found), *verdict(found), standing(found), *hub(found), *remedy(found)]
    told += cautions(found)
    if any(DAGGER in sentence for sentence in told):
        told.append(RECALLED)
    return tuple(told)


def inspection_json(found: Inspection) -> dict[str, Any]:
    """Return the answer to ``keyseats inspect --json``.

    The depth from crown is a quantity, or limits where over key was measured without the key's
    height: then it is what the seat can be.
    """
    depth = found.depth_from_crown
    exact = depth.least.value == depth.most.value
    return {
        "verdict": found.verdict,
        "by": quantity(found.by),
        "depth_from_crown": quantity(depth.least) if exact else limits(depth),
        "limits": limits(found.limits),
        "key_above_edge": limits(found.key_above_edge),
        "lift": None if found.rides is None else limits(found.rides),
        "warnings": [{"code": w.code, "says": w.says} for w in found.seat.warnings],
        "says": " ".join(says(found)),
    }


def inspection_lines(found: Inspection, shaft: str) -> list[str]:
    """Return what ``keyseats inspect`` prints."""
    seat, work = found.seat, found.seat.work
    taken = "at its nominal size"
    if not work.as_nominal:
        taken = f"measured {shown(work.shaft, work.unit)}"
    lines = [
        f"{_name(found)} seat in a shaft of {shaft}, {taken}; all figures in {UNITS[work.unit]}.",
        "",
    ]

    def row(label: str, text: str, remark: str = "") -> None:
        lines.append(f"  {label:<34} {text:<24} {remark}".rstrip())

    name = NAMES[found.datum]
    row(found.verdict.upper(), f"by {found.by.text}" if found.by.value else "")
    row(f"measured: {name}", found.measured.text, f"limits {_pair(found.limits)}")
    if found.datum != "from-crown":
        right = allowed(seat, "from-crown")
        row("depth from crown", _span(found.depth_from_crown), f"limits {_pair(right)}")
    if found.rides is not None:
        row("key rides up", _span(found.rides), "counted in")
    row("key above edge", _span(found.key_above_edge), f"right {_pair(seat.key_above_edge)}")
    row("key over the crown", _span(found.key_above_crown))
    right = found.key_in_hub_if_right
    row("key's side in the hub", _span(found.key_in_hub), f"right {_pair(right)}")
    row("hub's floor clear of the key", _span(found.hub_clearance), "under zero: it binds")
    lines.append("")
    told = [*first(found), *verdict(found), *hub(found), *remedy(found), *cautions(found), FOOT]
    if any(DAGGER in line for line in [*lines, *told]):
        told.append(RECALLED)
    for sentence in told:
        lines += textwrap.wrap(sentence, 92, subsequent_indent="  ", break_on_hyphens=False)
    return lines


def first(found: Inspection) -> list[str]:
    """Return what has to be known before the verdict: the cutter, the shaft, how the key lies."""
    seat, told = found.seat, []
    if seat.work.cutter_name:
        across = seat.cutter_diameter or seat.cutter_width
        sizes = "" if seat.cutter_kind == "end mill" else f"{seat.cutter_width.text} wide, "
        told.append(f"Taken as cut by {seat.work.cutter_name}: {sizes}{across.text} diameter.")
    for warning in seat.warnings:
        if warning.code == FAR_OFF_NOMINAL:
            told.append(f"Measure the shaft again first: {warning.says}.")
        if warning.code == GROUND_UNDER:
            told.append(f"Caution: {warning.says}.")
    if found.rides is not None:
        told.append(
            f"The key is taken to ride up {_span(found.rides)} here, and over key is counted with "
            "that; floor to opposite side tells the depth without it."
        )
    return told


def verdict(found: Inspection) -> list[str]:
    """Return the verdict in words, with its reason and the slip that it looks like."""
    name, text, right = NAMES[found.datum], found.measured.text, _pair(found.limits)
    if found.verdict == UNDECIDED:
        return _undecided(found)
    if found.verdict == INSIDE:
        told = [f"Inside: {name} {text}, limits {right}."]
        if not _exact(found.depth_from_crown):
            told[0] = f"{told[0][:-1]}; right whatever the key's height within its own limits."
        told += _by_print(found)
        return told
    told = [f"{found.verdict.capitalize()} by {found.by.text}: {name} {text}, limits {right}."]
    others = nearer(found.seat, found.datum, found.measured.value)
    if others:
        names = " and of ".join(NAMES[other] for other in others)
        options = " or ".join(f"--{other}" for other in others)
        told.append(
            f"{text} is far nearer to the limits of {names}: if that was measured, give {options}."
        )
    return told + slip(found)


def _undecided(found: Inspection) -> list[str]:
    right, depth = found.seat.depth_from_crown, found.depth_from_crown
    measure = "measure the key and give --key-height, or measure floor to opposite side."
    wrong = []
    if depth.least.value < right.least.value:
        wrong.append("shallow")
    if depth.most.value > right.most.value:
        wrong.append("deep")
    # The heights that make a right seat of it, cut down to those that the key can have.
    height, shaft, unit = found.key_height, found.seat.work.shaft, found.seat.work.unit
    floor = found.measured.value - shaft
    least = max(height.least.value, floor + right.least.value)
    most = min(height.most.value, floor + right.most.value)
    places = SETTING_PLACES[unit]
    ends = decimal(least, places, "up"), decimal(most, places, "down")
    if Fraction(ends[0]) > Fraction(ends[1]):
        ends = (decimal(least, places + 1), decimal(most, places + 1))
    heights = " to ".join(dict.fromkeys(ends))
    told = (
        f"Undecided: over key {found.measured.text} is inside {_pair(found.limits)}, but those are "
        f"the limits of seat and key together. With a key {_pair(height)} high the floor can lie "
        f"{_span(depth)} from the crown, limits {_pair(right)}: the seat may be right or too "
        f"{' or too '.join(wrong)}."
    )
    if found.rides is not None:
        return [told, f"To decide it, {measure}"]
    return [told, f"It is right if this key is {heights} high: {measure}"]


def _by_print(found: Inspection) -> list[str]:
    """Say so where only the standard's own rounding lets a seat in."""
    if found.datum != "opposite-side":
        return []
    exact = found.seat.floor_to_opposite_side
    value, places = found.measured.value, SETTING_PLACES[found.seat.work.unit]
    for end, off in (
        (exact.least, value < exact.least.value),
        (exact.most, value > exact.most.value),
    ):
        if off:
            return [
                f"{found.seat.key.standard} prints {end.text}; its rule worked exactly gives "
                f"{decimal(end.value, places)}."
            ]
    return []


def standing(found: Inspection) -> str:
    """Return how high the key stands."""
    edge = _over(found.key_above_edge, "the edge", "above")
    crown = _over(found.key_above_crown, "the crown", "over")
    right = _pair(found.seat.key_above_edge)
    return f"The key stands {edge} (in a right seat {right} above) and {crown}."


def hub(found: Inspection) -> list[str]:
    """Return what of the key drives the hub, and whether the hub passes."""
    bore = shown(found.seat.work.hub_bore, found.seat.work.unit)
    side, right = found.key_in_hub, _pair(found.key_in_hub_if_right)
    touching = "shaft and bore touching on the opposite side"
    if side.most.value <= 0:
        part = f"In a {bore} bore, {touching}, none of the key's side stands in the hub"
    else:
        part = (
            f"In a {bore} bore, {touching}, {_span(_not_under_zero(side))} of the key's side "
            "stands in the hub"
        )
    told = [f"{part}; with a right seat {right}."]
    if found.over_key.most.value <= found.seat.work.hub_bore:
        told.append(
            "The key's top does not rise past the bore's full diameter: the hub would drive on "
            "as good as nothing."
        )
    clear = found.hub_clearance
    where = "with a hub keyway inside its limits"
    if clear.least.value > 0:
        told.append(f"The hub passes: {where} its floor clears the key by {_span(clear)}.")
    elif clear.most.value <= 0:
        low, high = _text(found, -clear.most.value), _text(found, -clear.least.value)
        told.append(
            f"The hub will not pass: {where} the key stands {_joined(low, high)} too high for it."
        )
    else:
        low, high = _text(found, -clear.least.value), clear.most.text
        told.append(
            f"The hub may not pass: {where} it binds by up to {low} or clears by up to {high}. "
            "Measure the hub's floor to opposite side and over key."
        )
    return told


def remedy(found: Inspection) -> list[str]:
    """Return what can be done about a seat outside its limits."""
    if found.verdict in (SHALLOW, DEEP) and _far_off(found):
        return [
            "Feed nothing and make no key before the shaft is measured again: its size is in every "
            "figure here."
        ]
    if found.verdict == SHALLOW:
        return [_feed(found)]
    if found.verdict == DEEP:
        return [_deep(found)]
    return []


def _far_off(found: Inspection) -> bool:
    return FAR_OFF_NOMINAL in {warning.code for warning in found.seat.warnings}


def _feed(found: Inspection) -> str:
    seat, depth, right = found.seat, found.depth_from_crown, found.seat.depth_from_crown
    over_key, half_moon = found.datum == "over-key", seat.key.diameter is not None
    if over_key and half_moon and seat.work.cutter_diameter is None:
        return (
            "Feed nothing before the cutter is measured: in a seat cut by one ground under the "
            "key's diameter the key rides up, and over key reads shallow. Give --cutter-diameter, "
            "or measure floor to opposite side."
        )
    places = SETTING_PLACES[seat.work.unit]
    if not _exact(depth):
        least = decimal(right.least.value - depth.most.value, places, "up")
        return (
            f"Feed {least} more, which cannot be too much, then measure floor to opposite "
            "side: over key cannot say how far the rest is until this key's height is measured."
        )
    if over_key and found.rides is not None:
        least = decimal(right.least.value - depth.least.value, places, "up")
        most = decimal(right.most.value - depth.least.value, places, "down")
        return f"Feed {least} to {most} more, and measure floor to opposite side."
    wide = found.limits.most.value - found.limits.least.value
    most = decimal(found.by.value + wide, places, "down")
    return f"Feed {found.by.text} to {most} more, and measure again."


def _deep(found: Inspection) -> str:
    seat, depth = found.seat, found.depth_from_crown
    told = "What is cut cannot be put back: ask first what the drawing allows. "
    if seat.key.diameter is not None and _exact(depth):
        diameter = seat.cutter_diameter or seat.key.diameter
        neck = geometry.largest_neck(diameter.value, depth.least.value - seat.arc_height.value)
        if neck > 0:
            told += f"Look at the edges: a neck over {_text(found, neck)} has rubbed them. "
        else:
            told += "Look at the edges: any neck has rubbed them. "
    high, what = "", "a higher key made to measure"
    if found.rides is not None:
        what = "a key made to measure, less what it rides up"
    elif _exact(depth):
        # Over key as it would be with any key inside its limits in a right seat.
        whole = between(seat.floor_to_opposite_side, seat.key.height)
        floor = seat.work.shaft - depth.least.value
        places = SETTING_PLACES[seat.work.unit]
        least = decimal(whole.least.value - floor, places, "up")
        most = decimal(whole.most.value - floor, places, "down")
        high = f", {least} to {most} high"
        if Fraction(least) <= seat.key.height.most.value:
            what = "a key picked or made to measure"
    return (
        f"{told}With the drawing's leave, {what}{high}, or a new seat "
        "elsewhere round the shaft. A shim under the key is nothing to count on."
    )


def cautions(found: Inspection) -> list[str]:
    """Return what can make the measurement itself wrong."""
    seat = found.seat
    told = [f"Caution: {w.says}." for w in seat.warnings if w.code not in FIRST]
    height, own = found.key_height, seat.key.height
    if not own.least.value <= height.least.value <= own.most.value:
        told.append(
            f"The key, {height.least.text} high, is outside its own limits, {_pair(own)}: look "
            "whether it is the right key."
        )
    if found.datum == "at-edge":
        told.append(
            "Deburring moves the edge down, and depth at edge then reads shallower than the seat "
            "is: if the edges were broken first, measure floor to opposite side instead."
        )
    if found.datum == "from-crown":
        told.append(
            "A dial shows what was fed, not what was cut: if this is a dial reading, prove it by "
            "floor to opposite side."
        )
    if found.datum in ("opposite-side", "over-key") and seat.work.measured is None:
        told.append(
            "The shaft is taken at its nominal size: whatever it is off, this verdict is off as "
            "much. Measure it and give --measured."
        )
    if found.datum == "over-key":
        rides = "A key that is not down on the floor makes the seat read shallow"
        if seat.key.diameter is not None and seat.work.cutter_diameter is None:
            rides += ", and in a seat of a cutter ground under its diameter it is not"
        told.append(f"{rides}.")
    if seat.key.diameter is not None:
        anvil = ", with a ball anvil" if found.datum == "opposite-side" else ""
        told.append(f"Measure a half-moon seat at mid-length{anvil}.")
    return told


def _name(found: Inspection) -> str:
    key = found.seat.key
    return f"No. {key.designation}" if key.family == "inch half-moon" else key.designation


def _exact(span: Limits) -> bool:
    return span.least.value == span.most.value


def _marked(q: Quantity) -> str:
    return q.text + (DAGGER if q.recalled else "")


def _pair(pair: Limits) -> str:
    """Return limits with their daggers."""
    return _joined(_marked(pair.least), _marked(pair.most))


def _span(span: Limits) -> str:
    """Return what a seat can be: one figure, or two."""
    return _joined(span.least.text, span.most.text)


def _joined(least: str, most: str) -> str:
    return least if least == most else f"{least} to {most}"


def _text(found: Inspection, value: Fraction) -> str:
    return decimal(value, SETTING_PLACES[found.seat.work.unit])


def _not_under_zero(span: Limits) -> Limits:
    if span.least.value >= 0:
        return span
    unit = span.least.unit
    zero = Quantity(Fraction(0), unit, span.least.standing).printed(SETTING_PLACES[unit])
    return Limits(zero, span.most)


def _over(span: Limits, what: str, word: str) -> str:
    """Return how far above or below a level, whichever it is, or both."""
    least, most = span.least, span.most
    if least.value >= 0:
        return f"{_span(span)} {word} {what}"
    if most.value <= 0:
        high, low = most.text.lstrip("-"), least.text.lstrip("-")
        return f"{_joined(high, low)} below {what}"
    return f"from {least.text.lstrip('-')} below to {most.text} {word} {what}"
