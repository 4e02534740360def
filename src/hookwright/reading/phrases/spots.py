"""A place as told in words, before it becomes a `Place`: how many, to where, whether each."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, cast

from ...pattern import ZERO as ZERO
from ...pattern import Place, Sized
from ...pattern.nodes import Loop

ONE: Sized[int] = Sized((1,))


CLAUSE = frozenset((",", ";", ".", "", "(", ")"))
"""Kinds of words that end a clause."""
RUN_ENDS = CLAUSE | {"]", "*"}
"""The same, and what closes a repeat."""
CLOSE = frozenset((",", ";", ".", "", "(", ")", "[", "]", "*", "=", "-"))


@dataclass(slots=True)
class Spot:
    """A place as told: `places` how many of them, `each` whether "each/every/all" was said, `every` 2 for "every other"."""

    at: Place
    places: Sized[int] | Literal["rest"] = ONE
    but: Sized[int] = ZERO
    each: bool = False
    every: int = 1
    skip: int = 0
    told: bool = False
    """A number of places was told."""
    tog: bool = False
    evenly: bool = False
    upto: str = ""
    """The run ends at the next place of this kind."""
    limit_at: int | None = None
    """The token with which the words on how far the run goes begin; None where none are told."""


def moved(at: Place, **changes: object) -> Place:
    values = {name: getattr(at, name) for name in ("where", "what", "nth", "loop", "post", "below", "between", "row", "of", "span")}
    values.update(changes)
    return Place(**values)


def as_loop(name: str) -> Loop:
    return cast(Loop, name)
