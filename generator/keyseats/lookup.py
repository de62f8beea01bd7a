"""Which seats a shaft can have: the families asked for, first choices first."""

from __future__ import annotations

import importlib
from fractions import Fraction
from types import ModuleType

from keyseats.faults import TypedError, near
from keyseats.frozen import replace
from keyseats.load import Tables
from keyseats.owned import typed_cutter, with_cutter
from keyseats.seat import Seat, Tabled, Work, seat_of
from keyseats.shop import Cutter
from keyseats.warn import with_warnings

FAMILIES = {
    "inch plain": "inch_plain",
    "inch half-moon": "inch_half_moon",
    "metric plain": "metric_plain",
    "metric half-moon": "metric_half_moon",
}
# Nearer to another size that shafts are made in, by sixteenths or whole millimetres. [length]
FAR_OFF = {"in": Fraction(1, 32), "mm": Fraction(1, 2)}
OF_UNIT = {"in": ("inch plain", "inch half-moon"), "mm": ("metric plain", "metric half-moon")}


def module(family: str) -> ModuleType:
    """Return a family's module."""
    return importlib.import_module(f"keyseats.families.{FAMILIES[family]}")


def plain_name(designation: str) -> str:
    """Return a designation in the form that names are compared in."""
    text = designation.lower().replace("×", "x").replace("*", "x").replace("no.", "")
    for word in ("in.", "in", '"', "mm"):
        text = text.replace(word, "")
    return "x".join(part.strip() for part in text.split("x"))


def seats_for(
    tables: Tables,
    work: Work,
    families: tuple[str, ...],
    key: str | None = None,
    cutters: tuple[Cutter, ...] = (),
    named: Cutter | None = None,
) -> list[Seat]:
    """Return the seats of a shaft, the first choice of each family before the others.

    Parameters
    ----------
    tables
        The tables.
    work
        The shaft and what was measured. [length]
    families
        The families to look in, in order.
    key
        A key's designation, to get that key alone, whether or not the shaft's range has it.
    cutters
        The cutters owned; each seat takes the one that suits its key, where none was typed.
    named
        The owned cutter that was asked for; each seat takes it that it can have been meant for.

    Raises
    ------
    TypedError
        If no key is tabled for the shaft, the key is not known, or it cannot be let in.
    """
    seats: list[Seat] = []
    known: list[str] = []

    def seat(tabled: Tabled, as_measured: tuple[str, ...] | None, *, in_range: bool = True) -> Seat:
        own = with_cutter(tabled, work, cutters, named)
        owned = not cutters or typed_cutter(own)
        return _seat(tabled, own, as_measured, in_range=in_range, owned=owned)

    for family in families:
        other = _as_measured(tables, work, family)
        found: list[Tabled] = module(family).tabled(tables, work)
        if key is None:
            if not found and work.standard in module(family).STANDARDS:
                raise TypedError(
                    f"--standard: {work.standard} has no {family} key, or no tolerances that were "
                    f"read, for a shaft of {_shown(work)}; leave --standard out, or give --key"
                )
            seats += [seat(t, other) for t in found]
            continue
        wanted = plain_name(key)
        inside = [t for t in found if plain_name(t.key.designation) == wanted]
        if inside:
            seats.append(seat(inside[0], other))
            continue
        every: list[Tabled] = module(family).every(tables, work)
        known += [t.key.designation for t in every]
        so_named = [t for t in every if plain_name(t.key.designation) == wanted]
        if so_named:
            seats.append(seat(so_named[0], None, in_range=False))
    if key is not None and not seats:
        raise TypedError(f"--key: no key '{key}' in {' or '.join(families)}; {near(key, known)}")
    if not seats:
        raise TypedError(
            f"no key is tabled for a shaft of {_shown(work)}: {_reach(tables, families)}"
        )
    return sorted(seats, key=lambda s: (s.choice != "first",))


def _as_measured(tables: Tables, work: Work, family: str) -> tuple[str, ...] | None:
    """Return the keys for the size measured, or None if it is near its nominal size."""
    if work.measured is None or abs(work.measured - work.nominal) <= FAR_OFF[work.unit]:
        return None
    found: list[Tabled] = module(family).tabled(
        tables, replace(work, nominal=work.measured, measured=None)
    )
    return tuple(t.key.designation for t in found)


def _seat(
    tabled: Tabled,
    work: Work,
    as_measured: tuple[str, ...] | None,
    *,
    in_range: bool,
    owned: bool,
) -> Seat:
    try:
        at_nominal = None
        if work.bore is not None or not work.as_nominal:
            at_nominal = seat_of(tabled, replace(work, measured=None, bore=None))
        return with_warnings(
            seat_of(tabled, work),
            in_range=in_range,
            owned=owned,
            at_nominal=at_nominal,
            as_measured=as_measured,
        )
    except ValueError:
        cut = "--end-mill" if work.end_mill is not None else "--cutter-width"
        cut = "--cutter" if work.cutter_name else cut
        if work.end_mill is not None or work.cutter_width is not None:
            raise TypedError(
                f"{cut}: no {tabled.key.designation} seat can be cut that wide in a shaft of "
                f"{_shown(work)}; give the width of the cutter as measured"
            ) from None
        raise TypedError(
            f"--key: a {tabled.key.designation} key cannot be let into a shaft of {_shown(work)}; "
            "take a smaller key"
        ) from None


def _shown(work: Work) -> str:
    return f"{float(work.nominal):g} {work.unit}"


def _reach(tables: Tables, families: tuple[str, ...]) -> str:
    """Return in words the shafts that the families' plain keys cover."""
    spans = []
    for family in families:
        if "plain" not in family:
            continue
        table = f"{FAMILIES[family]}_keys"
        rows = tables.rows(table)
        spans.append(
            f"{family} keys cover over {rows[0].cells['shaft_over'].removesuffix(' in')} to "
            f"{max(rows, key=lambda r: float(_number(r.cells['shaft_to']))).cells['shaft_to']}"
            + ("" if family.startswith("inch") else " mm")
        )
    return "; ".join(spans) or "give the key with --key"


def _number(text: str) -> float:
    from keyseats.load import number

    return float(number(text))
