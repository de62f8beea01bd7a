"""The grids of the setting-up chart: one figure for each shaft and cutter.

Rules part shafts that have different plain keys; on request the figures for the cutter of that key
stand in a frame.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby

from keyseats import geometry
from keyseats.frame import Frame
from keyseats.load import Tables
from keyseats.setting import figure, set_width
from keyseats.setting_up.keys import key_width
from keyseats.setting_up.system import Group, System
from keyseats.standing import Quantity, derive, typed

HEAD, GAP = 2.1, 0.5
# Digits are 0.73 figure sizes tall: from row to row they clear each other by well over a quarter.
LEAST_PITCH, MOST_PITCH = 1.08, 1.5
# What a rule between two keys takes: room for frames on both sides of it, or for the rule alone.
FRAMED, RULED = 0.3, 0.14
# How far a frame stands off the figures beside it.
OFF = 0.25
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
class Alike:
    """Shafts that follow each other and have one plain key; its width, and what that rests on.

    ``key`` is None for shafts that the tables have no plain key for.
    """

    key: Quantity | None
    shafts: tuple[Fraction, ...]


def alike(tables: Tables, system: System, shafts: list[Fraction]) -> list[Alike]:
    """Return shafts gathered by the width of their plain key."""
    keys = [(shaft, key_width(tables, system, shaft)) for shaft in shafts]
    found = []
    for value, run in groupby(keys, key=lambda pair: None if pair[1] is None else pair[1].value):
        listed = list(run)
        here = tuple(shaft for shaft, _ in listed)
        # The run is parted from the next by the key of every shaft in it.
        widths = [key for _, key in listed if key is not None]
        whole = None if value is None else derive(value, *widths)
        found.append(Alike(whole, here))
    return found


@dataclass(frozen=True)
class Grids:
    """The grids of one sheet, small shafts above large ones; all of them if none are named.

    ``closed`` rules off the last row of each; where the foot's rule follows, that does it.
    """

    f: Frame
    tables: Tables
    system: System
    value: Value
    head: str
    only: tuple[Group, ...] = ()
    framed: bool = False
    closed: bool = True

    @property
    def groups(self) -> tuple[Group, ...]:
        """Return the groups that are set."""
        return self.only or self.system.groups

    @property
    def _between(self) -> float:
        return FRAMED if self.framed else RULED

    def full(self, room: float) -> bool:
        """Return whether every shaft of the lists fits into a height. [figure sizes]"""
        return self._rows(True) * LEAST_PITCH + self._fixed(True) <= room

    def _rows(self, full: bool) -> int:
        return sum(len(g.shafts(full)) for g in self.groups)

    def _fixed(self, full: bool) -> float:
        """Return the height of all that is not rows: heads, rules, and the gap between grids."""
        runs = sum(len(alike(self.tables, self.system, g.shafts(full))) for g in self.groups)
        return HEAD * len(self.groups) + GAP * (len(self.groups) - 1) + runs * self._between

    def set(self, y: float, bottom: float) -> None:
        """Set the grids between two levels. [pt]

        Raises
        ------
        ValueError
            If the rows would stand too close.
        """
        u = self.f.unit
        room = (bottom - y) / u
        full = self.full(room)
        rows, fixed = self._rows(full), self._fixed(full)
        pitch = min(MOST_PITCH, (room - fixed) / rows)
        if pitch < LEAST_PITCH:
            raise ValueError("the page is too low for the rows of its grids")
        gap = GAP + min(0.8, room - fixed - pitch * rows)
        for n, group in enumerate(self.groups):
            y = self._one(y, group, full, pitch)
            if n + 1 < len(self.groups):
                y += u * gap

    def _one(self, y: float, group: Group, full: bool, pitch: float) -> float:
        """Set one grid; return the level under it. [pt]"""
        f, c, u, system = self.f, self.f.composer, self.f.unit, self.system
        widths = group.widths(few=f.narrow)
        names = [system.size(shaft) for shaft in group.shafts(full)]
        shaft_at = f.left + max(set_width(name, u, True) for name in names)
        left, right = shaft_at + u * 0.45, f.right - u * (OFF + 0.05)
        room = (right - left) / len(widths)
        at = {width: left + room * (n + 1) for n, width in enumerate(widths)}
        c.rule(f.left, f.right, y, u * 0.09)
        c.say(f.left, y + u * 0.8, "shaft", u * 0.6, role="TH", header="Column")
        with c.over():
            c.say(left + u * 0.4, y + u * 0.8, self.head, u * 0.6)
            for width, x in at.items():
                text = system.size(width)
                c.say(x, y + u * 1.85, text, u, bold=True, anchor="end", role="TH", header="Column")
        y += u * HEAD
        for run in alike(self.tables, system, group.shafts(full)):
            c.rule(f.left, f.right, y, u * 0.03)
            y = self._run(y, run, shaft_at, at, pitch)
        if self.closed:
            c.rule(f.left, f.right, y, u * 0.03)
        return y

    def _run(
        self, y: float, run: Alike, shaft_at: float, at: dict[Fraction, float], pitch: float
    ) -> float:
        """Set the rows of shafts that have one plain key; return the level under them. [pt]"""
        c, u, system = self.f.composer, self.f.unit, self.system
        half = u * self._between / 2
        top = y + half
        low = top + len(run.shafts) * pitch * u
        widest = 0.0
        for row, shaft in enumerate(run.shafts):
            base = top + (row + 0.5) * pitch * u + u * 0.365
            name = replace(run.key or typed(shaft, system.unit), text=system.size(shaft))
            c.add(figure(shaft_at, base, name, u, bold=True, cut=False, role="TH", header="Row"))
            for width, x in at.items():
                if width * 2 <= shaft:
                    quantity = self.value(system, shaft, width)
                    if run.key is not None and width == run.key.value:
                        widest = max(widest, set_width(quantity.text, u))
                        if self.framed:
                            quantity = derive(quantity.value, quantity, run.key)
                            quantity = quantity.printed(self.system.setting)
                    c.add(figure(x, base, quantity, u))
        if self.framed and widest and run.key is not None:
            x = at[run.key.value]
            c.frame(x - widest - u * OFF, top, x + u * OFF, low, u * 0.05)
        return low + half
