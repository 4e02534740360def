"""Placing rows worked to and fro: row above row, every post over what it stands on, as a publisher sets a flat chart.

Two passes: along (x; up the piece, down, and up again, so that a wide row above can spread the one below) and upwards (y; a stitch is
as tall as its kind, so shells and waves rise and fall and the next row stands in them).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from ..working.fabric import How
from .arcs import Oval, Point, loop_radius
from .cloth import Foot, Line, between, walked_backwards
from .levels import (
    LOWEST,
    SHELL,
    domed_posts,
    ground,
    level_of_deep,
    levelled_tops,
    lower_the_edges,
    raise_the_edges,
    raise_the_pairs,
    rise_at,
    rise_of,
    standing_level,
)
from .placed import Placed
from .side_edges import lay_sides, side_posts
from .slants import ASIDE_MM, ROOM_MM, low_end
from .spacing import BREAK_ROWS_MM, CUT_MM, FAR, LOW, least, natural, pitch_of, settle
from .straining import crossing_posts, foot_x, over_the_break, over_the_cut, stretch_chain, worst_lean
from .symbols import CHAIN_HALF_MM, CHAIN_MM, height_mm, plain, post_of

PLAIN_WEIGHT = 12.0
"""How much more a plain stitch keeps its column than an increase or a together-stitch does: straight edges stay straight."""
EDGE_WEIGHT = 400.0
"""The same for the first and last stitch of a row that finds room enough between its edges."""
WIDEST_FAN = 1.2
"""Radians: the stitches of a shell lean no further than this from the upright."""
LOWEST_FAN = 0.36
"""… and rise at least this share of their height."""
ANEW_MM = 4.0
"""A chain made anew in the middle of a part lies so far above what was worked before."""
BEFORE_THE_FIRST = 1.5
"""Chains that a row begins with arch over to its first stitch: none lies further out than so many stitches."""
RIPPLE_PASSES = 6
"""How often the rows of a ripple settle between those below and above: its first rows must find the wave of the later ones."""
MOST_LEAN, STRAINED_PASSES = 1.3, 8
"""Where stitches lean by more of their height once the rows have settled, the rows settle so often, and the chain below gives way too."""
NOTHING = Foot(-1, -1, How.TOP)
"""What a stitch stands on when nothing is drawn below it."""
YIELDING = 0.3
"""The weight of an edge stitch that gives way to the group beside it."""
NEAR_THE_EDGE = 5
"""So many stitches from an edge are looked at for such a group."""
BETWEEN_PICOTS_MM = 0.3
STEEPNESS = 1.0
"""A crossing stitch rises at least this much for each millimetre it leans."""
MOST_LIFT_MM = 12.0


@dataclass(slots=True)
class Spacing:
    """The posts of a line from left to right, with least and easy distances and weights."""

    posts: list[int]
    gaps: list[float]
    easy: list[float]
    weights: list[float]
    shells: list[list[int]]
    """Groups of SHELL and more in one place."""


def place_rows(lines: list[Line]) -> Placed:
    """Place a part worked in rows (or any part cut open and laid flat)."""
    pitch = pitch_of([kind for line in lines for kind in set(line.kinds)])
    placed = Placed(lines=lines, pitch=pitch, form="rows", out=lambda _: (0.0, 1.0))
    sides = side_posts(lines)
    widths = [_spacing(placed, line, sides[line.index]) for line in lines]
    x = _along(placed, widths)
    rise = _wave(placed, x)
    for line in lines:
        _upwards(placed, line, x, rise, widths[line.index], sides[line.index])
        if sides[line.index]:
            lay_sides(placed, line, sides)
            placed.edging.add(line.index)
        if line.posts:
            placed.finish_line(line)
        placed.place_the_rest(line)
    return placed


def _spacing(placed: Placed, line: Line, side: set[int]) -> Spacing:
    pitch = placed.pitch
    posts = [post for post in (line.posts if line.rightwards else line.posts[::-1]) if post not in side]
    chains = between(line)
    upright = {frozenset((run.before, run.after)) for run in line.runs if low_end(line, run) is not None}
    sharing: dict[tuple[int, int], int] = {}
    for p in posts:
        for foot in line.feet[p]:
            sharing[foot.line, foot.at] = sharing.get((foot.line, foot.at), 0) + 1
    picots = {anchor: sum(line.kinds[e] == "ch" for e in elements) for anchor, elements in line.hanging}
    gaps, easy = [], []
    rippling = _waves(line)
    for a, b in pairwise(posts):
        n = chains.get((a, b), 0) or chains.get((b, a), 0)
        fan = same_foot(line, a, b)
        gap = least(line.kinds[a], line.kinds[b], n, pitch, fan=fan, apart=not skips_nothing(line, a, b))
        if frozenset((a, b)) in upright:
            n, gap = 0, ROOM_MM
        elif fan and n == 0 and sharing[line.feet[a][0].line, line.feet[a][0].at] <= (3 if rippling else 2):
            gap = max(gap, pitch)
        if a in picots and b in picots:
            gap = max(gap, loop_radius(picots[a]) + loop_radius(picots[b]) + 2 * CHAIN_HALF_MM + BETWEEN_PICOTS_MM)
        cut = line.past[b] - line.past[a] if line.past else 0
        gaps.append(gap + cut * CUT_MM)
        easy.append(natural(n, pitch, gap) if skips_nothing(line, a, b) and not cut and not _own_seats(placed, line, a, b) else FAR)
    weights = [_weight(line, p, sharing) for p in posts]
    fans: dict[tuple[Foot, ...], list[int]] = {}
    for p in posts:
        fans.setdefault(line.feet[p], []).append(p)
    shells = [fan for feet, fan in fans.items() if len(feet) == 1 and feet[0].line >= 0 and len(fan) >= SHELL]
    return Spacing(posts, gaps, easy, weights, shells)


def skips_nothing(line: Line, a: int, b: int) -> bool:
    """Whether two posts stand on places next to one another (nothing skipped between): they may be drawn together."""
    ends = [foot.at for foot in line.feet[a] if foot.line >= 0], [foot.at for foot in line.feet[b] if foot.line >= 0]
    if not ends[0] or not ends[1]:
        return True
    return min(abs(x - y) for x in ends[0] for y in ends[1]) <= 1


def _own_seats(placed: Placed, line: Line, a: int, b: int) -> bool:
    """Whether two neighbours keep their own places: one stands in a space and the other does not, or each over a chain of its own."""
    if {foot.how == How.SPACE for post in (a, b) for foot in line.feet[post]} == {True, False}:
        return True
    run = placed.space_of(line.feet[a][0]) if same_foot(line, a, b) else None
    return run is not None and placed.filled(line.feet[a][0].line, run)


def same_foot(line: Line, a: int, b: int) -> bool:
    """Whether two posts are worked into one place (of what is not drawn, nobody can tell)."""
    return len(line.feet[a]) == 1 and line.feet[a] == line.feet[b] and (line.feet[a][0].line >= 0 or line.feet[a][0].how == How.RING)


def _weight(line: Line, post: int, sharing: dict[tuple[int, int], int]) -> float:
    feet = line.feet[post]
    if len(feet) != 1:
        return 1.0
    if sharing[feet[0].line, feet[0].at] == 1:
        return PLAIN_WEIGHT
    return PLAIN_WEIGHT if plain(line.kinds[post]) in LOW and feet[0].how != How.BETWEEN and _alone(line, post) else 1.0


def _alone(line: Line, post: int) -> bool:
    """Whether a low stitch shares its place with taller ones only: it stands upright there and they lean away from it."""
    return not any(other != post and line.feet[other] == line.feet[post] and plain(line.kinds[other]) in LOW for other in line.posts)


def _along(placed: Placed, widths: list[Spacing]) -> list[list[float]]:
    """x of every element, line by line."""
    lines = placed.lines
    x: list[list[float]] = [[0.0] * len(line) for line in lines]
    above: list[dict[int, list[tuple[int, int]]]] = [{} for _ in lines]
    for line in lines:
        for post in line.posts:
            for foot in line.feet[post]:
                if foot.line >= 0:
                    above[foot.line].setdefault(foot.at, []).append((line.index, post))
    moved = False
    for line in lines:
        moved |= _settle_line(placed, line, widths[line.index], x, _wanted(placed, line, widths[line.index], x))
    rippling = sum(_waves(line) for line in lines) * 2 > len(lines)
    slanting = any(low_end(line, run) is not None for line in lines for run in line.runs)
    passes = (RIPPLE_PASSES if rippling else 1) if moved else 0
    k = 0
    while k < passes:
        for line in (line for line in reversed(lines) if line.posts):
            _settle_line(placed, line, widths[line.index], x, _pulled(line, widths[line.index], x, above[line.index]))
        for line in lines:
            if not line.foundation:
                _settle_line(placed, line, widths[line.index], x, _between_both(placed, line, widths[line.index], x))
        k += 1
        if k == 1 and not rippling and not slanting and worst_lean(placed, x) > MOST_LEAN:
            passes = STRAINED_PASSES
            stretch_chain(placed, x, above[0])
    return x


def _settle_line(placed: Placed, line: Line, width: Spacing, x: list[list[float]], wanted: list[float]) -> bool:
    """Settle a line's posts, fill in its chains; answers whether anything had to give way."""
    row = x[line.index]
    if not width.posts:
        if not line.posts:
            _lay_foundation(placed, line, row)
        return False
    weights = list(width.weights)
    if sum(width.gaps) <= wanted[-1] - wanted[0] + 0.1:
        weights[0], weights[-1] = (YIELDING if _crowded(placed, line, width, wanted, end) else EDGE_WEIGHT for end in (0, -1))
    settled = settle(wanted, width.gaps, width.easy, weights)
    for post, at in zip(width.posts, settled, strict=True):
        row[post] = at
    for posts in width.shells:
        _fan_out(placed, line, posts, x)
    _fill(placed, line, row)
    return settled != wanted


