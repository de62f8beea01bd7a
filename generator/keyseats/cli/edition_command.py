"""``keyseats edition``: check, number, build and archive as one step, or change nothing."""

from __future__ import annotations

import argparse
import re
import shutil
import sys
import tempfile
from datetime import date
from pathlib import Path

from keyseats.cli import progress
from keyseats.corrections.archive import FOLDER, archived, editions
from keyseats.faults import KeyseatError, TypedError
from keyseats.load import Tables
from keyseats.paths import tables_dir
from keyseats.transaction import recover, replace_all
from keyseats.writing import folder as make_folder

JOURNAL = ".edition.journal"
_HEAD = "# The edition that every page prints.\n"


def run(words: argparse.Namespace) -> int:
    """Answer ``keyseats edition``."""
    folder, output = tables_dir(words.tables), Path(words.output)
    if recover(folder / JOURNAL):
        print("an edition that was cut short has been undone first", file=sys.stderr)
    number, day = _number(words.number, folder), _date(words.date, folder)
    _checked(folder)
    with tempfile.TemporaryDirectory() as place:
        stage = Path(place)
        tables = _staged_tables(folder, stage, number, day)
        made = _built(tables, stage / "output")
        files = _files(folder, output, stage, made, number)
        new = [p for p in (folder / FOLDER, output, output / "previews") if not p.exists()]
        try:
            for path in {p.parent for p in files}:
                make_folder(path)
            replace_all(files, folder / JOURNAL)
        except BaseException:
            for path in reversed(new):
                if path.is_dir() and not any(path.iterdir()):
                    path.rmdir()
            raise
    print(f"edition {number}, {day}: {len(made)} files in {output}, archived in {folder / FOLDER}")
    return 0


def _number(text: str, folder: Path) -> str:
    """Read the number: whole, and above that of every edition before it."""
    if not re.fullmatch(r"[1-9][0-9]{0,5}", text):
        raise TypedError(f"the edition's number is a whole number, not '{text}'; such as 3")
    known = editions(folder)
    last = known[-1].number if known else "0"
    if int(text) <= int(last):
        raise TypedError(f"edition {last} is archived; the next number is {int(last) + 1}")
    return text


def _date(text: str, folder: Path) -> str:
    """Read the date: of this form, and not before the last edition's."""
    try:
        if not re.fullmatch(r"\d{4}-\d\d-\d\d", text):
            raise ValueError
        date.fromisoformat(text)
    except ValueError:
        raise TypedError(f"--date: '{text}' is not a date; write it as 2026-11-25") from None
    known = editions(folder)
    if known and text < known[-1].date:
        raise TypedError(
            f"--date: {text} is before edition {known[-1].number}, {known[-1].date}; give the day "
            "on which this one is closed"
        )
    return text


def _checked(folder: Path) -> None:
    from keyseats.check import check

    faults = check(Tables(folder)).faults
    if faults:
        lines = "\n".join(f"  {fault}" for fault in faults)
        raise KeyseatError(f"the tables have {len(faults)} fault(s); no edition was made:\n{lines}")


def _staged_tables(folder: Path, stage: Path, number: str, day: str) -> Tables:
    """Return a copy of the tables with the new edition set and archived."""
    from keyseats.corrections.issued import issues

    copy = stage / "tables"
    (copy / FOLDER).mkdir(parents=True)
    for path in sorted(folder.iterdir()):
        if path.suffix in (".csv", ".toml"):
            shutil.copyfile(path, copy / path.name)
    known = editions(folder)
    for past in known:
        name = f"{FOLDER}/{past.number}.json"
        shutil.copyfile(folder / name, copy / name)
    text = f'{_HEAD}number = "{number}"\ndate = "{day}"\n'
    (copy / "edition.toml").write_text(text, encoding="utf-8", newline="\n")
    data = archived(copy, known[-1] if known else None, issues(Tables(copy)).values())
    (copy / FOLDER / f"{number}.json").write_bytes(data)
    return Tables(copy)


def _built(tables: Tables, output: Path) -> list[Path]:
    """Build the whole set and return its files, the manifest last."""
    from keyseats import manifest
    from keyseats.build import Scope, make

    make(tables, output, Scope(), progress.bar)
    progress.clear()
    found = sorted(p.relative_to(output) for p in output.rglob("*") if p.is_file())
    return sorted(found, key=lambda p: p.name == manifest.NAME)


def _files(
    folder: Path, output: Path, stage: Path, made: list[Path], number: str
) -> dict[Path, bytes | None]:
    """Return what is written and removed: pages, the manifest, the archive, the edition last."""
    from keyseats import manifest

    files: dict[Path, bytes | None] = {}
    for name, record in manifest.load(output).files.items():
        gone = Path(name) not in made
        if gone and manifest.file_sha(output / name) == record.written:
            files[output / name] = None
    for path in made:
        files[output / path] = (stage / "output" / path).read_bytes()
    for last in (f"{FOLDER}/{number}.json", "edition.toml"):
        files[folder / last] = (stage / "tables" / last).read_bytes()
    return files
