"""Keys of the other system that lie on an outline too, found in the tables."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from keyseats import lengths
from keyseats.frame import Frame
from keyseats.page import Block
from keyseats.seat import Key
from keyseats.setting import figure, words
from keyseats.standing import Quantity

NAMES = ("width", "height", "diameter")
# A half-moon key's height has the places that its standard prints.
PLACES = {("in", 2): (4, 4), ("in", 3): (4, 3, 4), ("mm", 2): (2, 2), ("mm", 3): (2, 2, 2)}
UNITS = {"in": "inches", "mm": "mm"}
# Keys nearer than this in every figure are not told apart on paper: the eye looks past a key some
# millimetres thick, and the sheet has stretched (judgement). [mm]
APART = Fraction("0.5")


@dataclass(frozen=True)
class Pair:
    """A key of the page, and the key of the other system that lies on its outline."""

    here: Key
    other: Key


def figures(key: Key) -> tuple[Quantity, ...]:
    """Return a key's width, height and, half-moon, diameter."""
    assert key.nominal_height is not None
    found = (key.width, key.nominal_height)
    return (*found, key.diameter) if key.diameter is not None else found


def shown_name(key: Key) -> str:
    """Return a key's name as its family's wall chart prints it."""
    return key.designation if key.diameter is not None else key.designation.replace("x", "×")


def converted(quantity: Quantity, unit: str, places: int = 4) -> Quantity:
    """Return a size in inches or millimetres."""
    value = lengths.converted(quantity.value, quantity.unit, unit)
    return replace(quantity, value=value, unit=unit).printed(places)


def gaps(pair: Pair) -> list[Fraction]:
    """Return how far two keys are apart, figure by figure. [mm]"""
    both = zip(figures(pair.here), figures(pair.other), strict=True)
    return [abs(converted(a, "mm").value - converted(b, "mm").value) for a, b in both]


def pairs(here: list[Key], others: list[Key]) -> list[Pair]:
    """Return the keys that lie on each other's outlines, in the page's order."""
    every = [Pair(a, b) for a in here for b in others]
    return [pair for pair in every if max(gaps(pair)) < APART]


def height(f: Frame, count: int) -> float:
    """Return the height that the list of pairs needs. [pt]"""
    return f.unit * (4.3 + 1.22 * count)


def set_pairs(f: Frame, y: float, right: float, found: list[Pair]) -> None:
    """List the pairs with the figures that a micrometer tells them apart by."""
    c, u = f.composer, f.unit
    unit = found[0].here.width.unit
    c.rule(f.left, right, y, u * 0.09)
    c.say(f.left, y + u * 1.2, "Paper cannot tell these apart", u, bold=True, role="H2")
    said = (
        "Nearer than 0.5 mm in every figure: either key lies on the outline.",
        "Measure, and look first at the bold figures, where they differ most.",
    )
    for n, line in enumerate(said):
        c.say(right, y + u * (0.92 + 0.76 * n), line, f.note, anchor="end")
    y += u * 3.3
    names = NAMES[: len(figures(found[0].here))]
    wide = (right - f.left) / 2 - u * 0.5
    for half, other in ((0, False), (1, True)):
        x = f.left + half * (wide + u)
        name = f"or this, converted to {UNITS[unit]}" if other else f"this key, in {UNITS[unit]}"
        c.say(x, y, name, f.note, role="TH", header="Column")
        for n, text in enumerate(names):
            c.say(
                _at(f, x, wide, n, len(names)),
                y,
                text,
                f.note,
                anchor="end",
                role="TH",
                header="Column",
            )
    y += u * 0.35
    c.rule(f.left, right, y, u * 0.03)
    for pair in found:
        y += u * 1.22
        away = gaps(pair)
        telling = away.index(max(away))
        for half, key in ((0, pair.here), (1, pair.other)):
            x = f.left + half * (wide + u)
            label = words(x, y, shown_name(key), f.second, bold=True)
            c.add(Block("TH", (label,), header="Row"))
            for n, quantity in enumerate(figures(key)):
                place = _at(f, x, wide, n, len(names))
                bold = n == telling
                shown = converted(quantity, unit, PLACES[unit, len(names)][n])
                c.add(figure(place, y, shown, f.second, bold=bold))


def _at(f: Frame, x: float, wide: float, number: int, count: int) -> float:
    """Return where a column of figures ends."""
    return x + wide - f.unit * 4.6 * (count - 1 - number)
