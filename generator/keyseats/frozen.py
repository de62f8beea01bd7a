"""Frozen records as `dataclasses` makes them, at a tenth of what it costs to start.

A look-up knows some thirty kinds of record. To import `dataclasses`, and to have it write six
methods for each of them, takes longer than the look-up. Here one method is written for each, its
``__init__``, and the rest are shared. `dataclasses.replace`, ``fields`` and ``asdict`` take these
records too.
"""

from __future__ import annotations

from typing import Any, NoReturn, TypeVar, dataclass_transform

__all__ = ["aside", "frozen", "replace"]

Record = TypeVar("Record")


class _Aside:
    """The default of a field that neither equality nor the written form counts."""

    def __init__(self, default: Any) -> None:
        self.default = default


def aside(*, default: Any) -> Any:
    """Return the default of a field that is left aside when two records are compared."""
    return _Aside(default)


class _Fields:
    """What `dataclasses` wants to know of a kind of record, made when it first asks."""

    def __get__(self, record: Any, kind: type[Any]) -> dict[str, Any]:
        import dataclasses

        specs: list[tuple[str, Any, Any]] = []
        for name, told in kind.__annotations__.items():
            if name not in kind._defaults:
                specs.append((name, told, dataclasses.field()))
                continue
            counts = name in kind._counted
            default = dataclasses.field(default=kind._defaults[name], compare=counts, repr=counts)
            specs.append((name, told, default))
        made = dataclasses.make_dataclass(kind.__name__, specs, frozen=True)
        found = {field.name: field for field in dataclasses.fields(made)}
        kind.__dataclass_fields__ = found
        return found


def _compared(record: Any) -> tuple[Any, ...]:
    values = record.__dict__
    return tuple([values[name] for name in record._counted])


def _equal(self: Any, other: object) -> Any:
    if other.__class__ is not self.__class__:
        return NotImplemented
    return _compared(self) == _compared(other)


def _hash(self: Any) -> int:
    return hash(_compared(self))


def _written(self: Any) -> str:
    shown = ", ".join(f"{name}={self.__dict__[name]!r}" for name in self._counted)
    return f"{type(self).__qualname__}({shown})"


def _kept(self: Any, name: str, *_: Any) -> NoReturn:
    raise AttributeError(f"a {type(self).__name__} is not changed: replace() gives another")


@dataclass_transform(frozen_default=True, field_specifiers=(aside,))
def frozen(kind: type[Record]) -> type[Record]:
    """Make a class with annotated fields a frozen record.

    Parameters
    ----------
    kind
        The class; what it gives a field is the field's default.
    """
    names = list(kind.__annotations__)
    defaults: dict[str, Any] = {}
    counted = []
    for name in names:
        default = kind.__dict__.get(name, _Aside)
        if isinstance(default, _Aside):
            defaults[name] = default.default
            setattr(kind, name, default.default)
            continue
        counted.append(name)
        if default is not _Aside:
            defaults[name] = default
    given = ", ".join(f"{n}=_defaults[{n!r}]" if n in defaults else n for n in names)
    body = "; ".join(f"d[{n!r}] = {n}" for n in names)
    space: dict[str, Any] = {"_defaults": defaults}
    exec(f"def __init__(self, {given}):\n d = self.__dict__; {body}", space)
    space["__init__"].__annotations__ = kind.__annotations__
    made = {
        "__init__": space["__init__"],
        "__match_args__": tuple(names),
        "__eq__": _equal,
        "__hash__": _hash,
        "__repr__": _written,
        "__setattr__": _kept,
        "__delattr__": _kept,
        "__dataclass_fields__": _Fields(),
        "_counted": tuple(counted),
        "_defaults": defaults,
    }
    for name, value in made.items():
        setattr(kind, name, value)
    return kind


def replace(record: Record, **changes: Any) -> Record:
    """Return a record like another but for some fields.

    Parameters
    ----------
    record
        A record, or an instance of a frozen dataclass.
    changes
        New values by field.

    Raises
    ------
    TypeError
        If there is no such field.
    """
    kind = type(record)
    known = kind.__match_args__  # type: ignore[attr-defined]
    values = {name: record.__dict__[name] for name in known}
    for name in changes:
        if name not in values:
            raise TypeError(f"a {kind.__name__} has no {name}")
    return kind(**{**values, **changes})
