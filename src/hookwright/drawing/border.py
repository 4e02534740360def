"""Borders: joined rounds that go all round a piece worked in rows, along its last row, its row ends and its foundation.

Each round lies on a rectangle. The first one's stitches are shared out over the four edges as they are worked into them, those in one
place at a corner round that corner; the rounds after it stand over what they are worked into, no nearer than their ink allows.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import TypeAlias

from ..pattern import FLAT
from ..working.fabric import How
from .arcs import Point
from .cloth import Line, between
from .spacing import chain_room, half_width, settle
from .symbols import height_mm

Rect: TypeAlias = tuple[float, float, float, float]
"""Left, lower, right and upper bound, y upwards."""

NEAREST_MM = 2.7
"""From one stitch of a border to the next."""
MOST_OF_THE_ROW, NEAR = 0.9, 0.35
"""Of the last row so much is worked into by what goes all round; an edge ends so near (a share of it) to where it is looked for."""
MOST_AT_A_CORNER = 5
CORNER = 3
"""So many stitches in one place at the end of an edge go round the corner."""
FEWEST_ON_AN_EDGE = 2
MOST_UNEVEN_MM = 2.0
"""A stitch stands at most so much further out or in than its round."""
ROUND_MM = 4.0
"""What turns a corner is rounded from so far inside it on."""
FootAt: TypeAlias = Callable[[int], tuple[Point, ...]]


@dataclass(slots=True)
class Edges:
    """The posts of a border's first round on each edge, the last row's first, in worked order; `corners[i]`: the post at the corner that
    edge i begins with."""

    posts: list[list[int]]
    corners: list[int | None]


def edges_of(line: Line) -> Edges | None:
    """The four edges that a joined round is worked along; None when it does not go round rows."""
    if line.row.made_in in FLAT or line.foundation or not line.posts:
        return None
    groups = _groups(line)
    if len(groups) > 1 and groups[0][0] == groups[-1][0]:
        groups = [(groups[0][0], groups.pop()[1] + groups[0][1]), *groups[1:]]
    if len(groups) == 2 and not groups[0][0]:
        groups = _in_three(line, groups)
    if len(groups) != 4 or any(len(posts) < FEWEST_ON_AN_EDGE for _, posts in groups):
        return None
    tops = [i for i, (side, _) in enumerate(groups) if not side]
    level = [max((foot.line for post in groups[i][1] for foot in line.feet[post]), default=-1) for i in tops]
    top = tops[0] if len(tops) == 1 or level[0] > level[1] or (level[0] == level[1] and tops[0] == 0) else tops[1]
    edges = Edges([posts for _, posts in groups[top:] + groups[:top]], [None] * 4)
    for i in range(4):
        _turn_corner(line, edges, i)
    return edges


def _groups(line: Line) -> list[tuple[bool, list[int]]]:
    """Runs of posts on row ends and on rows. A few that stand on nothing known are at a corner, more of them on a row."""
    runs: list[tuple[bool, list[int]]] = []
    for on, group in groupby(line.posts, key=lambda post: bool(line.feet[post]) and _on_row_ends(line, post)):
        posts = list(group)
        side = on or (len(posts) <= MOST_AT_A_CORNER and not any(line.feet[post] for post in posts))
        if runs and runs[-1][0] == side:
            runs[-1][1].extend(posts)
        else:
            runs.append((side, posts))
    return runs


def _in_three(line: Line, groups: list[tuple[bool, list[int]]]) -> list[tuple[bool, list[int]]]:
    """A round worked across the last row and then into edges all the way back to it: those edges are down, across and up again.

    They part where an instruction begins, where one does so near the place at which as many stitches go across as on the last row.
    """
    across, rest = groups[0][1], groups[1][1]
    beside = (len(rest) - len(across)) / 2
    reached = {foot.at for post in across for foot in line.feet[post]}
    if beside < FEWEST_ON_AN_EDGE or (reached and len(reached) < MOST_OF_THE_ROW * (max(reached) - min(reached) + 1)):
        return groups
    steps = line.row.stitches.step
    begins = [k for k in range(1, len(rest)) if steps[rest[k]] != steps[rest[k - 1]]]
    first, last = (
        min((k for k in begins if abs(k - want) <= NEAR * beside), key=lambda k: abs(k - want), default=round(want))
        for want in (beside, len(rest) - beside)
    )
    return [groups[0], (True, rest[:first]), (True, rest[first:last]), (True, rest[last:])]


def _on_row_ends(line: Line, post: int) -> bool:
    """Whether a stitch is worked into row ends, or (at a corner) into nothing that is known."""
    return all(foot.line < 0 and foot.how == How.SIDE for foot in line.feet[post])


def _turn_corner(line: Line, edges: Edges, i: int) -> None:
    """Share an odd number of stitches in one place, where edge i begins, between that and the edge before."""
    before, after = edges.posts[i - 1], edges.posts[i]
    last = [post for post in before if line.feet[post] == line.feet[before[-1]]] if not _on_row_ends(line, before[-1]) else []
    first = [post for post in after if line.feet[post] == line.feet[after[0]]] if not _on_row_ends(line, after[0]) else []
    group = last if len(last) >= CORNER else first
    if len(group) < CORNER or len(group) % 2 == 0 or len(group) >= len(before if group is last else after):
        return
    middle = group[len(group) // 2]
    both = before + after
    k = both.index(middle)
    edges.posts[i - 1], edges.posts[i], edges.corners[i] = both[:k], both[k + 1 :], middle


@dataclass(slots=True)
class Border:
    """The rounds of a border so far: where the next one's feet stand."""

    rect: Rect

    def first(self, line: Line, edges: Edges, leftwards: bool) -> dict[int, tuple[Point, Point]]:
        """Foot and top of each post of the first round. `leftwards`: it runs along the upper edge from right to left."""
        gaps = _needs(line)
        need = [_length(edges, i, gaps) for i in range(4)]
        x1, y1, x2, y2 = self.rect
        wide, high = max(need[0], need[2], x2 - x1), max(need[1], need[3], y2 - y1)
        dx, dy = (wide - (x2 - x1)) / 2, (high - (y2 - y1)) / 2
        self.rect = x1, y1, x2, y2 = x1 - dx, y1 - dy, x2 + dx, y2 + dy
        corners = [(x2, y2), (x1, y2), (x1, y1), (x2, y1)] if leftwards else [(x1, y2), (x2, y2), (x2, y1), (x1, y1)]
        out: dict[int, tuple[Point, Point]] = {}
        for i, posts in enumerate(edges.posts):
            (ax, ay), (bx, by) = corners[i], corners[(i + 1) % 4]
            far = math.dist((ax, ay), (bx, by))
            share = far / need[i]
            at = 0.0 if edges.corners[i] is not None else -NEAREST_MM / 2 * share
            if edges.corners[i] is None and posts:
                at -= (gaps[posts[0]] - NEAREST_MM) * share
            for post in posts:
                at += gaps[post] * share
                foot = (ax + (bx - ax) * at / far, ay + (by - ay) * at / far)
                out[post] = foot, _beyond(foot, self._normal(foot, i, leftwards), height_mm(line.kinds[post]))
            corner = edges.corners[i]
            if corner is not None:
                way = (math.copysign(math.sqrt(0.5), ax - (x1 + x2) / 2), math.copysign(math.sqrt(0.5), ay - (y1 + y2) / 2))
                out[corner] = (ax, ay), _beyond((ax, ay), way, height_mm(line.kinds[corner]))
        self._grow(sum(height_mm(line.kinds[post]) for post in line.posts) / len(line.posts))
        return out

    @staticmethod
    def _normal(foot: Point, edge: int, leftwards: bool) -> Point:
        beside = -1.0 if leftwards == (edge == 1) else 1.0
        return ((0.0, 1.0), (beside, 0.0), (0.0, -1.0), (beside, 0.0))[edge]

    def further(self, line: Line, feet_of: FootAt) -> dict[int, tuple[Point, Point]]:
        """Foot and top of each post of a round that is worked on the one before."""
        feet = {post: _mean(points) for post in line.posts if (points := feet_of(post))}
        posts = [post for post in line.posts if post in feet]
        if not posts:
            return {}
        past = {post: max(_past(self.rect, feet[post]), 0.0) for post in posts}
        tall = {post: past[post] + height_mm(line.kinds[post]) for post in posts}
        rise = sum(tall.values()) / len(tall)
        gaps = _needs(line)
        inner = self.rect
        self._grow(max(rise, (sum(gaps.values()) - _perimeter(inner)) / 8))
        whole = _perimeter(self.rect)
        at = [_project(self.rect, inner, feet[post]) for post in posts]
        steps = [math.remainder(b - a, whole) for a, b in pairwise(at)]
        back = sum(step < 0 for step in steps) > len(steps) / 2
        if back:
            posts, at = posts[::-1], at[::-1]
        for k in range(1, len(at)):
            at[k] = at[k - 1] + max(math.remainder(at[k] - at[k - 1], whole), -whole / 8)
        between_posts = [gaps[a if back else b] for a, b in zip(posts, [*posts[1:], posts[0]], strict=True)]
        share = min(1.0, whole / sum(between_posts))
        room = [gap * share for gap in between_posts]
        run = [x - whole for x in at] + at + [x + whole for x in at]
        n = len(at)
        settled = settle(run, (room * 3)[:-1], [1e6] * (3 * n - 1), [1.0] * (3 * n))[n : 2 * n]
        out: dict[int, tuple[Point, Point]] = {}
        for post, where in zip(posts, settled, strict=True):
            point, way = _at(self.rect, where % whole)
            uneven = max(-MOST_UNEVEN_MM, min(MOST_UNEVEN_MM, tall[post] - rise))
            out[post] = feet[post], _beyond(point, way, uneven)
        return out

    def out(self, p: Point) -> Point:
        """Which way is outwards at a place on or near the last round: across its edge, slanting round a corner."""
        x1, y1, x2, y2 = self.rect
        right, left, above, below = p[0] - x2, x1 - p[0], p[1] - y2, y1 - p[1]
        beside, upright = max(right, left) + ROUND_MM, max(above, below) + ROUND_MM
        x, y = (1.0 if right > left else -1.0), (1.0 if above > below else -1.0)
        if beside > 0 and upright > 0:
            far = math.hypot(beside, upright)
            return x * beside / far, y * upright / far
        return (x, 0.0) if beside > upright else (0.0, y)

    def _grow(self, by: float) -> None:
        x1, y1, x2, y2 = self.rect
        self.rect = x1 - by, y1 - by, x2 + by, y2 + by


