"""The greys: kept apart, light enough under text, and never alone with a meaning."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice, pairwise

import pytest

from keyseats.load import Tables
from keyseats.page import Block, Mark, Shape, Text
from keyseats.palette import APART, BAND, BODY, GREYS, INK, PAPER, READABLE, contrast, luminance
from keyseats.sheets import Sheet, find


def test_luminance_and_contrast_are_those_of_the_guidelines() -> None:
    """WCAG 2.1: relative luminance 0 to 1, contrast 21:1 for black on white; #767676 is 4.54:1.

    The value for #767676 is from memory: it is known as the lightest grey that passes 4.5:1.
    """
    assert luminance(0) == 0
    assert luminance(1) == pytest.approx(1)
    assert contrast(0, 1) == pytest.approx(21)
    assert contrast(1, 0) == contrast(0, 1)
    assert contrast(0x76 / 255, 1) == pytest.approx(4.54, abs=0.005)
    assert contrast(0x77 / 255, 1) < 4.5


def test_greys_are_kept_apart_and_carry_text() -> None:
    assert list(GREYS) == sorted(GREYS)
    for dark, light in pairwise(GREYS):
        assert contrast(dark, light) >= APART
    for grey in GREYS[1:]:
        assert contrast(INK, grey) >= READABLE
        # No shade lays more than a tenth of the ink.
        assert grey >= 0.9


@pytest.mark.parametrize("sheet", find(), ids=lambda s: s.name)
def test_text_is_black_and_no_shade_stands_alone(sheet: Sheet, tables: Tables) -> None:
    for page in islice(sheet.pages(tables, sheet.papers[0]), 6):
        assert {text.grey for text in page.texts()} == {INK}
        for block, mark in filled(page.blocks):
            assert mark.fill in GREYS, (page.slug, mark.fill)
            if mark.fill == BAND:
                # A band is no part of what is read: without it nothing is lost.
                assert block.role == "Artifact"
            elif mark.fill == BODY:
                assert block.role == "Figure"
                assert block.alt
                assert mark.stroke is not None or outlined(block, mark), page.slug
            else:
                assert mark.fill in (INK, PAPER)


def filled(
    blocks: tuple[Block | Mark, ...], within: Block | None = None
) -> Iterator[tuple[Block, Shape]]:
    for item in blocks:
        if isinstance(item, Block):
            yield from filled(item.items, item)
        elif isinstance(item, Shape) and item.fill is not None:
            assert within is not None
            yield within, item


def outlined(block: Block, body: Shape) -> bool:
    """Return whether strokes of the same figure run through the corners of a filled shape."""
    corners = {piece[-2:] for piece in body.path if len(piece) > 2}
    drawn = {
        piece[-2:]
        for item in block.items
        if isinstance(item, Shape) and item.stroke is not None
        for piece in item.path
        if len(piece) > 2
    }
    return corners <= drawn


def test_text_takes_no_other_grey_by_itself() -> None:
    assert Text(0, 0, "x", 10).grey == INK
