"""What the depth that was fed does to the key: five seats, and how high a key stands in each."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from keyseats.families import inch_half_moon, inch_plain, metric_half_moon, metric_plain
from keyseats.frozen import replace
from keyseats.lengths import read_fraction
from keyseats.load import Tables
from keyseats.seat import SETTING_PLACES, Seat, Tabled, Work, seat_of
from keyseats.standing import Quantity, derive


@dataclass(frozen=True)
class Case:
    """The key and shaft of one page, the slip that is fed, and what the scales count in.

    Our choice, no source. ``slip`` is what is fed over the most in inches, and too little in
    millimetres; ``long`` and ``short`` are the scales' ticks, ``places`` those of their figures.
    """

    shaft: str
    key: str
    slip: str
    long: str
    short: str
    places: int


CASES = {
    ("in", "plain"): Case("1", "1/4 x 1/4", "0.05", "0.05", "0.01", 2),
    ("in", "half-moon"): Case("1", "608", "0.05", "0.05", "0.01", 2),
    ("mm", "plain"): Case("25", "8 x 7", "0.5", "1", "0.1", 0),
    ("mm", "half-moon"): Case("25", "6 x 9 x 22", "0.5", "1", "0.1", 0),
}


def found(tables: Tables, unit: str, kind: str) -> Seat:
    """Return the seat of a page's key in its shaft."""
    case = CASES[unit, kind]
    work = Work(unit, read_fraction(case.shaft))
    if kind == "plain":
        family = inch_plain if unit == "in" else metric_plain
        given: Tabled | None = family.tabled(tables, work)[0]
    elif unit == "in":
        given = inch_half_moon.one(case.key, tables, work)
    else:
        given = metric_half_moon.one(case.key, tables, work)
    if given is None:
        raise ValueError(f"the tables have no {case.key} key")
    return seat_of(given, work)


@dataclass(frozen=True)
class State:
    """One depth from the crown that was fed, and the key that stands in it.

    Every value is the figure as printed, so that sums agree on the page. ``says`` is what was fed.
    """

    says: str
    fed: Quantity
    height: Quantity
    over: Quantity
    above: Quantity

    @property
    def figures(self) -> tuple[Quantity, ...]:
        """Return what is printed of it."""
        return self.fed, self.height, self.over, self.above


@dataclass(frozen=True)
class Slips:
    """A seat of one page, and what becomes of its key."""

    case: Case
    seat: Seat

    @property
    def shaft(self) -> Fraction:
        """Return the shaft's diameter."""
        return self.seat.work.shaft

    @property
    def hub(self) -> Quantity:
        """Return the lowest hub floor, to the opposite side of the shaft."""
        return self.seat.hub_floor_to_opposite_side.least

    @property
    def places(self) -> int:
        """Return the decimal places that a dial is set to."""
        return SETTING_PLACES[self.seat.work.unit]

    @property
    def stops(self) -> Quantity:
        """Return the depth from the crown down to which the tallest key stops the lowest hub."""
        tallest = self.seat.key.height.most
        inputs = tallest, self.seat.arc_height, self.hub
        depth = derive(tallest.value + self.shaft - self.hub.value, *inputs)
        return depth.printed(self.places, "down")

    def states(self) -> tuple[State, ...]:
        """Return five depths fed: too shallow, the limits, too deep, and the key's own height.

        Raises
        ------
        ValueError
            If they are not too shallow, right and too deep in this order.
        """
        s, case = self.seat, self.case
        slip = read_fraction(case.slip)
        highest, lowest = self._right()
        if s.work.unit == "in":
            shallow = s.depth_at_edge.least, "Arc height forgotten"
            most = s.depth_from_crown.most
            deep = derive(lowest.fed.value + slip, most), f"{case.slip} over the most"
        else:
            least = s.depth_from_crown.least
            shallow = derive(highest.fed.value - slip, least), f"{case.slip} too little"
            both = derive(least.value + s.arc_height.value, least, s.arc_height)
            deep = both, "Arc height added to a metric depth"
        slipped = (
            self._slipped(lowest, *deep),
            self._slipped(highest, highest.height, "Key's own height"),
        )
        too_deep = sorted(slipped, key=lambda state: state.fed.value)
        found = (self._slipped(highest, *shallow), highest, lowest, *too_deep)
        depths = [state.fed.value for state in found]
        if not depths[0] < depths[1] <= depths[2] < depths[3]:
            raise ValueError(
                f"{s.key.designation}: the depths {', '.join(q.fed.text for q in found)} are not "
                "too shallow, right and too deep"
            )
        return found

    @property
    def stopped(self) -> bool:
        """Return whether the tallest key stops the lowest hub at the depth that is too shallow."""
        return self.states()[0].over.value > self.hub.value

    @property
    def clears(self) -> bool:
        """Return whether every key passes under the lowest hub within the limits."""
        return self.states()[1].over.value <= self.hub.value

    def _right(self) -> tuple[State, State]:
        """Return the ends of the limits, where the key stands highest and lowest."""
        s = self.seat
        height = s.key.height.printed(self.places)
        return (
            State(
                "Least depth, tallest key",
                _as_printed(s.depth_from_crown.least),
                _as_printed(height.most),
                _as_printed(s.over_key.most),
                _as_printed(s.key_above_edge.most),
            ),
            State(
                "Most depth, lowest key",
                _as_printed(s.depth_from_crown.most),
                _as_printed(height.least),
                _as_printed(s.over_key.least),
                _as_printed(s.key_above_edge.least),
            ),
        )

    def _slipped(self, right: State, depth: Quantity, says: str) -> State:
        """Return where the key of one end of the limits stands at another depth.

        A dial is set to so many places, so the depth is rounded first. From the end's own height
        over the key, as printed, the key comes down by as much as the floor does.
        """
        fed = _as_printed(depth.printed(self.places))
        down = fed.value - right.fed.value

        over, arc = derive(right.over.value - down, right.over, fed), self.seat.arc_height
        above = derive(right.height.value - fed.value + arc.value, right.above, fed, arc)
        printed = (q.printed(self.places) for q in (over, above))
        return State(says, fed, right.height, *printed)


def slips(tables: Tables, unit: str, kind: str) -> Slips:
    """Return the seat of a page, and what becomes of its key."""
    return Slips(CASES[unit, kind], found(tables, unit, kind))


def recalled(told: Slips) -> bool:
    """Return whether any figure of the page has a dagger."""
    neck = told.seat.largest_neck
    figures = [figure for state in told.states() for figure in state.figures]
    return any(q.recalled for q in (*figures, told.stops, *((neck,) if neck else ())))


def _as_printed(quantity: Quantity) -> Quantity:
    """Return a quantity of the value that its text says."""
    return replace(quantity, value=read_fraction(quantity.text))
