"""Card 1: plain keys, inch. One row a shaft: key, depth from crown, floors to opposite side."""

from __future__ import annotations

from dataclasses import replace

from keyseats.cards.drawn import first_seat, seat_across
from keyseats.cards.face import (
    FRACTION,
    Column,
    Face,
    Table,
    alike,
    changes,
    set_table,
    signed,
)
from keyseats.families import inch_plain
from keyseats.families.inch_plain import fraction_text
from keyseats.frame import FIRST
from keyseats.lengths import read_fraction
from keyseats.load import Tables
from keyseats.seat import Seat, Work
from keyseats.standing import Limits, Quantity, typed

NUMBER = 1
# Usual shafts of a light lathe: our choice, no source.
SMALL_FRONT = "3/8 7/16 1/2 9/16 5/8 3/4 7/8"
SMALL_BACK = "1 1-1/8 1-1/4 1-3/8 1-1/2 1-3/4 2"
FRONT = "3/8 7/16 1/2 9/16 5/8 11/16 3/4 13/16 7/8 15/16"
BACK = "1 1-1/8 1-3/16 1-1/4 1-3/8 1-7/16 1-1/2 1-5/8 1-3/4 2"
DRAWN = "5/8"


def card(tables: Tables, size: str) -> tuple[Face, Face]:
    """Return the card's front and back."""
    small = size == "ID-1"
    return (
        _face(tables, size, "front", SMALL_FRONT if small else FRONT),
        _face(tables, size, "back", SMALL_BACK if small else BACK),
    )


def seats(tables: Tables, shafts: str) -> list[tuple[str, Seat]]:
    """Return the first choice of each shaft that has one."""
    found = []
    for shaft in shafts.split():
        work = Work("in", read_fraction(shaft))
        seat = first_seat(inch_plain.tabled(tables, work), work)
        if seat is not None:
            found.append((shaft, seat))
    return found


def square_name(seat: Seat) -> Quantity:
    """Return a key's name: its width alone if it is square."""
    wide, high = (part.strip() for part in seat.key.designation.split(" x "))
    return replace(seat.key.width, text=wide if wide == high else seat.key.designation)


def spread(limits: list[Limits], datum: str) -> str:
    """Return the tolerance that several figures share, counted from their least or their most."""
    return alike(signed(one, one.least if datum == "least" else one.most, 3) for one in limits)


def _face(tables: Tables, size: str, side: str, shafts: str) -> Face:
    face = Face(size, NUMBER, side, tables.edition)
    found = seats(tables, shafts)
    first, last = found[0][0], found[-1][0]
    y = face.title("Plain key and depth", f"{first} to {last} in shaft")
    room = 50.0 if face.small else 88.0
    names = [square_name(s) for _, s in found]
    depths = [s.depth_from_crown for _, s in found]
    floors = [s.floor_to_opposite_side for _, s in found]
    hubs = [s.hub_floor_to_opposite_side for _, s in found]
    columns = (
        Column(
            ("shaft",),
            tuple(replace(typed(read_fraction(t), "in"), text=t) for t, _ in found),
            FRACTION,
            bold=True,
            names=True,
            fractions=True,
        ),
        Column(("key",), tuple(names), FRACTION, names=True, fractions=True),
        Column(
            ("depth from", "crown", spread(depths, "least") or "least"),
            tuple(d.least for d in depths),
            bold=False,
        ),
        Column(
            ("floor to", "opp. side", spread(floors, "most") or "most"),
            tuple(f.most for f in floors),
        ),
        Column(
            ("hub floor to", "opp. side", spread(hubs, "least") or "least"),
            tuple(h.least for h in hubs),
        ),
    )
    table = Table(
        columns, face.left, face.right - room - 8, breaks=changes([n.text for n in names])
    )
    close = set_table(face, y, table, 10.7 if face.small else 10.9)
    drawn = seats(tables, DRAWN)[0][1]
    seat_across(face, face.right - room, face.right, y + 6, drawn, read_fraction(DRAWN))
    face.thick_and_thin(close + 1.0, turned=True)
    widths = alike(signed(s.seat_width, s.key.width, 3) for _, s in found)
    rows = tuple(r for _, s in found for r in s.seat_width.rows)
    said = f"Seat and hub width: the key's, {widths}." if widths else ""
    face.notes(close + 2.7 + face.note * 1.25, _notes(face, said), rows)
    face.last_line()
    return face


def _notes(face: Face, widths: str) -> list[tuple[str, str]]:
    standard = "ASME B17.1, class 1, square plain (parallel) keys; inches."
    caution = ("CAUTION", "Stop the spindle to measure, brush or deburr.")
    if face.small:
        if face.side == "front":
            return [
                ("", standard),
                ("", f"{widths} Shafts at nominal size. Opp.: opposite."),
            ]
        return [(caution[0], f"{caution[1]} {widths}"), ("", FIRST)]
    drawn = f"Drawn to scale: {DRAWN} in shaft. Opp.: opposite. A line: the key changes."
    if face.side == "front":
        return [
            ("", f"{standard} {widths} Shafts at nominal size; a shaft that measures under "
             "gives a floor lower by the same. Figures to 0.001 as the standard prints them."),
            ("", drawn),
        ]
    return [(caution[0], f"{caution[1]} {FIRST}"), ("", f"{standard} {widths} {drawn}")]


__all__ = ["card", "fraction_text", "seats", "spread", "square_name"]
