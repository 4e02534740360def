"""A pattern cut down to one of its sizes, so that no line of it holds a number for anybody else."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from functools import singledispatch
from typing import Any

from ..pattern import Make, Part, Pattern, Row, Sized, Together


def one_size(pattern: Pattern, size: int) -> Pattern:
    """The pattern as this size (from 0) works it: one number everywhere, steps and rows of other sizes left out. Ids and spans stay."""
    if pattern.sizes == 1:
        return pattern
    parts = tuple(_part(part, size) for part in pattern.parts if part.only is None or size in part.only)
    defined = {name: _at(special, size) for name, special in pattern.defined.items()}
    return replace(pattern, parts=parts, defined=defined, facts=replace(pattern.facts, size_names=()))


def _part(part: Part, size: int) -> Part:
    rows = tuple(_row(row, size) for row in part.rows if _worked(row, size))
    return replace(part, rows=rows, copies=_at(part.copies, size), only=None)


def _worked(row: Row, size: int) -> bool:
    if row.only is not None and size not in row.only:
        return False
    return not row.numbers or bool(row.numbers_at(size))


def _row(row: Row, size: int) -> Row:
    here: Row = _at(replace(row, numbers=(), only=None), size)
    return replace(here, numbers=(row.numbers_at(size),) if row.numbers else ())


@singledispatch
def _at(value: Any, size: int) -> Any:
    """The value with every `Sized` in it cut down, and every node of other sizes taken out of its tuple."""
    if is_dataclass(value) and not isinstance(value, type):
        changed = {field.name: _at(getattr(value, field.name), size) for field in fields(value)}
        return replace(value, **(changed | {"only": None} if "only" in changed else changed))
    return value


@_at.register
def _(value: Sized, size: int) -> Any:  # type: ignore[type-arg]
    return Sized((value.at(size),))


@_at.register
def _(value: tuple, size: int) -> Any:  # type: ignore[type-arg]
    made = [_at(item, size) for item in value if _mine(item, size)]
    return type(value)(*made) if hasattr(value, "_fields") else tuple(made)


@_at.register
def _(value: Mapping, size: int) -> Any:  # type: ignore[type-arg]
    return value


def _mine(item: Any, size: int) -> bool:
    """Whether a node is worked in this size: it belongs to it, and its number is not left out."""
    only = getattr(item, "only", None)
    if isinstance(only, frozenset) and size not in only:
        return False
    if isinstance(item, (Make, Together)) and isinstance(item.places, Sized):
        return item.places.at(size) is not None
    return True
