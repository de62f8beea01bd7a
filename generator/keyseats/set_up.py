"""One seat on one machine: what each slide is set to, the cuts, the blocks, the speed."""

from __future__ import annotations

from fractions import Fraction

from keyseats import clearance, geometry
from keyseats.alignment import alignment
from keyseats.block_sets import block_set
from keyseats.blocks import Stack, places_in_full, stack
from keyseats.faults import TypedError
from keyseats.frozen import frozen
from keyseats.higher_touch import face_touch_short, higher_touch
from keyseats.lengths import converted, decimal
from keyseats.load import Tables
from keyseats.machining import DEEPEST_PASS, Dial, Plan, plan
from keyseats.seat import SETTING_PLACES, Seat
from keyseats.shop import USUAL, USUAL_SLIDE, Shop, jobs
from keyseats.slides import (
    DialReading,
    Slide,
    dial_reading,
    limits_on_dial,
    ways,
)
from keyseats.speeds import Speed, speed_for
from keyseats.standing import Limits, Quantity, derive, typed

# The most decimals of a reading that the cuts go down to.
READING_PLACES = {"in": 4, "mm": 3}


@frozen
class Move:
    """One setting of one slide, from a touch to where it is locked.

    ``dial`` is None where the slide has no dial or is not known; ``instead`` then names what sets
    it. ``above`` is how far the rim stands above the shaft's centre line at the touch, where the
    collar lets it come no lower; ``travel`` is None where no touch can be made at all. [length]
    """

    direction: str
    slide: Slide | None
    travel: Quantity | None
    dial: DialReading | None
    instead: tuple[str, ...]
    above: Quantity | None = None


@frozen
class Feed:
    """The way down from the touch on the crown, paper included, to the floor.

    ``dials`` has one reading for each cut of the plan, None without a dial; ``ends`` are the
    limits in whole divisions, None where no division lies inside. ``from_full_width`` counts from
    where the cutter first cuts its full width. [length]
    """

    direction: str
    slide: Slide
    usual: bool
    limits: Limits
    from_full_width: Limits
    plan: Plan
    deepest: Quantity
    dials: tuple[DialReading | None, ...]
    ends: tuple[DialReading, DialReading] | None


@frozen
class Along:
    """Where the seat stands along the shaft, counted from the touch of the cutter's rim.

    ``add_from_end`` is added to the distance from an end face to the middle of the seat (half-moon)
    or to the end of full depth (plain, disc); ``take_from_shoulder`` is what a touch on a shoulder
    takes off. ``least_from_shoulder`` is how near the cutter's axis can come to a shoulder. None
    where the cutter's diameter is not known. ``dial`` is what ``add_from_end`` alone turns the dial
    by; ``to_dial`` says how any travel is turned into turns and divisions. [length]
    """

    direction: str
    slide: Slide | None
    add_from_end: Quantity | None
    take_from_shoulder: Quantity | None
    least_from_shoulder: Quantity | None
    dial: DialReading | None
    to_dial: str = ""


@frozen
class SetUp:
    """Everything between the drawing and a key that fits, for one seat in one shop."""

    seat: Seat
    shop: Shop
    centre: Move
    finder: Move | None
    feed: Feed
    along: Along
    blocks: Stack | None
    speed: Speed | None
    offset: Quantity
    skew: Quantity


def set_up_for(tables: Tables, seat: Seat, shop: Shop = USUAL) -> SetUp:
    """Return how one seat is set up in one shop.

    Parameters
    ----------
    tables
        Where blocks, speeds and alignment limits are read.
    seat
        The seat's figures, with the work that they were computed for.
    shop
        The machine and what is owned; usual values if no shop file was given.

    Raises
    ------
    TypedError
        If the shop's block set or material is not in the tables.
    """
    work = seat.work
    job = jobs(shop, seat.cutter_kind)
    touch = seat.centring.face_touch or seat.centring.rim_touch
    if touch is None:
        raise ValueError(f"{seat.key.designation} has no touch to be centred from")
    above = None
    if face_touch_short(seat):
        higher = higher_touch(seat)
        touch, above = (higher.travel, higher.above) if higher else (None, None)
    finder = None
    if seat.centring.edge_finder is not None:
        finder = _move(job.centre_direction, job.centre, seat.centring.edge_finder)
    blocks = None
    if shop.block_set and touch is not None:
        blocks = _blocks(tables, shop.block_set, touch)
    speed = None
    turning = seat.cutter_width if seat.cutter_kind == "end mill" else seat.cutter_diameter
    if turning is not None:
        speed = speed_for(tables, shop.material, turning)
    offset, skew = alignment(tables, work.unit, seat.opening_at_crown)
    return SetUp(
        seat=seat,
        shop=shop,
        centre=_move(job.centre_direction, job.centre, touch, above),
        finder=finder,
        feed=_feed(seat, shop, job.depth_direction, job.depth),
        along=_along(seat, job.along_direction, job.along),
        blocks=blocks,
        speed=speed,
        offset=offset,
        skew=skew,
    )


