"""Page codes: eight characters made from the figures that a page rests on, the last a check.

The alphabet has no two characters that are taken for one another in print: no 0, O or Q, no 1, I
or L, no 2 or Z, no 5 or S, no 8 or B, no G beside the 6. It has 23, a prime, so that the check
character of ISO 7064's pure systems (radix 2 here, which has order 11 modulo 23) finds every
single wrong character and every exchange of two.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable

from keyseats.faults import TypedError

ALPHABET = "34679ACDEFHJKMNPRTUVWXY"
MODULUS, RADIX = len(ALPHABET), 2
LENGTH = 8
_HALF = LENGTH // 2
_BETWEEN = dict.fromkeys(map(ord, " -‐‑‒–—−_\t\n\r"))


def code_for(what: str, cells: Iterable[tuple[str, str]]) -> str:
    """Return the code of a page.

    Parameters
    ----------
    what
        What the page is, such as ``half-moon-1``; never its paper or a measured size.
    cells
        Id and text of every figure that it rests on, in any order.
    """
    lines = [what, *(f"{name}\t{text}" for name, text in sorted(set(cells)))]
    number = int.from_bytes(hashlib.sha256("\n".join(lines).encode()).digest(), "big")
    payload = ""
    for _ in range(LENGTH - 1):
        number, place = divmod(number, MODULUS)
        payload += ALPHABET[place]
    whole = payload + check_character(payload)
    return f"{whole[:_HALF]}-{whole[_HALF:]}"


def check_character(payload: str) -> str:
    """Return the check character of a code's first characters."""
    total = 0
    for character in payload:
        total = (total + ALPHABET.index(character)) * RADIX
    return ALPHABET[(1 - total) % MODULUS]


def read_code(text: str) -> str:
    """Read a code as it was typed: lower case, spaces and a missing hyphen are read right.

    Raises
    ------
    TypedError
        If it cannot be a page code: mistyped, or not one at all.
    """
    typed = text.upper().translate(_BETWEEN)
    strange = next((c for c in typed if c not in ALPHABET), "")
    if strange:
        raise TypedError(
            f"'{text}' is mistyped: no page code has '{strange}'; the characters are {ALPHABET}"
        )
    if len(typed) != LENGTH:
        raise TypedError(
            f"'{text}' is mistyped: a page code has {LENGTH} characters, this has {len(typed)}"
        )
    if check_character(typed[:-1]) != typed[-1]:
        raise TypedError(
            f"'{text}' is mistyped: its check character does not fit; read the code again"
        )
    return f"{typed[:_HALF]}-{typed[_HALF:]}"
