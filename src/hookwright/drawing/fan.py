"""Flat pieces that grow like a fan (half rounds, crescents, half motifs): their rows are laid on arcs round the place they begin at.
So are yokes, which begin on a long chain and grow at several lines away from their edges.

Such a piece is worked to and fro and still grows by more than straight rows can take up; drawn with straight rows its outer stitches would
lie down. Rows run on arcs of one angle, so wide that each row has room; the piece opens upwards.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import accumulate, pairwise

from ..working.fabric import How
from .arcs import Oval, Point
from .cloth import Line, between
from .levels import LOWEST
from .placed import Placed
from .rows import same_foot, skips_nothing
from .spacing import FAR, half_width, least, pitch_of, settle
from .symbols import CHAIN_HALF_MM, height_mm

LEAST_ANGLE = 1.9
"""Radians: the angle that a piece must grow by before it is drawn as a fan; below it straight rows do."""
MOST_ANGLE = 5.4
FEWEST_ROWS = 2
LONGEST_HEART = 12
"""Chains that a fan may begin on."""
MOSTLY = 0.7
"""Of a row's growth, in at least three places far apart: then the row is an arc."""
YOKE_INNER, YOKE_PLACES = 0.6, 2
"""Of a yoke's growth so much, in so many places, lies away from its edges (a triangle grows at its edges and its one spine) …"""
LONGEST_CORNER = 3
"""Chains between the increases of a yoke at most."""
EDGE_SHARE = 0.06
"""… that is, further in than this share of the row."""
NARROWED = 1.1
PINNED = 0.9
"""A row that needs so much of its arc reaches from edge to edge; one that needs less has narrowed and stands over what it stands on."""
RING_CHAIN_MM = 3.0
HEART_MM = 1.6
"""From the centre to the foot of the first row, when it is worked into one place."""


def grows_like_a_fan(lines: Sequence[Line]) -> bool:
    """Whether a part worked in rows grows by so much, steadily and from one row to the next, that it must be laid on arcs."""
    rows = [line for line in lines if line.posts and not line.foundation]
    if len(rows) < FEWEST_ROWS or any(line.row.made_in != "rows" or line.past for line in rows):
        return False
    if (lines[0].foundation and len(lines[0]) > LONGEST_HEART) or not all(_on_the_row_below(line) for line in rows):
        return False
    if not lines[0].foundation and len(rows[0].posts) > LONGEST_HEART and not in_a_ring(rows):
        return False  # begun wide: rows that are abridged away would make it seem to grow
    if any(foot.line < 0 and foot.how != How.RING for post in rows[0].posts for foot in rows[0].feet[post]):
        return False  # it stands on another piece's edge
    wide = [_length(line, pitch_of(sorted(set(line.kinds)))) for line in rows]
    tall = [_mean_height(line) for line in rows]
    most = max(range(len(rows)), key=lambda k: wide[k])
    if most < FEWEST_ROWS and len(rows) > most + 1:
        return False  # an edging worked sideways: every other row is the wider
    return most >= 1 and wide[most] > LEAST_ANGLE * sum(tall[: most + 1]) and _spread_out(rows[: most + 1])


def grows_like_a_yoke(lines: Sequence[Line]) -> bool:
    """Whether a part worked in rows on a long chain grows, mostly away from its edges, by so much that it must be laid on arcs."""
    rows = yoke_of(lines)
    if len(rows) < 1 + FEWEST_ROWS or not lines[0].foundation or len(lines[0]) <= LONGEST_HEART:
        return False
    if any(line.row.made_in != "rows" or line.past for line in rows) or not all(_on_the_row_below(line) for line in rows):
        return False
    if any(len(run.chains) > LONGEST_CORNER for line in rows for run in line.runs) or any(
        len(b.posts) <= len(a.posts) for a, b in pairwise(rows[-3:])
    ):
        return False  # a net wants room, its rows grow by no stitch
    pitch = pitch_of(sorted({kind for line in rows for kind in line.kinds}))
    if growth(rows, pitch) < LEAST_ANGLE:
        return False
    grown = sum(_grows_inside(line, below, pitch) for below, line in pairwise(rows))
    return grown * 2 >= len(rows) - 1