def _fan_out(placed: Placed, line: Line, posts: Sequence[int], x: list[list[float]]) -> None:
    """The tops of a shell on an arc round its foot: the distances that settling gave them along the row become distances on the arc."""
    feet = [at for post in posts for foot in line.feet[post] if (at := foot_x(placed, line, post, foot, x)) is not None]
    if not feet or any(plain(line.kinds[post]) in LOW for post in posts):
        return
    row, middle = x[line.index], sum(feet) / len(feet)
    widest = max(abs(row[post] - middle) for post in posts)
    wide = placed.seats_wide(line.feet[posts[0]][0]) / 2
    # Stems whose feet stand apart along a space meet further down: so much flatter is the arc of their tops.
    flatter = widest / max(widest - wide, 0.02 * widest) if widest > 0 else 1.0
    for post in posts:
        radius = max(height_mm(line.kinds[post]), widest / WIDEST_FAN) * flatter
        row[post] = middle + radius * math.sin((row[post] - middle) / radius)


def _crowded(placed: Placed, line: Line, width: Spacing, wanted: list[float], end: int) -> bool:
    """Whether the first row's edge stitch leaves a group beside it too little room: on the chain it may step outwards."""
    posts = width.posts if end == 0 else width.posts[::-1]
    gaps = width.gaps if end == 0 else width.gaps[::-1]
    if len(posts) < 3 or not placed.lines[line.index - 1].foundation or line.feet[posts[0]] == line.feet[posts[1]]:
        return False
    at = wanted if end == 0 else wanted[::-1]
    need = 0.0
    for k in range(1, min(len(posts), NEAR_THE_EDGE)):
        need += gaps[k - 1]
        if line.feet[posts[k]] == line.feet[posts[k - 1]] and need > abs(at[k] - at[0]) + 0.3:
            return True
    return False


