"""What begins a round in the space that the yarn was joined in, told no place: "Join in any sp, ch 3, 2 dc, *ch 1, 3 dc in next sp".

That these stitches go into the next places instead is kept as the second reading.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from ..pattern import NEXT, ONE, Aside, Chain, Choice, Colour, Join, Make, Place, Repeat, Sized, Span, Step, Together, slips

QUESTION = "Do the first stitches, told no place, go into the space that the yarn was joined in?"
_SPACES = ("sp", "lp", "loop", "corner")


def in_joining_space(steps: tuple[Step, ...], fresh: Callable[[], int]) -> tuple[Step, ...]:
    """The steps with such a beginning put into its space, where all else of the row is worked into spaces too."""
    k = next((k for k, step in enumerate(steps) if not isinstance(step, (Aside, Colour, Join)) and not slips(step)), len(steps))
    chain = steps[k] if k < len(steps) else None
    joined = next((at for at in map(_place, steps[:k]) if at is not None and _in_space(at)), None)
    if joined is None or not isinstance(chain, Chain) or chain.foundation:
        return steps
    end = k + 1
    while end < len(steps) and (_bare(steps[end]) or isinstance(steps[end], (Chain, Aside))):
        end += 1
    while isinstance(steps[end - 1], (Chain, Aside)) and end - 1 > k:
        end -= 1
    first, after = steps[k + 1 : end], steps[end:]
    if not any(isinstance(step, Make) for step in first) or not _all_in_spaces(after):
        return steps
    body = tuple(
        replace(step, id=fresh(), each=step.places, places=ONE, at=NEXT)
        if isinstance(step, Make) and isinstance(step.places, Sized)
        else step
        for step in first
    )
    span = Span(first[0].span.start, first[-1].span.end)
    group = Together(id=fresh(), span=span, body=body, at=Place(where="same", what=joined.what))
    return (*steps[: k + 1], Choice(id=fresh(), span=span, question=QUESTION, answers=((group,), first)), *after)


def _place(step: Step) -> Place | None:
    return step.at if isinstance(step, (Make, Colour)) else step.to if isinstance(step, Join) else None


def _in_space(at: Place) -> bool:
    return at.what.endswith(_SPACES)


def _bare(step: Step) -> bool:
    plain = isinstance(step, Make) and step.at == NEXT and step.each == ONE and step.closes == 1 and step.stitch != "sl st"
    return plain and isinstance(step, Make) and isinstance(step.places, Sized) and not step.places.many


def _all_in_spaces(steps: tuple[Step, ...]) -> bool:
    """Whether stitches follow, every one of them in a space or a group in one."""
    made = [one for step in steps for one in ((*step.body, *step.last) if isinstance(step, Repeat) else (step,))]
    works = [one for one in made if isinstance(one, (Make, Together)) and not (isinstance(one, Make) and one.stitch == "sl st")]
    return bool(works) and all(_in_space(one.at) or one.at.where == "same" for one in works)


__all__ = ["in_joining_space"]
