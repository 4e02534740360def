"""Stitches, a chain and the same stitches again, told before the one place they all go into: "2 dc, ch 2, 2 dc in next sp"; and two kinds
told so ("sc and 2 dc in next st").

Print leaves out the brackets. That each lot goes into places of its own is kept as the second reading.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from ..pattern import NEXT, ONE, ZERO, Aside, Chain, Choice, Make, Place, Repeat, Sized, Skip, Span, Step, Together, is_picot

QUESTION = "Do stitches on both sides of a chain, with one place told after them, all go into that place?"
PAIR = "Do two kinds of stitches joined by “and”, with one place told after them, both go into that place?"
RUN = "Do stitches with chains between them, and one more joined by “and” with one place told, all go into that place?"
_FEW = 3
_MOST = 8
_LONGEST = 12
_SPACES = ("sp", "lp", "loop", "corner", "ring")


def in_one_place(
    steps: tuple[Step, ...], fresh: Callable[[], int], told: Callable[[Step], bool], joined: Callable[[Step, Step], bool]
) -> tuple[Step, ...]:
    """The steps with such a three taken as one group (or apart, where only that fits). `fresh` gives ids for new nodes, `told` answers
    whether a step's own words name a place, `joined` whether nothing but "and" stands between two steps."""
    out: list[Step] = []
    k = seen = 0
    while k < len(steps):
        first = (
            _first_of_chain(steps, k, fresh, told) if not any(isinstance(one, (Make, Together, Repeat, Choice)) for one in out) else None
        )
        if first is not None:
            out.append(first[0])
            k += first[1]
            continue
        petal = _petal(steps, k, fresh, told)
        if petal is not None:
            out.append(petal[0])
            k += petal[1]
            continue
        both = _joined_pair(steps, k, fresh, told) if k + 1 < len(steps) and joined(steps[k], steps[k + 1]) else None
        if both is not None:
            out.append(both)
            k += 2
            continue
        run = _joined_run(steps, k, fresh, told) if k + 1 < len(steps) and joined(steps[k], steps[k + 1]) else None
        if run is not None:
            out.append(run)
            k += 2
            continue
        while seen < len(out) and not isinstance(out[seen], (Make, Together, Repeat, Choice)):
            seen += 1
        pair = _first_two(steps, k, fresh) if seen == len(out) else None  # nothing is worked before it
        if pair is not None:
            out.append(pair)
            k += 2
            continue
        three = steps[k : k + 3]
        wide = k > 0 and _passes_several(steps[k - 1]) and len(three) == 3 and told(three[2]) and not told(three[0])
        group = _group(three[0], three[1], three[2], fresh, wide, told) if len(three) == 3 else None
        step = group or steps[k]
        if isinstance(step, Repeat):
            step = replace(step, body=in_one_place(step.body, fresh, told, joined), last=in_one_place(step.last, fresh, told, joined))
        out.append(step)
        k += 3 if group is not None else 1
    return tuple(out)


def _first_of_chain(steps: tuple[Step, ...], k: int, fresh: Callable[[], int], told: Callable[[Step], bool]) -> tuple[Together, int] | None:
    """ "2 dc, ch 2, 3 dc in 4th ch from hook" at a row's beginning: nothing can stand before that chain, so that all of it goes there; and
    how many steps it is."""
    end = k
    while end < len(steps) and end - k < _FEW and _listed(steps[end], told) and not isinstance(steps[end], Aside):
        end += 1
    last = steps[end] if end < len(steps) else None
    if end == k or not isinstance(last, Make) or last.at.where != "from_hook" or last.places != ONE or not isinstance(steps[k], Make):
        return None
    body = tuple(replace(one, at=NEXT) if isinstance(one, Make) else one for one in steps[k : end + 1])
    span = Span(steps[k].span.start, last.span.end)
    return Together(id=fresh(), span=span, body=body, at=last.at), end + 1 - k


