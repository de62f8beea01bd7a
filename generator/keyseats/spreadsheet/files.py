"""Whole files: byte orders, encodings, separators, lines that became one cell."""

from __future__ import annotations

import codecs
import csv
import re

from keyseats.faults import TableError

Lines = list[tuple[int, list[str]]]

_WIDE = {
    codecs.BOM_UTF32_LE: "utf-32",
    codecs.BOM_UTF32_BE: "utf-32",
    codecs.BOM_UTF16_LE: "utf-16",
    codecs.BOM_UTF16_BE: "utf-16",
}
# Spaces that a spreadsheet or a word processor puts in place of a plain one.
_SPACES = "\u00a0\u1680\u202f\u205f\u3000" + "".join(map(chr, range(0x2000, 0x200B)))
# Marks of no width, which hide in what is pasted.
_UNSEEN = "\u00ad\u200b\u200c\u200d\u2060\ufeff"
_PLAIN = str.maketrans({**dict.fromkeys(_SPACES, " "), **dict.fromkeys(_UNSEEN, "")})
_CONTROL = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069"
    "\ufff9-\ufffc\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff]"
)
_TWICE = re.compile("[\u00c2\u00c3][\u0080-\u00bf\u0152-\u0192\u2013-\u2122]|\u00e2\u20ac")
_SAVE = "save it again as CSV UTF-8"
# A separator that no text holds, since control characters are refused before.
_NEVER = "\x1f"
_DECIMAL = re.compile(r"[-−]?\d*([.,])\d+")


def decoded(name: str, data: bytes) -> str:
    """Return the text of a table file that is not plain ASCII.

    A byte-order mark, UTF-16 with its mark, odd spaces and marks of no width are undone.

    Parameters
    ----------
    name
        The file's name, for the message.
    data
        Its bytes.

    Raises
    ------
    TableError
        If characters were lost, or hold what no table needs; with line and column.
    """
    wide = next((code for mark, code in _WIDE.items() if data.startswith(mark)), None)
    data = data.removeprefix(codecs.BOM_UTF8)
    try:
        text = data.decode(wide or "utf-8")
    except UnicodeDecodeError as fault:
        if wide:
            raise TableError(f"{name} is broken off or is not {wide.upper()}; {_SAVE}") from None
        before = data[: fault.start].decode()
        raise TableError(
            f"{place(name, before)}: byte {data[fault.start]:02X} (hexadecimal) is not UTF-8: the "
            f"spreadsheet saved in Windows-1252 or another code of its own; {_SAVE}"
        ) from None
    text = text.translate(_PLAIN)
    found = _CONTROL.search(text)
    if found:
        where = place(name, text[: found.start()])
        if found.group() == "\x00":
            raise TableError(
                f"{where}: a zero byte: the file was saved as UTF-16, or is no text; {_SAVE}"
            )
        raise TableError(
            f"{where}: holds the unprintable character U+{ord(found.group()):04X}; type the cell "
            "again"
        )
    lost = text.find("\ufffd")
    if lost >= 0:
        raise TableError(
            f"{place(name, text[:lost])}: a character was lost (U+FFFD stands in its place) when "
            "the file was opened in another code; type the cell again"
        )
    twice = _TWICE.search(text)
    if twice:
        raise TableError(
            f"{place(name, text[: twice.start()])}: '{twice.group()}' is one character read as "
            "two: the spreadsheet opened the file as Windows-1252; open it again as UTF-8"
        )
    return text


def place(name: str, before: str) -> str:
    """Return file, line and, as far as it can be told, column of the end of a text."""
    lines = re.split("\r\n|\r|\n", before)
    head = _cells(lines[0])
    at = len(_cells(lines[-1] + "x")) - 1
    column = f", {head[at].strip()}" if len(lines) > 1 and at < len(head) and head[at] else ""
    return f"{name}, line {len(lines)}{column}"


def _cells(line: str, separator: str = "") -> list[str]:
    separator = separator or next((s for s in ",;\t" if s in line), ",")
    try:
        return next(csv.reader([line], delimiter=separator), [])
    except csv.Error:
        return line.split(separator)


def parting(text: str) -> tuple[str, str]:
    """Return what separates the cells of a text, and the text with whole-line quotes undone.

    A table opened with another separator is one cell a line; saved, each line stands in quotes
    with the inner ones doubled.
    """
    first = text.partition("\n")[0]
    cells = _cells(first)
    if first.startswith('"') and len(cells) == 1 and any(s in cells[0] for s in ",;\t"):
        text = "\n".join("".join(_cells(line, _NEVER)) for line in text.split("\n"))
        first = cells[0]
    if "," in first:
        return ",", text
    return (";" if ";" in first else "\t" if "\t" in first else ","), text


def with_points(name: str, head: list[str], lines: Lines) -> Lines:
    """Return the lines of a file not separated by commas with points for decimal commas.

    Raises
    ------
    TableError
        If some figures have a comma and others a point: then neither is sure.
    """
    marks: dict[str, tuple[int, int, str]] = {}
    for line, cells in lines:
        for at, cell in enumerate(cells):
            found = _DECIMAL.fullmatch(cell)
            if found:
                marks.setdefault(found.group(1), (line, at, cell))
    if "," not in marks:
        return lines
    if "." in marks:
        line, at, cell = marks[","]
        column = head[at] if at < len(head) else f"cell {at + 1}"
        raise TableError(
            f"{name}, line {line}, {column}: {cell} has a comma for the decimal mark and "
            f"{marks['.'][2]} on line {marks['.'][0]} a point, so that a spreadsheet has read some "
            "of them as thousands; open the table again with English (US) as the language"
        )
    return [
        (line, [c.replace(",", ".") if _DECIMAL.fullmatch(c) else c for c in cells])
        for line, cells in lines
    ]


def habits(data: bytes) -> list[str]:
    """Return in words what was undone in a file that could be read."""
    found = []
    if data.startswith(tuple(_WIDE)):
        found.append("it is saved as UTF-16 or UTF-32; read so, and UTF-8 is what is kept here")
        data = decoded("", data).encode()
    text = data.decode("utf-8-sig", "replace")
    separator, whole = parting(text.replace("\r\n", "\n").replace("\r", "\n"))
    if text.startswith('"') and whole.count('"') < text.count('"') - 1:
        found.append("each line is one cell in quotes; read as cells again")
    if separator != ",":
        word = "semicolons" if separator == ";" else "tabs"
        found.append(f"its cells are separated by {word}; read so, and commas are what is kept")
    if text.translate(_PLAIN) != text:
        found.append("it holds odd spaces or marks of no width; read as plain spaces")
    return found
