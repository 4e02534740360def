"""A round told once for all sides of a piece: "28 sc on each side and 3 sc in each corner" is a side and a corner, again and again."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise

from ..pattern import ONE, Aside, Colour, Count, Make, Place, Repeat, Sized, Span, Step, Times
from .wording.token import Token

SIDES = 4
"""Sides of a piece when neither the words nor the count tell another number (common practice, no source)."""
_MOST = 12
_SIDES = frozenset(("side", "sides", "edge", "edges"))


def round_each_side(steps: tuple[Step, ...], found: Sequence[Token], counts: Sequence[Count], fresh: Callable[[], int]) -> tuple[Step, ...]:
    """The steps with such a pair made a repeat of it, side after side. Where the row goes along an edge nobody has counted the stitches, so
    how many sides there are is known by the words ("each of the 6 sides"), else by the count that the row states, else it is four."""
    works = [k for k, step in enumerate(steps) if isinstance(step, Make) and step.stitch != "sl st"]
    if (two_by_two := _long_and_short(steps, works, found, fresh)) is not None:
        return two_by_two
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
        return (*_without_spread(steps[:a], one), run, *steps[b + 1 :])
    return steps


def _without_spread(before: tuple[Step, ...], side: Make) -> tuple[Step, ...]:
    """ "Sc evenly around, working 28 sc on each side …": the same stitches, told in general first, are none of their own."""
    at = next((k for k in range(len(before) - 1, -1, -1) if not isinstance(before[k], (Aside, Colour))), None)
    spread = before[at] if at is not None else None
    if at is None or not isinstance(spread, Make) or spread.places != "rest" or spread.stitch != side.stitch:
        return before
    return (*before[:at], *before[at + 1 :])


def _long_and_short(
    steps: tuple[Step, ...], works: Sequence[int], found: Sequence[Token], fresh: Callable[[], int]
) -> tuple[Step, ...] | None:
    """ "4 sc along each short side, 8 along each long side, 3 in each corner": the two sides by turns, a corner behind each."""
    for a, b, c in zip(works, works[1:], works[2:], strict=False):
        three = [step for k in (a, b, c) if isinstance(step := steps[k], Make)]
        corners = [step for step in three if _corner(step) or _at_corners(step, found)]
        sides = [step for step in three if step not in corners]
        apart = any(not isinstance(step, (Aside, Make)) for step in steps[a : c + 1])
        if len(corners) != 1 or apart or not _of_two_lengths(sides, found):
            continue
        edge = Place(where="row_end", what="row")
        order = (sides[0], corners[0], sides[1], corners[0])
        unit = tuple(replace(step, id=fresh(), places=ONE, at=edge) for step in order)
        run = Repeat(id=fresh(), span=Span(three[0].span.start, three[2].span.end), body=unit, times=Times(kind="n", number=Sized((2,))))
        return (*_without_spread(steps[:a], sides[0]), run, *steps[c + 1 :])
    return None


def _at_corners(step: Make, found: Sequence[Token]) -> bool:
    return step.at.what == "corner" and any(token.text.lower() == "corners" for token in _words(step, found))


def _of_two_lengths(sides: Sequence[Make], found: Sequence[Token]) -> bool:
    """Whether two sides' words tell them apart: "each long side", "top and bottom"; one of them may be no more than "each side"."""
    told = [any(token.text.lower() in _LENGTHS for token in _words(step, found)) for step in sides]
    return all(map(_along, sides)) and any(told) and all(so or _each_side(step, found) for so, step in zip(told, sides, strict=True))


_LENGTHS = frozenset(("long", "longer", "short", "shorter", "top"))


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
