"""Cautions about one seat, in the order of the work: each with its figure and what would do."""

from __future__ import annotations

from keyseats.frozen import replace
from keyseats.seat import Seat, Warning
from keyseats.warn.cutter import cutter, unowned
from keyseats.warn.shaft_and_hub import FAR_OFF_NOMINAL, PAST_CENTRE, shaft_and_hub
from keyseats.warn.touches import touches

__all__ = ["FAR_OFF_NOMINAL", "PAST_CENTRE", "with_warnings"]


def with_warnings(
    seat: Seat,
    *,
    in_range: bool,
    owned: bool = True,
    at_nominal: Seat | None = None,
    as_measured: tuple[str, ...] | None = None,
) -> Seat:
    """Return the seat with the cautions that its work calls for.

    Parameters
    ----------
    seat
        The seat's figures, with the work that they were computed for.
    in_range
        Whether the standard gives this key for this nominal shaft.
    owned
        Whether the shop owns a cutter for it, or was not asked.
    at_nominal
        The same seat in the nominal shaft and bore, if either was measured.
    as_measured
        The keys that the standard gives for the size measured, first choice first; None where
        the shaft is so near its nominal size that this does not matter.
    """
    found: list[Warning] = [
        *shaft_and_hub(seat, in_range=in_range, at_nominal=at_nominal, as_measured=as_measured),
        *([] if owned else unowned(seat)),
        *cutter(seat),
        *touches(seat),
    ]
    return replace(seat, warnings=tuple(found)) if found else seat
