"""CSV files as lines of cells: whole, bounded, and plain text."""

from __future__ import annotations

import csv
import io
from pathlib import Path

from keyseats.faults import TableError

# Bounds far over any table of keys, so that no file can hold a command up.
LARGEST_FILE = 1_000_000
MOST_ROWS, MOST_COLUMNS, LONGEST_CELL = 2000, 100, 1000
_CONTROLS = bytes([*range(9), 11, 12, *range(14, 32), 127])


def read_text(path: Path) -> str:
    """Read a table file as text.

    Raises
    ------
    TableError
        If the file is missing, too large, no text, or cannot be read.
    """
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST_FILE + 1)
    except FileNotFoundError:
        raise TableError(f"{path.name} is missing from {path.parent}; put it back") from None
    except OSError as fault:
        raise TableError(f"{path.name} cannot be read: {fault.strerror}") from None
    if len(data) > LARGEST_FILE:
        raise TableError(
            f"{path.name} is over {LARGEST_FILE:,} bytes, which no table of keys is; put the table "
            "back"
        )
    if data.isascii() and len(data.translate(None, _CONTROLS)) == len(data):
        return data.decode("ascii")
    from keyseats.spreadsheet.files import decoded

    return decoded(path.name, data)


def read_csv(path: Path, text: str | None = None) -> tuple[list[str], list[tuple[int, list[str]]]]:
    """Read a CSV file, or its text: its head, and each filled line with its number.

    Raises
    ------
    TableError
        If it is not a comma-separated table with one head row.
    """
    text = read_text(path) if text is None else text
    if "\r" in text:
        text = text.replace("\r\n", "\n").replace("\r", "\n")
    separator, first = ",", text[: text.find("\n") + 1]
    if "," not in first or first[0] == '"':
        from keyseats.spreadsheet.files import parting

        separator, text = parting(text)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    lines: list[tuple[int, list[str]]] = []
    read = 0
    try:
        for row in reader:
            at, read = read + 1, reader.line_num
            if read > at:
                raise TableError(
                    f"{path.name}, line {at}: a cell runs on to line {read}; look for a quote too "
                    "many, or take the line break out of the cell"
                )
            if any(cell.strip() for cell in row):
                lines.append((at, [cell.strip() for cell in row]))
                if len(row) > MOST_COLUMNS or max(map(len, row)) > LONGEST_CELL:
                    raise TableError(f"{path.name}, line {at}: {_beyond(row)}")
    except csv.Error as fault:
        says = "a quote is never closed" if "end of data" in str(fault) else str(fault)
        raise TableError(
            f"{path.name}, line {read + 1}: {says}; check the quotes on that line"
        ) from None
    if len(lines) > MOST_ROWS:
        raise TableError(
            f"{path.name} has {len(lines):,} filled lines, over {MOST_ROWS:,}; put the table back"
        )
    if not lines:
        raise TableError(f"{path.name} is empty; put its head row back")
    head = lines.pop(0)[1]
    while head and not head[-1]:
        head.pop()
    if separator != ",":
        from keyseats.spreadsheet.files import with_points

        lines = with_points(path.name, head, lines)
    return head, lines


def _beyond(row: list[str]) -> str:
    """Return in words how a line is beyond the bounds of a table."""
    if len(row) > MOST_COLUMNS:
        return f"{len(row):,} cells, over {MOST_COLUMNS}; take out the empty columns at its end"
    at = next(n for n, cell in enumerate(row, start=1) if len(cell) > LONGEST_CELL)
    return f"cell {at} has over {LONGEST_CELL:,} characters; look for a quote that is never closed"
