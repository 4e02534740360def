"""What hands do in a worked row, one action for each thing a viewer has to see once: found in the fabric, not in the words.

A row written as "repeat Row 2" therefore shows what Row 2 shows, and "in the top of the chain" is found wherever a stitch stands on a
counted starting chain, whether the words say so or not.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import takewhile
from typing import Literal, TypeAlias

from ..pattern import FLAT, Aside, Chain, FastenOff, Make, Repeat, Ring, Together
from ..pattern.walking import inside
from ..trade.kinds import base, closes
from ..trade.terms import System, abbr
from ..trade.terms import name as full_name
from ..working import How, Role, RowWork

Family: TypeAlias = Literal["stitch", "increase", "decrease", "group", "place", "chain", "start", "join", "turn", "colour", "finish"]


@dataclass(frozen=True, slots=True)
class Action:
    """One action. `family` and `what` tell it from every other; `at` is where in the row it is first seen (0 the beginning, 1 the end)."""

    family: Family
    what: str
    at: float = 0.0

    @property
    def key(self) -> tuple[str, str]:
        return self.family, self.what

    def words(self, terms: System) -> str:
        """The action in words, stitches named in `terms`."""
        return _WORDS[self.family](self.what, terms)


def actions_of(row: RowWork, below: RowWork | None) -> tuple[Action, ...]:
    """The distinct actions of a row in the order they come; `below` the row it stands on, if any."""
    found: dict[tuple[str, str], Action] = {}
    for action in (*_begin(row, below), *_worked(row, below), *_end(row)):
        found.setdefault(action.key, action)
    return tuple(found.values())


def _begin(row: RowWork, below: RowWork | None) -> Iterator[Action]:
    """The turn, the ring, the starting chain."""
    if row.turned:
        yield Action("turn", "round" if row.made_in not in FLAT else "row")
    for step in inside(row.written.steps):
        if isinstance(step, Ring):
            yield Action("start", "ring" if step.chains is None else "ring of chains")
    if row.made_in == "spiral" and not row.foundation:
        yield Action("start", "spiral")
    if below is not None and not below.foundation and colour_of(row) not in ("", _last_colour(below)) and not _changes_at_end(below):
        yield Action("colour", "at the row's start")
    roles = row.stitches.role
    if Role.START_TOP in roles or Role.START in roles:
        chains = sum(role in (Role.START, Role.START_TOP) for role in roles)
        lead = takewhile(lambda step: not isinstance(step, (Make, Repeat, Together)), row.written.steps)
        if below is not None and below.foundation and not any(isinstance(step, Chain) and not step.foundation for step in lead):
            yield Action("place", f"chain {chains + 1} {'counted' if Role.START_TOP in roles else 'not counted'}")
            return
        yield Action("start", f"{chains} {'counted' if Role.START_TOP in roles else 'not counted'}")


def _worked(row: RowWork, below: RowWork | None) -> Iterator[Action]:
    """Stitch after stitch: kinds, increases, decreases, groups, places, colours."""
    st = row.stitches
    before: tuple[int, int] | None = None
    together: list[int] = []
    chains = 0
    for i, role in enumerate(st.role):
        at = i / max(len(st) - 1, 1)
        if i in st.groups:
            yield Action("group", st.groups[i][1], at)
        if role == Role.CHAIN:
            chains += 1
            continue
        if chains:
            yield Action("chain", "arch" if chains > 2 else "space", at)
            chains = 0
        if role in (Role.STITCH, Role.START_TOP):
            foot = _foot(row, i)
            if foot is not None and foot == before and st.feet[i + 1] - st.feet[i] == 1:
                together.append(i)
            else:
                yield from _increase(row, below, together)
                together = [i]
            before = foot
        if role == Role.STITCH:
            yield from _stitch(row, below, i, at)
        elif role == Role.TRAVEL:
            yield Action("join", "travel", at)
        if i and st.colour[i] != st.colour[i - 1]:
            yield Action("colour", "within the row" if at < 0.97 and i < len(st) - 2 else "at the row's end", at)
    yield from _increase(row, below, together)
    if chains:
        yield Action("chain", "arch" if chains > 2 else "space", 1.0)
    if _changes_at_end(row):
        yield Action("colour", "at the row's end", 1.0)


def colour_of(row: RowWork) -> str:
    """The yarn of the row's first element."""
    st = row.stitches
    return st.colours[st.colour[0]] if len(st) else row.yarn


def _last_colour(row: RowWork) -> str:
    st = row.stitches
    return st.colours[st.colour[-1]] if len(st) else row.yarn


def _changes_at_end(row: RowWork) -> bool:
    """Whether a new colour is taken up at the very end, so that no stitch of the row is in it yet."""
    st = row.stitches
    return len(st.colours) > 1 and len(st.colours) - 1 not in st.colour


def _foot(row: RowWork, i: int) -> tuple[int, int] | None:
    """The one place that element i stands in; None in the ring and in the air."""
    for back, at, how in row.stitches.feet_of(i):
        return None if how is How.RING else (back, at)
    return None


def _increase(row: RowWork, below: RowWork | None, together: list[int]) -> Iterator[Action]:
    """What is worked into one place: an increase, or a group where chains part it. Spaces take any number, so there it is neither."""
    if len(together) < 2 or any(i in row.stitches.groups for i in together):
        return
    kinds = [base(row.stitches.name(i)) for i in together]
    at = together[0] / max(len(row.stitches) - 1, 1)
    if _in_space(row, below, together[-1]):
        return
    if any(row.stitches.role[i] == Role.CHAIN for i in range(together[0], together[-1])):
        yield Action("group", "stitches and chains in one place", at)
    else:
        yield Action("increase", f"{len(together)} {' and '.join(dict.fromkeys(kinds))}", at)


