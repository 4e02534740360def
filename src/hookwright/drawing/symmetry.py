"""How regular a motif is, and drawing it as regular as it is.

A motif worked in rounds mostly repeats: turned by one sector it falls upon itself, and often its mirror image does too. Placing leaves
small differences (the seam needs room, a round begins further on than the one below it); averaged over all turns and reflections they go
away. What is compared is the worked fabric (kinds, chains between, what each stitch stands on), never the picture.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from typing import TypeAlias

from .cloth import Foot, Line, between
from .symbols import plain

ALIKE = 0.9
"""Share of the stitches that must fall upon their like: where a round begins and closes, a few may not."""
MOST_SECTORS = 48
MOST_AXES = 64
NONE = -1
"""In place of an axis: a line that mirrors only nearly keeps its places over what it stands on."""

Rest: TypeAlias = tuple[int, str, int, int, int]
"""What a stitch stands on: line, "post", "space" or "chain", number of the post (before the space), chain in it, its chains."""
Phases: TypeAlias = list[dict[int, float]]


@dataclass(frozen=True, slots=True)
class Symmetry:
    """`sectors[i]`: how often line i repeats round the centre (0: it has no stitches). `axis[i]`: its post j mirrors post
    axis[i] − j (NONE: only nearly; empty: no mirror)."""

    sectors: tuple[int, ...]
    axis: tuple[int, ...]

    @property
    def whole(self) -> int:
        """How often the motif as a whole repeats round its centre."""
        return max(reduce(math.gcd, self.sectors, 0), 1)


class _Round:
    """A line's posts by number round the circle, each with what it looks like and what it stands on."""

    def __init__(self, line: Line, rounds: Sequence[_Round]) -> None:
        self.posts = line.posts
        self.at = {post: j for j, post in enumerate(line.posts)}
        self.line = line
        chains = between(line)
        n = len(line.posts)
        self.kinds = [plain(line.kinds[post]) for post in line.posts]
        self.after = [chains.get((a, line.posts[(j + 1) % n]), 0) for j, a in enumerate(line.posts)]
        self.rests = [frozenset(rest for foot in line.feet[post] if (rest := self._rest(foot, rounds))) for post in line.posts]

    def _rest(self, foot: Foot, rounds: Sequence[_Round]) -> Rest | None:
        below = self if foot.line == self.line.index else (rounds[foot.line] if 0 <= foot.line < len(rounds) else None)
        if below is None or not below.posts:
            return None
        if foot.at in below.at:
            return foot.line, "post", below.at[foot.at], 0, 0
        run = below.line.run_of.get(foot.at)
        before = below.line.runs[run].before if run is not None else None
        if run is None or before is None:
            return None
        chains = below.line.runs[run].chains
        if foot.how.name == "SPACE":
            return foot.line, "space", below.at[before], 0, len(chains)
        return foot.line, "chain", below.at[before], chains.index(foot.at), len(chains)


def find_symmetry(lines: Sequence[Line]) -> Symmetry:
    """The symmetry of a part worked in rounds; one sector and no axis where it has none."""
    rounds: list[_Round] = []
    for line in lines:
        rounds.append(_Round(line, rounds))
    if not any(each.posts for each in rounds):
        return Symmetry((), ())
    sectors = tuple(_sectors(each, rounds) for each in rounds)
    return Symmetry(sectors, _axis(rounds, Symmetry(sectors, ()).whole) or ())


def _sectors(each: _Round, rounds: Sequence[_Round]) -> int:
    """The most sectors by which a round may be turned upon itself and upon what it stands on."""
    n = len(each.posts)
    if not n:
        return 0
    below = {rest[0] for rests in each.rests for rest in rests}
    for k in range(min(n, MOST_SECTORS), 1, -1):
        if n % k == 0 and all(len(rounds[li].posts) % k == 0 for li in below) and _turns(each, rounds, k):
            return k
    return 1


