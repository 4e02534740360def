"""Rows whose own words give every number: what they make is known whatever they stand on."""

from __future__ import annotations

from ..pattern import Aside, Chain, Colour, FastenOff, Join, Leave, Make, Repeat, Skip, Step, Together, Turn
from ..pattern.walking import walk
from .fabric import RowWork


def counts_by_itself(row: RowWork) -> bool:
    """Whether a worked row's count is sure though what it stands on is not: every word was understood, and its words give every number."""
    return row.read == "whole" and row.worked != "assumed" and told_in_full(row.written.steps)


def told_in_full(steps: tuple[Step, ...]) -> bool:
    """Whether no step of a row is worked "in each", "to the end", "evenly", or as another row: its count rests on its own words."""
    return all(_in_full(step) for step in walk(steps))


def _in_full(step: Step) -> bool:
    if isinstance(step, Make):
        return step.places != "rest" and not step.evenly and step.stitch not in ("inc", "dec")
    if isinstance(step, Together):
        return step.places != "rest"
    if isinstance(step, Repeat):
        return step.times.kind == "n" and not step.times.loose
    return isinstance(step, (Chain, Skip, Leave, Turn, Join, Colour, FastenOff)) or (isinstance(step, Aside) and step.kind == "marker")
