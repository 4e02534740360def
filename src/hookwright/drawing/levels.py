"""How high the stitches of a row stand: level where publishers keep rows level, domed over shells, lowered and raised at the edges."""

from __future__ import annotations

import math

from .arcs import Point
from .cloth import Foot, Line
from .placed import Placed
from .slants import low_end
from .spacing import LOW
from .symbols import CHAIN_HALF_MM, height_mm, plain

LOWEST = 0.55
"""A leaning symbol rises at least this share of its height."""
SHELL = 4
"""From so many stitches in one place on, a row rises and falls over them; below that it stays level, and what leans is drawn longer."""
DEVIATION = 1.3
"""How far, in heights of its tallest stitch, a row may rise and fall before it is flattened."""
HALF_SHELL = 0.25
"""The same for three that lean to one side by so much of their height on average."""
STRAIGHT_MM = 0.6
"""A run of chains that bows no more lies straight."""
OVER_THE_ARCS_MM = 2.4
"""The edge stitch of a net stands so far above the low stitch beside it: halfway up the arc between them …"""
LOWEST_EDGE = 0.45
"""… but no lower than this share of its height."""
LONGEST_EDGE = 1.45
"""How much longer than natural half a slanting shell at an edge may be drawn."""


def domed_posts(line: Line, row: list[float], points: dict[int, tuple[Point, ...]]) -> set[int]:
    """Stitches of shells: they spread from one place at their own height, and the row rises over them.

    At an edge half a shell leans outwards or inwards as a whole.
    """
    fans: dict[tuple[Foot, ...], list[int]] = {}
    for post in points:
        if len(line.feet[post]) == 1:
            fans.setdefault(line.feet[post], []).append(post)
    domed: set[int] = set()
    for posts in fans.values():
        lean = abs(sum(row[post] - points[post][0][0] for post in posts)) / len(posts)
        if len(posts) >= SHELL or (len(posts) == SHELL - 1 and lean > HALF_SHELL * height_mm(line.kinds[posts[1]])):
            domed.update(posts)
    return domed


def standing_level(placed: Placed, foot: Foot, y: float) -> float:
    """The level that the height of a stitch is counted from: over chains that lie straight, that of the stitches they hang between.

    So a mesh filled with stitches is as high as its neighbours.
    """
    if foot.line < 0:
        return y
    below = placed.lines[foot.line]
    run = below.runs[below.run_of[foot.at]] if foot.at in below.run_of else None
    if run is None or run.before is None or run.after is None:
        return y
    p, q = placed.top[foot.line][run.before], placed.top[foot.line][run.after]
    return (p[1] + q[1]) / 2 if p and q and abs(y - CHAIN_HALF_MM - (p[1] + q[1]) / 2) < STRAIGHT_MM else y


def rise_of(tall: float, lean: float, lowest: float) -> float:
    """How far a leaning symbol rises when it keeps its length; at least `lowest` of it."""
    return math.sqrt(max(tall * tall - lean * lean, (lowest * tall) ** 2))


def levelled_tops(
    line: Line, heights: dict[int, float], row: list[float], placed: Placed, rise: dict[int, float] | None
) -> dict[int, float]:
    """Tops with great rises and falls flattened a little, so that columns of tall stitches do not tear the chart apart."""
    over = {post: y - rise_at(rise, row[post], placed.pitch) for post, y in heights.items()}
    mean = sum(over.values()) / len(over)
    limit = DEVIATION * max(height_mm(line.kinds[post]) for post in heights)
    out = {}
    for post, y in over.items():
        flat = mean + limit * math.tanh((y - mean) / limit)
        foot = sum(p[1] for p in placed.feet[line.index][post]) / len(placed.feet[line.index][post])
        tall = height_mm(line.kinds[post])
        new = heights[post] - y + flat
        out[post] = max(min(new, foot + 1.7 * tall), min(foot + LOWEST * tall, heights[post]))
    return out


