"""Frozen records do what the frozen dataclasses of the standard library do."""

from __future__ import annotations

import copy
import dataclasses
import inspect
import pickle
import subprocess
import sys
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

import keyseats
from keyseats.frozen import aside, frozen, replace
from keyseats.slides import DialReading
from keyseats.standing import Quantity


@dataclasses.dataclass(frozen=True)
class Plain:
    """A record as the standard library makes it."""

    size: Fraction
    name: str = "edge"
    parts: tuple[str, ...] = ()
    note: str = dataclasses.field(default="", compare=False, repr=False)


@frozen
class Ours:
    """The same record."""

    size: Fraction
    name: str = "edge"
    parts: tuple[str, ...] = ()
    note: str = aside(default="")


GIVEN: list[tuple[tuple[Any, ...], dict[str, Any]]] = [
    ((Fraction(1, 2),), {}),
    ((Fraction(1, 2), "crown"), {"parts": ("a",)}),
    ((), {"size": Fraction(3), "note": "n"}),
]


@pytest.mark.parametrize(("given", "named"), GIVEN)
def test_made_compared_and_written_alike(given: tuple[Any, ...], named: dict[str, Any]) -> None:
    ours, plain = Ours(*given, **named), Plain(*given, **named)
    assert vars(ours) == vars(plain)
    assert repr(ours) == repr(plain).replace("Plain", "Ours")
    assert hash(ours) == hash(plain)
    assert ours == Ours(*given, **named)
    assert ours != plain
    assert dataclasses.astuple(ours) == dataclasses.astuple(plain)
    assert dataclasses.asdict(ours) == dataclasses.asdict(plain)
    assert copy.deepcopy(ours) == ours
    for change in (replace, dataclasses.replace):
        changed = change(ours, name="x", note="y")
        assert vars(changed) == vars(dataclasses.replace(plain, name="x", note="y"))
        assert type(changed) is Ours
    assert vars(replace(plain, name="x")) == vars(dataclasses.replace(plain, name="x"))


def test_the_same_signature_and_fields() -> None:
    assert inspect.signature(Ours).parameters == inspect.signature(Plain).parameters
    for ours, plain in zip(dataclasses.fields(Ours), dataclasses.fields(Plain), strict=True):
        for what in ("name", "type", "default", "compare", "repr", "init"):
            assert getattr(ours, what) == getattr(plain, what), (ours.name, what)
    assert Ours.__match_args__ == Plain.__match_args__


@pytest.mark.parametrize("kind", [Ours, Plain])
def test_refused_alike(kind: Any) -> None:
    made = kind(Fraction(1))
    with pytest.raises(AttributeError):
        made.size = Fraction(2)
    with pytest.raises(AttributeError):
        made.other = 1
    with pytest.raises(AttributeError):
        del made.size
    with pytest.raises(TypeError):
        kind()
    with pytest.raises(TypeError):
        kind(Fraction(1), depth=2)
    with pytest.raises(TypeError):
        replace(made, depth=2)


def test_what_is_left_aside_does_not_tell_two_apart() -> None:
    assert Ours(Fraction(1), note="a") == Ours(Fraction(1), note="b")
    reading = DialReading(1, Fraction(12))
    assert dataclasses.replace(reading, around=Fraction(100)) == reading
    quantity = Quantity(Fraction(1), "in", "one", ())
    assert pickle.loads(pickle.dumps(quantity)) == quantity


def test_a_look_up_does_not_load_dataclasses() -> None:
    code = (
        "import sys; from keyseats.__main__ import main; assert main(['shaft', '1 in']) == 0; "
        "print(*sys.modules, file=sys.stderr)"
    )
    path = str(Path(keyseats.__file__).parents[1])
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        env={"PYTHONPATH": path},
    )
    assert not {"dataclasses", "inspect", "tomllib"} & set(done.stderr.split())
