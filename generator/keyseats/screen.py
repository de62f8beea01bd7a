"""What ``keyseats shaft`` prints: each seat's figures in the order of the work."""

from __future__ import annotations

import textwrap
from collections.abc import Callable

from keyseats.blocks import places_in_full
from keyseats.lengths import decimal
from keyseats.seat import SETTING_PLACES, Seat, Work
from keyseats.set_up import Along, Feed, Move, SetUp, reading_text
from keyseats.slides import Slide, said, ways
from keyseats.speeds import caution_for
from keyseats.standing import Limits, Quantity
from keyseats.warn import PAST_CENTRE

UNITS = {"in": "inches", "mm": "millimetres"}
WIDE = 92
LABEL = 30


def pair(limits: Limits) -> str:
    """Return limits in words, with daggers."""
    return f"{one(limits.least)} to {one(limits.most)}"


def one(q: Quantity | None) -> str:
    """Return a figure's text with its dagger; a dash for none."""
    return "-" if q is None else q.text + ("†" if q.recalled else "")


class Lines:
    """Lines of label and figure, being written."""

    def __init__(self) -> None:
        self.lines: list[str] = []

    def head(self, text: str) -> None:
        """Add a line that heads those below it."""
        self.lines.append(f"  {text}")

    def row(self, label: str, text: str, remark: str = "") -> None:
        """Add a figure behind its label, wrapped under itself."""
        whole = f"    {label:<{LABEL}} {text}" + (f"   {remark}" if remark else "")
        if len(whole) <= WIDE + 8:
            self.lines.append(whole)
            return
        self.lines += textwrap.wrap(
            whole, WIDE + 8, subsequent_indent=" " * (LABEL + 5), break_long_words=False
        )


def seat_lines(done: SetUp) -> list[str]:
    """Return one seat's figures, one a line, in the order of the work."""
    seat, key = done.seat, done.seat.key
    name = f"No. {key.designation}" if key.family == "inch half-moon" else key.designation
    out = Lines()
    out.lines.append(
        f"{name}  ({key.family} key, {key.standard}, {seat.fit} fit, {seat.choice} choice)"
    )
    for warning in seat.warnings:
        out.lines += textwrap.wrap(f"  CAUTION: {warning.says}", WIDE + 8, subsequent_indent="    ")
    _measure(out, seat)
    _centre(out, done)
    _place(out, done)
    _feed(out, done)
    _prove(out, seat)
    return out.lines


def _measure(out: Lines, seat: Seat) -> None:
    out.head("Measure")
    out.row("key width; height", f"{seat.key.width.text}; {pair(seat.key.height)}")
    out.row("seat width", pair(seat.seat_width))
    if seat.work.cutter_name:
        sizes = [seat.cutter_width.text + " wide"] if seat.cutter_kind != "end mill" else []
        across = seat.cutter_diameter or seat.cutter_width
        out.row("cutter", ", ".join([*sizes, f"{across.text} diameter"]), seat.work.cutter_name)
    if seat.largest_neck is not None:
        out.row("largest neck of the cutter", one(seat.largest_neck))
    if seat.stand_off_needed is not None and seat.work.holder_radius is not None:
        out.row("stand-off of the holder", one(seat.stand_off_needed), "or more")


def _with(slide: Slide | None, direction: str) -> str:
    if slide is None or not slide.direction:
        return direction
    diameter = ", dial reads diameter" if slide.reads == "diameter" else ""
    return f"{slide.name}, {direction}{diameter}"


def _travel(out: Lines, move: Move, how: str) -> None:
    if move.travel is None:
        out.row("centring travel", "-", "by indicator: no face touch can be made")
        return
    out.row("centring travel", one(move.travel), how)
    if move.dial is not None:
        out.row("  on its dial", said(move.dial))
    elif move.instead:
        out.row("  no dial there, so", "; or ".join(move.instead))