def yoke_of(lines: Sequence[Line]) -> list[Line]:
    """The rows up to the widest: what follows a yoke (a body, after the sleeves are left) grows no more."""
    rows = [line for line in lines if line.posts and not line.foundation]
    most = max(range(len(rows)), key=lambda k: (len(rows[k].posts), -k), default=-1)
    return rows[: most + 1]


def growth(rows: Sequence[Line], pitch: float) -> float:
    """By how much rows grow for their height: the angle, in radians, of the arcs they lie on with nothing drawn out."""
    if len(rows) < FEWEST_ROWS:
        return 0.0
    return (_length(rows[-1], pitch) - _length(rows[0], pitch)) / sum(_mean_height(line) for line in rows[1:])


def _grows_inside(line: Line, below: Line, pitch: float) -> bool:
    """Whether most of what a row needs more than the one below is needed in several places away from its edges."""
    more = _more(line, below, pitch)
    edge = max(EDGE_SHARE * len(more), 2)
    inner = [k for k, each in enumerate(more) if each > 0.3 and edge <= k < len(more) - edge]
    need = sum(each for each in more if each > 0.3)
    apart = sum(b - a > edge for a, b in pairwise(inner)) + 1
    return bool(inner) and apart >= YOKE_PLACES and sum(more[k] for k in inner) >= YOKE_INNER * need


def _on_the_row_below(line: Line) -> bool:
    """Whether everything in a row stands on the row right below it."""
    return all(foot.line in (line.index - 1, -1) for post in line.posts for foot in line.feet[post])


def _spread_out(rows: Sequence[Line]) -> bool:
    """Whether the growth is spread over the rows' length, not heaped at a few points as in a shawl with a spine or a plain triangle."""
    pitch = pitch_of(sorted({kind for line in rows for kind in line.kinds}))
    grown = sum(_grows_all_along(line, below, pitch) for below, line in pairwise(rows))
    return grown * 2 >= max(len(rows) - 1, 1)


def _more(line: Line, below: Line, pitch: float) -> list[float]:
    """How much further apart neighbours of a row stand than what they stand on, mm, from left to right; empty where that is not known."""
    under = dict(zip(_order(below), accumulate([0.0, *_gaps(below, pitch)]), strict=True))
    here = list(accumulate([0.0, *_gaps(line, pitch)]))
    feet = [_over(line.feet[post][0].at, under) if line.feet[post] else [] for post in _order(line)]
    stands = [(x, sum(over) / len(over)) for x, over in zip(here, feet, strict=True) if over]
    if len(stands) < 4:
        return []
    return [(stands[k + 1][0] - stands[k][0]) - (stands[k + 1][1] - stands[k][1]) for k in range(len(stands) - 1)]


def _grows_all_along(line: Line, below: Line, pitch: float) -> bool:
    """Whether what a row needs more than the one below is needed in many places between its edges."""
    more = _more(line, below, pitch)
    need = sum(each for each in more if each > 0.3)
    top = sorted((k for k, each in enumerate(more) if each > 0.3), key=lambda k: -more[k])
    few, got = 0, 0.0
    while few < len(top) and got < MOSTLY * need:
        got += more[top[few]]
        few += 1
    used = top[:few]
    return few >= 3 and max(used) - min(used) > 0.6 * (len(more) - 1)


def _mean_height(line: Line) -> float:
    return sum(height_mm(line.kinds[post]) for post in line.posts) / len(line.posts)


def _gaps(line: Line, pitch: float) -> list[float]:
    """Least distances of neighbours from left to right."""
    posts = _order(line)
    chains = between(line)
    return [
        least(
            line.kinds[a],
            line.kinds[b],
            chains.get((a, b), 0) or chains.get((b, a), 0),
            pitch,
            fan=same_foot(line, a, b),
            apart=not skips_nothing(line, a, b),
        )
        for a, b in pairwise(posts)
    ]


