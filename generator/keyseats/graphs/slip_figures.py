"""The page of a slip in depth: zones in words, the five keys, their figures, how it is read."""

from __future__ import annotations

from dataclasses import replace

from keyseats.drawing import label
from keyseats.frame import Frame
from keyseats.graphs.slip import Slips, State, slips
from keyseats.graphs.slip_drawn import (
    COUNT,
    LEFT,
    RIGHT,
    ROUND,
    Field,
    drawn,
    field_for,
    shade_limits,
)
from keyseats.lengths import article
from keyseats.load import Tables
from keyseats.page import Block
from keyseats.setting import DAGGER, figure, height_of, paragraph, set_width
from keyseats.standing import Quantity
from keyseats.typeface import eased, fitted

HOW = "To read:"
HEADS, LEADING = 3.35, 1.2
ROWS = (
    ("depth from crown", "fed"),
    ("key height", "height"),
    ("over key", "over"),
    ("key above edge", "above"),
)


def slip(f: Frame, tables: Tables, unit: str, kind: str, y: float, bottom: float) -> None:
    """Set five slips in one seat: drawn on common scales, and in figures under each key.

    Parameters
    ----------
    f
        The page.
    tables, unit, kind
        Where the seat is found, and which it is.
    y, bottom
        Levels under the title and over the foot. [pt]
    """
    u, told = f.unit, slips(tables, unit, kind)
    states, seat = told.states(), told.seat
    heads = [_lines(f, state.says) for state in states]
    under = u * 6.35 + f.note * LEADING * (max(map(len, heads)) - 1)
    field, at = _placed(f, told, y + u * HEADS, bottom, under)
    _zones(f, field, y, told)
    shade_limits(f, told, field)
    marks = drawn(f, told, field)
    rows = (
        *seat.depth_from_crown.rows,
        *seat.key.height.rows,
        *seat.key.width.rows,
        *told.hub.rows,
    )
    f.composer.add(
        Block("Figure", tuple(marks), alt=_in_words(told), rows=tuple(dict.fromkeys(rows)))
    )
    _figures(f, field, states, heads)
    said, _ = paragraph(f.left, at, _how(told, field.times), f.note, f.right - f.left, lead=HOW)
    rests = [*told.stops.rows, *(seat.largest_neck.rows if seat.largest_neck else ())]
    f.composer.add(replace(said, rows=tuple(dict.fromkeys(rests))))


def _placed(f: Frame, told: Slips, top: float, bottom: float, under: float) -> tuple[Field, float]:
    """Return the field over the table, and where the note under it begins. [pt]"""
    # How many times the heights are stretched follows from the room, and stands in the note.
    times = 1
    for _ in range(2):
        tall = height_of(_how(told, times), f.note, f.right - f.left, HOW)
        at = bottom - f.note * 0.8 - tall
        field = field_for(f, told, top, at - f.unit * 1.35 - under)
        times = field.times
    return field, at


def zones(told: Slips) -> tuple[tuple[int, int, str, tuple[str, str]], ...]:
    """Return first and last key of each zone, its name, and what happens there."""
    shallow = "stops the hub" if told.stopped else "lets the hub pass"
    return (
        (0, 0, "too shallow", ("tallest key", shallow)),
        (1, 2, "right", ("key and hub as", "the standard has them")),
        (3, 4, "too deep", ("hub goes on;", "key stands too low")),
    )


def _zones(f: Frame, field: Field, y: float, told: Slips) -> None:
    """Head the keys with what their depth is, and rule under it as far as it goes."""
    u, c = f.unit, f.composer
    for first, last, zone, says in zones(told):
        left = field.left + field.each * first + u * ROUND
        right = field.left + field.each * (last + 1) - u * ROUND
        middle = (left + right) / 2
        c.say(middle, y + u * 1.0, zone, u * 0.62, bold=True, anchor="middle")
        for n, line in enumerate(says):
            base = y + u * 1.78 + f.note * LEADING * n
            c.say(middle, base, line, f.note, anchor="middle")
        c.rule(left, right, y + u * 2.95, u * 0.06)


def _lines(f: Frame, text: str) -> list[str]:
    """Return what was fed as lines that stand under one key."""
    room = (f.right - f.left) / f.unit - LEFT - RIGHT
    room = (room / COUNT - ROUND) * f.unit
    return eased(fitted(text, f.note, room), f.note, room)


def _figures(f: Frame, field: Field, states: tuple[State, ...], heads: list[list[str]]) -> None:
    """Set what was fed and where each key then stands, every figure on its key's middle."""
    u, c, size = f.unit, f.composer, f.note
    y = field.bottom + u * 0.95
    with c.table():
        with c.row():
            c.say(f.left, y, "what was fed", size, role="TH", header="Column")
            for n, lines in enumerate(heads):
                says = label(field.middle(n), y, lines, size, anchor="middle", leading=LEADING)
                c.add(Block("TH", tuple(says), header="Column"))
        y += size * LEADING * (max(map(len, heads)) - 1) + u * 0.45
        c.rule(f.left, f.right, y, u * 0.03)
        for name, part in ROWS:
            first = part == "fed"
            y += u * (1.6 if first else 1.12)
            with c.row():
                _row_head(f, y, name, bold=first)
                for n, state in enumerate(states):
                    big = u if first else f.second
                    shown: Quantity = getattr(state, part)
                    x = field.middle(n) + set_width(shown.text, big, first) / 2
                    c.add(figure(x, y, shown, big, bold=first))


def _row_head(f: Frame, y: float, name: str, *, bold: bool) -> None:
    """Name a row; the depth that was fed, in bold, on two lines."""
    size = f.note
    lines = name.split(" ", 1) if bold else [name]
    first = y - size * LEADING * (len(lines) - 1)
    says = label(f.left, first, lines, size, bold=bold, leading=LEADING)
    f.composer.add(Block("TH", tuple(says), header="Row"))


def _how(told: Slips, times: int) -> str:
    """Return how the page is read, and what it does not show."""
    neck = told.seat.largest_neck
    says = (
        "each floor on the left-hand scale, each key's top on the right. The key goes "
        "down by as much as the floor. Too shallow: feed the rest. Too deep: the hub goes on, only "
        "measuring shows it, and nothing puts it back. Fed its own height, the key is level with "
        "the crown and the hub drives on next to nothing. Down to "
        f"{_marked(told.stops)} from the crown the tallest key stops the hub, drawn at its least. "
        f"Heights are drawn {times} times widths; the scales are for heights."
    )
    if neck is not None:
        says += f" Largest neck {_marked(neck)}."
    return f"{says} To cut: the shaft's own sheet."


def _marked(quantity: Quantity) -> str:
    return f"{quantity.text}{DAGGER if quantity.recalled else ''}"


def _in_words(told: Slips) -> str:
    seat, states = told.seat, told.states()
    first = (
        "stands higher than the hub's floor, so that the hub, dashed, cannot go on"
        if told.stopped
        else "stands too high, but the hub goes on over it"
    )
    limits = "their tops close under the hub's floor" if told.clears else "near the hub's floor"
    level = "last" if states[-1].fed.text == states[-1].height.text else "first of them"
    depths = ", ".join(state.fed.text for state in states)
    return (
        f"Sections of five {seat.key.in_print} keys side by side on the crown of "
        f"{article(told.case.shaft)} {seat.work.unit} shaft, their seats {depths} deep from the "
        f"crown. The first key {first}. The next two lie between the limits, {limits}. Over "
        f"the last two there is a gap under the hub's floor, and the {level} is level with the "
        "crown. Floors are read on a scale at the left, tops on one at the right"
    )
