"""Tables to spoil."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tables.planting import Bed


@pytest.fixture
def bed(tmp_path: Path, tables_folder: Path) -> Bed:
    return Bed(Path(shutil.copytree(tables_folder, tmp_path / "tables")))
