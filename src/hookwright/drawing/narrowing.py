"""Cutting wide rows as publishers do: of a stretch that repeats across the piece a few repeats are drawn, the rest is told in words.

Every element of a flat chart goes back, foot by foot, to one place of its lowest line. All that goes back to one place is a slice; a piece
repeats where slices (what stands in them, and what that stands on, told from the slice) are equal at a steady distance. Whole repeats are
taken out; what stood on one of them stands on its like before the cut, so that nothing that is drawn changes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..pattern import FLAT
from .cloth import Foot, Line, Run, walked_backwards

WIDEST = 46
"""Places of the lowest line from which on a chart is cut: what fits the printed width of a page."""
LONGEST_REPEAT = 40
KEPT_PLACES = 7
"""At least so many places are drawn on either side of a cut …"""
KEPT_REPEATS = 2
"""… and at least so many repeats."""
FEWEST_CUT = 8
"""Places that a cut must save."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """`repeats` of `places` places each are left out.

    `hidden` and `sample`: by row index, the elements left out, and those of one repeat that is drawn.
    """

    repeats: int
    places: int
    words: str
    hidden: dict[int, tuple[int, ...]]
    sample: dict[int, tuple[int, ...]]


@dataclass(slots=True)
class _Slices:
    """`home[i][e]`: the place that element e of line i goes back to; `members[i][u]`: elements of line i in slice u, from left to right."""

    home: list[list[int]]
    members: list[list[list[int]]]
    number: list[dict[int, int]]
    """Place of an element inside its slice."""


def narrow(lines: Sequence[Line]) -> list[Cut]:
    """Cut the lines where they repeat, in place; answers what was cut, from left to right."""
    base = next((line for line in lines if line.posts or line.foundation), None)
    if base is None or base.index or len(base) < WIDEST or any(line.row.made_in not in FLAT for line in lines):
        return []
    slices = _slices(lines, len(base))
    if slices is None:
        return []
    told = [_told(lines, slices, u) for u in range(len(base))]
    cuts = []
    for first, places, repeats in _stretches(told):
        before = KEPT_REPEATS if places > 1 else KEPT_PLACES
        while before * places < KEPT_PLACES:
            before += 1
        out = repeats - 2 * before
        if (out > 1 or places == 1) and out * places >= FEWEST_CUT:
            cuts.append(_cut(lines, slices, first + before * places, places, out))
    return cuts


def _order(lines: Sequence[Line], line: Line) -> list[int]:
    """Elements from left to right."""
    ahead = not walked_backwards(lines, line) if line.foundation else line.rightwards
    return list(range(len(line))) if ahead else list(range(len(line) - 1, -1, -1))


def _slices(lines: Sequence[Line], places: int) -> _Slices | None:
    """Where everything goes back to; None when something stands on nothing that is drawn."""
    home: list[list[int]] = []
    for line in lines:
        here = [-1] * len(line)
        home.append(here)
        if line.index == 0:
            for u, e in enumerate(_order(lines, line)):
                here[e] = u
            continue
        for post in line.posts:
            roots = [home[foot.line][foot.at] for foot in line.feet[post] if 0 <= foot.line < line.index]
            if roots:
                here[post] = min(roots) if len(roots) < 3 else sorted(roots)[len(roots) // 2]
        if not _fill_in(line, here):
            return None
    members = []
    number: list[dict[int, int]] = []
    for line in lines:
        row: list[list[int]] = [[] for _ in range(places)]
        numbers: dict[int, int] = {}
        for e in _order(lines, line):
            numbers[e] = len(row[home[line.index][e]])
            row[home[line.index][e]].append(e)
        members.append(row)
        number.append(numbers)
    return _Slices(home, members, number)


def _fill_in(line: Line, home: list[int]) -> bool:
    """Elements that stand on nothing go with a neighbour: chains with the post at their left, the rest with their post."""
    posts = [post for post in line.posts if home[post] >= 0]
    if not posts:
        return False
    for post in line.posts:
        if home[post] < 0:
            home[post] = home[posts[0]] if post < posts[0] else home[max(p for p in posts if p < post)]
    for run in line.runs:
        left, right = (run.before, run.after) if line.rightwards else (run.after, run.before)
        at = left if left is not None else right
        for e in run.chains:
            home[e] = home[at] if at is not None else -1
    for post, stack in line.stacks.items():
        for e in stack:
            home[e] = home[post]
    for anchor, elements in line.hanging:
        for e in elements:
            home[e] = home[anchor]
    for e in range(len(line)):
        if home[e] < 0:
            near = [p for p in posts if p < e]
            home[e] = home[near[-1] if near else posts[0]]
    return True


def _told(lines: Sequence[Line], slices: _Slices, u: int) -> tuple[object, ...]:
    """A slice in terms of itself: equal slices hold the same, standing on the same as told from where they are."""
    out: list[object] = []
    for line in lines:
        for e in slices.members[line.index][u]:
            feet = tuple(
                (foot.line, slices.home[foot.line][foot.at] - u, slices.number[foot.line][foot.at], foot.how) if foot.line >= 0 else foot
                for foot in line.feet[e]
            )
            made = line.row.stitches
            out.append((line.index, line.kinds[e], line.roles[e], made.colours[made.colour[e]], feet))
    return tuple(out)


def _stretches(told: Sequence[tuple[object, ...]]) -> list[tuple[int, int, int]]:
    """(first place, places of one repeat, repeats) of the stretches that repeat, from left to right: the shortest repeat that goes far."""
    numbers: dict[tuple[object, ...], int] = {}
    s = [numbers.setdefault(each, len(numbers)) for each in told]
    found: list[tuple[int, int, int]] = []
    free = 0
    while free < len(s):
        best = (0, 0, 0)
        for m in range(1, min(LONGEST_REPEAT, len(s) // 3) + 1):
            start, length = _longest(s, free, m)
            whole = length // m
            if whole * m > best[1] * best[2] + m and whole >= 2 * KEPT_REPEATS + 1:
                best = (start, m, whole)
        if not best[2]:
            break
        found.append(best)
        free = best[0] + best[1] * best[2]
    return found


def _longest(s: Sequence[int], free: int, m: int) -> tuple[int, int]:
    """The longest stretch from `free` on in which every place is as the one m before it: (start, length)."""
    best, start = (free, 0), free
    for u in range(free + m, len(s) + 1):
        if u == len(s) or s[u] != s[u - m]:
            if u - start > best[1] and u - start > m:
                best = (start, u - start)
            start = u - m + 1
    return best


def _cut(lines: Sequence[Line], slices: _Slices, first: int, places: int, repeats: int) -> Cut:
    """Take out `repeats` repeats from place `first` on."""
    after = first + places * repeats
    hidden: dict[int, tuple[int, ...]] = {}
    sample: dict[int, tuple[int, ...]] = {}
    for line in lines:
        row = slices.members[line.index]
        gone = tuple(sorted(e for u in range(first, after) for e in row[u]))
        hidden[line.row.index] = gone
        sample[line.row.index] = tuple(sorted(e for u in range(first - places, first) for e in row[u]))
    for line in lines:
        home = slices.home[line.index]
        line.feet = [
            tuple(_moved(slices, foot, home[e] < first, first, after, places) for foot in feet) for e, feet in enumerate(line.feet)
        ]
        _take_out(line, set(hidden[line.row.index]), home, after)
    return Cut(repeats=repeats, places=places, words=_words(repeats, places), hidden=hidden, sample=sample)


def _moved(slices: _Slices, foot: Foot, before: bool, first: int, after: int, places: int) -> Foot:
    """A foot in what was cut out stands on its like on the same side of the cut as what stands there."""
    if foot.line < 0 or not first <= slices.home[foot.line][foot.at] < after:
        return foot
    u = slices.home[foot.line][foot.at]
    over = (after - u + places - 1) // places if before else -((u - first) // places + 1)
    u += over * places
    here = slices.members[foot.line]
    k = slices.number[foot.line][foot.at]
    return Foot(foot.line, here[u][k], foot.how) if 0 <= u < len(here) and k < len(here[u]) else foot


def _take_out(line: Line, gone: set[int], home: Sequence[int], after: int) -> None:
    line.hidden |= gone
    kept = [post for post in line.posts if post not in gone]
    line.posts = kept
    runs: list[Run] = []
    for run in line.runs:
        if run.chains[0] not in gone:
            runs.append(Run(run.chains, _kept(run.before, gone, kept, -1), _kept(run.after, gone, kept, 1)))
    line.runs = runs
    line.run_of = {e: r for r, run in enumerate(runs) for e in run.chains}
    line.stacks = {post: stack for post, stack in line.stacks.items() if post not in gone}
    line.hanging = [(anchor, elements) for anchor, elements in line.hanging if anchor not in gone]
    line.travel = [e for e in line.travel if e not in gone]
    line.joins = [e for e in line.joins if e not in gone]
    past = line.past or [0] * len(line)
    line.past = [n + (home[e] >= after) for e, n in enumerate(past)]


def _kept(post: int | None, gone: set[int], kept: Sequence[int], way: int) -> int | None:
    """The post a run hangs on: the next one kept, when its own was taken out."""
    if post is None or post not in gone:
        return post
    beyond = [p for p in kept if (p - post) * way > 0]
    return (beyond[0] if way > 0 else beyond[-1]) if beyond else None


def _words(repeats: int, places: int) -> str:
    """What is printed at the cut.

    >>> _words(16, 1), _words(5, 6)
    ('16 sts', '5 repeats of 6 sts')
    """
    if places == 1:
        return f"{repeats} sts"
    return f"{repeats} repeats of {places} sts"
