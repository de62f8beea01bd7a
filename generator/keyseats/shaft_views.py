"""A wall chart's drawings of a whole shaft: both floors to the opposite side, and the ramp."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from keyseats import geometry
from keyseats.drawing import Pen, label, span
from keyseats.frame import Frame
from keyseats.page import Block, Line, Mark
from keyseats.seat import Tabled
from keyseats.sections import Across, half_hub, key_across, straight_along, whole_shaft
from keyseats.setting import set_width

# The shaft's radius as drawn, in figure sizes, and the wall of the hub round it, in radii.
RADIUS, HUB_WALL = 1.72, 0.495


@dataclass(frozen=True)
class WholeShaft:
    """Drawings of one real key on a wall chart: the whole shaft, across it and along it."""

    f: Frame
    tabled: Tabled
    shaft: Fraction
    pen: Pen
    size: float
    top: float
    wide: float = 2.3
    seat_wide: float = 3.6

    @property
    def rows(self) -> tuple[str, ...]:
        """Return the ids of the figures that the drawings are made to."""
        key, tabled = self.tabled.key, self.tabled
        found = [*key.width.rows, *key.height.rows, *tabled.hub_rise.rows]
        for limits in (tabled.depth_at_edge, tabled.depth_from_crown):
            found += limits.rows if limits is not None else ()
        return tuple(dict.fromkeys([*found, *(key.diameter.rows if key.diameter else ())]))

    def depths(self) -> tuple[float, float]:
        """Return the least depth from the crown, and at the edge, for the shaft drawn."""
        arc = float(geometry.arc_height(self.shaft, self.tabled.key.width.value))
        if self.tabled.depth_at_edge is not None:
            at_edge = float(self.tabled.depth_at_edge.least.value)
            return at_edge + arc, at_edge
        assert self.tabled.depth_from_crown is not None
        from_crown = float(self.tabled.depth_from_crown.least.value)
        return from_crown, from_crown - arc

    def opposite(self, x: float, radius: float = RADIUS) -> None:
        """Draw the whole shaft, the hub on its right half: both floors to their opposite sides.

        Parameters
        ----------
        x
            The shaft's centre. [pt]
        radius
            The shaft's, as drawn. [figure sizes]
        """
        u, pen, size = self.f.unit, self.pen, self.size
        radius *= u
        scale = 2 * radius / float(self.shaft)
        a = Across(
            x,
            self.top + u * 0.55 + radius * HUB_WALL,
            radius,
            float(self.tabled.key.width.value) / 2 * scale,
            self.depths()[0] * scale,
        )
        rise = float(self.tabled.hub_rise.least.value) * scale
        if self.tabled.hub_datum == "crown":
            rise += a.edge - a.crown
        roof, wall = a.edge - rise, radius * HUB_WALL
        height = float(self.tabled.key.height.most.value) * scale
        marks: list[Mark | Block] = [
            *half_hub(a, rise, wall, pen),
            *whole_shaft(a, pen, u * 0.25),
            *key_across(a, height, pen),
        ]
        left, right = a.x - radius - u * 0.5, a.x + radius + wall + u * 0.5
        marks += [
            Line(a.left - u * 0.1, a.floor, left - u * 0.3, a.floor, pen.thin),
            Line(a.x - u * 0.1, a.bottom, left - u * 0.3, a.bottom, pen.thin),
            Line(a.right + u * 0.1, roof, right + u * 0.3, roof, pen.thin),
            Line(a.x + u * 0.1, a.bottom, right + u * 0.3, a.bottom, pen.thin),
        ]
        marks += span((left, a.floor), (left, a.bottom), pen)
        marks += span((right, roof), (right, a.bottom), pen)
        lines = ["floor to", "opposite", "side"]
        level = (a.floor + a.bottom) / 2 - size * 1.4
        marks += label(left - u * 0.4, level, ["shaft:", *lines], size, anchor="end")
        marks += label(right + u * 0.4, level, ["hub:", *lines], size)
        self.f.composer.add(
            Block(
                "Figure",
                tuple(marks),
                rows=self.rows,
                alt="Shaft and hub: each floor to the opposite side, shaft on the left, hub on "
                "the right",
            )
        )

    def straight(self, x: float, cutter: Fraction, shown: float = 1.5) -> None:
        """Draw a disc-cut seat from the shaft's end: full depth, then the cutter's ramp.

        Parameters
        ----------
        x
            The shaft's end. [pt]
        cutter
            Diameter of the disc. [length]
        shown
            How much of the shaft is shown under its crown. [figure sizes]
        """
        u, pen, size = self.f.unit, self.pen, self.size
        scale = u * 2 * RADIUS / float(self.shaft)
        depth = self.depths()[0] * scale
        crown = self.top + u * 1.4
        floor, full = crown + depth, x + u * 4.0
        ramp = float(geometry.ramp(cutter, Fraction(self.depths()[0]))) * scale
        end, low = full + ramp, crown + u * shown
        marks: list[Mark | Block] = [
            *straight_along(x, full, crown, depth, float(cutter) / 2 * scale, low, pen)
        ]
        level = low + u * 0.45
        for at, begin in ((x, low), (full, floor), (end, crown)):
            marks.append(Line(at, begin + u * 0.1, at, level + u * 0.2, pen.thin))
        marks += span((x, level), (full, level), pen)
        marks += span((full, level), (end, level), pen)
        under = level + u * 0.8
        # Each word keeps to its own side of the line between them.
        marks += label(
            min((x + full) / 2, full - u * 0.3 - set_width("full depth", size) / 2),
            under,
            ["full depth"],
            size,
            anchor="middle",
        )
        marks += label(
            max((full + end) / 2, full + u * 0.3 + set_width("ramp", size) / 2),
            under,
            ["ramp"],
            size,
            anchor="middle",
        )
        marks += label(x, crown - u * 0.35, ["end of shaft"], size)
        self.f.composer.add(
            Block(
                "Figure",
                tuple(marks),
                rows=self.rows,
                alt="A disc-cut seat along the shaft: full depth, then a ramp",
            )
        )
