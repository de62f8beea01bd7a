"""Keys of the other system that lie on an outline too, found in the tables."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from keyseats import lengths
from keyseats.families import inch_half_moon
from keyseats.frame import Frame
from keyseats.page import Block
from keyseats.seat import Key
from keyseats.setting import figure, limits_line, set_width, words
from keyseats.standing import Limits, Quantity

NAMES = ("width", "height", "diameter")
# A half-moon key's height has the places that its standard prints.
PLACES = {("in", 2): (4, 4), ("in", 3): (4, 3, 4), ("mm", 2): (2, 2), ("mm", 3): (2, 2, 2)}
UNITS = {"in": "inches", "mm": "mm"}
# Families whose standard tables a height as its least and its most; of the others' heights it
# tables one, and a tolerance elsewhere.
LIMITED = (inch_half_moon.NAME,)
# Keys nearer than this in every figure are not told apart on paper: the eye looks past a key some
# millimetres thick, and the sheet has stretched (judgement). [mm]
APART = Fraction("0.5")
NONE = "No key of the other system in the tables is within 0.5 mm of one of these in every figure."
SAID = (
    "Nearer than 0.5 mm in every figure: either key lies on the outline.",
    "Measure, and look first at the bold figures, where they differ most.",
)
# Down the list from its rule: title, what each side is, heads, rule; then each row.
TITLE, SIDE, HEAD, RULE, ROW = 1.2, 2.75, 3.6, 3.95, 1.22
# White before a column of figures, and much more between the two keys of a row.
GAP, BETWEEN = 1.3, 6.0


@dataclass(frozen=True)
class Pair:
    """A key of the page, and the key of the other system that lies on its outline."""

    here: Key
    other: Key


def figures(key: Key) -> tuple[Limits, ...]:
    """Return a key's width, height and, half-moon, diameter; one size is its least and its most."""
    assert key.nominal_height is not None
    height = Limits(key.nominal_height, key.nominal_height)
    found = (Limits(key.width, key.width), key.height if key.family in LIMITED else height)
    return (*found, Limits(key.diameter, key.diameter)) if key.diameter is not None else found


def converted(of: Limits, unit: str) -> Limits:
    """Return a figure in inches or millimetres."""

    def one(q: Quantity) -> Quantity:
        return replace(q, value=lengths.converted(q.value, q.unit, unit), unit=unit)

    return Limits(one(of.least), one(of.most))


def gaps(pair: Pair) -> list[Fraction]:
    """Return how near two keys come to each other, figure by figure. [mm]"""
    found = []
    for a, b in zip(figures(pair.here), figures(pair.other), strict=True):
        one, other = converted(a, "mm"), converted(b, "mm")
        over = other.least.value - one.most.value
        under = one.least.value - other.most.value
        found.append(max(over, under, Fraction(0)))
    return found


def pairs(here: list[Key], others: list[Key]) -> list[Pair]:
    """Return the keys that lie on each other's outlines, in the page's order."""
    every = [Pair(a, b) for a in here for b in others]
    return [pair for pair in every if max(gaps(pair)) < APART]


def height(f: Frame, count: int) -> float:
    """Return the height that the list of pairs needs. [pt]"""
    return f.unit * (RULE + 0.6 + ROW * count) if count else f.unit * 1.6


def set_pairs(f: Frame, y: float, found: list[Pair]) -> None:
    """List the pairs with the figures that a micrometer tells them apart by, or say there are none.

    Parameters
    ----------
    f
        The page.
    y
        Level of the rule that the list stands under. [pt]
    found
        The pairs; the page's own key stands at the left.
    """
    c, u = f.composer, f.unit
    if not found:
        c.rule(f.left, f.right, y, u * 0.03)
        c.say(f.left, y + u * 0.95, NONE, f.note)
        return
    c.rule(f.left, f.right, y, u * 0.09)
    c.say(f.left, y + u * TITLE, "Paper cannot tell these apart", u, bold=True, role="H2")
    for n, line in enumerate(SAID):
        c.say(f.right, y + u * (0.92 + 0.76 * n), line, f.note, anchor="end")
    unit = found[0].here.width.unit
    this, that = f"this key, in {UNITS[unit]}", f"or this, converted to {UNITS[unit]}"
    own = _Side(f, f.left, this, [pair.here for pair in found], unit)
    sides = (
        own,
        _Side(f, own.right + u * BETWEEN, that, [pair.other for pair in found], unit),
    )
    with c.table():
        for side in sides:
            side.head(y)
        for n, pair in enumerate(found):
            away = gaps(pair)
            with c.row():
                for side in sides:
                    side.row(n, y + u * (RULE + ROW * (n + 1)), away.index(max(away)))


class _Side:
    """The keys on one side of the list, each with its figures close to it."""

    def __init__(self, f: Frame, x: float, name: str, keys: list[Key], unit: str) -> None:
        self._f, self._x, self._name, self._keys = f, x, name, keys
        self._figures = [_printed(key, unit) for key in keys]
        at = x + max(set_width(key.in_print, f.second, True) for key in keys)
        self._ends: list[float] = []
        for n, column in enumerate(zip(*self._figures, strict=True)):
            rooms = [_set(f, 0.0, 0.0, of, bold=True)[1] for of in column]
            at += f.unit * GAP + max(*rooms, set_width(self._head_of(n), f.note))
            self._ends.append(at)

    def _head_of(self, column: int) -> str:
        limits = any(_is_range(of[column]) for of in self._figures)
        return f"{NAMES[column]}, least to most" if limits else NAMES[column]

    @property
    def right(self) -> float:
        """Return where its last column ends. [pt]"""
        return self._ends[-1]

    def head(self, y: float) -> None:
        """Set what the side is, over the heads of its columns."""
        f = self._f
        c, u = f.composer, f.unit
        with c.over():
            c.say(self._x, y + u * SIDE, self._name, f.note)
            c.say(self._x, y + u * HEAD, "key", f.note, role="TH", header="Column")
            for n, end in enumerate(self._ends):
                text = self._head_of(n)
                c.say(end, y + u * HEAD, text, f.note, anchor="end", role="TH", header="Column")
        c.rule(self._x, self.right, y + u * RULE, u * 0.03)

    def row(self, number: int, y: float, telling: int) -> None:
        """Set a key and its figures, the one that tells it from the other in bold."""
        f, key = self._f, self._keys[number]
        label = words(self._x, y, key.in_print, f.second, bold=True)
        f.composer.add(Block("TH", (label,), header="Row"))
        for n, (of, end) in enumerate(zip(self._figures[number], self._ends, strict=True)):
            bold = n == telling
            x = end - _set(f, 0.0, y, of, bold=bold)[1]
            f.composer.add(_set(f, x, y, of, bold=bold)[0])


def _printed(key: Key, unit: str) -> list[Limits]:
    """Return a key's figures as the page prints them: limits inward, a size to the nearest."""
    found = figures(key)
    return [
        converted(of, unit).printed(places, "inward" if _is_range(of) else "nearest")
        for of, places in zip(found, PLACES[unit, len(found)], strict=True)
    ]


def _is_range(of: Limits) -> bool:
    return of.least.value != of.most.value


def _set(f: Frame, x: float, y: float, of: Limits, *, bold: bool) -> tuple[Block, float]:
    """Set a figure from ``x`` on; return its cell and where it ends."""
    if _is_range(of):
        small = f.note / f.second
        line, end = limits_line(x, y, of, f.second, small=small, bold=bold)
        return Block("TD", (line,)), end
    end = x + set_width(of.most.text, f.second, bold)
    return figure(end, y, of.most, f.second, bold=bold), end
