"""``keyseats edition``: one step, or nothing."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from corrections.copying import FOLDER, answer, clean, snapshot
from keyseats import build, sheets, transaction
from keyseats.corrections.archive import editions
from keyseats.corrections.compare import differences
from keyseats.load import Tables
from tables.planting import Bed

pytestmark = pytest.mark.slow


@dataclass
class Desk:
    """A copy of the tables and an output folder, with one sheet of the set to build."""

    bed: Bed
    output: Path

    def words(self, number: str = "3", date: str = "2026-12-01") -> tuple[str, ...]:
        folders = ("--tables", str(self.bed.folder), "--output", str(self.output))
        return ("edition", number, "--date", date, *folders)

    def all(self) -> dict[str, str]:
        return snapshot(self.bed.folder, self.output)


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Desk]:
    few = tuple(s for s in sheets.find() if s.name == "wall-metric-half-moon")
    for module in (sheets, build):
        monkeypatch.setattr(module, "find", lambda: few)
    bed = clean(tmp_path / "tables")
    bed.plant("metric_half_moon_seats", "depth_plus", "0.2", designation="1 x 1.4 x 4")
    output = tmp_path / "output"
    output.mkdir()
    (output / "README.md").write_text("ours\n")
    return Desk(bed, output)


def test_an_edition_is_checked_set_built_and_archived(
    desk: Desk, capsys: pytest.CaptureFixture[str]
) -> None:
    before = Tables(desk.bed.folder)
    kept = {p.name: p.read_bytes() for p in (desk.bed.folder / FOLDER).iterdir()}
    code, out, err = answer(capsys, *desk.words())
    assert (code, err) == (0, "")
    assert out.startswith("edition 3, 2026-12-01: ")
    now = Tables(desk.bed.folder)
    assert (now.edition.number, now.edition.date) == ("3", "2026-12-01")
    past = editions(desk.bed.folder)
    assert [p.number for p in past] == ["1", "2", "3"]
    assert not differences(past[-1].tables, before)
    assert differences(past[-2].tables, before)
    for name, data in kept.items():
        assert (desk.bed.folder / FOLDER / name).read_bytes() == data
    made = {p.name for p in desk.output.glob("*.pdf")}
    assert made == {f"wall-metric-half-moon-{paper}.pdf" for paper in papers()}
    assert (desk.output / "README.md").read_text() == "ours\n"
    assert not list(desk.output.rglob(".*"))
    # What was built is what build makes of them: nothing is left to do.
    folders = ("--tables", str(desk.bed.folder), "--output", str(desk.output))
    code, out, _ = answer(capsys, "build", *folders)
    assert (code, out.startswith("nothing to do")) == (0, True)
    # The mark of a correction is gone with the edition.
    assert answer(capsys, "changes", "--tables", str(desk.bed.folder))[1].count("\n") == 1


@pytest.mark.parametrize(
    ("number", "date", "says"),
    [
        ("2", "2026-12-01", "the next number is 3"),
        ("1", "2026-12-01", "the next number is 3"),
        ("3a", "2026-12-01", "a whole number"),
        ("-3", "2026-12-01", "a whole number"),
        ("0", "2026-12-01", "a whole number"),
        ("3", "2026-13-01", "not a date"),
        ("3", "1 December 2026", "not a date"),
        ("3", "2026-11-24", "is before edition 2"),
    ],
)
def test_what_is_typed_wrong_changes_nothing(
    desk: Desk, capsys: pytest.CaptureFixture[str], number: str, date: str, says: str
) -> None:
    before = desk.all()
    words = desk.words(number, date)
    try:
        code, out, err = answer(capsys, *words)
    except SystemExit as left:  # argparse takes -3 for an option
        code, out, err = int(str(left.code)), "", capsys.readouterr().err
        says = "keyseats: "
    assert (code, out) == (2, "")
    assert says in err
    assert err.count("\n") == 1
    assert desk.all() == before


def test_a_fault_in_the_tables_changes_nothing(
    desk: Desk, capsys: pytest.CaptureFixture[str]
) -> None:
    desk.bed.plant("inch_half_moon_seats", "depth_at_edge", "3.393", key="608")
    before = desk.all()
    code, out, err = answer(capsys, *desk.words())
    assert (code, out) == (1, "")
    assert "no edition was made" in err
    assert "608" in err or "line" in err
    assert desk.all() == before


def papers() -> set[str]:
    (sheet,) = sheets.find()
    return {
        build.file_name("", paper).removeprefix("-").removesuffix(".pdf") for paper in sheet.papers
    }


class Fails:
    """A function that fails at its nth call, after or before it did its work."""

    def __init__(self, real: Callable[..., Any], at: int, fault: BaseException) -> None:
        self.real, self.at, self.fault, self.calls = real, at, fault, 0

    def __call__(self, *args: Any, **kwargs: Any) -> Any:
        self.calls += 1
        if self.calls == self.at:
            raise self.fault
        return self.real(*args, **kwargs)


NO_SPACE = OSError(28, "No space left on device")


@pytest.mark.parametrize("step", ["_write", "_keep"])
@pytest.mark.parametrize("fault", [NO_SPACE, KeyboardInterrupt()], ids=["space", "interrupt"])
def test_a_fault_at_a_write_changes_nothing(
    desk: Desk,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    step: str,
    fault: BaseException,
) -> None:
    """One late fault through the whole command; every place is in the transaction's own tests."""
    before = desk.all()
    # Of what is replaced only edition.toml was there before.
    failing = Fails(getattr(transaction, step), 1 if step == "_keep" else 9, fault)
    monkeypatch.setattr(transaction, step, failing)
    code, out, err = answer(capsys, *desk.words())
    assert failing.calls == failing.at
    assert (code, out) == (1, "")
    assert err.count("\n") == 1
    assert desk.all() == before


def test_a_fault_at_the_last_rename_changes_nothing(
    desk: Desk, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    before = desk.all()
    real = Path.replace

    def replace(self: Path, target: Path) -> Path:
        if target == desk.bed.folder / "edition.toml" and self.name.endswith(transaction.PART):
            raise OSError(5, "Input/output error")
        return real(self, target)

    monkeypatch.setattr(Path, "replace", replace)
    code, _, err = answer(capsys, *desk.words())
    assert code == 1
    assert err.count("\n") == 1
    assert "edition.toml cannot be written: Input/output error; nothing was changed" in err
    assert desk.all() == before


def test_a_build_that_fails_changes_nothing(
    desk: Desk, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    before = desk.all()
    monkeypatch.setattr(build, "document_bytes", Fails(build.document_bytes, 2, NO_SPACE))
    code, out, err = answer(capsys, *desk.words())
    assert (code, out) == (1, "")
    assert "No space" in err
    assert err.count("\n") == 1
    assert desk.all() == before


def test_a_file_where_the_archive_should_be_changes_nothing(
    desk: Desk, capsys: pytest.CaptureFixture[str]
) -> None:
    blocked = desk.output / "previews"
    blocked.write_text("a file")
    before = desk.all()
    code, out, err = answer(capsys, *desk.words())
    assert (code, out) == (1, "")
    assert err.count("\n") == 1
    assert desk.all() == before
