"""What is asked of a row, or of its steps alone, told once for the very thing.

A re-check after an edit meets, in all rows but the edited one, the steps it met before: reading hands on the very tuples of rows that
stand where they stood (`read(…, before=…)`). So the answer to a question that rests on the steps and on nothing else is kept beside them,
and they are known again by identity, which costs a look. What rests on more (the row below, the facts, the words) is asked anew each time.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Generic, TypeVar

from .model import Part, Pattern, Row
from .nodes import Step

K = TypeVar("K")
T = TypeVar("T")
MOST = 4_096
"""Rows that answers are kept of, for each question; beyond that memory is begun anew."""


class Once(Generic[K, T]):
    """A question about rows or their steps, with the answers given. A falsy answer tells nothing."""

    __slots__ = ("_answers", "_ask")

    def __init__(self, ask: Callable[[K], T]) -> None:
        self._ask = ask
        self._answers: dict[int, tuple[K, T]] = {}
        """By the id of what was asked of, which is kept so that it stays its own."""

    def __call__(self, thing: K) -> T:
        known = self._answers.get(id(thing))
        return self._first(thing) if known is None else known[1]

    def _first(self, thing: K) -> T:
        if len(self._answers) >= MOST:
            self._answers.clear()
        answer = self._ask(thing)
        self._answers[id(thing)] = (thing, answer)
        return answer

    def rows(self: Once[tuple[Step, ...], T], pattern: Pattern) -> Iterator[tuple[Part, Row, T]]:
        """(part, row, answer) of every row that tells something, in order."""
        for part in pattern.parts:
            for row in part.rows:
                answer = self(row.steps)
                if answer:
                    yield part, row, answer


def once(ask: Callable[[K], T]) -> Once[K, T]:
    """`ask`, told once for the very row or steps."""
    return Once(ask)
