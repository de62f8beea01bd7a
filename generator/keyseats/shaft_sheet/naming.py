"""The name over each figure that is seen first, and what keeps it from being used."""

from __future__ import annotations

from keyseats.page import Block
from keyseats.setting import set_width, words
from keyseats.shaft_sheet.cautions import stops
from keyseats.shaft_sheet.composing import MAIN, TEXT, ShaftSheet
from keyseats.typeface import width

NOT_YET = "Do not cut yet: mend step 3."


def named(s: ShaftSheet, y: float, name: str, *says: str) -> None:
    """Set a figure's name and the fullest words for it that there is room for.

    Parameters
    ----------
    s
        The sheet; where a caution stops its job, the name says so.
    y
        The baseline. [pt]
    name
        What the figure is.
    says
        What it is from, in full first, and then in fewer words; nothing where none goes in.
    """
    c, size, x = s.f.composer, s.ease.words, s.f.left + TEXT
    c.say(x, y, name, MAIN, bold=True)
    x += width(name + "  ", MAIN, True)
    if stops(s):
        c.say(x, y, NOT_YET, size, bold=True)
        x += width(NOT_YET + "  ", size, True)
    room = s.f.right - 6 - x
    chosen = next((text for text in says if set_width(text, size) <= room), "")
    if chosen:
        c.add(Block("P", (words(x, y, chosen, size),)))
