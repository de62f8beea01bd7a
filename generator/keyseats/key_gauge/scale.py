"""The two check bars at a right angle, and the false lengths by which a wrong scale is known."""

from __future__ import annotations

from fractions import Fraction

from keyseats.frame import Frame
from keyseats.page import MM, PAPERS, Block, Line, Mark
from keyseats.setting import paragraph, words

INCHES, MILLIMETRES = 4, 100
INCH_BAR, MM_BAR = INCHES * 72.0, MILLIMETRES * MM
# What a bar may be off: paper and fuser move a sheet by some tenths of a per cent (judgement).
OFF = "0.5 mm (0.02 in)"
# Edges that printers leave white: most lasers, and a driver's cautious default. [mm]
NARROW, WIDE = Fraction(4), Fraction("6.35")
OTHER = {"Letter": "A4", "A4": "Letter"}
LONG, SHORT, BASE, TICK = 5.0, 3.0, 0.85, 0.5


def fit(paper: str, onto: str, edge: Fraction) -> float:
    """Return the scale at which a page is printed when it is made to fit a sheet.

    Parameters
    ----------
    paper, onto
        The page's paper and the sheet in the printer.
    edge
        What the printer leaves white all round. [mm]
    """
    pairs = zip(PAPERS[paper], PAPERS[onto], strict=True)
    return min((sheet - 2 * float(edge) * MM) / page for page, sheet in pairs)


def false_lengths(paper: str) -> list[tuple[str, str, str]]:
    """Return how a page goes wrong: what was done, then what the two bars measure. [mm, in]"""
    other = OTHER[paper]
    cases = (
        (f"{paper}, 4 mm margins", paper, NARROW),
        (f"{paper}, 1/4 in margins", paper, WIDE),
        (f"{other}, no margins", other, Fraction(0)),
        (f"{other}, 1/4 in margins", other, WIDE),
    )
    found = []
    for name, onto, edge in cases:
        scale = fit(paper, onto, edge)
        found.append((name, f"{MILLIMETRES * scale:.1f}", f"{INCHES * scale:.2f}"))
    return found


def bars(f: Frame, x: float, y: float) -> float:
    """Draw the inch bar leftward and the millimetre bar downward from their corner; return its end.

    They are measured from the middle of the first tick to the middle of the last.
    """
    left, low, size = x - INCH_BAR, y + MM_BAR, f.note
    across: list[Block | Mark] = [Line(left, y, x, y, BASE)]
    for n in range(2 * INCHES + 1):
        at = left + n * INCH_BAR / (2 * INCHES)
        across.append(Line(at, y, at, y - (SHORT if n % 2 else LONG), TICK))
        if n % 2 == 0:
            last = n == 2 * INCHES
            text = f"{n // 2} in" if last else str(n // 2)
            across.append(words(at, y - LONG - size * 0.35, text, size, anchor="middle"))
    alt = f"Check bar, {INCHES} in from end tick to end tick"
    f.composer.add(Block("Figure", tuple(across), alt=alt))
    down: list[Block | Mark] = [Line(x, y, x, low, BASE)]
    for n in range(MILLIMETRES // 10 + 1):
        at = y + n * 10 * MM
        big = n % 5 == 0
        down.append(Line(x, at, x + (LONG if big else SHORT), at, TICK))
        if big:
            down.append(words(x + LONG + size * 0.3, at + size * 0.365, str(n * 10), size))
    down.append(words(x + LONG + size * 0.3, low + size * 1.45, "mm", size))
    alt = f"Check bar, {MILLIMETRES} mm from end tick to end tick, at a right angle to the other"
    f.composer.add(Block("Figure", tuple(down), alt=alt))
    return low


def judged(f: Frame, x: float, y: float, right: float, size: float) -> float:
    """Say under the inch bar how the page is judged by its bars; return the last baseline."""
    c, step = f.composer, size * 1.25
    room = (right - x) * 0.44
    c.say(x, y, "First measure both bars.", size, bold=True, role="H2")
    text = f"If one is wrong by more than {OFF}, do not use this page: print it at actual size."
    block, last = paragraph(x, y + step * 1.28, text, size, room)
    c.add(block)
    wide = right - x
    at_mm, at_in, at_name = x + wide * 0.88, right, x + wide * 0.5
    c.say(at_name, y, "printed to fit on", f.note, role="TH", header="Column")
    for at, text in ((at_mm, "100 mm"), (at_in, "4 in")):
        c.say(at, y, text, f.note, anchor="end", role="TH", header="Column")
    c.rule(at_name, right, y + size * 0.42, f.unit * 0.03)
    level = y + step * 1.28
    for name, millimetres, inches in false_lengths(f.paper):
        c.say(at_name, level, name, f.note, role="TH", header="Row")
        c.say(at_mm, level, millimetres, size, anchor="end", role="TD")
        c.say(at_in, level, inches, size, anchor="end", role="TD")
        level += step
    return max(last, level - step)
