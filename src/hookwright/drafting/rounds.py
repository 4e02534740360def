"""Rounds: where each round's increases and decreases go, and the round in steps.

A round is a list of runs along the round below. In `Run(makes, takes, times)`, `times` neighbouring places (or groups of `takes` places)
each get `makes` stitches (or one stitch that closes them).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

from ..pattern import Chain, Join, Make, Place, Repeat, Ring, Sized, Step, Times
from .asks import Custom, Refused
from .stepping import IN_CHAIN, SAME, start_chain, tog


@dataclass(frozen=True, slots=True)
class Run:
    """`times` units, each `makes` stitches on `takes` places; one of the two is 1."""

    makes: int = 1
    takes: int = 1
    times: int = 1


@dataclass(frozen=True, slots=True)
class RoundPlan:
    """One round: its runs and the stitches it ends with. `at`: where the changes lie, as parts of the whole round."""

    runs: tuple[Run, ...]
    count: int
    at: tuple[Fraction, ...] = ()


def made(runs: Sequence[Run]) -> int:
    return sum(run.makes * run.times for run in runs)


def taken(runs: Sequence[Run]) -> int:
    return sum(run.takes * run.times for run in runs)


def plan_round(before: int, now: int, avoid: Sequence[Fraction] = (), *, stacked: bool = False, plain_first: bool = False) -> RoundPlan:
    """A round of `now` stitches on `before`, its changes spread evenly and, unless `stacked`, as far as can be from `avoid`.

    Refuses a round that would close more than five places in one stitch. `plain_first`: the round must not begin with a decrease.

    >>> plan_round(18, 24).runs == (Run(times=2), Run(makes=2)) * 6
    True
    """
    if before < 1 or now < 1 or before > 5 * now:
        raise Refused(f"A round of {now} stitches cannot be worked on {before}.", f"The fewest is {max(1, -(-before // 5))}.")
    units = min(before, now)
    plain, special = divmod(max(before, now), units)
    grows = now >= before
    if special == 0:
        return RoundPlan((_run(plain, grows, units),), now, ())
    ordered = _spread(units, special)
    turns = _turns(ordered)
    if stacked:
        turns = turns[:1]
    best = max(turns, key=lambda turn: (not (plain_first and turn[0] and not grows), _clearance(turn, avoid)))
    runs = tuple(_run(plain + flag, grows, times) for flag, times in _runs(best))
    return RoundPlan(runs, now, _places(best))


def _run(size: int, grows: bool, times: int) -> Run:
    return Run(makes=size, times=times) if grows else Run(takes=size, times=times)


def _spread(units: int, special: int) -> tuple[int, ...]:
    """1 for a unit that changes, 0 for a plain one: gaps as even as can be, the last unit a change."""
    flags = [0] * units
    for k in range(1, special + 1):
        flags[-(-k * units // special) - 1] = 1
    return tuple(flags)


def _turns(flags: tuple[int, ...]) -> list[tuple[int, ...]]:
    """The round as it stands, and begun later in the first gap: half way first, then by thirds and quarters."""
    gap = flags.index(1) if 1 in flags else 0
    shifts = dict.fromkeys([0, *(gap * n // d + (1 if gap else 0) for n, d in ((1, 2), (1, 3), (2, 3), (1, 4), (3, 4)))])
    if sum(flags) <= 2:
        shifts |= dict.fromkeys(len(flags) * n // 8 for n in range(8))
    return [flags[s:] + flags[:s] for s in shifts]


def _places(flags: tuple[int, ...]) -> tuple[Fraction, ...]:
    return tuple(Fraction(2 * k + 1, 2 * len(flags)) for k, flag in enumerate(flags) if flag)


def _clearance(flags: tuple[int, ...], avoid: Sequence[Fraction]) -> float:
    """The least distance round the circle from a change to one of the last changed round; a little less for each begun gap."""
    if not avoid:
        return 1.0 if flags[-1] else 0.0
    import bisect

    there = sorted(float(a) for a in avoid)
    nearest = 1.0
    for k, flag in enumerate(flags):
        if flag:
            here = (2 * k + 1) / (2 * len(flags))
            i = bisect.bisect(there, here)
            for other in (there[i % len(there)], there[i - 1]):
                gap = abs(here - other)
                nearest = min(nearest, gap, 1 - gap)
    return round(nearest * 4 * sum(flags)) / 4 + (0.1 if flags[-1] else 0.0)


def _runs(flags: Sequence[int]) -> list[tuple[int, int]]:
    runs: list[tuple[int, int]] = []
    for flag in flags:
        if runs and runs[-1][0] == flag:
            runs[-1] = (flag, runs[-1][1] + 1)
        else:
            runs.append((flag, 1))
    return runs


def merged(runs: Sequence[Run]) -> tuple[Run, ...]:
    """The runs with empty ones left out and equal neighbours counted together."""
    out: list[Run] = []
    for run in runs:
        if run.times and out and (out[-1].makes, out[-1].takes) == (run.makes, run.takes):
            out[-1] = Run(run.makes, run.takes, out[-1].times + run.times)
        elif run.times:
            out.append(run)
    return tuple(out)


def plan_rounds(counts: Sequence[int], *, stacked: bool = False, plain_first: bool = False) -> tuple[RoundPlan, ...]:
    """All rounds after the first: each keeps its changes clear of those of the last round that changed."""
    plans = [RoundPlan((), counts[0])]
    avoid: tuple[Fraction, ...] = ()
    for before, now in pairwise(counts):
        plan = plan_round(before, now, avoid, stacked=stacked, plain_first=plain_first)
        avoid = plan.at or avoid
        plans.append(plan)
    return tuple(plans)


def round_steps(runs: Sequence[Run], custom: Custom, *, in_chain: bool = False) -> tuple[Step, ...]:
    """A round in steps: starting chain where rounds are joined, the runs gathered into repeats, the join."""
    joined = custom.rounds == "joined"
    rest = tuple(runs)
    closes = bool(rest) and rest[0].takes > 1
    own = joined and custom.turning.counts and not closes
    head: tuple[Step, ...] = (_beside(custom) if closes else start_chain(custom),) if joined else ()
    if own:
        first, rest = _stood(rest, custom)
        head = (*head, *first)
    whole = not own and len(rest) == 1
    if whole or (own and len(rest) == 1 and len(head) == 1 and rest[0].takes == 1):
        body: tuple[Step, ...] = (_rest(rest[0], custom, in_chain),) if rest and rest[0].times else ()
    else:
        body = gathered(rest, custom, in_chain=in_chain, first=joined and not own)
    return (*head, *body, Join()) if joined else (*head, *body)


def _beside(custom: Custom) -> Chain:
    """The starting chain of a round that begins with a decrease: no chain can stand for one, so here it is shorter and does not count."""
    turning = custom.turning
    if not turning.counts:
        return start_chain(custom)
    return Chain(number=Sized.of(turning.chains - 1 if turning.chains > 1 else turning.chains + 1), counts=False)


def _stood(runs: tuple[Run, ...], custom: Custom) -> tuple[tuple[Step, ...], tuple[Run, ...]]:
    """What is left when a counted chain stands for the first stitch of the round."""
    first = runs[0]
    left = (Run(first.makes, 1, first.times - 1),) if first.times > 1 else ()
    more: tuple[Step, ...] = (Make(stitch=custom.stitch, each=Sized.of(first.makes - 1), at=SAME),) if first.makes > 1 else ()
    return more, (*left, *runs[1:])


def _rest(run: Run, custom: Custom, in_chain: bool) -> Step:
    at = IN_CHAIN if in_chain else Place()
    if run.takes > 1:
        return Repeat(
            body=(Make(stitch=tog(custom.stitch, run.takes), closes=run.takes),), times=Times(kind="n", number=Sized.of(run.times))
        )
    return Make(stitch=custom.stitch, each=Sized.of(run.makes), places="rest", at=at)


def gathered(runs: Sequence[Run], custom: Custom, *, in_chain: bool = False, first: bool = False) -> tuple[Step, ...]:
    """Runs as steps in the fewest words: a group of runs that comes again is a counted repeat, which may hold one itself."""
    steps: list[Step] = []
    for group, times in _shortest(tuple(runs))[1]:
        if times == 1:
            steps += (_step(run, custom, in_chain) for run in group)
        else:
            body = gathered(group, custom, in_chain=in_chain) if len(group) > 4 else tuple(_step(run, custom, in_chain) for run in group)
            steps.append(Repeat(body=body, times=Times(kind="n", number=Sized.of(times))))
    return tuple(steps)


@lru_cache(maxsize=4096)
def _shortest(runs: tuple[Run, ...]) -> tuple[int, tuple[tuple[tuple[Run, ...], int], ...]]:
    """(words, groups) of the shortest telling: each run a word, each repeat one more; from the end backward."""
    n = len(runs)
    words = [0] * (n + 1)
    pick: list[tuple[int, int]] = [(1, 1)] * n
    for at in range(n - 1, -1, -1):
        words[at] = 1 + words[at + 1]
        for size in range(1, min(12, (n - at) // 2) + 1):
            body = _shortest(runs[at : at + size])[0] if size > 4 else size
            times = 1
            while runs[at + times * size : at + (times + 1) * size] == runs[at : at + size]:
                times += 1
                if times > 1 and (size > 1 or runs[at].takes == 1) and 1 + body + words[at + size * times] < words[at]:
                    words[at], pick[at] = 1 + body + words[at + size * times], (size, times)
    groups, at = [], 0
    while at < n:
        size, times = pick[at]
        groups.append((runs[at : at + size], times))
        at += size * times
    return words[0], tuple(groups)


def _step(run: Run, custom: Custom, in_chain: bool) -> Step:
    at = IN_CHAIN if in_chain else Place()
    if run.takes > 1:
        stitch = tog(custom.stitch, run.takes)
        if run.times == 1:
            return Make(stitch=stitch, closes=run.takes, at=at)
        return Repeat(body=(Make(stitch=stitch, closes=run.takes, at=at),), times=Times(kind="n", number=Sized.of(run.times)))
    return Make(stitch=custom.stitch, each=Sized.of(run.makes), places=Sized.of(run.times), at=at)


def ring_steps(count: int, custom: Custom) -> tuple[Step, ...]:
    """Round 1 in a magic ring."""
    joined = custom.rounds == "joined"
    own = joined and custom.turning.counts
    in_ring = Make(stitch=custom.stitch, each=Sized.of(count - (1 if own else 0)), at=Place(where="ring"))
    steps: tuple[Step, ...] = (Ring(), start_chain(custom)) if joined else (Ring(),)
    return (*steps, in_ring, Join()) if joined else (*steps, in_ring)


def chain_ring(count: int) -> tuple[Step, ...]:
    """The foundation of a tube: a chain joined into a ring."""
    return (Chain(number=Sized.of(count), foundation=True), Join(to=Place(where="first", what="ch")))


__all__ = [
    "RoundPlan", "Run", "chain_ring", "gathered", "made", "merged", "plan_round", "plan_rounds", "ring_steps", "round_steps", "taken",
]  # fmt: skip
