"""A travel on the dial: whole turns and divisions, worked once, and a place for one's own."""

from __future__ import annotations

from keyseats.frame import Frame
from keyseats.lengths import decimal, places_of, read_fraction
from keyseats.machining import turns_and_divisions
from keyseats.setting import figure
from keyseats.setting_up.system import System
from keyseats.standing import typed

# From the heading's lower edge to the worked example's last line. [figure sizes]
DIAL_HEIGHT = 8.2
# The form's heads; its rows are as tall as they are asked for.
FORM_HEAD, FORM_ROWS = 1.2, 3


def dial(f: Frame, system: System, y: float) -> float:
    """Set the dial's arithmetic under its heading, worked once; return the level under it. [pt]"""
    u, c = f.unit, f.composer
    size = u * 0.74
    rules = (
        ("travel ÷ movement in one turn", "whole turns"),
        ("what is left ÷ movement of one division", "divisions"),
    )
    for n, (left, right) in enumerate(rules):
        level = y + u * (0.75 + 1.05 * n)
        c.say(f.left, level, left, size)
        c.say(f.left + u * 17.6, level, f"=  {right}", size, bold=True)
    return _worked(f, system, y + u * 2.35)


def _worked(f: Frame, system: System, y: float) -> float:
    u, c, unit = f.unit, f.composer, system.unit
    move, turn = read_fraction(system.feed), read_fraction(system.turn)
    c.rule(f.left, f.right, y, u * 0.03)
    said = f"Worked: feed {system.feed}; the slide moves {system.turn} in one turn"
    c.say(f.left, y + u * 0.95, said, u * 0.64, bold=True)
    wide = f.right - f.left - u * 0.2
    at = [f.left + wide * x for x in (0.45, 0.66, 0.79, 1.0)]
    heads = ("divisions", "one division", "turns", "+ divisions")
    y += u * 1.9
    c.say(f.left, y, "dial reads", u * 0.6, role="TH", header="Column")
    for x, text in zip(at, heads, strict=True):
        c.say(x, y, text, u * 0.6, anchor="end", role="TH", header="Column")
    c.rule(f.left, f.right, y + u * 0.3, u * 0.03)
    for n, name in enumerate(("the slide's movement", "the diameter")):
        base = y + u * (1.4 + 1.25 * n)
        count = system.divisions * (n + 1)
        one = turn / count
        places = max(places_of(decimal(one, 6).rstrip("0")), 2)
        whole, rest = turns_and_divisions(move, turn, count)
        c.say(f.left, base, name, u * 0.72, role="TH", header="Row")
        c.say(at[0], base, str(count), f.second, anchor="end", role="TD")
        c.add(figure(at[1], base, typed(one, unit).printed(places), f.second, cut=False))
        c.say(at[2], base, str(whole), u, bold=True, anchor="end", role="TD")
        c.say(at[3], base, f"+ {decimal(rest, 0)}", u, bold=True, anchor="end", role="TD")
    y += u * 3.0
    c.rule(f.left, f.right, y, u * 0.03)
    last = "Diameter-reading, twice the marks: divisions double, turns never. Prove one turn."
    c.say(f.left, y + u * 0.85, last, u * 0.64)
    return y + u * 0.95


def form(f: Frame, y: float, pitch: float) -> float:
    """Set the form for one's own slides, to be written in; return the level under it. [pt]

    Parameters
    ----------
    f
        The page.
    y
        Its upper edge. [pt]
    pitch
        The height of a row. [pt]
    """
    u, c = f.unit, f.composer
    c.rule(f.left, f.right, y, u * 0.09)
    at = [f.left + (f.right - f.left) * x for x in (0.31, 0.5, 0.66, 0.84)]
    base = y + u * 0.85
    c.say(f.left, base, "your machine (fill in)", u * 0.6, bold=True, role="TH", header="Column")
    heads = ("one turn", "divisions", "one division", "reads")
    for x, text in zip(at, heads, strict=True):
        c.say(x, base, text, u * 0.6, role="TH", header="Column")
    y += u * FORM_HEAD
    for n, name in enumerate(("along the spindle", "across it", "up and down")):
        c.rule(f.left, f.right, y + n * pitch, u * 0.03)
        base = y + n * pitch + pitch * 0.5 + u * 0.25
        c.say(f.left, base, name, u * 0.66, role="TH", header="Row")
        for x in at:
            c.upright(x - u * 0.4, y + n * pitch, y + (n + 1) * pitch, u * 0.02)
    return y + FORM_ROWS * pitch
