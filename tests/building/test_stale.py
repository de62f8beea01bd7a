"""What is stale, and why: by content, page by page, and no more composed than must be."""

from __future__ import annotations

import json
import os
import random
import shutil
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

import small_set
from keyseats import build as building
from keyseats.__main__ import main
from keyseats.build import Plan, Scope, build
from keyseats.load import Tables
from keyseats.manifest import load
from keyseats.sheets import find
from small_set import FILES, NEW, OLD, assert_true, contents, correct, quiet

pytestmark = pytest.mark.slow

A4, LETTER = FILES
SETTING_UP = "wall-setting-up-inch-letter.pdf"
SEATS = "metric_half_moon_seats.csv"


@pytest.fixture(autouse=True)
def _small(monkeypatch: pytest.MonkeyPatch) -> None:
    small_set.small(monkeypatch)


@pytest.fixture
def copied(tmp_path: Path, tables_folder: Path) -> Path:
    return Path(shutil.copytree(tables_folder, tmp_path / "tables"))


def built(tables: Path, output: Path, *sheets: str, paper: str = "") -> Plan:
    return build(Tables(tables), output, Scope(sheets, paper), quiet)


def dry(tables: Path, output: Path) -> int:
    return main(["build", "--dry-run", "--tables", str(tables), "--output", str(output)])


def test_the_same_set_in_several_calls_is_the_same_bytes(copied: Path, tmp_path: Path) -> None:
    built(copied, tmp_path / "whole")
    built(copied, tmp_path / "pieces", paper="Letter")
    built(copied, tmp_path / "pieces", "wall-metric-half-moon")
    built(copied, tmp_path / "pieces", "wall-setting-up-inch", paper="Letter")
    assert contents(tmp_path / "pieces") == contents(tmp_path / "whole")
    # And with every page changed and changed back between.
    before = (copied / "edition.toml").read_bytes()
    (copied / "edition.toml").write_text('number = "77"\ndate = "2001-02-03"\n')
    assert len(built(copied, tmp_path / "pieces").planned) == 3
    (copied / "edition.toml").write_bytes(before)
    built(copied, tmp_path / "pieces", paper="A4")
    built(copied, tmp_path / "pieces")
    assert contents(tmp_path / "pieces") == contents(tmp_path / "whole")


