"""Which row each naming means: the cheapest way through the pattern that explains all that is said, wrong numbers included.

A naming may mean the row of its number, another row (a slip of the tongue), or none (a remark). Rows nobody names cost too, so that one
wrong number is not taken for a row said twice and another left out. Costs are ours, set on our own narrations; see docs/teach.md.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from .anchors import FAINT, Anchor
from .units import Unit

UNSAID, UNSAID_MORE, WRONG, WRONG_UNSURE, NOTHING, NOTHING_BARE = 1.6, 0.35, 2.6, 1.7, 2.4, 1.2
WHOLE_PART, ELSEWHERE, HERE, OTHER_NOUN = 0.8, 1.0, 0.6, 0.7
ECHOED = 1.3
"""That a number named for a row opens a sentence with work once more, and means nothing: rather the first was a slip of the tongue."""
AS_TOLD = 0.5
"""What it is worth that a row is told as the one it is written as, and what it costs that it is told as another."""
OTHER_SHAPE = 0.5
"""That increases or decreases are told of a row that has none."""
NUMBER, NUMBERS_MOST = 0.15, 3
"""Each number told that the row does not hold more than it holds, and how many weigh at most."""
ANNOUNCED = 14
"""Words within which a range is named once more after its first row (ours)."""
AT_ONCE = 0.1
ALONE = 0.4
"""How surely at most a number that merely stands alone names a row: see anchors.py."""
AGAIN, RESTATED, BACK, INSIDE, PART_OF_RANGE = 1.9, 1.7, 2.2, 0.8, 0.4


@dataclass(frozen=True, slots=True)
class Hint:
    """What the words after a naming say, whatever the number: counts told, plain stitches named (by both tongues), anything worked."""

    counts: tuple[int, ...]
    kinds: frozenset[str]
    """Stitches named, by the speaker's terms."""
    works: bool
    part: int | None = None
    """The part spoken of."""
    noun: str = ""
    """ "row" or "round" where the pattern has both and one is said."""
    shapes: frozenset[str] = frozenset()
    """ "inc", "dec" where such are told."""
    numbers: frozenset[int] = frozenset()
    """The numbers told of the work."""
    others: frozenset[str] = frozenset()
    """The same stitches by the other terms."""
    refers: frozenset[int] = frozenset()
    """The rows it is told to be worked as: "do what we did in row four"."""
    announced: bool = False
    """Of a range, whether its first row alone was named just before: "R4, and up we go. R4 to R7, straight"."""


@dataclass(frozen=True, slots=True)
class Meant:
    """What a naming means: a unit, or nothing. `right` whether its numbers are those of the unit."""

    anchor: Anchor
    unit: Unit | None
    right: bool


def align(units: Sequence[Unit], anchors: Sequence[Anchor], hints: Sequence[Hint]) -> list[Meant]:
    """The meaning of every naming. Dynamic programming over namings and units; time grows with namings x units."""
    if not units or not anchors:
        return [Meant(anchor, None, False) for anchor in anchors]
    n = len(units)
    start = n  # nothing said yet
    state: dict[int, tuple[float, tuple[int, int] | None]] = {start: (0.0, None)}
    trail: list[dict[int, tuple[float, tuple[int, int] | None]]] = [state]
    named = 0
    before: Anchor | None = None
    for anchor, hint in zip(anchors, hints, strict=True):
        if before is not None and before.first == before.last == anchor.first < anchor.last and anchor.k - before.end <= ANNOUNCED:
            hint = replace(hint, announced=True)
        before = anchor
        echo = ECHOED if anchor.how == "perhaps" and hint.works and anchor.first == anchor.last == named else 0.0
        trail.append(_step(units, anchor, hint, trail[-1], echo))
        if anchor.how == "begins":
            named = anchor.first if anchor.first == anchor.last else 0
    return _walk_back(units, anchors, trail)


_State = dict[int, tuple[float, tuple[int, int] | None]]


