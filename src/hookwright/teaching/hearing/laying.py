"""What is said of a row, thing by thing, laid along what its words ask for, repeats told once or often."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .asked import Asked
from .detail import Told_


@dataclass(frozen=True, slots=True)
class Step_:
    """One step of the laying: a thing asked for (its place, None: said besides) and what was said (None: not said)."""

    place: int | None
    told: Told_ | None
    agrees: bool = True


LEFT, EXTRA, OTHER_NUMBER, BACK, POST, UNNUMBERED = 1.0, 0.4, 0.3, 0.05, 0.15, 0.2
BARE = 0.6
"""What it costs that a number alone is another than the one asked for, besides."""
GROUP, GROUP_LEFT, OF_GROUP = 0.02, 0.7, 0.45
"""What it costs that a group is told by its name, is not told at all, and that one thing of it is not."""
AGAIN = 0.25
"""What it costs that the thing said right before is said again."""
TOLD_AS_ONE = 0.4
"""What it costs that one of two alike beside one another is not said: "in the first and in each across" may be told as one."""
HERE, ELSEWHERE = -0.04, 0.12
"""What it is worth that the place told is the one asked for, and what it costs that it is another."""


def laid(asked: Sequence[Asked], told: Sequence[Told_]) -> list[Step_]:
    """The cheapest way to lay what is said along what is asked; from the end of a repeat one may go back to its beginning.

    Time grows with asked x told."""
    n, m = len(asked), len(told)
    best = [[1e9] * (n + 1) for _ in range(m + 1)]
    came: list[list[tuple[str, int]]] = [[("", 0)] * (n + 1) for _ in range(m + 1)]
    best[0][0] = 0.0
    ends = [_group_end(asked, i) for i in range(n)]
    unsaid = [_unsaid(asked, i) for i in range(n)]
    start = _started(asked, told)
    if start >= 0:
        unsaid[start] = LEFT
    for j in range(m + 1):
        if j:
            besides = _besides(told[j - 1], told[j - 2] if j > 1 else None)
            for i in range(n + 1):
                _better(best, came, j, i, best[j - 1][i] + besides, "extra", i)
                if i < n and ends[i] and told[j - 1].kind == "group":
                    _better(best, came, j, ends[i], best[j - 1][i] + GROUP, "group", i)
                if i:
                    cost = _cost(asked[i - 1], told[j - 1])
                    if cost is not None:
                        _better(best, came, j, i, best[j - 1][i - 1] + cost, "pair", i - 1)
        for _ in range(2):
            for i in range(1, n + 1):
                _better(best, came, j, i, best[j][i - 1] + unsaid[i - 1], "left", i - 1)
                if i - 1 < n and ends[i - 1]:
                    _better(best, came, j, ends[i - 1], best[j][i - 1] + GROUP_LEFT, "group left", i - 1)
            for i in range(1, n + 1):
                start = asked[i - 1].start
                if start >= 0:
                    _better(best, came, j, start, best[j][i] + BACK, "back", i)
    return _trace(asked, told, came)


def _started(asked: Sequence[Asked], told: Sequence[Told_]) -> int:
    """The place of the chain the row starts with, where a chain of its very number is the first thing told: then it is that; -1 else."""
    start = next((k for k, one in enumerate(asked[:2]) if one.kind == "ch" and one.free), -1)
    if start < 0 or not told or told[0].kind != "ch" or told[0].at_number < 0 or told[0].number not in asked[start].numbers:
        return -1
    return start


def _group_end(asked: Sequence[Asked], i: int) -> int:
    """The place behind the group that begins at place i; 0 where none does, or one of a single thing."""
    if asked[i].group != i:
        return 0
    end = next((k for k in range(i, len(asked)) if asked[k].group != i), len(asked))
    return end if end - i > 1 else 0


def _besides(told: Told_, before: Told_ | None) -> float:
    """What it costs that this is said besides: a number alone or a bare "chain" may be anything, and one may say a thing twice."""
    if before is not None and (before.kind, before.what, before.number) == (told.kind, told.what, told.number):
        return min(AGAIN, EXTRA if told.kind != "?" else 0.02)
    return 0.02 if told.kind == "?" else 0.1 if told.kind == "ch" and told.sure <= 0.5 else EXTRA


def _unsaid(asked: Sequence[Asked], place: int) -> float:
    """What it costs that this is not said; of two alike it is the second."""
    one = asked[place]
    if one.group >= 0 and any(other.group == one.group for k, other in enumerate(asked) if k != place):
        return OF_GROUP
    if one.free and one.group < 0:
        return 0.05
    if place and replace(one, start=-1) == replace(asked[place - 1], start=-1):
        return LEFT - 0.02
    alike = [(b.kind, b.what) == (one.kind, one.what) and b.group < 0 and (b.numbers != one.numbers or not one.numbers) for b in asked]
    if not one.numbers and sum(a and not b.numbers for a, b in zip(alike, asked, strict=True)) > 1:
        return TOLD_AS_ONE
    return TOLD_AS_ONE if any(alike[k] for k in (place - 1, place + 1) if 0 <= k < len(asked)) else LEFT


def _better(best: list[list[float]], came: list[list[tuple[str, int]]], j: int, i: int, cost: float, how: str, origin: int) -> None:
    if cost < best[j][i] - 1e-9:
        best[j][i] = cost
        came[j][i] = (how, origin)


def _trace(asked: Sequence[Asked], told: Sequence[Told_], came: list[list[tuple[str, int]]]) -> list[Step_]:
    out: list[Step_] = []
    i, j = len(asked), len(told)
    for _ in range(4 * (len(asked) + 1) * (len(told) + 1)):
        how, origin = came[j][i]
        if how == "extra":
            out.append(Step_(None, told[j - 1]))
            j -= 1
        elif how == "pair":
            out.append(Step_(i - 1, told[j - 1], _number_agrees(asked[i - 1], told[j - 1])))
            i, j = origin, j - 1
        elif how == "left":
            out.append(Step_(i - 1, None))
            i = origin
        elif how == "group":
            out += [Step_(k, told[j - 1]) for k in range(i - 1, origin - 1, -1)]
            i, j = origin, j - 1
        elif how == "group left":
            out += [Step_(k, None) for k in range(i - 1, origin - 1, -1)]
            i = origin
        elif how == "back":
            i = origin
        else:
            break
    return out[::-1]


def _number_agrees(asked: Asked, told: Told_) -> bool:
    return told.number is None or not asked.numbers or told.number in asked.numbers


def _cost(asked: Asked, told: Told_) -> float | None:
    """What it costs that this was said for that; None where it cannot be."""
    if told.kind == "?":
        if asked.kind == "ch" and asked.group >= 0 and told.number in asked.numbers:
            return 0.05 + _place(asked, told)  # "two, two, two in the corner"
        if asked.kind not in ("st", "inc", "dec") or not asked.numbers:
            return None
        if told.number not in asked.numbers and (asked.numbers == {1} or told.number is None or _away(asked, told.number) > NEARLY):
            return None
        return (0.05 if asked.group >= 0 else 0.1) + _place(asked, told) + (0.0 if told.number in asked.numbers else BARE)
    if told.kind == "group" and asked.kind == "inc":
        return 0.1 if max(asked.numbers, default=0) >= 3 else None  # "a shell", where the page has "5 dc in next st"
    if told.kind == "group":
        return 0.0 if asked.kind == "st" and told.what in asked.what.lower() else None
    if asked.kind != told.kind and not {asked.kind, told.kind} <= {"st", "inc"}:
        return None
    if told.what and asked.what and not _same(asked.what, told.what) and not (told.other and _same(asked.what, told.other)):
        return None
    if asked.kind == "st" and told.kind == "inc" and not _number_agrees(asked, told) and not _several_in_a_hole(asked, told):
        return None  # "two in the next" is no plain stitch: rather that one was left out
    if told.number is not None and asked.numbers and _away(asked, told.number) > max(10, 2 * max(asked.numbers)):
        return None
    cost = _place(asked, told) + (0.15 if asked.kind == "st" and told.kind == "inc" and not told.what else 0.0)
    cost += 0.0 if asked.kind == told.kind else 0.3 if told.kind == "st" and not _number_agrees(asked, told) else 0.2
    if told.what and asked.what and told.what[:2] != asked.what[:2] and "P" in (told.what[1:2], asked.what[1:2]):
        cost += POST
    if told.number is not None and not asked.numbers:
        cost += UNNUMBERED
    return cost if _number_agrees(asked, told) else cost + OTHER_NUMBER


def _several_in_a_hole(asked: Asked, told: Told_) -> bool:
    """Whether both are several stitches in one hole: "five in each loop", where the page has "4 sc in each loop"."""
    return asked.where == told.where == "hole" and max(asked.numbers, default=0) > 1


NEARLY = 2
"""So far a number alone may be from the one asked for and still be told for it."""


def _away(asked: Asked, number: int) -> int:
    return min(abs(number - wanted) for wanted in asked.numbers)


def _place(asked: Asked, told: Told_) -> float:
    if not told.where or (not asked.where and told.where != "hole"):
        return 0.0
    return HERE if told.where == asked.where else ELSEWHERE


def fits(asked: Asked, told: Told_) -> bool:
    """Whether this is said for that in so many words: kind, stitch and number."""
    return told.number is not None and asked.kind == told.kind and _number_agrees(asked, told) and (_cost(asked, told) or 0) <= 0


def may_be(asked: Asked, told: Told_) -> bool:
    """Whether this may be said for that, with the number it has; that of a group is rather of the thing before."""
    if told.kind == "?" or (told.kind != "group" and not _number_agrees(asked, told)):
        return False
    return _cost(asked, replace(told, number=None)) is not None


def _same(asked: str, told: str) -> bool:
    posts = {what[:2] for what in (asked, told) if what[:2] in ("FP", "BP")}
    return asked.removeprefix("FP").removeprefix("BP") == told.removeprefix("FP").removeprefix("BP") and len(posts) < 2


def told_again(asked: Sequence[Asked], step: Step_) -> Step_:
    """What is said besides, and is a thing of a repeat told once more, as that thing."""
    if step.place is not None or step.told is None:
        return step
    place = next((k for k, one in enumerate(asked) if one.kind not in ("ch", "skip") and fits(one, step.told)), None)
    return step if place is None else replace(step, place=place)
