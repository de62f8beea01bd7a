"""Steps that prove the seat: floor, edge, over the key, and the hub."""

from __future__ import annotations

from keyseats.inspection import hub_clearance
from keyseats.lengths import article
from keyseats.page import Block
from keyseats.seat import SETTING_PLACES
from keyseats.setting import limits_line, words
from keyseats.shaft_sheet.composing import (
    MAIN,
    TEXT,
    ShaftSheet,
    both,
    box,
    boxes,
    close,
    lead,
    line,
    marked,
    number,
    off_centre,
    sign,
    space,
)
from keyseats.shaft_sheet.naming import named
from keyseats.standing import Limits
from keyseats.typeface import width

OVER_KEY = 20.0


def _limits(s: ShaftSheet, y: float, name: str, limits: Limits) -> float:
    """Set a name and its limits at the head of a step; return where they end."""
    c, left = s.f.composer, s.f.left + TEXT
    c.say(left, y, name, s.ease.words, bold=True)
    block, end = limits_line(left + width(name + "  ", s.ease.words, True), y, limits, MAIN)
    c.add(block)
    return end


def stop_short(s: ShaftSheet) -> None:
    """Set the floor's limits, what is measured at the stop, and what is left to feed."""
    floor = s.floor
    y = s.y + 15
    number(s, y)
    _limits(s, y, "Stop short, measure floor to opposite side", floor)
    boxes(s, y, [box("measured", 66), sign(f"− {floor.most.text} ="), box("left to feed", 60)])
    close(s, y + 13 + s.ease.gap / 3)


def finish(s: ShaftSheet) -> None:
    """Set the last cut, and what it is measured with."""
    tool = "micrometer with a ball anvil, at mid-length" if s.half_moon else "micrometer and a pin"
    text = (
        f"Feed what is left, if any; measure again, {tool}. Measure depth at edge before you "
        "deburr."
    )
    if s.seat.floor_radius is not None:
        text += " Ease the key's corners to clear the floor's."
    line(s, "Finish.", text, ruled=False)


def over_key(s: ShaftSheet) -> None:
    """Set the figure over this key, or over any, with boxes for the key in hand."""
    f, c, seat = s.f, s.f.composer, s.seat
    floor = s.floor
    top = s.y + s.ease.gap + s.pad / 2
    number(s, top + 14)
    known = s.work.key_height is not None
    above = f"key above edge {both(seat.key_above_edge)}"
    says = [f"deburred, key pressed down; {above}", above]
    name = "OVER THIS KEY" if known else "OVER KEY"
    if seat.lift is not None:
        lifted = f"this seat lifts it {marked(seat.lift)}"
        flat = f"for a key on the floor: {lifted}"
        says = [*(f"{flat}; {more}" for more in (*says, "deburred")), flat, lifted]
    named(s, top + 14, name, *says)
    size = s.ease.big if known else OVER_KEY
    base = s.base_of(top, size) + (0 if known else 4)
    c.add(limits_line(f.left + TEXT, base, seat.over_key, size, small=0.5)[0])
    parts = [sign("measured"), box("", 84)]
    if not known:
        parts = [
            box("key height H", 50),
            space(14),
            sign(f"H + {floor.least.text} ="),
            box("least", 50),
            space(14),
            sign(f"H + {floor.most.text} ="),
            box("most", 50),
        ]
    boxes(s, base - 5, parts)
    base += 0 if known else 7
    f.composer.frame(f.left, top, f.right, base + 2 + s.ease.gap, 2.0)
    s.y = base + 4 + s.ease.gap + s.pad / 2


def hub(s: ShaftSheet) -> None:
    """Set the hub's keyway: floor to opposite side, width, and the room over the key."""
    f, c, seat = s.f, s.f.composer, s.seat
    y = s.y + 13.5
    number(s, y)
    end = _limits(s, y, "Hub, floor to opposite side", seat.hub_floor_to_opposite_side)
    # One place less than is set: a sum of the page's own figures is rounded otherwise in the last.
    places = SETTING_PLACES[s.unit] - 1
    clear = both(hub_clearance(seat).printed(places, "nearest")).replace("-", "−")
    bore = f"in {article(s.setting(s.work.hub_bore))} bore;"
    over = f"over the key {clear} clear"
    over += f", less the lift, {marked(seat.lift)}." if seat.lift is not None else "."
    text = (
        f"Keyway {both(seat.hub_width)} wide; off centre, {off_centre(s, named=False)}; "
        f"{marked(s.done.skew)} askew at most. Try the hub by hand."
    )
    if end + 10 + width(f"{bore} {over}", s.ease.words) <= f.right:
        bore = f"{bore} {over}"
    else:
        text = f"{over} {text}"
    c.add(Block("P", (words(end + 10, y, bore, s.ease.words),)))
    last = lead(s, y + s.ease.words * 1.35, "", text, rows=seat.hub_width.rows)
    s.y = last + 4.5 + s.clear
