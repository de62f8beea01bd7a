"""A shop file opened: bytes to text to TOML, every fault as one line with its number."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

from keyseats.faults import KeyseatError
from keyseats.shop_file.lines import Way, lines_of

LARGEST_FILE = 65536
LONGEST_LINE = 300
_WHERE = re.compile(r" \(at (?:line (\d+), column \d+|end of document)\)$")
_UNQUOTED = re.compile(r"""\s*([A-Za-z_-]+)\s*=\s*([^"'\[{\s#][^#]*)""")


class ShopError(KeyseatError):
    """A shop file that cannot be used: its name, the line, what is wrong and what would do."""

    def __init__(self, path: Path, line: int | None, says: str) -> None:
        where = f"{path}, line {line}" if line else f"{path}"
        text = " ".join("".join(c if c.isprintable() else " " for c in f"{where}: {says}").split())
        super().__init__(text if len(text) <= 600 else f"{text[:200]} ... {text[-300:]}")


@dataclass(frozen=True)
class Opened:
    """A shop file as read: its tables, and the line of each key."""

    path: Path
    data: dict[str, Any]
    lines: dict[Way, int]


def open_shop(path: Path) -> Opened:
    """Open a shop file and read it as TOML; decimals are read exactly.

    Raises
    ------
    ShopError
        If it is no file, too large, not UTF-8 or not TOML.
    """
    text = _text(path)
    import tomllib

    try:
        data = tomllib.loads(text, parse_float=_decimal)
        return Opened(path, data, lines_of(text))
    except tomllib.TOMLDecodeError as fault:
        says, line = _said(str(fault), text)
        raise ShopError(path, line, says) from None
    except (RecursionError, ValueError):
        raise ShopError(
            path, None, "has brackets in brackets without end; begin from keyseats shop --write"
        ) from None


def _decimal(text: str) -> Decimal:
    try:
        return Decimal(text)
    except InvalidOperation:
        return Decimal("NaN")


def _text(path: Path) -> str:
    try:
        if not path.is_file():
            if path.is_dir():
                what = "is a folder; name the shop file in it"
            elif path.exists():
                what = "is not a plain file; name a shop file"
            else:
                what = "is not there; write one with keyseats shop --write FILE"
            raise ShopError(path, None, what)
        with path.open("rb") as file:
            data = file.read(LARGEST_FILE + 1)
    except (OSError, ValueError) as fault:
        reason = getattr(fault, "strerror", None) or "no file has such a name"
        raise ShopError(path, None, f"cannot be read: {reason}; name a shop file") from None
    if len(data) > LARGEST_FILE:
        raise ShopError(
            path, None, f"is over {LARGEST_FILE} bytes, and no shop needs that; is it a shop file?"
        )
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise ShopError(path, 1, "is saved as UTF-16; save it as UTF-8 text")
    if data.startswith(b"\xef\xbb\xbf"):
        raise ShopError(
            path, 1, "begins with a byte order mark (BOM); save it as UTF-8 without one"
        )
    try:
        text = data.decode("utf-8").replace("\r\n", "\n")
    except UnicodeDecodeError as fault:
        line = data.count(b"\n", 0, fault.start) + 1
        raise ShopError(
            path, line, f"byte {data[fault.start]:#04x} is not UTF-8; save it as UTF-8 text"
        ) from None
    for number, line_text in enumerate(text.split("\n"), 1):
        if len(line_text) > LONGEST_LINE:
            raise ShopError(
                path,
                number,
                f"is {len(line_text)} characters long; break it, {LONGEST_LINE} are allowed",
            )
    return text


def _said(message: str, text: str) -> tuple[str, int]:
    """Return what a TOML fault means to someone who wrote it by hand, and its line."""
    lines = text.split("\n")
    where = _WHERE.search(message)
    last = max((n for n, line in enumerate(lines, 1) if line.strip()), default=1)
    line = int(where.group(1)) if where and where.group(1) else last
    what = message[: where.start()] if where else message
    written = lines[line - 1]
    unquoted = _UNQUOTED.match(written)
    if "overwrite" in what:
        name = written.partition("=")[0].strip()
        return f"'{name[:40]}' stands here a second time; keep one of them", line
    if "declare" in what or "namespace" in what:
        name = written.partition("#")[0].strip(" []\t")
        return (
            f"[{name[:40]}] stands here a second time; each slide begins with [[slide]], each "
            "cutter with [[cutter]], in two brackets"
        ), line
    if written.count('"') % 2 and unquoted is None:
        remedy = 'a quote opens or closes too often; write inches as in: "1/8 in"'
    elif unquoted:
        key, value = unquoted.group(1), unquoted.group(2).strip()[:40]
        remedy = f'put the value in quotes: {key} = "{value}"'
    else:
        remedy = "a line is a key, an equals sign and a value; # begins a remark"
    return f"is not TOML ({what[:80]}); {remedy}", line
