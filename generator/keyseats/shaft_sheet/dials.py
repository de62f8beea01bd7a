"""What a slide shows of a travel, in the words of a sheet."""

from __future__ import annotations

from fractions import Fraction

from keyseats.blocks import Stack, places_in_full
from keyseats.lengths import decimal
from keyseats.set_up import Move
from keyseats.shaft_sheet.sentences import Piece, Set
from keyseats.slides import DialReading, Slide, dial_reading, grain, said
from keyseats.standing import Quantity


def short(reading: DialReading) -> str:
    """Return a reading as turns and divisions only, such as ``3 + 49``."""
    text = said(reading).removesuffix(" div")
    return text.replace(" turns + ", " + ").replace(" turn + ", " + ")


def size(value: Fraction, least: int) -> str:
    """Return a size in full, with at least so many decimals."""
    return decimal(value, places_in_full(value, least))


def count(divisions: Fraction) -> str:
    """Return how many divisions a dial has."""
    return decimal(divisions, places_in_full(divisions))


def one_division(slide: Slide, unit: str) -> str:
    """Return what the slide moves in one division, in the sheet's unit."""
    moves = grain(slide, unit)
    return "" if moves is None else size(moves, 3 if unit == "in" else 2)


def described(slide: Slide, unit: str) -> str:
    """Return a slide's dial in words: one turn, its divisions, and what the marks read."""
    if slide.turn is None or slide.divisions is None:
        return "no dial"
    turn = size(slide.turn, 3 if slide.unit == "in" else 2)
    other = f" {slide.unit}" if slide.unit != unit else ""
    text = f"{turn}{other} a turn, {count(slide.divisions)} div of {one_division(slide, unit)}"
    if slide.reads == "diameter":
        text += ", dial reads diameter: divisions here already doubled"
    return text


def no_dial(name: str, travel: str) -> str:
    """Return what sets a travel where its slide has no dial."""
    return (
        f"No dial on the {name}: zero an indicator at the touch and go on to {travel}; or close "
        "the slide on a stop, the gap set at the touch by adjustable parallel or gauge blocks."
    )


def stacked(stack: Stack, set_name: str, unit: str) -> list[Piece]:
    """Return a gauge-block stack in words, or the nearest ones where the set cannot make it."""
    inside = stack.target.unit
    other = f" {inside}" if inside != unit else ""
    if stack.blocks:
        alone = "" if len(stack.blocks) == 1 else f"= {stack.aimed.text}"
        return [f"Blocks ({set_name}): ", *_sum(stack.blocks, alone), f"{other}."]
    text = f"Blocks ({set_name}) cannot make {stack.aimed.text}{other}"
    near = [build for build in stack.nearest or () if build.blocks]
    pieces: list[Piece] = [text]
    for n, build in enumerate(near):
        pieces.append(" and " if n else "; nearest ")
        pieces += _sum(build.blocks, f"= {build.total.text}")
    return [*pieces, "."]


def _sum(blocks: tuple[Quantity, ...], total: str) -> list[Piece]:
    """Return a stack as figures, which may be broken only after a sign."""
    pieces: list[Piece] = []
    for n, block in enumerate(blocks):
        last = n == len(blocks) - 1
        pieces += [Set(block.text if last else f"{block.text} +"), "" if last else " "]
    return [*pieces, " ", Set(total)] if total else pieces


def on_dial(slide: Slide, move: Fraction, unit: str) -> str:
    """Return a movement on a slide's dial, in words; nothing where there is no dial."""
    reading = dial_reading(slide, move, unit)
    return "" if reading is None else said(reading)


def counted(move: Move) -> str:
    """Return a travel on its dial, in words; nothing where there is no dial."""
    return "" if move.dial is None else said(move.dial)
