"""Steps that place the cutter: the centre line, the place along the shaft, and the witness cut."""

from __future__ import annotations

from keyseats.page import Block
from keyseats.set_up import Move
from keyseats.setting import LEADING as SPREAD
from keyseats.setting import height_of, set_width, words
from keyseats.shaft_sheet import dials
from keyseats.shaft_sheet.cautions import CENTRE, PLACE, cautions, of
from keyseats.shaft_sheet.composing import (
    DIAL,
    LEADING,
    TEXT,
    Part,
    ShaftSheet,
    box,
    boxes,
    boxes_width,
    close,
    dial_line,
    lead,
    line,
    marked,
    named,
    number,
    sign,
)
from keyseats.standing import Quantity, derive


def centre(s: ShaftSheet) -> None:
    """Set the centring travel: its figure, what each slide shows of it, and the other ways."""
    f, c, done = s.f, s.f.composer, s.done
    found = of(s, CENTRE)
    if found:
        last = cautions(s, found, s.y + 3, f.left + TEXT, f.right - f.left - TEXT - 4)
        s.y = last + 4
    top = s.y + s.ease.gap + s.pad / 2
    number(s, top + 14)
    by_rim, move = s.kind == "end mill", done.centre
    touch = "a rim touch" if by_rim else "a face touch"
    paper = f", paper {s.small(s.work.paper)} included" if s.work.paper else ""
    short = "; not with this cutter, see above" if of(s, CENTRE[:1]) else ""
    named(s, top + 14, "CENTRE", f"from {touch}{paper}; {_slide(s, move)}{short}")
    base = s.base_of(top, s.ease.big)
    big = words(f.left + TEXT, base, move.travel.text, s.ease.big)
    c.add(Block("P", (big,), rows=move.travel.rows, cut=True))
    x = f.left + TEXT + set_width(move.travel.text, s.ease.big) + 18
    below = max(base, _on_the_slide(s, x, top + 14, base, move))
    below = _ways(s, below)
    f.composer.frame(f.left, top, f.right, below + 2 + s.ease.gap, 2.0)
    s.y = below + 4 + s.ease.gap + s.pad / 2


def _slide(s: ShaftSheet, move: Move) -> str:
    return s.by_name(move.slide, move.direction)


def _on_the_slide(s: ShaftSheet, x: float, top: float, base: float, move: Move) -> float:
    """Set beside the travel what the dial shows, or what sets it; return the last baseline."""
    c, slide, f = s.f.composer, move.slide, s.f
    if slide is None:
        parts = [box("touch reading", 76), sign("+")]
        if s.paper_asked:
            parts += [box("paper", 46), sign("+")]
        parts += [sign(f"{move.travel.text} ="), box("lock here", 76)]
        boxes(s, base - 7, parts, right=4)
        return base + 5
    if move.dial is None:
        text = dials.no_dial(s.called(slide), move.travel.text)
        return lead(s, top + 13.5, "", text, x=x, room=f.right - x - 8)
    says, said = dials.described(slide, s.unit), dials.counted(move)
    if slide.zero:
        c.add(dial_line(x, base, said, DIAL))
        at = x + set_width(said, DIAL) + 12
        room = f.right - at - 8
        up = height_of(says, s.ease.words, room) * LEADING / SPREAD
        return lead(s, base - up, "", says, x=at, room=room)
    parts = [box("dial at the touch", 84), sign(f"+ {said} ="), box("lock here", 76)]
    boxes(s, base - 7, parts, right=4)
    return base + 5


def _ways(s: ShaftSheet, y: float) -> float:
    """Set the touch and the slack, the edge finder, and the gauge blocks."""
    done, pitch = s.done, s.ease.words * 1.35
    by_rim = s.kind == "end mill"
    touch = "Free face to shaft, rim past its widest point."
    if by_rim:
        touch = "Rim to shaft, end past its widest point."
    text = f"{touch} Touch moving to the centre, clear, go on the same way; lock."
    slide = done.centre.slide
    if slide is not None and done.centre.dial is not None and not slide.zero:
        text = f"{dials.described(slide, s.unit)}; cannot be zeroed. {text}"
    if done.finder is not None:
        text += f" By edge finder instead: {_finder(s, done.finder)}."
    if done.centre.dial is not None:
        text += " Or by indicator, or a stop and a gap by adjustable parallel or blocks."
    if done.blocks is not None:
        text += " " + dials.stacked(done.blocks, done.shop.block_set, s.unit)
    return lead(s, y + pitch + 2, "", text, room=s.f.right - s.f.left - TEXT - 8)


