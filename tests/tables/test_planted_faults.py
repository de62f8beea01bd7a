"""One planted fault for each rule: found, with its file, line, column and rule."""

from __future__ import annotations

import pytest

from keyseats.__main__ import main
from keyseats.check import grammar
from keyseats.check.formulas import FORMULAS
from tables.planting import Bed

KEYS, SEATS = "inch_half_moon_keys", "inch_half_moon_seats"
PLAIN = "metric_plain_keys"
ISO_8 = {"standard": "ISO/R 773", "width": "8"}
ISO_10 = {"standard": "ISO/R 773", "width": "10"}
FIT = {"fit": "class 1", "section": "square", "width_over": "1/2 in"}
CLASS_1 = {"stock": "bar stock", "section": "square", "width_over": "3/4 in"}
SKEW = {"feature": "skew", "length_over": "4 in"}
JOINED = "range to shaft_to within standard where series = main"
LIMITS_JOINED = "range to width_to within stock + section"

# table, column, planted text, the row by some of its cells, the rule reported
CELLS: list[tuple[str, str, str, dict[str, str], str]] = [
    (SEATS, "depth_at_edge", "0.33q3", {"key": "608"}, "number"),
    (SEATS, "depth_at_edge", "0,3393", {"key": "608"}, "number"),
    (SEATS, "depth_at_edge", "3.393E-01", {"key": "608"}, "number"),
    (SEATS, "depth_at_edge", "nan", {"key": "608"}, "number"),
    (SEATS, "depth_at_edge", "", {"key": "608"}, "blank"),
    (SEATS, "depth_from", "", {"key": "608"}, "blank"),
    (SEATS, "depth_at_edge", "0.33931", {"key": "608"}, "places"),
    (SEATS, "depth_at_edge", "0.3393 mm", {"key": "608"}, "unit"),
    ("inch_half_moon_shafts", "shaft_to", "1-1/8", {"shaft_to": "1-1/8 in"}, "number"),
    (KEYS, "width", "3/16", {"key": "608"}, "number"),
    (KEYS, "width", "3/16in", {"key": "608"}, "number"),
    (KEYS, "width", "16-Mar", {"key": "608"}, "date"),
    (KEYS, "width", "Mar-16", {"key": "608"}, "date"),
    (KEYS, "width", "2026-03-16", {"key": "608"}, "date"),
    (KEYS, "width", "3/16/2026", {"key": "608"}, "date"),
    (KEYS, "width", "46097", {"key": "608"}, "date"),
    (SEATS, "depth_from", "no-such-book", {"key": "608"}, "source"),
    (SEATS, "depth_from", "shigley-t7-7 + no-such-book", {"key": "608"}, "source"),
    (SEATS, "depth_from", "shigley-t7-7 + shigley-t7-7", {"key": "608"}, "source"),
    (SEATS, "depth_from", "shigley-t7-7 + memory", {"key": "608"}, "source"),
    (KEYS, "series", "standart", {"key": "608"}, "one of standard | large"),
    (KEYS, "height_least", "0.439", {"key": "608"}, "not over height_most"),
    (KEYS, "width_decimal", "0.1876", {"key": "608"}, "decimal of width"),
    (KEYS, "width_decimal", "0.2", {"key": "608"}, "decimal of width"),
    (KEYS, "key", "607", {"key": "608"}, "unique"),
    (SEATS, "width", "1/4 in", {"key": "608"}, f"same as {KEYS}.width by key"),
    (SEATS, "key", "999", {"key": "608"}, f"known in {KEYS}.key"),
    (
        "inch_half_moon_shafts",
        "keys",
        "304 999",
        {"list": "by shaft, textbook", "keys": "304 305"},
        f"all known in {KEYS}.key",
    ),
    (
        "inch_half_moon_shafts",
        "shaft_from",
        "3/4 in",
        {"list": "by width", "shaft_from": "5/16 in"},
        "range from, to shaft_to, may overlap, within list",
    ),
    (PLAIN, "shaft_over", "23", ISO_8, JOINED),
    (PLAIN, "shaft_over", "21", ISO_8, JOINED),
    (PLAIN, "shaft_over", "30", ISO_8, JOINED),
    ("inch_plain_key_limits", "width_over", "7/8 in", CLASS_1, LIMITS_JOINED),
    ("alignment_limits", "length_over", "5 in", SKEW, "range to length_to within feature"),
    ("alignment_limits", "length_over", "", SKEW, "range to length_to within feature"),
    (PLAIN, "width", "8.0", ISO_10, "unique with standard + series"),
    ("sources", "kind", "hearsay", {"id": "ee-14411"}, "one of"),
    ("sources", "kind", "rule", {"id": "ee-14411"}, "one of"),
    ("sources", "title", "", {"id": "ee-14411"}, "blank"),
    ("sources", "id", "ee-14413", {"id": "ee-14414"}, "unique"),
    ("sources", "inputs", f"{KEYS}.no_such_column", {"id": "rule-depth"}, "source"),
    ("sources", "inputs", "no-such-book", {"id": "rule-same-circle"}, "source"),
    ("schema", "rule", "not above width", {"table": KEYS, "column": "height_least"}, "rule"),
    ("schema", "rule", "not over no_such", {"table": KEYS, "column": "height_least"}, "rule"),
    ("schema", "rule", "is rule-no-such", {"table": KEYS, "column": "height_least"}, "rule"),
    ("schema", "kind", "figure", {"table": KEYS, "column": "height_least"}, "one of"),
    ("schema", "unit", "cm", {"table": KEYS, "column": "height_least"}, "one of"),
    ("schema", "blank", "no", {"table": KEYS, "column": "height_least"}, "one of"),
    ("schema", "places", "three", {"table": KEYS, "column": "height_least"}, "number"),
    ("schema", "from", "no_such", {"table": KEYS, "column": "height_least"}, "source"),
    ("schema", "from", "", {"table": KEYS, "column": "height_least"}, "source"),
    ("quirks", "state", "certain", {"row": "302.5", "column": "depth_at_edge"}, "one of"),
    ("quirks", "reason", "", {"row": "302.5", "column": "depth_at_edge"}, "blank"),
    ("quirks", "printed", "0.0883", {"row": "302.5", "column": "depth_at_edge"}, "quirk"),
    ("quirks", "rule_gives", "0.0880", {"row": "302.5", "column": "depth_at_edge"}, "quirk"),
    ("quirks", "row", "999", {"row": "302.5", "column": "depth_at_edge"}, "quirk"),
    ("quirks", "table", "no_such", {"row": "302.5", "column": "depth_at_edge"}, "quirk"),
    ("quirks", "column", "hub_width", {"row": "302.5", "column": "depth_at_edge"}, "quirk"),
]


