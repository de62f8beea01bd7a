"""Steps that cut the seat: the touch on the crown, the feed to its limits, and the cuts."""

from __future__ import annotations

from fractions import Fraction

from keyseats.blocks import places_in_full
from keyseats.lengths import decimal
from keyseats.machining import Cut
from keyseats.setting import limits_line, set_width
from keyseats.shaft_sheet import dials
from keyseats.shaft_sheet.composing import (
    DIAL,
    FIGURE,
    TEXT,
    TINY,
    Part,
    ShaftSheet,
    both,
    box,
    boxes,
    boxes_width,
    dial_line,
    lead,
    marked,
    number,
    sign,
)
from keyseats.shaft_sheet.naming import named
from keyseats.shaft_sheet.sentences import Piece, Set, sentence
from keyseats.slides import DialReading, said

# White between two readings. [pt]
BETWEEN = 7.0
# And where a box to write in stands under each.
BOXED = 5.5
# And where that saves a row.
CLOSE = 3.0
# From a reading down to what the dial shows of it. [pt]
INNER = 10.8


def touch(s: ShaftSheet) -> None:
    """Set the touch on the crown, and what is fed where the touch is a full-width cut instead."""
    y = s.y + 13.5 + s.clear
    number(s, y - 2)
    feeding, slide = s.done.feed, s.done.feed.slide
    says = "Bare, where the cutter just marks it."
    if s.paper_asked:
        says = "Feeler along the shaft, over the mark."
    elif s.work.paper:
        says = f"Paper {s.small(s.work.paper)} along the shaft, over the mark."
    parts: list[Part] = []
    if s.paper_asked:
        parts = [box("touch reading", 76), sign("+"), box("paper", 46), sign("="), box("crown", 76)]
    elif feeding.usual or (slide.turn is not None and not slide.zero):
        parts = [sign("reading at the touch"), box("", 84 if feeding.usual else 52)]
        parts += [] if feeding.usual else [sign("div")]
    else:
        says += f" Zero the {'indicator' if slide.turn is None else 'dial'} here."
    if parts:
        boxes(s, y, parts)
    rows: tuple[str, ...] = ()
    pieces: list[Piece] = [says]
    if s.seat.cut_width.value == s.seat.cutter_width.value:
        full = s.done.feed.from_full_width
        rows = full.rows
        how, then = "zero", "feed only"
        if feeding.usual or (slide.turn is not None and not slide.zero):
            how, then = "note the reading", "add only"
        pieces.append(
            f" Or {how} at the first full-width cut, arc height {marked(s.seat.arc_height)} "
            f"down: {then} depth at edge, "
        )
        pieces += [Set(both(full)), "."]
    room = s.f.right - s.f.left - TEXT - 8 - (boxes_width(parts) + 4 if parts else 0)
    last = sentence(s, y - 2, "Touch the crown.", pieces, room=room, rows=rows)
    s.y = max(last, y + 10 if s.paper_asked else y) + 3


def feed(s: ShaftSheet) -> None:
    """Set the feed's limits, what the dial shows of them, and the cuts that go down to them."""
    f, c, feeding = s.f, s.f.composer, s.done.feed
    top = s.y + s.ease.gap + s.pad / 2
    number(s, top + 14)
    if s.work.paper:
        paper, depth = s.small(s.work.paper), s.seat.depth_from_crown
        says = f"paper {paper} included, to the floor"
        full = f"{says}: {both(depth)} from the crown"
        named(s, top + 14, "FEED FROM THE TOUCH", full, says, f"paper {paper} included")
    else:
        named(s, top + 14, "FEED FROM THE CROWN", "to the floor. It is not the key's height.")
    base = s.base_of(top, s.ease.big)
    block, end = limits_line(f.left + TEXT, base, feeding.limits, s.ease.big, small=0.45)
    c.add(block)
    below = max(base, _limits_on_the_slide(s, end + 14, top + 14, base))
    below = _cuts(s, below + 3 + s.ease.gap)
    f.composer.frame(f.left, top, f.right, below + 2 + s.ease.gap, 2.0)
    s.y = below + 4 + s.ease.gap + s.pad / 2


def _limits_on_the_slide(s: ShaftSheet, x: float, top: float, base: float) -> float:
    c, f, feeding = s.f.composer, s.f, s.done.feed
    slide, room = feeding.slide, f.right - x - 8
    if feeding.usual:
        start = "touch" if s.work.paper else "crown"
        parts = [sign(f"{start} + feed ="), box("least", 62), box("most", 62)]
        boxes(s, base - 7, parts)
        return base + 4
    if slide.turn is None:
        text = (
            f"The {s.called(slide)} has no dial: read the feed from the touch on an indicator, or "
            "on a depth gauge."
        )
        return lead(s, top + 13.5, "", text, x=x, room=room)
    y = top + 12
    if feeding.ends is None:
        text = f"No whole division of the {s.called(slide)} lies inside: last cut by indicator."
        return lead(s, y, "", text, x=x, room=room)
    if slide.zero:
        low, high = (dials.short(end) for end in feeding.ends)
        shows = f"{low} to {high}" if low != high else f"{low} only"
        c.add(dial_line(x, base, shows, DIAL))
        c.say(x + set_width(shows, DIAL) + 5, base, "turns + div", TINY)
    else:
        low, high = (said(end) for end in feeding.ends)
        for name, end, at in (("least", low, base - 8.5), ("most", high, base + 9)):
            boxes(s, at, [sign(f"{name}, + {end} ="), box("", 60)])
    return base if slide.zero else base + 11


