""" "Shell in next sc" of a pattern that never tells what its shell is: the group of stitches that the rows before it work in one place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import count

from ..pattern import ONE, Make, Part, Place, Repeat, Row, Special, Step, Together
from ..pattern.walking import walk
from ..trade.kinds import HEIGHT

NAMES = ("shell", "fan")
"""Groups that every pattern makes in a way of its own."""
LEAST = 3
"""Stitches in one place, at least, that are called so (common practice, no source)."""


def with_groups_meant(parts: Sequence[Part], defined: Mapping[str, Special], words: str) -> list[Part]:
    """The parts, each shell or fan that nobody told with the steps of the last group worked before it."""
    told = words.lower()
    untold = [name for name in NAMES if name in told and not (name in defined and defined[name].steps)]
    if not untold:
        return list(parts)
    group: tuple[Step, ...] = ()
    out: list[Part] = []
    for part in parts:
        rows: list[Row] = []
        for row in part.rows:
            steps = row.steps
            if group and any(_empty(step, untold) for step in walk(steps)):
                free = count(max((step.id for step in walk(steps)), default=row.id) + 1)
                row = replace(row, steps=_filled(steps, untold, group, free))
            rows.append(row)
            group = _last_group(steps) or group
        out.append(replace(part, rows=tuple(rows)) if any(a is not b for a, b in zip(rows, part.rows, strict=True)) else part)
    return out


def _empty(step: Step, names: Sequence[str]) -> bool:
    return isinstance(step, Together) and not step.body and step.name in names


def _last_group(steps: Iterable[Step]) -> tuple[Step, ...]:
    """What the last group of tall stitches in one place is made of."""
    found: tuple[Step, ...] = ()
    for step in walk(steps, said=True):
        if isinstance(step, Make) and step.closes == 1 and HEIGHT.get(step.stitch, 0) > 1 and step.at.where in ("next", "from_hook"):
            number = step.each.at(0) or 0
            if number >= LEAST and step.places == ONE:
                found = (replace(step, at=Place(where="same")),)
        elif isinstance(step, Together) and step.body and _stitches(step.body) >= LEAST:
            found = step.body
    return found


def _stitches(steps: Iterable[Step]) -> int:
    return sum(
        (step.each.at(0) or 0) * (1 if step.places == "rest" else step.places.at(0) or 0) for step in steps if isinstance(step, Make)
    )


def _filled(steps: Iterable[Step], names: Sequence[str], group: tuple[Step, ...], free: Iterator[int]) -> tuple[Step, ...]:
    """The steps, nodes that no other has in the row numbered from `free`."""
    out: list[Step] = []
    for step in steps:
        if isinstance(step, Together) and _empty(step, names):
            step = replace(step, body=tuple(replace(one, id=next(free), span=step.span) for one in group))
        elif isinstance(step, Repeat):
            step = replace(step, body=_filled(step.body, names, group, free), last=_filled(step.last, names, group, free))
        out.append(step)
    return tuple(out)
