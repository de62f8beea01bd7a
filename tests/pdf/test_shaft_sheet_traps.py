"""What a machinist could make scrap by on a shaft sheet: dials, papers, touches, keys that ride up.

Figures are worked by hand from the sizes in `pdf.shaft_sheets`; the rest is geometry and, for the
dials, common practice.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from keyseats.frame import FLOOR, PRINTER
from keyseats.load import Tables
from keyseats.lookup import seats_for
from keyseats.page import Block, Text
from keyseats.paths import tables_dir
from keyseats.seat import Work
from keyseats.set_up import set_up_for
from keyseats.shaft_sheet import sheet
from keyseats.shop import Shop
from keyseats.typeface import minutes_at
from pdf.reading import ReadPage
from pdf.shaft_sheets import (
    BORROWED,
    COLLARED,
    FIXED,
    LATHE,
    ON,
    SAWN,
    F,
    back,
    done,
    page,
    shown,
    squeezed,
)

papers = pytest.mark.parametrize("paper", ON)


@cache
def made(work: Work, family: str, key: str, shop: Shop) -> ReadPage:
    tables = Tables(tables_dir())
    ready = set_up_for(tables, seats_for(tables, work, (family,), key)[0], shop)
    return back(sheet(tables, "Letter", ready, "this"), "Letter")


def text_of(work: Work, family: str, key: str, shop: Shop) -> str:
    return squeezed(made(work, family, key, shop).characters)


def step(text: str, start: str, end: str) -> str:
    return text[text.index(squeezed(start)) : text.index(squeezed(end))]


@papers
def test_the_whole_travel_along_is_turned_into_turns_and_divisions(paper: str) -> None:
    """By hand: 0.988/2 + 0.003 is 0.4970; the cross slide moves 0.0625 a turn, 0.0625/125 a div."""
    along = step(shown("lathe", paper), "Place along.", "Witness cut.")
    order = (
        "0.4970+endtomidseat(in)=wholetravel(in)÷0.0625=wholeturnsandrest(in)÷0.0005=div",
        "zeroitsdialatthetouch",
        "dialreadsdiameter:divisionsherealreadydoubled",
        "0.4970aloneis7turns+119div",
        "backoffthatless0.4970,dialledlikewise",
    )
    for words in order:
        assert words in along
    # The touch is no reading to add to: the dial is zeroed there.
    assert "touch+" not in along
    assert "touchreading" not in along


@papers
def test_a_metric_dial_takes_the_inches_of_the_sheet_in_millimetres(paper: str) -> None:
    along = step(shown("metric dial", paper), "Place along.", "Witness cut.")
    assert "wholetravel(in)×25.4=mm÷2=wholeturnsandrest(mm)÷0.025=div" in along
    assert "+dialattouch,div=stophere:turns,div" in along
    assert "cannotbezeroed:noteitatthetouch;80divoroverisaturnmore" in along


@papers
def test_a_disc_of_unknown_diameter_counts_the_paper_too(paper: str) -> None:
    """Paper 0.0025: geometry, as with a known disc."""
    along = step(shown("metric dial", paper), "Place along.", "Witness cut.")
    assert "0.0025+halfcutterdiameter(in)+toendoffulldepth(in)=" in along


def test_a_slide_that_is_not_known_may_read_diameter() -> None:
    for name in ("printed half-moon", "printed plain"):
        text = shown(name)
        assert "Onadiameter-readingdialaddtwiceasmuchtothetouch" in text
        assert "yourdial;diameter-readingshowstwice" in text


def test_a_disc_s_stand_off_is_told_where_the_holder_is_known() -> None:
    """(7/8 - 3/16)/2 for any holder while the disc's diameter is not known: geometry."""
    assert "theholderstandsnearerthan0.3438tothecutter'sface" in shown("metric dial")
    text = text_of(Work("in", F(7, 8)), "inch plain", "3/16 x 3/16", LATHE)
    assert "theholderstands" not in text


@papers
def test_no_zero_is_asked_of_a_dial_that_cannot_be_zeroed(paper: str) -> None:
    for name in ("fixed dial", "eighty cuts", "many on a fixed dial", "mill"):
        touch = step(shown(name, paper), "Touch the crown.", "FEED FROM")
        assert "zero" not in touch.lower(), name
        assert "notethereadingatthefirstfull-widthcut" in touch or name == "mill"
        assert "Addeachtothereadingatthetouch." in shown(name, paper)
    zeroed = step(shown("lathe", paper), "Touch the crown.", "FEED FROM")
    assert "Zerothedialhere" in zeroed
    assert "Orzeroatthefirstfull-widthcut" in zeroed
    assert "Addeach" not in shown("lathe", paper)


@papers
def test_eighteen_passes_on_a_fixed_dial_have_a_box_each(paper: str) -> None:
    one, cuts = page("many on a fixed dial", paper), done("many on a fixed dial").feed.plan.cuts
    assert len(cuts) >= 19
    text = shown("many on a fixed dial", paper)
    assert "cuts,noneover" not in text
    narrow = [b for b in boxes(one.blocks) if 20 < b[0] < 45 and b[1] < 13]
    assert len(narrow) == len(cuts) - 1


