"""Each sheet on each paper against its reference picture, with a tolerance.

What differs is kept in ``tests/pictures/differences/``: reference, now, and what is apart.
"""

from __future__ import annotations

import io

import pikepdf
import pytest
from PIL import Image

from keyseats.build import file_name
from keyseats.sheets import find
from pdf.planting import draw, planted, printed
from pictures.rendering import (
    DIFFERENCES,
    REFERENCE,
    apart,
    opened,
    rendered,
    side_by_side,
    stored,
)

QUICK = ("key-gauge-metric", "wall-metric-half-moon")
CASES = [
    pytest.param(
        sheet.name,
        paper,
        id=f"{sheet.name}-{paper}",
        marks=[] if sheet.name in QUICK else [pytest.mark.slow],
    )
    for sheet in find()
    for paper in sheet.papers
]


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_a_sheet_looks_as_it_did(name: str, paper: str) -> None:
    picture = file_name(name, paper).removesuffix(".pdf")
    reference, kept = REFERENCE / f"{picture}.png", DIFFERENCES / f"{picture}.png"
    now = rendered(printed(name, paper))
    renew = f"look at the page, then run: python tests/pictures/renew.py {picture}"
    if not reference.is_file():
        pytest.fail(f"no reference picture of {picture}; {renew}")
    before = opened(reference)
    found = apart(before, now)
    kept.unlink(missing_ok=True)
    if found.seen:
        DIFFERENCES.mkdir(exist_ok=True)
        side_by_side(before, now).save(kept)
        pytest.fail(f"{picture} looks otherwise ({found}): see {kept.name}; {renew}")


def test_there_is_no_picture_of_a_sheet_that_is_gone() -> None:
    known = {file_name(s.name, p).removesuffix(".pdf") for s in find() for p in s.papers}
    assert {path.stem for path in REFERENCE.glob("*.png")} <= known


def test_the_pictures_are_small() -> None:
    assert sum(path.stat().st_size for path in REFERENCE.glob("*.png")) < 1_700_000


@pytest.fixture(scope="module")
def page() -> bytes:
    return printed("key-gauge-metric", "Letter")


def stored_and_back(image: Image.Image) -> Image.Image:
    with Image.open(io.BytesIO(stored(image))) as found:
        return found.convert("L")


def test_storing_a_picture_makes_no_difference(page: bytes) -> None:
    assert not apart(rendered(page), stored_and_back(rendered(page))).seen


@pytest.mark.parametrize(
    "code",
    ["1 g 40 700 200 40 re f", "0 g 300 400 14 14 re f", "2 w 60 300 m 500 300 l S"],
    ids=["title gone", "blot", "rule"],
)
def test_what_a_person_would_see_is_seen(page: bytes, code: str) -> None:
    other = planted(page, lambda pdf: draw(pdf, code))
    assert apart(stored_and_back(rendered(page)), rendered(other)).seen


def test_a_page_moved_by_a_hair_is_the_same_picture(page: bytes) -> None:
    """A tenth of a point smooths every edge in another way, as another renderer does."""

    def plant(pdf: pikepdf.Pdf) -> None:
        stream = pdf.pages[0].obj.Contents
        code = b"1 0 0 1 0.1 0.1 cm " + stream.read_bytes()
        pdf.pages[0].obj.Contents = pdf.make_stream(code)

    other = rendered(planted(page, plant))
    assert other.tobytes() != rendered(page).tobytes()
    assert not apart(stored_and_back(rendered(page)), other).seen


def test_another_size_is_another_picture(page: bytes) -> None:
    now = rendered(page)
    other = now.crop((0, 0, now.width - 1, now.height))
    assert apart(now, other).seen
    shown = side_by_side(now, other)
    assert shown.size == (3 * now.width + 20, now.height)
