"""``keyseats proof``: the print-shop check of finished PDFs."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from keyseats.cli import progress
from keyseats.faults import KeyseatError, TypedError
from keyseats.proof.proving import prove
from keyseats.proof.table import as_json, lines


def run(words: argparse.Namespace) -> int:
    """Answer ``keyseats proof``."""
    proof = prove(_paths(words), progress.bar)
    progress.clear()
    if words.json:
        print(json.dumps(as_json(proof), indent=1, ensure_ascii=False))
    else:
        for line in lines(proof):
            print(line)
    return 1 if proof.faults else 0


def _paths(words: argparse.Namespace) -> list[Path]:
    if words.files and words.output is not None:
        raise TypedError("proof: name files or --output DIR, not both")
    if words.files:
        return [Path(name) for name in words.files]
    folder = Path(words.output or "output")
    found = sorted(folder.glob("*.pdf"))
    if not found:
        raise KeyseatError(f"no PDF in {folder}; 'keyseats build' makes them")
    return found
