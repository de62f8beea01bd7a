"""Several files as one step: a fault at each write, each name kept and each rename."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from corrections.copying import snapshot
from keyseats import transaction
from keyseats.faults import KeyseatError
from keyseats.transaction import recover, replace_all

FAULTS: tuple[BaseException, ...] = (OSError(28, "No space left on device"), KeyboardInterrupt())
STEPS = (
    (transaction, "_write"),
    (transaction, "_keep"),
    (Path, "replace"),
    (Path, "unlink"),
    (Path, "hardlink_to"),
)


def desk(where: Path) -> tuple[dict[Path, bytes | None], Path]:
    """Return a step of five files in two folders: two new, two replaced, one removed."""
    for name in ("one", "two"):
        (where / name).mkdir(parents=True)
    for name in ("one/kept", "one/old", "two/old", "two/gone"):
        (where / name).write_text(f"{name} as it was")
    files: dict[Path, bytes | None] = {
        where / "one/new": b"new",
        where / "one/old": b"now",
        where / "two/gone": None,
        where / "two/new": b"new",
        where / "two/old": b"now",
    }
    return files, where / "two" / ".journal"


def test_it_is_done_as_a_whole(tmp_path: Path) -> None:
    files, journal = desk(tmp_path)
    replace_all(files, journal)
    assert done(files)
    assert (tmp_path / "one/kept").read_text() == "one/kept as it was"
    assert {p.name for p in tmp_path.rglob("*")} == {"one", "two", "kept", "old", "new"}


class Once:
    """A method that fails at its nth call, and works again after it."""

    def __init__(self, real: Callable[..., Any], at: int, fault: BaseException) -> None:
        self.real, self.at, self.fault, self.calls = real, at, fault, 0

    def method(self) -> Callable[..., Any]:
        def call(*args: Any, **kwargs: Any) -> Any:
            self.calls += 1
            if self.calls == self.at:
                raise self.fault
            return self.real(*args, **kwargs)

        return call


def attempted(files: dict[Path, bytes | None], journal: Path) -> BaseException | None:
    try:
        replace_all(files, journal)
    except (KeyseatError, KeyboardInterrupt) as told:
        return told
    return None


def done(files: dict[Path, bytes | None]) -> bool:
    return all(
        (path.read_bytes() if path.exists() else None) == data for path, data in files.items()
    )


@pytest.mark.parametrize("fault", FAULTS, ids=["space", "interrupt"])
@pytest.mark.parametrize(("owner", "name"), STEPS, ids=[name for _, name in STEPS])
def test_a_fault_anywhere_leaves_all_as_it_was_or_all_done(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    owner: Any,
    name: str,
    fault: BaseException,
) -> None:
    files, journal = desk(tmp_path / "wanted")
    real = getattr(owner, name)
    undone = 0
    for at in range(1, 40):
        where = tmp_path / str(at)
        files, journal = desk(where)
        before = snapshot(where)
        failing = Once(real, at, fault)
        monkeypatch.setattr(owner, name, failing.method())
        told = attempted(files, journal)
        monkeypatch.setattr(owner, name, real)
        as_it_was = snapshot(where) == before
        undone += as_it_was
        assert as_it_was or done(files), (name, at)
        if isinstance(told, KeyseatError):
            assert as_it_was
            assert "nothing was changed" in str(told)
            assert "\n" not in str(told)
        if failing.calls < at:
            assert told is None
            break
    else:
        raise AssertionError("it never came to an end")
    # A file that can have one name only is copied instead, which is no fault.
    copied = name == "hardlink_to" and isinstance(fault, OSError)
    assert bool(undone) != copied


@pytest.mark.parametrize("at", range(1, 6))
def test_a_step_that_was_killed_is_undone_by_the_next(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, at: int
) -> None:
    """Killed, nothing more of ours runs: neither undoing nor clearing up."""
    files, journal = desk(tmp_path)
    before = snapshot(tmp_path)
    killed = Once(Path.replace, at, KeyboardInterrupt())
    if at == 5:
        killed = Once(Path.unlink, 4, KeyboardInterrupt())
    monkeypatch.setattr(Path, "unlink" if at == 5 else "replace", killed.method())
    monkeypatch.setattr(transaction, "_undo", lambda done: None)
    monkeypatch.setattr(transaction, "_clear", lambda files, journal: None)
    with pytest.raises(KeyboardInterrupt):
        replace_all(files, journal)
    monkeypatch.undo()
    assert snapshot(tmp_path) != before
    assert recover(journal)
    assert snapshot(tmp_path) == before
    assert not recover(journal)
