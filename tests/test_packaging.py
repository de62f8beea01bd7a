"""The wheel, built, installed in a fresh environment and run from another folder."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]


def run(*words: str, cwd: Path, seed: str = "0") -> subprocess.CompletedProcess[str]:
    environment = {k: v for k, v in os.environ.items() if not k.startswith("PYTHON")}
    environment["PYTHONHASHSEED"] = seed
    return subprocess.run(
        words, cwd=cwd, env=environment, capture_output=True, text=True, check=True
    )


@pytest.mark.slow
def test_the_wheel_carries_all_it_needs(tmp_path: Path) -> None:
    run(
        sys.executable,
        "-m",
        "pip",
        "wheel",
        "-q",
        "--no-deps",
        "-w",
        str(tmp_path),
        str(ROOT),
        cwd=tmp_path,
    )
    wheel = next(tmp_path.glob("*.whl"))
    names = zipfile.ZipFile(wheel).namelist()
    tops = {n.split("/")[0] for n in names}
    assert {t for t in tops if not t.endswith(".dist-info")} == {"keyseats"}
    assert "keyseats/tables/sources.csv" in names
    run(sys.executable, "-m", "venv", str(tmp_path / "env"), cwd=tmp_path)
    python = str(tmp_path / "env" / "bin" / "python")
    run(python, "-m", "pip", "install", "-q", str(wheel), cwd=tmp_path)
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    command = str(tmp_path / "env" / "bin" / "keyseats")
    assert "No. 808" in run(command, "shaft", "1 in", cwd=elsewhere).stdout
    run(command, "check", cwd=elsewhere)
    run(command, "build", "wall-inch-half-moon", "--paper", "A4", cwd=elsewhere)
    assert (elsewhere / "output" / "wall-inch-half-moon-a4.pdf").stat().st_size > 10000


@pytest.mark.slow
def test_two_processes_with_other_hash_seeds_write_the_same_bytes(tmp_path: Path) -> None:
    made = []
    for seed in ("1", "2"):
        place = tmp_path / seed
        place.mkdir()
        words = [sys.executable, "-m", "keyseats", "shaft", "1 in", "--pdf", "seat.pdf"]
        environment = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT / "generator")}
        subprocess.run(words, cwd=place, env=environment, check=True, capture_output=True)
        made.append((place / "seat.pdf").read_bytes())
    assert made[0] == made[1]
