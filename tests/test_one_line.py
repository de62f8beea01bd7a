"""Odd words on the command line: still one line, and it blames what was wrong."""

from __future__ import annotations

from pathlib import Path

import pytest

from keyseats.__main__ import main

LONG = "9" * 5000


def said(words: list[str], capsys: pytest.CaptureFixture[str]) -> str:
    """Run a command that must refuse what was typed, and return its one line."""
    try:
        code = main(words)
    except SystemExit as left:
        code = int(str(left.code))
    out, err = capsys.readouterr()
    assert code == 2
    assert out == ""
    assert err.startswith("keyseats: ")
    assert err.count("\n") == 1, err
    return err


@pytest.mark.parametrize(
    "words",
    [
        ["shaft", "1\n2"],
        ["shaft", "1 in", "--key", "a\nb"],
        ["shaft", "1 in", "--fit", "a\nb"],
        ["shaft", "1 in", "--family", "a\nb"],
        ["build", "a\nb"],
        ["trace", "a\nb"],
        ["a\nb"],
    ],
    ids=repr,
)
def test_a_line_break_in_a_word(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    said(words, capsys)


@pytest.mark.parametrize(
    "words",
    [["shaft", "1 in", "--key", LONG], ["shaft", "1 in", "--fit", LONG], ["build", LONG]],
    ids=["key", "fit", "sheet"],
)
def test_a_very_long_word_is_not_echoed_whole(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert len(said(words, capsys)) < 1000


@pytest.mark.parametrize(
    ("words", "near"),
    [
        (["shaft", "1 in", "--keys", "608"], "--key"),
        (["shaft", "1 in", "--famly", "x"], "--family"),
        (["build", "--dryrun"], "--dry-run"),
    ],
    ids=["--keys", "--famly", "--dryrun"],
)
def test_an_unknown_option_names_the_near_ones_of_its_command(
    words: list[str], near: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert near in said(words, capsys)


@pytest.mark.parametrize(
    ("option", "size"),
    [
        ("--cutter-width", "2 in"),
        ("--end-mill", "3 in"),
        ("--key-height", "9 in"),
        ("--measured", "2 in"),
        ("--bore", "2 in"),
        ("--paper-thickness", "-0.001 in"),
        ("--cutter-diameter", "0 in"),
        ("--neck", "0 in"),
    ],
)
def test_a_size_out_of_reason_names_its_option(
    option: str, size: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert option in said(["shaft", "1 in", option, size], capsys)


def test_a_wrong_paper_leaves_no_sheet(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    line = said(["shaft", "1 in", "--pdf", str(tmp_path / "seat.pdf"), "--paper", "A9"], capsys)
    assert "A4" in line
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("key", ["608", "808"])
def test_no_neck_below_zero_is_printed(key: str, capsys: pytest.CaptureFixture[str]) -> None:
    """A cutter smaller than twice the depth has no neck that clears: a dash, not a figure."""
    assert main(["shaft", "1 in", "--key", key, "--cutter-diameter", "1/2 in"]) == 0
    lines = [x for x in capsys.readouterr().out.splitlines() if "largest neck" in x]
    assert not [x for x in lines if " -0." in x]


def test_a_fault_of_the_disk_is_one_line(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def full(*_: object) -> int:
        raise OSError(28, "No space left on device", "page.pdf")

    monkeypatch.setattr("keyseats.cli.list_command.run", full)
    assert main(["list"]) == 1
    said = capsys.readouterr().err
    assert said.count("\n") == 1
    assert "page.pdf: No space left on device" in said
