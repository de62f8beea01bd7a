"""A shaft sheet being composed: its set-up, its sizes, and how far down the page it has come."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from keyseats.blocks import places_in_full
from keyseats.frame import Frame
from keyseats.lengths import decimal
from keyseats.page import Block, Mark, Text
from keyseats.seat import SETTING_PLACES, Seat, Work
from keyseats.set_up import SetUp
from keyseats.setting import DAGGER, caution_sign, paragraph, set_width, words
from keyseats.slides import Slide
from keyseats.speeds import Speed
from keyseats.standing import Limits, Quantity

DISTANCE_M = 0.5
# What a dial shows of the figures that are seen first; every other figure that is cut to. [pt]
DIAL, FIGURE = 14.0, 9.7
MAIN, TINY = 11.4, 7.0
# Words, and those of a crowded page; the figures that are seen first, and there. [pt]
WORDS, CROWDED = 7.6, 7.0
BIG, LESS_BIG = 29.0, 26.0
# Where a step's words begin, past its number. [pt]
TEXT = 27.0
LEADING = 1.2
# The most room for the name of a slide. [pt]
NAME = 130.0
Part = tuple[str, str, float]
# What a part is called that is only white.
PARTED = "|"


@dataclass(frozen=True)
class Ease:
    """How roomy a page is: the shaft as drawn, and its words. [pt]

    ``gap`` is the white round a frame. More than ``cuts`` cuts stand as a count, with the last of
    them in full.
    """

    drawn: float
    words: float = WORDS
    gap: float = 4.0
    own_boxes: bool = True
    cuts: int = 44

    @property
    def big(self) -> float:
        """Return the size of the figures that are seen first. [pt]"""
        return BIG if self.words == WORDS else LESS_BIG

    @property
    def pitch(self) -> float:
        """Return the pitch of what is measured. [pt]"""
        return 14.6 + self.gap * 0.4


@dataclass
class ShaftSheet:
    """One sheet being composed."""

    f: Frame
    done: SetUp
    shaft: str
    ease: Ease
    pad: float = 0.0
    y: float = 0.0
    step: int = 0
    # The number of each step that the page has, by what its function is called.
    numbers: dict[str, int] = field(default_factory=dict)
    # The speeds of a cutter of one inch or millimetre, where the cutter's diameter is not known.
    at_one: Speed | None = None

    @property
    def seat(self) -> Seat:
        """Return the seat's figures."""
        return self.done.seat

    @property
    def work(self) -> Work:
        """Return what the seat's figures were computed for."""
        return self.done.seat.work

    @property
    def kind(self) -> str:
        """Return the kind of cutter."""
        return self.seat.cutter_kind

    @property
    def half_moon(self) -> bool:
        """Return whether the key is a half-moon key."""
        return self.seat.key.diameter is not None

    @property
    def unit(self) -> str:
        """Return the unit of every figure on the sheet."""
        return self.work.unit

    @property
    def in_a_shop(self) -> bool:
        """Return whether the machine's slides are known."""
        return bool(self.done.shop.slides)

    @property
    def paper_asked(self) -> bool:
        """Return whether the paper at a touch is not known, and so has a box of its own."""
        return not self.in_a_shop and self.work.paper == 0

    def called(self, slide: Slide) -> str:
        """Return a slide's own name, cut where it is very long."""
        return shortened(slide.name, self.ease.words, NAME)

    def by_name(self, slide: Slide | None, direction: str) -> str:
        """Return a slide by its own name and by what it does."""
        if slide is None or not slide.direction:
            return direction
        return f"{self.called(slide)}, {direction}"

    def base_of(self, top: float, size: float) -> float:
        """Return the baseline of a big figure, clear of the name over it. [pt]"""
        return top + 14.5 + max(self.ease.gap * 1.5, 3.0) + size * 0.75

    @property
    def clear(self) -> float:
        """Return the white by which boxes keep off a rule and words off the boxes. [pt]"""
        return min(self.ease.gap, 2.0)

    @property
    def floor(self) -> Limits:
        """Return floor to opposite side with the places of the other depths, rounded inward.

        The inch standard prints three, which would not agree with depth from crown and over key.
        """
        return self.seat.floor_to_opposite_side.printed(SETTING_PLACES[self.unit])

    def small(self, value: Fraction) -> str:
        """Return a thickness or an allowance, in full."""
        return decimal(value, places_in_full(value, 3 if self.unit == "in" else 2))

    def setting(self, value: Fraction, rounding: str = "nearest") -> str:
        """Return a size with as many places as the slides are set to."""
        return decimal(value, SETTING_PLACES[self.unit], rounding)


