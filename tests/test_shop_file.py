"""The shop file: read exactly, told back plainly, and each fault refused with its own line."""

from __future__ import annotations

import dataclasses
import os
import tomllib
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keyseats.__main__ import main
from keyseats.lengths import Length
from keyseats.shop import DIRECTIONS, LIES, USUAL, USUAL_SLIDE, Cutter, Shop, jobs, read_shop
from keyseats.shop_file import EXAMPLE
from keyseats.shop_file.lines import lines_of
from keyseats.shop_file.opening import ShopError
from keyseats.slides import Slide
from shop_faults import DIAL, DISC, MILL, REFUSED, SLIDE, line_of, put


def one_line(words: list[str], capsys: pytest.CaptureFixture[str], code: int = 1) -> str:
    assert main(words) == code
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("\n") == 1
    assert err.startswith("keyseats: ")
    assert err.rstrip("\n").isprintable()
    assert len(err) < 700
    return err


@pytest.mark.parametrize("what", REFUSED)
def test_refused_in_one_line_that_names_file_line_and_remedy(
    what: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text, remedy = REFUSED[what]
    path = put(tmp_path, text)
    said = one_line(["shop", str(path)], capsys)
    place, _, says = said.partition(": ")[2].partition(": ")
    assert place == f"{path}, line {line_of(text)}"
    assert remedy in says


@pytest.mark.parametrize("what", REFUSED)
def test_the_same_line_with_line_ends_of_the_other_kind(what: str, tmp_path: Path) -> None:
    text, _ = REFUSED[what]
    path = put(tmp_path, text.replace("\n", "\r\n"))
    with pytest.raises(ShopError, match=f", line {line_of(text)}: "):
        read_shop(path)


@pytest.mark.parametrize(
    ("data", "place", "says"),
    [
        (b"\xef\xbb\xbfheading = 'A'\n", ", line 1", "byte order mark"),
        (b"\xff\xfeh\x00", ", line 1", "UTF-16"),
        (b"heading = 'A'\n\n# caf\xe9\n", ", line 3", "UTF-8"),
        (b"#\n" * 40000, "", "65536 bytes"),
        (b"a = [" + b"\n".join([b"[" * 290] * 30), "", "brackets"),
        (b"heading = 'A'\n\x00\n", ", line 2", "TOML"),
    ],
    ids=["BOM", "UTF-16", "Latin-1", "too large", "deep brackets", "NUL"],
)
def test_bytes_that_are_no_shop_file(
    data: bytes, place: str, says: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "shop.toml"
    path.write_bytes(data)
    said = one_line(["shop", str(path)], capsys)
    assert said.startswith(f"keyseats: {path}{place}: ")
    assert says in said


def test_what_is_not_a_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "folder" in one_line(["shop", str(tmp_path)], capsys)
    assert "--write" in one_line(["shop", str(tmp_path / "none.toml")], capsys)
    assert "plain file" in one_line(["shop", os.devnull], capsys)
    one_line(["shop", str(tmp_path / ("n" * 400))], capsys)
    one_line(["shop", "a\0b"], capsys)
    one_line(["shop", "a\nb"], capsys)
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    assert "plain file" in one_line(["shop", str(pipe)], capsys)


def test_a_block_set_and_a_material_are_held_against_the_tables(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = put(tmp_path, '\ngauge_blocks = "inch-18"\n')
    said = one_line(["shop", str(path)], capsys)
    assert ", line 2: " in said
    assert "inch-81" in said
    path = put(tmp_path, 'tip = "5 mm"\n\nmaterial = "chese"\n')
    said = one_line(["shop", str(path)], capsys)
    assert ", line 3: " in said
    assert read_shop(put(tmp_path, 'material = "Bras"\n'), materials=("brass", "bronze")) == (
        read_shop(put(tmp_path, 'material = "brass"\n'))
    )


def test_the_example_is_printed_written_once_and_read_back(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = EXAMPLE.read_text(encoding="utf-8")
    assert main(["shop"]) == 0
    assert capsys.readouterr().out == text
    path = tmp_path / "mine.toml"
    assert main(["shop", "--write", str(path)]) == 0
    assert path.read_text(encoding="utf-8") == text
    assert str(path) in capsys.readouterr().out
    path.write_text("heading = 'Mine'\n", encoding="utf-8")
    assert "was not changed" in one_line(["shop", "--write", str(path)], capsys)
    assert path.read_text(encoding="utf-8") == "heading = 'Mine'\n"
    one_line(["shop", "--write", str(tmp_path)], capsys)
    one_line(["shop", "--write", str(tmp_path / "none" / "a.toml")], capsys)
    one_line(["shop", str(path), "--write", str(tmp_path / "b.toml")], capsys, code=2)
    assert [p.name for p in tmp_path.iterdir()] == ["mine.toml"]


def test_the_example_uses_every_key_and_its_words_are_right() -> None:
    """Each line of the example is read exactly; the tables know its set and its material."""
    shop = read_shop(EXAMPLE, ("inch-36",), ("low-carbon steel",))
    data = tomllib.loads(EXAMPLE.read_text(encoding="utf-8"))
    assert shop.heading == data["heading"]
    assert shop.taken == ()
    assert shop.remarks == ()
    assert {k for one in data["slide"] for k in one} == {
        "name", "direction", "turn", "divisions", "graduation", "reads", "can_be_zeroed",
    }  # fmt: skip
    carriage, cross, upright = shop.slides
    assert carriage == Slide("carriage", "along the spindle", "in", None, None)
    assert cross == Slide(
        "cross slide", "across the spindle", "in", Fraction(1, 10), Fraction(200), "diameter"
    )
    assert (upright.turn, upright.divisions, upright.zero) == (Fraction(1, 20), 50, False)
    assert shop.cutters[0] == Cutter(
        "404, reground once",
        "half-moon",
        "in",
        Fraction("0.494"),
        Fraction("0.1248"),
        neck=Fraction("0.190"),
        stand_off=Fraction("0.60"),
    )
    assert [(s.value, s.unit) for s in shop.shafts] == [
        (Fraction(5, 8), "in"),
        (Fraction(3, 4), "in"),
        (Fraction(1), "in"),
    ]
    assert shop.paper_thickness == Length(Fraction("0.003"), "in", "0.0030 in")


# By how the cutter's spindle, the shaft and the cutter lie to each other: common practice.
ALONG, ACROSS, UP = DIRECTIONS["lathe"]
_, TABLE, CROSS = DIRECTIONS["mill"]
JOBS = [
    ("lathe", "level", "half-moon", ALONG, UP, ACROSS),
    ("lathe", "level", "disc", ALONG, UP, ACROSS),
    ("lathe", "level", "end mill", UP, ALONG, ACROSS),
    ("lathe", "upright", "disc", ALONG, ACROSS, UP),
    ("lathe", "upright", "end mill", ACROSS, ALONG, UP),
    ("mill", "along the table", "half-moon", UP, CROSS, TABLE),
    ("mill", "along the table", "end mill", CROSS, UP, TABLE),
    ("mill", "across the table", "disc", UP, TABLE, CROSS),
    ("mill", "across the table", "end mill", TABLE, UP, CROSS),
]


@pytest.mark.parametrize("row", JOBS, ids=lambda row: " | ".join(row[:3]))
def test_which_slide_does_what(row: tuple[str, str, str, str, str, str]) -> None:
    spindle, lies, kind, centre, depth, along = row
    slides = tuple(Slide(f"my {d}", d, "in", None, None) for d in DIRECTIONS[spindle][:2])
    found = jobs(Shop(spindle=spindle, shaft_lies=lies, slides=slides), kind)
    assert (found.centre_direction, found.depth_direction, found.along_direction) == (
        centre,
        depth,
        along,
    )
    by = {s.direction: s for s in slides}
    assert (found.centre, found.depth, found.along) == (
        by.get(centre),
        by.get(depth),
        by.get(along),
    )


def test_every_way_to_lie_has_its_row() -> None:
    assert {(s, w) for s, ways in LIES.items() for w in ways} == {row[:2] for row in JOBS}
    with pytest.raises(ValueError, match="half-moon"):
        jobs(USUAL, "saw")


def test_usual_values_are_stated() -> None:
    """The deepest pass and the dials: common practice, no source."""
    words = " ".join(USUAL.taken)
    assert dataclasses.replace(Shop(), taken=USUAL.taken) == USUAL
    for word in ("0.020 in", "0.5 mm", "lathe", "level", "paper", "usual dial"):
        assert word in words
    inch, metric = USUAL_SLIDE["in"], USUAL_SLIDE["mm"]
    assert (inch.turn, inch.divisions, metric.turn, metric.divisions) == (
        Fraction("0.100"),
        100,
        1,
        100,
    )


def test_an_empty_file_is_the_usual_shop(tmp_path: Path) -> None:
    assert read_shop(put(tmp_path, "")) == USUAL
    assert read_shop(put(tmp_path, "# nothing\n")) == USUAL


@pytest.mark.parametrize(
    ("marks", "reads", "taken"),
    [
        ("", "movement", "prove one turn"),
        ('graduation = "0.0005 in"', "movement", "reads movement, since"),
        ('graduation = "0.001 in"', "diameter", "reads diameter, since"),
        ('reads = "diameter"', "diameter", ""),
    ],
)
def test_what_the_dial_reads_where_it_is_not_said(
    marks: str, reads: str, taken: str, tmp_path: Path
) -> None:
    shop = read_shop(put(tmp_path, DIAL + marks + "\n"))
    assert shop.slides[0].reads == reads
    said = [line for line in shop.taken if line.startswith("cross: ")]
    assert len(said) == (1 if taken else 0)
    assert all(taken in line for line in said)


@pytest.mark.parametrize(
    ("turn", "divisions", "marks", "remark"),
    [
        ("1 mm", "40", "0.001 in", "1.6 % over"),  # 40 x 0.0254 = 1.016
        ("0.0625 in", "62.5", "0.001 in", ""),
        ("0.0625 in", "62", "0.001 in", "0.8 % under"),  # 0.062 for 0.0625
        ("0.1 in", "102", "0.001 in", "2.0 % over"),
        ("0.1 in", "103", "0.001 in", None),
        ("0.1 in", "98", "0.001 in", "2.0 % under"),
        ("0.1 in", "97", "0.001 in", None),
    ],
)
def test_marks_that_are_a_little_out_are_a_remark_and_much_out_a_fault(
    turn: str, divisions: str, marks: str, remark: str | None, tmp_path: Path
) -> None:
    text = f'{SLIDE}turn = "{turn}"\ndivisions = {divisions}\nreads = "movement"\n'
    path = put(tmp_path, f'{text}graduation = "{marks}"\n')
    if remark is None:
        with pytest.raises(ShopError, match=", line 7: graduation: "):
            read_shop(path)
        return
    said = read_shop(path).remarks
    assert len(said) == (1 if remark else 0)
    assert all(remark in line for line in said)


@pytest.mark.parametrize(
    ("text", "remark"),
    [
        (DISC + 'width = "1 in"\n', ""),
        (DISC + 'width = "1.001 in"\n', "1.001 in wide"),
        (MILL.replace("6 mm", "25 mm"), ""),
        (MILL.replace("6 mm", "25.1 mm"), "25.1 mm across"),
        (MILL.replace("6 mm", "2 in"), "2 in across"),
    ],
)
def test_a_wide_cutter_is_a_remark(text: str, remark: str, tmp_path: Path) -> None:
    """An eighth typed 1.8 in is over an inch: our choice."""
    said = read_shop(put(tmp_path, text)).remarks
    assert len(said) == (1 if remark else 0)
    assert all(remark in line and "3/16 in" in line for line in said)


def test_told_back_in_plain_words(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """0.350 in on this slide is 2.8 turns of 250 divisions (arithmetic of the trade)."""
    text = f'heading = "Mill Lane"\n{DIAL}reads = "diameter"\n[[slide]]\nname = "saddle"\n'
    path = put(tmp_path, text + 'direction = "along the spindle"\n')
    assert main(["shop", str(path)]) == 0
    said = capsys.readouterr().out
    assert said.startswith("Mill Lane\n")
    disc, mill = said.partition("end mill:")[::2]
    rows = [" ".join(line.split()) for line in disc.splitlines()]
    assert "centre along the spindle saddle (no dial)" in rows
    assert "place across the spindle cross" in rows
    assert any(row.startswith("deepen up and down no slide named") for row in rows)
    assert "deepen along the spindle saddle (no dial)" in " ".join(mill.split())
    assert "one division moves the slide 0.0005 in" in said
    assert "0.35 in is 2 turns + 200 div" in said
    assert "marked 0.001 in" in said
    assert "adjustable parallel" in said
    assert "the deepest pass is 0.020 in or 0.5 mm" in said


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ('tip = "0.5 cm"\n', "5 mm"),
        ('tip = "1/4\\""\n', "0.25 in"),
        ('tip = "6 mm"\n', "6 mm"),
    ],
)
def test_a_length_is_told_back_with_its_unit(
    text: str, shown: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["shop", str(put(tmp_path, text))]) == 0
    assert f"edge finder's tip: {shown}\n" in capsys.readouterr().out


def test_a_size_in_the_other_unit_is_converted_exactly(tmp_path: Path) -> None:
    cutter = read_shop(put(tmp_path, DISC + 'width = "5 mm"\n')).cutters[0]
    assert cutter.width == 5 / Fraction("25.4")
    assert cutter.unit == "in"


keys = st.sampled_from(["a", "b-1", '"c d"', "'e'", "f . g", "h"])
simple = st.sampled_from(["1", '"x # y"', "'z = 1'", "true", "2020-01-01", '"\\""', "1.5 # r"])
long = st.sampled_from(
    ['[\n1,\n# ]\n"]",\n]', '"""a\nb = 1\n[[x]]\n"""', "'''\nq = ''\n'''", "{ u = 1, v = [\n2] }"]
)


@given(st.lists(st.tuples(keys, simple | long, st.integers(0, 2)), max_size=12), st.booleans())
def test_every_key_is_found_on_the_line_that_it_was_written_on(
    entries: list[tuple[str, str, int]], many: bool
) -> None:
    """Written with the line kept, in tables of their own, and TOML's own reader agrees on keys."""
    written, wanted, line = "", {}, 1
    for n, (key, value, blanks) in enumerate(entries):
        head = "[[t]]" if many else f"[t{n}]"
        written += "\n" * blanks + f"{head}\n{key} = {value}\n"
        line += blanks
        way: tuple[str | int, ...] = ("t", n) if many else (f"t{n}",)
        wanted[way] = line
        parts = [p.strip().strip("\"'") for p in key.split(" . ")]
        wanted[(*way, *parts)] = line + 1
        line += 2 + value.count("\n")
    read = tomllib.loads(written)
    found = lines_of(written)
    assert wanted.items() <= found.items()
    for way in wanted:
        here: object = read
        for part in way:
            here = here[part]  # type: ignore[index]


@given(
    st.binary(max_size=200) | st.text(alphabet="[]{}\"=.#\n\\a1_ ,'", max_size=80).map(str.encode)
)
def test_whatever_is_in_the_file_it_is_read_or_refused(
    tmp_path_factory: pytest.TempPathFactory, data: bytes
) -> None:
    path = tmp_path_factory.getbasetemp() / "anything.toml"
    path.write_bytes(data)
    try:
        read_shop(path)
    except ShopError as fault:
        assert str(fault).startswith(str(path))  # noqa: PT017
        assert "\n" not in str(fault)  # noqa: PT017
