"""Hostile words in every place that takes words: none leaves its place, in any output."""

from __future__ import annotations

import io
import re
import shutil
from html.parser import HTMLParser
from pathlib import Path

import pikepdf
import pypdfium2
import pytest

from keyseats.__main__ import main
from keyseats.build import file_name
from keyseats.faults import KeyseatError, TypedError, visible
from keyseats.lengths import parse
from keyseats.load import Tables
from keyseats.page import Block, Document, Line, Page, Text
from keyseats.renderers.finish import finish
from keyseats.renderers.index import Card, index_page
from keyseats.renderers.pdf import render
from keyseats.sheets import find
from keyseats.typeface import printable
from tables.planting import Bed

HOSTILE = [
    "plain) Tj ET BT (more",
    "((((",
    "))))",
    "\\",
    "\\)",
    "\\050\\051",
    "<</Type/Catalog/OpenAction<</S/JavaScript/JS(app.alert\\(1\\))>>>>",
    "EMC EMC BT /F1 99 Tf",
    "/Span <</ActualText (x)>> BDC",
    "endstream endobj 1 0 obj <</Type/Catalog>> endobj",
    "%PDF-1.4 %%EOF",
    "startxref 0",
    "]]><x:y/><!-- ",
    "</rdf:li></rdf:Alt></dc:title><dc:title>",
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "' onmouseover='alert(1)",
    "&lt;b&gt; &amp; &#60;",
    "{{ 7 * 7 }}{% for x in y %}",
    "javascript:alert(1)//.pdf",
    "../../etc/passwd",
    "C:\\windows\\con",
    "=cmd|' /C calc'!A0",
    "\x1b]0;title\x07\x1b[2J",
    "\x00\x01\x02",
    "line\nbreak\rand\x85more",
    "\u202eabc\u202c",
    "\u2028\u2029",
    "\ud800 alone",
    "\uffff\ufffe",
    "日本語 and 😀",
    "x" * 4000,
]


@pytest.fixture
def bed(tmp_path: Path, tables_folder: Path) -> Bed:
    return Bed(Path(shutil.copytree(tables_folder, tmp_path / "tables")))


def short(words: str) -> str:
    """Return a test's name for hostile words."""
    return ascii(words)[1:25]


def document(words: str, place: str) -> Document:
    """Return one page with hostile words in one place, or in all."""

    def said(here: str) -> str:
        return words if place in (here, "everywhere") else "fine"

    span = Block("Span", (Text(10, 60, "3/4", 8),), alt=said("spelt"))
    blocks = (
        Block("H1", (Text(10, 20, said("heading"), 8),)),
        Block("Figure", (Line(10, 30, 50, 30, 1),), alt=said("alt")),
        Block("P", (span,)),
        Block("Artifact", (Text(10, 90, "LAST", 8),)),
    )
    page = Page(said("bookmark"), said("bookmark"), "A4", blocks, 0.5, 300, 300)
    return Document("x.pdf", said("title"), said("subject"), "A4", (page,))


def objects(pdf: pikepdf.Pdf) -> list[str]:
    """Return how many of each type of object a file has, and its catalogue's keys."""
    kinds: dict[str, int] = {}
    for thing in pdf.objects:
        if isinstance(thing, pikepdf.Dictionary | pikepdf.Stream):
            kind = str(thing.get("/Type", thing.get("/S", "")))
            kinds[kind] = kinds.get(kind, 0) + 1
    return [f"{kind} {count}" for kind, count in sorted(kinds.items())] + sorted(pdf.Root.keys())


def operators(pdf: pikepdf.Pdf) -> list[str]:
    return [str(i.operator) for i in pikepdf.parse_content_stream(pdf.pages[0])]


@pytest.mark.slow
@pytest.mark.parametrize("place", ["title", "subject", "bookmark", "alt", "spelt"])
@pytest.mark.parametrize("words", HOSTILE, ids=short)
def test_no_words_change_the_structure_of_a_file(words: str, place: str) -> None:
    plain = document("fine", "everywhere")
    hostile = document(words, place)
    with (
        pikepdf.open(io.BytesIO(finish(render(plain), plain))) as before,
        pikepdf.open(io.BytesIO(finish(render(hostile), hostile))) as after,
    ):
        assert after.check_pdf_syntax() == []
        assert objects(after) == objects(before)
        assert operators(after) == operators(before)
        assert read_back(after, place) == printable(words)


def read_back(pdf: pikepdf.Pdf, place: str) -> str:
    """Return what the file says in one place; the metadata must say the same."""
    if place in ("title", "subject"):
        with pdf.open_metadata() as meta:
            said = str(meta["dc:title" if place == "title" else "dc:description"])
        assert said == str(pdf.docinfo["/" + place.title()])
        return said
    if place == "bookmark":
        with pdf.open_outline() as outline:
            assert len(outline.root) == 1
            return str(outline.root[0].title)
    key = "/Alt" if place == "alt" else "/ActualText"
    found = [str(o[key]) for o in pdf.objects if isinstance(o, pikepdf.Dictionary) and key in o]
    assert len(found) == 1
    return found[0]


@pytest.mark.parametrize("words", HOSTILE, ids=short)
def test_no_words_break_out_of_a_line_of_text(words: str) -> None:
    hostile = document(words, "heading")
    data = finish(render(hostile), hostile)
    with pikepdf.open(io.BytesIO(data)) as pdf:
        shown = [n for n in operators(pdf) if n in ("Do", "BI", "BDC", "EMC", "BMC")]
        assert shown == ["BDC", "EMC", "BDC", "EMC", "BDC", "EMC", "BMC", "EMC"]
    page = pypdfium2.PdfDocument(data)[0]
    said = page.get_textpage().get_text_range()
    assert "LAST" in said
    if words.isascii() and words.isprintable() and len(words) < 60:
        assert words in said


