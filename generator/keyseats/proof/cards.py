"""Cards on a sheet, found again by their cut marks."""

from __future__ import annotations

from dataclasses import dataclass

from keyseats.proof.facts import MM, Box, Ink, Sheet

# A cut mark: a hair of this length, upright or level. [pt]
_LONG, _HAIR, _NEAR = 5 * MM, 0.35, 0.1


@dataclass(frozen=True)
class Grid:
    """The lines along which a sheet is cut: from the left, and from the top. [pt]"""

    across: tuple[float, ...]
    down: tuple[float, ...]

    @property
    def box(self) -> Box:
        """Return the field of cards."""
        return Box(self.across[0], self.down[0], self.across[-1], self.down[-1])

    def cells(self) -> list[Box]:
        """Return each card."""
        return [
            Box(left, top, right, bottom)
            for top, bottom in zip(self.down, self.down[1:], strict=False)
            for left, right in zip(self.across, self.across[1:], strict=False)
        ]


def grid(sheet: Sheet) -> Grid | None:
    """Return the grid that a sheet's cut marks make, or None: marks on both sides of the field."""
    marks = [i for i in sheet.inks if _mark(i)]
    upright = [i for i in marks if i.box.right - i.box.left < _NEAR]
    level = [i for i in marks if i.box.bottom - i.box.top < _NEAR]
    across = _twice([(i.box.left, i.box.top) for i in upright])
    down = _twice([(i.box.top, i.box.left) for i in level])
    if len(across) < 2 or len(down) < 2:
        return None
    found = Grid(tuple(across), tuple(down))
    box = found.box
    inside = [i for i in upright if box.top < (i.box.top + i.box.bottom) / 2 < box.bottom]
    inside += [i for i in level if box.left < (i.box.left + i.box.right) / 2 < box.right]
    return None if inside else found


def _mark(ink: Ink) -> bool:
    across, down = ink.box.right - ink.box.left, ink.box.bottom - ink.box.top
    if not ink.straight or ink.width > _HAIR or min(across, down) > _NEAR:
        return False
    return abs(max(across, down) - _LONG) < _NEAR


def _twice(marks: list[tuple[float, float]]) -> list[float]:
    """Return the levels at which marks stand at two places or more."""
    levels: list[float] = []
    for level in sorted({at for at, _ in marks}):
        if levels and level - levels[-1] < _NEAR:
            continue
        places = {round(place) for at, place in marks if abs(at - level) < _NEAR}
        if len(places) > 1:
            levels.append(level)
    return levels