def _lay_foundation(placed: Placed, line: Line, row: list[float]) -> None:
    """A line of chains only: from left to right, turned when the row above walks it the other way round than rows do."""
    drawn = [e for e in range(len(row)) if e not in line.hidden]
    if line.foundation and walked_backwards(placed.lines, line):
        drawn.reverse()
    for k, e in enumerate(drawn):
        row[e] = k * placed.pitch + (line.past[e] * CUT_MM if line.past else 0.0)


def _fill(placed: Placed, line: Line, row: list[float]) -> None:
    """x of the elements between and beside the posts."""
    for run in line.runs:
        n = len(run.chains)
        if run.before is not None and run.after is not None:
            a, b = row[run.before], row[run.after]
            for k, e in enumerate(run.chains):
                row[e] = a + (b - a) * (k + 1) / (n + 1)
        else:
            sign = 1.0 if line.rightwards else -1.0
            low = run.after is not None and not line.ledge and plain(line.kinds[run.after]) in LOW
            for k, e in enumerate(run.chains):
                if run.before is not None:
                    row[e] = row[run.before] + sign * (k + 1) * placed.pitch
                else:
                    row[e] = row[line.posts[0]] - sign * (min(n - k, BEFORE_THE_FIRST) if low else n - k) * placed.pitch
    for post, stack in line.stacks.items():
        for e in stack:
            row[e] = row[post]


