"""``keyseats inspect``: the verdict on a cut seat from one measurement."""

from __future__ import annotations

import argparse

from keyseats.cli.in_reason import refuse_for_seats, refuse_together
from keyseats.cli.parser import parse as read_words
from keyseats.cli.shaft_command import (
    converted,
    families_of,
    in_unit,
    known_word,
    refuse_unused,
    work_of,
)
from keyseats.cli.shop_option import shop_of
from keyseats.faults import TypedError
from keyseats.frozen import replace
from keyseats.inspection import DATUMS, INSIDE, inspect
from keyseats.inspection_report import inspection_json, inspection_lines
from keyseats.lengths import parse
from keyseats.load import Tables
from keyseats.lookup import OF_UNIT, seats_for
from keyseats.owned import cutter_named
from keyseats.paths import tables_dir
from keyseats.seat import Seat, Work
from keyseats.shop import Cutter


def seat_asked(
    tables: Tables,
    work: Work,
    families: tuple[str, ...],
    key: str,
    cutters: tuple[Cutter, ...] = (),
    named: Cutter | None = None,
) -> Seat:
    """Return the seat of a key, looked for in the shaft's own unit first.

    Raises
    ------
    TypedError
        If no family has the key; as the shaft's own families say it.
    """
    first: TypedError | None = None
    for unit in sorted({"in", "mm"}, key=lambda u: u != work.unit):
        here = tuple(f for f in families if f in OF_UNIT[unit])
        if not here:
            continue
        try:
            return seats_for(tables, converted(work, unit), here, key, cutters, named)[0]
        except TypedError as fault:
            first = first or fault
    assert first is not None
    raise first


def bare(cutter: Cutter) -> Cutter:
    """Return a cutter without what stands beside it: a seat that is cut does not ask for that."""
    return replace(cutter, neck=None, collar=None, stand_off=None)


def run(words: argparse.Namespace) -> int:
    """Answer ``keyseats inspect``: 0 if the seat is inside its limits, else 1."""
    # What a shaft is asked besides, a cut seat is not: the rest stays as if it were not typed.
    refuse_together(words)
    whole = {**vars(read_words(["shaft", "--", words.length])), **vars(words)}
    work = work_of(argparse.Namespace(**whole))
    families = families_of(words, work.unit)
    known_word(work.fit, "--fit", families, "FITS")
    known_word(work.standard, "--standard", families, "STANDARDS")
    datum = next(d for d in DATUMS if getattr(words, d.replace("-", "_")) is not None)
    tables = Tables(tables_dir(words.tables))
    shop = shop_of(words.shop, tables)
    named = None if words.cutter is None else bare(cutter_named(words.cutter, shop))
    cutters = tuple(bare(cutter) for cutter in shop.cutters)
    seat = seat_asked(tables, work, families, words.key, cutters, named)
    refuse_for_seats(work, [seat], asked=True)
    if named is not None:
        refuse_unused(named, [seat], [seat])
    value = in_unit(getattr(words, datum.replace("-", "_")), f"--{datum}", seat.work.unit)
    assert value is not None
    found = inspect(seat, datum, value)
    if words.json:
        import json

        print(json.dumps(inspection_json(found), indent=1, ensure_ascii=False))
    else:
        for line in inspection_lines(found, parse(words.length, "the shaft").text):
            print(line)
    return 0 if found.verdict == INSIDE else 1
