"""A round told once for all sides of a piece: "28 sc on each side and 3 sc in each corner" is a side and a corner, again and again."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise

from ..pattern import ONE, Aside, Colour, Count, Make, Place, Repeat, Sized, Skip, Span, Step, Times, Together
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
        corners, at = _told(corner, found), _named_before(steps, works, a, found)
        if corners and at is not None and isinstance(named := steps[at], Make):
            edge, begun = Place(where="row_end", what="row"), replace(unit[1 if side is one else 0], id=fresh())
            others = Repeat(id=fresh(), span=unit[0].span, body=unit, times=Times(kind="n", number=Sized((corners - 1,))))
            each = named.places if named.each == ONE and isinstance(named.places, Sized) else named.each
            return (*steps[:at], replace(named, each=each, places=ONE, at=edge), begun, *steps[at + 1 : a], others, *steps[b + 1 :])
        number = _told(side, found) or _by_count(unit, counts) or SIDES
        run = Repeat(id=fresh(), span=Span(one.span.start, two.span.end), body=unit, times=Times(kind="n", number=Sized((number,))))
        return (*_without_spread(steps[:a], one), run, *steps[b + 1 :])
    return _side_by_side(steps, counts)


def _side_by_side(steps: tuple[Step, ...], counts: Sequence[Count]) -> tuple[Step, ...]:
    """ "*3 sc in corner, 28 sc along side; repeat from * around", "3 sc in corner, 28 sc along side, …": sides and corners, each with
    its number, and nothing else; a repeat that goes round makes the sides that are left of those the count tells, else of four."""
    edge = Place(where="row_end", what="row")
    sides, corners = 0, False
    out: list[Step] = []
    for step in steps:
        made = [one for one in (step.body if isinstance(step, Repeat) else (step,)) if not isinstance(one, Aside)]
        outline = [one for one in made if isinstance(one, Make) and _of_outline(one)]
        if not isinstance(step, Repeat):
            if isinstance(step, (Skip, Together)) or (isinstance(step, Make) and step.stitch != "sl st" and not outline):
                return steps
            out.append(replace(outline[0], at=edge) if outline else step)
        elif len(outline) < len(made) or step.last or step.times.kind not in ("rest", "n", "more"):
            return steps
        else:
            unit = tuple(replace(one, at=edge) for one in outline)
            if step.times.kind == "rest":
                number = (_by_count(unit, counts) if not sides else 0) or max(1, SIDES - sides)
                step = replace(step, times=Times(kind="n", number=Sized((number,))))
            out.append(replace(step, body=unit))
        sides += sum(one.at.where == "row_end" for one in outline)
        corners = corners or any(one.at.what == "corner" for one in outline)
    return tuple(out) if sides and corners else steps


def _of_outline(step: Make) -> bool:
    """Whether a step is so many along a side, or so many in a corner."""
    if step.places != ONE or step.each.many or step.closes != 1 or step.stitch == "sl st":
        return False
    along = (step.at.where, step.at.what) == ("row_end", "row") and not step.evenly
    return along or (step.at.what == "corner" and step.at.where != "named")


_NAMED = frozenset(("top", "bottom", "base", "upper", "lower"))


def _named_before(steps: tuple[Step, ...], works: Sequence[int], a: int, found: Sequence[Token]) -> int | None:
    """ "15 dc along top, 16 dc along each side and 3 dc in each of the 3 corners": where the one side stands that is told by its name."""
    at = next((k for k in reversed(works) if k < a), None)
    step = steps[at] if at is not None else None
    told = isinstance(step, Make) and step.places != "rest" and any(token.text.lower() in _NAMED for token in _words(step, found))
    return at if told else None


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
    numbers = [token.val for token in words[each:] if token.kind in ("n", "each") and isinstance(token.val, int)]
    return next((one for one in numbers if 2 < one <= _MOST), 0)


def _by_count(unit: Sequence[Make], counts: Sequence[Count]) -> int:
    """How many such units the stated count is, where it is a whole number of them."""
    one = sum(step.each.values[0] or 0 for step in unit)
    for count in counts:
        total = count.number.values[0] if not (count.number.many or count.per or count.change) else None
        if total and total % one == 0 and 2 < total // one <= _MOST:
            return total // one
    return 0