def _centre(out: Lines, done: SetUp) -> None:
    seat = done.seat
    out.head(f"Centre ({_with(done.centre.slide, done.centre.direction)})")
    by = "rim touch" if seat.cutter_kind == "end mill" else "face touch"
    if done.centre.above is not None:
        by += f" with the rim {one(done.centre.above)} above the centre line"
    paper = "paper included" if seat.work.paper else ""
    _travel(out, done.centre, ", ".join(w for w in (by, paper) if w))
    if done.finder is not None:
        _travel(out, done.finder, "edge finder")
    if done.centre.dial is not None:
        _no_zero(out, done.centre.slide)
    if done.blocks is not None:
        if done.blocks.blocks:
            stack = " + ".join(b.text for b in done.blocks.blocks)
            out.row("  gauge blocks", f"{stack} = {done.blocks.aimed.text}", done.blocks.set)
        else:
            out.row("  gauge blocks", f"the set {done.blocks.set} cannot make it")
    out.row("off centre, at most", one(done.offset), "each way; then lock")


def _place(out: Lines, done: SetUp) -> None:
    along = done.along
    out.head(f"Place along ({_with(along.slide, along.direction)})")
    middle = "middle of the seat" if done.seat.cutter_kind == "half-moon" else "full depth"
    if done.seat.cutter_kind == "end mill":
        middle = "axis of the end mill"
    if along.add_from_end is None:
        paper = done.seat.work.paper
        with_paper = f" + {_paper(done.seat)}, the paper" if paper else ""
        half = "half the cutter's diameter"
        out.row("from an end face", f"distance to the {middle} + {half}{with_paper}")
        _along_dial(out, along)
    else:
        out.row("from an end face", f"distance to the {middle} + {one(along.add_from_end)}")
        _along_dial(out, along)
        out.row("from a shoulder", f"distance to the {middle} − {one(along.take_from_shoulder)}")
        out.row("axis to a shoulder, least", one(along.least_from_shoulder))
    if done.seat.opening_at_crown is not None:
        out.row("opening at crown; at edge", _openings(done.seat))
    if done.seat.ramp is not None:
        out.row("ramp, beyond full depth", one(done.seat.ramp), "each closed end")
    out.row("out of parallel, at most", one(done.skew), "over the seat")


def _paper(seat: Seat) -> str:
    return decimal(seat.work.paper, places_in_full(seat.work.paper))


def _along_dial(out: Lines, along: Along) -> None:
    """Add what the slide's dial makes of the way from an end face to where it is locked."""
    if along.dial is not None:
        out.row(f"  {one(along.add_from_end)} on its dial", said(along.dial))
    if along.to_dial:
        out.row("  the whole on its dial", along.to_dial)
        _no_zero(out, along.slide)
    elif along.slide is not None:
        out.row("  no dial there, so", "; or ".join(ways(along.slide)))


def _no_zero(out: Lines, slide: Slide | None) -> None:
    if slide is not None and not slide.zero:
        out.row("  dial cannot be zeroed", "add what it shows at the touch")


def _openings(seat: Seat) -> str:
    return f"{one(seat.opening_at_crown)}; {one(seat.opening_at_edge)}"


def _feed(out: Lines, done: SetUp) -> None:
    seat, feed = done.seat, done.feed
    out.head(f"Feed ({_with(feed.slide, feed.direction)})")
    if done.speed is not None:
        speed = done.speed
        out.row(
            "speed, HSS cutter",
            f"{speed.low} to {speed.high} rpm",
            f"{speed.material}, {speed.cutting_low.text} to {speed.cutting_high.text} "
            f"{speed.cutting_unit} ({speed.source}); " + caution_for(seat.cutter_kind),
        )
    out.row("depth from crown", pair(seat.depth_from_crown), "feed this after touching the crown")
    if seat.work.paper:
        out.row("  from the paper's touch", pair(feed.limits))
    out.row("arc height", one(seat.arc_height))
    out.row("depth at edge", pair(seat.depth_at_edge))
    start = "zeroed" if feed.slide.zero else "counted from the reading"
    out.row(
        "  from its full width", pair(feed.from_full_width), f"{start} where it first cuts that"
    )
    most = decimal(feed.deepest.value, SETTING_PLACES[seat.work.unit] - 1)
    name = "plunges" if seat.cutter_kind == "half-moon" else "passes"
    out.row(f"{name}, {most} at most", _cuts(feed))
    stop = next((cut for cut in feed.plan.cuts if cut.measure), None)
    if stop is not None:
        out.row("  stop and measure at", reading_text(stop.reading, seat.work.unit))
    out.row("  finish", _finish(seat, feed))
    if not feed.slide.zero:
        out.row("  dial cannot be zeroed", "add what it shows at the touch to each of these")