def test_a_build_of_one_paper_does_not_stand_for_the_rest(
    copied: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ["build", "--tables", str(copied), "--output", str(tmp_path / "o")]
    assert main([*words, "--paper", "a4"]) == 0
    capsys.readouterr()
    assert main([*words, "--paper", "A4"]) == 0
    assert "nothing to do" in capsys.readouterr().out
    assert main([*words, "wall-metric-half-moon", "--paper", "a4", "--dry-run"]) == 0
    assert "nothing to do" in capsys.readouterr().out
    assert main([*words, "--dry-run"]) == 1
    said = capsys.readouterr().out
    assert f"would make {LETTER}: new" in said
    assert A4 not in said


def test_only_pages_that_print_the_figure_are_named(copied: Path, tmp_path: Path) -> None:
    output = tmp_path / "o"
    built(copied, output)
    # Invented: the tolerance on the depth of one seat.
    correct(copied / SEATS, OLD, NEW)
    assert dry(copied, output) == 1
    made = built(copied, output).planned
    assert {item.name for item in made} == {A4, LETTER}
    for item in made:
        assert item.reason == "figure changed"
        assert len(item.pages) < len(item.document.pages)
        figures = {figure for page in item.pages for figure in page.figures}
        assert figures == {"metric_half_moon_seats/ISO 3912 / 2 x 2.6 x 7/depth_plus"}
    assert built(copied, output).empty


def test_a_table_that_prints_nothing_new_makes_nothing(copied: Path, tmp_path: Path) -> None:
    output = tmp_path / "o"
    built(copied, output)
    before = contents(output)
    table = copied / "sources.csv"
    table.write_bytes(table.read_bytes().replace(b"\n", b"\r\n"))
    assert dry(copied, output) == 0
    assert built(copied, output).empty
    after = contents(output)
    assert before.pop("manifest.json") != after.pop("manifest.json")
    assert after == before
    built(copied, tmp_path / "other")
    assert contents(output) == contents(tmp_path / "other")


def test_pages_whose_tables_stand_are_not_composed(
    copied: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    built(copied, tmp_path / "o")
    sheets = building.find()

    def never(tables: Tables, paper: str) -> list[object]:
        raise AssertionError("was composed")

    guarded = [replace(s, pages=never) if "setting-up" in s.name else s for s in sheets]
    monkeypatch.setattr(building, "find", lambda: tuple(guarded))
    correct(copied / SEATS, OLD, NEW)
    assert len(built(copied, tmp_path / "o").planned) == 2


def test_file_times_mean_nothing(copied: Path, tmp_path: Path) -> None:
    built(copied, tmp_path / "o")
    for folder in (copied, tmp_path / "o"):
        for path in folder.rglob("*"):
            os.utime(path, (1, 1))
    assert built(copied, tmp_path / "o").empty
    table = copied / SEATS
    times = table.stat()
    correct(table, OLD, NEW)
    os.utime(table, ns=(times.st_atime_ns, times.st_mtime_ns))
    assert len(built(copied, tmp_path / "o").planned) == 2


def test_pictures_and_index_are_made_again_when_harmed(
    copied: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    output = tmp_path / "o"
    built(copied, output)
    whole = contents(output)
    picture = f"previews/{A4.removesuffix('.pdf')}.png"
    (output / picture).unlink()
    (output / "index.html").write_text("altered")
    capsys.readouterr()
    assert dry(copied, output) == 1
    said = capsys.readouterr().out
    assert f"would make {picture}: missing" in said
    assert "would make index.html: altered" in said
    assert built(copied, output).planned == []
    assert contents(output) == whole


def test_another_engine_makes_every_file_again(
    copied: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from keyseats.building import inputs

    built(copied, tmp_path / "o")
    machine = inputs.machine()
    assert any(line.startswith("reportlab-") for line in machine)
    monkeypatch.setattr(inputs, "machine", lambda: [*machine, "reportlab-99.9"])
    made = built(copied, tmp_path / "o").planned
    assert {item.reason for item in made} == {"made by other code or libraries"}
    assert len(made) == 3


def test_the_engine_is_every_file_that_writes_a_pdf(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each of our modules that rendering a page loads counts in the key of the page's file."""
    code = (
        "import sys; from keyseats.renderers import finish, pdf; import keyseats; "
        "print(*sorted(m for m in sys.modules if m.startswith('keyseats.')))"
    )
    env = {**os.environ, "PYTHONPATH": str(Path(building.__file__).parents[1])}
    loaded = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, env=env
    ).stdout.split()
    named: list[str] = []
    from keyseats.building import inputs

    monkeypatch.setattr(inputs, "engine", lambda *names: named.extend(names) or "")
    building.pdf_engine()
    ours = {name.removeprefix("keyseats.").replace(".", "/") + ".py" for name in loaded}
    # Packages hold nothing but a line that says what they are; paths only finds the fonts.
    assert ours - {"renderers.py", "paths.py", "faults.py"} <= set(named)


def test_a_paper_is_not_removed_by_a_build_of_another(
    copied: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    output = tmp_path / "o"
    built(copied, output)
    small_set.small(monkeypatch, {"wall-metric-half-moon": ("A4",)})
    found = built(copied, output, paper="A4")
    assert (output / LETTER).is_file()
    assert (output / SETTING_UP).is_file()
    assert found.gone == []
    found = built(copied, output, "wall-metric-half-moon")
    assert found.gone == [LETTER]
    assert not (output / LETTER).exists()
    assert (output / SETTING_UP).is_file()
    # A sheet that is no more goes with a build of everything; altered, it is left.
    (output / SETTING_UP).write_bytes(b"someone's own")
    found = built(copied, output)
    assert (found.gone, found.left) == ([], [SETTING_UP])
    assert (output / SETTING_UP).read_bytes() == b"someone's own"
    assert_true(output)
    assert sorted(p.name for p in (output / "previews").iterdir()) == [A4.replace("pdf", "png")]
    built(copied, tmp_path / "new")
    (output / SETTING_UP).unlink()
    assert contents(output) == contents(tmp_path / "new")


def test_what_is_not_ours_is_let_be_and_a_planned_name_is_ours(
    copied: Path, tmp_path: Path
) -> None:
    output = tmp_path / "o"
    (output / "previews").mkdir(parents=True)
    foreign = ["notes.txt", "wall-of-fame-a4.pdf", ".x.pdf.12.part", "previews/me.png"]
    for name in (*foreign, A4):
        (output / name).write_bytes(b"mine")
    built(copied, output)
    built(copied, output)
    assert all((output / name).read_bytes() == b"mine" for name in foreign)
    assert (output / A4).read_bytes().startswith(b"%PDF")


def test_a_link_is_replaced_and_what_it_points_at_is_let_be(copied: Path, tmp_path: Path) -> None:
    output = tmp_path / "o"
    output.mkdir()
    mine = tmp_path / "mine.pdf"
    mine.write_bytes(b"mine")
    (output / A4).symlink_to(mine)
    (output / "manifest.json").symlink_to(tmp_path / "nowhere.json")
    built(copied, output)
    assert mine.read_bytes() == b"mine"
    assert not (output / A4).is_symlink()
    assert not (tmp_path / "nowhere.json").exists()
    built(copied, tmp_path / "new")
    assert contents(output) == contents(tmp_path / "new")


def decimals(tables: Path) -> list[tuple[str, str, str]]:
    """Return table, line and cell of every figure with a decimal point."""
    found = []
    for path in sorted(tables.glob("metric_half_moon_*.csv")):
        for line in path.read_text(encoding="utf-8").splitlines()[1:]:
            for cell in line.split(","):
                if cell.replace(".", "", 1).lstrip("-").isdecimal() and "." in cell:
                    found.append((path.name, line, cell))
    return found


def corrected_at_random(
    seed: int, times: int, copied: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # The rules of the tables refuse most invented figures; here pages are at stake.
    monkeypatch.setattr(building, "_refuse_faults", lambda tables: None)
    chance = random.Random(seed)
    output = tmp_path / "o"
    built(copied, output)
    done = 0
    while done < times:
        name, line, cell = chance.choice(decimals(copied))
        table = copied / name
        before = table.read_text(encoding="utf-8")
        last = str((int(cell[-1]) + chance.randint(1, 9)) % 10)
        table.write_text(before.replace(line, line.replace(cell, cell[:-1] + last, 1)))
        try:
            made = built(copied, output)
        except ValueError:
            # Some invented figures make no seat at all.
            table.write_text(before, encoding="utf-8")
            continue
        again = tmp_path / f"new-{done}"
        built(copied, again)
        assert contents(output) == contents(again), (name, line, cell, last)
        bare = [page for item in made.planned for page in item.pages if not page.figures]
        assert not bare, (name, line, cell, last, bare)
        done += 1


def test_figures_corrected_at_random(
    copied: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    small_set.small(monkeypatch, {"wall-metric-half-moon": ("A4",)})
    corrected_at_random(1, 8, copied, tmp_path, monkeypatch)


@pytest.mark.parametrize("seed", [2, 3, 4])
def test_many_figures_corrected_at_random(
    seed: int, copied: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    sheets = {
        "wall-metric-half-moon": ("A4",),
        "cards-id1": ("A4",),
        "wall-setting-up-metric": ("A4",),
    }
    small_set.small(monkeypatch, sheets)
    corrected_at_random(seed, 12, copied, tmp_path, monkeypatch)


OPENED = """
import sys
from keyseats.building.reading import NotedTables
from keyseats.load import Tables
from keyseats.paths import tables_dir
from keyseats.sheets import find
folder = tables_dir().resolve()
opened = set()
def hook(event, words):
    if event == "open" and str(words[0]).startswith(str(folder)):
        opened.add(str(words[0])[len(str(folder)) + 1:])
sys.addaudithook(hook)
for sheet in find():
    noted = NotedTables(Tables(folder))
    opened.clear()
    list(sheet.pages(noted, sheet.papers[0]))
    unnoted = {n for n in opened if n not in noted.read and not n.startswith("editions/")}
    assert not unnoted, (sheet.name, unnoted)
    assert opened, sheet.name
print("noted")
"""


def test_every_file_that_composing_opens_is_noted() -> None:
    env = {**os.environ, "PYTHONPATH": str(Path(building.__file__).parents[1])}
    done = subprocess.run(
        [sys.executable, "-c", OPENED], capture_output=True, text=True, check=False, env=env
    )
    assert done.stdout.strip() == "noted", done.stderr


def test_what_is_noted_is_what_a_reader_of_text_alone_notes(tables_folder: Path) -> None:
    """Rows and records shared with other files are noted as if they were read afresh."""
    from keyseats.building.reading import NotedTables

    class TextOnly(Tables):
        def __init__(self, folder: Path) -> None:
            super().__init__(folder)
            self.read: set[str] = set()

        def text(self, name: str) -> str:
            self.read.add(name)
            return super().text(name)

    shared = Tables(tables_folder)
    for sheet in building.find():
        noted, plain = NotedTables(shared), TextOnly(tables_folder)
        list(sheet.pages(noted, sheet.papers[0]))
        list(sheet.pages(plain, sheet.papers[0]))
        assert plain.read <= noted.read
        assert noted.read - plain.read <= {"editions/", "edition.toml"}


def test_nothing_to_do_imports_nothing_heavy(copied: Path, tmp_path: Path) -> None:
    words = ["build", "wall-metric-half-moon", "--paper", "a4"]
    words += ["--tables", str(copied), "--output", str(tmp_path / "o")]
    code = (
        "import sys; from keyseats.__main__ import main; "
        f"assert main({words!r}) == 0; "
        "print(*sorted(sys.modules), file=sys.stderr)"
    )
    env = {**os.environ, "PYTHONPATH": str(Path(building.__file__).parents[1])}
    for said in ("made", "nothing to do"):
        done = subprocess.run(
            [sys.executable, "-c", code], capture_output=True, text=True, check=True, env=env
        )
        assert said in done.stdout
    loaded = set(done.stderr.split())
    heavy = {"reportlab", "pikepdf", "pypdfium2", "jinja2", "segno", "pint", "pandas", "numpy"}
    ours = {"keyseats.sheets", "keyseats.check", "keyseats.page", "keyseats.load"}
    assert not (heavy | ours) & loaded


def test_the_manifest_is_sorted_and_sums_itself(copied: Path, tmp_path: Path) -> None:
    built(copied, tmp_path / "o")
    text = (tmp_path / "o" / "manifest.json").read_text(encoding="utf-8")
    data = json.loads(text)
    assert text == json.dumps(data, indent=1, sort_keys=True, ensure_ascii=False) + "\n"
    assert str(tmp_path) not in text
    assert list(load(tmp_path / "o").files) == sorted([A4, LETTER, SETTING_UP])


def test_every_sheet_keeps_its_name_in_the_file_names() -> None:
    names = [building.file_name(s.name, p) for s in find() for p in s.papers]
    assert len(set(names)) == len(names)
