"""A stretch of a row's steps, looked at where they stand: slices of very long rows would cost the square of their length."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import overload

from ..pattern import Step

LONG = 64
"""Up to so many steps a plain slice is quicker."""


class Stretch(Sequence[Step]):
    """Steps `start` up to (not with) `stop` of a longer sequence, without a copy."""

    __slots__ = ("_start", "_steps", "_stop")

    def __init__(self, steps: Sequence[Step], start: int, stop: int) -> None:
        self._steps, self._start, self._stop = steps, start, max(start, stop)

    def __len__(self) -> int:
        return self._stop - self._start

    @overload
    def __getitem__(self, index: int) -> Step: ...
    @overload
    def __getitem__(self, index: slice) -> Sequence[Step]: ...
    def __getitem__(self, index: int | slice) -> Step | Sequence[Step]:
        if isinstance(index, slice):
            return tuple(self._steps[k + self._start] for k in range(*index.indices(len(self))))
        if not -len(self) <= index < len(self):
            raise IndexError(index)
        return self._steps[self._start + index % len(self)]

    def __iter__(self) -> Iterator[Step]:
        steps = self._steps
        return (steps[k] for k in range(self._start, self._stop))


def stretch(steps: Sequence[Step], start: int, stop: int | None = None) -> Sequence[Step]:
    """`steps[start:stop]`, copied only where that is short."""
    end = len(steps) if stop is None else stop
    return steps[start:end] if len(steps) <= LONG else Stretch(steps, start, end)