def _needs(line: Line) -> dict[int, float]:
    """The room from the post before to each, from the last to the first too."""
    chains = between(line)
    out = {}
    for a, b in zip(line.posts, [*line.posts[1:], line.posts[0]], strict=True):
        n = chains.get((a, b), 0)
        gap = half_width(line.kinds[a]) + half_width(line.kinds[b]) + (chain_room(n) if n else 0.3)
        if b == line.posts[0]:
            gap += 1.6 * len(line.joins) + 1.9 * (b in line.stacks)
        out[b] = max(NEAREST_MM, gap)
    return out


def _length(edges: Edges, i: int, gaps: dict[int, float]) -> float:
    """The least length of an edge."""
    begin, end = edges.corners[i], edges.corners[(i + 1) % 4]
    row = [*([begin] if begin is not None else []), *edges.posts[i], *([end] if end is not None else [])]
    ends = sum(corner is None for corner in (begin, end))
    return max(sum(gaps[post] for post in row[1:]) + ends * NEAREST_MM / 2, NEAREST_MM)


def _beyond(point: Point, way: Point, far: float) -> Point:
    return point[0] + way[0] * far, point[1] + way[1] * far


def _mean(points: Sequence[Point]) -> Point:
    return sum(p[0] for p in points) / len(points), sum(p[1] for p in points) / len(points)


