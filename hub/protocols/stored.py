"""Values to plain JSON and back, exactly: how a sheet is frozen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import date, time
from enum import Enum
from functools import cache
from types import NoneType, UnionType
from typing import Any, TypeVar, Union, cast, get_args, get_origin, get_type_hints

from hub.words import Words

T = TypeVar("T")


def stored(value: Any) -> Any:
    """Plain JSON of a value made of dataclasses, words, enums, dates, mappings and tuples."""
    if isinstance(value, Words):
        return value.as_json()
    if is_dataclass(value):
        return {each.name: stored(getattr(value, each.name)) for each in fields(value)}
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, date | time):
        return value.isoformat()
    if isinstance(value, Mapping):
        return {str(key): stored(each) for key, each in value.items()}
    if isinstance(value, tuple | list):
        return [stored(each) for each in value]
    return value


def restored(kind: type[T], data: Any) -> T:
    """Read back what ``stored`` wrote, guided by the type."""
    return cast(T, _restored(kind, data))


def _restored(kind: Any, data: Any) -> Any:
    if data is None or kind is Any:
        return data
    origin = get_origin(kind)
    if origin in (Union, UnionType):
        return _restored(next(each for each in get_args(kind) if each is not NoneType), data)
    if origin is tuple:
        return tuple(_restored(get_args(kind)[0], each) for each in data)
    if origin is not None and issubclass(origin, Mapping):
        key, value = get_args(kind)
        return {_restored(key, name): _restored(value, each) for name, each in data.items()}
    return _plain(kind, data)


def _plain(kind: Any, data: Any) -> Any:
    if kind is Words:
        return Words.from_json(data)
    if isinstance(kind, type) and is_dataclass(kind):
        hints = _hints(kind)
        return kind(**{name: _restored(hints[name], each) for name, each in data.items()})
    if issubclass(kind, date | time):
        return kind.fromisoformat(data)
    return kind(data) if issubclass(kind, Enum) else data


@cache
def _hints(kind: Any) -> dict[str, Any]:
    return get_type_hints(kind)