def _ledge(placed: Placed, line: Line, x: list[list[float]]) -> None:
    """Chains at the beginning of a row that later stitches stand on: outwards from the edge the row begins at."""
    if not line.ledge:
        return
    sign = 1.0 if line.rightwards else -1.0
    edge = x[line.index - 1][_last(placed.lines[line.index - 1])] if line.index else 0.0
    for k, e in enumerate(line.ledge):
        x[line.index][e] = edge - sign * (k + 1) * placed.pitch


def _last(line: Line) -> int:
    return line.posts[-1] if line.posts else len(line) - 1


def _wanted(placed: Placed, line: Line, width: Spacing, x: list[list[float]]) -> list[float]:
    """Where each post would stand: over the middle of its feet."""
    _ledge(placed, line, x)
    raw: list[float | None] = []
    aside = _aside(line)
    for post in width.posts:
        feet = [at for foot in line.feet[post] if (at := foot_x(placed, line, post, foot, x)) is not None]
        raw.append(sum(feet) / len(feet) + aside.get(post, 0.0) if feet else None)
    return _filled(raw, [gap if easy >= FAR else easy for gap, easy in zip(width.gaps, width.easy, strict=True)])


def _aside(line: Line) -> dict[int, float]:
    """How far beside their foot the low stitches of slanting shells stand."""
    way = 1.0 if line.rightwards else -1.0
    found = ((run, low_end(line, run)) for run in line.runs)
    return {low: ASIDE_MM * way * (-1.0 if low == run.before else 1.0) for run, low in found if low is not None}


def _filled(raw: list[float | None], gaps: list[float]) -> list[float]:
    """Posts that stand on nothing drawn take their place from their neighbours."""
    first = next((i for i, at in enumerate(raw) if at is not None), None)
    if not raw:
        return []
    if first is None:
        at, out = 0.0, []
        for gap in [0.0, *gaps]:
            at += gap
            out.append(at)
        return out
    filled = [at if at is not None else 0.0 for at in raw]
    for i in range(first - 1, -1, -1):
        filled[i] = filled[i + 1] - gaps[i]
    for i in range(first + 1, len(raw)):
        if raw[i] is None:
            filled[i] = filled[i - 1] + gaps[i - 1]
    return filled


def _pulled(line: Line, width: Spacing, x: list[list[float]], above: dict[int, list[tuple[int, int]]]) -> list[float]:
    """Where the posts would stand under what stands on them."""
    row = x[line.index]
    wanted = []
    for post in width.posts:
        up = above.get(post, ())
        mean = sum(x[r][p] for r, p in up) / len(up) if up else row[post]
        wanted.append((row[post] + mean) / 2)
    return wanted


def _between_both(placed: Placed, line: Line, width: Spacing, x: list[list[float]]) -> list[float]:
    down = _wanted(placed, line, width, x)
    return [(2 * a + x[line.index][post]) / 3 for a, post in zip(down, width.posts, strict=True)]


