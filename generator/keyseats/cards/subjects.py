"""The four cards that list a family's first choice by shaft."""

from __future__ import annotations

from keyseats.cards.by_shaft import Subject

# The usual shafts of a light lathe: our choice, no source.
INCH = (
    "3/8 1/2 5/8 3/4 7/8 1",
    "1-1/8 1-1/4 1-3/8 1-1/2 1-3/4 2",
    "3/8 7/16 1/2 9/16 5/8 3/4 7/8",
    "1 1-1/8 1-1/4 1-3/8 1-1/2 1-3/4 2",
)
METRIC = (
    "8 10 12 14 16 20",
    "25 30 35 40 45 50",
    "8 10 12 14 15 16 20",
    "22 25 28 30 35 40 50",
)
METRIC_HALF_MOON = (
    "10 12 14 16 18 20",
    "22 25 28 30 35 38",
    "10 11 12 14 16 18 20",
    "22 25 28 30 32 35 38",
)

SUBJECTS = (
    Subject(
        1,
        "inch plain",
        "Plain key and depth",
        "ASME B17.1, class 1, square plain (parallel) keys, inches.",
        INCH,
        "5/8",
    ),
    Subject(
        2,
        "inch half-moon",
        "Half-moon key and depth",
        "ASME B17.2, Woodruff keys, inches. Key by shaft: common practice.",
        INCH,
        "5/8",
    ),
    Subject(
        3,
        "metric plain",
        "Plain key and depth",
        "ISO/R 773, plain (parallel) keys, normal fit, mm.",
        METRIC,
        "16",
    ),
    Subject(
        4,
        "metric half-moon",
        "Half-moon key and depth",
        "ISO 3912 family, half-moon (Woodruff) keys, series 1, normal fit, mm.",
        METRIC_HALF_MOON,
        "16",
        hub=False,
    ),
)
