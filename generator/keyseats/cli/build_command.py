"""``keyseats build``: make what is stale of the printed set."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from keyseats.build import Scope, make, nothing_to_do, plan, resolve
from keyseats.load import Tables
from keyseats.paths import tables_dir


def _bar(done: int, count: int, name: str) -> None:
    if sys.stderr.isatty():
        filled = round(24 * done / max(count, 1))
        sys.stderr.write(
            f"\r[{'=' * filled}{' ' * (24 - filled)}] {done + 1} of {count}  {name:<40}"
        )
        sys.stderr.flush()


def run(words: argparse.Namespace) -> int:
    """Answer ``keyseats build``."""
    folder = tables_dir(words.tables)
    output = Path(words.output)
    scope = Scope(tuple(words.sheets), words.paper or "")
    if nothing_to_do(folder, output, scope):
        print(f"nothing to do: {output} is what these tables make")
        return 0
    scope = resolve(scope)
    tables = Tables(folder)
    if words.dry_run:
        return _dry(tables, output, scope)
    planned = make(tables, output, scope, _bar)
    if sys.stderr.isatty():
        sys.stderr.write("\r" + " " * 90 + "\r")
    for item in planned:
        print(f"made {item.name}: {item.reason}")
    if not planned:
        print(f"nothing to do: {output} is what these tables make")
        return 0
    print()
    for line in what_to_print(output):
        print(line)
    return 0


def _dry(tables: Tables, output: Path, scope: Scope) -> int:
    from keyseats import manifest

    planned, gone = plan(tables, output, scope, manifest.load(output))
    for item in planned:
        print(f"would make {item.name}: {item.reason}")
    for name in gone:
        print(f"would remove {name}: no sheet makes it now")
    if not planned and not gone:
        print("nothing to do")
    return 1 if planned or gone else 0


def what_to_print(output: Path) -> list[str]:
    """Return lines that say what to print on which paper."""
    from keyseats import manifest

    made = manifest.load(output).files
    lines = ["Print at actual size (no fitting, no shrinking):"]
    for paper in sorted(
        {r.paper for r in made.values()}, key=["Letter", "A4", "Tabloid", "A3"].index
    ):
        lines.append(f"  {paper}")
        for name, record in sorted(made.items()):
            if record.paper == paper:
                count = len(record.pages)
                where = f"{count} page{'' if count == 1 else 's'}, read at {record.distance_m:g} m"
                lines.append(f"    {name:<36} {where}")
    lines.append(f"See {output / 'index.html'} for a picture of each.")
    return lines
