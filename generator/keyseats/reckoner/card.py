"""One side of a ready reckoner: the depths of one seat, row by row of the shaft as measured."""

from __future__ import annotations

from dataclasses import dataclass

from keyseats.cards.by_shaft import RECALLED, STOP
from keyseats.cards.drawn import seat_across
from keyseats.cards.face import (
    CODE_SIDE,
    DISTANCE,
    FIGURE,
    HAIR,
    MARGIN_BAR,
    MODULE,
    SECOND,
    SMALL,
    THIN,
    Face,
)
from keyseats.cards.notes import flowed
from keyseats.corrections.qr import quiet_code
from keyseats.corrections.ranges import choice_rows
from keyseats.corrections.shaft_codes import shaft_stamp
from keyseats.corrections.since import bars, legend, since
from keyseats.corrections.stamping import rows_of as ids_of
from keyseats.frame import FIRST
from keyseats.load import Tables
from keyseats.page import Block, Text
from keyseats.reckoner.rows import Row, rows_of
from keyseats.seat import Seat
from keyseats.setting import DAGGER, LEADING, figure, limits_line, set_width
from keyseats.shaft_sheet.cautions import MIND
from keyseats.standing import Quantity
from keyseats.typeface import width

UPRIGHT = {"Letter": "3 x 5 in upright", "A4": "A7 upright"}
# A bold digit of this size is as wide as a figure, so that the nominal row stays in line.
BOLD = round(FIGURE * width("0", 1) / width("0", 1, True), 2)
# How far the rows stand apart where no note but those of every card stands under them. [pt]
PITCH = {"3 x 5 in upright": 11.2, "A7 upright": 9.4}
# Between the sizes far under nominal, near under it, nominal, and over it.
GROUPS = (5, 10, 11)
BETWEEN = 1.9
# From a title's second line to the level under its rules. [pt]
SUB = 5.3
PAIR, GROUP = 1.0, 1.8
# White between the word that heads the shafts and the rule beside it. [head sizes]
BESIDE = 0.3
# How wide the seat is drawn, on the cards that have room for it. [pt]
DRAWN = {"3 x 5 in upright": 56.0}
CROWN = (
    "uncut surface over the seat. Floor to opposite side: shaft left under it; least depth from "
    "crown leaves most."
)
PAIRED = "Least depth from crown leaves most floor to opposite side."
# White over the last lines, besides their leading. [pt]
CLEAR = 2.5
# White between the notes beside a drawing. [pt]
APART = 3.0
UNITS = {"in": "inches", "mm": "mm"}


@dataclass
class Side(Face):
    """One side of a ready reckoner, which has a code of its own on it."""

    what: str = ""

    @property
    def coded(self) -> bool:
        """Return whether this side has a QR code: each has its own key's."""
        return True


def side(tables: Tables, seat: Seat, size: str, side: str, shaft: str, what: str) -> Side:
    """Return one side of a card, all that is to be said of one key in one shaft.

    Parameters
    ----------
    tables
        The tables.
    seat
        The seat at its nominal size.
    size
        ``3 x 5 in upright`` or ``A7 upright``.
    side
        ``front`` or ``back``.
    shaft
        The shaft's size as it is named, such as ``1-1/8 in``.
    what
        The card's own name or number, as its last line says it.

    Raises
    ------
    ValueError
        If it does not go on the card.
    """
    face = Side(size, 0, side, tables.edition, what=what)
    face.mark = shaft_stamp(tables, seat)
    rows = rows_of(tables, seat)
    y = _title(face, tables, seat, shaft)
    y = _table(face, y, rows, _pitch(face, seat, rows))
    y = _width(face, y, seat)
    _below(face, tables, y, seat, rows)
    return face


def _title(face: Side, tables: Tables, seat: Seat, shaft: str) -> float:
    """Set the shaft and the key, and what the rows are; return the level under them."""
    key = seat.key
    name = f"No. {key.designation}" if key.family == "inch half-moon" else key.in_print
    recalled = DAGGER in seat.shafts
    kind = "half-moon key" if key.diameter else "plain key"
    if key.family == "inch half-moon" and seat.choice == "first":
        kind = "usual half-moon key"
    if seat.fit != "standard":
        kind += f", {seat.fit}" + ("" if seat.fit.startswith("class") else " fit")
    says = f"Depths by measured shaft, {UNITS[seat.work.unit]}"
    if seat.cut_width.value != key.width.value:
        says = f"Depths in {UNITS[seat.work.unit]}, cut {seat.cut_width.text} wide"
    whole, size = f"{shaft} shaft", 12.0
    if set_width(f"{whole}  {name}", size, True) > face.right - face.left:
        whole = shaft
    y = face.title(whole, name, says, recalled=recalled)
    rests = (*key.width.rows, *key.height.rows)
    if seat.choice == "first":
        rests += choice_rows(tables, key, seat.work.nominal)
    # Under the key's name, on the line that says what the rows are.
    ids = tuple(dict.fromkeys(rests))
    face.composer.say(face.right, y - SUB, kind, face.note, anchor="end", rows=ids)
    return y


