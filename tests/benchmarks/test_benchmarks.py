"""The benchmarks run; their figures are not tested, since a test has no quiet machine."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.slow


def test_the_table_is_printed() -> None:
    script = Path(__file__).with_name("measure.py")
    done = subprocess.run(
        [sys.executable, str(script), "--quick", "--cpu"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    lines = [line for line in done.stdout.splitlines() if line.startswith("| ")]
    said = " ".join(lines)
    for what in ("keyseats shaft", "nothing to do", "corrected figure", "warm", "memory a sheet"):
        assert what in said
    for line in lines[2:]:
        assert line.count("|") == 5
        assert float(line.split("|")[2].split()[0]) >= 0