def _wave(placed: Placed, x: list[list[float]]) -> dict[int, float] | None:
    """The rise of the first line when the piece is a ripple: row lines square to the leaning stems, as waves are printed."""
    leans: dict[int, list[float]] = {}
    waving = 0
    rows = [line for line in placed.lines if line.posts and not line.foundation]
    for line in rows[:4]:
        waving += _waves(line)
    if not rows or waving < min(len(rows), 4) or len(rows) < 2:
        return None
    base = rows[1]
    for line in rows[1:4]:
        for post in line.posts:
            feet = [at for foot in line.feet[post] if (at := foot_x(placed, line, post, foot, x)) is not None]
            if feet:
                key = round(x[line.index][post] / placed.pitch)
                leans.setdefault(key, []).append((x[line.index][post] - sum(feet) / len(feet)) / height_mm(line.kinds[post]))
    keys = range(min(leans), max(leans) + 1)
    height, rise = 0.0, {}
    for key in keys:
        lean = leans.get(key, [0.0])
        height -= max(-0.6, min(0.6, sum(lean) / len(lean))) * placed.pitch
        rise[key] = height
    drift = (rise[keys[-1]] - rise[keys[0]]) / max(len(rise) - 1, 1)
    flat = {key: value - drift * i for i, (key, value) in enumerate(rise.items())}
    return flat if max(flat.values()) - min(flat.values()) > 0.4 * height_mm(base.kinds[base.posts[0]]) else None


def _waves(line: Line) -> bool:
    """Whether a row both widens in one place and narrows in another, away from its edges: a ripple."""
    inner = line.posts[2:-2]
    seen = [tuple(line.feet[p]) for p in inner]
    widens = sum(1 for a, b in pairwise(seen) if a == b and len(a) == 1)
    narrows = sum(1 for feet in seen if len(feet) > 1)
    skips = sum(1 for a, b in pairwise(seen) if len(a) == len(b) == 1 and abs(a[0].at - b[0].at) > 2)
    plain = sum(1 for a, b in pairwise(seen) if len(a) == len(b) == 1 and abs(a[0].at - b[0].at) == 1)
    return widens >= 2 and narrows + skips >= 1 and 2 * plain >= len(seen) and not line.runs


def _upwards(placed: Placed, line: Line, x: list[list[float]], rise: dict[int, float] | None, width: Spacing, side: set[int]) -> None:
    """y of a line's tops."""
    shells = {post for posts in width.shells for post in posts}
    if not line.posts:
        _lay_base(placed, line, x, rise)
        return
    row, tops = x[line.index], placed.top[line.index]
    while len(placed.break_mm) < line.breaks:
        placed.break_mm.append(BREAK_ROWS_MM + _reach_into(placed, line))
    for e in line.ledge:
        edge = placed.top[line.index - 1][_last(placed.lines[line.index - 1])] if line.index else None
        placed.set_chain(line, e, Oval(row[e], (edge[1] if edge else 0.0) - CHAIN_HALF_MM, 0.0, CHAIN_MM - 0.2))
    crossing = crossing_posts(line, row, [x[k] for k in range(line.index + 1)])
    level_posts = any(not post_of(line.kinds[post]) for post in line.posts)
    deep: list[int] = []
    heights: dict[int, float] = {}
    stood = [post for post in line.posts if post not in side]
    feet = {post: _points(placed, line, post, row) for post in stood}
    placed.feet[line.index] |= feet
    domed = domed_posts(line, row, feet) if rise is None else set(stood)
    fans = [posts for posts in width.shells if not any(plain(line.kinds[post]) in LOW for post in posts)]
    long = {post: length for posts in fans for length in [_radius(posts, row, feet)] for post in posts}
    for post, points in feet.items():
        if post in crossing or _is_deep(line, post) or (level_posts and post_of(line.kinds[post])):
            deep.append(post)
        else:
            on = line.feet[post] if len(line.feet[post]) == len(points) else [NOTHING] * len(points)
            base = sum(_level(placed, line, foot, p[1]) for foot, p in zip(on, points, strict=True)) / len(points)
            fx = sum(p[0] for p in points) / len(points)
            lowest = LOWEST_FAN if post in shells else LOWEST
            tall = max(height_mm(line.kinds[post]), long.get(post, 0.0))
            heights[post] = base + rise_of(tall, row[post] - fx if post in domed else 0.0, lowest)
    levelled = levelled_tops(line, heights, row, placed, rise) if heights else {}
    lower_the_edges(line, levelled, feet)
    raise_the_edges(line, levelled, feet)
    raise_the_pairs(line, levelled)
    levelled |= {post: level_of_deep(line, post, levelled, placed) for post in deep}
    lift = _lift_for_crossings(placed, line, crossing, levelled, row)
    for post in stood:
        tops[post] = (row[post], levelled[post] + lift)


