"""A bar on the terminal while files are worked on; nothing where stderr is no terminal."""

from __future__ import annotations

import sys


def bar(done: int, count: int, name: str) -> None:
    """Show how many are done, and what is being worked on."""
    if sys.stderr.isatty():
        filled = round(24 * done / max(count, 1))
        sys.stderr.write(
            f"\r[{'=' * filled}{' ' * (24 - filled)}] {done + 1} of {count}  {name:<40}"
        )
        sys.stderr.flush()


def clear() -> None:
    """Take the bar away."""
    if sys.stderr.isatty():
        sys.stderr.write("\r" + " " * 90 + "\r")