def _in_space(row: RowWork, below: RowWork | None, i: int) -> bool:
    for back, at, how in row.stitches.feet_of(i):
        if how in (How.SPACE, How.SIDE, How.UNDER):
            return True
        if below is not None and row.index - below.index == back and 0 <= at < len(below.stitches):
            return below.stitches.role[at] == Role.CHAIN
    return False


def _stitch(row: RowWork, below: RowWork | None, i: int, at: float) -> Iterator[Action]:
    kind = row.stitches.name(i)
    if closes(kind) > 1:
        yield Action("decrease", kind, at)
    else:
        yield Action("stitch", kind, at)
    for back, foot, how in row.stitches.feet_of(i):
        place = _place(row, below, back, foot, how)
        if place:
            yield Action("place", place, at)


_HOW = {
    How.RING: "ring",
    How.SPACE: "space",
    How.FRONT_LOOP: "front loop",
    How.BACK_LOOP: "back loop",
    How.THIRD_LOOP: "third loop",
    How.UNDER: "under",
    How.SIDE: "side",
    How.BETWEEN: "between",
}


def _place(row: RowWork, below: RowWork | None, back: int, foot: int, how: How) -> str:
    if how in _HOW:
        return _HOW[how]
    if how is not How.TOP or back == 0 or below is None or foot < 0:
        return ""
    if back > 1 and row.below is not None and row.index - row.below < back:
        return "further down"
    if back != row.index - below.index or foot >= len(below.stitches):
        return ""
    role = below.stitches.role[foot]
    return {Role.START_TOP: "top of the chain", Role.CHAIN: "a chain of the row below"}.get(Role(role), "")


def _end(row: RowWork) -> Iterator[Action]:
    """The join, the stuffing, the fastening off."""
    st = row.stitches
    for i, role in enumerate(st.role):
        if role == Role.JOIN:
            tops = [at for back, at, _ in st.feet_of(i) if back == 0 and at >= 0 and st.role[at] == Role.START_TOP]
            yield Action("join", "top of the chain" if tops else "first stitch", 1.0)
            break
    for step in inside(row.written.steps):
        if isinstance(step, FastenOff):
            yield Action("finish", "fasten off", 1.0)
        elif isinstance(step, Aside) and step.kind in ("stuff", "close"):
            yield Action("finish", step.kind, 1.0)


def _stitch_words(kind: str, terms: System) -> str:
    return full_name(kind, terms)


def _increase_words(what: str, terms: System) -> str:
    number, _, kinds = what.partition(" ")
    names = " and ".join(full_name(kind, terms) for kind in kinds.split(" and "))
    return f"{number} {names} in one stitch, the increase"


def _decrease_words(kind: str, terms: System) -> str:
    return f"{full_name(kind, terms)}, the decrease ({abbr(kind, terms)})"


_PLACES = {
    "ring": "working into the ring",
    "space": "working into a chain space",
    "front loop": "the front loop only",
    "back loop": "the back loop only",
    "third loop": "the third loop, behind the stitch",
    "under": "the other side of the starting chain",
    "side": "working into the ends of rows",
    "between": "working between two stitches",
    "further down": "a stitch further down than the row below",
    "top of the chain": "the stitch in the top of the starting chain",
    "a chain of the row below": "working into a chain of the row below",
}
_STARTS = {
    "ring": "the magic ring",
    "ring of chains": "chains joined into a ring",
    "spiral": "going round without a join, the first stitch marked",
}
_OTHERS = {
    ("chain", "space"): "chains between stitches",
    ("chain", "arch"): "an arch of chains",
    ("join", "top of the chain"): "the join: a slip stitch to the top of the starting chain",
    ("join", "first stitch"): "the join: a slip stitch to the first stitch",
    ("join", "travel"): "slip stitches that only move along",
    ("turn", "row"): "the turn",
    ("turn", "round"): "turning a round after the join",
    ("colour", "within the row"): "the colour change inside a row",
    ("colour", "at the row's end"): "the colour change: the last pull-through in the new colour",
    ("colour", "at the row's start"): "the new colour at the row's beginning",
    ("finish", "fasten off"): "fastening off",
    ("finish", "stuff"): "stuffing",
    ("finish", "close"): "drawing the last stitches closed",
}


def _chain_words(what: str) -> str:
    nth = int(what.split()[1])
    counts = "count as a stitch" if what.endswith(" counted") and not what.endswith("not counted") else "do not count"
    skipped = f"the skipped {'chain does not count' if nth == 2 and 'not' in what else f'chains {counts}'}"
    return f"working into the starting chain from the {_nth(nth)} chain from the hook; {skipped}"


def _nth(n: int) -> str:
    return f"{n}{ {2: 'nd', 3: 'rd'}.get(n, 'th') }"


def _start_words(what: str, terms: System) -> str:
    if what in _STARTS:
        return _STARTS[what]
    number, _, counted = what.partition(" ")
    return f"the starting chain of {number}, {'which counts as a stitch' if counted == 'counted' else 'which does not count'}"


_WORDS: dict[Family, Callable[[str, System], str]] = {
    "stitch": _stitch_words,
    "increase": _increase_words,
    "decrease": _decrease_words,
    "group": lambda what, terms: what if what.startswith("stitches") else f"the {full_name(what, terms)}",
    "place": lambda what, terms: _PLACES.get(what) or _chain_words(what),
    "start": _start_words,
    "chain": lambda what, terms: _OTHERS["chain", what],
    "join": lambda what, terms: _OTHERS["join", what],
    "turn": lambda what, terms: _OTHERS["turn", what],
    "colour": lambda what, terms: _OTHERS["colour", what],
    "finish": lambda what, terms: _OTHERS["finish", what],
}
