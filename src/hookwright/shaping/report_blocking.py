"""What `hookwright shape` says of blocking: whether the sizes told are those after it or before it, and what the others would be."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from ..measuring import measure
from .piece import PartShape, Shape, shape_part
from .report_size import flat_size_cm, part_size_told
from .words import in_cm


@dataclass(frozen=True, slots=True, kw_only=True)
class Blocking:
    """`blocked`: whether the sizes told are those after blocking. `others`: the parts by the other gauge; empty where none is given."""

    blocked: bool
    others: tuple[PartShape, ...]


def blocking_of(shape: Shape) -> Blocking | None:
    """Which gauge a shape was measured by, where its pattern says whether it was measured blocked; None where it does not say."""
    fabric = shape.measures.fabric
    told = {gauge.blocked for gauge in fabric.pattern.facts.gauge} - {None}
    if not told:
        return None
    after, before = measure(fabric, blocked=True), measure(fabric, blocked=False)
    if after.scale == before.scale:
        return Blocking(blocked=True in told, others=())
    blocked = shape.measures.scale == after.scale
    return Blocking(blocked=blocked, others=tuple(shape_part(part) for part in (before if blocked else after).parts))


def blocking_json(blocking: Blocking | None, k: int) -> dict[str, Any] | None:
    """What is known of part k, as JSON."""
    if blocking is None:
        return None
    found: dict[str, Any] = {"sizes_are": "blocked" if blocking.blocked else "unblocked", "other": None}
    if blocking.others:
        wide, long = flat_size_cm(blocking.others[k])
        found["other"] = {"width_cm": in_cm(wide), "length_cm": in_cm(long)}
    return found


def blocking_lines(blocking: Blocking | None, k: int) -> Iterator[str]:
    """What is known of part k, as a sentence."""
    if blocking is None:
        return
    here, there = ("after", "before") if blocking.blocked else ("before", "after")
    if not blocking.others:
        yield f"Its gauge was measured {here} blocking, and so are these sizes."
        return
    yield f"These sizes are {here} blocking; {there} it, it is {part_size_told(blocking.others[k])}."
