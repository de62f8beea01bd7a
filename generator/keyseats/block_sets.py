"""Gauge-block sets: those of the tables, and the user's own from a CSV file.

A file of the user's has the columns of ``gauge_blocks.csv`` (``set``, ``wear``, ``from`` and
``note`` may be left out), or simply one size a line with its unit, a wear block with ``wear`` in
the cell after it. A size that is listed twice is two blocks.
"""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

from keyseats.blocks import BlockSet, places_in_full
from keyseats.faults import TableError, TypedError, near
from keyseats.frozen import replace
from keyseats.lengths import parse, places_of
from keyseats.load import Row, Tables, number, read_csv, read_text
from keyseats.standing import EXACT, Quantity, standing_of

TABLE = "gauge_blocks"
_NEEDED = ("unit", "from_size", "to_size", "step", "pieces")
_LONGEST = {"in": Fraction(40), "mm": Fraction(1000)}
_FINEST = Fraction(1, 10**6)
_MOST_PIECES = 400
_MOST_WORK = 10**11
_LARGEST_FILE = 10**6


def sets(tables: Tables) -> dict[str, BlockSet]:
    """Return the gauge-block sets of the tables by name.

    Raises
    ------
    TableError
        If a row's sizes, step and pieces do not agree, with the line.
    """
    rows: dict[str, list[Row]] = {}
    for row in tables.rows(TABLE):
        rows.setdefault(row.cells["set"], []).append(row)
    return {name: _from_rows(name, found, f"{TABLE}.csv", tables) for name, found in rows.items()}


def block_set(tables: Tables, name: str) -> BlockSet:
    """Return one set, by its name in the tables or from the user's CSV file.

    Parameters
    ----------
    tables
        Where named sets are read.
    name
        A set such as ``inch-81``, or the path of a file that ends in ``.csv``.

    Raises
    ------
    TypedError
        If there is no such set or file.
    TableError
        If the file is no list of gauge blocks, with the line.
    """
    path = Path(name)
    if path.suffix.lower() == ".csv":
        return read_set(path)
    found = sets(tables)
    plain = name.strip().lower().replace(" ", "-")
    if plain in found:
        return found[plain]
    raise TypedError(
        f"--set: no set '{name}', and not the name of a CSV file; {near(plain, list(found))}"
    )


def read_set(path: Path) -> BlockSet:
    """Read a set from a CSV file.

    Raises
    ------
    TypedError
        If there is no such file.
    TableError
        If it is no list of gauge blocks, with the line and what would do.
    """
    if not path.is_file():
        raise TypedError(f"--set: there is no file {path}; name a set or a CSV file")
    if path.stat().st_size > _LARGEST_FILE:
        raise TableError(
            f"{path.name} is too large for a list of gauge blocks; give one size a line"
        )
    head, lines = read_csv(path)
    names = [cell.lower() for cell in head]
    if "from_size" not in names:
        return _from_sizes(path, [(_first_line(path), head), *lines])
    missing = [c for c in _NEEDED if c not in names]
    if missing:
        raise TableError(
            f"{path.name}, line {_first_line(path)}: no column {', '.join(missing)}; put the "
            "columns of gauge_blocks.csv, or one size a line"
        )
    rows = []
    for line, cells in lines:
        if len(cells) < len(names) or any(cells[len(names) :]):
            raise TableError(
                f"{path.name}, line {line}: {len(cells)} cells under {len(names)} heads; a comma "
                "inside a cell needs quotes round the cell"
            )
        rows.append(Row(path.stem, line, f"line {line}", dict(zip(names, cells, strict=False))))
    return _from_rows(path.name, rows, path.name)


def _first_line(path: Path) -> int:
    """Return the number of a file's first filled line."""
    text = read_text(path).splitlines()
    return next((n for n, line in enumerate(text, 1) if line.strip(' ,"\t')), 1)


def _from_sizes(path: Path, lines: list[tuple[int, list[str]]]) -> BlockSet:
    """Return the set that is listed one size a line."""
    blocks: list[Quantity] = []
    wear: list[Quantity] = []
    unit = ""
    for n, (line, cells) in enumerate(lines):
        at = f"{path.name}, line {line}"
        filled = [cell for cell in cells if cell]
        if n == 0 and not any(c.isdigit() for c in "".join(filled)):
            continue  # a head such as "size"
        if len(filled) > 2 or (len(filled) == 2 and filled[1].lower() != "wear"):
            raise TableError(
                f"{at}: '{','.join(filled)}' is more than one size; put one size a line, with a "
                "point for the decimal mark, and nothing after it but wear"
            )
        try:
            length = parse(filled[0], at)
        except TypedError as fault:
            raise TableError(str(fault)) from None
        if unit and length.unit != unit:
            raise TableError(
                f"{at}: {filled[0]} stands in a list of {unit} sizes; keep one unit a set"
            )
        unit = length.unit
        typed_number = filled[0] if "/" not in filled[0] else ""
        size = _block(length.value, unit, _decimals(typed_number), at)
        (wear if len(filled) == 2 else blocks).append(size)
    return _checked(BlockSet(path.name, unit, tuple(blocks), tuple(wear)), path.name)