def boxes(blocks: tuple[Block, ...]) -> list[tuple[float, float]]:
    """Return width and height of each empty box. [pt]"""
    found = []
    for block in blocks:
        for item in block.items if block.role == "Artifact" else ():
            path = getattr(item, "path", ())
            if len(path) == 5:
                xs, ys = ([float(p[n]) for p in path[:-1]] for n in (1, 2))
                found.append((max(xs) - min(xs), max(ys) - min(ys)))
    return found


@papers
@pytest.mark.parametrize("name", ["many on a fixed dial", "eighty cuts", "widest", "lathe", "mill"])
def test_what_is_set_to_is_never_in_the_words_size(name: str, paper: str) -> None:
    """16 arc-minutes at 0.5 m after the printer's shrink; ISO 9241-3 gives 16 as the least."""
    ready, one = done(name), page(name, paper)
    full = ready.feed.from_full_width
    wanted = [
        ready.centre.travel,
        ready.along.add_from_end,
        *(
            [full.least, full.most]
            if ready.seat.cut_width.value == ready.seat.cutter_width.value
            else []
        ),
    ]
    if ready.seat.cutter_kind == "end mill":
        wanted = [ready.centre.travel, ready.finder.travel if ready.finder else None]
    sizes: dict[str, float] = {}
    for text in texts(one.blocks):
        for word in text.text.replace("†", "").replace(",", "").split():
            sizes[word] = max(sizes.get(word, 0.0), text.size)
    for quantity in wanted:
        assert quantity is not None
        assert minutes_at(sizes[quantity.text] * PRINTER, 0.5) >= FLOOR - 0.02, quantity.text
    if ready.along.dial is not None and ready.seat.cutter_kind != "end mill":
        said = [t for t in texts(one.blocks) if "turn" in t.text and "+" in t.text]
        assert said
        for text in said:
            assert (
                minutes_at(text.size * PRINTER, 0.5) >= FLOOR - 0.02 or text.text == "turns + div"
            )


def texts(blocks: tuple[Block, ...]) -> list[Text]:
    return [text for block in blocks for text in block.texts()]


def test_a_face_touch_that_falls_short_shows_the_higher_one() -> None:
    """Rim reach (2.5 - 1.3)/2 less 0.005: 0.155 over centre; sqrt(0.75^2 - 0.155^2) is 0.73381."""
    ready, text = done("high touch"), shown("high touch")
    # + 0.375/2 + 0.0025, and the depth by hand: 0.73381 + 0.1875 + 0.0025.
    assert ready.centre.travel is not None
    assert ready.centre.travel.text == "0.9238"
    assert "Freefacetoshaft,rim0.1550abovethecentreline,nolower" in text
    assert "pastitswidestpoint" not in text
    # 0.75 + 0.1875 + 0.0025 cannot be made.
    assert "0.9400" not in text
    assert ready.blocks is not None
    assert ready.blocks.aimed.text in ("0.924", "0.9238")
    for warning in ready.seat.warnings:
        if warning.code == "face-touch-short":
            assert "0.1550" in warning.says
            assert "0.9238" in warning.says
            break
    else:
        pytest.fail("no caution about the face touch")


def test_where_no_face_touch_can_be_made_no_travel_is_shown() -> None:
    work = replace(COLLARED, collar=F("2.495"))
    tables = Tables(tables_dir())
    ready = set_up_for(tables, seats_for(tables, work, ("inch plain",), "3/8 x 3/8")[0], FIXED)
    assert ready.centre.travel is None
    assert ready.blocks is None
    text = text_of(work, "inch plain", "3/8 x 3/8", FIXED)
    assert "byindicator:nofacetouchcanbemade" in text
    assert "0.9400" not in text
    assert "Clear,goonthesameway" not in text


def test_a_collar_that_reaches_leaves_the_touch_at_the_widest_point() -> None:
    ready = set_up_for(
        Tables(tables_dir()),
        seats_for(Tables(tables_dir()), replace(SAWN, collar=F("1.2")), ("inch plain",))[0],
        LATHE,
    )
    assert ready.centre.above is None
    # 1/2 + 0.2505/2 + 0.003.
    assert ready.centre.travel is not None
    assert ready.centre.travel.value == F("0.62825")


@papers
def test_over_key_says_that_its_limits_are_for_a_key_on_the_floor(paper: str) -> None:
    """A cutter ground under the key lifts the key: geometry."""
    lift = done("lathe").seat.lift
    assert lift is not None
    over = step(shown("lathe", paper), "OVER THIS KEY", "Hub,")
    assert f"forakeyonthefloor:thisseatliftsit{lift.text}" in over
    assert "onthefloor" not in step(shown("coarse dial", paper), "OVER THIS KEY", "Hub,")


