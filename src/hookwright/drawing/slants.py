"""Slanting shells: a low stitch, chains and tall stitches in one place ("(sc, ch 3, 3 dc) in next sp").

The chains stand up between the low stitch and the tall ones, as makers work them and as publishers print them, and the tall ones lean
away. What is worked into such a space stands on the chains' upper end.
"""

from __future__ import annotations

from .arcs import Oval, Point, along
from .cloth import Line, Run
from .spacing import LOW
from .symbols import height_mm, plain

FEWEST, MOST = 2, 5
"""Chains that stand between a low stitch and a tall one."""
ROOM_MM = 2.8
"""From the low stitch to the first tall one."""
ASIDE_MM = 1.4
"""The low stitch stands so far from their common foot, on the side away from the tall ones."""
OVER_MM = 0.5
"""The chains end so far above the tall stitch's bar."""


def low_end(line: Line, run: Run) -> int | None:
    """The low stitch that a run of chains stands up from; None when the run lies between its ends as usual."""
    a, b = run.before, run.after
    if a is None or b is None or not FEWEST <= len(run.chains) <= MOST or len(line.feet[a]) != 1 or line.feet[a] != line.feet[b]:
        return None
    low = [post for post in (a, b) if plain(line.kinds[post]) in LOW]
    return low[0] if len(low) == 1 and height_mm(line.kinds[b if low[0] == a else a]) > 4.4 else None


def standing_chains(line: Line, run: Run, low: int, low_top: Point, tall_top: Point) -> list[Oval]:
    """The chains of such a run, in worked order, from beside the low stitch up to the tall one's bar."""
    way = 1.0 if tall_top[0] > low_top[0] else -1.0
    foot = (low_top[0] + way * 0.5, low_top[1] - 0.2)
    head = (tall_top[0] - way * 1.75, tall_top[1] + OVER_MM)
    ovals = along(foot, head, len(run.chains), (-way, 0.0), size=min(3.0, 2.2))
    return ovals if low == run.before else ovals[::-1]


def upper_end(ovals: list[Oval]) -> Point:
    """What stands in the space stands here."""
    top = max(ovals, key=lambda oval: oval.y)
    return top.x, top.y + top.length / 2