def _past(rect: Rect, p: Point) -> float:
    """How far a point lies outside a rectangle (less than 0: inside)."""
    x1, y1, x2, y2 = rect
    return max(x1 - p[0], p[0] - x2, y1 - p[1], p[1] - y2)


def _perimeter(rect: Rect) -> float:
    x1, y1, x2, y2 = rect
    return 2 * (x2 - x1 + y2 - y1)


def _project(rect: Rect, inner: Rect, p: Point) -> float:
    """How far along a rectangle, against the clock from its upper right corner, lies what is straight out from a point inside."""
    x1, y1, x2, y2 = rect
    wide, high = x2 - x1, y2 - y1
    a1, b1, a2, b2 = inner
    right, left, above, below = p[0] - a2, a1 - p[0], p[1] - b2, b1 - p[1]
    beside, upright = max(right, left), max(above, below)
    x, y = max(x1, min(x2, p[0])), max(y1, min(y2, p[1]))
    if beside > 0.3 and upright > 0.3 and abs(beside - upright) < 0.5 * max(beside, upright):  # off the corner itself
        x, y = (x2 if right > left else x1), (y2 if above > below else y1)
    if upright >= beside:
        return x2 - x if above > below else wide + high + x - x1
    return wide + y2 - y if left > right else 2 * wide + high + y - y1


def _at(rect: Rect, s: float) -> tuple[Point, Point]:
    """The place so far along a rectangle, and which way is outwards there: slanting at the very corners."""
    x1, y1, x2, y2 = rect
    wide, high = x2 - x1, y2 - y1
    ends = (0.0, wide, wide + high, 2 * wide + high, 2 * (wide + high))
    if s < ends[1]:
        point, way = (x2 - s, y2), (0.0, 1.0)
    elif s < ends[2]:
        point, way = (x1, y2 - (s - ends[1])), (-1.0, 0.0)
    elif s < ends[3]:
        point, way = (x1 + s - ends[2], y1), (0.0, -1.0)
    else:
        point, way = (x2, y1 + s - ends[3]), (1.0, 0.0)
    return point, way
