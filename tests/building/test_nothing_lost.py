"""Builds broken off: the last good pages stand, the manifest is true, the next build is right."""

from __future__ import annotations

import errno
import os
import random
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from itertools import count
from pathlib import Path

import pytest

import small_set
from keyseats import build as building
from keyseats.__main__ import main
from keyseats.building.lock import alone
from keyseats.faults import KeyseatError
from keyseats.manifest import load
from small_set import FILES, NEW, OLD, SHEET, Before, built, contents, words

pytestmark = pytest.mark.slow

A4, LETTER = FILES
# The whole program knows more papers than the small set: these programs know as many.
SMALL = f"""
from dataclasses import replace
from keyseats import build, sheets
chosen = tuple(replace(s, papers=("A4", "Letter")) for s in sheets.find() if s.name == "{SHEET}")
build.find = lambda: chosen
"""
ENVIRONMENT = {**os.environ, "PYTHONPATH": str(Path(building.__file__).parents[1])}


@pytest.fixture
def copied(tmp_path: Path, tables_folder: Path) -> Path:
    return Path(shutil.copytree(tables_folder, tmp_path / "tables"))


@pytest.fixture
def _small(monkeypatch: pytest.MonkeyPatch) -> None:
    small_set.small(monkeypatch, {SHEET: ("A4", "Letter")})


@pytest.fixture
def _tiny(monkeypatch: pytest.MonkeyPatch) -> None:
    small_set.tiny(monkeypatch)


@contextmanager
def failing_at(
    place: str, number: int, fault: Callable[[], BaseException], monkeypatch: pytest.MonkeyPatch
) -> Iterator[list[int]]:
    """Let the nth write, or the nth move to its place, fail; before it, or once it is done."""
    calls = [0]
    fsync, replace = os.fsync, Path.replace

    def counted(real: Callable[..., object], *given: object) -> object:
        calls[0] += 1
        after = place.endswith("after")
        if calls[0] == number and not after:
            raise fault()
        done = real(*given)
        if calls[0] == number and after:
            raise fault()
        return done

    with monkeypatch.context() as patch:
        if place.startswith("write"):
            patch.setattr(os, "fsync", lambda handle: counted(fsync, handle))
        else:
            patch.setattr(Path, "replace", lambda path, target: counted(replace, path, target))
        yield calls


def no_space() -> OSError:
    return OSError(errno.ENOSPC, "No space left on device")


def read_only() -> OSError:
    return OSError(errno.EROFS, "Read-only file system")


