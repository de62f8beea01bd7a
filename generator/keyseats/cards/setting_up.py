"""Card 5: setting up. The sums on the front, the order of the work on the back."""

from __future__ import annotations

from fractions import Fraction

from keyseats import geometry
from keyseats.cards.drawn import face_touch
from keyseats.cards.face import (
    CARDS,
    FRACTION,
    HAIR,
    SECOND,
    SEE_BACK,
    SMALL,
    Column,
    Face,
    Table,
    set_table,
)
from keyseats.families.inch_plain import fraction_text
from keyseats.frame import FIRST
from keyseats.lengths import decimal, read_fraction
from keyseats.load import Tables
from keyseats.setting import LEADING, paragraph
from keyseats.standing import Quantity, typed

SUMS = (
    ("centring, face touch", "½ shaft + ½ cutter width + paper"),
    ("centring, rim touch", "½ shaft + ½ end mill diameter + paper"),
    ("depth from crown", "depth at edge + arc height"),
    ("arc height", "R − √(R² − (W/2)²)"),
    ("floor to opposite side", "shaft − depth from crown"),
    ("over key", "floor to opposite side + key height"),
)
WHICH = (
    "Face touch: a disc or half-moon cutter, along the spindle. Rim touch: an end mill, across it. "
    "R: half the shaft. W: cutter width. All as measured. Cards 1 to 4: from crown, no arc to add."
)
DIAL = "A dial that reads diameter moves the slide half: prove a turn with an indicator."
SOURCES = "Centring: US Army TC 9-524. The rest: geometry."
ORDER = (
    "Drawing, hub first. Nominal picks the key, measured sets the depths.",
    "Measure shaft, key, cutter. Is the cutter inside the seat's width?",
    "Align the shaft. Check the rotation. Feed against the cutter.",
    "Centre from a touch, slack taken up one way; lock. Place along.",
    "Witness cut: even? Touch the crown, feeler over the mark.",
    "Light passes. Stop short, measure floor to opposite side, finish.",
    "Deburr, try the key, measure over it, try the hub by hand.",
)
SCRAP = "key height fed as depth; depth at edge fed from the crown; half a cutter forgotten."
EXAMPLE = ("3/4", "3/16")
ARC_SHAFTS = "1/2 3/4 1 1-1/2"
ARC_WIDTHS = "1/8 3/16 1/4 5/16 3/8"


def card(tables: Tables, size: str) -> tuple[Face, Face]:
    """Return the card's front and back."""
    return _sums(tables, size), _order(tables, size)


def example() -> str:
    """Return a centring sum worked with figures."""
    shaft, cutter = (read_fraction(text) for text in EXAMPLE)
    travel = geometry.face_touch_travel(shaft, cutter, Fraction(0))
    parts = [f"{_short(shaft / 2)} + {_short(cutter / 2)} = {_short(travel)} in"]
    return f"{EXAMPLE[0]} in shaft, {EXAMPLE[1]} in cutter, bare face touch: {parts[0]}."


def _short(value: Fraction) -> str:
    return decimal(value, 5).rstrip("0")


def _sums(tables: Tables, size: str) -> Face:
    face = Face(size, CARDS, "front", tables.edition)
    c, small = face.composer, face.small
    y = face.title("Setting up", "the sums")
    text = 6.4 if small else 7.8
    pitch = {"ID-1": 11.4, "A7": 12.0}.get(size, 12.6)
    half = face.left + text * 13.0
    y += text * 1.25
    for name, total in SUMS:
        c.say(face.left, y, name, text, bold=True)
        c.say(half, y, total, text * 1.02)
        c.rule(face.left, face.right, y + pitch * 0.33, HAIR)
        y += pitch
    if small:
        says = ("", f"{DIAL} {SOURCES}")
        face.notes(y - 0.8, [("", WHICH), says, ("CAUTION", SEE_BACK)])
    else:
        _touch(face, y - pitch * 0.67)
    return face


def _touch(face: Face, y: float) -> None:
    """Draw the face touch beside what the sums need to be read."""
    wide = 110.0
    face_touch(face, face.left, face.left + wide, y + 5)
    size, x = face.note, face.left + wide + 12
    at = y + size * 2.0
    for lead, text in (("", WHICH), ("Say", example()), ("", f"{DIAL} {SOURCES}")):
        block, at = paragraph(x, at, text, size, face.right - x, lead=lead)
        face.composer.add(block)
        at += size * LEADING * 1.3
    face.notes(face.bottom - SMALL * 1.25 - size * 0.2, [("CAUTION", SEE_BACK)])


def _order(tables: Tables, size: str) -> Face:
    face = Face(size, CARDS, "back", tables.edition)
    small = face.small
    y = face.title("Setting up", "in order")
    text = 6.0 if small else 6.6
    at = y + text * 1.35
    for n, line in enumerate(ORDER, start=1):
        face.composer.say(face.left, at, f"{n}", text, bold=True)
        block, at = paragraph(
            face.left + text * 1.3, at, line, text, face.right - face.left - text * 1.3
        )
        face.composer.add(block)
        at += text * (1.42 if small else 1.32)
    face.composer.rule(face.left, face.right, at - text * 0.82, HAIR)
    if small:
        at -= text * 0.82 - face.note * 1.35
    else:
        at = _arcs(face, at - text * 0.82) + face.note * 1.25
    caution = "Eye protection on. Stop the spindle to measure, brush or deburr. " + FIRST
    face.notes(at, [("Usual scrap:", SCRAP), ("CAUTION", caution)])
    return face


def _arcs(face: Face, y: float) -> float:
    """Set the arc heights of usual inch shafts and widths; return the level under them."""
    shafts, widths = ARC_SHAFTS.split(), ARC_WIDTHS.split()
    first = tuple(Quantity(read_fraction(t), "in", "typed", (), t) for t in shafts)
    columns = [Column(("", "shaft"), first, FRACTION, bold=True, names=True)]
    for wide in widths:
        arcs = []
        for shaft in shafts:
            arc = geometry.arc_height(read_fraction(shaft), read_fraction(wide))
            arcs.append(typed(arc, "in").printed(4))
        columns.append(Column((fraction_text(read_fraction(wide)),), tuple(arcs), SECOND))
    head = "arc height by seat width (in): add to depth at edge only"
    table = Table(
        tuple(columns),
        face.left,
        face.right,
        spans=((1, len(widths), (head,), True),),
        widest_gap=60.0,
    )
    close = set_table(face, y, table, 10.0)
    face.composer.rule(face.left, face.right, close, HAIR)
    return close
