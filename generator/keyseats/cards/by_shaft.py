"""Cards that list one family's first choice by shaft: key, depth from crown, floors."""

from __future__ import annotations

from dataclasses import dataclass, replace

from keyseats.cards.drawn import first_seat, seat_across
from keyseats.cards.face import (
    FRACTION,
    SECOND,
    SEE_BACK,
    Column,
    Face,
    Table,
    alike,
    changes,
    set_table,
)
from keyseats.cards.widths import set_widths
from keyseats.corrections.ranges import choice_rows
from keyseats.families import metric_half_moon
from keyseats.frame import FIRST
from keyseats.lengths import read_fraction
from keyseats.load import Tables
from keyseats.lookup import module
from keyseats.seat import SETTING_PLACES, Seat, Work
from keyseats.setting import DAGGER, set_width
from keyseats.shared_tolerance import in_common, signed
from keyseats.standing import Bench, Limits, Quantity, typed

# How wide the drawing is, and how far the rows stand apart. [pt]
ROOM = {"ID-1": 48.0, "A7": 60.0, "3 x 5 in": 94.0}
PITCH = {"ID-1": 9.85, "A7": 10.6, "3 x 5 in": 11.3}
# Millimetres have a line less in their heads. [pt]
WIDER = 0.8
RECALLED = "recalled, not read: check your own copy of the standard."
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
        Whether the bank-card size has room for the hub.
    """

    number: int
    family: str
    title: str
    standard: str
    shafts: tuple[str, str, str, str]
    drawn: str
    hub: bool = True

    @property
    def source(self) -> str:
        """Return the name of the standard alone."""
        return self.standard.partition(",")[0].removesuffix(" family")

    @property
    def unit(self) -> str:
        """Return the family's unit."""
        return "in" if self.family.startswith("inch") else "mm"


def card(subject: Subject, tables: Tables, size: str) -> tuple[Face, Face]:
    """Return the card's front and back."""
    shafts = subject.shafts[:2] if size == "ID-1" else subject.shafts[2:]
    front, back = (seats(subject, tables, side) for side in shafts)
    pair = _apart(front) or _apart(back)
    return (
        _face(subject, tables, size, "front", front, pair=pair),
        _face(subject, tables, size, "back", back, pair=pair),
    )


def seats(subject: Subject, tables: Tables, shafts: str) -> list[tuple[str, Seat]]:
    """Return the first choice of each shaft that has one."""
    found = []
    for shaft in shafts.split():
        work = Work(subject.unit, read_fraction(shaft))
        seat = first_seat(module(subject.family).tabled(tables, work), work)
        if seat is not None:
            found.append((shaft, seat))
    return found


def name(seat: Seat, chosen: tuple[str, ...] = ()) -> Quantity:
    """Return a key's name: its width alone if it is square in inches.

    Parameters
    ----------
    seat
        The key's seat.
    chosen
        Ids of the figures that pick it for its shaft.
    """
    parts = [part.strip() for part in seat.key.designation.split(" x ")]
    square = seat.key.width.unit == "in" and len(parts) == 2 and parts[0] == parts[1]
    text = parts[0] if square else seat.key.in_print
    size = seat.key.nominal_height
    rows = (*seat.key.width.rows, *(size.rows if size else ()), *chosen)
    return replace(seat.key.width, text=text, rows=tuple(dict.fromkeys(rows)))


def chosen_by_recall(subject: Subject, tables: Tables, seat: Seat) -> bool:
    """Return whether the shaft range that picks a key is from memory."""
    if subject.family != metric_half_moon.NAME:
        return False
    given = metric_half_moon.ranges(tables, metric_half_moon.TORQUE).get(seat.key.designation)
    return given is not None and Bench(tables).quantity(given.shaft_over).recalled


def _depths(limits: list[Limits], tolerance: tuple[str, ...]) -> list[Column]:
    """Return one column with its tolerance in the head, or two where there is none.

    Two have the words of their head spanned over both.
    """
    if tolerance:
        rows = tuple(r for one in limits for r in one.rows)
        head = ("depth from", "crown", *tolerance)
        return [Column(head, tuple(one.least for one in limits), head_rows=rows)]
    return [
        Column(("least",), tuple(one.least for one in limits)),
        Column(("most",), tuple(one.most for one in limits)),
    ]


def _floor(seat: Seat) -> Limits:
    """Return floor to opposite side with the places of depth from crown, rounded inward.

    The inch standard prints three: of them a most may lie past what the least depth leaves.
    """
    return seat.floor_to_opposite_side.printed(SETTING_PLACES[seat.work.unit])


def _in_head(limits: list[Limits], datum: str, unit: str) -> tuple[str, ...]:
    """Return a shared tolerance as it stands in a head: in inches, over under one another."""
    shared = in_common(limits, datum)
    if unit == "in":
        return tuple(shared.split())
    return (shared,) if shared else ()