def _petal(steps: tuple[Step, ...], k: int, fresh: Callable[[], int], told: Callable[[Step], bool]) -> tuple[Together | Choice, int] | None:
    """ "1 sc, 1 hdc, 5 dc, 1 hdc, 1 sc in each loop": a list that goes up and comes down again, its place told once, at its end; and how
    many steps it is."""
    end = k
    while end < len(steps) and end - k < _LONGEST and _listed(steps[end], told):
        end += 1
    last = steps[end] if end < len(steps) else None
    if isinstance(steps[k], Aside) or not isinstance(last, Make) or end - k < 2 or last.upto:
        return None
    if not _is_space(last.at) or last.places not in (ONE, "rest"):
        return None
    listed = tuple(step for step in steps[k : end + 1] if not isinstance(step, Aside))
    shape = [_told_alike(step) for step in listed]
    few = 2 if any(map(is_picot, listed)) else 3
    if shape != shape[::-1] or None in shape or sum(isinstance(step, Make) for step in listed) < few:
        return None
    span = Span(listed[0].span.start, last.span.end)
    body = tuple(
        replace(one, id=fresh(), each=Sized((shape[n][1],)), places=ONE, at=NEXT) if isinstance(one, Make) else one  # type: ignore[index]
        for n, one in enumerate(listed)
    )
    group = Together(id=fresh(), span=span, body=body, at=last.at, places=last.places)
    if last.places == "rest":
        return group, end + 1 - k
    return Choice(id=fresh(), span=span, question=QUESTION, answers=((group,), listed)), end + 1 - k


def _listed(step: Step, told: Callable[[Step], bool]) -> bool:
    """Whether the step may stand in a list whose place is told at its end."""
    return isinstance(step, Aside) or is_picot(step) or (isinstance(step, (Make, Chain)) and not told(step))


def _told_alike(step: Step) -> tuple[str, int] | None:
    """The stitch and how many of it; None where that is not one number."""
    if is_picot(step):
        return "picot", 1
    if isinstance(step, Chain) and not step.foundation and not step.number.many:
        return "ch", step.number.values[0] or 0
    if not isinstance(step, Make) or step.closes > 1 or step.stitch == "sl st" or step.each.many:
        return None
    number = step.places if isinstance(step.places, Sized) else ONE
    return (step.stitch, (step.each.values[0] or 0) * (number.values[0] or 0)) if not number.many else None


def _unplaced(step: Make, told: Callable[[Step], bool]) -> bool:
    """Whether its words name no place; the loop that a whole row is worked in is none."""
    return step.at == NEXT or (not told(step) and replace(step.at, loop="both") == NEXT)


def _is_space(at: Place) -> bool:
    return at.where in ("next", "same", "first", "last") and at.what.endswith(_SPACES)


def _first_two(steps: tuple[Step, ...], k: int, fresh: Callable[[], int]) -> Together | None:
    """ "S c, d c in 1st d c": at a row's beginning, two stitches before the first place told are both in it."""
    if k + 1 >= len(steps):
        return None
    one, two = steps[k], steps[k + 1]
    if not (isinstance(one, Make) and isinstance(two, Make)) or one.at != NEXT or one.places != ONE or one.each != ONE:
        return None
    if two.at.where != "first" or two.places != ONE or two.closes > 1 or "sl st" in (one.stitch, two.stitch):
        return None
    span = Span(one.span.start, two.span.end)
    return Together(id=fresh(), span=span, body=(one, replace(two, id=fresh(), at=NEXT)), at=two.at)


