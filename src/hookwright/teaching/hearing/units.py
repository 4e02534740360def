"""What the pattern expects to be said: every written row with its numbers, counts and stitches in order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal, TypeAlias

from ...pattern import Refer, Repeat, Sized, Step
from ...trade.kinds import base, closes
from ...working import Fabric, How, Role, RowWork
from ...writing.used import inside
from ..counts import known_numbers

ItemKind: TypeAlias = Literal["st", "inc", "dec", "ch", "group"]


@dataclass(frozen=True, slots=True)
class Item:
    """One thing a row asks for. `what` a plain stitch id (posts as "FPdc"), a number of chains, a group's name."""

    kind: ItemKind
    what: str

    @property
    def plain(self) -> str:
        return base(self.what) if self.kind in ("st", "inc", "dec") else self.what


@dataclass(frozen=True)
class Unit:
    """One written row (or range of rows). `numbers` it covers; `rows` as worked; `part` the index and name of its part."""

    index: int
    part: int
    part_name: str
    label: str
    numbers: tuple[int, ...]
    rows: tuple[RowWork, ...]
    refers: frozenset[int]
    stated: bool

    @property
    def first(self) -> int:
        return self.numbers[0]

    @property
    def last(self) -> int:
        return self.numbers[-1]

    @property
    def noun(self) -> str:
        return "Round" if self.rows[0].made_in not in ("rows", "passes") or self.rows[0].written.noun == "round" else "Row"

    def row_at(self, number: int) -> RowWork:
        return next((row for row in self.rows if row.number == number), self.rows[-1])

    def allowed(self, number: int) -> frozenset[int]:
        """Every number that may be told as the count of a row of this unit."""
        row = self.row_at(number)
        stated = {n for count in row.stated for n in count.number.values if n is not None and not count.change and not count.running}
        return known_numbers(row.counted.by_kind, row.counted.total) | frozenset(stated)

    @cached_property
    def main_counts(self) -> frozenset[int]:
        """The counts told of its rows as a rule: all stitches, each kind, what is stated."""
        found: set[int] = set()
        for row in self.rows:
            found |= {row.counted.total, *row.counted.by_kind.values()}
        return frozenset(found)

    @cached_property
    def any_allowed(self) -> frozenset[int]:
        return frozenset().union(*(self.allowed(row.number) for row in self.rows if row.number is not None))

    @cached_property
    def instructed(self) -> frozenset[int]:
        """The numbers its steps are told with: places, chains, times."""
        return frozenset(_numbers(self.rows[0].written.steps))

    @cached_property
    def kinds(self) -> frozenset[str]:
        """The plain stitches of its rows, and those it stands on or counts by name."""
        return frozenset(base(row.stitches.name(i)) for row in self.rows[:4] for i in row.stitches.counted()) - {"ch"}

    @cached_property
    def items(self) -> tuple[Item, ...]:
        return items_of(self.rows[0])

    @property
    def total(self) -> int:
        return self.rows[-1].counted.total


def units_of(fabric: Fabric) -> tuple[Unit, ...]:
    """The written rows that have numbers, in the order of the pattern."""
    found: list[Unit] = []
    for k, part in enumerate(fabric.parts):
        by_written: dict[int, list[RowWork]] = {}
        for row in part.rows:
            if not row.foundation and row.number is not None:
                by_written.setdefault(row.written.id, []).append(row)
        for rows in by_written.values():
            numbers = tuple(sorted({row.number for row in rows if row.number is not None}))
            refers = frozenset(n for step in rows[0].written.steps if isinstance(step, Refer) for n in step.rows)
            found.append(
                Unit(len(found), k, part.name, _label(rows), numbers, tuple(rows), refers, any(row.stated for row in rows))
            )  # fmt: skip
    return tuple(found)


def _numbers(steps: Sequence[Step]) -> Iterator[int]:
    for step in inside(steps):
        for name in ("each", "places", "number", "but"):
            value = getattr(step, name, None)
            if isinstance(value, Sized):
                yield from (n for n in value.values if isinstance(n, int))
        if isinstance(step, Repeat):
            yield from (n for n in step.times.number.values if n is not None)


def _label(rows: Sequence[RowWork]) -> str:
    first, last = rows[0].label, rows[-1].label
    return first if first == last else f"{first.partition(' ')[0]}s {rows[0].number}-{rows[-1].number}"


def items_of(row: RowWork) -> tuple[Item, ...]:
    """What a row asks for, in order: runs of equal stitches once, a repeat that comes round once."""
    return _once(_runs(row))


def _runs(row: RowWork) -> tuple[Item, ...]:
    st = row.stitches
    out: list[Item] = []
    before: tuple[int, int] | None = None
    for i, role in enumerate(st.role):
        if role == Role.CHAIN:
            _chain(out, row, i)
            before = None
            continue
        if role not in (Role.STITCH, Role.START_TOP):
            continue
        if i in st.groups:
            out.append(Item("group", st.groups[i][1]))
        foot = next(((back, at) for back, at, how in st.feet_of(i) if how is not How.RING), None)
        space = any(how in (How.SPACE, How.SIDE, How.UNDER) for _, _, how in st.feet_of(i))
        if role == Role.STITCH or foot is not None:
            same = foot is not None and foot == before and not space and not (i and st.role[i - 1] == Role.START_TOP)
            _stitch(out, _kind(st.name(i)), same, closes(st.name(i)) > 1)
        before = foot
    return tuple(out)


def _kind(name: str) -> str:
    return name[:2] + base(name) if name[:2] in ("FP", "BP") else base(name)


def _chain(out: list[Item], row: RowWork, i: int) -> None:
    if i and row.stitches.role[i - 1] == Role.CHAIN:
        return
    n = 1
    while i + n < len(row.stitches) and row.stitches.role[i + n] == Role.CHAIN:
        n += 1
    out.append(Item("ch", str(n)))


def _stitch(out: list[Item], kind: str, same: bool, together: bool) -> None:
    item = Item("dec" if together else "st", kind)
    if same and out and out[-1].kind in ("st", "inc") and out[-1].plain == base(kind):
        if out[-1].kind == "st":
            out[-1] = Item("inc", kind)
        return
    if out and out[-1] == item and item.kind in ("st", "dec"):
        return
    out.append(item)


def _once(items: tuple[Item, ...], most: int = 16) -> tuple[Item, ...]:
    """Each stretch that comes again at once written once."""
    out: list[Item] = []
    at = 0
    while at < len(items):
        period = next((p for p in range(1, most + 1) if len(items) >= at + 2 * p and items[at : at + p] == items[at + p : at + 2 * p]), 0)
        if not period:
            out.append(items[at])
            at += 1
            continue
        body = items[at : at + period]
        while items[at : at + period] == body:
            at += period
        out += body
    return tuple(out)
