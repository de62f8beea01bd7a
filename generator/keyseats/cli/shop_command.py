"""``keyseats shop``: an example shop file, or what was understood of one."""

from __future__ import annotations

import argparse
import contextlib
import sys
from pathlib import Path

from keyseats.faults import KeyseatError, TypedError
from keyseats.shop_file import EXAMPLE


def run(words: argparse.Namespace) -> int:
    """Answer ``keyseats shop``.

    Raises
    ------
    KeyseatError
        If the example cannot be written, or a shop file cannot be used.
    TypedError
        If it is asked both to write and to read.
    """
    if words.write is not None and words.file is not None:
        raise TypedError(
            "shop: --write writes the example and FILE reads a shop; give one of the two"
        )
    if words.write is not None:
        return _write(Path(words.write))
    if words.file is None:
        sys.stdout.write(EXAMPLE.read_text(encoding="utf-8"))
        return 0
    return _tell(Path(words.file), words.tables)


def _write(path: Path) -> int:
    """Write the example where nothing stands yet."""
    made = False
    try:
        with path.open("xb") as out:
            made = True
            out.write(EXAMPLE.read_bytes())
    except FileExistsError:
        raise KeyseatError(
            f"{path} is there already and was not changed; give --write another name"
        ) from None
    except (OSError, ValueError) as fault:
        if made:
            with contextlib.suppress(OSError):
                path.unlink()
        reason = getattr(fault, "strerror", None) or "no file can have such a name"
        raise KeyseatError(f"{path} cannot be written: {reason}; give another name") from None
    print(f"{path}: an example; put your own figures in, then: keyseats shop {path}")
    return 0


def _tell(path: Path, tables_folder: str | None) -> int:
    from keyseats.cli.shop_option import shop_of
    from keyseats.load import Tables
    from keyseats.paths import tables_dir
    from keyseats.shop_file.told import told

    for line in told(shop_of(path, Tables(tables_dir(tables_folder)))):
        print(line)
    return 0
