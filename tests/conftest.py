"""What the tests share: the shipped tables."""

from __future__ import annotations

from pathlib import Path

import pytest

from keyseats.load import Tables
from keyseats.paths import tables_dir


@pytest.fixture(scope="session")
def tables_folder() -> Path:
    return tables_dir()


@pytest.fixture(scope="session")
def tables(tables_folder: Path) -> Tables:
    return Tables(tables_folder)
