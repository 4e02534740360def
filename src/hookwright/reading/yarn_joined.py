"""Yarn changed between two rounds ("Change to cream.", "Break off A and join B to any sp."): the next round begins with it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern import Aside, Colour, FastenOff, Make, Row, Skip, Span, Step, Together, once
from .lining.colour_lines import NOTED


def yarn_joined(rows: Sequence[Row]) -> list[Row]:
    """The rows, a yarn told between two of them, or joined in a told place at the end of one, moved to the beginning of the next."""
    found = _yarns_carried(rows)
    for k in range(len(found) - 1):
        told = _joins_last(found[k].steps)
        if told is not None and not _joins_first(found[k + 1].steps):
            found[k] = replace(found[k], steps=tuple(step for step in found[k].steps if step is not told))
            found[k + 1] = replace(found[k + 1], steps=(told, *found[k + 1].steps))
    return found


def _yarns_carried(rows: Sequence[Row]) -> list[Row]:
    """The rows without those that only tell a yarn: the row after such a one begins with it."""
    found: list[Row] = []
    waiting: tuple[Step, ...] = ()
    for row in rows:
        if _only_yarn(row):
            waiting += row.steps
        else:
            found.append(replace(row, steps=(*waiting, *row.steps)) if waiting else row)
            waiting = ()
    if waiting and found:  # (nothing is worked after it)
        found[-1] = replace(found[-1], steps=(*found[-1].steps, *(step for step in waiting if not isinstance(step, Skip))))
    return found


def _only_yarn(row: Row) -> bool:
    """A line of no label that changes the yarn in no told place, or joins it anew behind what is passed over, and works nothing."""
    if row.numbers or row.label_span.start != row.label_span.end or not row.steps or row.stated:
        return False
    if all(isinstance(step, Colour) and step.at is None for step in row.steps):
        return True
    skips = any(isinstance(step, Skip) for step in row.steps)  # "With RS facing, skip centre 16 sts, rejoin yarn to next st."
    joins = any(isinstance(step, Colour) and step.join_in for step in row.steps)
    return skips and joins and all(isinstance(step, (Skip, Colour, Aside)) for step in row.steps)


@once
def _joins_last(steps: tuple[Step, ...]) -> Colour | None:
    """The yarn joined in a place after the yarn was cut, where nothing is worked after that."""
    last = next((step for step in reversed(steps) if not isinstance(step, Aside)), None)
    if not isinstance(last, Colour) or not last.join_in or last.at is None:
        return None
    return last if any(isinstance(step, FastenOff) for step in steps) else None


def _joins_first(steps: tuple[Step, ...]) -> bool:
    for step in steps:
        if isinstance(step, (Make, Together)):
            return False
        if isinstance(step, Colour) and step.join_in:
            return True
    return False


def yarn_of_heading(rows: Sequence[Row], heading: str, first: int, at: int) -> list[Row]:
    """The rows, the first of them begun with the yarn that its piece's heading names, unless it names one itself; the node's id is `first`,
    the heading begins at `at`."""
    told = NOTED.search(heading)
    if told is None or not rows or any(isinstance(step, Colour) for step in rows[0].steps):
        return list(rows)
    name = told["yarn"] or told["known"]
    start = at + told.start("yarn" if told["yarn"] else "known")
    yarn = Colour(id=first, span=Span(start, start + len(name)), yarn=name)
    return [replace(rows[0], steps=(yarn, *rows[0].steps)), *rows[1:]]