@pytest.mark.usefixtures("_tiny")
@pytest.mark.parametrize("fault", [no_space, read_only, KeyboardInterrupt])
@pytest.mark.parametrize("place", ["write", "replace", "replace, after"])
def test_a_fault_at_each_write_and_each_move(
    place: str,
    fault: Callable[[], BaseException],
    copied: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    before = Before(copied, tmp_path)
    told: list[BaseException] = []
    for number in count(1):
        output = before.again()
        with failing_at(place, number, fault, monkeypatch) as calls:
            try:
                built(copied, output)
            except (KeyseatError, KeyboardInterrupt) as one:
                told.append(one)
        if calls[0] < number:
            break
        before.assert_nothing_lost(output, parts=False)
        before.assert_next_is_right(output)
    # Two files with their pictures, and the manifest before and after; the index stays.
    assert len(told) == 6
    for one in told:
        if fault is KeyboardInterrupt:
            assert isinstance(one, KeyboardInterrupt)
        else:
            assert " cannot be written: " in str(one)
            assert "\n" not in str(one)


@pytest.mark.usefixtures("_tiny")
@pytest.mark.parametrize("fault", [no_space, KeyboardInterrupt])
def test_a_fault_that_stays(
    fault: Callable[[], BaseException],
    copied: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Every write from the nth on fails, so that the manifest cannot be mended either."""
    before = Before(copied, tmp_path)
    fsync = os.fsync
    for good in range(6):
        output = before.again()
        left = iter(range(good))

        def failing(handle: int, left: Iterator[int] = left) -> None:
            if next(left, None) is None:
                raise fault()
            fsync(handle)

        with monkeypatch.context() as patch:
            patch.setattr(os, "fsync", failing)
            with pytest.raises((KeyseatError, KeyboardInterrupt)):
                built(copied, output)
        before.assert_nothing_lost(output, parts=False)
        before.assert_next_is_right(output)


RUN = """
import sys
from keyseats.__main__ import main
sys.exit(main())
"""
KILLED = """
import os, signal, sys
from pathlib import Path
place, number = sys.argv[1], int(sys.argv[2])
calls = 0
def dying(real):
    def call(*given):
        global calls
        calls += 1
        if calls == number and not place.endswith("after"):
            os.kill(os.getpid(), signal.SIGKILL)
        done = real(*given)
        if calls == number:
            os.kill(os.getpid(), signal.SIGKILL)
        return done
    return call
if place.startswith("write"):
    os.fsync = dying(os.fsync)
else:
    Path.replace = dying(Path.replace)
from keyseats.__main__ import main
sys.exit(main(sys.argv[3:]))
"""


@pytest.mark.usefixtures("_small")
@pytest.mark.parametrize(
    ("place", "number"),
    [("write", 1), ("write", 3), ("write", 6), ("replace", 1), ("replace", 2), ("replace", 4)]
    + [("replace, after", 3), ("replace, after", 6)],
)
def test_killed_at_a_write_or_a_move(place: str, number: int, copied: Path, tmp_path: Path) -> None:
    before = Before(copied, tmp_path)
    output = before.again()
    command = [sys.executable, "-c", SMALL + KILLED, place, str(number), *words(copied, output)]
    done = subprocess.run(command, capture_output=True, text=True, check=False, env=ENVIRONMENT)
    assert done.returncode == -signal.SIGKILL, done.stderr
    before.assert_nothing_lost(output, parts=True)
    before.assert_next_is_right(output)
    assert not [p for p in output.rglob("*") if p.name.endswith(".part")]


@pytest.mark.usefixtures("_small")
def test_killed_at_any_moment(copied: Path, tmp_path: Path) -> None:
    before = Before(copied, tmp_path)
    chance = random.Random(5)
    command = [sys.executable, "-c", SMALL + RUN, *words(copied, tmp_path / "o")]
    start = time.monotonic()
    before.again()
    subprocess.run(command, capture_output=True, check=True, env=ENVIRONMENT)
    whole = time.monotonic() - start
    killed = 0
    for _ in range(20):
        output = before.again()
        process = subprocess.Popen(command, stdout=subprocess.DEVNULL, env=ENVIRONMENT)
        time.sleep(chance.uniform(0, whole))
        process.kill()
        killed += process.wait() == -signal.SIGKILL
        before.assert_nothing_lost(output, parts=True)
        before.assert_next_is_right(output)
        assert not [p for p in output.rglob("*") if p.name.endswith(".part")]
    assert killed


@pytest.mark.usefixtures("_small")
def test_what_a_killed_build_left_is_swept_though_nothing_is_to_do(
    copied: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    output = tmp_path / "o"
    built(copied, output)
    whole = contents(output)
    left = [output / f".{A4}.4711.part", output / "previews" / f".{A4[:-4]}.png.4711.part"]
    for part in left:
        part.write_bytes(b"half")
    assert main(words(copied, output)) == 0
    assert "nothing to do" in capsys.readouterr().out
    assert contents(output) == whole


@pytest.mark.usefixtures("_small")
def test_two_builds_at_once(
    copied: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    output = tmp_path / "o"
    output.mkdir()
    with alone(output):
        assert main(words(copied, output)) == 1
        said = capsys.readouterr().err
        assert said == (
            f"keyseats: another build is at work in {output}; let it end, then build again\n"
        )
        assert not list(output.iterdir())
    assert main(words(copied, output)) == 0


def test_a_killed_builder_holds_nothing(copied: Path, tmp_path: Path) -> None:
    output = tmp_path / "o"
    output.mkdir()
    code = (
        "import sys, time; from pathlib import Path; from keyseats.building.lock import alone\n"
        "with alone(Path(sys.argv[1])): print('held', flush=True); time.sleep(600)"
    )
    command = [sys.executable, "-c", code, str(output)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=ENVIRONMENT) as holder:
        assert holder.stdout is not None
        assert holder.stdout.readline() == "held\n"
        with pytest.raises(KeyseatError, match="another build is at work"), alone(output):
            pass
        holder.kill()
    with alone(output):
        assert not list(output.iterdir())


@pytest.mark.usefixtures("_small")
def test_two_programs_building_at_once(copied: Path, tmp_path: Path) -> None:
    before = Before(copied, tmp_path)
    output = before.again()
    command = [sys.executable, "-c", SMALL + RUN, *words(copied, output)]
    both = [
        subprocess.Popen(command, stdout=-1, stderr=-1, text=True, env=ENVIRONMENT) for _ in "12"
    ]
    told = [process.communicate() for process in both]
    codes = sorted(process.returncode for process in both)
    assert codes in ([0, 0], [0, 1])
    for process, (_, said) in zip(both, told, strict=True):
        assert not said or (process.returncode == 1 and "another build is at work" in said)
    before.assert_nothing_lost(output, parts=False)
    before.assert_next_is_right(output)


@pytest.mark.usefixtures("_small")
def test_tables_that_change_while_they_are_read(
    copied: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    output = tmp_path / "o"
    real = building.page_record

    def meddling(*given: object) -> object:
        table = copied / "metric_half_moon_seats.csv"
        table.write_text(table.read_text(encoding="utf-8").replace(OLD, NEW), encoding="utf-8")
        return real(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(building, "page_record", meddling)
    with pytest.raises(KeyseatError, match="changed while it was read; nothing was made"):
        built(copied, output)
    assert not contents(output)
    built(copied, output)
    assert sorted(load(output).files) == [A4, LETTER]
