"""Rows told only as "work even in pattern": in lace they are the pattern's own row again, over as many repeats as there are now.

In a plain fabric "even" is a stitch on every stitch; over loops and shells that would close the lace.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from ..pattern import Aside, Chain, Colour, Even, FastenOff, Join, Make, Refer, Repeat, Row, Step, Times, Together, Turn
from .needs import asks_for_work


def told_as_pattern(row: Row) -> bool:
    """Whether all that the row asks for is to go on in pattern."""
    if not any(isinstance(step, Even) for step in row.steps):
        return False
    work = [step for step in row.steps if asks_for_work((step,))]
    return len(work) == 1 and isinstance(work[0], Even) and work[0].stitch is None


def pattern_rows(before: Sequence[Row]) -> tuple[Row, ...]:
    """The rows that make the lace, in their order: those that a repeat before named, else the last row with a unit of lace in it; () where
    the work is plain. A row that only shapes the lace, or stands on other work, is passed over where an earlier one is the pattern."""
    passed: tuple[Row, ...] = ()
    for k in range(len(before) - 1, -1, -1):
        row = before[k]
        refer = next((step for step in row.steps if isinstance(step, Refer) and step.part is None and len(step.rows) > 1), None)
        if refer is not None:
            named = [next((r for r in before if n in r.numbers_at(0)), None) for n in refer.rows]
            if all(r is not None and is_lace(r.steps) for r in named):
                return tuple(r for r in named if r is not None)
        again = next((step for step in row.steps if isinstance(step, Refer) and step.part is None and len(step.rows) == 1), None)
        once = next((r for r in before if again is not None and again.rows[0] in r.numbers_at(0)), None)
        if passed and once is not None and is_lace(once.steps):
            return (once,)
        last = next((step.last for step in row.steps if isinstance(step, Refer) and step.part is None), 0)
        if last > 1 and any(is_lace(r.steps) for r in before[max(0, k - last) : k]):
            return tuple(before[max(0, k - last) : k])
        if _in_ring(row.steps):
            return ()  # what fills a ring is no row to be worked again on the stitches of a later one
        if is_lace(row.steps):
            if not passed and _left_behind(before, k):
                return ()
            plain = (r for r in reversed(before[: k + 1]) if _all_over(r.steps)) if _has_more(row.steps) else iter(())
            found = (next(plain, row),)
            if not (shapes_groups(row.steps) or _on_other_work(row.steps)):
                return found
            passed = passed or found
            continue
        if any(isinstance(step, Make) and step.places == "rest" for step in row.steps) and not is_lace(row.steps):
            continue
    return passed


def _left_behind(before: Sequence[Row], k: int) -> bool:
    """Whether row `k` of lace (holes for a cord, a beading) stands behind more plain rows than there are rows of lace, and no others: the
    work is plain again. A lace that is worked every other row has as many."""
    after = [row for row in before[k + 1 :] if not told_as_pattern(row)]
    plain = sum(map(_rows_of, after))
    laces = sum(_rows_of(row) for row in before[: k + 1] if is_lace(row.steps))
    return plain > max(1, laces) and all(_plain(row.steps) for row in after)


def _plain(steps: Sequence[Step]) -> bool:
    """Whether a row of stitches, or a unit of them, goes on to the end, with no loop and no group in it."""
    runs = [step for step in steps if not isinstance(step, (Aside, Colour, Turn, Join, FastenOff, Chain))]
    inner = [one for step in runs for one in (step.body if isinstance(step, Repeat) else (step,))]
    whole = any(
        (isinstance(step, Make) and step.places == "rest") or (isinstance(step, Repeat) and step.times.kind == "rest") for step in runs
    )
    return whole and all(isinstance(one, Make) for one in inner)


def _rows_of(row: Row) -> int:
    if row.rows_count is not None:
        return row.rows_count.values[0] or 1
    return len(row.numbers_at(0)) or 1


def shapes_groups(steps: Sequence[Step]) -> bool:
    """Whether a row of groups makes one of two, two in one, or one between two."""
    groups = [step for step in steps if isinstance(step, Together) and len(step.body) > 1]
    spread = any(step.at.where == "hook" and step.name != "beg shell" for step in groups)
    twice = any(step.at.where == "same" and step.name and step.name == before.name for before, step in pairwise(groups))
    return spread or twice or any(step.at.between for step in groups)


def _on_other_work(steps: Sequence[Step]) -> bool:
    """Whether the row's groups go into stitches of a kind that it does not make itself: "shell in next s c" above a band of these."""
    units = [inner for step in steps for inner in (step.body if isinstance(step, Repeat) else (step,))]
    groups = [step for step in units if isinstance(step, Together) and len(step.body) > 1]
    made = {inner.stitch for group in groups for inner in group.body if isinstance(inner, Make)}
    made |= {step.stitch for step in units if isinstance(step, Make)}
    return bool(groups) and all(group.at.what in _PLAIN - made for group in groups)


