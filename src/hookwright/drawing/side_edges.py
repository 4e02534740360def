"""Edgings worked into row ends: their stitches lie along the edge of the rows, feet on it, tops outwards; borders go all round."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from ..pattern import FLAT
from ..working.fabric import How
from .arcs import Point
from .border import Border, edges_of
from .cloth import Foot, Line, between
from .placed import Placed
from .spacing import chain_room, half_width
from .symbols import height_mm

OFF_MM = 1.9
"""From the outermost top of a row out to the feet of its edging: turning chains stand between."""
NEAREST_MM = 2.7
"""From one stitch of an edging to the next."""
STRAIGHT_MM = 4.0
"""Rows whose ends differ by no more have a straight edge."""
AROUND = 0.7
"""Share of a joined round's stitches that stand on row ends (or on such) for it to be a border all round."""


def side_posts(lines: Sequence[Line]) -> list[set[int]]:
    """For each line the posts worked into row ends, or into stitches and spaces that are."""
    found: list[set[int]] = []
    for line in lines:
        if line.index and not lines[line.index - 1].foundation and edges_of(line) is not None:
            found.append(set(line.posts))
            continue
        side = {post for post in line.posts if line.feet[post] and all(_aside(lines, found, line, foot) for foot in line.feet[post])}
        if side and line.row.made_in not in FLAT and len(side) >= AROUND * len(line.posts):
            side = set(line.posts)
        found.append(side)
    return found


def _aside(lines: Sequence[Line], found: Sequence[set[int]], line: Line, foot: Foot) -> bool:
    if foot.line < 0:
        return foot.how == How.SIDE
    if foot.line >= line.index:
        return False
    below = lines[foot.line]
    run = below.run_of.get(foot.at)
    at = foot.at if run is None else below.runs[run].before
    return at in found[foot.line]


def lay_sides(placed: Placed, line: Line, sides: Sequence[set[int]]) -> None:
    """Place a line's side posts: the first row of an edging along the rows' edge (or all round), further ones on the one before."""
    side = sides[line.index]
    if side == set(line.posts) and _lay_border(placed, line, sides):
        return
    if isinstance(placed.out, _outwards) and all(foot.line >= 0 for post in side for foot in line.feet[post]):
        for post in line.posts:
            if post in side:
                _further_out(placed, line, post)
        return
    box = _box(placed, line, sides)
    if box is None:
        return
    placed.out = _outwards(box)
    if side == set(line.posts) and line.row.made_in not in FLAT:
        corners = _all_round(box, _needs(line, line.posts, closed=True))
        _set_along(placed, line, line.posts, corners)
        tall = sum(height_mm(line.kinds[post]) for post in line.posts) / len(line.posts)
        (x1, y1), (x2, y2) = corners[1], corners[3]
        placed.border = Border((x1 - tall, y1 - tall, x2 + tall, y2 + tall))
        return
    for group in _groups(line, side):
        if any(foot.line >= 0 for foot in line.feet[group[0]]):
            for post in group:
                _further_out(placed, line, post)
        else:
            points = _edge(placed, line, group, sides)
            right = points[0][0] > (box[0] + box[2]) / 2
            _set_along(placed, line, group, points, (1.0 if right else -1.0, 0.0))
            xs = [p[0] for p in points]
            box = (box[0], box[1], min(xs), box[3]) if right else (max(xs), *box[1:])
            placed.out = _outwards(box)


def _lay_border(placed: Placed, line: Line, sides: Sequence[set[int]]) -> bool:
    """Place a round that goes round all four edges, or one on such a round; False where it is neither."""
    edges = edges_of(line)
    if edges is not None:
        box = _box(placed, line, sides)
        if box is None:
            return False
        along = [p for post in edges.posts[0] for foot in line.feet[post] if (p := placed.foot_point(line, post, foot)) is not None]
        steps = [b[0] - a[0] for a, b in pairwise(along) if abs(b[0] - a[0]) > 0.5]
        leftwards = 2 * sum(step < 0 for step in steps) > len(steps) if steps else not line.rightwards
        placed.border = Border((box[0], box[1] - 1.5, box[2], box[3] + 0.6))
        laid = placed.border.first(line, edges, leftwards)
    elif placed.border is not None:

        def feet_of(post: int) -> tuple[Point, ...]:
            return tuple(p for foot in line.feet[post] if (p := placed.foot_point(line, post, foot)) is not None)

        laid = placed.border.further(line, feet_of)
    else:
        return False
    for post, (foot_at, top) in laid.items():
        placed.feet[line.index][post], placed.top[line.index][post] = (foot_at,), top
    placed.out = placed.border.out
    return True


def _groups(line: Line, side: set[int]) -> list[list[int]]:
    """Runs of neighbouring side posts, in worked order."""
    out: list[list[int]] = []
    before = False
    for post in line.posts:
        if post in side:
            if before:
                out[-1].append(post)
            else:
                out.append([post])
        before = post in side
    return out


def _further_out(placed: Placed, line: Line, post: int) -> None:
    """A stitch of an edging's further row: on what it is worked into, outwards."""
    points = tuple(p for foot in line.feet[post] if (p := placed.foot_point(line, post, foot)) is not None)
    if not points:
        return
    x, y = sum(p[0] for p in points) / len(points), sum(p[1] for p in points) / len(points)
    ox, oy = placed.out((x, y))
    tall = height_mm(line.kinds[post])
    placed.feet[line.index][post] = points
    placed.top[line.index][post] = (x + ox * tall, y + oy * tall)


