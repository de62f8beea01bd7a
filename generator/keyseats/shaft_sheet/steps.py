"""The steps of a shaft sheet, in the order of the work, with boxes to write in."""

from __future__ import annotations

from keyseats import machining
from keyseats.lengths import decimal
from keyseats.page import Block
from keyseats.setting import DAGGER, limits_line, paragraph, set_width, words
from keyseats.shaft_sheet.composing import BIG, FIGURE, MAIN, SMALL, STEP, TINY, ShaftSheet
from keyseats.standing import Quantity
from keyseats.typeface import width

PER_LINE = 16
STEPS = 13
TEXT = 27.0
OVER_KEY = 22.0
Part = tuple[str, str, float]


def box(under: str, wide: float) -> Part:
    """Return a box to write in, with its name below."""
    return ("", under, wide)


def sign(text: str) -> Part:
    """Return what stands between boxes."""
    return (text, "", 0.0)


def steps(s: ShaftSheet) -> None:
    """Set the steps, first to last."""
    _drawing(s)
    _measure(s)
    _stop_if(s)
    _line(
        s,
        "Align.",
        "Shaft parallel with the slide. Cutter turning the way its teeth cut. Feed against it.",
    )
    _centre(s)
    _place(s)
    _line(
        s,
        "Witness cut.",
        "A bare mark on the crown. Uneven about its middle? Move half the difference, mark again.",
    )
    _touch(s)
    _feed(s)
    _floor(s)
    anvil = ", ball anvil" if s.half_moon else ""
    _line(
        s,
        "Finish.",
        f"Feed what is left, if any, a pass at most. Measure again at mid length{anvil}. Deburr.",
        ruled=False,
    )
    _over_key(s)
    _hub(s)


def _number(s: ShaftSheet, y: float) -> None:
    s.step += 1
    s.f.composer.say(s.f.left + 20, y, str(s.step), MAIN, bold=True, anchor="end")


def _lead(s: ShaftSheet, y: float, lead: str, text: str) -> float:
    room = s.f.right - s.f.left - TEXT - 4
    block, last = paragraph(s.f.left + TEXT, y, text, STEP, room, lead=lead, leading=1.22)
    s.f.composer.add(block)
    return last


def _close(s: ShaftSheet, y: float) -> None:
    """Rule a step off, and leave the page's spare room evenly round the rules."""
    s.f.composer.rule(s.f.left, s.f.right, y + s.pad / 2, 0.4)
    s.y = y + s.pad


def _line(s: ShaftSheet, lead: str, text: str, *, ruled: bool = True) -> None:
    """Set a step that is only words."""
    y = s.y + 12.5
    _number(s, y)
    last = _lead(s, y, lead, text)
    if ruled:
        _close(s, last + 5.2)
    else:
        s.y = last + 2


def _boxes(s: ShaftSheet, y: float, parts: list[Part], right: float = 0.0) -> None:
    """Set a sum of boxes and printed figures, flush right; names under the boxes."""
    c = s.f.composer
    x = s.f.right - right - sum(w or set_width(t, FIGURE) + 6 for t, _, w in parts)
    for text, under, wide in parts:
        if wide:
            c.frame(x + 2, y - 12, x + wide - 2, y + 4, 0.6)
            if under:
                c.say(x + wide / 2, y + 11.5, under, TINY, anchor="middle")
            x += wide
        else:
            c.say(x + 3, y, text, FIGURE)
            x += set_width(text, FIGURE) + 6


def _big_frame(s: ShaftSheet, height: float) -> tuple[float, float]:
    top = s.y + 4 + s.pad / 2
    s.f.composer.frame(s.f.left, top, s.f.right, top + height, 2.0)
    s.y = top + height + 2 + s.pad / 2
    _number(s, top + 14)
    return top, top + height


def _name(s: ShaftSheet, y: float, name: str, says: str) -> None:
    c, x = s.f.composer, s.f.left + TEXT
    c.say(x, y, name, MAIN, bold=True)
    c.say(x + width(name + "  ", MAIN, True), y, says, STEP)


