"""Where each caution stands: before the figure that it concerns, and before metal is cut."""

from __future__ import annotations

from keyseats.seat import Warning
from keyseats.shaft_sheet.composing import ShaftSheet, caution

# Cautions that concern one touch stand before it; all the others stand before the work begins.
CENTRE = ("face-touch-short", "tip-short")
PLACE = ("cutter-oversize",)
# What can be lived with, once it is known; all the others stop the job until it is mended.
MIND = (
    "key-not-for-shaft",
    "another-key-as-measured",
    "top-clearance-gone-at-limits",
    "floor-past-centre",
    "no-cutter-owned",
    "cutter-narrow",
    "cutter-oversize",
    "face-touch-short",
    "tip-short",
)


def before_work(s: ShaftSheet) -> list[Warning]:
    """Return the cautions that stand before the work begins, those that stop it first."""
    here = [w for w in s.seat.warnings if w.code not in CENTRE + PLACE]
    return sorted(here, key=lambda w: w.code in MIND)


def stops(s: ShaftSheet) -> bool:
    """Return whether a caution stops the job."""
    return any(w.code not in MIND for w in s.seat.warnings)


def cautions(s: ShaftSheet, found: list[Warning], y: float, x: float, room: float) -> float:
    """Set cautions one under the other; return the last baseline, or ``y`` if there are none."""
    gap = s.ease.words * 1.35
    for warning in found:
        y = caution(
            s,
            x,
            y + gap,
            "Mind:" if warning.code in MIND else "Stop:",
            warning.says + ".",
            room,
        )
    return y


def of(s: ShaftSheet, codes: tuple[str, ...]) -> list[Warning]:
    """Return the sheet's cautions with these codes."""
    return [w for w in s.seat.warnings if w.code in codes]
