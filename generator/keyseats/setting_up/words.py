"""What the setting-up chart says, apart from its figures."""

from __future__ import annotations

from dataclasses import dataclass

from keyseats.frame import FIRST, RECALLED
from keyseats.setting import DAGGER
from keyseats.setting_up.system import System

Said = tuple[str, str]

PRACTICE = "common practice, no source"
CENTRING = "US Army TC 9-524, ch. 8, for half the shaft plus half the cutter"
# Which standard's ranges of shafts pick the plain key.
PLAIN_KEYS = {"in": "ASME B17.1", "mm": "ISO/R 773"}


@dataclass(frozen=True)
class Step:
    """One step of the work.

    Parameters
    ----------
    lead
        Its lead words.
    says
        What is done, where no drawing stands beside it.
    drawn
        The same under the step's drawing, which names the rest.
    shows
        What the drawing shows, for who cannot see it.
    """

    lead: str
    says: str
    drawn: str
    shows: str


def steps(system: System, travels: str = "sheet 2") -> list[Step]:
    """Return the order of the work, each step with its lead words.

    Parameters
    ----------
    system
        The system of units.
    travels
        Where the centring travels stand.
    """
    nominal = (
        "The nominal shaft picks the key, the measured shaft sets the depths. Write it all down."
    )
    feed = (
        "Disc in a plain seat: feed against the cutter. Half-moon: straight in. Lock all other "
        "slides."
    )
    even = (
        "Unlock, move the work half the difference towards the wide gap, coming up from the same "
        "side; lock; mark again."
    )
    hub = "Try it on by hand before it is driven on."
    return [
        Step(
            "Drawing and hub.",
            "They come first. A hub that is cut already decides the key.",
            "They come first. A hub that is cut already decides the key.",
            "A hub, its bore and its keyway",
        ),
        Step(
            "Measure.",
            f"Shaft, key, cutter, and the paper or feeler. {nominal}",
            nominal,
            "Shaft, key, cutter, and paper or feeler",
        ),
        Step(
            "Stop if",
            "the cutter's width is outside the seat's limits, a half-moon cutter is smaller than "
            "its key, its neck is over the largest, or the holder would meet the shaft.",
            "cutter's width outside the seat's limits, half-moon cutter smaller than its key, neck "
            "over the largest, or holder meets shaft.",
            "The cutter in the shaft, its width, its neck, and the holder over the shaft",
        ),
        Step(
            "Align.",
            "Shaft parallel with the slide that runs along it; clamps out of the cutter's way. "
            "The cutter turns the way its teeth cut.",
            "Shaft parallel with the slide that runs along it; clamps out of the cutter's way. "
            "The cutter turns the way its teeth cut.",
            "An indicator reads the same at both ends of the shaft",
        ),
        Step(
            f"Centre ({travels}).",
            "Touch the shaft's side, clear the shaft, go on the same way by the centring travel. "
            "Lock that slide.",
            "Touch the shaft's side, clear the shaft, go on the same way by the travel. Lock that "
            "slide.",
            "The cutter touches the shaft's side; the travel ends over the centreline",
        ),
        Step(
            "Place along.",
            "From a touch on the end face, half the cutter's diameter and the paper count. "
            "Half-moon: lock. Plain: write down where full depth ends.",
            "From a touch on the end face; add the paper. Half-moon: lock. Plain: write down "
            "where full depth ends.",
            "The cutter's rim touches the end face; half its diameter, then end to middle",
        ),
        Step(
            "Witness cut.",
            f"A bare mark on the crown. Gaps from the mark to the cutter's edges uneven? {even}",
            f"A bare mark on the crown. Gaps uneven? {even}",
            "From above, the mark between the cutter's edges: gaps a and b, b the wider; the work "
            "moves towards b, and both gaps are alike",
        ),
        Step(
            "Touch the crown.",
            "Spindle stopped, feeler lying along over the mark. Touch reading + feeler = crown; "
            "depths count from there.",
            "Spindle stopped, feeler lying along over the mark. Touch reading + feeler = crown; "
            "depths count from there.",
            "The cutter on a feeler on the crown",
        ),
        Step(
            "Cut.",
            f"About {system.deepest} a pass on a light lathe attachment, less with a thin neck. "
            f"{feed}",
            f"On a light lathe attachment; less with a thin neck. {feed}",
            f"A disc in a plain seat, passes of about {system.deepest}, the work fed against the "
            "teeth: one pass stands before the cutter, the whole shaft beyond the seat's end",
        ),
        Step(
            "Stop short, measure.",
            "Spindle stopped. Floor to opposite side says how much is left to feed. Feed it and "
            "measure again. In a half-moon seat measure at mid length, with a ball anvil.",
            "Spindle stopped. Floor to opposite side says what to feed. Measure again. Half-moon "
            "seat: ball anvil, at mid length.",
            "Floor to opposite side, and what is left to feed",
        ),
        Step(
            "Deburr, then key.",
            "Measure over key, from the opposite side to the top of the seated key. Deburring "
            "moves the edge, but not this.",
            "Measure from the opposite side to the top of the seated key. Deburring moves the "
            "edge, but not this.",
            "Over key, with the key in its seat",
        ),
        Step(
            "Hub.",
            f"Measure the hub: keyway floor to the opposite side of the bore. {hub}",
            f"Measure keyway floor to the bore's opposite side. {hub}",
            "The hub's floor to the opposite side of its bore",
        ),
    ]


CAUTIONS: tuple[str, ...] = (
    "Eye protection on before the spindle starts, for everyone near.",
    "No gloves, loose sleeves or jewellery. Hair tied back.",
    "Stop spindle and work before you measure, adjust or reach in.",
    "Paper or feeler only with the spindle stopped.",
    "Chips by brush, spindle stopped, never by hand.",
    "Clamp before a slide moves. See that clamps pass clear of cutter and arbor.",
    "A half-moon cutter goes in a holder that locks it, not in a drill chuck.",
    "Change neither speed nor feed in the cut. File or deburr only with the spindle stopped.",
)


def foot(system: System, sheet: int, recalled: bool) -> list[Said]:
    """Return what stands at the foot of one sheet; the dagger's note if it is used."""
    caution = {
        1: "Eye protection on. Stop the spindle before you measure, brush chips or deburr.",
        2: "Stop the spindle before paper or feeler comes near the cutter.",
        3: "Stop the spindle before you measure, brush chips or deburr.",
        4: "Take a loose key out before the shaft turns.",
        5: "A hub that drives on too little key can let go. Measure over key first.",
    }[sheet]
    seats = {
        "in": "Seats: ASME B17.1 and B17.2",
        "mm": "Seats: ISO/R 773 and ISO 3912 families",
    }[system.unit]
    keys = PLAIN_KEYS[system.unit]
    sources = {
        1: f"Centring: {CENTRING}. Order of the work and deepest pass: {PRACTICE}.",
        2: f"{CENTRING}. Plain key of each shaft: {keys}. Which shafts and cutters: our choice.",
        3: "Geometry; height of arc in US Navy, Machinery Repairman, ch. 7. Plain key of each "
        f"shaft: {keys}. Which shafts and widths: our choice.",
        4: f"Dial: arithmetic, {PRACTICE}. Cutting direction and cautions: US Army shop rules, a "
        "state's machine rules, and common practice.",
        5: f"{seats}. Slack: one report; paper: our choice; the rest from the seats. "
        f"Remedies: {PRACTICE}.",
    }[sheet]
    columns = [("CAUTION", f"{caution} {FIRST}"), ("Sources.", sources)]
    if recalled:
        columns.insert(1, (DAGGER, RECALLED))
    return columns
