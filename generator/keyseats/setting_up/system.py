"""What differs between the inch and the metric setting-up chart: sizes, places and examples."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from keyseats.families.inch_plain import fraction_text
from keyseats.lengths import read_fraction


@dataclass(frozen=True)
class Group:
    """Shafts and cutters of one grid; ``some`` and ``few`` are used where not all fit.

    The choice of sizes is our layout, no source, but for this: the cutter of each shaft's plain
    key is always among them.
    """

    all: str
    some: str
    cutters: str
    few: str

    def shafts(self, full: bool) -> list[Fraction]:
        """Return the grid's shafts."""
        return [read_fraction(s) for s in (self.all if full else self.some).split()]

    def widths(self, few: bool = False) -> list[Fraction]:
        """Return the grid's cutter or seat widths."""
        return [read_fraction(s) for s in (self.few if few else self.cutters).split()]


@dataclass(frozen=True)
class System:
    """One system of units, as the chart uses it.

    Parameters
    ----------
    unit
        ``in`` or ``mm``.
    name
        ``inch`` or ``metric``.
    says
        The unit in words, for the line under the title.
    groups
        Small shafts with narrow cutters, large shafts with wide ones.
    setting, arc, slip
        Places of a setting, of an arc height and of an error.
    deepest
        A usual pass on a light lathe attachment; common practice.
    feed, turn, divisions
        The worked dial: feed from the crown, movement a turn, divisions that read the movement.
    shaft, paper, slack, slack_note
        What the errors are worked out for: a shaft, a sheet of paper, and the slack that was
        reported of one worn lathe, with a note if it was converted.
    half_moon
        The half-moon key of the errors.
    """

    unit: str
    name: str
    says: str
    groups: tuple[Group, Group]
    setting: int
    arc: int
    slip: int
    deepest: str
    feed: str
    turn: str
    divisions: int
    shaft: str
    paper: str
    slack: str
    slack_note: str
    half_moon: str

    def size(self, value: Fraction) -> str:
        """Return a nominal size as the trade writes it: 1-7/16, 2.5, 8."""
        if self.unit == "in":
            return fraction_text(value)
        return f"{float(value):g}"


INCH = System(
    unit="in",
    name="inch",
    says="All in inches",
    groups=(
        Group(
            "3/8 7/16 1/2 9/16 5/8 11/16 3/4 13/16 7/8 15/16",
            "3/8 7/16 1/2 9/16 5/8 3/4 7/8",
            "1/16 3/32 1/8 5/32 3/16 1/4",
            "1/16 3/32 1/8 3/16 1/4",
        ),
        Group(
            "1 1-1/8 1-3/16 1-1/4 1-3/8 1-7/16 1-1/2 1-5/8 1-3/4 1-7/8 1-15/16 2",
            "1 1-1/8 1-1/4 1-3/8 1-1/2 1-5/8 1-3/4 1-7/8 2",
            "1/8 3/16 1/4 5/16 3/8 1/2",
            "3/16 1/4 5/16 3/8 1/2",
        ),
    ),
    setting=4,
    arc=4,
    slip=3,
    deepest="0.020",
    feed="0.350",
    turn="0.125",
    divisions=125,
    shaft="1",
    paper="0.003",
    slack="0.019",
    slack_note="",
    half_moon="608",
)
METRIC = System(
    unit="mm",
    name="metric",
    says="All in millimetres",
    groups=(
        Group(
            "8 10 11 12 14 15 16 18 19 20 22",
            "8 10 12 14 16 18 20 22",
            "2 2.5 3 4 5 6 8",
            "2 3 4 5 6 8",
        ),
        Group(
            "24 25 28 30 32 35 38 40 42 45 50",
            "25 28 30 32 35 40 45 50",
            "4 5 6 8 10 12 14",
            "5 6 8 10 12 14",
        ),
    ),
    setting=2,
    arc=3,
    slip=2,
    deepest="0.5",
    feed="6.60",
    turn="2.00",
    divisions=100,
    shaft="25",
    paper="0.08",
    slack="0.48",
    slack_note=" (converted from inches)",
    half_moon="6 x 9 x 22",
)
