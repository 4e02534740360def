"""A row's steps put in order: what comes before its first stitch, its work, its end, and what it hands to the next row."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import takewhile

from ..pattern import (
    Aside,
    Chain,
    Colour,
    FastenOff,
    Join,
    Make,
    Repeat,
    Ring,
    Skip,
    Step,
    Together,
    Turn,
    founds,
)  # fmt: skip
from ..trade.kinds import as_high
from .needs import asks_for_work


@dataclass(frozen=True, slots=True)
class Shaped:
    """A row's steps put in order: what happens before its first stitch, its work, how it ends and what it hands to the next row."""

    foundation: tuple[Step, ...]
    work: tuple[Step, ...]
    turns_first: bool
    says_no_turn: bool
    turns_last: bool
    joined: Join | None
    fastened: bool
    rejoined: Colour | None
    carried: Chain | None
    """A starting chain told at the end of this row, for the next."""
    travel: tuple[Step, ...] = ()
    """Slip stitches told after the join, that move on to where the next round begins."""


def shape_row(steps: tuple[Step, ...], memo: dict[int, tuple[tuple[Step, ...], Shaped]]) -> Shaped:
    """Put a row's steps in order. Remembered by identity of the steps."""
    known = memo.get(id(steps))
    if known is not None:
        return known[1]
    shaped = _shape_row(list(steps))
    memo[id(steps)] = (steps, shaped)
    return shaped


