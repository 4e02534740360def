"""A round told once for all sides of a piece: "28 sc on each side and 3 sc in each corner" is a side and a corner, again and again."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise

from ..pattern import ONE, Aside, Count, Make, Place, Repeat, Sized, Span, Step, Times
from .wording.token import Token

SIDES = 4
"""Sides of a piece when neither the words nor the count tell another number (common practice, no source)."""
_MOST = 12
_SIDES = frozenset(("side", "sides", "edge", "edges"))


def round_each_side(steps: tuple[Step, ...], found: Sequence[Token], counts: Sequence[Count], fresh: Callable[[], int]) -> tuple[Step, ...]:
    """The steps with such a pair made a repeat of it, side after side. Where the row goes along an edge nobody has counted the stitches, so
    how many sides there are is known by the words ("each of the 6 sides"), else by the count that the row states, else it is four."""
    works = [k for k, step in enumerate(steps) if isinstance(step, Make) and step.stitch != "sl st"]
    for a, b in pairwise(works):
        one, two = steps[a], steps[b]
        if not (isinstance(one, Make) and isinstance(two, Make)) or any(not isinstance(step, Aside) for step in steps[a + 1 : b]):
            continue
        side, corner = (one, two) if _corner(two) else (two, one)
        if not _along(side) or not _corner(corner) or not _each_side(side, found):
            continue
        unit = tuple(replace(step, places=ONE, at=Place(where="row_end", what="row")) for step in (one, two))
        number = _told(side, found) or _by_count(unit, counts) or SIDES
        run = Repeat(id=fresh(), span=Span(one.span.start, two.span.end), body=unit, times=Times(kind="n", number=Sized((number,))))
        before = steps[:a]
        spread = before[-1] if before else None
        if isinstance(spread, Make) and spread.places == "rest" and spread.stitch == one.stitch:
            before = before[:-1]  # "sc evenly around, working 28 sc on each side …": the same stitches, told in general first
        return (*before, run, *steps[b + 1 :])
    return steps


def _along(step: Make) -> bool:
    edge = step.at.where == "row_end" or (step.at.what == "side" and step.places != "rest")
    return edge and not step.each.many and (step.each.values[0] or 0) > 1 and not step.upto


def _corner(step: Make) -> bool:
    """Whether the step goes into every corner."""
    return step.at.what == "corner" and step.places == "rest" and not step.each.many


def _words(step: Make, found: Sequence[Token]) -> list[Token]:
    return [token for token in found if step.span.start <= token.start < step.span.end]


def _each_side(step: Make, found: Sequence[Token]) -> bool:
    words = _words(step, found)
    each = next((k for k, token in enumerate(words) if token.kind in ("each", "all")), len(words))
    return any(token.text.lower() in _SIDES for token in words[each:])


def _told(step: Make, found: Sequence[Token]) -> int:
    """ "On each of the 6 sides"."""
    words = _words(step, found)
    each = next((k for k, token in enumerate(words) if token.kind in ("each", "all")), len(words))
    return next((token.val for token in words[each:] if token.kind == "n" and isinstance(token.val, int) and 2 < token.val <= _MOST), 0)


def _by_count(unit: Sequence[Make], counts: Sequence[Count]) -> int:
    """How many such units the stated count is, where it is a whole number of them."""
    one = sum(step.each.values[0] or 0 for step in unit)
    for count in counts:
        total = count.number.values[0] if not (count.number.many or count.per or count.change) else None
        if total and total % one == 0 and 2 < total // one <= _MOST:
            return total // one
    return 0
