"""What a corrected figure does to a cut: limits of every seat before and after, end by end."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from keyseats.corrections.renamed import renamed
from keyseats.corrections.shaft_codes import seats
from keyseats.lengths import decimal
from keyseats.load import Tables
from keyseats.seat import Tabled
from keyseats.standing import Limits, Quantity

# What is cut or measured, and the words for one that is under its least and over its most.
SIDES = {
    "depth at edge": ("too shallow", "too deep"),
    "depth from crown": ("too shallow", "too deep"),
    "seat width": ("too narrow", "too wide"),
    "hub width": ("too narrow", "too wide"),
    "hub depth": ("too shallow", "too deep"),
    "floor radius": ("too small", "too large"),
    "seat diameter": ("too small", "too large"),
    "key height": ("too low", "too high"),
    "key width": ("too narrow", "too wide"),
    "key diameter": ("too small", "too large"),
}
PLACES = {"in": 4, "mm": 3}


@dataclass(frozen=True)
class Effect:
    """One end of one pair of limits that is not where it was.

    Parameters
    ----------
    seat
        The key, its standard and its fit.
    measure
        What the limits are of.
    side
        What a piece at the old limit is now, such as ``too shallow``; empty if it is inside.
    old, new
        The limit before and after; None where the key is no longer, or not yet, tabled.
    rows
        Ids of the figures that the limit rests on, before and after.
    """

    seat: str
    measure: str
    side: str
    old: Quantity | None
    new: Quantity | None
    rows: frozenset[str]

    @property
    def outside(self) -> bool:
        """Return whether a piece inside the old limits can be outside the new ones."""
        return bool(self.side)

    @property
    def by(self) -> Quantity | None:
        """Return how far outside. [length]"""
        if self.old is None or self.new is None:
            return None
        off = Quantity(abs(self.new.value - self.old.value), self.old.unit, "typed")
        return off.printed(PLACES[off.unit])

    @property
    def says(self) -> str:
        """Return the effect in words."""
        if self.by is None or self.old is None or self.new is None:
            return f"{self.seat}: no longer tabled" if self.outside else f"{self.seat}: new"
        then, now = (_shown(q) for q in (self.old, self.new))
        if not self.outside:
            return f"{self.seat}: {self.measure}, limit {then} is {now}: wider than it was"
        return (
            f"{self.seat}: {self.measure}, limit {then} is {now}: one made to the old limit is "
            f"{_shown(self.by)} {self.by.unit} {self.side}"
        )


def _shown(quantity: Quantity) -> str:
    return decimal(quantity.value, PLACES[quantity.unit])


def _named(tabled: Tabled, renamed: dict[str, str]) -> tuple[str, ...]:
    """Return what a key is the same key by, although its size or its row's name was corrected."""
    key = tabled.key
    height = key.nominal_height.rows[0] if key.nominal_height else ""
    ids = []
    for name in (key.width.rows[0], height):
        row, _, column = name.rpartition("/")
        ids.append(f"{renamed.get(row, row)}/{column}")
    return (key.family, key.standard, tabled.fit, *ids)


def _words(tabled: Tabled) -> str:
    key = tabled.key
    return f"{key.designation}, {key.standard}, {tabled.fit}"


def _limits(tabled: Tabled) -> Iterator[tuple[str, Limits]]:
    key = tabled.key
    for measure, found in (
        ("depth at edge", tabled.depth_at_edge),
        ("depth from crown", tabled.depth_from_crown),
        ("seat width", tabled.seat_width),
        ("hub width", tabled.hub_width),
        ("hub depth", tabled.hub_rise),
        ("floor radius", tabled.floor_radius),
        ("seat diameter", tabled.seat_diameter),
        ("key height", key.height),
        ("key width", Limits(key.width, key.width)),
        ("key diameter", Limits(key.diameter, key.diameter) if key.diameter else None),
    ):
        if found is not None:
            yield measure, found


def effects(old: Tables, new: Tables) -> list[Effect]:
    """Return every limit of every seat that is not where it was.

    Parameters
    ----------
    old, new
        The tables before and after.
    """
    names = renamed(old, new)
    then = {_named(t, {}): t for t in seats(old)}
    now = {_named(t, names): t for t in seats(new)}
    found: list[Effect] = []
    for name in sorted(then.keys() | now.keys()):
        before, after = then.get(name), now.get(name)
        if before is not None and after is not None:
            found += _compared(before, after)
        elif before is not None:
            found.append(Effect(_words(before), "", "no longer tabled", None, None, _all(before)))
        elif after is not None:
            found.append(Effect(_words(after), "", "", None, None, _all(after)))
    return found


def _all(tabled: Tabled) -> frozenset[str]:
    return frozenset(row for _, limits in _limits(tabled) for row in limits.rows)


def _compared(before: Tabled, after: Tabled) -> Iterator[Effect]:
    later = dict(_limits(after))
    for measure, limits in _limits(before):
        if measure not in later:
            yield Effect(_words(before), measure, "no longer tabled", None, None, _rows(limits))
            continue
        small, large = SIDES[measure]
        for end, side in (("least", small), ("most", large)):
            old: Quantity = getattr(limits, end)
            new: Quantity = getattr(later[measure], end)
            if old.value != new.value:
                out = old.value < new.value if end == "least" else old.value > new.value
                rows = frozenset(old.rows + new.rows)
                yield Effect(_words(before), measure, side if out else "", old, new, rows)


def _rows(limits: Limits) -> frozenset[str]:
    return frozenset(limits.rows)