def founded(steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """The same steps with their first chain as the foundation, where the next stitch is told "from hook"; None where it is not."""
    at = next((i for i, s in enumerate(steps) if not isinstance(s, (Colour, Aside))), len(steps))
    chain = steps[at] if at < len(steps) else None
    if not isinstance(chain, Chain):
        return None
    nxt = next((s for s in steps[at + 1 :] if isinstance(s, (Make, Together, Repeat))), None)
    if not isinstance(nxt, (Make, Together)) or nxt.at.where not in ("from_hook", "ring"):
        return None
    if nxt.at.where == "ring" and isinstance(nxt, Make) and as_high(chain.number.values[0] or 0, nxt.stitch):
        return (Ring(), *steps)  # the ring was not told, and the chain stands in it
    return (*steps[:at], replace(chain, foundation=True), *steps[at + 1 :])


def _after_join(steps: list[Step]) -> tuple[list[Step], tuple[Step, ...]]:
    """The row's steps, and apart from them the slip stitches that follow its join."""
    at = next((i for i, s in enumerate(steps) if isinstance(s, Join) and not s.no), None)
    if at is None:
        return steps, ()
    moving = tuple(s for s in steps[at + 1 :] if isinstance(s, Make) and s.stitch == "sl st")
    if not moving or any(asks_for_work((s,)) and s not in moving for s in steps[at + 1 :]):
        return steps, ()
    return [s for i, s in enumerate(steps) if i <= at or s not in moving], moving


def _shape_row(steps: list[Step]) -> Shaped:
    steps, travel = _after_join(steps)
    foundation: list[Step] = []
    before = next((i for i, s in enumerate(steps) if not isinstance(s, (Colour, Aside))), 0)
    if before and founds(steps[before]):
        foundation.extend(steps[:before])  # the colour the piece begins with comes before its chain
        del steps[:before]
    while steps and founds(steps[0]):
        foundation.append(steps.pop(0))
        if steps and isinstance(steps[0], Turn) and not asks_for_work(steps[:1]) and foundation:
            steps.pop(0)
    first = next((i for i, s in enumerate(steps) if asks_for_work((s,))), len(steps))
    last = next((i for i in range(len(steps) - 1, -1, -1) if asks_for_work((steps[i],))), -1)
    head, body, end = steps[:first], steps[first : last + 1], steps[last + 1 :] if last >= first else []
    if last < 0:
        head, end = steps, []
    turns_first = any(isinstance(s, Turn) and not s.no for s in head)
    no_turn = any(isinstance(s, Turn) and s.no for s in (*head, *end))
    carried: Chain | None = None
    joined: Join | None = None
    fastened = False
    turned = False
    own: list[Step] = []
    rejoined = next((s for s in head if isinstance(s, Colour) and s.join_in), None)
    for i, step in enumerate(end):
        if isinstance(step, Turn):
            turned = turned or not step.no
        elif isinstance(step, Join):
            joined = joined or step
            if step.closing:
                own.append(step)
        elif isinstance(step, FastenOff):
            fastened = True
        elif isinstance(step, Chain) and not _bridges(end[i + 1 :]) and not any(isinstance(s, Join) for s in end[i + 1 :]):
            # With no stitch and no join after it a chain begins the next row, whether or not turning is told.
            carried = step
        else:
            own.append(step)
    work = [s for s in head if not isinstance(s, Turn)] + body + own
    if joined is None:
        joined = next((s for s in head if isinstance(s, Join) and s.no), None)
    if not any(isinstance(s, (Chain, Ring)) for s in foundation):
        foundation = []
    paired = sum(isinstance(s, Turn) for s in work) >= 2
    work = [s for s in work if not isinstance(s, FastenOff) and (paired or not isinstance(s, Turn))]
    return Shaped(tuple(foundation), tuple(work), turns_first, no_turn, turned,
                  joined, fastened, rejoined, carried, travel)  # fmt: skip


def _bridges(after: list[Step]) -> bool:
    """Whether places are passed over after a chain that ends a round ("…, ch 18, skip 18"): it spans them, and begins no row."""
    return any(isinstance(step, Skip) for step in takewhile(lambda step: not isinstance(step, Turn), after))


def with_travel(work: tuple[Step, ...], travel: tuple[Step, ...], memo: dict[tuple[int, int], tuple[Step, ...]]) -> tuple[Step, ...]:
    """The row's steps with the slip stitches that the row before told after its join."""
    return memo.setdefault((id(work), id(travel)), (*travel, *work)) if travel else work


def with_carried(work: tuple[Step, ...], carried: Chain | None, memo: dict[tuple[int, int], tuple[Step, ...]]) -> tuple[Step, ...]:
    """The row's steps with the starting chain that the row before told; told twice it is one."""
    if carried is None:
        return work
    first = next((s for s in work if not isinstance(s, Colour)), None)
    if _led_in(work):
        return work
    if isinstance(first, Chain) or (isinstance(first, Together) and first.body and isinstance(first.body[0], Chain)):
        if isinstance(first, Chain) and first.counts is None and carried.counts is not None and first.number == carried.number:
            key = (id(work), id(carried))
            memo.setdefault(key, (carried, *(s for s in work if s is not first)))
            return memo[key]
        return work
    key = (id(work), id(carried))
    memo.setdefault(key, (carried, *work))
    return memo[key]


def _led_in(work: tuple[Step, ...]) -> bool:
    """ "Sl st in first 4 dc, ch 3, …": the row is led in to a start of its own; a turning chain before it would hang loose."""
    told = [s for s in work if not isinstance(s, (Colour, Aside))]
    slips = next((k for k, s in enumerate(told) if not (isinstance(s, Make) and s.stitch == "sl st")), 0)
    return 0 < slips < len(told) and isinstance(told[slips], Chain)


Turning = Mapping[tuple[str, int], bool]


def joins_on(steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """The steps without the slip stitches that join this row to another piece before it turns ("sl st in next 2 sts of Body Row 40, turn,
    skip both sl sts"); None when the row does not begin so."""
    if not steps or not isinstance(steps[0], Make) or steps[0].stitch != "sl st" or not steps[0].at.row:
        return None
    rest = [s for s in steps[1:] if not isinstance(s, Turn)]
    if rest and isinstance(rest[0], Skip):
        rest = rest[1:]
    return tuple(rest)
