"""Steps after the centre line: the place along the shaft, and the witness cut."""

from __future__ import annotations

from keyseats.geometry import ramp
from keyseats.seat import SETTING_PLACES
from keyseats.set_up import turned_by
from keyseats.shaft_sheet import dials
from keyseats.shaft_sheet.cautions import PLACE, cautions, of
from keyseats.shaft_sheet.composing import (
    TEXT,
    Part,
    ShaftSheet,
    both,
    box,
    boxes,
    boxes_width,
    close,
    lead,
    line,
    marked,
    number,
    off_centre,
    sign,
)
from keyseats.shaft_sheet.sentences import Piece, Set, sentence
from keyseats.slides import Slide
from keyseats.standing import Limits, Quantity, derive

# The least room for the words beside a sum of boxes; from one row of boxes down to the next. [pt]
BESIDE, ROW = 170.0, 28.0


def place(s: ShaftSheet) -> None:
    """Set the place along the shaft: sum, dial, layout line, ends, and the slide in words."""
    found = of(s, PLACE)
    if found:
        last = cautions(s, found, s.y, s.f.left + TEXT, s.f.right - s.f.left - TEXT - 4)
        s.y = last
    y = s.y + 13.5 + s.clear
    number(s, y - 2)
    whole = s.f.right - s.f.left - TEXT - 4
    rows = _rows(s)
    if boxes_width(rows[0]) + BESIDE > whole:
        y = lead(s, y - 2, "Place along.", _from(s)) + 17
        boxes(s, y, rows[0])
        first = y
    else:
        boxes(s, y, rows[0])
        room = whole - boxes_width(rows[0]) - 6
        first = lead(s, y - 2, "Place along.", _from(s), room=room)
    for parts in rows[1:]:
        y = max(y + ROW, first + 16)
        boxes(s, y, parts)
    last = sentence(s, max(first, y + 11.5 + s.clear) + s.ease.words * 1.35, "", _where(s))
    close(s, last + 3 + s.ease.gap / 2)


def _from(s: ShaftSheet) -> str:
    if s.half_moon:
        return (
            "End face to mid seat, layout line there. Axis at or below the crown, so that the full "
            "diameter touches the end."
        )
    if s.kind == "end mill":
        return "End face to the near end. Layout lines at both ends."
    return "End face to where full depth ends, layout line there."


def _rows(s: ShaftSheet) -> list[list[Part]]:
    """Return the sum of the travel from the touch on an end face, and what the dial makes of it."""
    slide, unit = s.done.along.slide, s.unit
    to, stop = "end to mid seat", "lock here"
    if not s.half_moon:
        to, stop = "to end of full depth", "stop here"
    if s.kind == "end mill":
        to, stop = "end face to seat", "first end"
    parts = [*_added_parts(s), sign("+"), box(f"{to} ({unit})", 78), sign("=")]
    if slide is None:
        return [[box("touch reading", 60), sign("+"), *parts, box(stop, 62)]]
    one = turned_by(slide)
    if one is None:
        return [[*parts, box(f"whole travel ({unit})", 72)]]
    parts.append(box(f"whole travel ({unit})", 72))
    rest = f"rest ({slide.unit})"
    if slide.unit != unit:
        parts += [sign("× 25.4 =" if slide.unit == "mm" else "÷ 25.4 ="), box(slide.unit, 60)]
    dial = [
        sign(f"÷ {one[0]} ="),
        box("whole turns", 44),
        sign("and"),
        box(rest, 52),
        sign(f"÷ {one[1]} ="),
        box("div", 46),
    ]
    if not slide.zero:
        dial += [
            sign("+"),
            box("dial at touch, div", 66),
            sign("="),
            box(f"{stop}: turns, div", 82),
        ]
        return [parts, dial]
    if boxes_width([*parts, *dial]) <= s.f.right - s.f.left - TEXT:
        return [[*parts, *dial]]
    return [parts, dial]


