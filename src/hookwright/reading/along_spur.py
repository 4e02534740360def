"""Stitches back along a chain made in mid-row: "ch 5, sl st in 2nd ch from hook, sc in next, hdc in next, dc in next" fill the chain."""

from __future__ import annotations

from dataclasses import replace

from ..pattern import ONE, Aside, Chain, Make, Place, Repeat, Sized, Step

FEWEST = 2
"""Chains left behind the first stitch, at least, from which on a run that just fills them is taken to go along them (from memory): one
chain may as well stand beside a picot."""


def along_spur(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps with "next" told as the next chain where a run fills just the chains that are left of a spur."""
    out = [replace(step, body=along_spur(step.body)) if isinstance(step, Repeat) else step for step in steps]
    for k in range(len(out) - 2):
        chain = out[k]
        at_first = next((j for j in range(k + 1, len(out)) if not isinstance(out[j], Aside)), k)  # "starting in 2nd ch from hook:"
        first = out[at_first]
        if not isinstance(chain, Chain) or chain.foundation or chain.number.many or not isinstance(first, Make):
            continue
        if first.at.where != "from_hook" or first.at.nth is None or first.places == "rest":
            continue
        left = (chain.number.values[0] or 0) - first.at.nth
        run = _run(out, at_first + 1)
        if left >= FEWEST and sum(_places(step) for _, step in run) == left:
            for at, step in run:
                out[at] = replace(step, at=Place(what="ch"))
    return tuple(out)


def _run(steps: list[Step], start: int) -> list[tuple[int, Make]]:
    """The plain stitches into next places that stand from `start` on, with where they stand; remarks between them are passed over."""
    run: list[tuple[int, Make]] = []
    for k, step in enumerate(steps[start:], start):
        if isinstance(step, Aside):
            continue
        if not isinstance(step, Make) or not isinstance(step.places, Sized) or step.places.many:
            break
        ends = bool(run) and step.each == ONE and (step.at.where, step.at.what) in (("last", "st"), ("last", "ch"))  # "…, tr in last"
        if step.at not in (Place(span=step.at.span), Place(what="ch", span=step.at.span)) and not ends:
            break
        run.append((k, step))
        if ends:
            break
    return run


def _places(step: Make) -> int:
    return (step.places.values[0] or 0) * step.closes if isinstance(step.places, Sized) else 0
