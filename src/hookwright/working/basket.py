"""The elements of a row while it is being worked: arrays that only grow, and can be taken back to an earlier mark."""

from __future__ import annotations

from array import array
from collections.abc import Sequence
from typing import NamedTuple

from .fabric import How, Role, Stitches


class Mark(NamedTuple):
    """How far the basket was filled."""

    elements: int
    feet: int
    groups: int


class Basket:
    """Collects elements and feet; `done` makes the row's `Stitches`."""

    __slots__ = (
        "_codes", "back", "colour", "colours", "feet", "foot_at", "groups", "how", "kind", "names", "repeat", "role", "stands", "step",
    )  # fmt: skip

    def __init__(self, colour: str) -> None:
        self.names: list[str] = []
        self._codes: dict[str, int] = {}
        self.kind = array("H")
        self.role = bytearray()
        self.step = array("i")
        self.repeat = array("i")
        self.feet = array("I", [0])
        self.back = array("h")
        self.foot_at = array("i")
        self.how = bytearray()
        self.colours: list[str] = [colour]
        self.colour = array("H")
        self.stands: dict[int, str] = {}
        self.groups: list[tuple[int, int, str]] = []

    def __len__(self) -> int:
        return len(self.role)

    def mark(self) -> Mark:
        return Mark(len(self.role), len(self.foot_at), len(self.groups))

    def back_to(self, mark: Mark) -> None:
        """Take everything after `mark` out again."""
        n, f, g = mark
        for part in (self.kind, self.step, self.repeat, self.colour):
            del part[n:]
        del self.role[n:], self.feet[n + 1 :], self.back[f:], self.foot_at[f:], self.how[f:], self.groups[g:]
        for i in [i for i in self.stands if i >= n]:
            del self.stands[i]

    def code(self, name: str) -> int:
        code = self._codes.get(name)
        if code is None:
            code = self._codes[name] = len(self.names)
            self.names.append(name)
        return code

    def use_colour(self, colour: str) -> int:
        if colour not in self.colours:
            self.colours.append(colour)
        return self.colours.index(colour)

    def put(self, name: str, role: Role, step: int, repeat: int, colour: int, feet: Sequence[tuple[int, int, int]] = ()) -> int:
        """Add one element; its index comes back. `feet`: (rows back, element, how)."""
        self.kind.append(self.code(name))
        self.role.append(role)
        self.step.append(step)
        self.repeat.append(repeat)
        self.colour.append(colour)
        for back, at, how in feet:
            self.back.append(back)
            self.foot_at.append(at)
            self.how.append(how)
        self.feet.append(len(self.foot_at))
        return len(self.role) - 1

    def put_run(self, name: str, step: int, repeat: int, colour: int, back: int, at: Sequence[int], how: How) -> None:
        """Add one stitch of `name` into each of the places `at`: array fills, no loop over stitches."""
        n = len(at)
        self._fill(name, Role.STITCH, step, repeat, colour, n)
        first = len(self.foot_at)
        self.back.extend(array("h", [back]) * n)
        self.foot_at.extend(at)
        self.how.extend(bytes([how]) * n)
        self.feet.extend(range(first + 1, first + n + 1))

    def put_airy(self, name: str, role: Role, step: int, repeat: int, colour: int, n: int) -> None:
        """Add n elements that stand on nothing below (chains, foundation stitches)."""
        self._fill(name, role, step, repeat, colour, n)
        self.feet.extend(array("I", [len(self.foot_at)]) * n)

    def _fill(self, name: str, role: Role, step: int, repeat: int, colour: int, n: int) -> None:
        self.kind.extend(array("H", [self.code(name)]) * n)
        self.role.extend(bytes([role]) * n)
        self.step.extend(array("i", [step]) * n)
        self.repeat.extend(array("i", [repeat]) * n)
        self.colour.extend(array("H", [colour]) * n)

    def done(self) -> Stitches:
        """The row's elements, final."""
        return Stitches(
            names=tuple(self.names), kind=self.kind, role=bytes(self.role), step=self.step, repeat=self.repeat, feet=self.feet,
            foot_back=self.back, foot_at=self.foot_at, foot_how=bytes(self.how), colour=self.colour, colours=tuple(self.colours),
            stands=dict(self.stands), groups={first: (length, name) for first, length, name in self.groups},
        )  # fmt: skip


def content_key(s: Stitches) -> tuple[object, ...]:
    """Equal for rows that are equal element by element (steps apart)."""
    return (
        s.names, s.kind.tobytes(), s.role, s.repeat.tobytes(), s.feet.tobytes(), s.foot_back.tobytes(), s.foot_at.tobytes(), s.foot_how,
        s.colour.tobytes(), s.colours, tuple(s.stands.items()), tuple(s.groups.items()), s.step.tobytes(),
    )  # fmt: skip
