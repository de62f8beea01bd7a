"""Words broken into lines: none lost, none past the room, none left alone that need not be."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from keyseats.setting import paragraph
from keyseats.typeface import KEPT, eased, fitted, unbroken, width

SIZE = 8.0
WORDS = st.lists(
    st.sampled_from(["a", "seat", "shaft", "depth", "from", "crown", "0.3393", "ISO", "=", "ch."]),
    min_size=1,
    max_size=40,
)
ROOMS = st.floats(60, 300)


@given(WORDS, ROOMS)
def test_every_word_stands_once_and_in_order(found: list[str], room: float) -> None:
    text = " ".join(found)
    lines = eased(fitted(text, SIZE, room), SIZE, room)
    assert " ".join(lines) == text


@given(WORDS, ROOMS)
def test_no_line_is_wider_than_the_room(found: list[str], room: float) -> None:
    for line in eased(fitted(" ".join(found), SIZE, room), SIZE, room):
        assert width(line, SIZE) <= room or len(unbroken(line)) == 1


@given(WORDS, ROOMS)
def test_easing_takes_no_line_more(found: list[str], room: float) -> None:
    lines = fitted(" ".join(found), SIZE, room)
    assert len(eased(lines, SIZE, room)) == len(lines)


@given(WORDS, ROOMS)
def test_a_last_word_stands_alone_only_under_a_line_that_has_none_to_spare(
    found: list[str], room: float
) -> None:
    lines = eased(fitted(" ".join(found), SIZE, room), SIZE, room)
    if len(lines) < 2 or len(unbroken(lines[-1])) > 1:
        return
    over = unbroken(lines[-2])
    moved = f"{over[-1]} {lines[-1]}"
    assert len(over) <= 2 or width(moved, SIZE) > width(" ".join(over[:-1]), SIZE)


@given(WORDS, ROOMS)
def test_what_is_kept_together_is_never_at_a_line_s_end(found: list[str], room: float) -> None:
    lines = eased(fitted(" ".join(found), SIZE, room), SIZE, room)
    for line in lines[:-1]:
        assert line.split(" ")[-1] not in KEPT


def test_a_standard_keeps_its_number_and_a_sum_its_sign() -> None:
    assert unbroken("see JIS B 1301 (ISO 3912) a + b") == [
        "see",
        "JIS B 1301",
        "(ISO 3912)",
        "a",
        "+ b",
    ]


def test_a_paragraph_ends_on_more_than_one_word() -> None:
    text = "The drawing, local rules and a qualified engineer come first where it can hurt someone."
    alone = [r for r in range(80, 400) if fitted(text, SIZE, r)[-1] == "someone."]
    assert alone
    for room in alone:
        block, _ = paragraph(0, 0, text, SIZE, room)
        *_, over, last = [t.text for t in block.texts()]
        assert last == "hurt someone." or width(over, SIZE) < 2 * width(last, SIZE)
