"""Card 5: setting up. The sums on the front, the order of the work on the back."""

from __future__ import annotations

from keyseats.cards.face import CARDS, Face
from keyseats.frame import FIRST
from keyseats.load import Tables
from keyseats.setting import paragraph

SUMS = (
    ("centring from a touch", "half shaft + half cutter + paper"),
    ("depth from crown", "depth at edge + arc height"),
    ("arc height", "R − √(R² − (W/2)²)"),
    ("floor to opposite side", "shaft − depth from crown"),
    ("over key", "floor to opposite side + key height"),
    ("dial that reads diameter", "double the divisions, never the turns"),
)
ORDER = (
    "Drawing and hub first. Nominal picks the key, measured sets the depths.",
    "Measure shaft, key, cutter, neck. Stop if the cutter is outside the seat's width.",
    "Align. Check the rotation. Feed against the cutter.",
    "Centre from a touch, slack taken up one way; lock. Place along; lock.",
    "Witness cut: even about the middle? Touch the crown.",
    "Light passes, stop short, measure floor to opposite side, finish.",
    "Deburr, try the key, measure over it, try the hub by hand.",
)


def card(tables: Tables, size: str) -> tuple[Face, Face]:
    """Return the card's front and back."""
    return _sums(tables, size), _order(tables, size)


def _sums(tables: Tables, size: str) -> Face:
    face = Face(size, CARDS, "front", tables.edition)
    c, small = face.composer, face.small
    y = face.title("Setting up", "the sums")
    text = 7.6 if small else 9.4
    pitch = text * (1.72 if small else 2.0)
    half = face.left + (face.right - face.left) * (0.44 if small else 0.45)
    y += text * 1.25
    for name, total in SUMS:
        c.say(face.left, y, name, text * 0.86, bold=True)
        c.say(half, y, total, text * 0.86)
        c.rule(face.left, face.right, y + pitch * 0.33, 0.3)
        y += pitch
    note = "R: half the shaft. W: the cutter's width. Inches or mm, one unit throughout."
    face.notes(y + 1.5, [("", note), ("", "Centring: US Army TC 9-524. The rest: geometry.")])
    face.last_line()
    return face


def _order(tables: Tables, size: str) -> Face:
    face = Face(size, CARDS, "back", tables.edition)
    y = face.title("Setting up", "in order")
    points = 6.2 if face.small else 7.6
    row = y + points * 1.5
    for n, text in enumerate(ORDER, start=1):
        room = face.right - face.left
        block, row = paragraph(face.left, row, text, points, room, lead=str(n), leading=1.15)
        face.composer.add(block)
        row += points * 1.35
    caution = "Eye protection on. Stop the spindle to measure, brush or deburr. " + FIRST
    face.notes(row + 1.0, [("CAUTION", caution)])
    face.last_line()
    return face