_PLAIN = frozenset(("sc", "hdc", "dc", "tr"))


def is_lace(steps: Sequence[Step]) -> bool:
    """Whether a repeat in the row makes loops, shells or the hills and valleys of a ripple."""
    for step in steps:
        if isinstance(step, Repeat):
            makes = any(isinstance(inner, (Make, Together)) for inner in step.body)
            open_work = any(isinstance(inner, Chain) or (isinstance(inner, Together) and len(inner.body) > 1) for inner in step.body)
            if makes and (open_work or _rippled(step.body)):
                return True
        elif isinstance(step, Together) and len(step.body) > 1 and (step.places == "rest" or (step.places.values[0] or 0) > 1):
            return True  # "shell in each of 11 next shells"
    return False


def _in_ring(steps: Sequence[Step]) -> bool:
    """Whether the first stitches of a row go into a ring."""
    for step in steps:
        if isinstance(step, Repeat):
            return _in_ring(step.body)
        if isinstance(step, (Make, Together)):
            return step.at.where == "ring"
    return False


def _all_over(steps: Sequence[Step]) -> bool:
    """Whether a unit of lace goes to the row's end: a row of other work besides is no model for those after it."""
    founded = any(isinstance(step, (Make, Together)) and step.at.where == "from_hook" for step in steps)
    return is_lace(steps) and not founded and any(isinstance(step, Repeat) and step.times.kind == "rest" for step in steps)


def _has_more(steps: Sequence[Step]) -> bool:
    """Whether other stitches follow a unit of lace that is told so often: a thumb's opening, a corner."""
    counted = next((k for k, step in enumerate(steps) if isinstance(step, Repeat) and step.times.kind in ("n", "more")), None)
    return counted is not None and any(isinstance(step, (Make, Together)) for step in steps[counted + 1 :])


def _rippled(body: Sequence[Step]) -> bool:
    """Whether stitches are added and taken away in one unit."""
    made = [step for step in body if isinstance(step, Make)]
    return any(step.closes > 1 for step in made) and any((step.each.values[0] or 0) > 1 for step in made)


def widened(pattern: Sequence[Step], row: Row) -> tuple[Step, ...]:
    """The pattern row's steps with as many repeats as there is room for, then what the row itself says of its end."""
    kept = [step for step in pattern if not isinstance(step, (Chain, Turn, Colour, Aside)) or isinstance(step, Chain)]
    while kept and isinstance(kept[-1], Chain):
        kept.pop()  # the turning chain: the row tells its own
    first = next((k for k, step in enumerate(kept) if not isinstance(step, Chain)), 0)
    own_start = [step for step in kept[:first] if isinstance(step, Chain) and not step.foundation]
    at = next(k for k, step in enumerate(row.steps) if isinstance(step, Even))
    return (*row.steps[:at], *own_start, *(_rest(step) for step in kept[first:]), *row.steps[at + 1 :])


def _rest(step: Step) -> Step:
    if isinstance(step, Repeat) and step.times.kind in ("n", "more"):
        return replace(step, times=Times(kind="rest"))
    if isinstance(step, Together) and len(step.body) > 1 and step.places != "rest" and (step.places.values[0] or 0) > 1:
        return replace(step, places="rest")
    return step
