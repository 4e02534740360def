"""Numbers that differ from size to size, written `38 (42, 46)`."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic, TypeVar

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Sized(Generic[T]):
    """One value for every size, or one for all of them. `None` inside = this size leaves it out.

    >>> Sized.of(5).at(3), Sized((38, 42, 46)).at(1)
    (5, 42)
    """

    values: tuple[T | None, ...]

    @classmethod
    def of(cls, *values: T | None) -> Sized[T]:
        return cls(tuple(values))

    def at(self, size: int) -> T | None:
        """The value for `size` (from 0); one value serves all sizes; beyond a short list the last is taken."""
        if len(self.values) == 1:
            return self.values[0]
        return self.values[min(size, len(self.values) - 1)]

    @property
    def many(self) -> bool:
        return len(self.values) > 1

    def __str__(self) -> str:
        first, *rest = ("-" if value is None else str(value) for value in self.values)
        return f"{first} ({', '.join(rest)})" if rest else first
