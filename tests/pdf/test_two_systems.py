"""A key of the other system in a shaft: its figures never stand under the wrong unit."""

from __future__ import annotations

from pathlib import Path

import pytest

from keyseats.__main__ import main
from pdf.reading import read

WORDS = ["shaft", "25 mm", "--family", "inch plain"]


def test_on_screen_the_unit_is_said_before_the_figures(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(WORDS) == 0
    said = capsys.readouterr().out
    metric, _, inch = said.partition("From here on in inches, for a shaft of 0.9843.")
    assert "all figures in millimetres" in metric
    assert "metric plain key" in metric
    assert "inch plain key" not in metric
    assert "1/4 x 1/4" in inch
    assert "metric plain key" not in inch


def test_each_sheet_names_its_own_unit_and_shaft(tmp_path: Path) -> None:
    path = tmp_path / "seats.pdf"
    assert main([*WORDS, "--pdf", str(path)]) == 0
    pages = read(path.read_bytes())
    texts = [[w.text for w in page.words] for page in pages]
    sheets = [t for t in texts if "inches" in t]
    assert len(sheets) == 1
    assert "millimetres" not in sheets[0]
    joined = " ".join(sheets[0])
    assert "for 0.98425" in joined
    assert "25.00" not in joined
    assert "0.020" in joined
    for other in (t for t in texts if t is not sheets[0]):
        assert "millimetres" in other
        assert "for 25.00" in " ".join(other)
