"""``keyseats build``: make what is stale of the printed set."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from keyseats.building.untouched import nothing_to_do
from keyseats.cli import progress
from keyseats.paths import tables_dir

if TYPE_CHECKING:
    from keyseats.build import Plan, Scope
    from keyseats.load import Tables


def run(words: argparse.Namespace) -> int:
    """Answer ``keyseats build``."""
    if words.shop:
        return _shop(words)
    tables = tables_dir(words.tables)
    output = Path(words.output)
    if nothing_to_do(tables, output, tuple(words.sheets), words.paper or ""):
        print(f"nothing to do: {output} is what these tables make")
        return 0
    from keyseats.build import Scope, build, resolve
    from keyseats.load import Tables

    scope = resolve(Scope(tuple(words.sheets), words.paper or ""))
    if words.dry_run:
        return _dry(Tables(tables), output, scope)
    found = build(Tables(tables), output, scope, progress.bar)
    progress.clear()
    for line in _lines(found, "made", "removed"):
        print(line)
    if found.empty:
        print(f"nothing to do: {output} is what these tables make")
        return 0
    print()
    for line in what_to_print(output):
        print(line)
    return 0


def _shop(words: argparse.Namespace) -> int:
    """Make a shop's own shaft sheets, one file beside the set, if they are not there just so."""
    from keyseats.build import document_bytes
    from keyseats.cli.sheet_file import paper_for, refuse_faults
    from keyseats.cli.shop_option import shop_of
    from keyseats.faults import TypedError
    from keyseats.load import Tables
    from keyseats.shop_set import shop_document
    from keyseats.writing import folder, write_whole

    if words.sheets:
        raise TypedError(
            f"--shop: makes the shop's own shaft sheets; build {words.sheets[0]} without it"
        )
    tables = Tables(tables_dir(words.tables))
    shop = shop_of(words.shop, tables)
    refuse_faults(tables, "sheet")
    paper = paper_for(words.paper, "in", "shaft sheet") if words.paper else ""
    document = shop_document(tables, shop, paper)
    path, data = Path(words.output) / document.name, document_bytes(document)
    if path.is_file() and path.read_bytes() == data:
        print(f"nothing to do: {path} is what these tables make for {words.shop}")
        return 0
    if words.dry_run:
        print(f"would make {path}")
        return 1
    folder(Path(words.output))
    write_whole(path, data)
    print(f"made {path}: {len(document.pages)} pages; print at actual size on {document.paper}")
    return 0


def _dry(tables: Tables, output: Path, scope: Scope) -> int:
    from keyseats import manifest
    from keyseats.build import plan

    found = plan(tables, output, scope, manifest.load(output))
    for line in _lines(found, "would make", "would remove"):
        print(line)
    if found.empty:
        print("nothing to do")
    return 0 if found.empty else 1


def _lines(found: Plan, make: str, remove: str) -> list[str]:
    from keyseats.building.reasons import told

    lines = []
    for item in found.planned:
        lines.append(f"{make} {item.name}: {item.reason}")
        if item.reason != "new":
            lines += [f"  {line}" for line in told(item.pages)]
    lines += [f"{make} {name}: {reason}" for name, reason in found.harmed.items()]
    lines += [f"{remove} {name}: no sheet makes it now" for name in found.gone]
    lines += [
        f"left {name}: no sheet makes it now, and it is not as it was made" for name in found.left
    ]
    return lines


def what_to_print(output: Path) -> list[str]:
    """Return lines that say what to print on which paper."""
    from keyseats import manifest
    from keyseats.page import PAPERS

    made = manifest.load(output).files
    lines = ["Print at actual size (no fitting, no shrinking):"]
    for paper in [p for p in PAPERS if any(r.paper == p for r in made.values())]:
        lines.append(f"  {paper}")
        for name, record in sorted(made.items()):
            if record.paper == paper:
                count = len(record.pages)
                where = f"{count} page{'' if count == 1 else 's'}, read at {record.distance_m:g} m"
                lines.append(f"    {name:<36} {where}")
    lines.append(f"See {output / 'index.html'} for a picture of each.")
    return lines