def _turns(each: _Round, rounds: Sequence[_Round], k: int) -> bool:
    """Whether turning by one of k sectors maps (nearly) every stitch upon its like."""
    n = len(each.posts)
    unlike, most = 0, max(2, (1 - ALIKE) * n)
    for j in range(n):
        t = (j + n // k) % n
        turned = frozenset(
            (li, what, (at + len(rounds[li].posts) // k) % len(rounds[li].posts), c, m) for li, what, at, c, m in each.rests[j]
        )
        unlike += each.kinds[j] != each.kinds[t] or each.after[j] != each.after[t] or turned != each.rests[t]
        if unlike > most:
            return False
    return True


def _axis(rounds: Sequence[_Round], sectors: int) -> tuple[int, ...] | None:
    """For every line the m of its reflection j → m − j, when the motif has one: the best of those that map it (nearly) upon itself."""
    first = next(each for each in rounds if each.posts)
    n = len(first.posts)
    found = [_reflected(rounds, first, m) for m in range(min(n // sectors if n % sectors == 0 else n, MOST_AXES))]
    return max((each for each in found if each is not None), default=(0.0, None), key=lambda each: each[0])[1]


def _reflected(rounds: Sequence[_Round], first: _Round, m: int) -> tuple[float, tuple[int, ...]] | None:
    axis = [0] * len(rounds)
    alike = total = 0.0
    exact: set[int] = set()
    for i, each in enumerate(rounds):
        n = len(each.posts)
        if not n:
            continue
        tries = [m] if each is first else list(_candidates(each, rounds, axis))
        best = max(((_alike(each, rounds, axis, i, t), -t) for t in tries), default=None)
        if best is None or best[0] < 0.45 * n:
            return None
        axis[i] = -best[1]
        if best[0] >= ALIKE * n:
            exact.add(i)
        alike, total = alike + best[0], total + n
    if alike < 0.8 * total:
        return None
    return alike / total, tuple(m if i in exact else NONE for i, m in enumerate(axis))


def _mirrored(rest: Rest, rounds: Sequence[_Round], axis: Sequence[int]) -> Rest:
    li, what, at, c, chains = rest
    n = len(rounds[li].posts)
    if what == "post":
        return li, what, (axis[li] - at) % n, 0, 0
    return li, what, (axis[li] - at - 1) % n, chains - 1 - c if what == "chain" else 0, chains


def _candidates(each: _Round, rounds: Sequence[_Round], axis: Sequence[int]) -> Iterator[int]:
    """Reflections under which some stitch's foot falls upon another's."""
    n = len(each.posts)
    home = each.line.index
    at: dict[Rest, list[int]] = {}
    for j, rests in enumerate(each.rests):
        for rest in rests:
            at.setdefault(rest, []).append(j)
    seen: set[int] = set()
    for j in range(min(n, 3)):
        for rest in each.rests[j]:
            if rest[0] != home:
                li, what, k, c, chains = _mirrored(rest, rounds, axis)
                for step in (0, 1, -1) if what == "post" else (0,):
                    like = (li, what, (k + step) % len(rounds[li].posts), c, chains)
                    seen.update((j + t) % n for t in at.get(like, ()))
    yield from sorted(seen) if seen else range(min(n, MOST_AXES))


def _alike(each: _Round, rounds: Sequence[_Round], axis: list[int], i: int, m: int) -> float:
    """How many stitches fall upon their like; half for those that only nearly do."""
    n = len(each.posts)
    axis[i] = m
    good = 0.0
    for j in range(n):
        t = (m - j) % n
        if each.kinds[j] == each.kinds[t] and each.after[j] == each.after[(t - 1) % n]:
            mirrored = {_mirrored(rest, rounds, axis) for rest in each.rests[j]}
            good += 1.0 if mirrored == each.rests[t] else 0.5 * _near(mirrored, each.rests[t], rounds)
    return good


def _near(one: Collection[Rest], other: Collection[Rest], rounds: Sequence[_Round]) -> bool:
    """Whether two stitches stand on the same, give or take one stitch: a pair of increases may be gone into at its first one only."""
    return len(one) == len(other) and all(any(a == b or _beside(a, b, len(rounds[a[0]].posts)) for b in other) for a in one)


def _beside(a: Rest, b: Rest, n: int) -> bool:
    return a[0] == b[0] and a[1] == b[1] == "post" and (a[2] - b[2]) % n in (1, n - 1)


def regular(lines: Sequence[Line], phase: Phases, symmetry: Symmetry) -> tuple[Phases, float | None]:
    """Phases averaged over the symmetry, and the direction of one of its axes; what has none keeps its place."""
    if not symmetry.sectors:
        return phase, None
    out = [_over_turns(line, phase[line.index], symmetry.sectors[line.index]) for line in lines]
    return _over_mirror(lines, out, symmetry) if symmetry.axis else (out, None)


def _over_turns(line: Line, phase: dict[int, float], k: int) -> dict[int, float]:
    n = len(line.posts)
    if k < 2 or not phase or n % k:
        return phase
    turns = [phase[post] for post in line.posts]
    way = -1.0 if line.rightwards else 1.0
    step, sector = n // k, way * 2 * math.pi / k
    out: dict[int, float] = {}
    for j in range(step):
        shifts = [math.remainder(turns[j + t * step] - t * sector - turns[j], 2 * math.pi) for t in range(k)]
        mean = turns[j] + sum(shifts) / k
        for t in range(k):
            old = phase[line.posts[j + t * step]]
            out[line.posts[j + t * step]] = old + math.remainder(mean + t * sector - old, 2 * math.pi)
    return out


def _over_mirror(lines: Sequence[Line], phase: Phases, symmetry: Symmetry) -> tuple[Phases, float | None]:
    """Averaged with the mirror image; the axis lies where all rounds together would have it."""
    sums = c = s = 0.0
    for line in lines:
        n, m = len(line.posts), symmetry.axis[line.index]
        for j, post in enumerate(line.posts):
            if phase[line.index] and m != NONE:
                twice = phase[line.index][post] + phase[line.index][line.posts[(m - j) % n]]
                c, s = c + math.cos(twice), s + math.sin(twice)
                sums += 1
    if math.hypot(c, s) < 0.5 * sums:
        return phase, None
    twice = math.atan2(s, c)
    out: Phases = []
    for line in lines:
        n, m, here = len(line.posts), symmetry.axis[line.index], phase[line.index]
        there = {post: twice - here[line.posts[(m - j) % n]] for j, post in enumerate(line.posts)} if m != NONE else here
        out.append({post: at + math.remainder(there[post] - at, 2 * math.pi) / 2 for post, at in here.items()})
    return out, twice / 2
