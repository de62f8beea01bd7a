"""The grids of the setting-up chart: one figure for each shaft and cutter."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from keyseats import geometry
from keyseats.frame import Frame
from keyseats.setting import figure
from keyseats.setting_up.system import Group, System
from keyseats.standing import Quantity, derive, typed

HEAD, GAP = 2.25, 0.7
LEAST_PITCH, MOST_PITCH = 1.2, 1.5
FIRST_COLUMN = 4.1
Value = Callable[[System, Fraction, Fraction], Quantity]


def travel(system: System, shaft: Fraction, cutter: Fraction) -> Quantity:
    """Return the travel from a bare touch to the centreline. [length]"""
    value = geometry.face_touch_travel(shaft, cutter, Fraction(0))
    inputs = typed(shaft, system.unit), typed(cutter, system.unit)
    return derive(value, *inputs).printed(system.setting)


def arc_height(system: System, shaft: Fraction, width: Fraction) -> Quantity:
    """Return the arc height of a seat in a shaft. [length]"""
    value = geometry.arc_height(shaft, width)
    inputs = typed(shaft, system.unit), typed(width, system.unit)
    return derive(value, *inputs).printed(system.arc)


@dataclass(frozen=True)
class Grids:
    """The grids of one sheet, small shafts above large ones; all of them if none are named."""

    f: Frame
    system: System
    value: Value
    head: str
    only: tuple[Group, ...] = ()

    @property
    def groups(self) -> tuple[Group, ...]:
        """Return the groups that are set."""
        return self.only or self.system.groups

    @property
    def _heads(self) -> float:
        return HEAD * len(self.groups) + GAP * (len(self.groups) - 1)

    def full(self, room: float) -> bool:
        """Return whether every shaft of the lists fits into a height. [figure sizes]"""
        return self._rows(True) * LEAST_PITCH + self._heads <= room

    def _rows(self, full: bool) -> int:
        return sum(len(g.shafts(full)) for g in self.groups)

    def set(self, y: float, bottom: float) -> None:
        """Set the grids between two levels. [pt]"""
        u = self.f.unit
        room = (bottom - y) / u
        full = self.full(room)
        rows = self._rows(full)
        pitch = min(MOST_PITCH, (room - self._heads) / rows)
        gap = GAP + min(0.8, room - self._heads - pitch * rows)
        for n, group in enumerate(self.groups):
            y = self._one(y, group, full, pitch)
            if n + 1 < len(self.groups):
                y += u * gap

    def _one(self, y: float, group: Group, full: bool, pitch: float) -> float:
        f, c, u, system = self.f, self.f.composer, self.f.unit, self.system
        widths = group.widths(few=f.narrow)
        left, right = f.left + u * FIRST_COLUMN, f.right - u * 0.25
        room = (right - left) / len(widths)
        shaft_at = f.left + u * 3.6
        c.rule(f.left, f.right, y, u * 0.09)
        c.say(f.left + u * 0.15, y + u * 0.72, "shaft", u * 0.6, role="TH", header="Column")
        with c.over():
            c.say(left + u * 0.4, y + u * 0.72, self.head, u * 0.6)
            y += u * HEAD
            for n, width in enumerate(widths):
                at, text = left + room * (n + 1), system.size(width)
                c.say(
                    at, y - u * 0.35, text, u, bold=True, anchor="end", role="TH", header="Column"
                )
        c.rule(f.left, f.right, y, u * 0.03)
        for row, shaft in enumerate(group.shafts(full)):
            top, base = y + row * pitch * u, y + (row + 0.5) * pitch * u + u * 0.365
            if row % 2:
                c.shade(f.left, top, f.right, top + pitch * u)
            name = system.size(shaft)
            c.say(shaft_at, base, name, u, bold=True, anchor="end", role="TH", header="Row")
            for n, width in enumerate(widths):
                if width * 2 <= shaft:
                    quantity = self.value(system, shaft, width)
                    c.add(figure(left + room * (n + 1), base, quantity, u))
        bottom = y + len(group.shafts(full)) * pitch * u
        c.rule(f.left, f.right, bottom, u * 0.03)
        return bottom
