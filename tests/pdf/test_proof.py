"""The print-shop check: the printed set passes, and each planted fault is caught by itself."""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import Any

import jsonschema
import pikepdf
import pytest

from keyseats.__main__ import main
from keyseats.proof.cards import grid
from keyseats.proof.facts import MM
from keyseats.proof.proving import prove
from keyseats.sheets import find
from pdf.planting import Plant, bare_place, elements, faults, planted, printed, say, sheets
from pdf.plants import PLANTS

QUICK = {
    ("cards-id1", "A4"),
    ("key-gauge-metric", "Letter"),
    ("wall-inch-half-moon", "Tabloid"),
    ("wall-metric-plain", "A3"),
    ("wall-setting-up-inch", "Letter"),
}
SET = [
    pytest.param(
        sheet.name,
        paper,
        id=f"{sheet.name}-{paper}",
        marks=[] if (sheet.name, paper) in QUICK else [pytest.mark.slow],
    )
    for sheet in find()
    for paper in sheet.papers
]
SCHEMA = json.loads(
    (Path(__file__).resolve().parents[2] / "docs" / "proof.schema.json").read_text(encoding="utf-8")
)


@pytest.fixture(scope="module")
def sound() -> bytes:
    return printed("key-gauge-metric", "Letter")


@pytest.fixture
def base(sound: bytes, tmp_path: Path) -> set[str]:
    return faults(sound, tmp_path)


@pytest.mark.parametrize(("name", "paper"), SET)
def test_the_printed_set_passes(name: str, paper: str, tmp_path: Path) -> None:
    path = tmp_path / "sheet.pdf"
    path.write_bytes(printed(name, paper))
    assert [str(fault) for fault in prove([path]).faults] == []


@pytest.mark.parametrize(("plant", "what"), PLANTS, ids=[p.__name__ for p, _ in PLANTS])
def test_a_planted_fault_is_caught(
    plant: Plant, what: str, sound: bytes, base: set[str], tmp_path: Path
) -> None:
    found = faults(planted(sound, plant), tmp_path) - base
    assert [line for line in found if what in line], found
    # And it is named for what it is: at most a second line, where one thing breaks two rules.
    assert len(found) <= 2, found


@pytest.mark.parametrize(
    ("told", "what"),
    [
        ({"size": 4}, "1 word(s) too small for 0.5 m at 94 %"),
        ({"ink": "0.5 g"}, "is not black"),
        ({"ink": "1 0 0 rg"}, "is not black"),
        ({"ink": "3 Tr 0 g"}, "has no ink"),
    ],
    ids=["too small", "grey", "red", "invisible"],
)
def test_text_that_cannot_be_read(
    told: dict[str, Any], what: str, sound: bytes, base: set[str], tmp_path: Path
) -> None:
    x, y = bare_place(sheets(sound, tmp_path)[0])
    found = faults(planted(sound, lambda pdf: say(pdf, x, y, **told)), tmp_path) - base
    assert len(found) == 1, found
    assert what in found.pop()


def test_the_same_text_in_a_bare_place_is_no_fault(
    sound: bytes, base: set[str], tmp_path: Path
) -> None:
    x, y = bare_place(sheets(sound, tmp_path)[0])
    assert faults(planted(sound, lambda pdf: say(pdf, x, y)), tmp_path) == base


@pytest.mark.parametrize(
    ("x", "y", "what"),
    [
        (12, 400, "in the margin"),
        (585, 400, "outside the paper"),
        (300, 20, "in the margin"),
        (300, 770, "in the margin"),
    ],
    ids=["left", "right", "foot", "head"],
)
def test_text_in_a_margin(
    x: float, y: float, what: str, sound: bytes, base: set[str], tmp_path: Path
) -> None:
    found = faults(planted(sound, lambda pdf: say(pdf, x, y)), tmp_path) - base
    assert [line for line in found if what in line], found