def _step(units: Sequence[Unit], anchor: Anchor, hint: Hint, state: _State, echo: float) -> _State:
    """`state`: place (last unit named; len(units) = none yet) → (cost, where it came from and what this naming meant). `echo`: what it
    costs besides that this naming means nothing."""
    n = len(units)
    new: _State = {}
    nothing = _nothing(anchor, hint) + echo
    for place, (cost, _) in state.items():
        _keep(new, place, cost + nothing, (place, -1))
    fits = [(unit, fit) for unit in units if (fit := _fit(anchor, hint, unit)) is not None]
    if anchor.how in ("refers",):
        return new
    for place, (cost, _) in state.items():
        for unit, fit in fits:
            move = _move(units, place if place < n else -1, unit.index, anchor, hint)
            if move is not None:
                _keep(new, unit.index, cost + fit + move, (place, unit.index))
    return _best(new, 24)


def _best(state: _State, most: int) -> _State:
    """The cheapest places only: what is far behind never catches up."""
    if len(state) <= most:
        return state
    cut = sorted(cost for cost, _ in state.values())[most - 1]
    return {place: value for place, value in state.items() if value[0] <= cut}


def _keep(state: _State, place: int, cost: float, origin: tuple[int, int]) -> None:
    if place not in state or cost < state[place][0] - 1e-9:
        state[place] = (cost, origin)


def _nothing(anchor: Anchor, hint: Hint) -> float:
    if anchor.how in ("refers", "perhaps", "next", "until", "repeats"):
        return 0.0
    if anchor.how == "closes":
        return 0.4
    return (NOTHING if hint.works else NOTHING_BARE) * anchor.sure


def _fit(anchor: Anchor, hint: Hint, unit: Unit) -> float | None:
    """What it costs that this naming means this unit; None where it cannot."""
    cost = _number_fit(anchor, unit)
    if cost is None:
        return None
    if hint.counts:
        cost += -0.8 if any(count in unit.main_counts for count in hint.counts) else 0.4
    if hint.part is not None:
        cost += -HERE if unit.part == hint.part else HERE
    if hint.refers and unit.refers and anchor.how == "begins":
        cost += -AS_TOLD if hint.refers & unit.refers else AS_TOLD
    if hint.noun and hint.noun != unit.called:
        cost += OTHER_NOUN
    if hint.kinds or hint.others:
        cost += -0.4 if hint.kinds & unit.kinds else 0.0 if hint.others & unit.kinds else 0.6
    if hint.works:
        cost += OTHER_SHAPE * len(hint.shapes - unit.shapes) + _numbers_cost(hint.numbers, unit)
    # what follows a number that only opens a sentence was weighed with the naming before it
    return max(cost, 0.0) if anchor.how == "perhaps" and anchor.sure <= ALONE else cost


def _numbers_cost(numbers: frozenset[int], unit: Unit) -> float:
    """What the numbers told of the work say for or against the unit."""
    known = len(numbers & unit.told_numbers)
    return NUMBER * max(-NUMBERS_MOST, min(NUMBERS_MOST, len(numbers) - 2 * known))


def _number_fit(anchor: Anchor, unit: Unit) -> float | None:
    first, last = anchor.first, anchor.last
    if anchor.how == "repeats":
        return 0.0 if unit.refers and set(range(first, last + 1)) <= unit.refers | {first} and first in unit.refers else None
    if anchor.how == "next":
        return 0.3
    if anchor.how == "until":
        return 0.1 if unit.first <= first <= unit.last else None
    inside = unit.first <= first and last <= unit.last and {first, last} <= set(unit.numbers)
    if inside:
        if first == unit.first and last in (first, unit.last):
            return 0.0
        return INSIDE if first == last else 0.15 if first == unit.first else PART_OF_RANGE
    if first <= unit.last <= last and first < last:
        return 0.2 if last == unit.last else 1.5  # a range over several units, or one whose end is wrong
    if anchor.how == "perhaps":
        return None
    if first < last and unit.first == first:
        return 1.6
    if anchor.how == "closes":
        return WRONG + 0.4
    if (first < last) != (unit.first < unit.last):
        return WRONG + 0.6
    return WRONG_UNSURE if anchor.sure < 0.9 else WRONG