def _reading(cut: Fraction, places: int) -> str:
    return decimal(cut, places)


def _cuts(s: ShaftSheet, y: float) -> float:
    """Set the readings of the cuts, the one to stop at and measure boxed; return the last level."""
    c, f, feeding = s.f.composer, s.f, s.done.feed
    cuts = list(feeding.plan.cuts[:-1])
    places = _places(cuts, s.unit)
    known = not feeding.usual and feeding.slide.turn is not None
    own = feeding.usual or (known and not feeding.slide.zero and s.ease.own_boxes)
    deepest = s.small(feeding.deepest.value)
    left = f.left + TEXT
    if len(cuts) > s.ease.cuts:
        skipped = cuts[: len(cuts) - s.ease.cuts]
        cuts = cuts[len(skipped) :]
        down = _reading(skipped[-1].reading, places)
        text = f"First {len(skipped)} cuts, none over {deepest}, down to {down}; then:"
        c.say(left, y + 8, text, FIGURE)
        y += 13
    readings = [_reading(cut.reading, places) for cut in cuts]
    dialled = [_dialled(feeding.dials[feeding.plan.cuts.index(cut)]) for cut in cuts]
    widest = max(
        (set_width(t, FIGURE) for t in [*readings, *(dialled if known else ())]), default=0.0
    )
    room = f.right - 5 - left
    boxed = own and not known
    columns = _columns(room, widest + (BOXED if boxed else BETWEEN))
    if boxed and columns < len(cuts) <= _columns(room, widest + CLOSE):
        # Not one box alone in a second row.
        columns = len(cuts)
    each = room / columns
    row = 13.2 + s.ease.gap * 0.4 + (INNER if known else 0.0) + (14.5 if own else 0.0)
    for n, (cut, text) in enumerate(zip(cuts, readings, strict=True)):
        x, level = left + (n % columns) * each, y + 10 + (n // columns) * row
        middle, tall = x + each / 2, 3.5
        if n % columns == 0:
            c.say(left - 4, level, "feed", TINY, anchor="end")
            if known:
                c.say(left - 4, level + INNER, "dial", TINY, anchor="end")
        c.add(dial_line(middle, level, text, FIGURE, anchor="middle"))
        if known:
            c.add(dial_line(middle, level + INNER, dialled[n], FIGURE, anchor="middle"))
            tall += INNER
        if own:
            head = level + tall - 0.5
            c.frame(x + 2.5, head, x + each - 2.5, head + 12, 0.5)
            tall += 13
        if cut.measure:
            c.frame(x + 0.5, level - 10, x + each - 0.5, level + tall, 1.6)
    rows = -(-len(cuts) // columns)
    y += rows * row
    first = "Add each to the reading at the touch." if known and not feeding.slide.zero else ""
    return lead(s, y + s.ease.words + 2, first, _note(s, deepest, bool(cuts)))


def _columns(room: float, each: float) -> int:
    return max(1, min(int(room // each), 16))


def _places(cuts: list[Cut], unit: str) -> int:
    """Return the decimals that write every reading in full, or four where one has no end."""
    least = 3 if unit == "in" else 2
    needed = max((places_in_full(cut.reading, least) for cut in cuts), default=least)
    return needed if needed < 6 else 4


def _dialled(reading: DialReading | None) -> str:
    return "" if reading is None else dials.short(reading).replace(" ", "")


def _note(s: ShaftSheet, deepest: str, several: bool) -> str:
    """Return how the cuts are taken, and on which slide."""
    feeding = s.done.feed
    slide = feeding.slide
    whose = "common practice" if s.done.shop.deepest_pass is None else "this shop's"
    how = "Plunge" if s.half_moon else "Feed along to the stop"
    text = f"{how}, not over {deepest} a pass ({whose})."
    if several:
        text += " Heavy box: stop short and measure."
    else:
        text += " One pass is enough: measure before the last of it."
    if feeding.usual:
        return text + " Boxes: your dial; diameter-reading shows twice."
    if slide.turn is None:
        return text
    dial = dials.described(slide, s.unit)
    zero = ""
    if not slide.zero and slide.divisions is not None:
        count = dials.count(slide.divisions)
        zero = f"; cannot be zeroed, {count} div or over is a turn more"
    return f"{_capital(s.by_name(slide, feeding.direction))}: {dial}{zero}. {text}"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
