"""Pieces joined as they are worked: which stitches of a piece go into another piece, and that piece's edge laid where they meet it.

What such a stitch stands on is drawn in grey: the other piece's last round near the joins, turned and set down so that the loops that are
joined meet. Which loop meets which follows from both rounds: seen from the right side the two run past one another in opposite ways,
so the loop after stitch j of the one meets the loop after stitch m − j of the other; m is where loops meet loops of their own length.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from ..pattern import Make
from ..pattern.walking import walk
from ..working.fabric import Fabric, PartWork, Role
from .arcs import Point
from .cloth import Line
from .marks import Chart, Ghost, Mark
from .overlaps import closest
from .placed import Placed
from .shapes import Capsule, Ink, placed
from .symbols import CHAIN_HALF_MM

APART_MM = 0.85
"""From the middle of a joining stitch to the edge of the chain it is worked over."""
MISFIT_MM = 4.5
"""Joins that miss by more when the other piece is laid against them belong to a further piece (or to its next side)."""
BEYOND = 7
"""At most so many stitches of the other piece are drawn past the last join on either side."""
STEP_MM, MOST_STEPS = 0.3, 24
"""The other piece moves outwards in such steps until it is clear."""
TIE_MM = 0.9
"""A tie ends so far from what it ties."""
LOOP_MM = 2.0
"""Half the width of a loop drawn for a piece whose own loops cannot be told."""


class Loop(NamedTuple):
    """A loop (or gap) after a post of a round: its element on which a join would stand, the point there, and which way out is."""

    length: int
    at: Point
    out: Point
    joined: bool


@dataclass(frozen=True, slots=True)
class Other:
    """The other piece as it is drawn by itself, right side shown, on paper."""

    name: str
    chart: Chart
    placed: Placed


def joined_to_others(fabric: Fabric, part: PartWork) -> frozenset[tuple[int, int]]:
    """(row index, element) of the stitches of a part that are worked into another piece as it is joined."""
    ids = {
        step.id
        for each in fabric.pattern.parts
        for row in each.rows
        for step in walk(row.steps)
        if isinstance(step, Make) and step.at.what == "piece"
    }
    if not ids:
        return frozenset()
    found: set[tuple[int, int]] = set()
    for row in part.rows:
        made = row.stitches
        stitches = [e for e in range(len(made)) if made.role[e] == Role.STITCH]
        meet = [e for e in stitches if made.step[e] in ids and made.feet[e] == made.feet[e + 1]]
        if 2 * len(meet) < len(stitches):  # a row that mostly stands on another piece is worked onto it, not joined to it
            found.update((row.index, e) for e in meet)
    return frozenset(found)


def others(fabric: Fabric, part: int) -> list[int]:
    """The parts a part may be joined to: those made before it; itself, when it is made more than once or none is before it."""
    before = [p for p in range(part) if fabric.parts[p].rows]
    return [*before, part] if fabric.parts[part].copies > 1 or not before else before


def lay_beside(chart: Chart, own: Placed, pieces: Iterable[Other]) -> None:
    """Add the other pieces, in grey, where a chart's stitches are worked into them."""
    tries = [(other, line, list(_loops(other.chart, other.placed, line))) for other in pieces if (line := _edge(other.placed)) is not None]
    spots = {(mark.row, mark.stitch): (mark.x, mark.y) for mark in chart.marks}
    ink = [chart.body(mark) for mark in chart.marks]
    for line in own.lines:
        drawn = [e for e in line.meets if (line.row.index, e) in spots]
        mine = list(_loops(chart, own, line)) if drawn and own.form == "round" else []
        joins = [(j, e) for e in drawn if mine and (j := _gap_of(line, e)) is not None]
        loose = set(drawn)
        for group in _groups(chart, own, line, mine, joins, tries):
            laid = _fitted(chart, own, line, mine, group, tries)
            if laid is not None:
                at = [spots[line.row.index, e] for _, e in group]
                _draw(chart, laid, at, [_out(chart, own, p) for p in at], ink)
                alike = [each[0].name for each in tries if _fitted(chart, own, line, mine, group, [each]) is not None]
                chart.others |= {f"{' or '.join(alike)}, made before and joined here": None}
                loose -= {e for _, e in group}
        for e in sorted(loose):
            _plain_loop(chart, spots[line.row.index, e], _way_out(chart, own, line, e, spots[line.row.index, e]))


