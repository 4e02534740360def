"""Move a row's nodes to their place in the source: spans by an offset, ids by a number. Rows are read once and placed often."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import fields
from functools import cache
from operator import attrgetter
from typing import Any, TypeAlias, cast

from ..pattern import Count, Place, Sized, Span, Special, Trouble, Until
from ..pattern.nodes import Node, Times

_new = object.__new__
_MOVED = (Node, Count, Trouble, Until, Special)

Take: TypeAlias = Callable[[Any], Any]
Keep: TypeAlias = Callable[[Any, Any], None]


@cache
def _names(cls: Any) -> tuple[tuple[str, int], ...]:
    """A class's fields and what to do with each: 0 keep, 1 id, 2 span, 3 go inside."""
    plain = {"stitch", "number", "each", "places", "but", "closes", "main", "evenly", "counts", "stands_for", "foundation", "no", "only", "where", "what", "nth",  # noqa: E501
             "loop", "post", "below", "between", "row", "kind", "yarn", "join_in", "change", "every", "times", "cut", "question", "rows", "part", "stretch",  # noqa: E501
             "reverse", "name", "message", "data", "per", "running", "approximate", "chains", "turning_chain", "stitches", "length_cm", "upto", "first", "ordinal"}  # fmt: skip  # noqa: E501
    found = []
    for field in fields(cast(Any, cls)):
        name = field.name
        what = 1 if name == "id" else 2 if name == "span" else 0 if name in plain else 3
        if name == "last" and getattr(cls, "__name__", "") == "Refer":
            what = 0
        found.append((name, what))
    return tuple(found)


@cache
def _members(cls: Any) -> tuple[Take, tuple[Keep, ...], tuple[tuple[int, Take, Keep], ...]]:
    """What takes all the values of a class that are kept, what puts each into a new object; the same for each value that is moved.

    The records are frozen, and their members are set as their own `__init__` does it, only without one call by name for each."""
    kept = [name for name, what in _names(cls) if what == 0]
    take = attrgetter(*kept) if len(kept) > 1 else _one_of(kept)
    moved = tuple((what, attrgetter(name), getattr(cls, name).__set__) for name, what in _names(cls) if what)
    return take, tuple(getattr(cls, name).__set__ for name in kept), moved


def _one_of(names: list[str]) -> Take:
    """As `attrgetter` of several names, for one or none."""
    return lambda node: tuple(getattr(node, name) for name in names)


def placed(offset: int, first: int) -> Callable[[Any], Any]:
    """A function that moves a node, a tuple of nodes, a place or a count by `offset` characters and `first` ids."""

    def move(node: Any) -> Any:
        cls = type(node)
        if cls is tuple:
            return tuple([move(one) for one in node]) if node else node
        if cls is Place:
            if node.span[1] == 0:
                return node
        elif not isinstance(node, _MOVED):
            return node
        new = _new(cls)
        get, put, moved = _members(cast(Hashable, cls))
        for keep, value in zip(put, get(node), strict=True):
            keep(new, value)
        for what, take, keep in moved:
            value = take(node)
            if what == 2:
                keep(new, Span(value[0] + offset, value[1] + offset) if value[1] else value)
            elif what == 1:
                keep(new, value + first if value else value)
            else:
                keep(new, value if type(value) is int or type(value) is str else move(value))
        return new

    return move


__all__ = ["Sized", "Times", "placed"]
