"""``keyseats list``: what can be printed, and which keys, standards and fits there are."""

from __future__ import annotations

import argparse

from keyseats.lookup import FAMILIES, module
from keyseats.sheets import find


def run(words: argparse.Namespace) -> int:
    """Answer ``keyseats list``."""
    print("Sheets (keyseats build NAME):")
    sheets = find()
    wide = max(len(s.name) for s in sheets)
    kind = max(len(s.kind) for s in sheets)
    for sheet in sheets:
        papers = ", ".join(sheet.papers)
        print(f"  {sheet.name:<{wide}}  {sheet.kind:<{kind}}  {sheet.title}  ({papers})")
    print()
    print("Keys (keyseats shaft LENGTH), the usual standard and fit first:")
    wide = max(len(name) for name in FAMILIES)
    for family in FAMILIES:
        found = module(family)
        print(f"  {family:<{wide}}  standards: {', '.join(found.STANDARDS)}")
        print(f"  {'':<{wide}}  fits: {', '.join(found.FITS)}")
    return 0
