"""Rows told as another row with a difference: "as Row 5 but with 5 chains in each loop", "reversing shaping"."""

from __future__ import annotations

from dataclasses import replace
from itertools import takewhile

from ..pattern import (
    ONE,
    Aside,
    Chain,
    Colour,
    FastenOff,
    Join,
    Make,
    Place,
    Refer,
    Repeat,
    Sized,
    Skip,
    Step,
    Together,
    Turn,
    Unread,
    told_backwards,
)
from ..pattern.walking import walk
from ..trade.kinds import HEIGHT, base
from .edges_grown import edges_grown, edges_of, runs_grown
from .growing import with_runs_of


def changed(steps: tuple[Step, ...], refer: Refer) -> tuple[Step, ...]:
    """The steps of the row referred to, with the changes the words tell. A change that cannot be placed stays as unread words."""
    if refer.reverse:
        steps = mirrored(steps)
    for change in refer.changes:
        if isinstance(change, Together) and len(change.body) == 1 and isinstance(change.body[0], Chain) and change.places == "rest":
            change = change.body[0]  # "with 7 chs in each lp"
        if isinstance(change, Chain):
            steps = _last_chain(tuple(_with_chains(s, change) for s in steps), steps, change)
        elif isinstance(change, Colour):
            steps = (joined_as(change, steps), *(s for s in steps if not isinstance(s, Colour)))
        elif isinstance(change, Make) and change.at == Place(what="corner", between=True) and isinstance(change.places, Sized):
            steps = _between_corners(steps, change, change.places.values[0] or 0)
        elif isinstance(change, Make) and change.at == Place(what="inc", between=True) and isinstance(change.places, Sized):
            steps = with_runs_of(steps, change.places.values[0] or 0) or (*steps, Unread(id=change.id, span=change.span))
        elif isinstance(change, Make) and change.at.what == "run" and change.at.nth is not None and isinstance(change.places, Sized):
            opening = _opening(steps) if _tells_chain(steps, change.at.nth) else ()
            steps = (*opening, *(_so_long(s, change.stitch, change.at.nth, change.places) for s in steps[len(opening) :]))
        elif isinstance(change, Make) and change.at == Place(what="run"):
            steps = _sides_of(steps, change)
        elif isinstance(change, Make) and change.at.loop != "both" and change.places == "rest":
            steps = tuple(_in_loop(s, change.at) for s in steps)
        elif isinstance(change, Make) and change.places == "rest" and change.at.what in HEIGHT:
            steps = tuple(_onto(s, change) for s in steps)
        elif isinstance(change, Make) and (grown := _grown(steps, change)) is not None:
            steps = grown
        elif isinstance(change, Repeat) and _goes_over_groups(change):
            steps = (*_opening(steps), change, *(s for s in steps if isinstance(s, (Join, Turn, FastenOff))))
        elif isinstance(change, Repeat) and any(map(_round_and_round, steps)):
            steps = tuple(change if _round_and_round(s) else s for s in steps if not _slips_to_a_space(s))  # every space is filled
        elif isinstance(change, Join):
            kept = _without_end(steps)
            if any(isinstance(step, Turn) for step in steps[len(kept) :]) and all(isinstance(step, Chain) for step in change.closing):
                kept = kept[:-1] if kept and isinstance(kept[-1], Chain) else kept  # "ch 3, turn" gives way to "ch 1, turn"
            steps = (*kept, *change.closing)
        elif isinstance(change, Aside):
            continue
        else:
            steps = (*steps, Unread(id=change.id, span=change.span))
    return steps


def _goes_over_groups(change: Repeat) -> bool:
    """ "(Same as last row,) but working 1 dc in each dc of the groups, with ch 6 between": all of the round's work is told."""
    first = change.body[0] if change.body else None
    return change.times.kind == "rest" and isinstance(first, Make) and first.places == "rest" and first.upto == "sp"