def _move(units: Sequence[Unit], place: int, to: int, anchor: Anchor, hint: Hint) -> float | None:
    """What it costs to go from the unit named last to this one."""
    unit = units[to]
    exact = unit.first <= anchor.first <= unit.last
    if anchor.how == "perhaps" and anchor.sure <= FAINT and (not place < to <= place + 2 or _counts(units, place, anchor)):
        return None
    if to == place:
        whole = unit.first < unit.last and (anchor.first, anchor.last) == (unit.first, unit.last)
        if whole and anchor.how in ("begins", "perhaps"):
            return AT_ONCE if hint.announced else RESTATED  # after its first row alone was named
        if anchor.how in ("closes", "next", "until", "repeats", "perhaps"):
            return {"perhaps": 0.3, "repeats": 0.0}.get(anchor.how, 0.1)
        if unit.first < unit.last and anchor.first > unit.first:
            return 0.1 - INSIDE + (0.9 if anchor.first == anchor.last and hint.works else 0.0)
        return AGAIN if hint.works else 0.3
    told = hint.part == unit.part and not (0 <= place < len(units) and units[place].part == unit.part)
    if to < place:
        return (ELSEWHERE if told else BACK) if exact and anchor.how in ("begins", "closes") else None
    if anchor.how == "next" and to != place + 1:
        return None
    if anchor.how == "repeats":
        return 1.0 + _unsaid(to - place - 1)
    spans = (
        anchor.first < anchor.last and unit.first <= anchor.last and anchor.how != "closes"
    )  # the range goes over the units before this one
    left = [u for u in units[place + 1 : to] if not (spans and u.part == unit.part and anchor.first <= u.last <= anchor.last)]
    if anchor.how == "until":
        left = [u for u in left if u.part != unit.part]
    if told and place >= 0 and any(u.part == units[place].part for u in left):
        others = [u for u in left if u.part != units[place].part]
        return ELSEWHERE + UNSAID_MORE * (len(left) - len(others)) + _left(units, others)  # she says that she goes elsewhere
    return _left(units, left)


def _counts(units: Sequence[Unit], place: int, anchor: Anchor) -> bool:
    """Whether the number may as well be the count of the row before."""
    return place >= 0 and anchor.first == anchor.last and anchor.first in units[place].any_allowed


def _left(units: Sequence[Unit], left: Sequence[Unit]) -> float:
    """What it costs that rows go unsaid; a part that is left out whole is told in another film."""
    if not left or units[0].part == units[-1].part:
        return _unsaid(len(left))
    here = Counter(unit.part for unit in left)
    if len(left) == len(units):
        return _unsaid(len(left))
    every = Counter(unit.part for unit in units)
    whole = {part for part, rows in here.items() if rows == every[part]}
    return WHOLE_PART * len(whole) + _unsaid(sum(rows for part, rows in here.items() if part not in whole))


def _ending(units: Sequence[Unit], place: int) -> float:
    """What it costs that a narration ends here: rows left of the part are one thing left out, since films break off."""
    rest = units[place + 1 :]
    own = [unit for unit in rest if place >= 0 and unit.part == units[place].part]
    return (UNSAID + UNSAID_MORE * (len(own) - 1) if own else 0.0) + _left(units, [unit for unit in rest if unit not in own])


def _unsaid(rows: int) -> float:
    return UNSAID * min(rows, 3) + UNSAID_MORE * max(rows - 3, 0)


def _walk_back(units: Sequence[Unit], anchors: Sequence[Anchor], trail: list[_State]) -> list[Meant]:
    n = len(units)
    final = trail[-1]
    place = min(final, key=lambda p: final[p][0] + _ending(units, p if p < n else -1))
    out: list[Meant] = []
    for a in range(len(anchors), 0, -1):
        origin = trail[a][place][1]
        assert origin is not None
        before, meant = origin
        unit = units[meant] if meant >= 0 else None
        out.append(Meant(anchors[a - 1], unit, unit is not None and _right(anchors[a - 1], unit)))
        place = before
    return out[::-1]


def _right(anchor: Anchor, unit: Unit) -> bool:
    """Whether the numbers said are numbers of the unit."""
    if anchor.how in ("next", "repeats") or not anchor.first:
        return True
    if anchor.first == anchor.last:
        return anchor.first in unit.numbers
    return anchor.first <= unit.last <= anchor.last if unit.last == unit.first else anchor.last == unit.last or anchor.last in unit.numbers