def _cuts(feed: Feed) -> str:
    unit = feed.limits.least.unit
    shown = []
    for cut, dial in zip(feed.plan.cuts[:-1], feed.dials, strict=False):
        text = reading_text(cut.reading, unit)
        shown.append(text if dial is None else f"{text} ({_short(said(dial))})")
    last = f"then to {reading_text(feed.plan.cuts[-1].reading, unit)}"
    return ", ".join([*shown, last])


def _short(text: str) -> str:
    return text.replace(" turns", "").replace(" turn", "").replace(" div", "").replace(" ", "")


def _finish(seat: Seat, feed: Feed) -> str:
    text = pair(feed.limits)
    if feed.slide.turn is None:
        return f"{text}; no dial there: by an indicator"
    if feed.ends is None:
        return f"{text}; no division lies inside: by an indicator"
    low, high = feed.ends
    return f"{text}; {said(low)} to {said(high)}"


def _prove(out: Lines, seat: Seat) -> None:
    out.head("Prove")
    out.row("floor to opposite side", pair(seat.floor_to_opposite_side))
    known = "this key" if seat.work.key_height is not None else "any standard key"
    if seat.lift is not None:
        known += f", on the floor; this seat lifts it {one(seat.lift)}"
    out.row("over key", pair(seat.over_key), known)
    out.row("key above edge", pair(seat.key_above_edge), "deburring lowers the edge")
    out.row("hub width", pair(seat.hub_width))
    bore = decimal(seat.work.hub_bore, SETTING_PLACES[seat.work.unit])
    out.row("hub: floor to opposite side", pair(seat.hub_floor_to_opposite_side), f"{bore} bore")


def screen(
    work: Work, seats: list[Seat], shown: str, ready: Callable[[Seat], SetUp], *, all_keys: bool
) -> list[str]:
    """Return what ``keyseats shaft`` prints: first choices in full, the others by name.

    Parameters
    ----------
    work
        The shaft.
    seats
        The seats, first choices first.
    shown
        The shaft's size as it was typed.
    ready
        Gives a seat's set-up; called only for the seats that are printed in full.
    all_keys
        Whether to print every seat in full.
    """
    taken = "at its nominal size" if work.as_nominal else f"measured {_measured(work)}"
    lines = [f"Shaft {shown}, {taken}; all figures in {UNITS[work.unit]}.", ""]
    full = seats if all_keys else [s for s in seats if s.choice == "first"]
    full = sorted(full, key=lambda s: s.work.unit != work.unit)
    unit = work.unit
    usual = False
    for seat in full:
        if seat.work.unit != unit:
            unit = seat.work.unit
            lines += [f"From here on in {UNITS[unit]}, for a shaft of {_measured(seat.work)}.", ""]
        done = ready(seat)
        usual = usual or done.feed.usual
        lines += [*seat_lines(done), ""]
    # A key whose seat would pass the shaft's centre is not offered; --key gives it, with a caution.
    others = [
        s
        for s in seats
        if s not in full and PAST_CENTRE not in {warning.code for warning in s.warnings}
    ]
    if others:
        names = ", ".join(s.key.designation for s in others)
        lines += _wrapped(f"Other keys for this shaft (--key NAME): {names}") + [""]
    if usual:
        lines += _wrapped(
            "Passes are (turns+divisions) on a usual dial, 0.100 in a turn with 100 divisions or "
            "1 mm with 100; --shop FILE gives your own slides and cutters."
        )
    if any("†" in line for line in lines):
        lines += _wrapped(
            "† recalled, not read: check it against your own copy of the standard before cutting."
        )
    lines += _wrapped(
        "Take the slack up one way: finish each move in the direction of the touch, then lock."
    )
    lines += _wrapped(
        "Measure your own shaft, key and cutter. The drawing, local rules and a qualified engineer "
        "come first where a failure can hurt someone. Stop the spindle before you measure."
    )
    return lines


def _measured(work: Work) -> str:
    return decimal(work.shaft, SETTING_PLACES[work.unit])


def _wrapped(text: str) -> list[str]:
    return textwrap.wrap(text, WIDE)
