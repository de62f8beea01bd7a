"""``keyseats shaft``: every figure of the seats that a shaft can have."""

from __future__ import annotations

import argparse
from dataclasses import replace
from fractions import Fraction

from keyseats.faults import TypedError, near
from keyseats.lengths import parse
from keyseats.load import Tables
from keyseats.lookup import FAMILIES, OF_UNIT, module, seats_for
from keyseats.paths import tables_dir
from keyseats.report import screen, shaft_json
from keyseats.seat import Seat, Work

INCH = Fraction("25.4")


def in_unit(text: str | None, what: str, unit: str) -> Fraction | None:
    """Read an optional length and return it in the shaft's unit."""
    if text is None:
        return None
    length = parse(text, what)
    if length.unit == unit:
        return length.value
    return length.value * INCH if unit == "mm" else length.value / INCH


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
    for size, option in (
        (work.cutter_width, "--cutter-width"),
        (work.end_mill, "--end-mill"),
        (work.key_height, "--key-height"),
    ):
        if size is not None and size >= work.shaft:
            raise TypedError(
                f"{option}: {float(size):g} {unit} is not under the shaft, "
                f"{float(work.shaft):g} {unit}; measure again"
            )
    return work


def converted(work: Work, unit: str) -> Work:
    """Return the same work in another unit, for keys of the other system in this shaft."""
    if unit == work.unit:
        return work
    factor = INCH if unit == "mm" else 1 / INCH

    def size(value: Fraction | None) -> Fraction | None:
        return None if value is None else value * factor

    return replace(
        work,
        unit=unit,
        nominal=work.nominal * factor,
        measured=size(work.measured),
        bore=size(work.bore),
        key_height=size(work.key_height),
        cutter_width=size(work.cutter_width),
        cutter_diameter=size(work.cutter_diameter),
        neck=size(work.neck),
        end_mill=size(work.end_mill),
        paper=work.paper * factor,
        tip=size(work.tip),
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


def _known(value: str, option: str, families: tuple[str, ...], attribute: str) -> None:
    known = [w for f in families for w in getattr(module(f), attribute)]
    if value and value not in known:
        raise TypedError(f"{option}: no '{value}' here; {near(value, list(dict.fromkeys(known)))}")


def run(words: argparse.Namespace) -> int:
    """Answer ``keyseats shaft``."""
    work = work_of(words)
    families = families_of(words, work.unit)
    _known(work.fit, "--fit", families, "FITS")
    _known(work.standard, "--standard", families, "STANDARDS")
    tables = Tables(tables_dir(words.tables))
    seats: list[Seat] = []
    for unit in sorted({"in", "mm"}, key=lambda u: u != work.unit):
        here = tuple(f for f in families if f in OF_UNIT[unit])
        if here and not (words.key and seats):
            try:
                seats += seats_for(tables, converted(work, unit), here, words.key)
            except TypedError:
                if unit != work.unit or len(here) == len(families):
                    raise
    if words.pdf:
        from keyseats.cli.sheet_file import write_sheet

        return write_sheet(tables, seats, words)
    if words.json:
        import json

        print(json.dumps(shaft_json(work, seats), indent=1, ensure_ascii=False))
        return 0
    shown = parse(words.length, "the shaft").text
    for line in screen(work, seats, shown, all_keys=words.all or words.key is not None):
        print(line)
    return 0