def _edge(placed: Placed) -> Line | None:
    """The last round of a piece, when it is drawn in the round."""
    return next((line for line in reversed(placed.lines) if len(line.posts) > 2), None) if placed.form == "round" else None


def _gap_of(line: Line, e: int) -> int | None:
    """The number of the post that an element comes after."""
    run = line.runs[line.run_of[e]]
    return line.posts.index(run.before) if run.before is not None and run.before in line.posts else None


def _loops(chart: Chart, own: Placed, line: Line) -> Iterator[Loop]:
    """The loops (or gaps) of a round, one after each of its posts, in worked order, on paper."""
    spots = {mark.stitch: (mark.x, mark.y) for mark in chart.marks if mark.row == line.row.index}
    after = {run.before: run for run in line.runs if run.before is not None}
    n = len(line.posts)
    for j, post in enumerate(line.posts):
        run = after.get(post)
        if run is not None:
            joins = [e for e in run.chains if e in line.meets]
            points = [spots[e] for e in joins or run.chains if e in spots]
            middle = points[(len(points) - 1) // 2 : len(points) // 2 + 1]
            length = len(run.chains)
        else:
            joins, length = [], 0
            middle = [_paper(chart, top) for p in (post, line.posts[(j + 1) % n]) if (top := own.top[line.index][p]) is not None]
        if not middle:
            middle = [(0.0, 0.0)]
        at = sum(p[0] for p in middle) / len(middle), sum(p[1] for p in middle) / len(middle)
        yield Loop(length, at, _out(chart, own, at), bool(joins))


def _paper(chart: Chart, p: Point) -> Point:
    return (-p[0] if chart.handed == "left" else p[0]), -p[1]


def _out(chart: Chart, own: Placed, at: Point) -> Point:
    """Which way is outwards on paper at a point on paper."""
    return _paper(chart, own.out(_paper(chart, at)))


Group = list[tuple[int, int]]
"""Joins to one side of one piece: (number of the post before, element)."""


def _groups(
    chart: Chart, own: Placed, line: Line, mine: list[Loop], joins: Group, tries: Sequence[tuple[Other, Line, list[Loop]]]
) -> Iterator[Group]:
    """The joins of a round, those together that one piece laid against them meets."""
    group: Group = []
    for join in joins:
        if group and _fitted(chart, own, line, mine, [*group, join], tries) is None:
            yield group
            group = []
        group = [*group, join]
    if group:
        yield group


class Laid(NamedTuple):
    """A piece turned by `turn` radians and then moved, on paper; `loops`: those of its loops that are met, by number and place."""

    other: Other
    line: Line
    turn: float
    move: Point
    loops: tuple[tuple[int, Point], ...]

    def __call__(self, p: Point) -> Point:
        c, s = math.cos(self.turn), math.sin(self.turn)
        return p[0] * c - p[1] * s + self.move[0], p[0] * s + p[1] * c + self.move[1]


def _fitted(
    chart: Chart, own: Placed, line: Line, mine: list[Loop], group: Group, tries: Sequence[tuple[Other, Line, list[Loop]]]
) -> Laid | None:
    """The first other piece that meets all joins of a group, laid against them; None when none does."""
    spots = {mark.stitch: (mark.x, mark.y) for mark in chart.marks if mark.row == line.row.index}
    for other, edge, loops in tries:
        best: tuple[float, Laid] | None = None
        n = len(loops)
        for m in range(n):
            met = tuple((m - j) % n for j, _ in group)
            if any(loops[k].joined for k in met) or not all(_alike(mine[j], loops[k]) for (j, _), k in zip(group, met, strict=True)):
                continue
            pairs = [(spots[e], _out(chart, own, spots[e]), loops[k]) for (_, e), k in zip(group, met, strict=True)]
            turn, move, misfit = _against(pairs)
            # Of places alike the one furthest from the round's seam is taken: there a maker would join.
            seam = sum(min(k + 1, n - 1 - k) for k in met) / len(met) / n
            cost = misfit - 0.3 * seam
            if misfit <= MISFIT_MM and (best is None or cost < best[0] - 1e-6):
                best = (cost, Laid(other, edge, turn, move, tuple((k, loops[k].at) for k in met)))
        if best is not None:
            return best[1]
    return None


def _alike(mine: Loop, theirs: Loop) -> bool:
    """Whether a loop may be joined to another: as long as it with its joining stitch, give or take one chain."""
    return (mine.length <= 1 and theirs.length <= 1) or (theirs.length > 0 and abs(mine.length - theirs.length) <= 1)


def _against(pairs: Sequence[tuple[Point, Point, Loop]]) -> tuple[float, Point, float]:
    """How to turn and move a piece so that its loops meet the joins, its outside against theirs; and by how much that fails at worst, mm.

    Two joins and more lie along a common edge; a single one has only the ways out to go by.
    """
    ours = [at for at, _, _ in pairs]
    ux, uy = _mean_way([loop.out for _, _, loop in pairs])
    lifts = [APART_MM + (CHAIN_HALF_MM if loop.length else 0.0) for _, _, loop in pairs]
    theirs = [(loop.at[0] + ux * lift, loop.at[1] + uy * lift) for (_, _, loop), lift in zip(pairs, lifts, strict=True)]
    if len(pairs) == 1:
        (x, y), (ox, oy), _ = pairs[0]
        ours.append((x + ox, y + oy))
        theirs.append((theirs[0][0] - ux, theirs[0][1] - uy))
    n = len(ours)
    ax, ay = sum(p[0] for p in ours) / n, sum(p[1] for p in ours) / n
    bx, by = sum(p[0] for p in theirs) / n, sum(p[1] for p in theirs) / n
    dot = sum((q[0] - bx) * (p[0] - ax) + (q[1] - by) * (p[1] - ay) for p, q in zip(ours, theirs, strict=True))
    cross = sum((q[0] - bx) * (p[1] - ay) - (q[1] - by) * (p[0] - ax) for p, q in zip(ours, theirs, strict=True))
    turn = math.atan2(cross, dot)
    c, s = math.cos(turn), math.sin(turn)
    move = ax - bx * c + by * s, ay - bx * s - by * c
    misfit = max(math.dist(p, (q[0] * c - q[1] * s + move[0], q[0] * s + q[1] * c + move[1])) for p, q in zip(ours, theirs, strict=True))
    return turn, move, misfit


def _mean_way(ways: Sequence[Point]) -> Point:
    x, y = sum(way[0] for way in ways), sum(way[1] for way in ways)
    far = math.hypot(x, y) or 1.0
    return x / far, y / far


def _draw(chart: Chart, laid: Laid, spots: Sequence[Point], ways: Sequence[Point], ink: list[list[Capsule]]) -> None:
    """The other piece's last round near its joins, moved outwards until it is clear of the ink already there; ties show what meets."""
    near = _near(laid.line, [k for k, _ in laid.loops])
    shown = [mark for mark in laid.other.chart.marks if mark.row == laid.line.row.index and mark.stitch in near]
    out = _mean_way(ways)
    for step in range(MOST_STEPS + 1):
        away = laid._replace(move=(laid.move[0] + out[0] * step * STEP_MM, laid.move[1] + out[1] * step * STEP_MM))
        ghosts = [_ghost(away, mark) for mark in shown]
        bodies = [placed(one.shape.body, one.x, one.y, one.angle_deg) for one in ghosts]
        clear = [not any(_touch(body, other) for other in ink) for body in bodies]
        if all(clear):
            break
    chart.ghosts += [ghost for ghost, free in zip(ghosts, clear, strict=True) if free]
    ink += [body for body, free in zip(bodies, clear, strict=True) if free]
    for spot, (_, at) in zip(spots, laid.loops, strict=True):
        tie = _tie(spot, away(at))
        if tie is not None:
            chart.ghosts.append(tie)


def _ghost(laid: Laid, mark: Mark) -> Ghost:
    x, y = laid((mark.x, mark.y))
    return Ghost(laid.other.chart.glyphs[mark.glyph], round(x, 2), round(y, 2), round(mark.angle_deg + math.degrees(laid.turn), 1))


def _tie(a: Point, b: Point) -> Ghost | None:
    """A thin line from a joining stitch to the loop it is worked into, where they stand apart."""
    far = math.dist(a, b)
    if far < 2 * TIE_MM:
        return None
    ux, uy = (b[0] - a[0]) / far, (b[1] - a[1]) / far
    line = Ink().line(ux * TIE_MM, uy * TIE_MM, ux * (far - TIE_MM), uy * (far - TIE_MM))
    return Ghost(line.shape(), round(a[0], 2), round(a[1], 2), 0.0)


def _near(line: Line, loops: Sequence[int]) -> set[int]:
    """The elements of a round from a little before the first loop met to a little after the last: the short way round."""
    n = len(line.posts)
    ordered = sorted(loops)
    widest = max(range(len(ordered)), key=lambda i: (ordered[i] - ordered[i - 1]) % n or n)
    start, end = ordered[widest], ordered[widest - 1]
    tied = {run.before for run in line.runs}

    def beyond(at: int, way: int) -> int:
        """The post at which the loop (or the group) past the joins ends."""
        for k in range(2, BEYOND):
            gap = at + way * k
            if line.posts[gap % n] in tied:
                return k
        return BEYOND

    first, last = start - beyond(start, -1) + 1, start + (end - start) % n + beyond(end, 1)
    posts = {line.posts[k % n] for k in range(first, min(last, first + n - 1) + 1)}
    found = set(posts)
    for run in line.runs:
        if run.before in posts and run.after in posts:
            found.update(run.chains)
    for post, stack in line.stacks.items():
        if post in posts:
            found.update(stack)
    for anchor, elements in line.hanging:
        if anchor in found:
            found.update(elements)
    return found


def _touch(a: list[Capsule], b: list[Capsule]) -> bool:
    return any(closest(one, other)[2] < one[4] + other[4] for one in a for other in b if _near_each_other(one, other))


def _near_each_other(a: Capsule, b: Capsule) -> bool:
    return abs(a[0] + a[2] - b[0] - b[2]) < 30 and abs(a[1] + a[3] - b[1] - b[3]) < 30


def _way_out(chart: Chart, own: Placed, line: Line, e: int, at: Point) -> Point:
    """Which way another piece lies: outwards; for what a row begins or ends with, off its side."""
    run = line.runs[line.run_of[e]]
    if own.form != "rows" or (run.before is None) == (run.after is None):
        return _out(chart, own, at)
    way = 1.0 if line.rightwards == (run.after is None) else -1.0
    return _paper(chart, (way, 0.0))


def _plain_loop(chart: Chart, at: Point, out: Point) -> None:
    """A loop of a piece whose edge cannot be told: a grey arc over the joining stitch."""
    ox, oy = out
    ux, uy = -oy, ox
    far, near = 1.9, 0.85
    ends = [(sign * LOOP_MM * ux + far * ox, sign * LOOP_MM * uy + far * oy) for sign in (-1, 1)]
    bends = [(sign * LOOP_MM * 0.55 * ux + near * ox, sign * LOOP_MM * 0.55 * uy + near * oy) for sign in (-1, 1)]
    shape = Ink().curve(ends[0], bends[0], bends[1], ends[1]).shape()
    chart.others |= {"where another piece is joined": None}
    chart.ghosts.append(Ghost(shape, at[0], at[1], 0.0))
