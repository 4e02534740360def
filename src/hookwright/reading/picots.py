"""Picots told without their name: "ch 3, sl st in 3rd ch from hook", "ch 3, sl st in sc just made" hang on the stitch before."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from ..pattern import ONE, Aside, Chain, Make, Place, Repeat, Sized, Step, Together

LONGEST = 7
"""Chains, at most, of a picot that is closed in the stitch before it without being called one."""
MADE = "made"
"""`Place.what` of "the sc just made": the stitch worked last."""


def gathered(steps: tuple[Step, ...], new_id: Callable[[], int]) -> tuple[Step, ...]:
    """The steps with every such pair as a group named picot, also inside repeats and groups."""
    if not any(isinstance(step, (Chain, Repeat, Together)) for step in steps):
        return steps
    out = [replace(step, body=_inside(step.body, new_id)) if isinstance(step, (Repeat, Together)) else step for step in steps]
    return _paired(out, new_id, False)


def _inside(steps: tuple[Step, ...], new_id: Callable[[], int]) -> tuple[Step, ...]:
    """The same of a repeat's or group's steps: a picot that begins them hangs on the stitch worked before."""
    if not any(isinstance(step, (Chain, Repeat, Together)) for step in steps):
        return steps
    out = [replace(step, body=_inside(step.body, new_id)) if isinstance(step, (Repeat, Together)) else step for step in steps]
    return _paired(out, new_id, True)


def _paired(out: list[Step], new_id: Callable[[], int], inside: bool) -> tuple[Step, ...]:
    k = 0
    while k + 1 < len(out):
        chain, closing = out[k], out[k + 1]
        if isinstance(chain, Chain) and isinstance(closing, Make) and (inside or _stands_on(out[:k])):
            size = _size(chain, closing, out[k + 2] if k + 2 < len(out) else None, out[:k], inside)
            if size:
                out[k : k + 2] = _picot(chain, closing, size, new_id)
                k += 1
                continue
        k += 1
    return tuple(out)


def _stands_on(before: list[Step]) -> bool:
    """A stitch is there for the picot to hang on."""
    return any(isinstance(step, (Make, Together, Repeat)) for step in before)


def _size(chain: Chain, closing: Make, after: Step | None, before: list[Step], inside: bool) -> int:
    """How many chains are closed; 0 where it is no picot."""
    chains = chain.number.values[0] or 0
    if chain.number.many or chain.foundation or not 2 <= chains <= 12 or closing.each != ONE or closing.places != ONE:
        return 0
    at = closing.at
    if at.where == "same" and at.what == MADE and closing.stitch in ("sl st", "sc"):
        return chains
    made = next((step for step in reversed(before) if not isinstance(step, Aside)), None)
    goes_on = after is not None or inside  # the row's own end may be closed so; a unit's goes on with the next one
    if at.where == "last" and closing.stitch == "sl st" and goes_on and isinstance(made, Make):
        return chains if at.what in ("st", made.stitch) and chains <= LONGEST else 0  # "ch 3, sl st in last dc for picot"
    if at.where == "last" and closing.stitch == "sl st" and after is not None and inside and made is None:
        return chains if chains <= LONGEST else 0  # "dc in next dc, * ch 3, sl st in last dc for picot, …": on the stitch before the star
    if at.where != "from_hook" or at.nth is None or not 3 <= at.nth <= chains or closing.stitch not in ("sl st", "sc"):
        return 0
    along = isinstance(after, Make) and after.at.what == "ch"  # a leaf worked back along its chain
    return 0 if along else at.nth


def _picot(chain: Chain, closing: Make, size: int, new_id: Callable[[], int]) -> list[Step]:
    left = (chain.number.values[0] or 0) - size
    stem = [replace(chain, number=Sized((left,)))] if left else []
    inner = replace(chain, id=new_id(), number=Sized((size,)))
    closed = replace(closing, at=Place(where="same"))
    span = type(chain.span)(chain.span.start, closing.span.end)
    return [*stem, Together(id=new_id(), span=span, body=(inner, closed), at=Place(where="same"), name="picot")]
