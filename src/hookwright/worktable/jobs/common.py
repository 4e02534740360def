"""What the maker's jobs share: the pattern read and worked in the wished size, kept while the text stays the same."""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import replace
from typing import Any

from ...pattern import Pattern
from ...session import Session
from ...working import Fabric
from ..bench import Payload, Refusal

KEPT = 2
_worked: OrderedDict[str, Session] = OrderedDict()


def session_of(payload: Payload) -> Session:
    """The payload's text, read; the same session for the same text."""
    text = str(payload.get("text", ""))
    session = _worked.pop(text, None)
    if session is None:
        # The newest session follows the text, so that an edit costs only what it changes; two texts at a time stay at hand.
        session = _worked.popitem(last=True)[1] if len(_worked) >= KEPT else Session()
        session.update(text)
    _worked[text] = session
    while len(_worked) > KEPT:
        _worked.popitem(last=False)
    session.size = int(payload.get("size", 0))
    return session


def fabric_of(payload: Payload) -> Fabric:
    """The fabric in the wished size. Raises `Refusal` where there is nothing worked."""
    fabric = session_of(payload).fabric()
    if not any(len(row.stitches) for part in fabric.parts for row in part.rows):
        raise Refusal("There is no row to work yet. A row begins with its label: “Row 1:”.")
    return fabric


def in_terms(fabric: Fabric, wish: Any) -> Fabric:
    """The fabric with its pattern's terms set to "US" or "UK", where wished: for labels and keys only, the stitches are the same."""
    if wish not in ("US", "UK") or fabric.pattern.terms == wish:
        return fabric
    pattern: Pattern = replace(fabric.pattern, terms=wish, parts=tuple(replace(part, terms=wish) for part in fabric.pattern.parts))
    return replace(fabric, pattern=pattern)


def part_of(payload: Payload, count: int) -> int:
    """The wished part, kept within those there are."""
    return max(0, min(int(payload.get("part", 0)), count - 1))


def number(payload: Payload, key: str, least: float = 0.0, most: float = 1e6) -> float | None:
    """A number of the payload; None when it is not told. Raises `Refusal` when it cannot be."""
    value = payload.get(key)
    if value is None or value == "":
        return None
    if not isinstance(value, int | float) or not least <= value <= most:
        raise Refusal(f"A number between {least:g} and {most:g} is needed for “{key.replace('_', ' ')}”.")
    return float(value)
