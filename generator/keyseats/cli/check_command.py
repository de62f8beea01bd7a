"""``keyseats check``: every fault of the tables, with its place, rule and remedy."""

from __future__ import annotations

import argparse
from itertools import groupby
from pathlib import Path

from keyseats.check import Report, check
from keyseats.load import Tables
from keyseats.paths import tables_dir
from keyseats.records import Quirk


def run(words: argparse.Namespace) -> int:
    """Answer ``keyseats check``."""
    chosen = Path(words.tables) if words.tables else None
    # A folder without its list of sources is a fault to report, not a reason to stop.
    if chosen is not None and any(chosen.glob("*.csv")):
        folder = chosen
    else:
        folder = tables_dir(words.tables)
    report = check(Tables(folder))
    for line in lines(report):
        print(line)
    return 1 if report.faults else 0


def lines(report: Report) -> list[str]:
    """Return a report as lines: faults, remarks, the known quirks, and the count of each."""
    out = [str(fault) for fault in report.faults]
    out += [f"remark: {remark}" for remark in report.remarks]
    known = len(report.settled) + len(report.unsettled)
    if known:
        out.append(
            f"figures kept although they break their own rule: {known}, of which "
            f"{len(report.settled)} read so in print and {len(report.unsettled)} unsettled"
        )
    out += _unsettled(report.unsettled)
    faults, remarks = len(report.faults), len(report.remarks)
    out.append(f"{_count(faults, 'fault')}, {_count(remarks, 'remark')}")
    return out


def _unsettled(quirks: tuple[Quirk, ...]) -> list[str]:
    """Return the unsettled quirks, those of one column and reason together."""
    out = []
    for (table, column, reason), group in groupby(
        sorted(quirks, key=lambda q: (q.table, q.column, q.reason)),
        key=lambda q: (q.table, q.column, q.reason),
    ):
        out.append(f"unsettled: {table}, {column}: {reason}")
        out += [f"  {q.row}: {q.printed} printed, the rule gives {q.rule_gives}" for q in group]
    return out


def _count(number: int, word: str) -> str:
    return f"{number or 'no'} {word}{'' if number == 1 else 's'}"