def _drawing(s: ShaftSheet) -> None:
    y = s.y + 15
    _number(s, y)
    _lead(s, y, "Drawing and hub.", "They come first.")
    _boxes(s, y, [sign("drawing"), box("", 96), sign("bore"), box("", 76)])
    _close(s, y + 9)


def _measure(s: ShaftSheet) -> None:
    f, c, seat = s.f, s.f.composer, s.seat
    y = s.y + 13
    _number(s, y + 2)
    c.say(f.left + TEXT, y + 2, "Measure,", STEP, bold=True)
    c.say(f.left + TEXT, y + 13, "write down.", STEP)
    height, wide = seat.key.height, seat.seat_width
    shaft = s.setting(s.work.shaft)
    boxes = [
        ("shaft", f"for {shaft}" if s.work.as_nominal else f"measured {shaft}"),
        ("key width", f"nominal {seat.key.width.text}"),
        ("key height", f"{_marked(height.least)} to {_marked(height.most)}"),
        ("cutter width", f"{_marked(wide.least)} to {_marked(wide.most)}"),
    ]
    if seat.key.diameter is not None:
        boxes.append(("cutter diameter", f"least {seat.key.diameter.text}"))
    elif seat.cutter_kind == "disc":
        boxes.append(("cutter diameter", "half of it: step 6"))
    if seat.largest_neck is not None:
        boxes.append(("neck", f"not over {_marked(seat.largest_neck)}"))
    left = f.left + 85
    each = (f.right - left) / len(boxes)
    for n, (name, under) in enumerate(boxes):
        x = left + n * each
        c.say(x + 3, y - 2, name, SMALL)
        c.frame(x + 2, y + 1, x + each - 3, y + 18, 0.6)
        c.say(x + 3, y + 26, under, TINY)
    _close(s, y + 30)


def _marked(q: Quantity) -> str:
    """Return a figure's text, with its dagger if it was recalled."""
    return q.text + (DAGGER if q.recalled else "")


def _stop_if(s: ShaftSheet) -> None:
    stop = "the cutter's width is outside the seat's limits"
    if s.half_moon:
        stop += (
            ", its diameter is under the key's, its neck is over the largest, or the holder stands "
            f"nearer than {_stand_off(s)} to the cutter's face"
        )
    shaft = s.setting(s.work.shaft)
    text = f"{stop}. A shaft that is not {shaft} needs a sheet of its own."
    for warning in s.seat.warnings:
        text += f" NOW: {warning.says}."
    _line(s, "Stop if", text)


def _stand_off(s: ShaftSheet) -> str:
    """Return the stand-off that clears any holder: half the shaft less half the cutter."""
    return s.setting(s.work.shaft / 2 - s.seat.cutter_width.value / 2, "up")


def _centre(s: ShaftSheet) -> None:
    f, c, seat = s.f, s.f.composer, s.seat
    top, bottom = _big_frame(s, 53)
    touch = seat.centring.face_touch or seat.centring.rim_touch
    assert touch is not None
    by_rim = seat.cutter_kind == "end mill"
    how = "from a rim touch, across" if by_rim else "from a face touch, along"
    _name(s, top + 14, "CENTRE", f"{how} the spindle")
    big = words(f.left + TEXT, bottom - 7, touch.text, BIG)
    c.add(Block("P", (big,), rows=touch.rows, cut=True))
    note = "Rim past the widest point. Take the slack up the same way, then lock."
    if by_rim:
        note = "Take the slack up the same way, then lock."
    c.say(f.right - 6, top + 13, note, SMALL, anchor="end")
    parts = [
        box("touch reading", 76),
        sign("+"),
        box("paper", 46),
        sign(f"+ {touch.text} ="),
        box("lock here", 76),
    ]
    _boxes(s, bottom - 17, parts, right=4)


def _place(s: ShaftSheet) -> None:
    seat = s.seat
    y = s.y + 14
    _number(s, y)
    if seat.key.diameter is not None and seat.cutter_diameter is not None:
        _lead(s, y, "Place along,", "end face to mid seat.")
        half = s.setting(seat.cutter_diameter.value / 2)
        parts = [
            box("touch", 60),
            sign("+"),
            box("paper", 42),
            sign(f"+ {half} +"),
            box("end to middle", 62),
            sign("="),
            box("lock here", 66),
        ]
    else:
        _lead(s, y, "Place along.", "To full depth.")
        parts = [
            box("touch", 56),
            sign("+"),
            box("paper", 42),
            sign("+"),
            box("half cutter diameter", 76),
            sign("+"),
            box("end to full depth", 66),
            sign("="),
            box("stop here", 60),
        ]
    _boxes(s, y, parts)
    _close(s, y + 14.5)


