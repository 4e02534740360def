"""Corners of a motif worked in rounds: how many sides it has, and where each round turns a corner.

A corner is a space between two groups in one place ("3 dc, ch 2, 3 dc in the corner"), or the middle stitch of an odd number in one
place. A motif is drawn with sides only when a round makes three to six of them, evenly spaced, and the next rounds stand in them.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import Literal

from .cloth import Foot, Line


@dataclass(frozen=True, slots=True)
class Corner:
    """Where a round turns: in a run of chains, at a post, or between a post and the next. `at`: run number, or element."""

    what: Literal["run", "post", "gap"]
    at: int


@dataclass(frozen=True, slots=True)
class Corners:
    """The corners of every round from `first` on, in worked order."""

    sides: int
    first: int
    of_line: dict[int, list[Corner]]


def find_corners(lines: list[Line]) -> Corners | None:
    """The corners of a part worked in rounds; None for round motifs."""
    if any(_blooms(line) for line in lines[1:] if not _in_the_knot(lines, line)):
        return None
    for line in lines:
        spots = candidates(line)
        if not 3 <= len(spots) <= 6 or not _even(line, spots):
            continue
        corners = _follow(lines, line.index, spots)
        if _trusted(lines, corners):
            return corners
    return None


def _trusted(lines: list[Line], corners: Corners) -> bool:
    rounds = len(corners.of_line)
    reaches = max(corners.of_line) == lines[-1].index
    if not reaches:
        return False
    if corners.sides in (3, 4) and rounds >= 2:
        return True
    if corners.sides == 4 and rounds == 1:
        return corners.of_line[corners.first][0].what == "run" and corners.first > 0
    long = max((len(run.chains) for line in lines[corners.first :] for run in line.runs), default=0)
    return rounds >= 2 and long <= 3


def _in_the_knot(lines: list[Line], line: Line) -> bool:
    """Whether everything in a round is worked into one chain of the few that the piece begins with: a ring in all but name."""
    feet = {_place(line.feet[post]) for post in line.posts if line.feet[post]}
    knot = next(iter(feet), None)
    return len(feet) == 1 and knot is not None and knot[0] >= 0 and lines[knot[0]].foundation


def _blooms(line: Line) -> bool:
    """Fans of four and more away from any corner, or long loops: lace of a round doily, however many corners it seems to have."""
    if any(len(run.chains) > 4 for run in line.runs):
        return True
    counts = Counter(_place(line.feet[post]) for post in line.posts)
    corners = {
        _place(line.feet[run.before])
        for run in line.runs
        if run.before is not None and run.after is not None and _one_place(line, run.before, run.after)
    }
    middles = {_place(line.feet[spot.at]) for spot in candidates(line) if spot.what == "post"}
    return any(n >= 4 and place is not None and place not in corners and place not in middles for place, n in counts.items())


def candidates(line: Line) -> list[Corner]:
    """Corner-like spots of one round, in worked order."""
    if not line.posts or line.foundation:
        return []
    runs = [
        Corner("run", r)
        for r, run in enumerate(line.runs)
        if run.before is not None and run.after is not None and _one_place(line, run.before, run.after)
    ]
    if runs:
        longest = max(len(line.runs[spot.at].chains) for spot in runs)
        return [spot for spot in runs if len(line.runs[spot.at].chains) == longest]
    counts = Counter(line.feet[post] for post in line.posts if len(line.feet[post]) == 1 and line.feet[post][0].line >= 0)
    spots = []
    for feet, n in counts.items():
        if n >= 3 and n % 2:
            group = [post for post in line.posts if line.feet[post] == feet]
            spots.append(Corner("post", group[n // 2]))
    return sorted(spots, key=lambda spot: spot.at)


def _place(line_feet: tuple[Foot, ...]) -> tuple[int, int] | None:
    return (line_feet[0].line, line_feet[0].at) if len(line_feet) == 1 else None


def _one_place(line: Line, a: int, b: int) -> bool:
    one, other = _place(line.feet[a]), _place(line.feet[b])
    return one is not None and one == other


def _even(line: Line, spots: list[Corner]) -> bool:
    """Whether the corners divide the round's posts nearly evenly."""
    order = {post: i for i, post in enumerate(line.posts)}
    marks = sorted(_order(line, spot, order) for spot in spots)
    n = len(line.posts)
    parts = [(b - a) % n or n for a, b in zip(marks, [*marks[1:], marks[0]], strict=True)]
    return max(parts) - min(parts) <= max(1, 0.25 * max(parts))


def _order(line: Line, spot: Corner, order: dict[int, int]) -> int:
    if spot.what == "run":
        before = line.runs[spot.at].before
        return order[before] if before is not None else 0
    return order[spot.at]


def _follow(lines: list[Line], first: int, spots: list[Corner]) -> Corners:
    """Carry the corners upwards: each round's corner stands in the corner of the round below."""
    of_line = {first: spots}
    for line in lines[first + 1 :]:
        above = [_standing_on(line, lines[line.index - 1], spot) for spot in of_line[line.index - 1]]
        found = [spot for spot in above if spot is not None]
        if len(found) != len(spots):
            break
        of_line[line.index] = found
    return Corners(len(spots), first, of_line)


def _standing_on(line: Line, below: Line, spot: Corner) -> Corner | None:
    members = set(below.runs[spot.at].chains) if spot.what == "run" else {spot.at}
    group = [post for post in line.posts if any(foot.line == below.index and foot.at in members for foot in line.feet[post])]
    if not group:
        return _passing_over(line, below, members)
    if len(group) > 1 and line.posts[0] in group and line.posts[-1] in group:
        half = line.posts[len(line.posts) // 2]
        group = [post for post in group if post > half] + [post for post in group if post <= half]
    for a, b in zip(group, [*group[1:], group[0]], strict=True):
        for r, run in enumerate(line.runs):
            if run.before == a and run.after == b:
                return Corner("run", r)
    middle = group[len(group) // 2]
    return Corner("post", middle) if len(group) % 2 else Corner("gap", group[len(group) // 2 - 1])


def _passing_over(line: Line, below: Line, members: set[int]) -> Corner | None:
    """The corner of a round that skips the corner of the round below: the chains, or the gap, that pass over it."""
    at = {post: line.feet[post][0].at for post in line.posts if len(line.feet[post]) == 1 and line.feet[post][0].line == below.index}
    posts = [post for post in line.posts if post in at]
    if len(posts) < 2 or len(posts) < 0.8 * len(line.posts):
        return None
    low, high, way = min(members), max(members), 1 if line.rightwards == below.rightwards else -1
    for a, b in zip(posts, [*posts[1:], posts[0]], strict=True):
        one, other = (at[a], at[b]) if way > 0 else (at[b], at[a])
        over = (one < low and high < other) or (one > other and (one < low or high < other))
        if over:
            run = next((r for r, run in enumerate(line.runs) if run.before == a and run.after == b), None)
            return Corner("run", run) if run is not None else Corner("gap", a)
    return None