class Elements(HTMLParser):
    """Every element of a page with its attributes, and every word of it."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.words = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data: str) -> None:
        self.words += data


def read_page(words: str) -> Elements:
    try:
        words.encode()
    except UnicodeEncodeError:
        words = printable(words)
    card = Card(words, words, words, words, words, 0.5, 1)
    found = Elements()
    found.feed(index_page([card], words, words).decode())
    return found


@pytest.mark.parametrize("words", HOSTILE, ids=short)
def test_no_words_become_markup_or_a_link_out_of_the_folder(words: str) -> None:
    plain, hostile = read_page("fine"), read_page(words)
    assert [t for t, _ in hostile.tags] == [t for t, _ in plain.tags]
    assert [sorted(a) for _, a in hostile.tags] == [sorted(a) for _, a in plain.tags]
    links = [a.get("href") or a.get("src") or "" for t, a in hostile.tags if t in ("a", "img")]
    assert len(links) == 3
    assert links[0] == "#kind-1"
    for link in links:
        assert ":" not in link
        assert not re.search(r"[\s\"'<>\\]", link)
    assert "49" not in hostile.words.replace("4000", "")


def test_file_names_are_plain() -> None:
    for sheet in find():
        for paper in sheet.papers:
            assert re.fullmatch(r"[a-z0-9][a-z0-9-]*\.pdf", file_name(sheet.name, paper))


def names_of_manifest(folder: Path, name: str) -> set[str]:
    """Return the names that are taken from a manifest which lists one picture."""
    from keyseats import manifest

    manifest.Manifest(derived={name: manifest.Derived("", "")}).save(folder)
    return set(manifest.load(folder).derived)


@pytest.mark.parametrize("name", ["../evil.pdf", "/etc/passwd", "javascript:x.pdf", "a b.pdf", ""])
def test_a_manifest_names_nothing_outside_its_folder(name: str, tmp_path: Path) -> None:
    assert names_of_manifest(tmp_path, "previews/wall-a4.png") == {"previews/wall-a4.png"}
    assert names_of_manifest(tmp_path, name) == set()


@pytest.mark.parametrize("words", HOSTILE, ids=short)
@pytest.mark.parametrize(
    "command",
    [
        ["shaft", "{}"],
        ["shaft", "1 in", "--key", "{}"],
        ["shaft", "1 in", "--fit", "{}"],
        ["trace", "{}"],
        ["build", "{}"],
        ["build", "--paper", "{}"],
        ["{}"],
        ["check", "--{}"],
    ],
    ids=lambda c: " ".join(c),
)
def test_no_typed_words_steer_the_terminal(
    command: list[str], words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    try:
        code = main([w.format(words) if "{}" in w else w for w in command])
    except SystemExit as left:
        code = int(str(left.code))
    out, err = capsys.readouterr()
    assert code == 2
    assert out == ""
    assert err.startswith("keyseats: ")
    assert err.endswith("\n")
    assert err[:-1].isprintable()


def test_what_does_not_print_is_spelt_out() -> None:
    assert visible("a\x1b[2Jb\u202ec\nd") == "a\\x1b[2Jb\\u202ec\nd"


@pytest.mark.parametrize("text", ["٣ in", "1\x1b in", "1 in\x00", "１ in", "1\u202e in"])
def test_a_length_is_of_plain_characters(text: str) -> None:
    with pytest.raises(TypedError):
        parse(text)


def test_a_length_is_told_back_on_one_line() -> None:
    assert parse("1\n in").text == "1 in"


@pytest.mark.parametrize("words", [h for h in HOSTILE if not h.isprintable()], ids=short)
def test_a_table_with_what_does_not_print_is_refused(bed: Bed, words: str) -> None:
    path = bed.folder / "cutting_speeds.csv"
    path.write_bytes(
        path.read_bytes().replace(b"alloy steel (4140)", words.encode("utf-8", "surrogatepass"))
    )
    if "\r" in words or "\n" in words:
        words = "a line break"  # refused as a row broken in two, wherever it is broken
    with pytest.raises(KeyseatError, match=r"^cutting_speeds\.csv, line \d+") as told:
        Tables(bed.folder).rows("cutting_speeds")
    assert str(told.value).isprintable()


def test_a_character_that_no_page_can_set_is_found(bed: Bed) -> None:
    line = bed.plant("cutting_speeds", "material", "鋼", material="alloy steel (4140)")
    assert ("cutting_speeds.csv", line, "material", "character") in bed.places()


@pytest.mark.parametrize("name", ["../other", "/etc/passwd", "a b", "A", "x" * 61, "=1"])
def test_the_schema_names_no_file_outside_the_folder(bed: Bed, name: str) -> None:
    lines = bed.read("schema")
    lines.append([name, "key", "text", "", "", "", "", "", ""])
    bed.write("schema", lines)
    assert bed.places() == [("schema.csv", len(lines), "column", "name")]
    with pytest.raises(KeyseatError, match="does not name a table and a column"):
        Tables(bed.folder).rows("cutting_speeds")


@pytest.mark.parametrize("text", ["1\\u001b[2J", "x" * 41, "\\u202e1"])
def test_an_edition_is_a_word_that_prints(bed: Bed, text: str) -> None:
    (bed.folder / "edition.toml").write_text(
        f'number = "{text}"\ndate = "2026-01-04"\n', encoding="utf-8"
    )
    assert bed.places() == [("edition.toml", 1, "", "readable")]


def test_brackets_without_end_are_no_traceback(bed: Bed) -> None:
    (bed.folder / "edition.toml").write_text("number = " + "[" * 100_000, encoding="utf-8")
    assert bed.places() == [("edition.toml", 1, "", "readable")]
