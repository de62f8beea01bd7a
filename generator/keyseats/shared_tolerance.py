"""A tolerance said once for a whole column, such as ``+0.0149 −0``, and never past a limit."""

from __future__ import annotations

from collections.abc import Sequence

from keyseats.frozen import replace
from keyseats.lengths import places_of, read_fraction
from keyseats.setting import DAGGER
from keyseats.standing import Limits, Quantity


def signed(limits: Limits, nominal: Quantity, places: int) -> str:
    """Return limits as what they are over and under a nominal size, ``+0.002 −0``."""
    parts = []
    for end in (limits.most, limits.least):
        off = end.value - nominal.value
        text = replace(end, value=abs(off)).printed(places).text if off else "0"
        sign = "−" if off < 0 or (off == 0 and end is limits.least) else "+"
        parts.append(sign + text + (DAGGER if end.recalled else ""))
    return " ".join(parts)


def in_common(limits: Sequence[Limits], datum: str) -> str:
    """Return the tolerance that all limits of a column share, or nothing if they do not.

    A limit that was rounded inward leaves less than the standard's tolerance to the other; what is
    returned is what the narrowest pair of printed limits leaves, so that the one that is printed
    and the tolerance never go past the other.

    Parameters
    ----------
    limits
        Printed limits. [length]
    datum
        The end that the column prints, ``least`` or ``most``.
    """
    exact = {one.most.value - one.least.value for one in limits}
    if len(exact) != 1:
        return ""
    whole = exact.pop()
    room = min(read_fraction(one.most.text) - read_fraction(one.least.text) for one in limits)
    places = 3 if limits[0].least.unit == "in" else 1
    if room < whole:
        places = max(places_of(one.least.text) for one in limits)
    found = set()
    for one in limits:
        least, most = one.least, one.most
        if room < whole and datum == "least":
            most = replace(most, value=least.value + room)
        elif room < whole:
            least = replace(least, value=most.value - room)
        found.add(signed(Limits(least, most), least if datum == "least" else most, places))
    return found.pop() if len(found) == 1 else ""


__all__ = ["in_common", "signed"]
