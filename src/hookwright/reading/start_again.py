"""A starting chain told what it counts as where it is first made ("ch 4, to count as 1 d c and ch 1"): so it counts before that stitch in
the later rows of the piece, which do not tell it again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern import Aside, Chain, Choice, Colour, Join, Make, Place, Repeat, Row, Skip, Step, Together, Turn, slips


def start_again(rows: Sequence[Row]) -> list[Row]:
    """The rows of a piece, starting chains of a length that an earlier row told of told as well, where the same stitch comes next.

    Chains of a stitch alone are left to custom, but where that stitch is no such one as came next ("ch 4 (counts as tr), 3 dc in ring");
    those that a round is joined to the top of are all one stitch.
    """
    told: dict[int, tuple[tuple[str, ...], str | None]] = {}
    out: list[Row] = []
    for row in rows:
        at = _start(row.steps)
        chain = row.steps[at] if at is not None else None
        if at is None or not isinstance(chain, Chain) or chain.number.many:
            out.append(row)
            continue
        chains = chain.number.values[0] or 0
        after = _next_stitch(row.steps[at + 1 :])
        if chain.stands_for:
            told.setdefault(chains, (chain.stands_for, after))
        stands, before = told.get(chains, ((), None))
        untold = not chain.stands_for and chain.counts is None and not chain.foundation
        over = len(stands) > 1 and after == stands[0] and not _joined_to_top(row.steps)
        alone = len(stands) == 1 and after is not None and after == before != stands[0] and not _joined_below(row.steps)
        if untold and (over or alone):
            row = replace(row, steps=(*row.steps[:at], replace(chain, counts=True, stands_for=stands), *row.steps[at + 1 :]))
        out.append(row)
    return out


def _start(steps: Sequence[Step]) -> int | None:
    """Where the chain stands that a row, or a piece in a ring, begins with."""
    for k, step in enumerate(steps):
        if isinstance(step, Chain) and not step.foundation:
            return k
        if isinstance(step, (Make, Together, Repeat, Choice, Skip)) and not slips(step):
            return None
    return None


def _next_stitch(steps: Sequence[Step]) -> str | None:
    step = next((step for step in steps if not isinstance(step, (Aside, Colour, Turn, Skip))), None)
    if isinstance(step, Choice):
        return _next_stitch(step.answers[0])
    if isinstance(step, (Repeat, Together)):
        return _next_stitch(step.body)
    return step.stitch if isinstance(step, Make) else None


def _joined_to_top(steps: Sequence[Step]) -> bool:
    return (to := _joined_to(steps)) is not None and to.nth is None


def _joined_below(steps: Sequence[Step]) -> bool:
    """ "Join in 3rd ch of ch-4": the rest of the chain is a loop."""
    return (to := _joined_to(steps)) is not None and to.nth is not None


def _joined_to(steps: Sequence[Step]) -> Place | None:
    join = next((step for step in reversed(steps) if isinstance(step, Join)), None)
    return join.to if join is not None and join.to is not None and join.to.where == "named" else None