def _added_parts(s: ShaftSheet) -> list[Part]:
    """Return what cutter and paper add to the distance, known or to be written."""
    if s.done.along.add_from_end is None:
        half = box(f"half cutter diameter ({s.unit})", 96)
        if s.paper_asked:
            return [box("paper", 40), sign("+"), half]
        if s.work.paper:
            return [sign(f"{s.small(s.work.paper)} +"), half]
        return [half]
    added = sign(_added(s).text)
    return [box("paper", 40), sign("+"), added] if s.paper_asked else [added]


def _added(s: ShaftSheet) -> Quantity:
    """Return what the cutter and the paper add to the distance; an end mill its diameter."""
    added = s.done.along.add_from_end
    assert added is not None
    if s.kind != "end mill":
        return added
    mill = s.seat.cutter_width
    places = 4 if s.unit == "in" else 2
    return derive(added.value + mill.value / 2, added, mill).printed(places)


def _where(s: ShaftSheet) -> list[Piece]:
    along, seat = s.done.along, s.seat
    said = _on_slide(s, along.slide)
    if s.kind == "end mill":
        said += ["Then travel the seat's length less ", Set(marked(seat.cutter_width))]
        said.append(_same_way(along.slide))
    elif s.kind == "disc":
        run = _ramp(s)
        said.append(f"Stop there: the ramp{f', {run},' if run else ''} runs on beyond. ")
    off, least = along.take_from_shoulder, along.least_from_shoulder
    if off is not None and least is not None and s.half_moon:
        said.append(f"From a shoulder, not under {marked(least)} to mid seat: back off that ")
        said += ["less ", Set(marked(off)), _same_way(along.slide).rstrip()]
    elif least is not None:
        said.append(f"Axis no nearer to a shoulder than {marked(least)}.")
    else:
        said.append("Axis no nearer to a shoulder than half the cutter.")
    return said


def _ramp(s: ShaftSheet) -> str:
    """Return how far the ramp runs at the least and at the most depth; nothing if not known."""
    seat, diameter = s.seat, s.seat.cutter_diameter
    if seat.ramp is None or diameter is None:
        return ""
    deepest = seat.depth_from_crown.most
    if deepest.value > diameter.value:
        return marked(seat.ramp)
    run = derive(ramp(diameter.value, deepest.value), diameter, deepest)
    return both(Limits(seat.ramp, run.printed(SETTING_PLACES[s.unit], "up")))


def _same_way(slide: Slide | None) -> str:
    """Return how a second travel is told on the dial: as the first."""
    if slide is None or slide.turn is None:
        return ". "
    return ", dialled likewise. "


def _on_slide(s: ShaftSheet, slide: Slide | None) -> list[Piece]:
    """Return how the sum is set on the slide: what is counted, and where from."""
    along = s.done.along
    if slide is None:
        return ["On a diameter-reading dial add twice as much to the touch. "]
    name = s.by_name(slide, along.direction)
    name = f"{name[:1].upper()}{name[1:]}"
    if slide.turn is None or slide.divisions is None:
        return [f"{name}: no dial; zero an indicator at the touch, go on to the whole travel. "]
    said: list[Piece] = [f"{name}: "]
    if slide.zero:
        said.append("zero its dial at the touch; ")
    else:
        count = dials.count(slide.divisions)
        said.append(f"cannot be zeroed: note it at the touch; {count} div or over is a turn more; ")
    said.append(f"{dials.described(slide, s.unit)}. ")
    if along.add_from_end is not None:
        added = _added(s)
        on_dial = dials.on_dial(slide, added.value, s.unit)
        said += [Set(marked(added)), " alone is ", Set(on_dial), ". "]
    return said


def witness(s: ShaftSheet) -> None:
    """Set the witness cut, and what to do where it is off the centre."""
    offset = s.done.offset
    text = (
        "A bare mark. Half the two sides' difference is its error: "
        f"{off_centre(s)}. Over? Move by it, slack taken up, mark again."
    )
    line(s, "Witness cut.", text, rows=offset.rows)