def _opening(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The chain, and the colour, that a row begins with."""
    return tuple(takewhile(lambda step: isinstance(step, (Chain, Colour, Aside)), steps))


def _tells_chain(steps: tuple[Step, ...], was: int) -> bool:
    """Whether chains of that number stand behind the one the row begins with, which stands for a stitch and stays as high."""
    return any(isinstance(step, Chain) and step.number.values == (was,) for step in walk(steps[len(_opening(steps)) :]))


def _onto(step: Step, change: Make) -> Step:
    """ "(Like the 4th row,) the sc coming in the sc", "taking each sc round an sc of that round": the stitches of that kind go there."""
    if isinstance(step, (Repeat, Together)):
        return replace(step, body=tuple(_onto(inner, change) for inner in step.body))
    if not isinstance(step, Make) or base(step.stitch) != base(change.stitch) or step.at.where not in ("next", "first"):
        return step
    if step.at.what != "st" and step.at.what not in HEIGHT:
        return step
    return replace(step, at=replace(step.at, what=change.at.what, row=change.at.row))


def ends_in_chain(refer: Refer, after: tuple[Step, ...]) -> bool:
    """Whether all that a repeated row is told to have of its own is the chain it ends with: "repeat last row 5 times, ending with ch 1,
    turn" tells it of the last of them."""
    closing = refer.changes[0].closing if len(refer.changes) == 1 and isinstance(refer.changes[0], Join) else ()
    return bool(closing) and all(isinstance(step, Chain) for step in closing) and all(isinstance(step, (Turn, Aside)) for step in after)


def recoloured(before: tuple[Step, ...], steps: tuple[Step, ...]) -> tuple[tuple[Step, ...], tuple[Step, ...]]:
    """A row's own words, and those of the row it names, whose colour gives way to one told in the row itself. "With B, as Row 3" joins B in
    the place where A was joined in that row."""
    colour = next((step for step in reversed(before) if isinstance(step, Colour)), None)
    if colour is None or not isinstance(steps[0] if steps else None, Colour):
        return before, steps
    if all(isinstance(step, (Colour, Aside)) for step in before):
        before = tuple(joined_as(step, steps) if step is colour else step for step in before)
    return before, steps[1:]


def joined_as(colour: Colour, steps: tuple[Step, ...]) -> Colour:
    """The colour, joined in the place where these steps begin by joining theirs, unless it tells its own."""
    first = steps[0] if steps else None
    if colour.at is not None or not isinstance(first, Colour) or first.at is None:
        return colour
    return replace(colour, join_in=first.join_in, at=first.at)


def _so_long(step: Step, stitch: str, was: int, number: Sized[int]) -> Step:
    """ "11 dc for the 7": the step with its runs of `was` stitches (of that kind, "" = of any, "ch" = chains) as long as `number`."""
    if isinstance(step, Repeat):
        body, last = (tuple(_so_long(s, stitch, was, number) for s in told) for told in (step.body, step.last))
        return replace(step, body=body, last=last)
    if isinstance(step, Together):
        return replace(step, body=tuple(_so_long(s, stitch, was, number) for s in step.body))
    if isinstance(step, Chain):
        return replace(step, number=number) if stitch in ("", "ch") and step.number.values == (was,) else step
    if not isinstance(step, Make) or stitch not in ("", step.stitch):
        return step
    if isinstance(step.places, Sized) and step.places.values == (was,):
        return replace(step, places=number)
    return replace(step, each=number) if step.each.values == (was,) else step


def _sides_of(steps: tuple[Step, ...], change: Make) -> tuple[Step, ...]:
    """ "As Row 3 but with 11 dc on each side": the plain runs of that stitch as long as is told, where all are told alike and shorter.

    Others are left as they stand: what they meet in the row below tells how long they have grown."""
    bodies = (steps, *(step.body for step in steps if isinstance(step, Repeat)))
    long = {step.places for body in bodies for step in body if _is_run(step, change.stitch)}  # type: ignore[union-attr]
    was = next(iter(long)).values[0] or 0 if len(long) == 1 else 0  # type: ignore[union-attr]
    if not was or not isinstance(change.places, Sized) or was >= (change.places.values[0] or 0):
        return steps
    return tuple(_run_of(step, change) for step in steps)


def _between_corners(steps: tuple[Step, ...], change: Make, number: int) -> tuple[Step, ...]:
    """ "As Rnd 4, having 8 dc between corners": the edges as long as is told; those that go to a corner anyway stay as they are."""
    told = edges_of(steps, number, change.stitch)
    if told is not None:
        return told
    if runs_grown(steps) is not None or edges_grown(steps) is not None:
        return steps
    return (*steps, Unread(id=change.id, span=change.span))


def _is_run(step: Step, stitch: str) -> bool:
    """Several plain stitches of that kind, one in a place."""
    if not isinstance(step, Make) or step.stitch != stitch or step.at.where != "next" or step.each != ONE:
        return False
    return isinstance(step.places, Sized) and not step.places.many and step.places != ONE


def _run_of(step: Step, change: Make) -> Step:
    if isinstance(step, Repeat):
        return replace(step, body=tuple(_run_of(inner, change) for inner in step.body))
    return replace(step, places=change.places) if isinstance(step, Make) and _is_run(step, change.stitch) else step


def _grown(steps: tuple[Step, ...], change: Make) -> tuple[Step, ...] | None:
    """ "As Rnd 4, having 5 dc in each group", "but with 8 dc to the petal": the groups of that stitch as much larger as those in the
    repeat; None where none stands."""
    told = max((_most(step, change.stitch) for step in steps if isinstance(step, Repeat) or _all_over(step)), default=0)
    wanted = _amount(change)
    if told < 2 or wanted < 2:
        return None
    return tuple(_larger(step, change.stitch, wanted - told) for step in steps)


def _round_and_round(step: Step) -> bool:
    """A unit repeated to the end: "(as the 5th,) but work 2 sc in every loop, with 5 ch between" tells another in its place."""
    return isinstance(step, Repeat) and step.times.kind == "rest"


def _slips_to_a_space(step: Step) -> bool:
    return isinstance(step, Make) and step.stitch == "sl st" and step.at.what.endswith("sp")


def _all_over(step: Step) -> bool:
    return isinstance(step, Together) and step.places == "rest"


def _amount(step: Make) -> int:
    return (step.each.values[0] or 0) * (step.places.values[0] or 0 if isinstance(step.places, Sized) else 1)


def _most(step: Step, stitch: str) -> int:
    if isinstance(step, (Repeat, Together)):
        return max((_most(inner, stitch) for inner in step.body), default=0)
    return _amount(step) if isinstance(step, Make) and step.stitch == stitch else 0


def _larger(step: Step, stitch: str, by: int) -> Step:
    if isinstance(step, (Repeat, Together)):
        return replace(step, body=tuple(_larger(inner, stitch, by) for inner in step.body))
    if not isinstance(step, Make) or step.stitch != stitch or _amount(step) < 2:
        return step
    if (step.each.values[0] or 1) > 1:
        return replace(step, each=_more(step.each, by))
    return replace(step, places=_more(step.places, by)) if isinstance(step.places, Sized) else step


def _more(number: Sized[int], by: int) -> Sized[int]:
    return Sized(tuple(None if n is None else max(1, n + by) for n in number.values))


def _without_end(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps without what ends the row: its join, its turn, the last repeat's own ending."""
    kept = list(steps)
    while kept and isinstance(kept[-1], (Join, Turn, FastenOff, Aside)):
        kept.pop()
    if kept and isinstance(kept[-1], Repeat):
        kept[-1] = replace(kept[-1], last=(), cut=None)
    return tuple(kept)


def _with_chains(step: Step, chain: Chain) -> Step:
    """The chains inside repeats and groups made as long as told; starting chains stay."""
    if isinstance(step, Repeat):
        return replace(step, body=tuple(_chains(s, chain) for s in step.body))
    if isinstance(step, Together):
        return replace(step, body=tuple(_chains(s, chain) for s in step.body))
    return step


def _last_chain(steps: tuple[Step, ...], before: tuple[Step, ...], chain: Chain) -> tuple[Step, ...]:
    """The steps, a chain that closes the round behind its repeat ("…, 5 ch, join") made as long as those in the repeat."""
    unit = next((k for k in range(len(before) - 1, -1, -1) if isinstance(before[k], Repeat)), len(before))
    repeat = before[unit] if unit < len(before) else None
    told = [inner.number for inner in repeat.body if isinstance(inner, Chain)] if isinstance(repeat, Repeat) else []
    return tuple(
        replace(step, number=chain.number) if k > unit and isinstance(step, Chain) and step.number in told else step
        for k, step in enumerate(steps)
    )


def _chains(step: Step, chain: Chain) -> Step:
    return replace(step, number=chain.number) if isinstance(step, Chain) else _with_chains(step, chain)


def _in_loop(step: Step, place: Place) -> Step:
    if isinstance(step, Make):
        return replace(step, at=replace(step.at, loop=place.loop))
    if isinstance(step, Repeat):
        return replace(step, body=tuple(_in_loop(s, place) for s in step.body))
    return step


def mirrored(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The same row worked from its other end: starting chains and turns keep their place, the work is told backwards."""
    if any(isinstance(s, (Make, Together)) and s.at.where == "from_hook" for s in steps):
        return steps  # along the foundation chain there is one way only
    head = next((i for i, s in enumerate(steps) if not isinstance(s, (Chain, Turn, Colour))), len(steps))
    tail = next((i for i in range(len(steps), head, -1) if not isinstance(steps[i - 1], (Chain, Turn))), head)
    return (*steps[:head], *told_backwards(steps[head:tail]), *steps[tail:])


def chart_turned(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """A row of filet squares worked again on the way back through its chart: they go over whatever lies under them there."""
    return tuple(_on_any(step) for step in steps)


def _on_any(step: Step) -> Step:
    if not isinstance(step, Repeat):
        return step
    match tuple(one for one in step.body if not isinstance(one, Aside)):
        case (Make() as pair, Make() as top) if pair.at.what == "sp" and pair.each == _TWO and pair.stitch == top.stitch:
            return replace(step, body=(replace(top, places=_THREE, at=Place(what="any", span=top.at.span)),))
        case (Chain() as chain, Skip() as skip, Make() as top) if skip.what == "sp" or skip.number == chain.number:
            return replace(step, body=(chain, replace(skip, number=chain.number, what="any"), replace(top, at=Place(span=top.at.span))))
    return replace(step, body=chart_turned(step.body))


_TWO, _THREE = Sized((2,)), Sized((3,))


def lifted(steps: tuple[Step, ...], onto: str = "st") -> tuple[Step, ...]:
    """A row written on the foundation chain, worked again on stitches: "in each st of ch" is then in each stitch, and the first of them,
    which was counted from the hook, in the next. `onto`: "any" where chains are places too."""
    out: list[Step] = []
    for step in steps:
        if isinstance(step, (Make, Together)) and step.at.where == "from_hook":
            step = replace(step, at=Place(span=step.at.span))
        elif isinstance(step, (Make, Together)) and step.at.what == "ch" and step.at.where in ("next", "first", "last"):
            step = replace(step, at=replace(step.at, what=onto))
        elif isinstance(step, Repeat):
            step = replace(step, body=lifted(step.body, onto))
        out.append(step)
    return tuple(out)