def _touch(s: ShaftSheet) -> None:
    y = s.y + 15
    _number(s, y)
    _lead(s, y, "Touch the crown.", "Feeler lying along, over the mark.")
    parts = [box("touch reading", 76), sign("+"), box("paper", 46), sign("="), box("crown", 76)]
    _boxes(s, y, parts)
    s.y = y + 14


def _feed(s: ShaftSheet) -> None:
    f, c, depth = s.f, s.f.composer, s.seat.depth_from_crown
    deepest = machining.DEEPEST_PASS[s.unit]
    readings = machining.readings(depth.least.value, deepest)
    lines = max(1, -(-len(readings) // PER_LINE))
    top, bottom = _big_frame(s, 64 + 26 * lines)
    _name(s, top + 14, "FEED FROM THE CROWN", "to the floor. It is not the key's height.")
    c.add(limits_line(f.left + TEXT, top + 46, depth, BIG, small=0.45)[0])
    _boxes(s, top + 38, [sign("crown + feed ="), box("least", 64), box("most", 64)], right=4)
    places = 3 if s.unit == "in" else 1
    left = f.left + TEXT
    each = (f.right - 4 - left) / PER_LINE
    for n, reading in enumerate(readings):
        x, level = left + (n % PER_LINE) * each, top + 62 + (n // PER_LINE) * 26
        last = n == len(readings) - 1
        text = decimal(reading, places)
        c.say(x + each / 2, level, text, FIGURE, bold=last, anchor="middle")
        c.frame(x + 1.5, level + 3, x + each - 1.5, level + 15, 1.4 if last else 0.5)
    note = (
        f"Not over {decimal(deepest, places)} a pass (common practice), from the crown. Boxes: "
        "your dial's readings. Heavy box: stop short and measure."
    )
    c.say(left, bottom - 4, note, SMALL)


def _floor(s: ShaftSheet) -> None:
    f, c, floor = s.f, s.f.composer, s.seat.floor_to_opposite_side
    y = s.y + 15
    _number(s, y)
    name = "Floor to opposite side"
    c.say(f.left + TEXT, y, name, STEP, bold=True)
    c.add(limits_line(f.left + TEXT + width(name + "  ", STEP, True), y, floor, MAIN)[0])
    parts = [box("measured", 70), sign(f"− {floor.most.text} ="), box("still to feed", 70)]
    _boxes(s, y, parts)
    _close(s, y + 14.5)


def _over_key(s: ShaftSheet) -> None:
    f, c, seat = s.f, s.f.composer, s.seat
    floor = seat.floor_to_opposite_side
    top, bottom = _big_frame(s, 45)
    known = s.work.key_height is not None
    says = (
        "opposite side to the top of this key"
        if known
        else "any standard key. For this key, the boxes"
    )
    _name(s, top + 14, "OVER KEY", says)
    size = BIG if known else OVER_KEY
    c.add(limits_line(f.left + TEXT, bottom - 8, seat.over_key, size, small=0.5)[0])
    if known:
        return
    parts = [
        box("key height H", 50),
        sign(f"H + {floor.least.text} ="),
        box("least", 50),
        sign(f"H + {floor.most.text} ="),
        box("most", 50),
    ]
    _boxes(s, bottom - 17, parts, right=4)


def _hub(s: ShaftSheet) -> None:
    f, c = s.f, s.f.composer
    y = s.y + 13
    _number(s, y)
    name = "Hub, floor to opposite side"
    c.say(f.left + TEXT, y, name, STEP, bold=True)
    at = f.left + TEXT + width(name + "  ", STEP, True)
    block, end = limits_line(at, y, s.seat.hub_floor_to_opposite_side, MAIN)
    c.add(block)
    c.say(end + 12, y, "Try the hub by hand before it goes on.", STEP)
    s.y = y + 6