def _joined_pair(steps: tuple[Step, ...], k: int, fresh: Callable[[], int], told: Callable[[Step], bool]) -> Step | None:
    """ "Skip 2 ch, sc and 2 dc in next ch": two kinds joined by "and" before one place both go into it."""
    one, two = steps[k], steps[k + 1]
    if not (isinstance(one, Make) and isinstance(two, Make)) or not _unplaced(one, told) or one.each != ONE or told(one) or not told(two):
        return None
    number = one.places
    if not isinstance(number, Sized) or number.many or (number.values[0] or 0) > _FEW or two.places not in (ONE, "rest"):
        return None
    if {one.stitch, two.stitch} & {"sl st", "inc", "dec"} or one.stitch == two.stitch or one.closes > 1 or two.closes > 1:
        return None
    span = Span(one.span.start, two.span.end)
    body = (replace(one, id=fresh(), each=number, places=ONE, at=NEXT), replace(two, id=fresh(), at=NEXT, places=ONE, but=ZERO, upto=""))
    group = Together(id=fresh(), span=span, body=body, at=two.at, places=two.places, but=two.but, upto=two.upto)
    if two.at.where in ("from_hook", "first", "same"):
        return group  # nothing of the row lies before it
    return Choice(id=fresh(), span=span, question=PAIR, answers=((group,), (one, two)))


def _joined_run(steps: tuple[Step, ...], k: int, fresh: Callable[[], int], told: Callable[[Step], bool]) -> Step | None:
    """ "Skip 3 ch, (dc, ch 1) 4 times and dc in next ch": stitches with chains between them so many times, and joined to them by "and" one
    more of their kind before one place: all of them go into it."""
    run, last = steps[k], steps[k + 1]
    if not isinstance(run, Repeat) or run.times.kind != "n" or run.last or not isinstance(last, Make) or not told(last):
        return None
    makes = [one for one in run.body if isinstance(one, Make)]
    fans = len(makes) == 1 and len(run.body) == 2 and isinstance(run.body[1], Chain) and makes[0].stitch == last.stitch
    if not fans or told(makes[0]) or makes[0].places != ONE or last.places != ONE or last.closes > 1 or last.at.where == "from_hook":
        return None
    span = Span(run.span.start, last.span.end)
    group = Together(id=fresh(), span=span, body=(run, replace(last, id=fresh(), at=NEXT)), at=last.at)
    if last.at.where in ("first", "same"):
        return group
    return Choice(id=fresh(), span=span, question=RUN, answers=((group,), (run, last)))


def _passes_several(step: Step) -> bool:
    """ "skip 3 ch, dc, ch 1, dc in next ch": over so many passed, what has a chain in it spreads again."""
    return isinstance(step, Skip) and all(n is not None and n > 1 for n in step.number.values)


def _group(first: Step, chain: Step, last: Step, fresh: Callable[[], int], wide: bool, told: Callable[[Step], bool]) -> Choice | None:
    if not (isinstance(first, Make) and isinstance(chain, Chain) and isinstance(last, Make)) or chain.foundation:
        return None
    if not _unplaced(first, told) or first.each != ONE or first.closes > 1 or first.evenly or first.upto or first.stitch != last.stitch:
        return None
    number = first.places
    if not isinstance(number, Sized) or number.many or not 0 < (number.values[0] or 0) <= _MOST:
        return None
    likely = True if wide and last.at.where == "next" else _one_place(last, number)
    if last.each != number or last.places != ONE or likely is None:
        return None
    before, after = replace(first, id=fresh(), each=number, places=ONE, at=NEXT), replace(last, id=fresh(), at=NEXT)
    span = Span(first.span.start, last.span.end)
    one = Together(id=fresh(), span=span, body=(before, chain, after), at=last.at)
    answers: tuple[tuple[Step, ...], ...] = ((one,), (first, chain, last))
    return Choice(
        id=fresh(),
        span=span,
        question=QUESTION if likely else f"{QUESTION} (single stitches)",
        answers=answers if likely else answers[::-1],
    )


def _one_place(last: Make, number: Sized[int]) -> bool | None:
    """Whether that is likely: several on each side are; single ones in a space, or round a corner. None where the words rule it out."""
    what = last.at.what
    if last.at.where not in ("next", "same", "first", "last", "ring", "named"):
        return None
    if number != ONE:
        return True
    if what == "corner":
        return True
    return False if last.at.where == "next" and last.at != NEXT and not what.endswith(_SPACES) else None