def _edges(face: Side, rows: tuple[Row, ...]) -> list[float]:
    """Return the right edges of the five columns: the shaft, and least and most of two depths."""
    stub = max(set_width(row.shaft.text, BOLD, True) for row in rows)
    wide = [
        max(set_width(pick(row).text, FIGURE) for row in rows)
        for pick in (_depth_least, _depth_most, _floor_least, _floor_most)
    ]
    spare = face.right - face.left - stub - sum(wide)
    # The figures, and the rule over them, keep clear of the word that heads the shafts.
    clear = width("measured", face.head, True) + face.head * BESIDE - stub
    first = max(clear, spare * GROUP / (2 * GROUP + 2 * PAIR))
    pair = (spare - first) / (GROUP + 2 * PAIR) * PAIR
    gaps = (first, pair, pair * GROUP / PAIR, pair)
    edges = [face.left + stub]
    for one, gap in zip(wide, gaps, strict=True):
        edges.append(edges[-1] + gap + one)
    return edges


def _depth_least(row: Row) -> Quantity:
    return row.depth_from_crown.least


def _depth_most(row: Row) -> Quantity:
    return row.depth_from_crown.most


def _floor_least(row: Row) -> Quantity:
    return row.floor_to_opposite_side.least


def _floor_most(row: Row) -> Quantity:
    return row.floor_to_opposite_side.most


COLUMNS = (_depth_least, _depth_most, _floor_least, _floor_most)


def _table(face: Side, y: float, rows: tuple[Row, ...], pitch: float) -> float:
    """Set the heads and the rows, nominal bold; return the level under them."""
    c, size = face.composer, face.head
    lead = size * 1.04
    edges = _edges(face, rows)
    base = y + size * 1.15
    starts = [
        edges[n] - max(set_width(pick(row).text, FIGURE) for row in rows)
        for n, pick in ((1, _depth_least), (3, _floor_least))
    ]
    heads = (("depth from", "crown"), ("floor to", "opposite side"))
    for lines, left, right in zip(heads, starts, (edges[2], edges[4]), strict=True):
        for n, line in enumerate(lines):
            middle, at = (left + right) / 2, base + n * lead
            c.say(middle, at, line, size, anchor="middle", role="TH", header="Column")
        c.rule(left, right, base + lead + size * 0.38, HAIR)
    low = base + 2 * lead + size * 0.25
    for n, line in enumerate(("shaft as", "measured")):
        c.say(face.left, low + (n - 1) * lead, line, size, bold=True, role="TH", header="Column")
    recalled = [all(pick(row).recalled for row in rows) for pick in COLUMNS]
    for n, word in enumerate(("least", "most") * 2):
        c.say(edges[n + 1], low, word, size, anchor="end", role="TH", header="Column")
        if recalled[n]:
            c.say(edges[n + 1] + 0.4, low - size * 0.2, DAGGER, size * 0.8)
    y = low + size * 0.5
    c.rule(face.left, face.right, y, THIN)
    y += 0.9
    for n, row in enumerate(rows):
        if n in GROUPS:
            y += BETWEEN
            c.rule(face.left, face.right, y - BETWEEN / 2 + pitch * 0.02, HAIR)
        y += pitch
        at = y - (pitch - FIGURE * 0.73) / 2
        _row(face, edges, at, row, recalled)
    face.thick_and_thin(y + 1.2, turned=True)
    return y + 2.9


def _row(face: Side, edges: list[float], y: float, row: Row, recalled: list[bool]) -> None:
    c = face.composer
    stub = Text(edges[0], y, row.shaft.text, BOLD, True, "end")
    c.add(Block("TH", (stub,), header="Row", cut=True))
    size = BOLD if row.nominal else FIGURE
    for right, pick, marked in zip(edges[1:], COLUMNS, recalled, strict=True):
        c.add(figure(right, y, pick(row), size, bold=row.nominal, dagger=not marked))


