"""A shop file read into a shop; the first fault refuses it, with its line."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction
from pathlib import Path

from keyseats.lengths import Length, decimal
from keyseats.shop import CUTTERS, DIRECTIONS, LIES, SPINDLES, Cutter, Shop, taken_as_usual
from keyseats.shop_file import values
from keyseats.shop_file.opening import Opened, open_shop
from keyseats.shop_file.values import LONGEST_NAME, LONGEST_WORDS, Part, in_unit
from keyseats.slides import READS, Slide

TOP = (
    "heading",
    "paper",
    "spindle",
    "shaft_lies",
    "deepest_pass",
    "paper_thickness",
    "tip",
    "tip_length",
    "holder_radius",
    "gauge_blocks",
    "material",
    "shafts",
    "slide",
    "cutter",
)
SLIDE = ("name", "direction", "turn", "divisions", "graduation", "reads", "can_be_zeroed")
CUTTER = ("name", "kind", "diameter", "width", "neck", "collar", "stand_off")
PAPERS = ("Letter", "A4", "Tabloid", "A3")
MOST_CUTTERS = 60
MOST_SHAFTS = 40
# Marks named in the other system do not come out even: 1 mm a turn with 40 marks of 0.001 in.
MARKS_OUT = Fraction(2, 100)


@dataclass
class _Found:
    """What is taken as usual, and what is worth a second look, as the reading goes on."""

    taken: list[str] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)


def read(path: Path, block_sets: tuple[str, ...], materials: tuple[str, ...]) -> Shop:
    """Read a shop file; see :func:`keyseats.shop.read_shop`.

    Raises
    ------
    ShopError
        For the first fault.
    """
    opened = open_shop(path)
    top = Part(opened, (), opened.data)
    below = dict.fromkeys(SLIDE, "it belongs under a [[slide]]")
    below |= dict.fromkeys(CUTTER, "it belongs under a [[cutter]]")
    below["name"] = "it belongs under a [[slide]] or a [[cutter]]; the shop's name is heading"
    top.only(TOP, below)
    found = _Found()
    spindle = top.word("spindle", tuple(SPINDLES)) or "lathe"
    lies = tuple(LIES[spindle])
    machine = f" with the cutter in a {spindle}'s spindle"
    tip, tip_length = top.length("tip", values.TIP), top.length("tip_length", values.TIP_LENGTH)
    if tip_length is not None and tip is None:
        top.refuse("tip_length", "tip_length is given without tip; give the tip's diameter too")
    shop = Shop(
        heading=top.text("heading", LONGEST_WORDS),
        paper=top.word("paper", PAPERS),
        spindle=spindle,
        shaft_lies=top.word("shaft_lies", lies, machine) or lies[0],
        deepest_pass=top.length("deepest_pass", values.PASS),
        paper_thickness=top.length("paper_thickness", values.PAPER),
        tip=tip,
        tip_length=tip_length,
        holder_radius=top.length("holder_radius", values.HOLDER),
        block_set=_named(top, "gauge_blocks", block_sets),
        material=_named(top, "material", materials),
        shafts=top.lengths("shafts", values.SHAFT, MOST_SHAFTS),
        slides=_slides(opened, spindle, found),
        cutters=_cutters(opened, found),
    )
    usual = taken_as_usual(frozenset(opened.data), shop.spindle, shop.shaft_lies)
    return replace(shop, taken=(*usual, *found.taken), remarks=tuple(found.remarks))


def _named(top: Part, key: str, known: tuple[str, ...]) -> str:
    """Return a name that the tables know; the beginning of one will do if it is of one only."""
    name = top.text(key, LONGEST_NAME)
    begun = [k for k in known if k.lower().startswith(name.lower())] if name else []
    if len(begun) == 1:
        return begun[0]
    return (top.word(key, known) if known else name) if name else ""


def _parts(opened: Opened, key: str, most: int) -> list[Part]:
    many = opened.data.get(key, [])
    top = Part(opened, (), opened.data)
    if not isinstance(many, list) or not all(isinstance(one, dict) for one in many):
        top.refuse(key, f"{key} stands alone here; begin each one with [[{key}]], in two brackets")
    if len(many) > most:
        top.refuse((key, most), f"{len(many)} of [[{key}]] are too many; {most} are allowed")
    return [Part(opened, (key, n), one) for n, one in enumerate(many)]


def _other(own: tuple[str, ...], other: tuple[str, ...], name: str) -> dict[str, str]:
    where = dict.fromkeys(other, f"it belongs under a [[{name}]]")
    where |= dict.fromkeys(TOP, "it belongs above the first [[slide]] or [[cutter]]")
    return {key: says for key, says in where.items() if key not in own}


def _unlike(part: Part, key: str, value: str, seen: dict[str, int], what: str) -> None:
    """Refuse a value that an earlier table of the same kind has."""
    if value.lower() in seen:
        part.refuse(key, f"{key}: '{value}' is taken on line {seen[value.lower()]}; {what}")
    seen[value.lower()] = part.line(key)


def _slides(opened: Opened, spindle: str, found: _Found) -> tuple[Slide, ...]:
    names: dict[str, int] = {}
    directions: dict[str, int] = {}
    slides = []
    for part in _parts(opened, "slide", 12):
        part.only(SLIDE, _other(SLIDE, CUTTER, "cutter"))
        part.need(("name", "direction"), "this slide")
        name = part.text("name", LONGEST_NAME)
        _unlike(part, "name", name, names, "give each slide its own name")
        machine = f" with the cutter in a {spindle}'s spindle"
        direction = part.word("direction", DIRECTIONS[spindle], machine)
        once = "keep the slide that is moved there, and lock the other"
        _unlike(part, "direction", direction, directions, once)
        slides.append(_slide(part, name, direction, found))
    first = next((s.unit for s in slides if s.turn is not None), "in")
    return tuple(
        s if s.turn is not None else Slide(s.name, s.direction, first, None, None) for s in slides
    )


def _slide(part: Part, name: str, direction: str, found: _Found) -> Slide:
    turn = part.length("turn", values.TURN)
    divisions = part.divisions("divisions")
    reads = part.word("reads", READS)
    zero = part.flag("can_be_zeroed", True)
    if turn is None or divisions is None:
        for have, lack in (("turn", "divisions"), ("divisions", "turn")):
            if have in part.table:
                part.refuse(have, f"{have} is given without {lack}; a dial needs both")
        for key in ("graduation", "reads", "can_be_zeroed"):
            if key in part.table:
                part.refuse(
                    key, f"{key} is about a dial; give turn and divisions too, or leave {key} out"
                )
        return Slide(name, direction, "in", None, None)
    graduation = part.length("graduation", values.GRADUATION)
    if graduation is not None:
        reads = _reads(part, name, turn, divisions, graduation, reads, found)
    elif not reads:
        found.taken.append(f"{name}: the dial reads the slide's movement; prove one turn")
    return Slide(name, direction, turn.unit, turn.value, divisions, reads or "movement", zero)


def _figure(value: Fraction) -> str:
    return decimal(value, 5).rstrip("0").rstrip(".")


def _reads(
    part: Part,
    name: str,
    turn: Length,
    divisions: Fraction,
    graduation: Length,
    reads: str,
    found: _Found,
) -> str:
    """Hold the marks against the turn: they name the movement, or the diameter, which is twice."""
    unit = turn.unit
    marked = divisions * in_unit(graduation, unit)
    wanted = {"movement": turn.value, "diameter": turn.value * 2}
    fits = [r for r in READS if abs(marked - wanted[r]) <= wanted[r] * MARKS_OUT]
    dial = f"{_figure(divisions)} divisions of {graduation.text} are {_figure(marked)} {unit}"
    if not fits or (reads and reads not in fits):
        if reads:
            twice = ", twice the turn" if reads == "diameter" else ""
            need = f"a dial that reads {reads} has {_figure(wanted[reads])} {unit}{twice}"
        else:
            need = f"neither the turn, {_figure(turn.value)} {unit}, nor twice that"
        other = f'; it would fit reads = "{fits[0]}"' if fits else ""
        part.refuse(
            "graduation",
            f"graduation: {dial}, {'but ' if reads else ''}{need}{other}; count the divisions "
            "again and prove one turn with an indicator",
        )
    if not reads:
        times = "twice the turn" if fits[0] == "diameter" else "the turn"
        found.taken.append(f"{name}: the dial reads {fits[0]}, since {dial}, {times}")
    out = (marked - wanted[fits[0]]) / wanted[fits[0]]
    if out:
        found.remarks.append(
            f"{name}: {dial}, and the turn is {turn.text}: the marks' names are "
            f"{decimal(abs(out) * 100, 1)} % {'over' if out > 0 else 'under'}. Count divisions, "
            "and leave the names alone"
        )
    return fits[0]


def _cutters(opened: Opened, found: _Found) -> tuple[Cutter, ...]:
    names: dict[str, int] = {}
    cutters = []
    for part in _parts(opened, "cutter", MOST_CUTTERS):
        part.only(CUTTER, _other(CUTTER, SLIDE, "slide"))
        part.need(("name", "kind", "diameter"), "this cutter")
        name = part.text("name", LONGEST_NAME)
        _unlike(part, "name", name, names, "give each cutter its own name")
        cutter = _cutter(part, name, part.word("kind", CUTTERS))
        wide = cutter.diameter if cutter.width is None else cutter.width
        if wide > values.WIDE[cutter.unit]:
            what = "across" if cutter.width is None else "wide"
            found.remarks.append(
                f"{name}: {_figure(wide)} {cutter.unit} {what} is a large one; if a fraction was "
                "meant, write it with a stroke, such as 3/16 in"
            )
        cutters.append(cutter)
    return tuple(cutters)


def _cutter(part: Part, name: str, kind: str) -> Cutter:
    diameter = part.length("diameter", values.MILL if kind == "end mill" else values.CUTTER)
    if diameter is None:
        part.refuse("diameter", "this cutter has no diameter; add a line diameter = ...")
    not_of = {
        "end mill": ("width", "neck", "collar", "stand_off"),
        "half-moon": ("collar",),
        "disc": ("neck",),
    }[kind]
    for key in not_of:
        if key in part.table:
            part.refuse(
                key, f"{key} does not go with kind {kind}; leave it out, or look at the kind"
            )
    if kind != "end mill":
        part.need(("width",), f"this {kind} cutter")
    sizes: dict[str, Fraction | None] = {}
    for key, within in (
        ("width", values.CUTTER_WIDTH),
        ("neck", values.CUTTER),
        ("collar", values.CUTTER),
        ("stand_off", values.STAND_OFF),
    ):
        length = part.length(key, within)
        sizes[key] = None if length is None else in_unit(length, diameter.unit)
        size = sizes[key]
        if length and key != "stand_off" and size is not None and size >= diameter.value:
            part.refuse(
                key,
                f"{key}: {length.text} is not under the cutter's diameter, {diameter.text}; "
                "measure again",
            )
    return Cutter(name, kind, diameter.unit, diameter.value, **sizes)
