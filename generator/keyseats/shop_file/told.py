"""A shop told back in plain words, so that its owner sees what was understood."""

from __future__ import annotations

from fractions import Fraction

from keyseats.lengths import Length, decimal
from keyseats.shop import DIRECTIONS, USUAL_SLIDE, Cutter, Shop, jobs
from keyseats.slides import Slide, dial_reading, grain, said, ways

_DISC, _MILL = "disc or half-moon cutter", "end mill"


def figure(value: Fraction, unit: str) -> str:
    """Return a size as the shop wrote it or near it: no more than six decimals, with its unit."""
    text = decimal(value, 6).rstrip("0").rstrip(".")
    about = "" if Fraction(text) == value else "about "
    return f"{about}{text} {unit}"


def _length(length: Length) -> str:
    return length.text if length.text.endswith(length.unit) else figure(length.value, length.unit)


def _job(verb: str, direction: str, slide: Slide | None) -> str:
    if slide is None:
        return f"  {verb:<9} {direction:<18} no slide named here; a usual dial is offered"
    dial = "" if slide.turn is not None else " (no dial)"
    return f"  {verb:<9} {direction:<18} {slide.name}{dial}"


def _slide(slide: Slide) -> list[str]:
    lines = [f"{slide.name}, {slide.direction}:"]
    one = grain(slide, slide.unit)
    if slide.turn is None or slide.divisions is None or one is None:
        return lines + ["  no dial. A travel is set by"] + [f"  - {way}" for way in ways(slide)]
    count = decimal(slide.divisions, 3).rstrip("0").rstrip(".")
    turn = figure(slide.turn, slide.unit)
    lines.append(f"  one turn moves the slide {turn}, {count} divisions round the dial")
    lines.append(f"  one division moves the slide {figure(one, slide.unit)}")
    if slide.reads == "diameter":
        lines.append(
            f"  the dial reads diameter: one division is marked {figure(one * 2, slide.unit)}, and"
            " the slide moves half of that; the divisions are doubled, never the turns"
        )
    else:
        lines.append("  the dial reads the slide's movement")
    if slide.divisions.denominator != 1:
        lines.append("  the last division of a turn is a part of one: ten turns prove the turn")
    worked = slide.turn * Fraction(14, 5)
    reading = dial_reading(slide, worked, slide.unit)
    if reading is not None:
        lines.append(f"  so {figure(worked, slide.unit)} is {said(reading)}")
    if not slide.zero:
        lines.append("  the dial cannot be set to zero: a line for touch reading + travel is given")
    return lines


def _cutter(cutter: Cutter) -> str:
    sizes = [f"diameter {figure(cutter.diameter, cutter.unit)}"]
    for name, size in (
        ("width", cutter.width),
        ("neck", cutter.neck),
        ("collar", cutter.collar),
        ("holder stands off", cutter.stand_off),
    ):
        if size is not None:
            sizes.append(f"{name} {figure(size, cutter.unit)}")
    return f"  {cutter.name} ({cutter.kind}): {', '.join(sizes)}"


def _facts(shop: Shop) -> list[str]:
    named = (
        ("paper of the sheets", shop.paper),
        ("deepest pass", shop.deepest_pass),
        ("paper or feeler at a touch", shop.paper_thickness),
        ("edge finder's tip", shop.tip),
        ("the tip's length", shop.tip_length),
        ("holder's radius", shop.holder_radius),
        ("gauge blocks", shop.block_set),
        ("material of the shafts", shop.material),
        ("shafts wanted", ", ".join(_length(shaft) for shaft in shop.shafts)),
    )
    return [
        f"  {name}: {_length(value) if isinstance(value, Length) else value}"
        for name, value in named
        if value
    ]


def told(shop: Shop) -> list[str]:
    """Return what was understood of a shop, line by line, for the screen."""
    lines = [shop.heading] if shop.heading else []
    axis = jobs(shop, "disc").along_direction
    how = shop.shaft_lies if shop.shaft_lies == axis else f"{shop.shaft_lies}, {axis}"
    lines += [f"The cutter is in the {shop.spindle}'s spindle; the shaft lies {how}.", ""]
    for name, kind in ((_DISC, "disc"), (_MILL, "end mill")):
        job = jobs(shop, kind)
        lines.append(f"With a {name}:" if kind == "disc" else f"With an {name}:")
        lines.append(_job("centre", job.centre_direction, job.centre))
        lines.append(_job("deepen", job.depth_direction, job.depth))
        lines.append(_job("place", job.along_direction, job.along))
        lines.append("")
    for direction in DIRECTIONS[shop.spindle]:
        lines += [line for s in shop.slides if s.direction == direction for line in _slide(s)]
    if shop.slides:
        lines.append("")
    if 0 < len(shop.slides) < len(DIRECTIONS[shop.spindle]):
        usual = " or ".join(
            f"{figure(s.turn, unit)} a turn with {s.divisions} divisions"
            for unit, s in USUAL_SLIDE.items()
            if s.turn is not None
        )
        lines += [
            f"A usual dial, where no slide is named: {usual} (common practice, no source).",
            "",
        ]
    facts = _facts(shop)
    if facts:
        lines += ["The shop:", *facts, ""]
    if shop.cutters:
        lines += ["Cutters:", *(_cutter(cutter) for cutter in shop.cutters), ""]
    if shop.remarks:
        lines += ["Look again:", *(f"  {text}." for text in shop.remarks), ""]
    if shop.taken:
        lines.append("Taken as usual, because the file does not say (common practice, no source):")
        lines += [f"  {text}." for text in shop.taken]
    while lines and not lines[-1]:
        lines.pop()
    return lines
