"""Units other than inch and millimetre. The only module that imports pint."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import Any

from keyseats.faults import TypedError


@cache
def _registry() -> Any:
    import pint

    return pint.UnitRegistry(non_int_type=Decimal, cache_folder=None)


def to_shop_unit(value: Fraction, unit: str, shown: str, what: str) -> tuple[Fraction, str]:
    """Convert a length in any unit to the nearer of inch and millimetre, exactly.

    Raises
    ------
    TypedError
        If the unit is not one of length.
    """
    registry = _registry()
    try:
        one = registry.Quantity(Decimal(1), unit)
        target = "mm" if "metre" in f"{one.units:P}" or "meter" in f"{one.units:P}" else "in"
        factor = one.to("mm" if target == "mm" else "inch").magnitude
    except Exception:  # pint raises its parser's own errors for odd text, besides PintError
        factor = None
    if factor is None:
        raise TypedError(
            f"{what}: '{shown}' has a unit that is not a length; type it in in or mm"
        ) from None
    return value * Fraction(factor), target