@pytest.mark.slow
@pytest.mark.parametrize(("table", "column", "text", "where", "rule"), CELLS)
def test_a_planted_cell_is_found(
    bed: Bed, table: str, column: str, text: str, where: dict[str, str], rule: str
) -> None:
    line = bed.plant(table, column, text, **where)
    assert (f"{table}.csv", line, column, rule) in bed.places()


# table, column, planted figure, the row by some of its cells, the formula that finds it
FIGURES: list[tuple[str, str, str, dict[str, str], str]] = [
    (KEYS, "width", "7/32 in", {"key": "608"}, "rule-number-width"),
    (KEYS, "width", "3/32 in", {"key": "202.5"}, "rule-number-width"),
    (KEYS, "diameter", "3/8 in", {"key": "202.5"}, "rule-number-diameter"),
    (KEYS, "diameter", "2 in", {"key": "617-1"}, "rule-number-diameter"),
    (KEYS, "height_most", "0.439", {"key": "608"}, "rule-key-height"),
    (KEYS, "flat_height_most", "0.429", {"key": "608"}, "rule-flat-height"),
    (KEYS, "flat_height_most", "0.162", {"key": "203"}, "rule-flat-height"),
    (KEYS, "length", "0.993", {"key": "608"}, "rule-key-length"),
    (SEATS, "depth_at_edge", "0.3394", {"key": "608"}, "rule-depth"),
    (SEATS, "key_above_edge", "0.0939", {"key": "608"}, "rule-half-width"),
    (SEATS, "hub_depth", "0.0998", {"key": "608"}, "rule-hub-depth"),
    ("inch_half_moon_cutters", "diameter", "7/8 in", {"cutter": "608"}, "rule-cutter-number"),
    ("inch_half_moon_cutters", "width", "1/4 in", {"cutter": "608"}, "rule-cutter-number"),
    ("inch_plain_fits", "side_loosest", "0.006", FIT, "rule-side-fit"),
    ("inch_plain_fits", "side_tightest", "-0.001", FIT, "rule-side-fit"),
    ("inch_plain_fits", "top_loosest", "0.033", FIT, "rule-top-fit"),
    ("inch_plain_fits", "top_tightest", "0.004", FIT, "rule-top-fit"),
    (PLAIN, "depth_plus", "0.3", ISO_8, "rule-depth-plus-as-hub"),
    (PLAIN, "hub_depth_plus", "0.1", ISO_8, "rule-hub-plus-bands"),
    (PLAIN, "top_clearance", "0.4", ISO_8, "rule-top-clearance-metric"),
    ("metric_width_fits", "lower", "-0.037", {"width": "8", "zone": "N9"}, "rule-iso286-zone"),
    ("metric_width_fits", "upper", "0.019", {"width": "8", "zone": "JS9"}, "rule-iso286-zone"),
    ("metric_width_fits", "upper", "0.036", {"width": "8", "zone": "D10"}, "rule-iso286-zone"),
    ("metric_width_fits", "upper", "0.037", {"width": "8", "zone": "H9"}, "rule-iso286-zone"),
    ("metric_half_moon_width_fits", "lower", "-1", {"zone": "P9"}, "rule-iso286-zone"),
    ("metric_half_moon_keys", "flat_height", "1.2", {"width": "1"}, "rule-flat-height-metric"),
    ("metric_half_moon_keys", "top_length", "3.83", {"width": "1"}, "rule-key-top-length"),
    (
        "metric_half_moon_seats",
        "top_clearance",
        "0.4",
        {"width": "8"},
        "rule-top-clearance-half-moon",
    ),
    ("cutting_speeds", "low_metric", "25", {"low": "80"}, "rule-metric-speed"),
]


