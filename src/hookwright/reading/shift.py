"""Move a row's nodes to their place in the source: spans by an offset, ids by a number. Rows are read once and placed often."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import fields
from functools import cache
from typing import Any, cast

from ..pattern import Count, Place, Sized, Span, Special, Trouble, Until
from ..pattern.nodes import Node, Times

_set = object.__setattr__
_new = object.__new__


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


def placed(offset: int, first: int) -> Callable[[Any], Any]:
    """A function that moves a node, a tuple of nodes, a place or a count by `offset` characters and `first` ids."""

    def move(node: Any) -> Any:
        if node is None:
            return None
        cls = type(node)
        if cls is tuple:
            return tuple([move(one) for one in node])
        if cls is Place:
            span = node.span
            if span[1] == 0:
                return node
        elif not isinstance(node, (Node, Count, Trouble, Until, Special)):
            return node
        new = _new(cls)
        for name, what in _names(cast(Hashable, cls)):
            value = getattr(node, name)
            if what == 0:
                _set(new, name, value)
            elif what == 2:
                _set(new, name, Span(value[0] + offset, value[1] + offset) if value[1] else value)
            elif what == 1:
                _set(new, name, value + first if value else value)
            else:
                _set(new, name, move(value) if type(value) is not int and type(value) is not str else value)
        return new

    return move


__all__ = ["Sized", "Times", "placed"]
