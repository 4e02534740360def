"""Rounds told too shortly, which state what they come to: "R3: sc, inc (18)" over 12 stitches goes round; "(sc, 2 sc) 6 times (18)" has two
in one."""

from __future__ import annotations

from dataclasses import replace
from itertools import dropwhile

from ..pattern import ONE, Aside, Chain, Colour, Join, Make, Place, Repeat, Sized, Skip, Step, Times, Together, Turn

MOST = 12
"""Steps of the longest unit that is taken to go round though nobody says so."""
_BEGINS = (Aside, Chain, Colour, Turn)


def unit_round(work: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """The steps, those between the starting chain and the join all round; None where they name other places than the next ones."""
    unit = tuple(dropwhile(lambda step: isinstance(step, _BEGINS), work))
    begun, ended = work[: len(work) - len(unit)], tuple(step for step in unit if isinstance(step, (Join, Aside)))
    unit = tuple(step for step in unit if not isinstance(step, (Join, Aside)))
    if not unit or len(unit) > MOST or any(step.foundation for step in begun if isinstance(step, Chain)):
        return None
    if not all(_plainly_next(step) for step in unit) or not any(isinstance(step, Make) for step in unit):
        return None
    return (*begun, Repeat(id=unit[0].id, span=unit[0].span, body=unit, times=Times(kind="rest")), *ended)


def last_in_one(work: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """The steps, the last stitches of each repeat's unit all in one place: "(FPhdc, 2 hdc) 8 times (24)" over 16; None where no unit ends
    in several."""
    found = tuple(_gathered(step) for step in work)
    return found if found != work else None


def _gathered(step: Step) -> Step:
    if not isinstance(step, Repeat) or len(step.body) < 2 or step.last:
        return step
    last = step.body[-1]
    plain = isinstance(last, Make) and last.each == ONE and last.at == Place(span=last.at.span) and last.closes == 1
    if not isinstance(last, Make) or not plain or last.places in (ONE, "rest") or not isinstance(last.places, Sized):
        return step
    return replace(step, body=(*step.body[:-1], replace(last, each=last.places, places=ONE)))


def _plainly_next(step: Step) -> bool:
    if isinstance(step, (Make, Together)):
        plain = step.at.where in ("next", "same") and step.at.row is None and step.places != "rest"
        return plain and (not isinstance(step, Make) or (not step.evenly and not step.upto))
    return isinstance(step, (Skip, Chain)) and not getattr(step, "foundation", False)