def _box(placed: Placed, line: Line, sides: Sequence[set[int]]) -> tuple[float, float, float, float] | None:
    """Left, lower, right and upper bound of the rows that an edging goes along."""
    points = [
        p for row in placed.lines[: line.index] for e, p in enumerate(placed.top[row.index]) if p is not None and e not in sides[row.index]
    ]
    if not points:
        return None
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs) - OFF_MM, min(ys) - 1.0, max(xs) + OFF_MM, max(ys)


class _outwards:
    """Which way is outwards: up inside the rows and above them, away from them at their sides and below."""

    def __init__(self, box: tuple[float, float, float, float]) -> None:
        self.box = box

    def __call__(self, p: Point) -> Point:
        x1, y1, x2, y2 = self.box
        beyond = {(1.0, 0.0): p[0] - x2, (-1.0, 0.0): x1 - p[0], (0.0, -1.0): y1 - p[1], (0.0, 1.0): p[1] - y2}
        way, far = max(beyond.items(), key=lambda pair: pair[1])
        return way if far > -0.3 else (0.0, 1.0)


def _needs(line: Line, posts: Sequence[int], *, closed: bool) -> list[float]:
    """Room from each post to the next (with `closed`, from the last to the first too)."""
    chains = between(line)
    pairs = list(pairwise(posts)) + ([(posts[-1], posts[0])] if closed else [])
    out = []
    for a, b in pairs:
        n = chains.get((a, b), 0)
        out.append(max(NEAREST_MM, half_width(line.kinds[a]) + half_width(line.kinds[b]) + (chain_room(n) if n else 0.3)))
    return out


def _all_round(box: tuple[float, float, float, float], needs: Sequence[float]) -> list[Point]:
    """Round the rows against the clock from their upper left corner, as far out as the border's stitches need."""
    x1, y1, x2, y2 = box
    short = sum(needs) - 2 * (x2 - x1 + y2 - y1)
    d = max(short / 8, 0.6)
    x1, y1, x2, y2 = x1 - d, y1 - d, x2 + d, y2 + d
    return [(x1, y2), (x1, y1), (x2, y1), (x2, y2), (x1, y2)]


def _edge(placed: Placed, line: Line, group: Sequence[int], sides: Sequence[set[int]]) -> list[Point]:
    """The edge that a group lies along, from where it begins."""
    tops: list[list[Point]] = []
    for row in placed.lines[: line.index]:
        here = [p for e, p in enumerate(placed.top[row.index]) if p is not None and e not in sides[row.index]]
        if here:
            tops.append(here)
    near = _neighbour(placed, line, group[0], sides)
    middle = sum(p[0] for row in tops for p in row) / sum(len(row) for row in tops)
    way = 1.0 if near is None or near[0] >= middle else -1.0
    corner = [max(row) if way > 0 else min(row) for row in tops]
    reach = max(way * x for x, _ in corner)
    if reach - min(way * x for x, _ in corner) <= STRAIGHT_MM:
        corner = [(way * reach, y) for _, y in corner]  # turning chains here and there do not bend a straight edge
    out = sorted(((x + way * OFF_MM, y) for x, y in corner), key=lambda p: p[1])
    points = [(out[0][0], out[0][1] - 1.0), *out]
    from_top = near is None or abs(near[1] - points[-1][1]) <= abs(near[1] - points[0][1])
    return points[::-1] if from_top else points


def _neighbour(placed: Placed, line: Line, post: int, sides: Sequence[set[int]]) -> Point | None:
    """The stitch worked before a group: in its own row, or the last of the row before."""
    before = [p for p in line.posts if p < post and p not in sides[line.index]]
    if before:
        return placed.top[line.index][before[-1]]
    for row in reversed(placed.lines[: line.index]):
        for e in reversed(row.posts):
            if placed.top[row.index][e] is not None:
                return placed.top[row.index][e]
    return None


def _set_along(placed: Placed, line: Line, posts: Sequence[int], points: Sequence[Point], way: Point | None = None) -> None:
    """Posts along a line of points, each with the room it needs, drawn out to the whole length."""
    needs = _needs(line, posts, closed=points[0] == points[-1])
    lengths = [math.dist(a, b) for a, b in pairwise(points)]
    whole, need = sum(lengths), sum(needs) + (0.0 if points[0] == points[-1] else NEAREST_MM)
    share = max(whole / need, 1.0)
    at = (whole - need * share) / 2 + NEAREST_MM * share / 2
    for post, room in zip(posts, [*needs, 0.0], strict=False):
        x, y = _point(points, lengths, at)
        ox, oy = way or placed.out((x, y))
        tall = height_mm(line.kinds[post])
        placed.feet[line.index][post] = ((x, y),)
        placed.top[line.index][post] = (x + ox * tall, y + oy * tall)
        at += room * share


def _point(points: Sequence[Point], lengths: Sequence[float], at: float) -> Point:
    i = 0
    while i < len(lengths) - 1 and at > lengths[i]:
        at -= lengths[i]
        i += 1
    (x1, y1), (x2, y2) = points[i], points[i + 1]
    t = at / (lengths[i] or 1.0)
    return x1 + (x2 - x1) * t, y1 + (y2 - y1) * t