def _columns(
    subject: Subject, tables: Tables, face: Face, found: list[tuple[str, Seat]], *, pair: bool
) -> tuple[Column, ...]:
    inch = subject.unit == "in"
    size = FRACTION if inch else SECOND
    built = inch and "half-moon" not in subject.family
    recalled = any(chosen_by_recall(subject, tables, seat) for _, seat in found)
    columns = [
        Column(
            ("nominal", "shaft"),
            tuple(replace(typed(read_fraction(t), subject.unit), text=t) for t, _ in found),
            size,
            bold=True,
            names=True,
            fractions=inch,
        ),
        Column(
            ("key" + (DAGGER if recalled else ""),),
            tuple(name(seat, choice_rows(tables, seat.key, read_fraction(t))) for t, seat in found),
            FRACTION if built else SECOND,
            names=True,
            fractions=built,
        ),
    ]
    depths = [s.depth_from_crown for _, s in found]
    floors = [_floor(s) for _, s in found]
    hubs = [s.hub_floor_to_opposite_side for _, s in found]
    columns += _depths(depths, () if pair else _in_head(depths, "least", subject.unit))
    side = "opposite side" if face.size == "3 x 5 in" else "opp. side"
    most = (_in_head(floors, "most", subject.unit) if inch else ()) or ("most",)
    rows = tuple(r for f in floors for r in f.rows)
    columns.append(Column(("floor to", side, *most), tuple(f.most for f in floors), head_rows=rows))
    if subject.hub or not face.small:
        least = (_in_head(hubs, "least", subject.unit) if inch else ()) or ("least",)
        rows = tuple(r for h in hubs for r in h.rows)
        columns.append(
            Column(("hub floor", side, *least), tuple(h.least for h in hubs), head_rows=rows)
        )
    return tuple(columns)


def _apart(found: list[tuple[str, Seat]]) -> bool:
    """Return whether a side's depths share no tolerance: then both sides have least and most."""
    return not in_common([s.depth_from_crown for _, s in found], "least")


def _face(
    subject: Subject,
    tables: Tables,
    size: str,
    side: str,
    found: list[tuple[str, Seat]],
    *,
    pair: bool,
) -> Face:
    face = Face(size, subject.number, side, tables.edition)
    y = face.title(subject.title, f"{found[0][0]} to {found[-1][0]} {subject.unit}")
    room = ROOM[size]
    columns = _columns(subject, tables, face, found, pair=pair)
    hub = subject.hub or not face.small
    table = Table(
        columns,
        face.left,
        face.right - room - 7,
        spans=((2, 3, ("depth from", "crown"), False),) if pair else (),
        breaks=changes([name(s).text for _, s in found]),
    )
    if hub and not table.fits(face.head):
        # Least and most of the depth come before the hub, which the sheets have.
        hub, columns = False, columns[:-1]
        table = replace(table, columns=columns)
    pitch = PITCH[size] + (0 if subject.unit == "in" else WIDER)
    close = set_table(face, y, table, pitch)
    drawn = seats(subject, tables, subject.drawn)[0][1]
    shaft = read_fraction(subject.drawn)
    seat_across(face, face.right - room, face.right, y + 2.5, drawn, shaft, hub=hub)
    face.thick_and_thin(close + 1.0, turned=True)
    marked = any(column.marked for column in columns)
    rows = tuple(r for _, s in found for r in s.seat_width.rows)
    below = close + 2.7
    depths, widths = [s.depth_from_crown for _, s in found], ""
    if not face.small:
        strip = set_widths(face, below, [s for _, s in found])
        below, marked = strip[0], marked or strip[1]
    elif subject.family == "inch plain":
        shared = alike(signed(s.seat_width, s.key.width, 3) for _, s in found)
        widths = f"Seat and hub width: the key's nominal width, {shared}." if shared else ""
    first = below + face.note * 1.25
    face.notes(first, _notes(subject, face, first, widths, _kept(depths), marked), rows)
    return face


def _kept(limits: list[Limits]) -> str:
    """Return why a shared tolerance is not the standard's own, or nothing if it is."""
    kept = in_common(limits, "least").split()[:1]
    whole = typed(limits[0].most.value - limits[0].least.value, limits[0].least.unit).printed(3)
    same = not kept or read_fraction(kept[0].strip("+" + DAGGER)) == whole.value
    return "" if same else f"{whole.text} is {kept[0].strip('+' + DAGGER)} here."


def _notes(
    subject: Subject, face: Face, first: float, widths: str, kept: str, marked: bool
) -> list[tuple[str, str]]:
    mark = [(DAGGER, RECALLED)] if marked else []
    if face.side == "back":
        last = ("", f"{subject.source}.")
        if marked:
            last = (DAGGER, RECALLED.replace("copy of the standard", subject.source))
        elif subject.family == "inch plain":
            last = ("", f"{subject.source}: hub floor to 3 places, as it prints them.")
        ends = f" {_left_out(subject)}: larger card." if face.small and not _ruled(subject) else ""
        return [("CAUTION", f"{STOP} {FIRST}"), (last[0], last[1] + ends)]
    says = f"{subject.standard} {widths}".strip()
    if not face.small:
        says = _drawn(subject, face, first)
        if kept and marked:
            mark = [(DAGGER, f"recalled, not read: check your own standard. Its {kept}")]
        elif kept:
            mark = [("", f"The standard's {kept[:-1]}, kept inside its limit.")]
    return [("", says), *mark, ("CAUTION", SEE_BACK)]


def _ruled(subject: Subject) -> bool:
    """Return whether a bank-card size says the seat's width as a rule."""
    return subject.family == "inch plain"


def _left_out(subject: Subject) -> str:
    return "Seat width" if subject.hub else "Hub, seat width"


def _drawn(subject: Subject, face: Face, base: float) -> str:
    """Return the standard and what is drawn, as far as one line holds it."""
    shaft = f"{subject.drawn} {subject.unit}"
    ends = (f" Drawn to scale: {shaft} shaft.", f" Drawn: {shaft}.", "")
    whole = [subject.standard + end for end in ends]
    room = face.right_at(base) - face.left
    return next((text for text in whole if set_width(text, face.note) <= room), whole[-1])


__all__ = ["Subject", "card", "chosen_by_recall", "name", "seats"]
