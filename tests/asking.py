"""The command's own answer, for tests that go the way that a user goes."""

from __future__ import annotations

import contextlib
import functools
import io
import json
from typing import Any

from keyseats.__main__ import main


@functools.cache
def printed(*words: str) -> str:
    """Return what ``keyseats shaft ...`` prints on stdout."""
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        code = main(["shaft", *words])
    assert code == 0
    return out.getvalue()


def answer(*words: str) -> dict[str, Any]:
    """Return what ``keyseats shaft ... --json`` prints, read back."""
    found: dict[str, Any] = json.loads(printed(*words, "--json"))
    return found


def seat(family: str, *words: str, designation: str = "") -> dict[str, Any]:
    """Return one family's first choice, or the seat of a named key, from the JSON answer."""
    for found in answer(*words)["seats"]:
        named = found["key"]["designation"] == designation if designation else True
        if found["key"]["family"] == family and named:
            seat: dict[str, Any] = found
            return seat
    raise AssertionError(f"no {family} seat {designation} for {words}")


def label(*parts: str) -> str:
    """Return a test's name: what is checked, then the source that it was read in."""
    return " | ".join(part[:70] for part in parts if part)
