"""What the tests share: the shipped tables, and hypothesis without chance or a clock."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from hypothesis import settings

from keyseats.load import Tables
from keyseats.paths import tables_dir

settings.register_profile(
    "keyseats", derandomize=True, database=None, deadline=None, max_examples=60
)
settings.register_profile("quick", settings.get_profile("keyseats"), max_examples=24)
settings.load_profile("keyseats")


def pytest_configure(config: pytest.Config) -> None:
    """Try fewer examples in the quick suite; the whole one, as in CI, tries all."""
    if config.option.markexpr == "not slow":
        settings.load_profile("quick")


@pytest.fixture(scope="session")
def tables_folder() -> Path:
    return tables_dir()


@pytest.fixture(scope="session")
def tables(tables_folder: Path) -> Tables:
    return Tables(tables_folder)


_LEFT_OUT: list[str] = []


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave out what needs LibreOffice where it is not installed; the summary says so."""
    if shutil.which("soffice") or shutil.which("libreoffice"):
        return
    left = [item for item in items if item.get_closest_marker("needs_office")]
    if left:
        _LEFT_OUT.extend(item.nodeid for item in left)
        items[:] = [item for item in items if item not in left]
        config.hook.pytest_deselected(items=left)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say what was left out for want of LibreOffice."""
    if _LEFT_OUT:
        terminalreporter.write_line(
            f"LibreOffice is not installed: {len(_LEFT_OUT)} tests that open and save every table "
            "in it were NOT run; install it with apt-get install libreoffice-calc"
        )