def _order(line: Line) -> list[int]:
    return line.posts if line.rightwards else line.posts[::-1]


def _length(line: Line, pitch: float) -> float:
    return sum(_gaps(line, pitch))


def place_fan(lines: list[Line]) -> Placed:
    """Lay the rows on arcs round the middle of the foundation."""
    pitch = pitch_of([kind for line in lines for kind in set(line.kinds)])

    def out(p: Point) -> Point:
        far = math.hypot(*p)
        return (p[0] / far, p[1] / far) if far > 1e-9 else (0.0, 1.0)

    placed = Placed(lines=lines, pitch=pitch, form="fan", out=out)
    rows = [line for line in lines if line.posts and not line.foundation]
    heart = _heart(lines, rows, pitch)
    placed.ring_mm = heart
    radius = _radii(lines, rows, pitch, heart)
    angle = min(max(_length(line, pitch) / radius[line.index] for line in rows), MOST_ANGLE)
    turn: list[dict[int, float]] = []
    for line in lines:
        turn.append({})
        if line.foundation or not line.posts:
            _lay_heart(placed, line, angle, radius[line.index])
            if len(line) > LONGEST_HEART:
                turn[-1] = {e: angle * ((e + 0.5) / len(line) - 0.5) for e in range(len(line))}
        else:
            turn[-1] = _turns(line, turn, angle, radius[line.index], pitch)
            _stand(placed, line, turn[-1], radius[line.index])
        placed.place_the_rest(line)
    return placed


def in_a_ring(rows: Sequence[Line]) -> bool:
    """Whether the first row is worked into a ring."""
    first = next((line for line in rows if line.posts and not line.foundation), None)
    return first is not None and any(foot.how == How.RING for post in first.posts for foot in first.feet[post])


def _heart(lines: Sequence[Line], rows: Sequence[Line], pitch: float) -> float:
    """How far from the centre the first row stands."""
    if lines[0].foundation and len(lines[0]) > LONGEST_HEART:
        return len(lines[0]) * pitch / min(growth(yoke_of(lines), pitch), MOST_ANGLE)
    chains = len(lines[0]) if lines[0].foundation else 1
    if not in_a_ring(rows):
        return HEART_MM + (chains - 1) * 0.9
    return max(HEART_MM, (chains * RING_CHAIN_MM) / (2 * math.pi) + CHAIN_HALF_MM + 0.2) if chains > 2 else HEART_MM


def _radii(lines: Sequence[Line], rows: Sequence[Line], pitch: float, heart: float) -> list[float]:
    """How far out the tops of each row lie."""
    at, out = heart, []
    for line in lines:
        if line.posts and not line.foundation:
            natural = at + _mean_height(line)
            at = max(natural, min(_length(line, pitch) / MOST_ANGLE, natural * 1.4))
        out.append(at)
    return out


def _lay_heart(placed: Placed, line: Line, angle: float, radius: float) -> None:
    """The foundation: one chain at the centre, or a small arc of them."""
    n = len(line)
    if n > 2 and in_a_ring(placed.lines):
        far = placed.ring_mm - CHAIN_HALF_MM - 0.2
        for e in range(n):
            t = -math.pi / 2 + 2 * math.pi * (e + 0.5) / n
            placed.set_chain(line, e, Oval(far * math.cos(t), far * math.sin(t), math.degrees(t) + 90, RING_CHAIN_MM - 0.4))
        return
    if n == 1:
        placed.set_chain(line, 0, Oval(0.0, -CHAIN_HALF_MM, 0.0, 2.6))
        placed.top[line.index][0] = (0.0, 0.0)
        return
    far = max(radius - CHAIN_HALF_MM, n * 2.6 / angle)
    for e in range(n):
        t = math.pi / 2 + angle * (0.5 - (e + 0.5) / n)
        placed.set_chain(line, e, Oval(far * math.cos(t), far * math.sin(t), math.degrees(t) - 90, min(3.0, angle * far / n - 0.3)))


