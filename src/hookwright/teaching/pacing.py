"""How long a shot lasts: stitches at the maker's pace, slowed where they are shown close, and time to speak of what is new.

The figures are ours, from memory of how such films are cut; a maker's own pace (front matter `pace`) goes before the shipped one.
"""

from __future__ import annotations

from collections.abc import Mapping

from ..trade.kinds import base
from ..working import Role, RowWork
from ..yarn.timing import seconds as stitch_seconds
from .actions import Action

CLOSE_STITCHES, CLOSE_LAST, WHOLE_ROW = 12, 4, 18
"""Stitches shown close from the beginning, and before the end; rows up to so many are shown whole (common practice, no source)."""
CLOSE_FACTOR, SLOW = 3.0, 8
"""Hands slowed in a close shot, and for how many stitches of it; the rest of the shot goes at the maker's pace (from memory)."""
DOING_S = 10.0
"""For each thing done behind a row (eyes set in, a first handful of stuffing), shown once (from memory)."""
AGAIN_S = 5.0
"""For each action shown once more at speed in the shot that shows another close (ours)."""
TALK_S, SPEED_MOST_S, SKIP_S, LINE_S = 6.0, 60.0, 5.0, 3.0
"""Talk for a new action; the longest stretch at speed; a skip and each further line of its card (from memory)."""
OPENING_S, MATERIALS_S, GAUGE_S, ENDING_S = 12.0, 15.0, 12.0, 12.0
FINISHING_S = {"ends": 45.0, "blocking": 20.0, "seam": 60.0, "fringe": 50.0, "tassel": 90.0, "pompom": 90.0, "cord": 60.0, "button": 45.0}
FINISHING_OTHER_S = 45.0


def row_seconds(row: RowWork, pace: Mapping[str, float]) -> float:
    """Seconds that a whole row takes at the maker's pace."""
    return sum(stitch_seconds(base(kind), pace) * number for kind, number in row.counted.made.items()) + _chain_seconds(row, pace)


def _chain_seconds(row: RowWork, pace: Mapping[str, float]) -> float:
    chains = sum(role in (Role.START, Role.START_TOP, Role.CHAIN) for role in row.stitches.role)
    return chains * stitch_seconds("ch", pace) if "ch" not in row.counted.made else 0.0


def frame_of(row: RowWork, new: tuple[Action, ...]) -> tuple[str, int]:
    """How much of a row is on camera in a close shot, in words, and how many stitches that is."""
    total = row.counted.total
    if new and all(action.at > 0.8 for action in new):
        few = min(CLOSE_LAST, total)
        return f"the last {few} stitches and what follows", few
    if total <= WHOLE_ROW:
        return ("the whole round" if _round(row) else "the whole row"), total
    late = any(action.at > 0.8 for action in new)
    middle = any(0.3 < action.at <= 0.8 for action in new)
    first = CLOSE_STITCHES + (CLOSE_STITCHES if middle and total > 3 * CLOSE_STITCHES else 0)
    if late:
        return f"the first {first} stitches, a cut, the last {CLOSE_LAST}", first + CLOSE_LAST
    return f"the first {first} stitches, then a cut to the end", first


def _round(row: RowWork) -> bool:
    return row.made_in not in ("rows", "passes")


def close_seconds(row: RowWork, stitches: int, new: int, pace: Mapping[str, float]) -> float:
    """A close shot: so many of the row's stitches, slowed, and talk for each new action."""
    each = row_seconds(row, pace) / max(row.counted.total, 1)
    slow = min(stitches, SLOW)
    return round((slow * CLOSE_FACTOR + stitches - slow) * each + TALK_S * new, 1)


def speed_seconds(row: RowWork, pace: Mapping[str, float]) -> float:
    return round(min(max(row_seconds(row, pace), 6.0), SPEED_MOST_S), 1)
