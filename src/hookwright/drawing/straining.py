"""How far the stitches of rows lean, and the chain below them giving way where its first row is wider in places than it is."""

from __future__ import annotations

from itertools import pairwise

from ..working.fabric import How
from .cloth import Foot, Line
from .placed import Placed
from .spacing import CUT_MM, spread
from .symbols import height_mm, post_of


def foot_x(placed: Placed, line: Line, post: int, foot: Foot, x: list[list[float]]) -> float | None:
    if foot.line < 0:
        return 0.0 if foot.how == How.RING else None
    run = placed.space_of(foot)
    row = x[foot.line]
    over = over_the_cut(placed, line, post, foot)
    if run is not None:
        return placed.seat_x(line, post, foot.line, run, row) + over
    if foot.how == How.BETWEEN:
        after = next((p for p in placed.lines[foot.line].posts if p > foot.at), None)
        return (row[foot.at] + row[after]) / 2 + over if after is not None else row[foot.at] + over
    return row[foot.at] + over


def over_the_cut(placed: Placed, line: Line, post: int, foot: Foot) -> float:
    """How far nearer, mm along the row, a stitch stands to its foot beyond a cut than is drawn: the cut itself stays free of its leg."""
    if not line.past or foot.line < 0:
        return 0.0
    return (line.past[post] - placed.lines[foot.line].past[foot.at]) * CUT_MM


def over_the_break(placed: Placed, line: Line, foot: Foot) -> float:
    """The same upwards, where rows are left out between a stitch and its foot."""
    return placed.break_room(placed.lines[foot.line], line) if foot.line >= 0 else 0.0


def crossing_posts(line: Line, row: list[float], x: list[list[float]]) -> set[int]:
    """Posts whose feet stand in another order than their tops: they cross."""
    stands = [
        (post, x[feet[0].line][feet[0].at]) for post in line.posts if (feet := line.feet[post]) and len(feet) == 1 and feet[0].line >= 0
    ]
    found: set[int] = set()
    for (a, at), (b, there) in pairwise(stands):
        if (there - at) * (row[b] - row[a]) < -1e-6:
            found.update((a, b))
    if found:
        for i, (a, at) in enumerate(stands):
            for b, there in stands[i + 1 : i + 12]:
                if (there - at) * (row[b] - row[a]) < -1e-6:
                    found.update((a, b))
    return found


def worst_lean(placed: Placed, x: list[list[float]]) -> float:
    """How far, in heights of its stitch, a stitch that crosses no other leans at worst."""
    worst = 0.0
    for line in placed.lines:
        crossing = crossing_posts(line, x[line.index], [x[k] for k in range(line.index + 1)])
        for post in line.posts:
            if len(line.feet[post]) == 1 and post not in crossing and not post_of(line.kinds[post]):
                at = foot_x(placed, line, post, line.feet[post][0], x)
                if at is not None:
                    worst = max(worst, abs(x[line.index][post] - at) / height_mm(line.kinds[post]))
    return worst


def stretch_chain(placed: Placed, x: list[list[float]], above: dict[int, list[tuple[int, int]]]) -> None:
    """Let the chain that a piece begins with lie where its first row needs it, when that row is far wider in places than the chain."""
    line = placed.lines[0]
    if line.posts or not line.foundation or not above:
        return
    row = x[0]
    order = sorted((e for e in range(len(row)) if e not in line.hidden), key=lambda e: row[e])
    known = [(i, sum(x[r][p] for r, p in above[e]) / len(above[e])) for i, e in enumerate(order) if e in above]
    wanted = []
    for i in range(len(order)):
        before = [pair for pair in known if pair[0] <= i][-1:]
        after = [pair for pair in known if pair[0] >= i][:1]
        if before and after:
            (a, at), (b, to) = before[0], after[0]
            wanted.append(at if a == b else at + (to - at) * (i - a) / (b - a))
        else:
            a, at = (before or after)[0]
            wanted.append(at + (i - a) * placed.pitch)
    for e, at in zip(order, spread(wanted, [placed.pitch] * (len(order) - 1), [1.0] * len(order)), strict=True):
        row[e] = at
