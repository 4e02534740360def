"""What the pattern expects to be said: every written row with its numbers, counts and stitches in order."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal, TypeAlias

from ...pattern import Aside, Chain, Colour, FastenOff, Join, Make, Refer, Repeat, Sized, Skip, Step, Turn
from ...pattern.walking import inside
from ...trade.kinds import TUNISIAN, base, closes
from ...working import Fabric, How, Role, RowWork
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
    size: int = 0
    behind: frozenset[int] = frozenset()
    """What may be told of rows without a number that follow ("Next row"), which are no units of their own."""
    also: frozenset[str] = frozenset()
    """The stitches of those rows."""
    called: str = ""
    """What its rows are called, "row" or "round": by their labels where any of the pattern's says "round", else by how they are made."""
    heading: frozenset[int] = frozenset()
    """The numbers in front of its words, those of other sizes too: "Rows 5-24 (28):"."""
    lent: frozenset[int] = frozenset()
    """The numbers in the words of the rows it refers to."""
    size_names: frozenset[str] = frozenset()
    """The words that name its size: "m", "medium"."""

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
        every = [n for _, n in counts_stated(row, self.size)]
        stated = {*every, sum(every)} if len(every) > 1 else set(every)
        if stated and tunisian(row):
            return frozenset(stated) | self.behind
        known = known_numbers(row.counted.by_kind, row.counted.total) | stated
        if stated and row.counted.by_kind.get("ch", 0) * 4 < row.counted.total:  # a chain at a corner is not counted by anyone
            known -= known_numbers({k: row.counted.by_kind.get(k, 0) for k in ("ch", "sp")}, row.counted.total)
            known |= {row.counted.total, *row.counted.by_kind.values(), *stated}
        return frozenset(known) | self.behind

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
        """The numbers its steps are told with: places, chains, times; those of the rows it is told as ("as Row 2") too."""
        return frozenset(_numbers(self.rows[0].written.steps)) | self.lent

    @cached_property
    def kinds(self) -> frozenset[str]:
        """The plain stitches of its rows, the one that closes a last loop included ("ch 2, dc in first sc"), which no count holds; those
        that are only written too, where a row was not understood whole."""
        written = (base(step.stitch) for step in inside(self.rows[0].written.steps) if isinstance(step, Make))
        return self.also | _kinds_of(self.rows[:4]) | (frozenset(written) - {"ch", "sl st", "inc", "dec"})

    @cached_property
    def items(self) -> tuple[Item, ...]:
        found = items_of(self.rows[0])
        if _asks_increases(self.rows[0].written.steps):
            return found
        # two stitches side by side in one place are none here, but how an edge stitch lies
        return tuple(replace(item, kind="st") if item.kind == "inc" else item for item in found)

    @cached_property
    def shapes(self) -> frozenset[str]:
        """ "inc", "dec" where its rows have any, "inc" also where several stitches stand together in a space or a group."""
        found = {item.kind for row in self.rows[:4] for item in items_of(row)}
        return frozenset({"inc" if kind == "group" else kind for kind in found} & {"inc", "dec"})

    @cached_property
    def told_numbers(self) -> frozenset[int]:
        """Every number that may be told of its work and its counts."""
        return self.instructed | self.any_allowed

    @property
    def total(self) -> int:
        return self.rows[-1].counted.total


_LETTERS = {"s": "small", "m": "medium", "l": "large"}


def _size_names(fabric: Fabric) -> frozenset[str]:
    names = fabric.pattern.facts.size_names
    own = names[fabric.size].lower().split() if fabric.size < len(names) else []
    return frozenset((*own, *(_LETTERS[word] for word in own if word in _LETTERS)))


