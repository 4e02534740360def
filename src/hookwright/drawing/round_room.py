"""What each round of a motif needs: its posts round the circle, how far apart they must stand, what room its beginning takes."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Collection
from dataclasses import dataclass, field

from ..working.fabric import How, Role
from .cloth import Line, Run, between
from .corners import Corner, Corners
from .labels import text_width
from .rows import same_foot, skips_nothing
from .spacing import FAR, chain_room, half_width, least

SEAM_MM = 2.6
"""The least room for the round's number."""
NUMBER_MM = 2.3
TOGETHER_WEIGHT = 3.0
"""How much more a together-stitch keeps over the middle of its feet than a plain stitch over its one: its legs stay alike."""

LEAST_OPENING, MOST_OPENINGS, STITCHES_FOR_EACH = 3, 4, 8
"""Chains that leave an opening in plain fabric: so many at least, so many such runs in a round at most, so many stitches for each."""


@dataclass(slots=True)
class Room:
    """What a round needs: its posts counter-clockwise, the distance from each to the next (the last to the first), and weights."""

    posts: list[int]
    gaps: list[float]
    easy: list[float]
    weights: list[float]
    sides: list[int] = field(default_factory=list)
    fanned: set[int] = field(default_factory=set)
    """Posts of fans: four and more in one place."""
    corner_groups: set[int] = field(default_factory=set)
    backwards: bool = False
    """Worked with the clock: `posts` stand in the order opposite to the worked one."""
    opens: set[int] = field(default_factory=set)
    """Gaps (by the post before them, counter-clockwise) that take up all the room a closing round has too much."""

    def open_after(self, posts: Collection[int]) -> None:
        """Let the circle open after these posts, in worked order."""
        n = len(self.posts)
        worked = range(n) if not self.backwards else range(n - 1, -1, -1)
        step = -1 if self.backwards else 0
        self.opens = {(k + step) % n for k in worked if self.posts[k] in posts}

    @property
    def need(self) -> float:
        return sum(self.gaps)


def room_of(line: Line, pitch: float, corners: Corners | None, letters: int) -> Room:
    if not line.posts:
        return Room([], [], [], [])
    posts = line.posts[::-1] if line.rightwards else line.posts
    chains = between(line)
    openings = {frozenset((run.before, run.after)) for run in line.runs if is_opening(line, run)}
    gaps, easy = [], []
    fans = Counter(line.feet[post] for post in posts)
    for a, b in zip(posts, [*posts[1:], posts[0]], strict=True):
        n = (chains.get((a, b)) or chains.get((b, a)) or 0) if len(posts) > 1 else 0
        fan, seats = _fan(line, a, b), same_foot(line, a, b) and line.feet[a][0].how == How.SPACE
        gap = least(line.kinds[a], line.kinds[b], n, pitch, fan=fan, apart=not skips_nothing(line, a, b), seats=seats)
        if n and frozenset((a, b)) in openings:
            gap = max(gap, (min(n, _skipped(line, a, b)) + 1) * pitch)
        seam = len(posts) > 1 and {a, b} == {line.posts[0], line.posts[-1]}
        if seam:
            ink = half_width(line.kinds[a]) + half_width(line.kinds[b]) + 0.6
            gap = max(gap + (1.2 if n and line.joins else 0.0), ink + (0.0 if n else _seam(line, letters))) + _start_room(line)
        gaps.append(gap)
        free = n > 0 or (_fan(line, a, b) and fans[line.feet[a]] > 3)
        easy.append(gap if not free and (seam or skips_nothing(line, a, b)) else FAR)
    weights = [1.0 if len(line.feet[post]) < 2 else TOGETHER_WEIGHT for post in posts]
    room = Room(posts, gaps, easy, weights, backwards=line.rightwards)
    room.fanned = {post for post in posts if fans[line.feet[post]] > 3 and line.feet[post] and line.feet[post][0].how != How.RING}
    if corners and line.index in corners.of_line:
        _turn_corners(room, line, posts, corners.of_line[line.index])
    return room


def is_opening(line: Line, run: Run) -> bool:
    """Whether a run of chains leaves an opening in plain fabric (a thumb, a handle): long, past about as many stitches, one of a few."""
    if run.before is None or run.after is None or len(run.chains) < LEAST_OPENING:
        return False
    few = len(line.runs) <= MOST_OPENINGS and STITCHES_FOR_EACH * len(line.runs) <= len(line.posts)
    return few and abs(_skipped(line, run.before, run.after) - len(run.chains)) <= 1


def _skipped(line: Line, a: int, b: int) -> int:
    """How many places of one row below lie between two posts; none when they stand on no such."""
    one, other = line.feet[a], line.feet[b]
    if len(one) != 1 or len(other) != 1 or one[0].line != other[0].line or one[0].line < 0:
        return 0
    return max(abs(one[0].at - other[0].at) - 1, 0)


def _seam(line: Line, letters: int) -> float:
    """Room for the round's number (and its yarn's letter) between its last stitch and its first."""
    wide = text_width("0" * (len(str(line.row.number or "")) + letters), NUMBER_MM)
    return max(SEAM_MM, wide + 0.9) if line.index > 2 else SEAM_MM


def _turn_corners(room: Room, line: Line, posts: list[int], corners: list[Corner]) -> None:
    """Sides of the posts; chains round a corner need less room along the sides, since they bow out into it."""
    room.sides = _sides(line, posts, corners)
    tied = {frozenset((line.runs[c.at].before, line.runs[c.at].after)): len(line.runs[c.at].chains) for c in corners if c.what == "run"}
    for i, a in enumerate(posts):
        b = posts[(i + 1) % len(posts)]
        n = tied.get(frozenset((a, b)))
        if n is not None:
            chord = half_width(line.kinds[a]) + half_width(line.kinds[b]) + 0.9 * chain_room(n)
            if line.joins and line.posts[0] in (a, b):
                chord += 1.2
            room.gaps[i] = chord / math.cos(math.pi / len(corners))
            room.corner_groups.update(p for p in posts if line.feet[p] in (line.feet[a], line.feet[b]) and line.feet[p])


def _fan(line: Line, a: int, b: int) -> bool:
    return same_foot(line, a, b) and line.feet[a][0].how != How.RING


def _start_room(line: Line) -> float:
    """Room beside the first stitch for a starting chain that does not count."""
    first = line.posts[0]
    return 1.9 if first in line.stacks and line.roles[first] != Role.START_TOP else 0.0


def _sides(line: Line, posts: list[int], corners: list[Corner]) -> list[int]:
    """The side each post belongs to (−1 − k: it is corner k itself), counter-clockwise."""
    at = {post: i for i, post in enumerate(posts)}
    forward = not line.rightwards
    ends: list[tuple[int, bool]] = []
    for corner in corners:
        if corner.what == "post":
            ends.append((at[corner.at], True))
            continue
        if corner.what == "run":
            run = line.runs[corner.at]
            before = run.before if forward else run.after
        else:
            k = at[corner.at]
            before = corner.at if forward else posts[k - 1]
        ends.append((at[before] if before is not None else 0, False))
    ends.sort()
    n = len(ends)
    out = []
    for i in range(len(posts)):
        passed = sum(1 for end, is_post in ends if end < i)
        exact = next((k for k, (end, is_post) in enumerate(ends) if end == i and is_post), None)
        out.append(-1 - exact if exact is not None else passed % n)
    return out