def _turns(line: Line, turn: list[dict[int, float]], angle: float, radius: float, pitch: float) -> dict[int, float]:
    """Direction of every post, from the upright, to the right: over the middle of its feet, the first row evenly."""
    posts = _order(line)
    gaps = _gaps(line, pitch)
    if len(turn) < 2 or not turn[-2]:
        whole = sum(gaps) or 1.0
        at, out = -angle / 2, {}
        for post, gap in zip(posts, [*gaps, 0.0], strict=True):
            out[post] = at
            at += angle * gap / whole
        return out
    below = turn[line.index - 1]
    raw = []
    for post in posts:
        feet = [t for foot in line.feet[post] if foot.line >= 0 for t in _over(placed_line=foot.at, below=below)]
        raw.append(sum(feet) / len(feet) if feet else None)
    wanted = [t if t is not None else (-angle / 2 if k * 2 < len(raw) else angle / 2) for k, t in enumerate(raw)]
    share = min(1.0, angle * radius / (sum(gaps) or 1.0))
    tight = [gap * share for gap in gaps]
    weights = [1.0] * len(posts)
    even, pull = [angle * radius * gap / (sum(gaps) or 1.0) if gap < FAR else FAR for gap in gaps], 1.5
    if sum(gaps) > PINNED * angle * radius or wanted[-1] - wanted[0] > PINNED * angle:
        weights[0] = weights[-1] = 300.0
        wanted[0], wanted[-1] = -angle / 2, angle / 2
    else:
        even, pull = [gap * NARROWED for gap in gaps], 20.0
    at_mm = settle([t * radius for t in wanted], tight, even, weights, pull=pull, push=pull)
    return {post: x / radius for post, x in zip(posts, at_mm, strict=True)}


def _over(placed_line: int, below: dict[int, float]) -> list[float]:
    """The direction of a place of the row below; for a chain between its neighbours' directions."""
    if placed_line in below:
        return [below[placed_line]]
    before = [e for e in below if e < placed_line]
    after = [e for e in below if e > placed_line]
    return [below[max(before)], below[min(after)]] if before and after else []


def _stand(placed: Placed, line: Line, turn: dict[int, float], radius: float) -> None:
    """Feet and tops of a row, then everything that follows from them."""
    i = line.index
    for post in line.posts:
        t = math.pi / 2 - turn[post]
        points = tuple(p for foot in line.feet[post] if (p := placed.foot_point(line, post, foot)) is not None)
        if not points or any(foot.how == How.RING for foot in line.feet[post]):
            near = placed.ring_mm if line.feet[post] else max(radius - height_mm(line.kinds[post]), HEART_MM)
            points = ((near * math.cos(t), near * math.sin(t)),)
        foot = sum(math.hypot(*p) for p in points) / len(points)
        far = min(radius, foot + 1.5 * height_mm(line.kinds[post]))
        far = max(far, foot + LOWEST * height_mm(line.kinds[post]))
        placed.feet[i][post] = points
        placed.top[i][post] = (far * math.cos(t), far * math.sin(t))
    placed.finish_line(line)


def start_of_row(placed: Placed, line: Line) -> tuple[Point, Point] | None:
    """Where a row of a fan begins: the middle of its first stitch's edge, and the direction it runs in."""
    first = line.posts[0]
    top, feet = placed.top[line.index][first], placed.feet[line.index].get(first)
    if top is None or not feet:
        return None
    x, y = (top[0] + feet[0][0]) / 2, (top[1] + feet[0][1]) / 2
    ox, oy = placed.out(top)
    way = (oy, -ox) if line.rightwards else (-oy, ox)
    stack = [placed.ovals[line.index][e] for e in line.stacks.get(first, ()) if e in placed.ovals[line.index]]
    beside = max(
        [half_width(line.kinds[first]) + 0.5, *((x - oval.x) * way[0] + (y - oval.y) * way[1] + CHAIN_HALF_MM + 0.6 for oval in stack)]
    )
    return (x - way[0] * beside, y - way[1] * beside), way
