"""The drawings at the head of a wall chart: a seat, its key in the hub, and the cutter along it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from keyseats.drawing import label, leader, ringed, span
from keyseats.page import Block, Line, Mark
from keyseats.seat import NECK_CLEARANCE
from keyseats.sections import (
    Across,
    along,
    crown_arc,
    cutter_along,
    hub_over,
    key_across,
    top_of_shaft,
)
from keyseats.shaft_views import WholeShaft

# The most that a seat and its hub's keyway are drawn tall. [figure sizes]
TALLEST = 3.7


@dataclass(frozen=True)
class View(WholeShaft):
    """All drawings of one real key on a wall chart; the first two share their levels."""

    def _neck(self) -> float:
        key = self.tabled.key
        assert key.diameter is not None
        clear = float(NECK_CLEARANCE[key.diameter.unit])
        return float(key.diameter.value) - 2 * self.depths()[1] - clear

    def across(self, x: float) -> Across:
        """Return the seat across the shaft, ``wide`` figure sizes wide on paper."""
        key = self.tabled.key
        scale = self.f.unit * self.wide / float(key.width.value)
        return Across(
            x,
            self.top + self.f.unit * 2.35,
            float(self.shaft) / 2 * scale,
            float(key.width.value) / 2 * scale,
            self.depths()[0] * scale,
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
        level = a.floor - u * (0.24 if shallow else 0.42)
        up = u * (0.79 if shallow else 0.86)
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

    def hub(self, x: float, clear: float = 0.0) -> None:
        """Draw the key in its seat and hub.

        Parameters
        ----------
        x
            The seat's middle. [pt]
        clear
            The least that the hub's floor is drawn above the key. [pt]
        """
        u, pen, size = self.f.unit, self.pen, self.size
        a = self.across(x)
        scale = 2 * a.radius / float(self.shaft)
        height = float(self.tabled.key.height.most.value) * scale
        half, top = a.half_width + u * 1.0, a.floor - height
        rise = max(float(self.tabled.hub_rise.least.value) * scale, a.edge - top + clear)
        roof = a.edge - rise
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
        deep = self.depths()[0] * scale
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

    def from_crown(self, x: float, *, stands: bool = False, centred: float = 0.0) -> None:
        """Draw the key in its seat and hub, both depths from the crown's line.

        Parameters
        ----------
        x
            The seat's middle. [pt]
        stands
            Whether the key's height above the crown is dimensioned too.
        centred
            The height of the band in whose middle it stands, else at its top. [figure sizes]
        """
        u, pen, size = self.f.unit, self.pen, self.size
        a, rise = self._in_hub(x)
        if centred:
            # From the hub's break to the ends of the dimension of the seat's width.
            spare = centred * u - (a.floor + u * 1.15 - self.top - u * 0.1)
            a = replace(a, crown=a.crown + max(0.0, spare / 2 - u * 0.1))
        half, roof = a.half_width + u * 0.6, a.edge - rise
        low = a.floor + u * 0.55
        height = float(self.tabled.key.height.most.value) * a.depth / self.depths()[0]
        # The hub's floor and the key's top would be one line where a flat key is drawn small.
        top = max(a.floor - height, roof + pen.outline * 1.8)
        marks: list[Mark | Block] = [
            *hub_over(a, rise, roof - u * 0.65, half, pen),
            *top_of_shaft(a, half, low, pen),
            *key_across(a, a.floor - top, pen),
            crown_arc(a, pen),
            *self._depths_beside(a, roof, half),
        ]
        left = a.x - half - u * 0.35
        up, down = a.crown - u * 0.55, a.edge + u * 0.6
        if stands:
            # The edge on its own level, the crown steeply from under it: the hatch runs aslant.
            up, down = a.edge + size * 3.6, a.edge + size * 0.36
            marks += self._above_crown(a, top, half, down - size * 1.25)
        marks += label(left, up, ["crown"], size, anchor="end")
        at = a.half_width * (0.75 if stands else 0.55)
        arc_point = (a.x - at, a.crown + a.radius - (a.radius**2 - at**2) ** 0.5)
        marks += leader([(left + u * 0.05, up - u * 0.2), arc_point], pen)
        if stands:
            left -= u * 0.55
        marks += label(left, down, ["edge"], size, anchor="end")
        # A ring, for an arrow's head would be lost in the hatch on both sides of the edge.
        beside = a.edge if stands else down - u * 0.2
        marks += ringed((left + u * 0.05, beside), (a.left, a.edge), u * 0.22, pen)
        level = low + u * 0.45
        for side in (a.left, a.right):
            marks.append(Line(side, low + u * 0.12, side, level + u * 0.15, pen.thin))
        marks += span((a.left, level), (a.right, level), pen)
        marks += label(a.right + u * 0.3, level + size * 0.36, ["seat width"], size)
        middle = (a.edge + a.floor) / 2 + size * 0.36
        marks += label(a.x, middle, ["key"], size, bold=True, anchor="middle")
        self.f.composer.add(
            Block(
                "Figure",
                tuple(marks),
                rows=self.rows,
                alt="Key in its seat and hub: depth from crown below the crown's line, hub depth "
                "above it, seat width under the seat",
            )
        )

    def _in_hub(self, x: float) -> tuple[Across, float]:
        """Return the seat as `from_crown` draws it, and the hub's floor above its edge. [pt]"""
        u, key = self.f.unit, self.tabled.key
        wide, rise = float(key.width.value), float(self.tabled.hub_rise.least.value)
        from_crown, at_edge = self.depths()
        if self.tabled.hub_datum == "edge":
            rise -= from_crown - at_edge
        scale = u * min(self.seat_wide / wide, TALLEST / (from_crown + rise))
        crown = self.top + u * 0.75 + rise * scale
        a = Across(x, crown, float(self.shaft) / 2 * scale, wide / 2 * scale, from_crown * scale)
        return a, rise * scale + a.edge - a.crown

    def _depths_beside(self, a: Across, roof: float, half: float) -> list[Mark | Block]:
        """Return hub depth and depth from crown, both from the crown's line, right of the seat."""
        u, pen, size = self.f.unit, self.pen, self.size
        out, end = half + u * 0.5, half + u * 0.8
        marks: list[Mark | Block] = []
        for level in (roof, a.crown, a.floor):
            begin = 0.0 if level == a.crown else a.half_width + u * 0.1
            marks.append(Line(a.x + begin, level, a.x + end, level, pen.thin))
        marks += span((a.x + out, roof), (a.x + out, a.crown), pen)
        marks += span((a.x + out, a.crown), (a.x + out, a.floor), pen)
        right = a.x + end + u * 0.1
        # Each label keeps to its own side of the crown's line, however flat the key is.
        above = min((roof + a.crown) / 2 + size * 0.36, a.crown - size * 0.3)
        marks += label(right, above, ["hub depth"], size)
        below = max((a.crown + a.floor) / 2 - size * 0.1, a.crown + size * 0.95)
        marks += label(right, below, ["depth", "from crown"], size, bold=True)
        return marks

    def _above_crown(self, a: Across, top: float, half: float, last: float) -> list[Mark | Block]:
        """Return how far the key's top stands above the crown, left of the seat.

        ``last`` is the baseline of the last line of what it is called. [pt]
        """
        u, pen, size = self.f.unit, self.pen, self.size
        over, end = a.x - half - u * 0.5, a.x - half - u * 0.8
        marks: list[Mark | Block] = []
        for level, begin in ((top, a.left - u * 0.1), (a.crown, a.x)):
            marks.append(Line(begin, level, end, level, pen.thin))
        marks += span((over, top), (over, a.crown), pen)
        lines = ["key above", "crown"]
        marks += label(end - u * 0.1, last - size * 1.18, lines, size, anchor="end")
        return marks
