"""``keyseats current``: whether a page is current, from the code in its foot."""

from __future__ import annotations

import argparse
import json

from keyseats.corrections.code import read_code
from keyseats.load import Tables
from keyseats.paths import tables_dir


def run(words: argparse.Namespace) -> int:
    """Answer ``keyseats current``: 0 if the page's figures are current, 1 if not or unknown."""
    code = read_code("".join(words.code))
    from keyseats.corrections.status import data, lines, status

    tables = Tables(tables_dir(words.tables))
    found = status(tables, code)
    if words.json:
        print(json.dumps(data(found, tables), indent=1, ensure_ascii=False))
    else:
        for line in lines(found):
            print(line)
    return 0 if found.good else 1
