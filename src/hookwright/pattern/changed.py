"""Records changed as `dataclasses.replace` changes them, several times as quick: for the places that do it to every row at every edit."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields
from functools import cache
from operator import attrgetter
from typing import Any, TypeVar

T = TypeVar("T")
_new = object.__new__


@cache
def _ways(cls: Any, names: tuple[str, ...]) -> tuple[Callable[[Any], tuple[Any, ...]], tuple[Any, ...], tuple[Any, ...]]:
    """What takes the values that stay, what puts each into a new object, and what puts in those that change."""
    kept = [field.name for field in fields(cls) if field.name not in names]
    return attrgetter(*kept), tuple(getattr(cls, name).__set__ for name in kept), tuple(getattr(cls, name).__set__ for name in names)


def changed(record: T, **values: object) -> T:
    """A slotted record like this one with other values, of which its own making would do nothing but store them. At least two must stay.

    >>> from hookwright.pattern import Make, Span
    >>> changed(Make(stitch="dc", span=Span(0, 2)), span=Span(5, 7)) == Make(stitch="dc")
    True
    """
    cls: Any = type(record)
    take, keep, put = _ways(cls, tuple(values))
    new: T = _new(cls)
    for set_value, value in zip(keep, take(record), strict=True):
        set_value(new, value)
    for set_value, value in zip(put, values.values(), strict=True):
        set_value(new, value)
    return new


__all__ = ["changed"]
