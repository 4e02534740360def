"""Rows whose own words give every number: what they make is known whatever they stand on."""

from __future__ import annotations

import re

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


_ALL_BUT = re.compile(r"(?i)\b(?:but|except(?:ing)?)\s(?:in\s|for\s)?the\s(?:last|turning)\b")
"""Words that leave the end of a row on purpose: "sc in each sc but the last"."""


def left_by_words(steps: tuple[Step, ...], size: int, words: str) -> int:
    """How many places the run that the row ends with leaves by its own words; 0 where it ends with anything else."""
    if not _ALL_BUT.search(words):
        return 0
    told = [step for step in steps if not isinstance(step, (Aside, Turn, Chain, Colour, FastenOff))]
    last = told[-1] if told else None
    return (last.but.at(size) or 0) if isinstance(last, Make) and last.places == "rest" and not last.upto else 0
