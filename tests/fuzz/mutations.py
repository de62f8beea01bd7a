"""Inputs made wrong in a hundred ways, the same in every run."""

from __future__ import annotations

import random
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType

from keyseats.faults import KeyseatError

SNIPPETS = [
    b"",
    b"\x00",
    b"\xef\xbb\xbf",
    b"\xff\xfe",
    b"\xfe\xff",
    b"\r",
    b"\r\n",
    b"\n",
    b"\n\n,,,\n",
    b'"',
    b'""',
    b'"""',
    b"'",
    b",",
    b",,,,,,,,,,,,",
    b";",
    b"\t",
    b"\\",
    b"=",
    b"=1+1",
    b"#",
    b"#REF!",
    b"######",
    b"@",
    b"+",
    b"-",
    b"--",
    b"-0",
    b"0",
    b"0/0",
    b"1/0 in",
    b"1/",
    b"/",
    b"1-1/16",
    b"4-Jan",
    b"2026-01-04",
    b"46026",
    b"0,063",
    b"1.2E-3",
    b"1e400",
    b"0.0104999999",
    b"nan",
    b"inf",
    b"9" * 400,
    b"0." + b"3" * 400,
    b"x" * 1200,
    b" in",
    b" mm",
    b" um",
    b"memory",
    b"practice",
    b"rule-depth",
    b" + ",
    b"rule-depth + rule-depth",
    b"unique",
    b"unique with key",
    b"known in inch_half_moon_keys.key",
    b"same as inch_half_moon_keys.width by key",
    b"is rule-depth",
    b"range to width",
    b"one of a | b",
    b"not over key",
    b"decimal of key",
    b"../../etc/passwd",
    b"\x1b[2J",
    b"\x85",
    b"\x93\x94",
    "\u00a0".encode(),
    "\u200b".encode(),
    "\u202e".encode(),
    "\u2028".encode(),
    "\ufffd".encode(),
    "½".encode(),
    "²".encode(),
    "٣".encode(),
    "１".encode(),
    "−".encode(),
    "″".encode(),
    "×".encode(),
    "鋼".encode(),
    "😀".encode(),
    b"\xed\xa0\x80",
    b"\xf4\x90\x80\x80",
    b"[",
    b"]",
    b"[[",
    b"[" * 3000,
    b"{a=" * 300,
    b"=",
    b'"""',
    b"true",
    b"1979-05-27T07:32:00Z",
    b"0x10",
    b"1_000",
    b"\\u0000",
    b"\\uD800",
    b"[[slide]]",
    b"[[cutter]]",
    b"turn = ",
    b"name = ",
    b"heading = ",
]


def mutated(data: bytes, chance: random.Random) -> bytes:
    """Return some bytes with one to six changes."""
    for _ in range(chance.randint(1, 6)):
        at = chance.randint(0, len(data))
        to = min(len(data), at + chance.choice((1, 1, 2, 5, 20, 200)))
        kind = chance.randrange(8)
        if kind == 0:
            data = data[:at] + data[to:]
        elif kind == 1:
            data = data[:at] + bytes([chance.randrange(256)]) + data[at + 1 :]
        elif kind == 2:
            data = data[:at] + chance.choice(SNIPPETS) + data[to:]
        elif kind == 3:
            data = data[:at] + chance.choice(SNIPPETS) + data[at:]
        elif kind == 4:
            data = data[:at] + data[at:to] * chance.choice((2, 3, 40)) + data[to:]
        elif kind == 5:
            data = _cell(data, chance)
        elif kind == 6:
            data = data[:at] if chance.randrange(6) == 0 else _cell(data, chance)
        else:
            data = _whole(data, chance) if chance.randrange(4) == 0 else _cell(data, chance)
    return data


def _cell(data: bytes, chance: random.Random) -> bytes:
    """Replace one cell, or what stands between two marks."""
    cells = data.split(b",")
    cells[chance.randrange(len(cells))] = chance.choice(SNIPPETS)
    return b",".join(cells)


def _whole(data: bytes, chance: random.Random) -> bytes:
    """Change the whole of a file as a program would."""
    text = data.decode("utf-8", "replace")
    return chance.choice(
        (
            data.replace(b",", b";"),
            data.replace(b",", b"\t"),
            data.replace(b"\n", b"\r"),
            data.replace(b".", b","),
            data.replace(b"0", b""),
            data.replace(b" ", b"\xa0"),
            text.encode("utf-16"),
            text.encode("utf-16-be"),
            text.encode("utf-32"),
            b'"' + data.replace(b'"', b'""').replace(b"\n", b'"\n"') + b'"',
            b"",
            data * 2,
        )
    )


@contextmanager
def bounded(seconds: float, what: object) -> Iterator[None]:
    """Fail where one input takes longer than this."""

    def over(number: int, frame: FrameType | None) -> None:
        raise AssertionError(f"over {seconds} s on {what!r}")

    before = signal.signal(signal.SIGALRM, over)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def refusals(inputs: Iterator[bytes], use: Callable[[bytes], object], seconds: float = 5) -> int:
    """Use every input and return how many were refused; only a clear refusal may come out.

    Each refusal is one line that says something and prints.
    """
    count = 0
    for data in inputs:
        with bounded(seconds, data[:200]):
            try:
                use(data)
            except KeyseatError as fault:
                line = str(fault)
                assert len(line) > 10, (line, data[:500])
                assert "\n" not in line, (line, data[:500])
                count += 1
            except Exception as crash:
                raise AssertionError(f"{crash!r} on {data[:2000]!r}") from crash
    return count
