"""The chain that a round's first cluster begins with: "3 ch, 2trtog in same st, * 3trtog in next st …". It is a leg of that cluster and
counts for itself no more than the other legs do."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from ..pattern import Aside, Chain, Colour, Make, Repeat, Skip, Step, Together, Turn, slips

_TOG = re.compile(r"(?P<base>\w+?)(?P<n>\d+)tog")


def leg_of_cluster(steps: tuple[Step, ...], fresh: Callable[[], int]) -> tuple[Step, ...]:
    """The steps, the first chain told not to count where it is the missing leg of the first cluster. `fresh` gives ids for new nodes."""
    k = next((k for k, step in enumerate(steps) if not (isinstance(step, (Aside, Colour, Turn)) or slips(step))), None)
    if k is None or k + 1 >= len(steps):
        return steps
    chain, first = steps[k], _legs(steps[k + 1])
    if isinstance(chain, Chain) and chain.counts is None and not chain.foundation and _like_the_others(steps[k + 1], steps[k + 2 :]):
        return (*steps[:k], replace(chain, counts=False), *steps[k + 1 :])
    if (
        not isinstance(chain, Chain)
        or chain.counts is not None
        or chain.foundation
        or first is None
        or not 2 <= (chain.number.values[0] or 0) <= 5
    ):
        return steps
    later = [_legs(inner) for step in steps[k + 2 :] if isinstance(step, Repeat) for inner in step.body]
    cluster = steps[k + 1]
    whole = [inner for step in steps[k + 2 :] if isinstance(step, Repeat) for inner in step.body if isinstance(inner, Make)]
    if whole and whole[0].stitch == "cl" and isinstance(cluster, (Make, Together)) and not any(legs is not None for legs in later):
        return (*steps[:k], replace(chain, counts=False), _as_cluster(cluster), *steps[k + 2 :])
    others = [legs for legs in later if legs is not None and legs[0] in (first[0], "") and legs[1] == first[1] + 1]
    if not others:
        return steps
    if isinstance(cluster, Make) and all(not name for name, _ in others):
        steps = (*steps[: k + 1], replace(cluster, stitch="cl"), *steps[k + 2 :])  # the others are called clusters
    over: tuple[Step, ...] = ()
    if isinstance(cluster, Make) and cluster.at.where == "next":
        over = (Skip(id=fresh(), span=chain.span),)  # over several stitches: the chain stands in the first of them
    return (*steps[:k], replace(chain, counts=False), *over, *steps[k + 1 :])


def _like_the_others(first: Step, others: tuple[Step, ...]) -> bool:
    """ "Ch 3, 2-dc cluster in same st, * ch 3, 3-dc cluster in next st; repeat from *": what the chain begins is a cluster like them."""
    same = isinstance(first, Make) and first.stitch == "cl" and first.closes == 1 and first.at.where == "same"
    units = [step for step in others if isinstance(step, Repeat) and step.times.kind in ("rest", "n", "more")]
    made = [inner for unit in units for inner in unit.body if isinstance(inner, (Make, Together))]
    return same and bool(made) and all(isinstance(one, Make) and one.stitch == "cl" for one in made)


def _as_cluster(step: Make | Together) -> Step:
    """The first cluster of a round whose others are called so ("ch 4, tr2tog in same sp, * ch 5, cl in next sp …")."""
    if isinstance(step, Together):
        return replace(step, body=tuple(replace(one, stitch="cl", closes=1) if isinstance(one, Make) else one for one in step.body))
    return replace(step, stitch="cl", closes=1)


def _legs(step: Step) -> tuple[str, int] | None:
    """The stitch and the number of legs of a cluster, in one place or over several; "" where its stitch is not told."""
    if isinstance(step, Together) and len(step.body) == 1:
        step = step.body[0]
    if not isinstance(step, Make):
        return None
    if step.stitch == "cl" and step.closes > 1:
        return "", step.closes
    match = _TOG.fullmatch(step.stitch)
    return (match["base"], int(match["n"])) if match else None
