"""How the first stitches of a row stand to what they begin on: the chain counted from the hook, the stitch under the turning chain."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Aside, Chain, Choice, Colour, Make, Sized, Skip, Step, Turn
from .cursor import Cursor

FURTHEST = 30
"""Chains from the hook, at most, that a row begins in without saying "from hook"."""


def on_foundation(c: Cursor, nth: int) -> bool:
    """ "Chain 20. 1st row: 1 tr in the 8th ch": the row's first stitch on its foundation chain, which is counted from the hook."""
    told = [step for step in c.out if not isinstance(step, (Aside, Turn, Colour))]
    if len(c.frames) > 1 or nth > FURTHEST or any(not isinstance(step, Chain) for step in told):
        return False
    return c.ctx.on_chain or (bool(told) and isinstance(told[-1], Chain) and told[-1].foundation)


COUNTS_ITS_OWN = "Does “in 2nd st” after a starting chain count the stitch that the chain stands in?"


def counted_from_start(c: Cursor, step: Skip, *, gap: bool = False) -> list[Step]:
    """ "5 ch, 1 tr in the 2nd tr": the second of all, or the second after the one that the chain stands in; a question. "Sc in first st,
    2 sc in second st, sc in third": none is passed over. A `gap` is named by both its sides: "between 1st and 2nd tr"."""
    if _numbered_from_first(c) == step.number.values[0]:
        return []
    if gap:
        return [replace(step, first=True, ordinal=False)]
    before = [one for one in c.out if not isinstance(one, (Aside, Turn, Colour))]
    chain = before[0] if len(before) == 1 and len(c.frames) == 1 else None
    # "…, ch 5, turn. 2nd row: dc in 2nd dc": the chain was told at the end of the row before
    told_before = not before and len(c.frames) == 1 and not (c.ctx.begins or c.ctx.on_chain or c.ctx.rounds or c.ctx.passes)
    begun = isinstance(chain, Chain) and not chain.foundation
    passed = step.number.at(0) or 0
    if not (begun or told_before) or not passed:
        return [step]
    fewer: tuple[Step, ...] = (replace(step, id=c.id(), number=Sized((passed - 1,))),) if passed > 1 else ()
    return [Choice(id=c.id(), span=step.span, question=COUNTS_ITS_OWN, answers=(fewer, (step,)))]


def _numbered_from_first(c: Cursor) -> int | None:
    """How many stitches what was told since "in first st", or since a star, is worked into; None where that is not known."""
    marks = [mark.index for mark in c.frames[-1].marks if not mark.used]
    unit = [one for one in c.out[marks[-1] if marks else 0 :] if not isinstance(one, (Aside, Turn, Colour, Chain))]
    if not unit or not isinstance(unit[0], Make) or unit[0].at.where not in (("first", "next") if marks else ("first",)):
        return None
    passed = 0
    for one in unit:
        if isinstance(one, Skip):
            passed += one.number.values[0] or 0
        elif isinstance(one, Make) and isinstance(one.places, Sized) and one.at.where in ("first", "next"):
            passed += (one.places.values[0] or 0) * one.closes
        elif not (isinstance(one, Make) and one.at.where == "same"):
            return None
    return passed


def led_to_space(c: Cursor, what: str) -> bool:
    """ "Sl st to center of next loop, sc in loop": the loop that the slip stitch has just led to, where no "next" is told."""
    if not what.endswith("sp") or len(c.frames) > 1 or any(not mark.used for mark in c.frames[-1].marks):
        return False  # inside a unit that comes again, a loop is the next one each time
    told = [step for step in c.out if not isinstance(step, (Aside, Colour)) and not (isinstance(step, Chain) and not step.foundation)]
    led = told[-1] if told else None
    if not isinstance(led, Make) or led.stitch != "sl st" or led.at.where not in ("next", "first"):
        return False
    if not led.at.what.endswith("sp") and led.at.what != "ch":  # "sl st into each of next 2 ch, sc into loop"
        return False
    return all(isinstance(step, Make) and step.stitch == "sl st" for step in told)


def chain_of_unit(c: Cursor, opening: list[Step], work: list[Step]) -> bool:
    """ "Turn with 4 chain. 3 chain, miss 3, 1 long: repeat": of two chains the first turns, the other belongs to the unit."""
    told = [step for step in opening if not isinstance(step, Aside)]
    chains = [step for step in told if isinstance(step, Chain)]
    two = len(chains) > 1 and told[-1] is chains[-1] and not any(chain.foundation for chain in chains)
    return two and bool(work) and (c.ctx.old or isinstance(work[0], Skip))
