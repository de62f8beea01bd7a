"""Card 5: setting up. The sums on the front, the order of the work on the back."""

from __future__ import annotations

from fractions import Fraction

from keyseats import geometry
from keyseats.cards.drawn import face_touch
from keyseats.cards.face import (
    CARDS,
    FALL,
    FRACTION,
    HAIR,
    RISE,
    ROW_CLEAR,
    SECOND,
    SEE_BACK,
    SMALL,
    THIN,
    Column,
    Face,
    Table,
    cell,
)
from keyseats.families.inch_plain import fraction_text
from keyseats.frame import FIRST
from keyseats.lengths import decimal, read_fraction
from keyseats.load import Tables
from keyseats.page import Block
from keyseats.setting import LEADING, paragraph, words
from keyseats.standing import Quantity, typed
from keyseats.typeface import CAP_HEIGHT

SUMS = (
    ("centring, face touch", "1/2 shaft + 1/2 cutter width + paper"),
    ("centring, rim touch", "1/2 shaft + 1/2 end mill dia. + paper"),
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
    "Align. Check the rotation. Disc in a plain seat: feed against it.",
    "Centre from a touch, slack taken up one way; lock. Place along.",
    "Witness cut: even? Touch the crown, feeler over the mark.",
    "Light passes. Stop short, measure floor to opposite side, finish.",
    "Deburr, try the key, measure over it, try the hub by hand.",
)
SCRAP = "key height fed as depth; depth at edge from crown; half cutter forgotten."
EXAMPLE = ("3/4", "3/16")
# The digits of a fraction built at this size are as large as notes.
NOTE_FRACTION = round(SMALL / 0.8, 1)
ARCS = "arc height by seat width (in): add to depth at edge only"
ARC_SHAFTS = "1/2 3/4 1 1-1/2"
ARC_WIDTHS = "1/8 3/16 1/4 5/16 3/8"


def card(tables: Tables, size: str) -> tuple[Face, Face]:
    """Return the card's front and back."""
    return _sums(tables, size), _order(tables, size)


def example() -> tuple[str, str]:
    """Return a centring sum worked with figures: what is given, and the sum."""
    shaft, cutter = (read_fraction(text) for text in EXAMPLE)
    travel = geometry.face_touch_travel(shaft, cutter, Fraction(0))
    total = f"{_short(shaft / 2)} + {_short(cutter / 2)} = {_short(travel)} in."
    return f"{EXAMPLE[0]} in shaft, {EXAMPLE[1]} in cutter, bare face touch:", total


def _short(value: Fraction) -> str:
    return decimal(value, 5).rstrip("0")


def _sums(tables: Tables, size: str) -> Face:
    face = Face(size, CARDS, "front", tables.edition)
    c, small = face.composer, face.small
    y = face.title("Setting up", "the sums")
    text = 6.4 if small else 7.8
    pitch = {"ID-1": 10.8, "A7": 12.0}.get(size, 12.6)
    half = face.left + text * 13.0
    for n, (name, total) in enumerate(SUMS):
        if n:
            c.rule(face.left, face.right, y, HAIR)
        at = y + (pitch + text * CAP_HEIGHT) / 2
        c.say(face.left, at, name, text, bold=True)
        c.say(half, at, total, max(text, NOTE_FRACTION))
        y += pitch
    face.thick_and_thin(y, turned=True)
    y += 1.7
    if small:
        says = ("", f"{DIAL} {SOURCES}")
        face.notes(y + face.note * 1.3, [("", WHICH), says, ("CAUTION", SEE_BACK)], gap=1.0)
    else:
        _touch(face, y)
    return face


def _touch(face: Face, y: float) -> None:
    """Draw the face touch beside what the sums need to be read."""
    wide = 110.0
    face_touch(face, face.left, face.left + wide, y + 5)
    size, x = face.note, face.left + wide + 12
    at = y + size * 2.0
    say, total = example()
    for lead, text, after in (
        ("", WHICH, 1.3),
        ("Say", say, 1.0),
        ("", total, 1.3),
        ("", f"{DIAL} {SOURCES}", 1.0),
    ):
        block, at = paragraph(x, at, text, size, face.right - x, lead=lead)
        face.composer.add(block)
        at += size * LEADING * after
    face.notes(face.bottom - SMALL * 1.25 - 3.0, [("CAUTION", SEE_BACK)])


def _order(tables: Tables, size: str) -> Face:
    face = Face(size, CARDS, "back", tables.edition)
    y = face.title("Setting up", "in order")
    text, leading = {"ID-1": (6.0, 1.58), "A7": (6.6, 1.36)}.get(size, (7.4, 1.4))
    at = y + text * 1.35
    for n, line in enumerate(ORDER, start=1):
        face.composer.say(face.left, at, f"{n}", text, bold=True)
        block, at = paragraph(
            face.left + text * 1.3, at, line, text, face.right - face.left - text * 1.3
        )
        face.composer.add(block)
        at += text * leading
    at -= text * (leading - 0.5)
    face.composer.rule(face.left, face.right, at, HAIR)
    if not face.small:
        at = _arcs(face, at, 9.8 if size == "A7" else 11.0)
    caution = "Eye protection on. Stop the spindle to measure, brush or deburr. " + FIRST
    gap = 1.2 if size == "A7" else 2.0
    face.notes(at + face.note * 1.45, [("Usual scrap:", SCRAP), ("CAUTION", caution)], gap=gap)
    return face


def _arcs(face: Face, y: float, pitch: float) -> float:
    """Set the arc heights of usual inch shafts and widths; return the level under them."""
    c, size = face.composer, face.head
    shafts = [read_fraction(text) for text in ARC_SHAFTS.split()]
    widths = [read_fraction(text) for text in ARC_WIDTHS.split()]
    first = tuple(
        Quantity(v, "in", "typed", (), t) for v, t in zip(shafts, ARC_SHAFTS.split(), strict=True)
    )
    stub = Column(("shaft",), first, FRACTION, bold=True, names=True, fractions=True)
    columns = [stub]
    for wide in widths:
        arcs = [typed(geometry.arc_height(shaft, wide), "in").printed(4) for shaft in shafts]
        columns.append(Column((), tuple(arcs), SECOND))
    edges = Table(tuple(columns), face.left, face.right, widest_gap=60.0).edges(size)
    y += size * 1.2
    c.say(face.left, y, ARCS, size, bold=True, role="TH", header="Column")
    y += RISE + size * 0.45
    c.say(face.left, y, "shaft", size, bold=True, role="TH", header="Column")
    for wide, right in zip(widths, edges[1:], strict=True):
        head = words(right, y, fraction_text(wide), FRACTION, bold=True, anchor="end")
        c.add(Block("TH", (head,), header="Column"))
    y += FALL + size * 0.25
    c.rule(face.left, face.right, y, THIN)
    y += max(0.0, ROW_CLEAR + THIN / 2 - (pitch - RISE - FALL) / 2)
    for n in range(len(shafts)):
        at = y + (pitch + RISE - FALL) / 2
        for column, right in zip(columns, edges, strict=True):
            c.add(cell(column, column.cells[n], right, at, size))
        y += pitch
    y += size * 0.1
    c.rule(face.left, face.right, y, HAIR)
    return y