def _finder(s: ShaftSheet, move: Move) -> str:
    said = dials.counted(move)
    return f"{marked(move.travel)}" + (f", {said}" if said else "")


def place(s: ShaftSheet) -> None:
    """Set the place along the shaft: sum, layout line, ends, and what the slide shows."""
    found = of(s, PLACE)
    if found:
        last = cautions(s, found, s.y, s.f.left + TEXT, s.f.right - s.f.left - TEXT - 4)
        s.y = last
    y = s.y + 14
    number(s, y - 2)
    parts = _sum(s)
    boxes(s, y, parts)
    room = s.f.right - boxes_width(parts) - s.f.left - TEXT - 10
    first = lead(s, y - 2, "Place along.", _from(s), room=room)
    last = lead(s, max(first, y + 11.5) + s.ease.words * 1.25, "", _where(s))
    close(s, last + 3 + s.ease.gap / 2)


def _from(s: ShaftSheet) -> str:
    if s.half_moon:
        return "End face to mid seat, layout line there. Axis not above the crown."
    if s.kind == "end mill":
        return "End face to the near end. Layout lines at both ends."
    return "End face to the end of full depth, layout line there."


def _sum(s: ShaftSheet) -> list[Part]:
    """Return the sum from the touch of the rim on an end face to where the slide is locked."""
    along = s.done.along
    parts = [box("touch", 52)]
    if s.paper_asked:
        parts += [sign("+"), box("paper", 40)]
    if along.add_from_end is None:
        parts += [sign("+"), box("half cutter diameter", 76), sign("+")]
    else:
        parts += [sign(f"+ {_added(s).text} +")]
    to, stop = "end to middle", "lock here"
    if not s.half_moon:
        to, stop = "end to full depth", "stop here"
    if s.kind == "end mill":
        to, stop = "end face to seat", "first end"
    return [*parts, box(to, 66), sign("="), box(stop, 62)]


def _added(s: ShaftSheet) -> Quantity:
    """Return what the cutter and the paper add to the distance; an end mill its diameter."""
    added = s.done.along.add_from_end
    assert added is not None
    if s.kind != "end mill":
        return added
    mill = s.seat.cutter_width
    places = 4 if s.unit == "in" else 2
    return derive(added.value + mill.value / 2, added, mill).printed(places)


def _where(s: ShaftSheet) -> str:
    along, seat = s.done.along, s.seat
    said = []
    if along.slide is not None:
        dial = dials.described(along.slide, s.unit)
        if along.dial is not None and along.add_from_end is not None:
            added = _added(s)
            on_dial = dials.on_dial(along.slide, added.value, s.unit)
            dial = f"{marked(added)} is {on_dial} ({dial})"
        zero = "" if along.slide.zero or along.dial is None else "; cannot be zeroed"
        name = s.by_name(along.slide, along.direction)
        said.append(f"{name[:1].upper()}{name[1:]}: {dial}{zero}.")
    if s.kind == "end mill":
        said.append(f"Then travel the seat's length less {marked(seat.cutter_width)}.")
    elif s.kind == "disc":
        ramp = "the ramp" if seat.ramp is None else f"the ramp, {marked(seat.ramp)},"
        said.append(f"Stop there: {ramp} runs on beyond.")
    off, least = along.take_from_shoulder, along.least_from_shoulder
    if off is not None and least is not None and s.half_moon:
        said.append(
            f"From a shoulder: back off by its distance to mid seat − {marked(off)}; that distance "
            f"not under {marked(least)}."
        )
    elif least is not None:
        said.append(f"Axis no nearer to a shoulder than {marked(least)}.")
    else:
        said.append("Axis no nearer to a shoulder than half the cutter.")
    return " ".join(said)


def witness(s: ShaftSheet) -> None:
    """Set the witness cut, and what to do where it is off the centre."""
    offset = s.done.offset
    text = (
        "A bare mark. Measure it from both sides: half the difference is its error, at most "
        f"{marked(offset)}. More? Move by it, slack taken up, mark again."
    )
    line(s, "Witness cut.", text, rows=offset.rows)
