"""What spreadsheets do to a table: read right, or refused with line, cell, cause and remedy."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest

from keyseats.faults import KeyseatError
from keyseats.load import Tables
from keyseats.records import InchHalfMoonSeat
from keyseats.spreadsheet.cells import noise, restored
from tables.planting import Bed

SEATS, KEYS, PLAIN = "inch_half_moon_seats", "inch_half_moon_keys", "inch_plain_keys"
Change = Callable[[bytes], bytes]


def figures(tables: Tables) -> dict[tuple[str, str, str], str]:
    """Return every cell of every table by its address."""
    return {
        (name, row.id, column): text
        for name in tables.schema
        for row in tables.rows(name)
        for column, text in row.cells.items()
    }


def spoil(bed: Bed, change: Change, *names: str) -> None:
    """Change the bytes of some files, or of all."""
    for path in sorted(bed.folder.glob("*.csv")):
        if not names or path.stem in names:
            before = path.read_bytes()
            path.write_bytes(change(before))
            assert path.read_bytes() != before, f"nothing would change in {path.name}"


def semicolons(data: bytes) -> bytes:
    """Return a CSV file as a spreadsheet writes it whose language has a decimal comma."""
    import csv
    import io

    rows = list(csv.reader(io.StringIO(data.decode())))
    turned = [
        [c.replace(".", ",") if re.fullmatch(r"-?\d+\.\d+", c) else c for c in row] for row in rows
    ]
    out = io.StringIO()
    csv.writer(out, delimiter=";", lineterminator="\r\n").writerows(turned)
    return out.getvalue().encode()


def tabs(data: bytes) -> bytes:
    import csv
    import io

    out = io.StringIO()
    rows = csv.reader(io.StringIO(data.decode()))
    csv.writer(out, delimiter="\t", lineterminator="\n").writerows(rows)
    return out.getvalue().encode()


def one_cell_a_line(data: bytes) -> bytes:
    """Return a file as it is saved when each line was opened as one cell."""
    lines = data.decode().splitlines()
    return "".join('"' + line.replace('"', '""') + '"\n' for line in lines).encode()


def all_quoted(data: bytes) -> bytes:
    import csv
    import io

    out = io.StringIO()
    csv.writer(out, quoting=csv.QUOTE_ALL).writerows(csv.reader(io.StringIO(data.decode())))
    return out.getvalue().encode()


def no_zeros(data: bytes) -> bytes:
    """Drop trailing zeros of every figure that is the whole of a cell."""
    text = re.sub(r"(?<![^,\n])(-?\d+\.\d*?)0+(?![^,\n])", r"\1", data.decode())
    return re.sub(r"(?<![^,\n])(-?\d+)\.(?![^,\n])", r"\1", text).encode()


def swap(before: str, after: str) -> Change:
    return lambda data: data.replace(before.encode(), after.encode())


UNDONE: dict[str, tuple[Change, str]] = {
    "byte-order mark": (lambda d: b"\xef\xbb\xbf" + d, ""),
    "CRLF": (swap("\n", "\r\n"), ""),
    "CR": (swap("\n", "\r"), ""),
    "byte-order mark and CRLF": (lambda d: b"\xef\xbb\xbf" + d.replace(b"\n", b"\r\n"), ""),
    "no line end at the end": (lambda d: d[:-1], ""),
    "semicolons and decimal commas": (semicolons, "separated by semicolons"),
    "tabs": (tabs, "separated by tabs"),
    "UTF-16": (lambda d: d.decode().encode("utf-16"), "UTF-16"),
    "UTF-16, tabs": (lambda d: tabs(d).decode().encode("utf-16"), "separated by tabs"),
    "UTF-16, big end first": (lambda d: b"\xfe\xff" + d.decode().encode("utf-16-be"), "UTF-16"),
    "non-breaking spaces": (swap(" ", "\u00a0"), "odd spaces"),
    "narrow spaces": (swap(" in,", "\u202fin,"), "odd spaces"),
    "marks of no width": (swap(",", "\u200b,"), "marks of no width"),
    "trailing empty rows": (lambda d: d + b",,,\n\n,\n", ""),
    "empty rows between": (swap("\n", "\n,,\n"), ""),
    "trailing empty columns": (swap("\n", ",,\n"), ""),
    "spaces round the cells": (swap(" in,", " in  ,"), ""),
    "each line one cell": (one_cell_a_line, "one cell in quotes"),
    "every cell in quotes": (all_quoted, ""),
}


@pytest.mark.slow
@pytest.mark.parametrize("harm", UNDONE)
def test_a_lossless_change_is_undone_and_said(bed: Bed, harm: str, tables: Tables) -> None:
    change, says = UNDONE[harm]
    # Not every table has a fraction with its unit.
    spoil(
        bed, change, *([KEYS, SEATS] if harm in ("narrow spaces", "spaces round the cells") else [])
    )
    report = bed.check()
    assert [str(f) for f in report.faults] == []
    assert figures(Tables(bed.folder)) == figures(tables)
    said = " ".join(str(r) for r in report.remarks)
    assert says in said
    assert bool(said) == bool(says)


def test_dropped_zeros_are_put_back(bed: Bed, tables: Tables) -> None:
    wanted = figures(tables)
    for table in (SEATS, KEYS, PLAIN, "inch_plain_fits", "inch_plain_key_limits", "shared_limits"):
        if b"0," in (bed.folder / f"{table}.csv").read_bytes():
            (bed.folder / f"{table}.csv").write_bytes(
                no_zeros((bed.folder / f"{table}.csv").read_bytes())
            )
    text = (bed.folder / f"{SEATS}.csv").read_text(encoding="utf-8")
    assert "0.063," in text
    assert "0.0630" not in text
    report = bed.check()
    assert [str(f) for f in report.faults] == []
    assert figures(Tables(bed.folder)) == wanted
    says = "0.063 has lost trailing zeros; as printed it is 0.0630"
    assert says in [r.says for r in report.remarks]


@pytest.mark.parametrize(
    ("text", "places", "full"),
    [
        ("0.063", 4, "0.0630"),
        ("1", 3, "1.000"),
        ("-0", 3, "-0.000"),
        ("0.0630", 4, "0.0630"),
        ("0.06301", 4, "0.06301"),
        ("3/16 in", 4, "3/16 in"),
        ("5", 0, "5"),
        ("", 3, ""),
    ],
)
def test_zeros_are_put_back_on_decimals_alone(text: str, places: int, full: str) -> None:
    assert restored(text, places) == full


# What stands in the cell, the row and column, the rule, what is said, and what would do.
SEAT_608 = (SEATS, "depth_at_edge", {"key": "608"})
WIDTH_608 = (KEYS, "width", {"key": "608"})
REFUSED: list[tuple[tuple[str, str, dict[str, str]], str, str, str, str]] = [
    (WIDTH_608, "4-Jan", "date", "the fraction 1/4", "as 1/4 in"),
    (WIDTH_608, "04-Jan-26", "date", "the fraction 1/4", "as 1/4 in"),
    (WIDTH_608, "4. Jan.", "date", "the fraction 1/4", "as 1/4 in"),
    (WIDTH_608, "3. Mrz", "date", "the fraction 3/3", "as 3/3 in"),
    (WIDTH_608, "5 mai 2026", "date", "the fraction 5/5", "with its unit"),
    (WIDTH_608, "Jan-16", "date", "the fraction 1/16", "as 1/16 in"),
    (WIDTH_608, "Jan 16, 2026", "date", "the fraction 1/16", "as 1/16 in"),
    (WIDTH_608, "01/04/2026", "date", "is a date", "with its unit"),
    (WIDTH_608, "1.4.26", "date", "is a date", "with its unit"),
    (WIDTH_608, "2026-01-04", "date", "is a date", "with its unit"),
    (WIDTH_608, "2026-01-04 00:00:00", "date", "is a date", "with its unit"),
    (WIDTH_608, "2026/1/4", "date", "is a date", "with its unit"),
    (WIDTH_608, "46026", "date", "count of days", "with its unit"),
    (WIDTH_608, "1/4", "number", "has lost its unit", "type 1/4 in"),
    (WIDTH_608, "1/4”", "number", "a quote for its unit", "type 1/4 in"),
    (WIDTH_608, '1/4"', "number", "a quote for its unit", "type 1/4 in"),
    (WIDTH_608, "“1/4 in”", "number", "has curled", "take the quotes out"),
    (WIDTH_608, "'1/4 in", "number", "a spreadsheet hides", "take the quotes out"),
    (WIDTH_608, "=1/4", "number", "is a formula", "type the figure itself"),
    (SEAT_608, "0,3393", "number", "holds a comma", "a point for the decimal mark"),
    (SEAT_608, "3.393E-01", "number", "power of ten", "a column formatted as text"),
    (SEAT_608, "1.2E-3", "number", "power of ten", "a column formatted as text"),
    (SEAT_608, "3,393E-1", "number", "power of ten", "a column formatted as text"),
    (SEAT_608, "######", "number", "too narrow", "make the column wider"),
    (SEAT_608, "#REF!", "number", "spreadsheet's error", "not a formula"),
    (SEAT_608, "#NAME?", "number", "spreadsheet's error", "not a formula"),
    (SEAT_608, "#DIV/0!", "number", "spreadsheet's error", "not a formula"),
    (SEAT_608, "#N/A", "number", "spreadsheet's error", "not a formula"),
    (SEAT_608, "Err:502", "number", "spreadsheet's error", "not a formula"),
    (SEAT_608, "=A1+0.1", "number", "is a formula", "type what the cell"),
    (SEAT_608, "+0.3393", "number", "a plus sign", "leave the plus sign out"),
    (SEAT_608, "33.93%", "number", "in hundredths", "a column formatted as text"),
    (SEAT_608, "0.3392999999", "number", "binary number written out", "formatted as text"),
    (SEAT_608, "0.339300000000001", "number", "binary number written out", "formatted as text"),
    (SEAT_608, "0.33931", "places", "5 decimals where the column prints 4", "as printed"),
    (SEAT_608, "0.33‘93", "number", "curled by the spreadsheet", "take the quotes out"),
    ((KEYS, "series", {"key": "608"}), "=standard", "spreadsheet", "is a formula", "type what"),
    ((KEYS, "series", {"key": "608"}), "#NAME?", "spreadsheet", "spreadsheet's error", "itself"),
    ((KEYS, "series", {"key": "608"}), "####", "spreadsheet", "too narrow", "wider"),
    ((KEYS, "key", {"key": "608"}), "'608", "spreadsheet", "a spreadsheet hides", "take the"),
    ((KEYS, "key", {"key": "608"}), "8-Jun", "date", "is a date", "with its unit"),
    ((KEYS, "note", {"key": "608"}), "@SUM(1)", "spreadsheet", "is a formula", "type what"),
]


@pytest.mark.slow
@pytest.mark.parametrize(("where", "text", "rule", "says", "remedy"), REFUSED)
def test_a_spoilt_cell_is_refused_with_cause_and_remedy(
    bed: Bed,
    where: tuple[str, str, dict[str, str]],
    text: str,
    rule: str,
    says: str,
    remedy: str,
) -> None:
    table, column, row = where
    line = bed.plant(table, column, text, **row)
    found = [f for f in bed.check().faults if (f.line, f.column) == (line, column)]
    told = next(f for f in found if f.rule == rule)
    assert told.file == f"{table}.csv"
    assert says in told.says
    if not (text.startswith("=") and rule == "number"):
        assert remedy in told.remedy


# Figures that a number can be read from are left to check, which a build goes through.
UNREAD = [t for w, t, r, s, _ in REFUSED if w in (SEAT_608, WIDTH_608) and r != "places"]


@pytest.mark.parametrize("text", [t for t in UNREAD if not noise(t)])
def test_the_loader_refuses_it_too(bed: Bed, text: str) -> None:
    column = "depth_at_edge"
    line = bed.plant(SEATS, column, text, key="608")
    with pytest.raises(KeyseatError, match=f"^{SEATS}.csv, line {line}, {column}: .+; ") as told:
        Tables(bed.folder).records(InchHalfMoonSeat, SEATS)
    assert "\n" not in str(told.value)


# Stands for the line of No. 608.
NO_608 = -1
FILES: list[tuple[str, Change, int, str, str]] = [
    (
        "Windows-1252",
        lambda d: d.replace(b"rule-same-width,", b"\x93rule\x94,", 1),
        3,
        "hub_depth_from",
        "byte 93 (hexadecimal) is not UTF-8: the spreadsheet saved in Windows-1252",
    ),
    ("UTF-16 without a mark", lambda d: d.decode().encode("utf-16-le"), 1, "", "UTF-16"),
    (
        "UTF-8 read as Windows-1252",
        swap("608,", "608,Ã—"),
        NO_608,
        "width",
        "one character read as",
    ),
    ("a lost character", swap("608,", "608,\ufffd"), NO_608, "width", "a character was lost"),
    ("a control character", swap("608,", "608,\x1b[2J"), NO_608, "width", "U+001B"),
    ("a mark that turns text round", swap("608,", "608,\u202e"), NO_608, "width", "U+202E"),
    ("a quote that never closes", swap("608,", '608,"'), NO_608, "", "a quote is never closed"),
    ("a line break in a cell", swap("608,", '608,"a\nb",'), NO_608, "", "a cell runs on"),
    (
        "curled quotes round a comma",
        swap("608,", "608,“a, b”,"),
        NO_608,
        "",
        "its quotes are curled",
    ),
    ("a comma and a point", lambda d: semicolons(d).replace(b"0,3393", b"0.3393"), 0, "", "comma"),
    ("too many columns", swap("608,", "608" + "," * 200 + "x,"), NO_608, "", "empty columns"),
    ("a cell too long", swap("608,", "608," + "x" * 1001), NO_608, "", "over 1,000 characters"),
    ("too many rows", lambda d: d + b"9,\n" * 2000, 1, "", "filled lines, over 2,000"),
    ("too large", lambda d: d + b"9,\n" * 400_000, 1, "", "over 1,000,000 bytes"),
]


@pytest.mark.parametrize(("harm", "change", "line", "column", "says"), FILES)
def test_a_spoilt_file_is_refused_with_its_line(
    bed: Bed, harm: str, change: Change, line: int, column: str, says: str
) -> None:
    line = bed.line(SEATS, key="608") if line == NO_608 else line
    spoil(bed, change, SEATS)
    told = [f for f in bed.check().faults if f.file == f"{SEATS}.csv" and says in str(f)]
    assert told, [str(f) for f in bed.check().faults]
    assert told[0].remedy
    assert line in (0, told[0].line)
    assert column in ("", told[0].column)
    with pytest.raises(KeyseatError, match=re.escape(f"{SEATS}.csv")):
        Tables(bed.folder).rows(SEATS)


@pytest.mark.parametrize(
    ("table", "figure"),
    [
        (SEATS, "0.268"),
        ("inch_plain_key_limits", "0.001"),
        ("shared_limits", "0.005"),
        ("alignment_limits", "0.002"),
        ("paper_thickness", "0.002"),
        (PLAIN, "0.125"),
        ("gauge_blocks", "0.101"),
    ],
)
def test_a_point_taken_for_thousands_is_refused(bed: Bed, table: str, figure: str) -> None:
    """A spreadsheet set to German reads 0.104 as 104 and leaves 0.0625 alone (seen in one)."""

    def change(data: bytes) -> bytes:
        def cell(match: re.Match[str]) -> str:
            return str(int(match.group().replace(".", "")))

        return re.sub(r"(?<![^,\n])-?\d{1,3}\.\d{3}(?![^,\n])", cell, data.decode()).encode()

    spoil(bed, change, table)
    whole = str(int(figure.replace(".", "")))
    told = [f for f in bed.check().faults if f.file == f"{table}.csv" and f.rule == "number"]
    assert f"({figure} became {whole})" in " ".join(f.says for f in told)
    assert "English (US)" in told[0].remedy
    if table in (SEATS, "shared_limits", "inch_plain_key_limits"):
        with pytest.raises(KeyseatError, match="took a point for thousands"):
            Tables(bed.folder).rows(table)


@pytest.mark.parametrize("text", ["0.0104999999", "0.30000000000000004", "1.10000001"])
def test_noise_is_told_from_figures(text: str) -> None:
    assert noise(text)


def test_a_shipped_figure_is_never_noise(tables: Tables) -> None:
    for (table, _, column), text in figures(tables).items():
        kinds = {c.name: c.kind for c in tables.columns(table)}
        if kinds[column] in ("length", "number") and text:
            assert not noise(text), (table, column, text)