def test_text_over_text(sound: bytes, base: set[str], tmp_path: Path) -> None:
    sheet = sheets(sound, tmp_path)[0]
    under = next(p for p in sheet.pieces if len(p.text.strip()) > 6 and not p.part)
    at = under.box.left + 3, sheet.high - under.box.bottom + 2
    found = faults(planted(sound, lambda pdf: say(pdf, *at, size=under.size)), tmp_path) - base
    assert [line for line in found if "stands over" in line], found


def test_text_of_no_element(sound: bytes, base: set[str], tmp_path: Path) -> None:
    def plant(pdf: pikepdf.Pdf) -> None:
        say(pdf, x, y)
        stream = pdf.pages[0].obj.Contents[-1]
        stream.write(stream.read_bytes().replace(b"/Artifact BMC", b"").replace(b"EMC", b""))

    x, y = bare_place(sheets(sound, tmp_path)[0])
    found = faults(planted(sound, plant), tmp_path) - base
    assert len(found) == 1
    assert "not in the structure" in found.pop()


def test_a_figure_that_is_cut_to_is_held_to_its_own_floor(
    sound: bytes, base: set[str], tmp_path: Path
) -> None:
    """At 0.5 m, 16 arc-minutes are 9.0 pt of this face, 12 are 6.8: 8.5 pt is between the two."""

    def plant(pdf: pikepdf.Pdf) -> None:
        code, inside = [], ""
        for operands, operator in pikepdf.parse_content_stream(pdf.pages[0]):
            if str(operator) in ("BDC", "BMC"):
                inside = str(operands[0])
            if str(operator) == "Tf" and inside == "/TD" and float(operands[1]) > 8.5:
                operands = [operands[0], 8.5]
            code.append((operands, operator))
        pdf.pages[0].obj.Contents = pdf.make_stream(pikepdf.unparse_content_stream(code))

    found = faults(planted(sound, plant), tmp_path) - base
    assert len(found) == 1
    assert "figure(s) that are cut to too small for 0.5 m at 94 %" in found.pop()


def test_the_class_cut_says_which_figures_are_cut_to(sound: bytes, tmp_path: Path) -> None:
    def plant(pdf: pikepdf.Pdf) -> None:
        for o in pdf.objects:
            if isinstance(o, pikepdf.Dictionary) and "/C" in o and "/S" in o:
                del o["/C"]
        cells = [e for e in elements(pdf, "TD") if isinstance(e.get("/K"), int)]
        for cell in cells[-3:]:
            cell["/C"] = pikepdf.Array([pikepdf.Name.Cut])

    path = tmp_path / "sheet.pdf"
    path.write_bytes(planted(sound, plant))
    assert 0 < sum(row.figures for row in prove([path]).rows) <= 3


def test_a_word_at_the_edge_of_a_card(tmp_path: Path) -> None:
    sound = printed("cards-id1", "A4")
    sheet = sheets(sound, tmp_path)[0]
    cuts = grid(sheet)
    assert cuts is not None
    assert len(cuts.cells()) == 8
    # ISO/IEC 7810: 85.60 x 53.98 mm.
    first = cuts.cells()[0]
    assert first.right - first.left == pytest.approx(85.6 * MM, abs=0.05)
    assert first.bottom - first.top == pytest.approx(53.98 * MM, abs=0.05)
    at = first.left + 2, sheet.high - first.bottom + 2
    found = faults(planted(sound, lambda pdf: say(pdf, *at)), tmp_path)
    assert [line for line in found if "within 3 mm of a card's edge" in line], found


def test_cards_that_do_not_say_how_to_flip(tmp_path: Path) -> None:
    def plant(pdf: pikepdf.Pdf) -> None:
        del pdf.Root.ViewerPreferences["/Duplex"]

    found = faults(planted(printed("cards-id1", "A4"), plant), tmp_path)
    assert "cards with two sides, and no side to flip on" in found


def test_an_old_header(sound: bytes, base: set[str], tmp_path: Path) -> None:
    saving: dict[str, Any] = {"min_version": "", "force_version": "1.4"}
    old = planted(
        sound, lambda pdf: None, object_stream_mode=pikepdf.ObjectStreamMode.disable, **saving
    )
    assert faults(old, tmp_path) - base == {"PDF 1.4"}


