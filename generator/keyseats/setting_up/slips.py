"""The ways it goes wrong, each with the size of its error in one real seat, and the remedy."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from keyseats.families import inch_half_moon, inch_plain, metric_half_moon, metric_plain
from keyseats.lengths import article, read_fraction
from keyseats.load import Tables
from keyseats.seat import Seat, Work, seat_of
from keyseats.setting_up.system import System
from keyseats.standing import Quantity, derive, typed

# A depth is counted from the least that is tabled, which is what is fed.
DEEPER = "past the least"


@dataclass(frozen=True)
class Slip:
    """One way it goes wrong: what was done, the error, its kind, and what to do instead.

    ``times`` says how many times its size the error is drawn, where it would not be seen.
    """

    done: str
    error: Quantity
    kind: str
    follows: str
    instead: str
    times: int = 1


@dataclass(frozen=True)
class Example:
    """The seats that the errors are worked out for."""

    plain: Seat
    half_moon: Seat
    says: str


def example(tables: Tables, system: System) -> Example:
    """Return the chart's example: the plain key of its shaft, and its half-moon key."""
    shaft = read_fraction(system.shaft)
    work = Work(system.unit, shaft)
    if system.unit == "in":
        plain = inch_plain.tabled(tables, work)[0]
        moon = inch_half_moon.one(system.half_moon, tables, work)
    else:
        plain = metric_plain.tabled(tables, work)[0]
        found = metric_half_moon.one(system.half_moon, tables, work)
        if found is None:
            raise ValueError(f"the tables have no {system.half_moon} half-moon key")
        moon = found
    number = "No. " if system.unit == "in" else ""
    name = plain.key.in_print
    says = (
        f"Worked for {article(name)} plain key in {article(system.size(shaft))} {system.unit} "
        f"shaft, and half-moon {number}{moon.key.in_print}"
    )
    return Example(seat_of(plain, work), seat_of(moon, work), says)


def slips(tables: Tables, system: System) -> list[Slip]:
    """Return the slips with their errors, in the order of the work."""
    ex = example(tables, system)
    seat, moon, places = ex.plain, ex.half_moon, system.slip

    def of(value: Fraction, *inputs: Quantity) -> Quantity:
        return derive(value, *inputs).printed(places)

    half = of(seat.cutter_width.value / 2, seat.cutter_width)
    touch, diameter, neck = seat.centring.face_touch, moon.cutter_diameter, moon.largest_neck
    assert touch is not None
    assert diameter is not None
    assert neck is not None
    tabled = seat.depth_from_crown.least
    over = of(seat.key.height.most.value - tabled.value, seat.key.height.most, tabled)
    paper = typed(read_fraction(system.paper), system.unit).printed(places)
    slack = typed(read_fraction(system.slack), system.unit).printed(places)
    return [
        Slip(
            "Half the cutter forgotten",
            half,
            "off centre",
            "The same error if it is added after the axis itself was found.",
            "Travel is half the shaft plus half the cutter, from a touch on the side only.",
        ),
        Slip(
            "Paper forgotten",
            paper,
            "off centre",
            "At the crown: as much too shallow.",
            "Measure the paper; add it to the travel and to the feed.",
            times=20,
        ),
        Slip(
            "Slack in the screw",
            slack,
            "off centre",
            f"As reported of one worn lathe{system.slack_note}; yours differs.",
            "Touch, clear, and go on the same way. Then lock the slide.",
            times=5,
        ),
        Slip(
            "Diameter-reading dial taken at its word",
            of(touch.value / 2, touch),
            "short",
            "The slide moves half of what the dial says.",
            "Prove one turn with an indicator; count turns and divisions from what it moved.",
        ),
        Slip(
            "Half-moon seat set from the cutter's rim",
            of(diameter.value / 2, diameter),
            "off along",
            "Half the cutter's diameter was left out.",
            "From the end face: place of the seat's middle + half the diameter + paper.",
        ),
        Slip(
            "Key's height fed as the depth",
            over,
            DEEPER,
            "The key sinks; little is left to drive the hub.",
            "Feed the depth from crown; about half the height of a plain key.",
        ),
        _arc(seat, system),
        Slip(
            "Neck not measured",
            derive(neck.value, neck).printed(places, "down"),
            "largest neck",
            "A thicker neck rubs the edges short of the floor.",
            "Measure the neck. Largest neck: see the half-moon chart.",
            times=2,
        ),
    ]


def _arc(seat: Seat, system: System) -> Slip:
    error = derive(seat.arc_height.value, seat.arc_height).printed(system.slip)
    if system.unit == "in":
        return Slip(
            "Arc height forgotten",
            error,
            "too shallow",
            "Depth at edge was fed from the crown; the hub will not go on.",
            "Depth at edge + arc height (sheet 3) = depth from crown.",
            times=3,
        )
    return Slip(
        "Arc height added to a metric depth",
        error,
        DEEPER,
        "Metric tables count from the crown already.",
        "Feed the depth from crown as tabled.",
        times=3,
    )