def _reach_into(placed: Placed, line: Line) -> float:
    """How far the rows drawn so far reach up past the lowest foot of a row (shells between shells, the peaks of a ripple)."""
    ys = [p[1] for tops in placed.top[: line.index] for p in tops if p is not None]
    feet = [p[1] for post in line.posts for foot in line.feet[post] if (p := placed.foot_point(line, post, foot)) is not None]
    return max(max(ys) - min(feet), 0.0) if ys and feet else 0.0


def _level(placed: Placed, line: Line, foot: Foot, y: float) -> float:
    lift = over_the_break(placed, line, foot)
    return standing_level(placed, foot, y - lift) + lift


def _radius(posts: Sequence[int], row: list[float], feet: dict[int, tuple[Point, ...]]) -> float:
    """The length of a shell's stitches: so long that the outermost leans no further than WIDEST_FAN."""
    return max((abs(row[post] - p[0]) for post in posts for p in feet.get(post, ())), default=0.0) / math.sin(WIDEST_FAN)


def _points(placed: Placed, line: Line, post: int, row: list[float]) -> tuple[Point, ...]:
    """Where a post stands; on the ground beneath it when what it stands on is not drawn."""
    points = tuple(
        (p[0] + over_the_cut(placed, line, post, foot), p[1] + over_the_break(placed, line, foot))
        for foot in line.feet[post]
        if (p := placed.foot_point(line, post, foot)) is not None
    )
    return points or ((row[post], ground(placed, line, row[post])),)


def _lift_for_crossings(placed: Placed, line: Line, crossing: set[int], levelled: dict[int, float], row: list[float]) -> float:
    """How much taller a row is drawn so that the stitches that cross in it do not lie down."""
    lift = 0.0
    for post in crossing:
        (x, y), *_ = placed.feet[line.index][post]
        lift = max(lift, STEEPNESS * abs(row[post] - x) - (levelled[post] - y))
    return min(lift, MOST_LIFT_MM)


def _is_deep(line: Line, post: int) -> bool:
    """Worked into a row further down than the rest of its row."""
    return any(foot.line < line.index - 1 for foot in line.feet[post]) and line.row.below == line.row.index - 1


def _lay_base(placed: Placed, line: Line, x: list[list[float]], rise: dict[int, float] | None) -> None:
    """A line of chains only: the foundation, or a new one above everything worked so far."""
    ys = [point[1] for tops in placed.top[: line.index] for point in tops if point is not None]
    base = max(ys) + ANEW_MM if ys else 0.0
    for e in range(len(line)):
        if e in line.hidden:
            continue
        at = x[line.index][e]
        up = base + rise_at(rise, at, placed.pitch)
        tilt = rise_at(rise, at + placed.pitch, placed.pitch) - rise_at(rise, at - placed.pitch, placed.pitch)
        angle = math.degrees(math.atan2(tilt, 2 * placed.pitch))
        if line.kinds[e] != "ch":
            placed.set_small(line, e, (at, up))
            continue
        placed.set_chain(line, e, Oval(at, up - CHAIN_HALF_MM, angle, min(CHAIN_MM, placed.pitch - 0.4)))
