"""What the tests share: the shipped tables, and hypothesis without chance or a clock."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import settings

from keyseats.load import Tables
from keyseats.paths import tables_dir

settings.register_profile(
    "keyseats", derandomize=True, database=None, deadline=None, max_examples=60
)
settings.load_profile("keyseats")


@pytest.fixture(scope="session")
def tables_folder() -> Path:
    return tables_dir()


@pytest.fixture(scope="session")
def tables(tables_folder: Path) -> Tables:
    return Tables(tables_folder)
