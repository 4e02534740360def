"""Places that may be meant otherwise than the words say: gaps, whole groups, a chain's own stitch among those skipped.

Rounds of a granny square without chains between its groups work "3 dc in next space" into the gap between two groups. The corners are told
apart ("in next ch-2 sp", "in corner sp"), so that a bare "space" of the same round can only be a gap (common practice, no source). "Center
dc of next group" is that stitch alone where its neighbours are worked too, and else the group. "Ch 6, turn, skip 4 tr, dc in next"
counts the stitch that the chain stands on among the four in some hands, and not in others. "Sc to the last 4 sts" with nothing told
for these, and a count without them, leaves them for a later row. "FPdc around each FPdc" of a rib that is turned names the posts of the
row below as they look from this side in some hands: those were worked from the other side as back posts.
"""

from __future__ import annotations

from dataclasses import replace

from ..pattern import Aside, Chain, Colour, FastenOff, Leave, Make, Repeat, Skip, Step, Together, Turn
from .needs import is_space


def gaps_meant(steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """The steps with every bare "space" a gap between groups; None where no corner is told apart, or no bare space is named."""
    told = [step.at.what for step in _worked(steps)]
    if "sp" not in told or not any(what == "corner" or (what.startswith("ch-") and what.endswith(" sp")) for what in told):
        return None
    found = tuple(map(_in_gap, steps))
    return found if found != steps else None


def whole_groups(steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """The steps with "center dc of next group" meaning the group, its other stitches passed over with it; None where none is named so."""
    found = tuple(map(_whole, steps))
    return found if found != steps else None


def own_among_skipped(steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """The steps with the stitch under the row's first chain among those skipped behind it; None where none are skipped there."""
    at = next((k for k, step in enumerate(steps) if not isinstance(step, (Aside, Turn, Chain))), len(steps))
    skip = steps[at] if at < len(steps) else None
    begun = any(isinstance(step, Chain) and not step.foundation for step in steps[:at])
    if not begun or not isinstance(skip, Skip) or skip.first or skip.row or skip.ordinal or is_space(skip.what) or skip.what == "ch":
        return None
    if max((n or 0 for n in skip.number.values), default=0) < 2:
        return None  # for a single one it is asked whether the chain counts
    return (*steps[:at], replace(skip, first=True), *steps[at + 1 :])


def posts_as_they_look(steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """The steps with the post stitches that they stand on named as they look from this side; None where none are named."""
    found = tuple(map(_looked_at, steps))
    return found if found != steps else None


_OTHER_SIDE = {"FP": "BP", "BP": "FP"}


def _looked_at(step: Step) -> Step:
    if isinstance(step, Repeat):
        return replace(step, body=tuple(map(_looked_at, step.body)), last=tuple(map(_looked_at, step.last)))
    if isinstance(step, (Make, Together)) and step.at.what[:2] in _OTHER_SIDE:
        return replace(step, at=replace(step.at, what=_OTHER_SIDE[step.at.what[:2]] + step.at.what[2:]))
    return step


def left_at_the_end(steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """The steps with the stitches that the last of them stops before left unworked; None where it goes to the end, or they are worked."""
    at = next((k for k in range(len(steps) - 1, -1, -1) if not isinstance(steps[k], _NOT_WORK)), None)
    last = steps[at] if at is not None else None
    if isinstance(last, Repeat) and last.times.kind == "to_last" and not last.last:
        left = Leave(id=last.id, span=last.span, number=last.times.number, what=last.times.what)
    elif isinstance(last, (Make, Together)) and last.places == "rest" and any(last.but.values) and not last.upto:
        left = Leave(id=last.id, span=last.span, number=last.but)
    else:
        return None
    assert at is not None
    return (*steps[: at + 1], left, *steps[at + 1 :])


def loops_of_stitches(steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """The steps with every bare "loop" or "space" a stitch, for a row that has no spaces ("3 dc in one loop" of a round of sc)."""
    found = tuple(map(_on_a_stitch, steps))
    return found if found != steps else None


def _on_a_stitch(step: Step) -> Step:
    if isinstance(step, Repeat):
        return replace(step, body=tuple(map(_on_a_stitch, step.body)), last=tuple(map(_on_a_stitch, step.last)))
    if isinstance(step, (Make, Together)) and step.at.what == "sp" and step.at.where in ("next", "last") and not step.at.of:
        return replace(step, at=replace(step.at, what="st"))
    return step


_NOT_WORK = (Aside, Turn, FastenOff, Colour)


def _whole(step: Step) -> Step:
    if isinstance(step, Repeat):
        return replace(step, body=tuple(map(_whole, step.body)), last=tuple(map(_whole, step.last)))
    if isinstance(step, (Make, Together)) and step.at.what == "group" and step.at.nth == 0:
        return replace(step, at=replace(step.at, nth=None))
    return step


def _worked(steps: tuple[Step, ...]) -> list[Make | Together]:
    found: list[Make | Together] = []
    for step in steps:
        if isinstance(step, (Make, Together)):
            found.append(step)
        elif isinstance(step, Repeat):
            found += _worked((*step.body, *step.last))
    return found


def _in_gap(step: Step) -> Step:
    if isinstance(step, Repeat):
        return replace(step, body=tuple(map(_in_gap, step.body)), last=tuple(map(_in_gap, step.last)))
    if isinstance(step, (Make, Together)) and step.at.what == "sp" and step.at.where in ("next", "last") and not step.at.of:
        return replace(step, at=replace(step.at, between=True))
    return step