def units_of(fabric: Fabric) -> tuple[Unit, ...]:
    """The written rows that have numbers, in the order of the pattern."""
    found: list[Unit] = []
    for k, part in enumerate(fabric.parts):
        by_written: dict[int, list[RowWork]] = {}
        behind: dict[int, set[int]] = {}
        also: dict[int, frozenset[str]] = {}
        last = -1
        for row in part.rows:
            if not row.foundation and row.number is not None:
                last = row.written.id
                by_written.setdefault(last, []).append(row)
            elif not row.foundation:
                behind.setdefault(last, set()).update(known_numbers(row.counted.by_kind, row.counted.total))
                also[last] = also.get(last, frozenset()) | _kinds_of((row,))
        for rows in by_written.values():
            numbers = tuple(sorted({row.number for row in rows if row.number is not None}))
            refers = frozenset(n for step in rows[0].written.steps if isinstance(step, Refer) for n in step.rows)
            lent = frozenset(n for unit in found if unit.part == k and refers & set(unit.numbers) for n in unit.instructed)
            found.append(
                Unit(
                    index=len(found), part=k, part_name=part.name, label=_label(rows), numbers=numbers, rows=tuple(rows), refers=refers,
                    stated=any(row.stated for row in rows), size=fabric.size, behind=frozenset(behind.get(rows[0].written.id, ())),
                    also=also.get(rows[0].written.id, frozenset()), lent=lent, heading=_heading(fabric.pattern.source, rows[0]),
                    size_names=_size_names(fabric),
                )
            )  # fmt: skip
    rounds = any(unit.label.lower().startswith(("round", "rnd")) for unit in found)
    return tuple(replace(unit, called=_called(unit, by_label=rounds)) for unit in found)


def counts_stated(row: RowWork, size: int) -> tuple[tuple[str, int], ...]:
    """(kind, number) of every count of a whole row that the pattern states in that size: no change of it, and none amid the row."""
    counts = (count for count in row.stated if not count.change and not count.running)
    return tuple((count.kind, n) for count in counts if (n := count.number.at(size)) is not None)


def tunisian(row: RowWork) -> bool:
    """Whether a row is of Tunisian stitches: then its loops are counted as stated, the first and the edge's too."""
    return bool(row.counted.by_kind) and {base(kind) for kind in row.counted.by_kind} <= set(TUNISIAN)


def _asks_increases(steps: Sequence[Step]) -> bool:
    """Whether the words of a row put several stitches into one place, or leave open what they ask for."""
    for step in inside(steps):
        if not isinstance(step, Aside | Chain | Colour | FastenOff | Join | Make | Repeat | Skip | Turn):
            return True
        if isinstance(step, Make) and (step.stitch == "inc" or step.each.values != (1,) or step.at.where not in ("next", "last")):
            return True
    return False


def _heading(source: str, row: RowWork) -> frozenset[int]:
    start = source.rfind("\n", 0, row.written.span.start) + 1
    head, colon, _ = source[start : start + 60].partition(":")
    return frozenset(int(n) for n in re.findall(r"\d+", head)) if colon else frozenset()


def _called(unit: Unit, *, by_label: bool) -> str:
    if by_label:
        return "row" if unit.label.lower().startswith("row") else "round"
    return unit.noun.lower()


def _kinds_of(rows: Sequence[RowWork]) -> frozenset[str]:
    return frozenset(base(row.stitches.name(i)) for row in rows for i in range(len(row.stitches))) - {"ch", "sl st"}


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
    """Every element of the row as an item, runs of the same once."""
    st = row.stitches
    out: list[Item] = []
    for i, role in enumerate(st.role):
        if role == Role.CHAIN and (i == 0 or st.role[i - 1] != Role.CHAIN):
            _add(out, Item("ch", str(_chain_length(row, i))))
        if i in st.groups:
            _add(out, Item("group", st.groups[i][1]))
        if role == Role.STITCH and base(st.name(i)) != "sl st":  # slip stitches are said as moving along, or not at all
            _add(out, _item(row, i))
    return tuple(out)


def _add(out: list[Item], item: Item) -> None:
    if not out or out[-1] != item:
        out.append(item)


def _item(row: RowWork, i: int) -> Item:
    """One stitch: plain, one of several in one place, or several worked together."""
    kind = _kind(row.stitches.name(i))
    if closes(row.stitches.name(i)) > 1:
        return Item("dec", kind)
    foot = _foot(row, i)
    beside = [k for k in (i - 1, i + 1) if 0 <= k < len(row.stitches) and row.stitches.role[k] == Role.STITCH]
    return Item("inc" if foot is not None and any(_foot(row, k) == foot for k in beside) else "st", kind)


def _foot(row: RowWork, i: int) -> tuple[int, int] | None:
    """The stitch that element i stands in; None in a ring, a space, an edge, which take any number."""
    for back, at, how in row.stitches.feet_of(i):
        return None if how in (How.RING, How.SPACE, How.SIDE, How.UNDER) else (back, at)
    return None


def _kind(name: str) -> str:
    return name[:2] + base(name) if name[:2] in ("FP", "BP") else base(name)


def _chain_length(row: RowWork, i: int) -> int:
    n = 1
    while i + n < len(row.stitches) and row.stitches.role[i + n] == Role.CHAIN:
        n += 1
    return n


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
