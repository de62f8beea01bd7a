"""Key gauge: outlines of keys at true scale, one file a system."""

from __future__ import annotations

from collections.abc import Iterator

from keyseats.key_gauge import half_moon, plain
from keyseats.load import Tables
from keyseats.page import Page
from keyseats.sheets import Sheet

INCH_SHEETS, METRIC_SHEETS = 3, 2


def inch(tables: Tables, paper: str) -> Iterator[Page]:
    """Yield the inch pages: plain, then half-moon by circle."""
    yield from plain.pages(tables, paper, "in", 1, INCH_SHEETS)
    yield from half_moon.inch_pages(tables, paper, 2, INCH_SHEETS)


def metric(tables: Tables, paper: str) -> Iterator[Page]:
    """Yield the metric pages: plain, then half-moon."""
    yield from plain.pages(tables, paper, "mm", 1, METRIC_SHEETS)
    yield from half_moon.metric_pages(tables, paper, 2, METRIC_SHEETS)


SHEETS = (
    Sheet(
        "key-gauge-inch",
        "key gauge",
        "Key gauge, inch: outlines at true scale to lay a key on",
        ("Letter", "A4"),
        inch,
        order=60,
    ),
    Sheet(
        "key-gauge-metric",
        "key gauge",
        "Key gauge, metric: outlines at true scale to lay a key on",
        ("A4", "Letter"),
        metric,
        order=61,
    ),
)
