"""Yarn joined between two rounds ("Break off A and join B to any 1-ch sp."): where it is joined, the next round begins."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern import Aside, Colour, FastenOff, Make, Row, Step, Together


def yarn_joined(rows: Sequence[Row]) -> list[Row]:
    """The rows, a joining of yarn in a told place that ends one of them moved to the beginning of the next."""
    found = list(rows)
    for k in range(len(found) - 1):
        told = _joins_last(found[k].steps)
        if told is not None and not _joins_first(found[k + 1].steps):
            found[k] = replace(found[k], steps=tuple(step for step in found[k].steps if step is not told))
            found[k + 1] = replace(found[k + 1], steps=(told, *found[k + 1].steps))
    return found


def _joins_last(steps: tuple[Step, ...]) -> Colour | None:
    """The yarn joined in a place after the yarn was cut, where nothing is worked after that."""
    last = next((step for step in reversed(steps) if not isinstance(step, Aside)), None)
    cut = any(isinstance(step, FastenOff) for step in steps)
    return last if cut and isinstance(last, Colour) and last.join_in and last.at is not None else None


def _joins_first(steps: tuple[Step, ...]) -> bool:
    for step in steps:
        if isinstance(step, (Make, Together)):
            return False
        if isinstance(step, Colour) and step.join_in:
            return True
    return False