def level_of_deep(line: Line, post: int, known: dict[int, float], placed: Placed) -> float:
    """The top of a stitch worked into a row further down: level with its neighbours in the row."""
    i = line.posts.index(post)
    for step in range(1, len(line.posts)):
        near = [known[line.posts[k]] for k in (i - step, i + step) if 0 <= k < len(line.posts) and line.posts[k] in known]
        if near:
            return sum(near) / len(near)
    below = max(p[1] for p in placed.feet[line.index][post])
    return max(below, ground(placed, line, placed.feet[line.index][post][0][0])) + height_mm(line.kinds[post])


def lower_the_edges(line: Line, tops: dict[int, float], feet: dict[int, tuple[Point, ...]]) -> None:
    """A tall stitch at the edge of a net stands for half an arc: no higher than the arcs beside it rise, however tall its kind."""
    for run in line.runs:
        for edge, inner in ((run.before, run.after), (run.after, run.before)):
            if edge not in (line.posts[0], line.posts[-1]) or edge not in tops or inner not in tops or plain(line.kinds[inner]) not in LOW:
                continue
            foot = sum(p[1] for p in feet[edge]) / len(feet[edge])
            tops[edge] = min(tops[edge], max(tops[inner] + OVER_THE_ARCS_MM, foot + LOWEST_EDGE * height_mm(line.kinds[edge])))


def raise_the_edges(line: Line, tops: dict[int, float], feet: dict[int, tuple[Point, ...]]) -> None:
    """Slanting shells climb higher, row by row, than the half shells at the edges: those are drawn longer, so that the row stays level."""
    if not any(low_end(line, run) is not None for run in line.runs):
        return
    tall = [post for post in tops if plain(line.kinds[post]) not in LOW]
    level = sum(tops[post] for post in tall) / len(tall)
    for end in (line.posts[0], line.posts[-1]):
        group = [post for post in tall if line.feet[post] == line.feet[end]]
        if end in group and tops[end] < level:
            foot = feet[end][0][1]
            share = min((level - foot) / (tops[end] - foot), LONGEST_EDGE)
            tops.update({post: foot + (tops[post] - foot) * share for post in group})


def raise_the_pairs(line: Line, tops: dict[int, float]) -> None:
    """Rows of a low and one or two tall stitches in each place ("(sc, dc) in next st"): the low ones are drawn as tall as the row, or what
    stands on them would lie on the tall ones beside them."""
    groups: dict[tuple[Foot, ...], list[int]] = {}
    for post in line.posts:
        if post in tops and len(line.feet[post]) == 1:
            groups.setdefault(line.feet[post], []).append(post)
    tied = {post for run in line.runs for post in (run.before, run.after)}
    pairs = [
        group
        for group in groups.values()
        if 2 <= len(group) <= 3 and sum(plain(line.kinds[post]) in LOW for post in group) == 1 and not tied.intersection(group)
    ]
    if not pairs or 2 * sum(len(group) for group in pairs) < len(line.posts):
        return
    for group in pairs:
        level = max(tops[post] for post in group)
        tops.update({post: level for post in group if plain(line.kinds[post]) in LOW})
    level = sum(tops[group[0]] for group in pairs) / len(pairs)
    paired = {post for group in pairs for post in group}
    tops.update({post: level for post in tops if post not in paired and plain(line.kinds[post]) in LOW})


def ground(placed: Placed, line: Line, at: float) -> float:
    """The height that a stitch with nothing drawn below it stands on: the foundation beside it, or the top of everything so far."""
    below = placed.top[line.index - 1] if line.index and placed.lines[line.index - 1].foundation else []
    beside = min((point for point in below if point is not None), key=lambda point: abs(point[0] - at), default=None)
    if beside is not None:
        return beside[1]
    ys = [point[1] for tops in placed.top[: line.index] for point in tops if point is not None]
    return max(ys, default=0.0)


def rise_at(rise: dict[int, float] | None, at: float, pitch: float) -> float:
    return 0.0 if rise is None else rise.get(round(at / pitch), 0.0)