def _move(
    direction: str, slide: Slide | None, travel: Quantity | None, above: Quantity | None = None
) -> Move:
    if slide is None or travel is None:
        return Move(direction, slide, travel, None, (), above)
    dial = dial_reading(slide, travel.value, travel.unit)
    return Move(direction, slide, travel, dial, ways(slide), above)


def reading_text(reading: Fraction, unit: str) -> str:
    """Return a cut's reading with the decimals that it needs, where a mark lies between sizes."""
    places = places_in_full(reading, SETTING_PLACES[unit])
    return decimal(reading, min(places, READING_PLACES[unit]))


def turned_by(slide: Slide) -> tuple[str, str] | None:
    """Return what a slide moves in one turn and in one division, in its own unit; None undialled.

    Each is written in full, or to six decimals where it has no end. [length]
    """
    if slide.turn is None or slide.divisions is None:
        return None
    one = slide.turn / slide.divisions
    turn = decimal(slide.turn, places_in_full(slide.turn))
    return turn, decimal(one, places_in_full(one))


def to_dial(slide: Slide | None, unit: str) -> str:
    """Return how any travel of a slide is turned into turns and divisions; nothing undialled.

    Parameters
    ----------
    slide
        The slide, None where it is not known.
    unit
        ``in`` or ``mm``, of the travel.
    """
    one = None if slide is None else turned_by(slide)
    if slide is None or one is None:
        return ""
    travel = "whole travel"
    if slide.unit != unit:
        travel += " × 25.4 (mm)" if slide.unit == "mm" else " ÷ 25.4 (in)"
    text = f"{travel} ÷ {one[0]} = whole turns; rest ÷ {one[1]} = div"
    if slide.reads == "diameter":
        text += "; travel is what the slide moves, not the diameter that its marks name"
    return text


def _blocks(tables: Tables, name: str, travel: Quantity) -> Stack | None:
    """Return the blocks of a travel; None where it is under or over all that the set can make."""
    box = block_set(tables, name)
    try:
        return stack(box, travel.value, travel.unit)
    except TypedError:
        return None


def _feed(seat: Seat, shop: Shop, direction: str, slide: Slide | None) -> Feed:
    unit = seat.work.unit
    paper = typed(seat.work.paper, unit)
    from_touch = seat.depth_from_crown.shifted(paper).printed(SETTING_PLACES[unit])
    deepest = DEEPEST_PASS[unit]
    if shop.deepest_pass is not None:
        deepest = converted(shop.deepest_pass.value, shop.deepest_pass.unit, unit)
    usual = slide is None
    slide = slide or USUAL_SLIDE[unit]
    least, most = from_touch.least.value, from_touch.most.value
    cuts = plan(least, most, deepest, _dial(slide, unit))
    return Feed(
        direction=direction,
        slide=slide,
        usual=usual,
        limits=from_touch,
        from_full_width=_from_full_width(seat),
        plan=cuts,
        deepest=typed(deepest, unit),
        dials=tuple(dial_reading(slide, cut.reading, unit) for cut in cuts.cuts),
        ends=limits_on_dial(slide, least, most, unit),
    )


def _from_full_width(seat: Seat) -> Limits:
    """Return the depth from where the cutter first cuts its own full width."""
    if seat.cutter_width.value == seat.cut_width.value:
        return seat.depth_at_edge
    shaft = typed(seat.work.shaft, seat.work.unit)
    arc = derive(
        geometry.arc_height(shaft.value, seat.cutter_width.value), shaft, seat.cutter_width
    )
    return seat.depth_from_crown.shifted(arc, -1).printed(SETTING_PLACES[seat.work.unit])


def _dial(slide: Slide, unit: str) -> Dial | None:
    if slide.turn is None or slide.divisions is None:
        return None
    return Dial(converted(slide.turn, slide.unit, unit), slide.divisions)


def _along(seat: Seat, direction: str, slide: Slide | None) -> Along:
    unit, diameter = seat.work.unit, seat.cutter_diameter
    if seat.cutter_kind == "end mill":
        diameter = seat.cutter_width
    if diameter is None:
        return Along(direction, slide, None, None, None, None, to_dial(slide, unit))
    places = SETTING_PLACES[unit]
    half = derive(diameter.value / 2, diameter)
    least = half
    if seat.cutter_kind != "end mill":
        holder = seat.work.holder_radius
        least = derive(clearance.least_from_shoulder(diameter.value, holder), diameter)
    with_paper = derive(half.value + seat.work.paper, half, typed(seat.work.paper, unit))
    dial = None if slide is None else dial_reading(slide, with_paper.value, unit)
    return Along(
        direction,
        slide,
        with_paper.printed(places),
        with_paper.printed(places),
        least.printed(places, "up"),
        dial,
        to_dial(slide, unit),
    )