@pytest.mark.parametrize(("table", "column", "text", "where", "formula"), FIGURES)
def test_a_figure_that_breaks_its_formula_is_found(
    bed: Bed, table: str, column: str, text: str, where: dict[str, str], formula: str
) -> None:
    line = bed.plant(table, column, text, **where)
    assert (f"{table}.csv", line, column, f"is {formula}") in bed.places()


def test_every_rule_and_formula_has_a_planted_fault() -> None:
    rules = [grammar.read_rule(rule) for *_, rule in CELLS]
    planted = {rule.kind for rule in rules if rule} | {"is"}
    assert planted == set(grammar.KINDS)
    assert {formula for *_, formula in FIGURES} == set(FORMULAS)


def test_a_lost_zero_is_a_remark_and_hides_nothing(bed: Bed) -> None:
    line = bed.plant(KEYS, "height_most", "0.26", key="405")
    bed.drop("quirks", row="302.5", column="depth_at_edge")
    bed.plant(SEATS, "depth_at_edge", "0.088", key="302.5")
    report = bed.check()
    assert (f"{KEYS}.csv", line, "height_most", "is rule-key-height") in bed.places()
    remarks = [(r.file, r.column, r.says) for r in report.remarks]
    says = "0.088 has lost trailing zeros; as printed it is 0.0880"
    assert (f"{SEATS}.csv", "depth_at_edge", says) in remarks


