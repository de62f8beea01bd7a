"""Cards that list one family's first choice by shaft: key, depth from crown, floors."""

from __future__ import annotations

from dataclasses import dataclass, replace

from keyseats.cards.drawn import first_seat, seat_across
from keyseats.cards.face import (
    FRACTION,
    SECOND,
    Column,
    Face,
    Table,
    alike,
    changes,
    set_table,
    signed,
)
from keyseats.frame import FIRST
from keyseats.lengths import read_fraction
from keyseats.load import Tables
from keyseats.lookup import module
from keyseats.seat import Seat, Work
from keyseats.setting import DAGGER
from keyseats.standing import Limits, Quantity, typed

RECALLED = "recalled, not read: check before cutting."
STOP = "Stop the spindle to measure, brush or deburr."


@dataclass(frozen=True)
class Subject:
    """What one card lists.

    Parameters
    ----------
    number
        The card's number.
    family
        The key family.
    title
        What the card answers.
    standard
        Standard, kind of key and unit, as a note.
    shafts
        Shafts of the ID-1 front and back, then of the larger card's front and back.
    drawn
        The shaft that is drawn.
    hub
        Whether the smaller cards have room for the hub.
    """

    number: int
    family: str
    title: str
    standard: str
    shafts: tuple[str, str, str, str]
    drawn: str
    hub: bool = True

    @property
    def unit(self) -> str:
        """Return the family's unit."""
        return "in" if self.family.startswith("inch") else "mm"


def card(subject: Subject, tables: Tables, size: str) -> tuple[Face, Face]:
    """Return the card's front and back."""
    small = size == "ID-1"
    front, back = subject.shafts[:2] if small else subject.shafts[2:]
    return _face(subject, tables, size, "front", front), _face(subject, tables, size, "back", back)


def seats(subject: Subject, tables: Tables, shafts: str) -> list[tuple[str, Seat]]:
    """Return the first choice of each shaft that has one."""
    found = []
    for shaft in shafts.split():
        work = Work(subject.unit, read_fraction(shaft))
        seat = first_seat(module(subject.family).tabled(tables, work), work)
        if seat is not None:
            found.append((shaft, seat))
    return found


def name(seat: Seat) -> Quantity:
    """Return a key's name: its width alone if it is square in inches."""
    parts = [part.strip() for part in seat.key.designation.split(" x ")]
    square = seat.key.width.unit == "in" and len(parts) == 2 and parts[0] == parts[1]
    text = parts[0] if square else seat.key.designation
    return replace(seat.key.width, text=text)


def spread(limits: list[Limits], datum: str) -> str:
    """Return the tolerance that several figures share, counted from their least or their most."""
    return alike(signed(one, one.least if datum == "least" else one.most, 3) for one in limits)


def _figures(head: tuple[str, str], limits: list[Limits], datum: str) -> list[Column]:
    """Return one column with its tolerance in the head, or two where it differs by row."""
    shared = spread(limits, datum)
    if shared:
        ends = tuple(one.least if datum == "least" else one.most for one in limits)
        return [Column((*head, shared), ends)]
    return [
        Column((*head, "least"), tuple(one.least for one in limits)),
        Column(("", "", "most"), tuple(one.most for one in limits)),
    ]


def _depth_head(subject: Subject) -> tuple[str, str]:
    return ("depth from", "crown") if subject.unit == "in" else ("depth fr.", "crown")


def _columns(subject: Subject, face: Face, found: list[tuple[str, Seat]]) -> tuple[Column, ...]:
    fractions = subject.unit == "in"
    size = FRACTION if fractions else SECOND
    sizes = tuple(replace(typed(read_fraction(text), subject.unit), text=text) for text, _ in found)
    names = tuple(name(seat) for _, seat in found)
    built = fractions and "half-moon" not in subject.family
    columns = [
        Column(("shaft",), sizes, size, bold=True, names=True, fractions=fractions),
        Column(("key",), names, FRACTION if built else SECOND, names=True, fractions=built),
        *_figures(_depth_head(subject), [s.depth_from_crown for _, s in found], "least"),
    ]
    floors = [s.floor_to_opposite_side for _, s in found]
    hubs = [s.hub_floor_to_opposite_side for _, s in found]
    if subject.unit == "in":
        columns += _figures(("floor to", "opp. side"), floors, "most")[:1]
        columns += _figures(("hub floor", "opp. side"), hubs, "least")[:1]
        return tuple(columns)
    columns.append(Column(("floor to", "opp. side", "most"), tuple(f.most for f in floors)))
    if subject.hub or face.size == "3 x 5 in":
        columns.append(Column(("hub floor", "opp. side", "least"), tuple(h.least for h in hubs)))
    return tuple(columns)


def _face(subject: Subject, tables: Tables, size: str, side: str, shafts: str) -> Face:
    face = Face(size, subject.number, side, tables.edition)
    found = seats(subject, tables, shafts)
    first, last = found[0][0], found[-1][0]
    y = face.title(subject.title, f"{first} to {last} {subject.unit} shaft")
    room = 48.0 if face.small else 84.0
    columns = _columns(subject, face, found)
    lines = changes([name(s).text for _, s in found])
    table = Table(columns, face.left, face.right - room - 8, breaks=lines)
    close = set_table(face, y, table, 10.7 if face.small else 10.9)
    drawn = seats(subject, tables, subject.drawn)[0][1]
    seat_across(face, face.right - room, face.right, y + 6, drawn, read_fraction(subject.drawn))
    face.thick_and_thin(close + 1.0, turned=True)
    widths = ""
    if subject.family == "inch plain":
        shared = alike(signed(s.seat_width, s.key.width, 3) for _, s in found)
        widths = f"Seat and hub width: the key's, {shared}. " if shared else ""
    rows = tuple(r for _, s in found for r in s.seat_width.rows)
    recalled = any(
        column.recalled
        or any(DAGGER in line for line in column.head)
        or any(q.recalled for q in column.cells)
        for column in columns
    )
    face.notes(close + 2.7 + face.note * 1.25, _notes(subject, face, widths, recalled), rows)
    face.last_line()
    return face


def _notes(subject: Subject, face: Face, widths: str, recalled: bool) -> list[tuple[str, str]]:
    mark = [(DAGGER, RECALLED)] if recalled else []
    if face.small:
        if face.side == "front":
            said = "" if mark else "Nominal shafts. Opp.: opposite."
            return [("", f"{subject.standard} {widths}{said}"), *mark]
        return [("CAUTION", f"{STOP} {FIRST}"), *mark]
    drawn = f"Drawn to scale: {subject.drawn} {subject.unit} shaft. Opp.: opposite."
    if face.side == "front":
        under = "A shaft that measures under gives a floor lower by the same."
        return [("", f"{subject.standard} {widths}Nominal shafts. {under} {drawn}"), *mark]
    return [("CAUTION", f"{STOP} {FIRST}"), ("", f"{subject.standard} {widths}{drawn}"), *mark]