def _width(face: Side, y: float, seat: Seat) -> float:
    """Set the limits of the seat's width, and the standard; return the level under them."""
    c = face.composer
    y += SECOND * 1.16
    c.say(face.left, y, "seat width", face.head, bold=True)
    start = face.left + width("seat width  ", face.head, True)
    c.add(limits_line(start, y, seat.seat_width, SECOND, small=SMALL / SECOND)[0])
    standard = seat.key.standard
    if seat.key.family == "metric half-moon" and standard == "ISO 3912":
        standard += " family"
    c.say(face.right, y, standard, SMALL, anchor="end")
    y += SECOND * 0.42
    c.rule(face.left, face.right, y, HAIR)
    return y


def _stops(seat: Seat) -> bool:
    """Return whether a caution stops the job: a card has room to say so, and no room to say why."""
    return any(warning.code not in MIND for warning in seat.warnings)


def _pitch(face: Side, seat: Seat, rows: tuple[Row, ...]) -> float:
    """Return how far the rows stand apart: they give up what each further note takes."""
    drawn = face.size in DRAWN
    stop, mark = int(_stops(seat)), int(_marked(seat, rows))
    lines = stop + mark * (2 if drawn else 1)
    taken = lines * (face.note if drawn else SMALL) * LEADING
    if drawn:
        taken += (stop + mark) * APART
    return PITCH[face.size] - taken / len(rows)


def _marked(seat: Seat, rows: tuple[Row, ...]) -> bool:
    """Return whether a dagger is printed."""
    shown: list[Quantity] = [pick(row) for row in rows for pick in COLUMNS]
    shown += [seat.seat_width.least, seat.seat_width.most]
    return any(q.recalled for q in shown) or DAGGER in seat.shafts


def _notes(seat: Seat, rows: tuple[Row, ...], *, drawn: bool) -> list[tuple[str, str]]:
    """Return the notes; where no drawing shows the crown they say what it is."""
    notes = [("", PAIRED)] if drawn else [("Crown:", CROWN)]
    if _stops(seat):
        notes.append(("Stop:", "see the shaft sheet."))
    if _marked(seat, rows):
        notes.append((DAGGER, RECALLED))
    return [*notes, ("CAUTION", f"{STOP} {FIRST}")]


def _below(face: Side, tables: Tables, y: float, seat: Seat, rows: tuple[Row, ...]) -> None:
    """Set the notes and the last lines, on the larger card beside the seat drawn to scale."""
    left, size = face.left, SMALL
    drawn = face.size in DRAWN
    if drawn:
        wide = DRAWN[face.size]
        seat_across(face, left, left + wide, y + 2.5, seat, seat.work.nominal, hub=False)
        left, size = left + wide + 9, face.note
    ids = (*seat.key.width.rows, *seat.seat_width.rows)
    notes = _notes(seat, rows, drawn=drawn)
    gap = APART if drawn else 0.0
    blocks, y = flowed(y + size * 1.35, notes, size, left, face.right_at, ids, gap)
    face.composer.add(*blocks)
    last = _last_lines(face, tables, left, stacked=drawn)
    if y > last - CLEAR:
        raise ValueError(f"{face.what}, {face.side}, {face.size}: the notes are too long")


def _last_lines(face: Side, tables: Tables, left: float, *, stacked: bool) -> float:
    """Set what the card is, its code, edition and reading distance; return the first baseline.

    Parameters
    ----------
    face
        The side.
    tables
        Where what was corrected is read.
    left
        Where the lines begin. [pt]
    stacked
        Whether each is a line of its own.
    """
    c, edition, mark = face.composer, face.edition, face.mark
    assert mark is not None
    changed = since(tables).among((*ids_of(c.blocks), *mark.rows))
    lead = SMALL * LEADING
    y = face.bottom - 0.6 - lead * (3 if stacked else 1)
    top, x = y, face.low_right
    c.say(left, y, face.what, SMALL, bold=True)
    anchor = "start" if stacked else "end"
    if stacked:
        y, x = y + lead, left
    c.say(x, y, mark.code, SMALL, bold=True, anchor=anchor)
    y += lead
    made = f"Edition {edition.number}" + ("" if changed else f", {edition.date}.")
    c.say(left, y, made, SMALL)
    if changed:
        space = width(" ", SMALL)
        c.add(legend(left + width(made, SMALL) + 2 * space, y, SMALL, space))
    if stacked:
        y += lead
    c.say(x, y, f"Read at {DISTANCE:g} m.", SMALL, anchor=anchor)
    c.add(quiet_code(mark.code, face.right - CODE_SIDE, face.bottom - CODE_SIDE, MODULE))
    c.add(*bars(c.blocks, changed, face.left, *MARGIN_BAR))
    return top


__all__ = ["UPRIGHT", "Side", "side"]
