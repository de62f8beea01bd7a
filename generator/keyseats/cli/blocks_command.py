"""``keyseats blocks``: the gauge blocks of one set for a length."""

from __future__ import annotations

import argparse
import textwrap
from fractions import Fraction
from typing import Any

from keyseats.alignment import alignment
from keyseats.block_sets import block_set, sets
from keyseats.blocks import PLACE, BlockSet, Build, Stack, stack
from keyseats.faults import KeyseatError, TypedError
from keyseats.lengths import Length, converted, decimal, parse
from keyseats.load import Tables
from keyseats.paths import tables_dir
from keyseats.report import quantity
from keyseats.standing import Quantity

WORDS = {"in": "inches", "mm": "millimetres"}


def stack_json(found: Stack) -> dict[str, Any]:
    """Return a stack as JSON, in the set's unit."""
    nearest = None
    if found.nearest is not None:
        nearest = [quantity(build.total) for build in found.nearest]
    return {
        "set": found.set,
        "target": quantity(found.target),
        "blocks": [quantity(q) for q in found.blocks],
        "remainder": quantity(found.remainder),
        "nearest": nearest,
    }


def _marked(q: Quantity) -> str:
    return f"{q.text} {q.unit}" + ("†" if q.recalled else "")


def _count(blocks: tuple[Quantity, ...]) -> str:
    return f"{len(blocks)} block{'s' if len(blocks) != 1 else ''}"


def screen(
    found: Stack, box: BlockSet, length: Length, offset: Quantity, *, exact: bool, wear: bool
) -> list[str]:
    """Return what ``keyseats blocks`` prints: the blocks, and what they are off by."""
    target = f"{found.target.text} {box.unit}"
    lines = [f"Blocks for {length.text} from {box.name}, {len(box.blocks)} blocks in it"]
    if length.unit != box.unit:
        lines.append(f"{length.text} is {target}, converted: the set is in {WORDS[box.unit]}")
    rounded = found.aimed.value != found.target.value
    if rounded:
        lines.append(f"To make: {found.aimed.text} {box.unit}, the target at the place needed")
    elif not exact:
        lines.append(f"To make: {found.aimed.text} {box.unit}")
    else:
        lines.append("To make: the target itself")
    lines.append("")
    if found.nearest is None:
        lines += _column(found.blocks, wear)
        total = found.target.value - found.remainder.value
        text = decimal(total, max(len(q.text.partition(".")[2]) for q in found.blocks))
        lines += [f"  {text} {box.unit}   {_count(found.blocks)}, the fewest that make it", ""]
        lines += _off(found, box, offset, exact=exact)
    else:
        lines += [f"The set has no stack of {found.aimed.text} {box.unit}"]
        if rounded:
            lines[-1] += f", and none of {target}"
        lines[-1] += "; the nearest are:"
        for build, word in zip(found.nearest, ("below", "above"), strict=True):
            lines += ["", *_near(build, word, found, offset, wear)]
        lines.append("")
    if length.unit != box.unit and found.remainder.value:
        lines += _wrapped(
            f"A set in {WORDS[box.unit]} seldom makes a size in {WORDS[length.unit]} exactly."
        )
    lines += _wrapped(
        "Of stacks with equally few blocks, this is the one with the largest block, then the next "
        "largest." + (" Wear blocks are counted in." if wear else "")
    )
    if box.twice:
        listed = ", ".join(f"{q.text} {q.unit}" for q in box.twice)
        lines += _wrapped(f"Listed more than once, and taken as separate blocks: {listed}.")
    if box.recalled:
        lines += _wrapped(
            "† recalled, not read: compare the list of this set with the blocks in your box."
        )
    return lines


def _column(blocks: tuple[Quantity, ...], wear: bool) -> list[str]:
    marks = [_marked(q) for q in blocks]
    if wear:
        wide = max(len(mark) for mark in marks)
        for end in (0, -1):
            marks[end] = f"{marks[end]:<{wide}}   wear block, at the end"
    return [f"  {mark}" for mark in marks]


def _off(found: Stack, box: BlockSet, offset: Quantity, *, exact: bool) -> list[str]:
    """Return what the stack is off by, beside what a seat may be off."""
    if not found.remainder.value:
        return ["Target less stack: nothing."]
    more = "" if exact else " For the target itself: --exact."
    return _wrapped(
        f"Target less stack: {found.remainder.text} {box.unit}; a seat may be {offset.text} "
        f"{box.unit} off the shaft's centreline.{more}"
    )


def _near(build: Build, word: str, found: Stack, offset: Quantity, wear: bool) -> list[str]:
    off = found.target.value - build.total.value
    text = decimal(
        abs(off),
        max(len(found.target.text.partition(".")[2]), len(build.total.text.partition(".")[2])),
    )
    inside = "inside" if abs(off) <= offset.value else "outside"
    return [
        f"{word}: {build.total.text} {build.total.unit}, {_count(build.blocks)}",
        *_column(build.blocks, wear),
        f"  off by {text} {offset.unit}, {inside} the {offset.text} {offset.unit} that a seat may "
        "be off centre",
    ]


def _wrapped(text: str, width: int = 92) -> list[str]:
    return textwrap.wrap(text, width)


def _place(words: argparse.Namespace, box: BlockSet, offset: Quantity) -> Fraction | None:
    """Return the place to round to, in the set's unit; None for the usual one."""
    if words.place is None:
        return None
    if words.exact:
        raise TypedError("--place: --exact makes the target itself; give one of the two")
    place = parse(words.place, "--place")
    value = converted(place.value, place.unit, box.unit)
    if value > offset.value:
        usual = f"{float(PLACE[box.unit]):g} {box.unit}"
        raise TypedError(
            f"--place: {place.text} is coarser than the {offset.text} {box.unit} that a seat may "
            f"be off centre; leave it out for {usual}"
        )
    return value


def _set_of(words: argparse.Namespace, tables: Tables) -> str:
    """Return the name of the set that was typed, or that the shop file names."""
    if words.set is not None:
        return str(words.set)
    from keyseats.cli.shop_option import shop_of

    shop = shop_of(words.shop, tables)
    if not shop.block_set:
        raise KeyseatError(
            f"{words.shop} has no gauge_blocks; add a line gauge_blocks = ... or give --set: "
            f"{', '.join(sets(tables))}"
        )
    return shop.block_set


def run(words: argparse.Namespace) -> int:
    """Answer ``keyseats blocks``."""
    length = parse(words.length, "the length")
    tables = Tables(tables_dir(words.tables))
    box = block_set(tables, _set_of(words, tables))
    offset, _ = alignment(tables, box.unit, None)
    place = _place(words, box, offset)
    found = stack(box, length.value, length.unit, exact=words.exact, place=place, wear=words.wear)
    if words.json:
        import json

        print(json.dumps(stack_json(found), indent=1, ensure_ascii=False))
        return 0
    for line in screen(found, box, length, offset, exact=words.exact, wear=words.wear):
        print(line)
    return 0