def test_only_a_cutter_with_a_neck_is_told_of_one() -> None:
    assert "athinneck" in shown("lathe")
    for name in ("mill", "disc", "printed plain"):
        assert "neck" not in step(shown(name), "Align.", "CENTRE")
    assert "alightmachinewantsthelowend" in shown("mill")


def test_one_corner_radius_is_not_rounded_into_two() -> None:
    """1/32 in is 0.03125: ASME B17.1 in open reproductions; inward it would be 0.0313 to 0.0312."""
    assert "0.0312" not in shown("high touch")


def test_the_shop_of_a_borrowed_slide_has_a_dial_in_its_own_unit() -> None:
    """0.300 in is 7.62 mm: 3 turns of 2 mm and 64.8 of the 80 divisions of 0.025 mm."""
    work = Work("in", F(7, 8), cutter_width=F("0.188"), cutter_diameter=F("0.6"))
    text = text_of(work, "inch plain", "3/16 x 3/16", BORROWED)
    assert "0.3000aloneis3turns+64.8div" in text


@papers
def test_floor_agrees_with_the_depths_to_the_last_place(paper: str) -> None:
    """7/8 - 3/32 - arc 0.010162 is 0.77109, and 0.015 deeper 0.75609: ASME B17.1, geometry."""
    text = shown("printed plain", paper)
    floor = step(text, "Stop short,", "Finish.")
    assert "0.7561to0.7710" in floor
    assert "−0.7710=lefttofeed" in floor
    assert "H+0.7561=leastH+0.7710=" in step(text, "OVER KEY", "Hub,")
    assert "Itprintsfloortooppositeside,S,tothreeplaces" in text
    assert "threeplaces" not in shown("printed metric", paper)


def test_the_ramp_is_told_to_the_deepest_floor() -> None:
    """Half chords of a 2.98 disc 0.14094 and 0.15594 from its rim, the longer rounded up."""
    assert "theramp,0.6326to0.6637,runson" in shown("disc")


def test_off_centre_is_nothing_to_aim_at() -> None:
    """0.010 in, ASME B17.1; 0.25 mm of it is much on a small shaft."""
    for start, end in (("Witness cut.", "Touch the crown."), ("Hub,", "Sources.")):
        metric = step(shown("printed metric"), start, end)
        assert "aimatnone,0.25atmost" in metric
        assert "aimatnone,0.010atmost" in step(shown("printed plain"), start, end)
    # Whose limit that is in millimetres stands once on the page.
    assert shown("printed metric").count("(ASMEB17.1,0.010in)") == 1


def test_a_corner_is_the_cutter_s_and_the_key_s_is_eased() -> None:
    text = shown("printed metric")
    assert "cuttercornerradius" in text
    assert "itscornerradius" in step(text, "Stop if", "Align.")
    assert "Easethekey'scornerstoclearthefloor's." in step(text, "Finish.", "OVER")
    # No radius is printed for this key.
    assert "corner" not in shown("printed plain")


def test_a_cutter_without_a_most_is_this_or_over() -> None:
    """The metric family has no most (ISO 3912, open reproductions); the inch cutters have one."""
    assert "orover" in step(shown("printed metric half-moon"), "Measure,", "Stop if")
    assert "orover" not in step(shown("printed half-moon"), "Measure,", "Stop if")
    along = step(shown("printed half-moon"), "Place along.", "Witness cut.")
    assert "Axisatorbelowthecrown,sothatthefulldiametertouchestheend." in along


def test_a_dial_that_counts_down_is_thought_of_once() -> None:
    for name in ("printed plain", "printed half-moon", "fixed dial", "mill"):
        assert shown(name).count("addwherereadingsrise,elsetakeaway") == 1, name


def test_an_end_mill_is_told_of_where_no_cutter_is_known() -> None:
    """(D + w)/2 from the face as from the rim: geometry."""
    words = "Endmill:rimtouch,acrossthespindle,sametravel."
    assert words in shown("printed plain")
    for name in ("disc", "mill", "printed half-moon", "metric dial"):
        assert words not in shown(name), name


def test_no_figure_is_cut_to_before_a_stop_is_mended() -> None:
    """A cutter ground under the key stops the work; one ground over it does not."""
    not_yet = squeezed("Do not cut yet: mend step 3.")
    text = shown("lathe")
    for name in ("CENTRE", "FEEDFROMTHETOUCH", "OVERTHISKEY"):
        assert name + not_yet in text
    assert not_yet not in shown("coarse dial")


def test_sizes_are_named_as_they_are_read_aloud() -> None:
    tables = Tables(tables_dir())
    seat = seats_for(tables, Work("mm", F(8)), ("metric plain",))[0]
    text = squeezed(back(sheet(tables, "A4", set_up_for(tables, seat), "8 mm"), "A4").characters)
    assert "keyinan8mmshaft" in text
    assert "inan8.00bore" in text


def test_no_maker_stands_in_the_sources() -> None:
    for name in ("printed plain", "printed metric", "lathe", "mill"):
        sources = shown(name).partition("Sources.")[2]
        assert "opencoursesheetandmillmaker'smanual" in sources
        assert "rizzly" not in sources