def test_a_lost_zero_alone_is_no_fault(bed: Bed) -> None:
    bed.plant(SEATS, "dia_least", "1", key="608")
    report = bed.check()
    assert not report.faults
    assert [r.says for r in report.remarks] == ["1 has lost trailing zeros; as printed it is 1.000"]


def test_a_figure_without_a_source_is_found(bed: Bed) -> None:
    line = bed.plant("inch_plain_keys", "square_from", "", shaft_over="9/16 in")
    places = bed.places()
    assert places == [("inch_plain_keys.csv", line, "height_square", "source")]


def test_a_formula_without_its_input_is_found(bed: Bed) -> None:
    line = bed.drop("iso286", symbol="IT9", size_over="6")
    rule = "range to size_to within kind + symbol"
    places = bed.places()
    assert ("iso286.csv", line, "size_over", rule) in places
    fits = bed.line("metric_width_fits", width="8", zone="N9")
    assert ("metric_width_fits.csv", fits, "lower", "is rule-iso286-zone") in places


def test_a_formula_that_no_source_explains_is_found(bed: Bed) -> None:
    bed.drop("sources", id="rule-half-width")
    line = bed.line("schema", table=SEATS, column="key_above_edge")
    assert ("schema.csv", line, "rule", "source") in bed.places()


def test_a_key_missing_from_one_table_is_found_in_the_other(bed: Bed) -> None:
    bed.drop(KEYS, key="608")
    line = bed.line(SEATS, key="608")
    assert (f"{SEATS}.csv", line, "key", f"known in {KEYS}.key") in bed.places()


def test_a_pair_of_known_names_that_is_not_a_row_is_found(bed: Bed) -> None:
    table = "metric_half_moon_seats"
    bed.drop("metric_half_moon_keys", standard="ISO 3912", designation="4 x 7.5 x 19")
    line = bed.line(table, designation="4 x 7.5 x 19")
    rule = "same as metric_half_moon_keys.width by standard + designation"
    assert (f"{table}.csv", line, "width", rule) in bed.places()


def test_a_correction_must_not_outlive_its_cause(bed: Bed) -> None:
    bed.plant(SEATS, "depth_at_edge", "0.0881", key="302.5")
    line = bed.line("quirks", row="302.5", column="depth_at_edge")
    assert ("quirks.csv", line, "printed", "quirk") in bed.places()
    bed.plant("quirks", "printed", "0.0881", row="302.5", column="depth_at_edge")
    fault = next(f for f in bed.check().faults if f.line == line)
    assert "agrees with its rule now" in fault.says


def test_a_cell_unread_in_one_table_is_not_told_again_from_another(bed: Bed) -> None:
    line = bed.plant(KEYS, "width", "16-Mar", key="608")
    assert bed.places() == [(f"{KEYS}.csv", line, "width", "date")]


def test_a_quirk_listed_twice_is_found(bed: Bed) -> None:
    line = bed.add("quirks", SEATS, "303", "depth_at_edge", "0.1202", "0.1201", "settled", "read")
    assert ("quirks.csv", line, "row", "unique") in bed.places()


def test_rows_out_of_order_are_found(bed: Bed) -> None:
    lines = bed.read("inch_plain_corners")
    lines[1], lines[2] = lines[2], lines[1]
    bed.write("inch_plain_corners", lines)
    assert bed.places() == [
        ("inch_plain_corners.csv", 3, "seat_depth_over", "range to seat_depth_to")
    ]


def test_a_row_with_too_few_cells_hides_no_other_fault(bed: Bed) -> None:
    lines = bed.read(SEATS)
    del lines[4][3]
    bed.write(SEATS, lines)
    line = bed.plant(SEATS, "depth_at_edge", "0.3394", key="608")
    assert bed.places() == [
        (f"{SEATS}.csv", 5, "", "cells"),
        (f"{SEATS}.csv", line, "depth_at_edge", "is rule-depth"),
    ]


