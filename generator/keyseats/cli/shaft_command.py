"""``keyseats shaft``: every figure of the seats that a shaft can have."""

from __future__ import annotations

import argparse
from fractions import Fraction

from keyseats.cli.in_reason import refuse_for_seats, refuse_out_of_reason, refuse_together
from keyseats.cli.shop_option import shop_of
from keyseats.faults import TypedError, near
from keyseats.frozen import replace
from keyseats.lengths import converted as in_system
from keyseats.lengths import parse
from keyseats.load import Tables
from keyseats.lookup import FAMILIES, OF_UNIT, module, seats_for
from keyseats.owned import cutter_named, near_its_key, with_shop
from keyseats.paths import tables_dir
from keyseats.report import shaft_json
from keyseats.seat import Seat, Work
from keyseats.set_up import SetUp, set_up_for
from keyseats.shop import Cutter


def in_unit(text: str | None, what: str, unit: str) -> Fraction | None:
    """Read an optional length and return it in the shaft's unit."""
    if text is None:
        return None
    length = parse(text, what)
    return in_system(length.value, length.unit, unit)


def work_of(words: argparse.Namespace) -> Work:
    """Return the work that the words describe.

    Raises
    ------
    TypedError
        For a length that cannot be read, or a fit or standard that is not known.
    """
    nominal = parse(words.length, "the shaft")
    unit = nominal.unit

    def read(text: str | None, what: str) -> Fraction | None:
        return in_unit(text, what, unit)

    work = Work(
        unit=unit,
        nominal=nominal.value,
        measured=read(words.measured, "--measured"),
        bore=read(words.bore, "--bore"),
        key_height=read(words.key_height, "--key-height"),
        cutter_width=read(words.cutter_width, "--cutter-width"),
        cutter_diameter=read(words.cutter_diameter, "--cutter-diameter"),
        neck=read(words.neck, "--neck"),
        end_mill=read(words.end_mill, "--end-mill"),
        paper=read(words.paper_thickness, "--paper-thickness") or Fraction(0),
        tip=read(words.tip, "--tip"),
        tip_length=read(words.tip_length, "--tip-length"),
        collar=read(words.collar, "--collar"),
        holder_radius=read(words.holder_radius, "--holder-radius"),
        stand_off=read(words.stand_off, "--stand-off"),
        fit=words.fit or "",
        standard=words.standard or "",
    )
    for value, what in ((work.measured, "--measured"), (work.bore, "--bore")):
        if value is not None and not Fraction(3, 4) < value / work.nominal < Fraction(4, 3):
            raise TypedError(
                f"{what}: {float(value):g} {unit} is nowhere near the nominal shaft, "
                f"{float(work.nominal):g} {unit}; nominal picks the key, so give the size that the "
                "shaft was meant to be"
            )
    refuse_out_of_reason(work)
    return work


def converted(work: Work, unit: str) -> Work:
    """Return the same work in another unit, for keys of the other system in this shaft."""
    if unit == work.unit:
        return work

    def size(value: Fraction | None) -> Fraction | None:
        return None if value is None else in_system(value, work.unit, unit)

    return replace(
        work,
        unit=unit,
        nominal=in_system(work.nominal, work.unit, unit),
        measured=size(work.measured),
        bore=size(work.bore),
        key_height=size(work.key_height),
        cutter_width=size(work.cutter_width),
        cutter_diameter=size(work.cutter_diameter),
        neck=size(work.neck),
        end_mill=size(work.end_mill),
        paper=in_system(work.paper, work.unit, unit),
        tip=size(work.tip),
        tip_length=size(work.tip_length),
        collar=size(work.collar),
        holder_radius=size(work.holder_radius),
        stand_off=size(work.stand_off),
    )


def families_of(words: argparse.Namespace, unit: str) -> tuple[str, ...]:
    """Return the families to look in: the shaft's unit's, and those asked for."""
    found = list(OF_UNIT[unit])
    for name in words.family or ():
        if name not in FAMILIES:
            raise TypedError(f"--family: no family '{name}'; {near(name, list(FAMILIES))}")
        if name not in found:
            found.append(name)
    return tuple(found)


def known_word(value: str, option: str, families: tuple[str, ...], attribute: str) -> None:
    """Refuse a fit or a standard that none of the families has."""
    known = [w for f in families for w in getattr(module(f), attribute)]
    if value and value not in known:
        raise TypedError(f"{option}: no '{value}' here; {near(value, list(dict.fromkeys(known)))}")


def refuse_unused(named: Cutter, seats: list[Seat], wanted: list[Seat]) -> None:
    """Refuse a cutter asked for by name that none of the seats answered in full is cut by.

    Raises
    ------
    TypedError
        With the keys whose seats it cuts, if this shaft has any.
    """
    if any(seat.work.cutter_name == named.name for seat in wanted):
        return
    taken = [s for s in seats if s.work.cutter_name == named.name]
    others = [s.key.designation for s in taken if near_its_key(s)]
    remedy = "take another cutter, or another key"
    if others:
        remedy = f"it cuts --key {' or '.join(repr(other) for other in others)}"
    keys = " or ".join(dict.fromkeys(seat.key.designation for seat in wanted))
    raise TypedError(f"--cutter: {named.name} is nowhere near a seat for {keys}; {remedy}")


def run(words: argparse.Namespace) -> int:
    """Answer ``keyseats shaft``."""
    refuse_together(words)
    work = work_of(words)
    families = families_of(words, work.unit)
    known_word(work.fit, "--fit", families, "FITS")
    known_word(work.standard, "--standard", families, "STANDARDS")
    tables = Tables(tables_dir(words.tables))
    shop = shop_of(words.shop, tables)
    if words.material:
        shop = replace(shop, material=words.material)
    named = None if words.cutter is None else cutter_named(words.cutter, shop)
    seats: list[Seat] = []
    for unit in sorted({"in", "mm"}, key=lambda u: u != work.unit):
        here = tuple(f for f in families if f in OF_UNIT[unit])
        if here and not (words.key and seats):
            try:
                own = with_shop(converted(work, unit), shop)
                seats += seats_for(tables, own, here, words.key, shop.cutters, named)
            except TypedError:
                if unit != work.unit or len(here) == len(families):
                    raise

    def ready(seat: Seat) -> SetUp:
        return set_up_for(tables, seat, shop)

    wanted = seats if words.key else [s for s in seats if s.choice == "first"]
    if not wanted and (words.pdf or words.card or named is not None):
        names = ", ".join(seat.key.designation for seat in seats)
        raise TypedError(f"--key: no key is the first choice for this shaft; give one: {names}")
    refuse_for_seats(work, wanted, asked=words.key is not None)
    if named is not None:
        refuse_unused(named, seats, wanted)
    if words.card and words.pdf:
        from keyseats.cli.sheet_file import refuse_one_file

        refuse_one_file(words.pdf, words.card)
    if words.card:
        from keyseats.cli.card_file import write_card

        write_card(tables, wanted, words)
    if words.pdf:
        from keyseats.cli.sheet_file import write_sheet

        return write_sheet(tables, [ready(seat) for seat in wanted], words)
    if words.card:
        return 0
    if words.json:
        import json

        print(json.dumps(shaft_json(work, [ready(s) for s in seats]), indent=1, ensure_ascii=False))
        return 0
    from keyseats.screen import screen

    shown = parse(words.length, "the shaft").text
    for line in screen(work, seats, shown, ready, all_keys=words.all or words.key is not None):
        print(line)
    return 0
