"""The step that brings the cutter over the centre line."""

from __future__ import annotations

from keyseats.page import Block
from keyseats.set_up import Move
from keyseats.setting import LEADING as SPREAD
from keyseats.setting import height_of, set_width, words
from keyseats.shaft_sheet import dials
from keyseats.shaft_sheet.cautions import CENTRE, cautions, of
from keyseats.shaft_sheet.composing import (
    DIAL,
    LEADING,
    TEXT,
    ShaftSheet,
    box,
    boxes,
    dial_line,
    lead,
    marked,
    number,
    sign,
)
from keyseats.shaft_sheet.naming import named
from keyseats.shaft_sheet.sentences import Piece, Set, sentence
from keyseats.standing import Quantity


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
    says = f"from {touch}{paper}"
    if move.travel is None:
        says = "by indicator: no face touch can be made"
    named(s, top + 14, "CENTRE", f"{says}; {_slide(s, move)}", says)
    below = top + 14
    if move.travel is not None:
        base = s.base_of(top, s.ease.big)
        big = words(f.left + TEXT, base, move.travel.text, s.ease.big)
        c.add(Block("P", (big,), rows=move.travel.rows, cut=True))
        x = f.left + TEXT + set_width(move.travel.text, s.ease.big) + 18
        below = max(base, _on_the_slide(s, x, top + 14, base, move, move.travel))
    below = _ways(s, below)
    f.composer.frame(f.left, top, f.right, below + 2 + s.ease.gap, 2.0)
    s.y = below + 4 + s.ease.gap + s.pad / 2


def _slide(s: ShaftSheet, move: Move) -> str:
    return s.by_name(move.slide, move.direction)


def _on_the_slide(
    s: ShaftSheet, x: float, top: float, base: float, move: Move, travel: Quantity
) -> float:
    """Set beside the travel what the dial shows, or what sets it; return the last baseline."""
    c, slide, f = s.f.composer, move.slide, s.f
    if slide is None:
        parts = [box("touch reading", 76), sign("+")]
        if s.paper_asked:
            parts += [box("paper", 46), sign("+")]
        parts += [sign(f"{travel.text} ="), box("lock here", 76)]
        boxes(s, base - 7, parts)
        return base + 5
    if move.dial is None:
        text = dials.no_dial(s.called(slide), travel.text)
        return lead(s, top + 13.5, "", text, x=x, room=f.right - x - 8)
    says, said = dials.described(slide, s.unit), dials.counted(move)
    if slide.zero:
        c.add(dial_line(x, base, said, DIAL))
        at = x + set_width(said, DIAL) + 12
        room = f.right - at - 8
        up = height_of(says, s.ease.words, room) * LEADING / SPREAD
        return lead(s, base - up, "", says, x=at, room=room)
    parts = [box("dial at touch, div", 76), sign(f"+ {said} ="), box("lock here: turns, div", 88)]
    boxes(s, base - 7, parts)
    return base + 5


def _ways(s: ShaftSheet, y: float) -> float:
    """Set the touch and the slack, the edge finder, and the gauge blocks."""
    done, pitch = s.done, s.ease.words * 1.35
    pieces: list[Piece] = []
    slide, move = done.centre.slide, done.centre
    if move.dial is not None and slide is not None and slide.divisions and not slide.zero:
        count = dials.count(slide.divisions)
        pieces.append(f"{dials.described(slide, s.unit)}; cannot be zeroed: ")
        pieces.append(f"{count} div or over is a turn more. ")
    pieces += _touch(s, move)
    if done.finder is not None:
        pieces += [" By edge finder instead: ", *_finder(done.finder), "."]
    if move.dial is not None:
        pieces.append(" Or by indicator, or a stop and a gap by adjustable parallel or blocks.")
    elif slide is None and move.travel is not None:
        if _any_cutter(s):
            pieces.append(" End mill: rim touch, across the spindle, same travel.")
        pieces.append(" On a diameter-reading dial add twice as much.")
    if _added_to_reading(s):
        pieces.append(" Here and below add where readings rise, else take away.")
    if done.blocks is not None:
        pieces += [" ", *dials.stacked(done.blocks, done.shop.block_set, s.unit)]
    return sentence(s, y + pitch + 2, "", pieces, room=s.f.right - s.f.left - TEXT - 8)


def _any_cutter(s: ShaftSheet) -> bool:
    """Return whether nothing is known of a plain seat's cutter, which may be an end mill."""
    work = s.work
    return s.kind == "disc" and (work.cutter_width, work.cutter_diameter) == (None, None)


def _added_to_reading(s: ShaftSheet) -> bool:
    """Return whether a travel is added to a reading, on a dial of which way it counts unknown."""
    slides = (s.done.centre.slide, s.done.along.slide, s.done.feed.slide)
    fixed = any(slide and slide.turn is not None and not slide.zero for slide in slides)
    return fixed or s.done.feed.usual or None in slides


def _touch(s: ShaftSheet, move: Move) -> list[Piece]:
    """Return what touches the shaft, how high, and how the slide goes on from there."""
    go_on = "moving to centre. Clear, go on the same way; lock."
    if move.travel is None:
        return ["By indicator: the shaft's two sides alike from the cutter's two faces. Lock."]
    if move.above is not None:
        height = [Set(marked(move.above)), " above the centre line"]
        return ["Free face to shaft, rim ", *height, f", no lower, {go_on}"]
    if s.kind == "end mill":
        return [f"Rim to shaft, end past its widest point, {go_on}"]
    return [f"Free face to shaft, rim past its widest point, {go_on}"]


def _finder(move: Move) -> list[Piece]:
    assert move.travel is not None
    said = dials.counted(move)
    return [Set(marked(move.travel)), *((", ", Set(said)) if said else ())]