def test_a_column_left_out_put_in_or_doubled_is_found(bed: Bed) -> None:
    lines = bed.read(SEATS)
    lines[0][lines[0].index("hub_depth")] = "hub"
    lines[0][lines[0].index("hub_width")] = "key"
    bed.write(SEATS, lines)
    places = bed.places()
    for column in ("hub_width", "hub", "key"):
        assert (f"{SEATS}.csv", 1, column, "columns") in places


def test_two_faults_are_both_reported(bed: Bed, capsys: pytest.CaptureFixture[str]) -> None:
    first = bed.plant(SEATS, "depth_at_edge", "0.3394", key="608")
    second = bed.plant("cutting_speeds", "high", "9o", material="alloy steel (4140)")
    assert bed.places() == [
        ("cutting_speeds.csv", second, "high", "number"),
        (f"{SEATS}.csv", first, "depth_at_edge", "is rule-depth"),
    ]
    assert main(["check", "--tables", str(bed.folder)]) == 1
    out = capsys.readouterr().out
    assert f"{SEATS}.csv, line {first}, depth_at_edge [is rule-depth]: 0.3394 is printed" in out
    assert f"cutting_speeds.csv, line {second}, high [number]: '9o' is not a number" in out
    assert "2 faults, no remarks" in out


@pytest.mark.parametrize("table", [SEATS, KEYS, "iso286", "sources", "schema", "quirks"])
def test_a_missing_table_hides_no_other_fault(bed: Bed, table: str) -> None:
    line = bed.plant("cutting_speeds", "high", "9o", material="alloy steel (4140)")
    bed.plant("sources", "kind", "hearsay", id="ee-14411")
    (bed.folder / f"{table}.csv").unlink()
    places = bed.places()
    assert (f"{table}.csv", 1, "", "readable") in places
    if table != "schema":
        assert ("cutting_speeds.csv", line, "high", "number") in places
    if table != "sources":
        assert [p for p in places if p[0] == "sources.csv"]
    # Without the quirks, what they excuse is reported too.
    assert len(places) <= 3 or table == "quirks"
    assert main(["check", "--tables", str(bed.folder)]) == 1


def test_an_unreadable_table_is_found(bed: Bed) -> None:
    path = bed.folder / f"{SEATS}.csv"
    whole = path.read_bytes()
    path.write_bytes(whole.replace(b"memory", "mém".encode("latin-1"), 1))
    assert bed.places() == [(f"{SEATS}.csv", 2, "width_from", "readable")]
    path.write_bytes(b"")
    assert bed.places() == [(f"{SEATS}.csv", 1, "", "readable")]
    path.write_bytes(whole.replace(b",", b"|"))
    assert (f"{SEATS}.csv", 1, "key", "columns") in bed.places()
    path.write_bytes(whole.replace(b"\n203,", b'\n"203"x,', 1))
    assert (f"{SEATS}.csv", 5, "", "readable") in bed.places()
    path.write_bytes(whole[: whole.index(b"\n") + 1])
    assert (f"{SEATS}.csv", 1, "", "rows") in bed.places()


def test_a_table_that_the_schema_lacks_is_found(bed: Bed) -> None:
    (bed.folder / "extra.csv").write_text("a,b\n1,2\n", encoding="utf-8")
    assert bed.places() == [("extra.csv", 1, "", "schema")]


def test_a_schema_line_twice_or_short_is_found(bed: Bed) -> None:
    twice = bed.add("schema", SEATS, "key", "text")
    lines = bed.read("schema")
    lines.append(["paper_thickness", "extra"])
    bed.write("schema", lines)
    places = bed.places()
    assert ("schema.csv", twice, "column", "unique") in places
    assert ("schema.csv", twice + 1, "", "cells") in places


@pytest.mark.parametrize("text", [None, "number = \n", 'number = "1"\n'])
def test_a_broken_edition_is_found(bed: Bed, text: str | None) -> None:
    path = bed.folder / "edition.toml"
    if text is None:
        path.unlink()
    else:
        path.write_text(text, encoding="utf-8")
    assert bed.places() == [("edition.toml", 1, "", "readable")]
