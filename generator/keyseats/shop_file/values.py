"""Values of a shop file, each read with its line and held to what is in reason."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Any, NoReturn

from keyseats.faults import TypedError, near
from keyseats.lengths import Length, converted, parse
from keyseats.shop_file.lines import Way
from keyseats.shop_file.opening import Opened, ShopError
from keyseats.typeface import has

LONGEST_WORDS = 80
LONGEST_NAME = 40
DIVISIONS = (4, 1000)

# What is in reason, from and to, in each unit. Our choice: wider than any shop that cuts keyseats.
Range = dict[str, tuple[str, str]]
TURN: Range = {"in": ("0.005", "4"), "mm": ("0.1", "100")}
GRADUATION: Range = {"in": ("0.00005", "0.1"), "mm": ("0.001", "2.5")}
PASS: Range = {"in": ("0.001", "0.25"), "mm": ("0.02", "6")}
PAPER: Range = {"in": ("0", "0.05"), "mm": ("0", "1.2")}
TIP: Range = {"in": ("0.02", "2"), "mm": ("0.5", "50")}
TIP_LENGTH: Range = {"in": ("0.02", "6"), "mm": ("0.5", "150")}
HOLDER: Range = {"in": ("0.05", "10"), "mm": ("1", "250")}
CUTTER: Range = {"in": ("0.03", "12"), "mm": ("0.8", "300")}
CUTTER_WIDTH: Range = {"in": ("0.01", "2"), "mm": ("0.3", "50")}
MILL: Range = {"in": ("0.03", "2"), "mm": ("0.8", "50")}
# Over this a width is worth a second look: 1.8 in where 1/8 in was meant. [length]
WIDE = {"in": Fraction(1), "mm": Fraction(25)}
STAND_OFF: Range = {"in": ("0.001", "12"), "mm": ("0.02", "300")}
SHAFT: Range = {"in": ("0.06", "24"), "mm": ("1.5", "600")}


def brief(value: object) -> str:
    """Return a value as a message shows it: in one piece, and not too long."""
    text = str(value).lower() if isinstance(value, bool) else str(value)
    return text if len(text) <= 40 else text[:36] + " ..."


@dataclass(frozen=True)
class Part:
    """One table of a shop file: the top of it, or one slide or cutter."""

    opened: Opened
    way: Way
    table: dict[str, Any]

    def line(self, *key: str | int) -> int:
        """Return the line of a key, or of the table's head if the key is not there."""
        way = (*self.way, *key)
        while way and way not in self.opened.lines:
            way = way[:-1]
        return self.opened.lines.get(way, 1)

    def refuse(self, key: str | tuple[str | int, ...], says: str) -> NoReturn:
        """Refuse the file for one key.

        Raises
        ------
        ShopError
            Always.
        """
        keys = (key,) if isinstance(key, str) else key
        raise ShopError(self.opened.path, self.line(*keys), says)

    def only(self, known: Sequence[str], elsewhere: dict[str, str]) -> None:
        """Refuse a key that this table does not have; ``elsewhere`` says where it would belong."""
        for key in self.table:
            if key in known:
                continue
            shown = brief(key)
            if key in elsewhere:
                self.refuse(key, f"'{shown}' does not belong here; {elsewhere[key]}")
            self.refuse(key, f"no key '{shown}' here; {near(shown, list(known))}")

    def need(self, keys: Sequence[str], what: str) -> None:
        """Refuse a table that lacks one of these keys."""
        for key in keys:
            if key not in self.table:
                self.refuse(key, f"{what} has no {key}; add a line {key} = ...")

    def text(self, key: str, limit: int) -> str:
        """Return a line of words that the pages can print; empty if not given."""
        if key not in self.table:
            return ""
        value = self.table[key]
        if not isinstance(value, str):
            self.refuse(key, f"{key}: {brief(value)} is not words; put it in quotes")
        value = value.strip()
        if not value:
            self.refuse(key, f"{key} is empty; fill it in or leave the line out")
        self._printable(key, value)
        if len(value) > limit:
            self.refuse(key, f"{key} has {len(value)} characters; {limit} fit, so shorten it")
        unknown = [c for c in value if not has(c)]
        if unknown:
            self.refuse(
                key, f"{key}: the pages' typeface has no '{unknown[0]}'; write it another way"
            )
        return value

    def _printable(self, key: str | tuple[str | int, ...], value: str) -> None:
        odd = [c for c in value if not c.isprintable()]
        if odd:
            name = key if isinstance(key, str) else str(key[0])
            self.refuse(
                key,
                f"{name} holds a character that does not print (U+{ord(odd[0]):04X}); "
                "type it again on one line, with plain spaces",
            )

    def word(self, key: str, known: Sequence[str], why: str = "") -> str:
        """Return one of some known words; empty if not given.

        Capitals do not count, and neither do spaces before or after.
        """
        if key not in self.table:
            return ""
        value = self.table[key]
        if not isinstance(value, str):
            self.refuse(key, f'{key}: {brief(value)} is not a word; such as {key} = "{known[0]}"')
        for word in known:
            if word.lower() == value.strip().lower():
                return word
        shown = brief(value)
        few = "it is " + " or ".join(known)
        remedy = few if len(known) <= 4 else near(shown.lower(), list(known))
        self.refuse(key, f"{key}: no '{shown}'{why}; {remedy}")

    def flag(self, key: str, usual: bool) -> bool:
        """Return true or false; the usual one if not given."""
        value = self.table.get(key, usual)
        if not isinstance(value, bool):
            self.refuse(
                key, f"{key}: '{brief(value)}' is neither true nor false; write {key} = false"
            )
        return value

    def divisions(self, key: str) -> Fraction | None:
        """Return a count of divisions, whole or with a part of one; None if not given."""
        if key not in self.table:
            return None
        value = self.table[key]
        if isinstance(value, bool) or not isinstance(value, int | Decimal):
            self.refuse(
                key, f"{key}: '{brief(value)}' is not a count; write it bare, such as {key} = 100"
            )
        least, most = DIVISIONS
        number = Decimal(value)
        if not number.is_finite() or not least <= number <= most:
            self.refuse(
                key,
                f"{key}: {brief(value)} is out of reason, {least} to {most} go round a dial; "
                "count them again",
            )
        if number != round(number, 3):
            self.refuse(key, f"{key}: {brief(value)} is finer than a dial; three decimals do")
        return Fraction(number)

    def length(self, key: str, within: Range) -> Length | None:
        """Return a length with its unit, inside what is in reason; None if not given."""
        return self._length((key,), self.table[key], within) if key in self.table else None

    def lengths(self, key: str, within: Range, most: int) -> tuple[Length, ...]:
        """Return a list of lengths, each once; empty if not given."""
        values = self.table.get(key, [])
        if not isinstance(values, list):
            self.refuse(key, f'{key} must be a list, such as {key} = ["5/8 in", "16 mm"]')
        if len(values) > most:
            self.refuse(key, f"{key}: {len(values)} are too many; {most} are allowed")
        found: dict[tuple[Fraction, str], Length] = {}
        for n, value in enumerate(values):
            one = self._length((key, n), value, within)
            if (one.value, one.unit) in found:
                self.refuse((key, n), f"{key}: {one.text} stands there twice; keep one")
            found[(one.value, one.unit)] = one
        return tuple(found.values())

    def _length(self, way: tuple[str | int, ...], value: object, within: Range) -> Length:
        key = str(way[0])
        if not isinstance(value, str):
            shown = brief(value)
            if isinstance(value, int | Decimal) and not isinstance(value, bool):
                self.refuse(
                    way,
                    f"{key}: {shown} has no unit, and an inch taken for a millimetre is scrap; "
                    f'write "{shown} in" or "{shown} mm", in quotes',
                )
            self.refuse(way, f'{key}: {shown} is not a length; write one such as "0.125 in"')
        self._printable(way, value.strip())
        try:
            length = parse(value, key)
        except TypedError as fault:
            says = str(fault)
            self.refuse(way, says if ";" in says else f"{says}; measure again, or leave it out")
        least, most = within[length.unit]
        if not Fraction(least) <= length.value <= Fraction(most):
            unit = length.unit
            self.refuse(
                way,
                f"{key}: {length.text} is out of reason, which is {least} to {most} {unit}; "
                "measure again and look at the unit",
            )
        return length


def in_unit(length: Length, unit: str) -> Fraction:
    """Return a length's value in another unit, exactly. [length]"""
    return converted(length.value, length.unit, unit)
