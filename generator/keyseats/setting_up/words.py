"""What the setting-up chart says, apart from its figures."""

from __future__ import annotations

from keyseats.frame import FIRST, RECALLED
from keyseats.setting import DAGGER
from keyseats.setting_up.system import System

Said = tuple[str, str]

PRACTICE = "common practice, no source"
CENTRING = "US Army TC 9-524, ch. 8, for half the shaft plus half the cutter"


def steps(system: System, travels: str = "sheet 2") -> list[Said]:
    """Return the order of the work, each step with its lead words.

    Parameters
    ----------
    system
        The system of units.
    travels
        Where the centring travels stand.
    """
    return [
        ("Drawing and hub.", "They come first. A hub that is cut already decides the key."),
        (
            "Measure.",
            "Shaft, key, cutter, and the paper or feeler. The nominal shaft picks the key, the "
            "measured shaft sets the depths. Write it all down.",
        ),
        (
            "Stop if",
            "the cutter's width is outside the seat's limits, a half-moon cutter is smaller than "
            "its key, its neck is over the largest, or the holder would meet the shaft.",
        ),
        (
            "Align.",
            "Shaft parallel with the slide that runs along it; clamps out of the cutter's way. "
            "The cutter turns the way its teeth cut.",
        ),
        (
            f"Centre ({travels}).",
            "Touch the shaft's side, clear the shaft, go on the same way by the centring travel. "
            "Lock that slide.",
        ),
        (
            "Place along.",
            "From a touch on the end face, half the cutter's diameter and the paper count. "
            "Half-moon: lock. Plain: write down where full depth ends.",
        ),
        (
            "Witness cut.",
            "A bare mark on the crown. Uneven about its middle? Move half the difference, mark "
            "again.",
        ),
        (
            "Touch the crown.",
            "Spindle stopped, feeler lying along over the mark. Touch reading + feeler = crown; "
            "depths count from there.",
        ),
        (
            "Cut.",
            f"About {system.deepest} a pass on a light lathe attachment, less with a thin neck. "
            "Feed against the cutter. Lock every slide that is not fed.",
        ),
        (
            "Stop short, measure.",
            "Spindle stopped. Floor to opposite side says how much is left to feed.",
        ),
        (
            "Finish.",
            "Feed what is left and measure again. In a half-moon seat measure at mid length, with "
            "a ball anvil.",
        ),
        (
            "Deburr, then key.",
            "Measure over key, from the opposite side to the top of the seated key. Deburring "
            "moves the edge, but not this.",
        ),
        ("Hub.", "Floor to opposite side. Try it on by hand before it is driven on."),
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
    sources = {
        1: f"Centring: {CENTRING}. Order of the work and deepest pass: {PRACTICE}.",
        2: f"{CENTRING}. Which shafts and cutters: our choice.",
        3: "Geometry; height of arc in US Navy, Machinery Repairman, ch. 7. Which shafts and "
        "widths: our choice.",
        4: f"Dial: arithmetic, {PRACTICE}. Cutting direction and cautions: US Army shop rules, a "
        "state's machine rules, and common practice.",
        5: f"{seats}. The errors are worked out from them; what to do is {PRACTICE}.",
    }[sheet]
    columns = [("CAUTION", f"{caution} {FIRST}"), ("Sources.", sources)]
    if recalled:
        columns.insert(1, (DAGGER, RECALLED))
    return columns
