"""Single cells: dates, lost zeros, lost points, powers of ten, formulas, quotes."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import TYPE_CHECKING

from keyseats.faults import TableError

if TYPE_CHECKING:
    from keyseats.load import Column

Told = tuple[str, str]

# The first three letters of each month in English, German, French, Spanish and Italian.
_MONTHS = (
    "jan ene gen",
    "feb fév fev",
    "mar mär mrz",
    "apr avr abr",
    "may mai mag",
    "jun jui giu",
    "jul lug",
    "aug aoû aou ago",
    "sep set",
    "oct okt ott",
    "nov",
    "dec dez déc dic",
)
_MONTH = {word: n for n, words in enumerate(_MONTHS, start=1) for word in words.split()}
_NAMED = "|".join(_MONTH)
_DAY_MONTH = re.compile(
    rf"(\d{{1,2}})[-./ ]{{1,2}}({_NAMED})[^\W\d_]*\.?(?:[-./ ]{{1,2}}\d{{2,4}})?", re.IGNORECASE
)
_MONTH_YEAR = re.compile(
    rf"({_NAMED})[^\W\d_]*\.?[-./ ]{{1,2}}0?(\d{{1,4}})(?:,? \d{{2,4}})?", re.IGNORECASE
)
_NUMBERS = re.compile(r"\d{4}([/.-])\d{1,2}\1\d{1,2}.*|\d{1,2}([/.-])\d{1,2}\2\d{2,4}.*", re.DOTALL)
_DAY_COUNT = re.compile(r"[34]\d{4}")
_ERROR = re.compile(r"#[A-Z][A-Z0-9/_]*[!?]?|Err:\d+", re.IGNORECASE)
_PLAIN = re.compile(r"[-−]?\d+(?:\.\d+)?")
_THREE = re.compile(r"[-−]?\d{1,3}\.\d{3}")
_NOISE = re.compile(r"[-−]?\d*\.\d*?(?:0{5,}[1-9]\d?|9{5,}\d{0,2})")
_QUOTES = "\"'“”„‟‘’‚‛″′«»"
FIGURES = ("length", "number")
_AS_PRINTED = "type the figure as printed"
_AS_TEXT = "type the figure as printed, in a column formatted as text"


def dated(text: str, *, length: bool) -> Told | None:
    """Return what turned a fraction into a date and what would mend it; None if it is no date.

    Parameters
    ----------
    text
        The cell.
    length
        Whether its column holds lengths, in which a count of days cannot be meant.
    """
    fraction = ""
    if match := _DAY_MONTH.fullmatch(text):
        fraction = f"{_MONTH[match.group(2).lower()]}/{int(match.group(1))}"
    elif match := _MONTH_YEAR.fullmatch(text):
        fraction = f"{_MONTH[match.group(1).lower()]}/{int(match.group(2))}"
    elif not _NUMBERS.fullmatch(text):
        if not (length and _DAY_COUNT.fullmatch(text)):
            return None
        return (
            f"{text} is a spreadsheet's count of days: a fraction was taken for a date",
            "type the figure as printed, a fraction with its unit, as 1/16 in",
        )
    example = f"{fraction} in" if fraction else "1/16 in"
    was = f"the fraction {fraction}, perhaps," if fraction else "a fraction"
    return (
        f"'{text}' is a date: the spreadsheet took {was} for one",
        f"type the figure as printed, a fraction with its unit, as {example}",
    )


def spoilt(text: str) -> Told | None:
    """Return what a spreadsheet did to any cell, words as well as figures, or None."""
    first = text[0]
    if first == "#" and not text.strip("#"):
        return (
            f"'{text}' is no figure: the spreadsheet's column was too narrow to show it",
            f"make the column wider, save again, or {_AS_PRINTED}",
        )
    if _ERROR.fullmatch(text):
        return (
            f"'{text}' is a spreadsheet's error: a formula could not be worked out",
            "type the figure itself as printed, not a formula",
        )
    if first in "=@":
        return (
            f"'{text}' is a formula to a spreadsheet, not a figure or a word",
            "type what the cell should say",
        )
    if first == "'" or (first in _QUOTES and text[-1] in _QUOTES and len(text) > 1):
        return (
            f"{text} begins with a quote that a spreadsheet hides or has curled",
            "take the quotes out of the cell",
        )
    return None


def miscounted(cells: list[str], heads: int) -> Told:
    """Return what is wrong with a line of too many or too few cells, and what would mend it."""
    says = f"{len(cells)} cells under {heads} heads"
    if any(cell[:1] in "“”„‟«" for cell in cells if cell):
        return (
            f"{says}: its quotes are curled, so that they no longer hold a cell together",
            'put straight quotes (") round a cell that holds a comma',
        )
    if len(cells) < heads:
        return (
            f"{says}: a cell was deleted, or the empty cells at its end were left off",
            "leave no cell out; an empty one needs its comma too",
        )
    return f"{says}: a cell holds a comma", "put quotes round a cell that holds a comma"


def unread(text: str, unit: str, wrong: str) -> Told:
    """Return what is wrong with a cell that is no number, and what would mend it.

    Parameters
    ----------
    text
        The cell.
    unit
        Its column's unit.
    wrong
        What the reader of numbers said of it.
    """
    told = spoilt(text) or dated(text, length=bool(unit))
    if told:
        return told
    unit = unit or "in"
    if len(text) > 60:
        return f"{len(text)} characters are no figure", _AS_PRINTED
    if re.fullmatch(r"[-\d./ ]+/\d+\s*(?:in|mm|[\"”″])?", text):
        bare = re.sub(r"\s*(?:in|mm|[\"”″])$", "", text)
        if bare != text:
            curled = "a quote" if text[-1] in _QUOTES else "no space before its unit"
            says = f"'{text}' has {curled}" + (" for its unit" if curled == "a quote" else "")
            return says, f"type {bare} {unit}"
        return (
            f"the fraction {text} has lost its unit, and a spreadsheet will take it for a date",
            f"type {text} {unit}",
        )
    if re.fullmatch(r"[-+]?[\d.,]+[eE][-+]?\d+", text):
        return (
            f"'{text}' is a power of ten: the spreadsheet did not keep the figure as printed",
            _AS_TEXT,
        )
    if any(quote in text for quote in _QUOTES):
        return f"'{text}' has quotes, curled by the spreadsheet perhaps", "take the quotes out"
    if "," in text:
        return f"'{text}' holds a comma", "use a point for the decimal mark and nothing else"
    if text.endswith("%"):
        return f"'{text}' is shown in hundredths by the spreadsheet", _AS_TEXT
    if text[0] == "+":
        return f"'{text}' begins with a plus sign", "leave the plus sign out"
    return wrong, _AS_PRINTED


def noise(text: str) -> bool:
    """Return whether a figure is a binary number written out, as 0.0104999999 for 0.0105."""
    return len(text) > 9 and _NOISE.fullmatch(text) is not None


def restored(text: str, places: int) -> str:
    """Return a decimal with the trailing zeros that a spreadsheet dropped.

    Parameters
    ----------
    text
        The cell.
    places
        Digits that the column prints after the decimal mark.
    """
    if not places or not _PLAIN.fullmatch(text):
        return text
    whole, point, digits = text.partition(".")
    # Five digits without a point are no figure of these tables, but may be a count of days.
    if len(digits) >= places or (not point and len(whole) > 4):
        return text
    return f"{whole}.{digits:0<{places}}"


def pointless(columns: Iterable[tuple[int | None, list[str]]]) -> list[tuple[int, int]]:
    """Return where figures of three decimals have become thousands, as 0.104 became 104.

    A spreadsheet whose language has a comma for the decimal mark takes 0.104 for 104 and leaves
    0.0625 alone. Then no figure of the file keeps three decimals.

    Parameters
    ----------
    columns
        For each column of figures its printed places and its cells.

    Returns
    -------
    list of (int, int)
        Column and row of each whole number that should have a decimal mark.
    """
    columns = list(columns)
    if any(_THREE.fullmatch(text) for _, cells in columns for text in cells):
        return []
    found = []
    for at, (places, cells) in enumerate(columns):
        finer = any(len(text.partition(".")[2]) > 3 for text in cells if " " not in text)
        if not finer and (places is None or places < 3):
            continue
        for row, text in enumerate(cells):
            if text.strip("-−").isdecimal() and text.strip("-−0"):
                found.append((at, row))
    return found


def mend(file: str, columns: Iterable[Column], rows: list[tuple[int, dict[str, str]]]) -> None:
    """Put back the trailing zeros that a spreadsheet dropped from a table's figures.

    Parameters
    ----------
    file
        The table's file, for the message.
    columns
        Its columns.
    rows
        Its lines with their cells, which are changed.

    Raises
    ------
    TableError
        If a figure has lost its decimal mark.
    """
    figures = [c for c in columns if c.kind in FIGURES]
    for at, row in pointless((c.places, [r[c.name] for _, r in rows]) for c in figures):
        line, cells = rows[row]
        says, remedy = told_pointless(cells[figures[at].name])
        raise TableError(f"{file}, line {line}, {figures[at].name}: {says}; {remedy}")
    for _, cells in rows:
        for column in figures:
            if column.places:
                cells[column.name] = restored(cells[column.name], column.places)


def told_pointless(text: str) -> Told:
    """Return the words for a whole number that has lost its decimal mark."""
    return (
        f"{text} has no decimal mark, and no figure of the file keeps three decimals: the "
        f"spreadsheet took a point for thousands ({_thousandth(text)} became {text})",
        "open the table again with English (US) as the language, or type the figures as printed",
    )


def _thousandth(text: str) -> str:
    digits = text.lstrip("-−").rjust(4, "0")
    sign = "-" if text[0] in "-−" else ""
    return f"{sign}{digits[:-3]}.{digits[-3:]}"
