"""Page codes: every slip of one character, and every exchange of two, is found."""

from __future__ import annotations

import string

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keyseats.corrections.code import ALPHABET, LENGTH, check_character, code_for, read_code
from keyseats.faults import TypedError

payloads = st.text(ALPHABET, min_size=LENGTH - 1, max_size=LENGTH - 1)


def whole(payload: str) -> str:
    return payload + check_character(payload)


def reads(text: str) -> bool:
    try:
        read_code(text)
    except TypedError:
        return False
    return True


def test_no_two_characters_are_taken_for_one_another() -> None:
    """Pairs that legibility studies and postal practice name; from memory."""
    for one, other in ("0O", "0Q", "0D", "1I", "1L", "IL", "2Z", "5S", "8B", "6G", "OQ"):
        assert not {one, other} <= set(ALPHABET), (one, other)
    assert len(set(ALPHABET)) == len(ALPHABET) == 23
    assert not [n for n in range(2, 23) if 23 % n == 0]


def test_the_weights_differ_and_none_is_nothing() -> None:
    """What finds every single slip and every exchange over a prime: ISO 7064, pure systems.

    A slip of d in a place of weight w leaves d x w; an exchange of two characters that differ by
    d leaves d x (w1 - w2). Neither is a multiple of a prime if the weights are distinct and not
    zero, so the proof holds for every code there is, not only for those tried below.
    """
    base = check_index("3" * (LENGTH - 1))
    weights = []
    for place in range(LENGTH - 1):
        payload = "3" * place + ALPHABET[1] + "3" * (LENGTH - 2 - place)
        weights.append((base - check_index(payload)) % 23)
    weights.append(1)
    assert 0 not in weights
    assert len(set(weights)) == LENGTH


def check_index(payload: str) -> int:
    return ALPHABET.index(check_character(payload))


@given(payloads)
def test_every_wrong_character_is_found(payload: str) -> None:
    code = whole(payload)
    assert reads(code)
    for place in range(LENGTH):
        for character in string.digits + string.ascii_uppercase:
            if character != code[place]:
                assert not reads(code[:place] + character + code[place + 1 :])


@given(payloads)
def test_every_exchange_of_two_is_found(payload: str) -> None:
    code = whole(payload)
    for first in range(LENGTH):
        for second in range(first + 1, LENGTH):
            if code[first] != code[second]:
                swapped = list(code)
                swapped[first], swapped[second] = swapped[second], swapped[first]
                assert not reads("".join(swapped))


@given(payloads, st.lists(st.integers(0, LENGTH), max_size=4), st.sampled_from(" -–_\t"))
def test_case_hyphens_and_spaces_are_read_right(payload: str, at: list[int], gap: str) -> None:
    code = whole(payload)
    typed = code.lower()
    for place in sorted(at, reverse=True):
        typed = typed[:place] + gap + typed[place:]
    assert read_code(typed) == f"{code[:4]}-{code[4:]}" == read_code(f" {code} ")


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("", "has 0"),
        ("K7MP-3XW", "has 7"),
        ("K7MP-3XW33", "has 9"),
        ("K0MP-3XW3", "no page code has '0'"),
        ("KÖMP-3XW3", "no page code has 'Ö'"),
        ("K7MP-3XWH", "check character"),
    ],
)
def test_a_mistyped_code_says_what_is_wrong(typed: str, says: str) -> None:
    with pytest.raises(TypedError, match=says) as raised:
        read_code(typed)
    assert raised.value.exit_code == 2
    assert "\n" not in str(raised.value)


@given(
    st.text(max_size=20),
    st.dictionaries(st.text(min_size=1, max_size=8), st.text(max_size=6), max_size=6),
)
def test_a_code_depends_on_what_and_on_each_cell(what: str, cells: dict[str, str]) -> None:
    code = code_for(what, cells.items())
    assert read_code(code) == code
    assert code_for(what, reversed(list(cells.items()))) == code
    assert code_for(what + "x", cells.items()) != code
    for name, text in cells.items():
        assert code_for(what, {**cells, name: text + "1"}.items()) != code
        assert code_for(what, {**cells, name + "1": text}.items()) != code
