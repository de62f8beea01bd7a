"""The drawings at the head of a wall chart: a seat, its key in the hub, and the cutter along it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from keyseats import geometry
from keyseats.drawing import Pen, label, leader, ringed, span
from keyseats.frame import Frame
from keyseats.page import Block, Line, Mark
from keyseats.seat import NECK_CLEARANCE, Tabled
from keyseats.sections import (
    Across,
    along,
    crown_arc,
    cutter_along,
    half_hub,
    hub_over,
    key_across,
    straight_along,
    top_of_shaft,
    whole_shaft,
)
from keyseats.setting import set_width


@dataclass(frozen=True)
class View:
    """A wall chart's drawings of one real key; the first two share their levels."""

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

    def _depths(self) -> tuple[float, float]:
        """Return the least depth from the crown, and at the edge, for the shaft drawn."""
        arc = float(geometry.arc_height(self.shaft, self.tabled.key.width.value))
        if self.tabled.depth_at_edge is not None:
            at_edge = float(self.tabled.depth_at_edge.least.value)
            return at_edge + arc, at_edge
        assert self.tabled.depth_from_crown is not None
        from_crown = float(self.tabled.depth_from_crown.least.value)
        return from_crown, from_crown - arc

    def _neck(self) -> float:
        key = self.tabled.key
        assert key.diameter is not None
        clear = float(NECK_CLEARANCE[key.diameter.unit])
        return float(key.diameter.value) - 2 * self._depths()[1] - clear

    def across(self, x: float) -> Across:
        """Return the seat across the shaft, ``wide`` figure sizes wide on paper."""
        key = self.tabled.key
        scale = self.f.unit * self.wide / float(key.width.value)
        return Across(
            x,
            self.top + self.f.unit * 2.35,
            float(self.shaft) / 2 * scale,
            float(key.width.value) / 2 * scale,
            self._depths()[0] * scale,
        )

    def seat(self, x: float) -> None:
        """Draw the seat: crown, edge, arc height and the two depths."""
        u, pen, size = self.f.unit, self.pen, self.size
        a = self.across(x)
        half = a.half_width + u * 1.0
        out, end = half + u * 0.5, half + u * 0.8
        marks: list[Mark | Block] = [*top_of_shaft(a, half, a.floor + u * 0.9, pen)]
        for side, levels in ((-1, (a.crown, a.edge, a.floor)), (1, (a.crown, a.floor))):
            for level in levels:
                begin = 0.0 if level == a.crown else side * (a.half_width + u * 0.12)
                marks.append(Line(a.x + begin, level, a.x + side * end, level, pen.thin))
        marks += span((a.x - out, a.edge), (a.x - out, a.floor), pen)
        marks += span((a.x + out, a.crown), (a.x + out, a.floor), pen)
        tail = (a.x - out, a.crown - u * 0.75)
        marks += leader([tail, (a.x - out, a.crown)], pen)
        middle = (a.edge + a.floor) / 2
        left, right = a.x - end - u * 0.1, a.x + end + u * 0.1
        marks += label(left, a.crown - u * 0.28, ["arc height"], size, anchor="end")
        marks += label(left, middle, ["depth", "at edge"], size, bold=True, anchor="end")
        marks += label(right, middle - size * 0.6, ["depth", "from", "crown"], size, bold=True)
        marks += label(a.x, a.crown - u * 1.15, ["crown"], size, anchor="middle")
        marks += leader([(a.x, a.crown - u * 0.95), (a.x, a.crown - u * 0.05)], pen)
        marks += label(a.x + half - u * 0.1, a.crown - u * 0.8, ["edge"], size)
        marks += leader(
            [(a.x + half - u * 0.15, a.crown - u * 0.75), (a.right + u * 0.06, a.edge - u * 0.06)],
            pen,
        )
        shallow = a.floor - a.crown < u * 2
        level = a.floor - u * (0.3 if shallow else 0.42)
        up = u * (0.68 if shallow else 0.82)
        marks += span((a.left, level), (a.right, level), pen)
        marks += label(a.x, level - up, ["seat", "width"], u * 0.6, anchor="middle", leading=1.0)
        self.f.composer.add(
            Block(
                "Figure",
                tuple(marks),
                rows=self.rows,
                alt="Seat across the shaft: depth at edge plus arc height is depth from crown",
            )
        )

    def hub(self, x: float) -> None:
        """Draw the key in its seat and hub."""
        u, pen, size = self.f.unit, self.pen, self.size
        a = self.across(x)
        scale = 2 * a.radius / float(self.shaft)
        rise = float(self.tabled.hub_rise.least.value) * scale
        height = float(self.tabled.key.height.most.value) * scale
        half, roof, top = a.half_width + u * 1.0, a.edge - rise, a.floor - height
        out, end = half + u * 0.5, half + u * 0.8
        marks: list[Mark | Block] = [
            *hub_over(a, rise, roof - u * 0.7, half, pen),
            *top_of_shaft(a, half, a.floor + u * 0.9, pen),
            *key_across(a, height, pen),
        ]
        for side, level in ((1, a.edge), (1, roof), (-1, a.edge), (-1, top)):
            begin = a.x + side * (a.half_width + u * 0.1)
            marks.append(Line(begin, level, a.x + side * end, level, pen.thin))
        marks += span((a.x + out, roof), (a.x + out, a.edge), pen)
        marks += span((a.x - out, top), (a.x - out, a.edge), pen)
        right, left = a.x + end + u * 0.1, a.x - end - u * 0.1
        marks += label(right, (roof + a.edge) / 2 - size * 0.2, ["hub", "depth"], size)
        marks += label(
            left, (top + a.edge) / 2 - size * 0.75, ["key", "above", "edge"], size, anchor="end"
        )
        marks += label(
            a.x, (a.edge + a.floor) / 2 + size * 0.4, ["key"], size, bold=True, anchor="middle"
        )
        self.f.composer.add(
            Block(
                "Figure",
                tuple(marks),
                alt="Key in its seat and hub: key above edge, hub depth",
                rows=self.rows,
            )
        )

    def side(self, x: float) -> None:
        """Draw the cutter in the seat along the shaft, with the largest neck that clears."""
        u, pen, size = self.f.unit, self.pen, self.size
        key = self.tabled.key
        assert key.diameter is not None
        scale = u * 3.5 / float(key.diameter.value)
        deep = self._depths()[0] * scale
        cutter, neck = u * 3.5, self._neck() * scale
        top = self.top + u * 1.25
        floor, half = top + cutter, cutter / 2 + u * 0.8
        crown = floor - deep
        marks: list[Mark | Block] = [
            *along(x, crown, cutter, deep, half, floor + u * 0.75, pen),
            *cutter_along(x, floor, cutter, neck, pen),
        ]
        level = top - u * 0.35
        for side in (-1, 1):
            at = x + side * cutter / 2
            marks.append(Line(at, floor - cutter / 2, at, level - u * 0.2, pen.thin))
        marks += span((x - cutter / 2, level), (x + cutter / 2, level), pen)
        marks += label(x, level - u * 0.25, ["diameter"], size, anchor="middle")
        tip = (x + neck * 0.35, floor - cutter / 2 - neck * 0.35)
        beside = x + cutter / 2 + u * 0.55
        marks += label(beside, top + u * 0.75, ["neck"], size)
        marks += leader([(beside - u * 0.12, top + u * 0.55), tip], pen)
        self.f.composer.add(
            Block(
                "Figure",
                tuple(marks),
                rows=self.rows,
                alt="Along the shaft: the cutter at full depth, its neck clear of the shaft",
            )
        )

    def from_crown(self, x: float, *, stands: bool = False) -> None:
        """Draw the key in its seat and hub, both depths from the crown's line.

        Parameters
        ----------
        x
            The seat's middle. [pt]
        stands
            Whether the key's height above the crown is dimensioned too.
        """
        u, pen, size = self.f.unit, self.pen, self.size
        scale = u * self.seat_wide / float(self.tabled.key.width.value)
        a = Across(
            x,
            self.top + u * 2.35,
            float(self.shaft) / 2 * scale,
            u * self.seat_wide / 2,
            self._depths()[0] * scale,
        )
        rise = float(self.tabled.hub_rise.least.value) * scale
        if self.tabled.hub_datum == "crown":
            rise += a.edge - a.crown
        height = float(self.tabled.key.height.most.value) * scale
        half, roof = a.half_width + u * 0.6, a.edge - rise
        out, end = half + u * 0.5, half + u * 0.8
        marks: list[Mark | Block] = [
            *hub_over(a, rise, roof - u * 0.7, half, pen),
            *top_of_shaft(a, half, a.floor + u * 0.8, pen),
            *key_across(a, height, pen),
            crown_arc(a, pen),
        ]
        for level in (roof, a.crown, a.floor):
            begin = 0.0 if level == a.crown else a.half_width + u * 0.1
            marks.append(Line(a.x + begin, level, a.x + end, level, pen.thin))
        marks += span((a.x + out, roof), (a.x + out, a.crown), pen)
        marks += span((a.x + out, a.crown), (a.x + out, a.floor), pen)
        right, left = a.x + end + u * 0.1, a.x - half - u * 0.35
        above = (roof + a.crown) / 2 + size * 0.36
        marks += label(right, above, ["hub depth"], size)
        below = max((a.crown + a.floor) / 2 - size * 0.1, above + size * 1.5)
        marks += label(right, below, ["depth", "from crown"], size, bold=True)
        up, low = a.crown - u * 0.55, a.edge + u * 0.6
        if stands:
            top, over = a.floor - height, a.x - out
            for level, begin in ((top, a.left - u * 0.1), (a.crown, a.x)):
                marks.append(Line(begin, level, a.x - end, level, pen.thin))
            marks += span((over, top), (over, a.crown), pen)
            beside = a.x - end - u * 0.1
            marks += label(beside, top + size * 0.5, ["key above", "crown"], size, anchor="end")
            # The edge above the crown, or their leaders would cross.
            up, low = a.edge + u * 1.9, a.edge + u * 0.95
        marks += label(left, up, ["crown"], size, anchor="end")
        at = a.half_width * 0.55
        arc_point = (a.x - at, a.crown + a.radius - (a.radius**2 - at**2) ** 0.5)
        marks += leader([(left + u * 0.05, up - u * 0.2), arc_point], pen)
        marks += label(left, low, ["edge"], size, anchor="end")
        # A ring, for an arrow's head would be lost in the hatch on both sides of the edge.
        marks += ringed((left + u * 0.05, low - u * 0.2), (a.left, a.edge), u * 0.22, pen)
        level = a.floor - u * 0.2
        marks += span((a.left, level), (a.right, level), pen)
        lines = ["seat width"] if self.seat_wide > 3.4 else ["seat", "width"]
        start = level - u * (0.13 + 0.62 * (len(lines) - 1))
        marks += label(a.x, start, lines, u * 0.6, anchor="middle", leading=1.03)
        marks += label(a.x, a.crown - u * 0.2, ["key"], size, bold=True, anchor="middle")
        self.f.composer.add(
            Block(
                "Figure",
                tuple(marks),
                rows=self.rows,
                alt="Key in its seat and hub: depth from crown below the crown's line, hub depth "
                "above it",
            )
        )

    def opposite(self, x: float) -> None:
        """Draw the whole shaft, the hub on its right half: both floors to their opposite sides."""
        u, pen, size = self.f.unit, self.pen, self.size
        radius = u * 1.72
        scale = 2 * radius / float(self.shaft)
        a = Across(
            x,
            self.top + u * 1.4,
            radius,
            float(self.tabled.key.width.value) / 2 * scale,
            self._depths()[0] * scale,
        )
        rise = float(self.tabled.hub_rise.least.value) * scale
        if self.tabled.hub_datum == "crown":
            rise += a.edge - a.crown
        roof, wall = a.edge - rise, u * 0.85
        height = float(self.tabled.key.height.most.value) * scale
        marks: list[Mark | Block] = [
            *half_hub(a, rise, wall, pen),
            *whole_shaft(a, pen),
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

    def straight(self, x: float, cutter: Fraction) -> None:
        """Draw a disc-cut seat from the shaft's end: full depth, then the cutter's ramp.

        Parameters
        ----------
        x
            The shaft's end. [pt]
        cutter
            Diameter of the disc. [length]
        """
        u, pen, size = self.f.unit, self.pen, self.size
        scale = u * 2 * 1.72 / float(self.shaft)
        depth = self._depths()[0] * scale
        crown = self.top + u * 1.4
        floor, full = crown + depth, x + u * 4.0
        ramp = float(geometry.ramp(cutter, Fraction(self._depths()[0]))) * scale
        end, low = full + ramp, crown + u * 1.5
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