def _from_rows(name: str, rows: list[Row], file: str, tables: Tables | None = None) -> BlockSet:
    """Return the set that rows of sizes, steps and pieces list."""
    blocks: list[Quantity] = []
    wear: list[Quantity] = []
    unit = ""
    for row in rows:
        at = f"{file}, line {row.line}"
        cells = row.cells
        if cells["unit"] not in _LONGEST:
            raise TableError(f"{at}, unit: '{cells['unit']}' is not in or mm; put one of them")
        if unit and cells["unit"] != unit:
            raise TableError(f"{at}, unit: {cells['unit']} in a set of {unit}; keep one unit a set")
        unit = cells["unit"]
        named = cells.get("set", "") or name
        if tables is None and named != (rows[0].cells.get("set", "") or name):
            raise TableError(f"{at}, set: '{named}' is another set; keep one set a file")
        if cells.get("wear", "") not in ("", "yes"):
            raise TableError(f"{at}, wear: '{cells['wear']}' is not yes; put yes or leave it empty")
        made = _row_of_blocks(row, at, unit)
        if tables is not None:
            known = standing_of(cells["from"], row.id, tables)
            address = f"{row.table}/{row.id}/from_size"
            made = [replace(q, standing=known, rows=(address,)) for q in made]
        (wear if cells.get("wear") else blocks).extend(made)
    return _checked(BlockSet(name, unit, tuple(blocks), tuple(wear)), file)


def _row_of_blocks(row: Row, at: str, unit: str) -> list[Quantity]:
    """Return the blocks of one row, its count of pieces proved."""
    first, last = (_cell(row, at, c, unit) for c in ("from_size", "to_size"))
    pieces = _cell(row, at, "pieces", "")
    step = _cell(row, at, "step", unit) if row.cells["step"] else Fraction(0)
    if pieces.denominator != 1 or not 0 < pieces <= _MOST_PIECES:
        raise TableError(f"{at}, pieces: {row.cells['pieces']} is no count of blocks; count them")
    if step < 0 or (step == 0 and first != last):
        raise TableError(
            f"{at}, step: the step from {row.cells['from_size']} to {row.cells['to_size']} is "
            "wanted; put the difference between neighbours"
        )
    # Without a step, and from a size to itself, all pieces are of one size.
    if first != last and first + step * (pieces - 1) != last:
        raise TableError(
            f"{at}, pieces: {row.cells['from_size']} to {row.cells['to_size']} by "
            f"{row.cells['step']} is not {pieces} blocks; correct the size, the step or the count"
        )
    texts = [row.cells[c] for c in ("from_size", "to_size", "step") if "/" not in row.cells[c]]
    places = max((_decimals(text) for text in texts), default=0)
    each = step if first != last else Fraction(0)
    return [_block(first + each * n, unit, places, at) for n in range(int(pieces))]


def _cell(row: Row, at: str, column: str, unit: str) -> Fraction:
    text = row.cells[column]
    other = {"in": " mm", "mm": " in"}.get(unit)
    try:
        if other and text.endswith(other):
            raise ValueError(f"'{text}' stands in a row of {unit}")
        return number(text)
    except ValueError as fault:
        raise TableError(f"{at}, {column}: {fault}; type the figure as on the block") from None


def _decimals(text: str) -> int:
    """Return the digits after the decimal mark of a size, its unit left out."""
    found = re.match(r"[\d.]*", text)
    return places_of(found.group()) if found else 0


def _block(value: Fraction, unit: str, places: int, at: str) -> Quantity:
    """Return one block, of a size that a block can have. [length]"""
    if not 0 < value <= _LONGEST[unit]:
        raise TableError(
            f"{at}: no gauge block is {float(value):g} {unit}; they go up to "
            f"{_LONGEST[unit]} {unit}"
        )
    if (value / _FINEST).denominator != 1:
        raise TableError(
            f"{at}: a size of {float(value):.9g} {unit} is finer than a block is made; put "
            "six decimals at most"
        )
    size = Quantity(value, unit, EXACT)
    return size.printed(max(min(places, 6), places_in_full(value)))


def _checked(box: BlockSet, file: str) -> BlockSet:
    """Return a set that has blocks, and no more of them than can be searched at once."""
    if not box.blocks:
        raise TableError(f"{file} lists no blocks for the set; give one size a line, with its unit")
    count = len(box.blocks)
    if count > _MOST_PIECES or count**2 * (box.total / box.grain) > _MOST_WORK:
        raise TableError(
            f"{file} lists {count} blocks in steps of {float(box.grain):g} {box.unit}, too many to "
            "search; leave out those that you do not use"
        )
    return box
