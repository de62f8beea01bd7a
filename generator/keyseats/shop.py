"""A shop: its machine, slides, cutters and habits, as read from a shop file or taken as usual."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

from keyseats.frozen import frozen
from keyseats.lengths import Length, decimal
from keyseats.machining import DEEPEST_PASS
from keyseats.slides import Jobs, Slide
from keyseats.speeds import USUAL_MATERIAL

# The direction of the spindle, and of the shaft's axis by how the shaft lies, usual first.
SPINDLES = {"lathe": "along the spindle", "mill": "up and down"}
LIES = {
    "lathe": {"level": "across the spindle", "upright": "up and down"},
    "mill": {"along the table": "along the table", "across the table": "across the table"},
}
DIRECTIONS = {
    "lathe": ("along the spindle", "across the spindle", "up and down"),
    "mill": ("up and down", "along the table", "across the table"),
}
CUTTERS = ("disc", "half-moon", "end mill")


@frozen
class Cutter:
    """A cutter that the shop owns, as measured, all in ``unit``; None where not given.

    An end mill has a diameter only. ``neck`` is the shank's diameter beside a half-moon cutter,
    ``collar`` the diameter beside the free face of a disc on an arbor, ``stand_off`` how far the
    holder stands from the cutter's near face. [length]
    """

    name: str
    kind: str
    unit: str
    diameter: Fraction
    width: Fraction | None = None
    neck: Fraction | None = None
    collar: Fraction | None = None
    stand_off: Fraction | None = None


@frozen
class Shop:
    """A shop's own facts; empty or None where the file does not say.

    ``taken`` says in words what is taken as usual because the file does not say, ``remarks`` what
    its reader ought to look at again.
    """

    heading: str = ""
    paper: str = ""
    spindle: str = "lathe"
    shaft_lies: str = "level"
    slides: tuple[Slide, ...] = ()
    deepest_pass: Length | None = None
    paper_thickness: Length | None = None
    tip: Length | None = None
    tip_length: Length | None = None
    holder_radius: Length | None = None
    block_set: str = ""
    material: str = ""
    cutters: tuple[Cutter, ...] = ()
    shafts: tuple[Length, ...] = ()
    taken: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()


def taken_as_usual(given: frozenset[str], spindle: str, shaft_lies: str) -> tuple[str, ...]:
    """Return what is taken where a shop file does not say: common practice, no source.

    Parameters
    ----------
    given
        The keys that the file has.
    spindle, shaft_lies
        What is taken for these two.
    """
    inch, metric = (decimal(DEEPEST_PASS["in"], 3), decimal(DEEPEST_PASS["mm"], 1))
    says = {
        "spindle": f"the cutter is in a {spindle}'s spindle",
        "shaft_lies": f"the shaft lies {shaft_lies}",
        "paper": "the sheets are for Letter with an inch shaft, for A4 with a metric one",
        "deepest_pass": f"the deepest pass is {inch} in or {metric} mm",
        "paper_thickness": "touches are bare, without paper or feeler",
        "tip": "there is no edge finder",
        "holder_radius": "the holder is not known, so whether it clears is not checked",
        "gauge_blocks": "there are no gauge blocks",
        "material": f"shafts are of {USUAL_MATERIAL}",
        "slide": "no slide is known: a usual dial, 0.100 in a turn with 100 divisions or 1 mm a "
        "turn with 100, is offered as an example",
        "cutter": "cutters are taken at their keys' nominal sizes",
    }
    return tuple(text for key, text in says.items() if key not in given)


USUAL = Shop(taken=taken_as_usual(frozenset(), "lathe", "level"))

# Offered where a shop names no slide: common practice, no source.
USUAL_SLIDE = {
    "in": Slide("a usual dial", "", "in", Fraction("0.1"), Fraction(100)),
    "mm": Slide("a usual dial", "", "mm", Fraction(1), Fraction(100)),
}


def jobs(shop: Shop, cutter_kind: str) -> Jobs:
    """Return which slide centres, deepens and places along for a kind of cutter.

    Parameters
    ----------
    shop
        The machine, how the shaft lies in it, and its slides.
    cutter_kind
        ``disc``, ``half-moon`` or ``end mill``.

    Notes
    -----
    A disc or half-moon cutter is centred along the spindle, since its face touches the shaft's
    side, and deepened across both spindle and shaft. An end mill is deepened along the spindle and
    centred across it.
    """
    if cutter_kind not in CUTTERS:
        raise ValueError(f"a cutter is {', '.join(CUTTERS)}, not {cutter_kind}")
    spindle = SPINDLES[shop.spindle]
    along = LIES[shop.spindle][shop.shaft_lies]
    third = next(d for d in DIRECTIONS[shop.spindle] if d not in (spindle, along))
    centre, depth = (third, spindle) if cutter_kind == "end mill" else (spindle, third)
    by = {slide.direction: slide for slide in shop.slides}
    return Jobs(by.get(centre), by.get(depth), by.get(along), centre, depth, along)


def read_shop(
    path: Path | str, block_sets: tuple[str, ...] = (), materials: tuple[str, ...] = ()
) -> Shop:
    """Read a shop file.

    Parameters
    ----------
    path
        The file. Nothing else is read.
    block_sets, materials
        The names that the tables know; a name in the file is held against them if they are given.

    Raises
    ------
    ShopError
        For the first fault: one line with the file, the line, what is wrong and what would do.
    """
    from keyseats.shop_file.reading import read

    return read(Path(path), block_sets, materials)