def marked(q: Quantity) -> str:
    """Return a figure's text, with its dagger if it was recalled."""
    return q.text + (DAGGER if q.recalled else "")


def both(limits: Limits) -> str:
    """Return limits in words, with their daggers."""
    return f"{marked(limits.least)} to {marked(limits.most)}"


def box(under: str, wide: float) -> Part:
    """Return a box to write in, with its name below."""
    return ("", under, wide)


def sign(text: str) -> Part:
    """Return what stands between boxes."""
    return (text, "", 0.0)


def space(wide: float) -> Part:
    """Return white that parts one sum from the next."""
    return ("", PARTED, wide)


def off_centre(s: ShaftSheet, *, named: bool = True) -> str:
    """Return how far off centre a seat may be: nothing is what is aimed at.

    In millimetres the limit is another standard's, which is ``named`` once on a page.
    """
    inches = " (ASME B17.1, 0.010 in)" if s.unit == "mm" and named else ""
    return f"aim at none, {marked(s.done.offset)} at most{inches}"


def number(s: ShaftSheet, y: float) -> None:
    """Set the next step's number."""
    s.step += 1
    s.f.composer.say(s.f.left + 20, y, str(s.step), MAIN, bold=True, anchor="end")


def lead(
    s: ShaftSheet,
    y: float,
    name: str,
    text: str,
    *,
    room: float = 0.0,
    x: float = 0.0,
    rows: tuple[str, ...] = (),
) -> float:
    """Set a paragraph, its lead bold, from where words begin; return its last baseline."""
    x = x or s.f.left + TEXT
    room = room or s.f.right - x - 4
    block, last = paragraph(x, y, text, s.ease.words, room, lead=name, leading=LEADING)
    s.f.composer.add(Block(block.role, block.items, rows=rows))
    return last


def close(s: ShaftSheet, y: float, *, ruled: bool = True) -> None:
    """Rule a step off, and leave the page's spare room evenly round the rules.

    A step before a frame has no rule: the frame closes it.
    """
    if ruled:
        s.f.composer.rule(s.f.left, s.f.right, y + s.pad / 2, 0.4)
    s.y = y + (s.pad if ruled else 0.0)


def line(
    s: ShaftSheet, name: str, text: str, *, ruled: bool = True, rows: tuple[str, ...] = ()
) -> None:
    """Set a step that is only words."""
    y = s.y + 12.5
    number(s, y)
    last = lead(s, y, name, text, rows=rows)
    if ruled:
        close(s, last + 3 + s.ease.gap / 2)
    else:
        s.y = last + 2


def boxes_width(parts: list[Part]) -> float:
    """Return how wide a sum of boxes is. [pt]"""
    return sum(w or set_width(t, FIGURE) + 6 for t, _, w in parts)


def boxes(s: ShaftSheet, y: float, parts: list[Part], right: float = 4.0) -> None:
    """Set a sum of boxes and printed figures, flush right; names under the boxes."""
    c = s.f.composer
    x = s.f.right - right - boxes_width(parts)
    for text, under, wide in parts:
        if under == PARTED:
            x += wide
        elif wide:
            c.frame(x + 2, y - 12, x + wide - 2, y + 4, 0.6)
            if under:
                c.say(x + wide / 2, y + 11.5, under, TINY, anchor="middle")
            x += wide
        else:
            c.add(Block("P", (words(x + 3, y, text, FIGURE),), cut=True))
            x += set_width(text, FIGURE) + 6


def caution(s: ShaftSheet, x: float, y: float, name: str, text: str, room: float) -> float:
    """Set a caution behind its sign; return its last baseline."""
    size = s.ease.words
    shift = size * 1.5
    s.f.composer.add(caution_sign(x, y, size * 0.95))
    block, last = paragraph(x + shift, y, text, size, room - shift, lead=name, leading=LEADING)
    s.f.composer.add(block)
    return last


def shortened(text: str, size: float, room: float, bold: bool = False) -> str:
    """Return a name cut to a room, with an ellipsis where it is cut."""
    if set_width(text, size, bold) <= room:
        return text
    while text and set_width(text + "…", size, bold) > room:
        text = text[:-1]
    return text.rstrip() + "…"


def dial_line(x: float, y: float, text: str, size: float, *, anchor: str = "start") -> Block:
    """Return what a dial shows, as a figure that is cut to."""
    items: tuple[Block | Mark, ...] = (Text(x, y, text, size, anchor=anchor),)
    return Block("P", items, cut=True)
