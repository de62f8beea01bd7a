"""On which line of a TOML text each key stands; the standard library's reader does not say."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass, field

Way = tuple[str | int, ...]
_BARE = frozenset("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_")


@dataclass
class _Scan:
    """A walk through text that is known to be TOML: it finds where, and judges nothing."""

    text: str
    at: int = 0
    line: int = 1
    found: dict[Way, int] = field(default_factory=dict)
    counts: dict[Way, int] = field(default_factory=dict)

    def peek(self, word: str) -> bool:
        return self.text.startswith(word, self.at)

    def go(self, count: int = 1) -> None:
        self.line += self.text.count("\n", self.at, self.at + count)
        self.at += count

    def blank(self, newlines: bool = True) -> None:
        while self.at < len(self.text):
            if self.peek("#"):
                end = self.text.find("\n", self.at)
                self.at = len(self.text) if end < 0 else end
            elif self.text[self.at] in (" \t\n" if newlines else " \t"):
                self.go()
            else:
                return

    def string(self) -> str:
        """Step over a string; return what stands between its quotes."""
        mark = self.text[self.at]
        quotes = mark * 3 if self.peek(mark * 3) else mark
        self.go(len(quotes))
        start = self.at
        while self.at < len(self.text) and not self.peek(quotes):
            self.go(2 if mark == '"' and self.peek("\\") else 1)
        inside = self.text[start : self.at]
        self.go(len(quotes))
        while len(quotes) == 3 and self.peek(mark):
            self.go()
        return inside

    def key(self) -> tuple[str, ...]:
        parts: list[str] = []
        while self.at < len(self.text):
            self.blank(newlines=False)
            if self.peek('"') or self.peek("'"):
                parts.append(self.string())
            else:
                start = self.at
                while self.at < len(self.text) and self.text[self.at] in _BARE:
                    self.at += 1
                parts.append(self.text[start : self.at])
            self.blank(newlines=False)
            if not self.peek("."):
                break
            self.go()
        return tuple(parts)

    def until(self, end: str) -> Iterator[int]:
        """Step through what stands between brackets, one entry at a time."""
        self.go()
        self.blank()
        for count in itertools.count():
            if self.at >= len(self.text) or self.peek(end):
                break
            yield count
            self.blank()
            if self.peek(","):
                self.go()
            self.blank()
        self.go()

    def value(self, path: Way) -> None:
        if self.at >= len(self.text):
            return
        mark = self.text[self.at]
        if mark in "\"'":
            self.string()
        elif mark == "[":
            for count in self.until("]"):
                here = (*path, count)
                self.found[here] = self.line
                self.value(here)
        elif mark == "{":
            for _ in self.until("}"):
                self.pair(path)
        else:
            self.go()
            while self.at < len(self.text) and self.text[self.at] not in ",]}#\n":
                self.at += 1

    def pair(self, prefix: Way) -> None:
        line = self.line
        path = prefix
        for part in self.key():
            path = (*path, part)
            self.found.setdefault(path, line)
        self.go()  # the equals sign
        self.blank(newlines=False)
        self.value(path)

    def header(self) -> Way:
        line = self.line
        many = self.peek("[[")
        self.go(2 if many else 1)
        parts = self.key()
        self.go(2 if many else 1)
        path: Way = ()
        for n, part in enumerate(parts):
            path = (*path, part)
            self.found.setdefault(path, line)
            if many and n == len(parts) - 1:
                self.counts[path] = self.counts.get(path, 0) + 1
            if path in self.counts:
                path = (*path, self.counts[path] - 1)
                self.found.setdefault(path, line)
        return path


def lines_of(text: str) -> dict[Way, int]:
    """Return the line of each key of a TOML text.

    Parameters
    ----------
    text
        TOML that the standard library has read without a fault, its line ends all line feeds.

    Returns
    -------
    dict
        From the way to a key, such as ``("slide", 0, "turn")``, to its line, counted from 1. The
        entries of an array are numbered from 0; ``("slide", 0)`` is the line of its head.
    """
    scan = _Scan(text)
    prefix: Way = ()
    scan.blank()
    while scan.at < len(text):
        if scan.peek("["):
            prefix = scan.header()
        else:
            scan.pair(prefix)
        scan.blank()
    return scan.found