def test_a_broken_cross_reference(sound: bytes, base: set[str], tmp_path: Path) -> None:
    broken = sound[: sound.rindex(b"startxref")] + b"startxref\n17\n%%EOF\n"
    found = faults(broken, tmp_path) - base
    assert len(found) == 1
    assert found.pop().startswith("damaged: ")


def test_files_that_cannot_be_read_are_one_line_each(
    sound: bytes, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    locked = pikepdf.Encryption(owner="o", user="u")
    opened = pikepdf.Encryption(owner="o", user="")
    (tmp_path / "cut.pdf").write_bytes(sound[: len(sound) // 2])
    (tmp_path / "empty.pdf").write_bytes(b"")
    (tmp_path / "letter.pdf").write_text("Dear printer,\n", encoding="utf-8")
    for name, encryption in (("locked.pdf", locked), ("open.pdf", opened)):
        data = planted(sound, lambda pdf: None, encryption=encryption, deterministic_id=False)
        (tmp_path / name).write_bytes(data)
    (tmp_path / "folder.pdf").mkdir()
    names = ("cut", "empty", "folder", "letter", "locked", "open", "absent")
    assert main(["proof", *(str(tmp_path / f"{name}.pdf") for name in names)]) == 1
    out = capsys.readouterr().out.splitlines()
    assert len(out) == len(names) + 1
    for name, line in zip(names, out, strict=False):
        assert line.startswith(f"{name}.pdf: ")
        assert str(tmp_path) not in line
    assert "encrypted" in out[4]
    assert "encrypted" in out[5]
    assert "No such file" in out[6]
    assert out[-1] == "7 files, no pages, 7 faults"


def test_the_same_identity_twice(sound: bytes, tmp_path: Path) -> None:
    paths = [tmp_path / "one.pdf", tmp_path / "two.pdf"]
    for path in paths:
        path.write_bytes(sound)
    found = [str(f) for f in prove(paths).faults if "ID" in f.what]
    assert found == ["two.pdf: the same ID as one.pdf; make /ID from the content"]


def test_no_output_intent_is_asked_for(sound: bytes, base: set[str]) -> None:
    """Black on white needs no press profile: its absence is no fault."""
    with pikepdf.open(io.BytesIO(sound)) as pdf:
        assert "/OutputIntents" not in pdf.Root
    assert not [line for line in base if "intent" in line.lower()]


def test_the_table_has_a_row_a_page(
    sound: bytes, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "sheet.pdf").write_bytes(sound)
    code = main(["proof", "--output", str(tmp_path)])
    out = capsys.readouterr().out.splitlines()
    rows = [line for line in out if " Letter " in line and line.lstrip()[:1].isdigit()]
    with pikepdf.open(io.BytesIO(sound)) as pdf:
        assert len(rows) == len(pdf.pages)
    assert out[2] == "sheet.pdf"
    assert code == (0 if out[-1].endswith("no faults") else 1)


def test_json_by_its_schema(
    sound: bytes, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path, bad = tmp_path / "sheet.pdf", tmp_path / "bad.pdf"
    path.write_bytes(sound)
    bad.write_bytes(b"no")
    assert main(["proof", str(path), str(bad), "--json"]) == 1
    found = json.loads(capsys.readouterr().out)
    jsonschema.validate(found, SCHEMA)
    assert found["files"] == ["sheet.pdf", "bad.pdf"]
    assert {page["metres"] for page in found["pages"]} == {0.5}
    assert [f["page"] for f in found["faults"] if f["file"] == "bad.pdf"] == [0]


def test_words_that_cannot_be_used(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["proof", "one.pdf", "--output", str(tmp_path)]) == 2
    assert main(["proof", "--output", str(tmp_path)]) == 1
    told = capsys.readouterr().err.splitlines()
    assert len(told) == 2
    assert "not both" in told[0]
    assert "no PDF in" in told[1]
