"""One row of a table, typed: every figure keeps its printed text, its unit and its source."""

from __future__ import annotations

from fractions import Fraction

from keyseats.frozen import frozen


@frozen
class Figure:
    """A printed figure, exact, with where it stands and where it was read."""

    value: Fraction
    unit: str
    text: str
    source: str
    table: str
    row: str
    column: str

    @property
    def id(self) -> str:
        """Return the figure's address, ``table/row/column``."""
        return f"{self.table}/{self.row}/{self.column}"

    @property
    def places(self) -> int:
        """Return the digits printed after the decimal mark."""
        return len(self.text.partition(".")[2])


@frozen
class Source:
    """Where figures come from: a reproduction read, a rule, common practice or memory."""

    id: str
    kind: str
    title: str
    where: str
    inputs: str
    note: str


@frozen
class Quirk:
    """A printed figure that breaks its own rule, with the reason it is kept."""

    table: str
    row: str
    column: str
    printed: str
    rule_gives: str
    state: str
    reason: str


@frozen
class SharedLimit:
    """A tolerance that a whole family shares."""

    family: str
    figure: str
    minus: Figure
    plus: Figure
    note: str


@frozen
class InchHalfMoonKey:
    """An inch half-moon key: size and height limits."""

    key: str
    series: str
    width: Figure
    diameter: Figure
    height_least: Figure
    height_most: Figure
    flat_height_least: Figure
    flat_height_most: Figure
    length: Figure
    note: str


@frozen
class InchHalfMoonSeat:
    """The seat and the hub keyway of one inch half-moon key."""

    key: str
    width_least: Figure
    width_most: Figure
    depth_at_edge: Figure
    dia_least: Figure
    dia_most: Figure
    key_above_edge: Figure
    hub_width: Figure
    hub_depth: Figure
    note: str


@frozen
class InchHalfMoonShaft:
    """One line of a list that suggests half-moon keys, or a key width, for shafts."""

    list: str
    shaft_from: Figure
    shaft_to: Figure
    width: Figure | None
    keys: str
    note: str


@frozen
class InchPlainKey:
    """The plain key of a range of inch shafts."""

    shaft_over: Figure
    shaft_to: Figure
    width: Figure
    height_square: Figure | None
    height_rectangular: Figure | None
    preferred: str
    note: str


@frozen
class InchPlainKeyLimit:
    """Tolerances on the width and height of inch plain keys."""

    stock: str
    section: str
    width_over: Figure
    width_to: Figure
    width_minus: Figure
    width_plus: Figure
    height_minus: Figure
    height_plus: Figure
    note: str


@frozen
class InchPlainFit:
    """Tolerances of the seat and hub keyway for one class of fit."""

    fit: str
    section: str
    width_over: Figure
    width_to: Figure
    stock: str
    seat_width_minus: Figure
    seat_width_plus: Figure
    floor_minus: Figure | None
    floor_plus: Figure | None
    hub_floor_minus: Figure | None
    hub_floor_plus: Figure | None
    note: str


@frozen
class InchPlainCorner:
    """Suggested floor radius of a seat and chamfer of its key."""

    seat_depth_over: Figure
    seat_depth_to: Figure
    floor_radius: Figure
    key_chamfer: Figure
    note: str


@frozen
class MetricPlainKey:
    """The plain key, seat and hub keyway of a range of metric shafts in one standard."""

    standard: str
    series: str
    shaft_over: Figure
    shaft_to: Figure
    width: Figure
    height: Figure
    depth_from_crown: Figure
    depth_plus: Figure | None
    hub_depth: Figure
    hub_depth_plus: Figure | None
    floor_radius_least: Figure | None
    floor_radius_most: Figure | None
    length_least: Figure | None
    length_most: Figure | None
    note: str


@frozen
class MetricWidthFit:
    """Limits of a seat's or hub keyway's width for one fit."""

    width: Figure
    fit: str
    member: str
    zone: str
    lower: Figure
    upper: Figure
    note: str


@frozen
class Iso286:
    """A standard tolerance or a fundamental deviation for a band of sizes."""

    kind: str
    symbol: str
    size_over: Figure
    size_to: Figure
    value_um: Figure
    note: str


@frozen
class MetricKeyLimit:
    """Which tolerance zone a standard gives a plain key's width or height."""

    standard: str
    part: str
    zone: str
    source: str
    note: str


@frozen
class MetricHalfMoonKey:
    """A metric half-moon key of one standard."""

    standard: str
    designation: str
    width: Figure
    height: Figure
    diameter: Figure
    flat_height: Figure | None
    width_minus: Figure | None
    height_minus: Figure | None
    diameter_minus: Figure | None
    note: str


@frozen
class MetricHalfMoonSeat:
    """The seat and hub keyway of one metric half-moon key in one standard."""

    standard: str
    designation: str
    depth_from_crown: Figure
    depth_plus: Figure
    hub_depth: Figure
    hub_depth_plus: Figure
    floor_radius_least: Figure | None
    floor_radius_most: Figure | None
    note: str


@frozen
class MetricHalfMoonShaft:
    """The range of shafts that one series gives a metric half-moon key."""

    standard: str
    series: str
    designation: str
    shaft_over: Figure
    shaft_to: Figure | None
    note: str


@frozen
class CuttingSpeed:
    """The published range of cutting speeds for one material, to start at."""

    material: str
    cutter: str
    low: Figure
    high: Figure
    low_metric: Figure
    high_metric: Figure
    note: str


@frozen
class AlignmentLimit:
    """How far a seat may stand off, or run out of parallel with, the shaft's centreline."""

    feature: str
    length_over: Figure | None
    length_to: Figure | None
    most: Figure
    unit_of_length: str
    note: str
