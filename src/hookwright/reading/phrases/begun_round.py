"""A round told as far as its first unit, which its starting chain begins, and then "repeat around": how the unit comes again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...pattern import ONE, Aside, Chain, Colour, Join, Make, Place, Repeat, Sized, Step, Times, Together, Turn
from ...trade.kinds import as_high
from .cursor import Cursor

EXAMPLES = (
    (
        "sl st to corner, ch 3, 2 dc, ch 2, 3 dc in corner, ch 1, 3 dc in next ch-1 sp, ch 1, repeat around",
        "sl st@next corner, ch3, {2dc@same st, ch2, 3dc@same st}@next corner, ch1, 3dc@next ch-1 sp, ch1, "
        "[{3dc@same st, ch2, 3dc@same st}@next corner, ch1, 3dc@next ch-1 sp, ch1]×rest",
    ),
)


def comes_again(told: Sequence[Step]) -> tuple[Step, ...] | None:
    """The unit of a row so far ("sl st to corner, ch 3, (2 dc, ch 2, 3 dc) in corner, ch 1") as it is worked after the first time: a whole
    group in the next such place, no slip stitches and no starting chain. None where the row does not begin with a group in one place."""
    led, at = _opening(told)
    steps = list(told[at:])
    group = steps[0] if steps else None
    if isinstance(group, Together) and group.places == ONE and isinstance(group.body[0], Chain):
        steps = [group.body[0], replace(group, body=group.body[1:]), *steps[1:]]
    if len(steps) < 2 or not isinstance(chain := steps[0], Chain) or chain.foundation or chain.counts is False:
        return None
    first, *others = steps[1:]
    if not isinstance(first, (Make, Together)) or first.places != ONE or not _of_group(first):
        return None
    whole = _with_one_more(first, chain)
    if whole is None or (first.at.where == "same" and led is None):
        return None
    place = led if first.at.where == "same" and led is not None else first.at
    return (replace(whole, at=replace(place, where="next")), *others)


def _opening(told: Sequence[Step]) -> tuple[Place | None, int]:
    """Where slip stitches or a new yarn lead to, and how many steps do so."""
    led: Place | None = None
    for at, step in enumerate(told):
        if isinstance(step, (Colour, Make)) and (isinstance(step, Colour) or step.stitch == "sl st"):
            led = step.at or led
        elif not isinstance(step, (Aside, Turn, Colour, Join)):
            return led, at
    return led, len(told)


def _of_group(step: Make | Together) -> bool:
    """Whether it goes into the place that the chain stands in: a space, a corner, "the same"."""
    return step.at.where == "same" or step.at.what == "corner" or step.at.what.endswith("sp")


def _with_one_more(step: Make | Together, chain: Chain) -> Make | Together | None:
    """The group with a stitch for the chain that stood for one."""
    if isinstance(step, Together):
        first = step.body[0] if step.body else None
        more = _more(first, chain) if isinstance(first, Make) else None
        return replace(step, body=(more, *step.body[1:])) if more is not None else None
    return _more(step, chain)


def _more(step: Make, chain: Chain) -> Make | None:
    if step.closes != 1 or (chain.stands_for[:1] != (step.stitch,) and not as_high(chain.number.at(0) or 0, step.stitch)):
        return None
    if step.places == ONE:
        return replace(step, each=_one_more(step.each))
    return replace(step, places=_one_more(step.places)) if isinstance(step.places, Sized) else None


def _one_more(number: Sized[int]) -> Sized[int]:
    return Sized(tuple(None if n is None else n + 1 for n in number.values))


_ON = frozenset(("repeat", "rep", "repeating", "continue", "cont", "keep", "proceed", "carry on", "go", "do", "work"))
_SAID = frozenset(
    """
    repeat repeating continue keep going go on doing working do work this that these the same like so as in way manner fashion around round
    all each every for of other remaining rest three 3 two 2 times time more from here to end until back you reach get start beginning way
    corner corners side sides square rnd along entire whole and
    """.split()  # noqa: SIM905
)
_ROUND = frozenset(("around", "round", "side", "sides", "corner", "corners", "way", "manner", "fashion", "like"))


def round_again(c: Cursor) -> list[Step] | None:
    """ "Continue around in this way", "repeat this on the remaining three sides", "do the same in each corner": a sentence that has the
    round's first unit come again all round; None with the cursor unmoved."""
    if c.t[c.i].text.lower() not in _ON or len(c.frames) > 1:
        return None
    stop = c.i
    while c.t[stop].kind and c.t[stop].kind not in (",", ";", ".", "(", "["):
        stop += 1
    words = [word for token in c.t[c.i : stop] for word in token.text.lower().split()]
    if not set(words) <= _SAID or not set(words) & _ROUND or (unit := comes_again(c.out)) is None:
        return None
    start, c.i = c.i, stop
    pass_told_again(c, unit)
    return [Repeat(id=c.id(), span=c.span(start), body=unit, times=Times(kind="rest"))]


def pass_told_again(c: Cursor, unit: Sequence[Step]) -> None:
    """Past ", working (3 dc, ch 2, 3 dc) in each corner and 3 dc in each space": what the unit is, said again."""
    if c.kind != "," or c.look().kind not in ("work", "with") or c.look(2).kind not in ("(", "[", "n", "a", "st", "grp"):
        return
    stop = c.stops[c.i]
    words = c.t[c.i : stop]
    told = {c.us(str(token.val)) for token in words if token.kind == "st"}
    if any(token.kind == "each" for token in words) and told <= _kinds(unit):
        c.i = stop


def _kinds(steps: Sequence[Step]) -> set[str]:
    kinds: set[str] = set()
    for step in steps:
        if isinstance(step, Make):
            kinds.add(step.stitch)
        elif isinstance(step, (Together, Repeat)):
            kinds |= _kinds(step.body)
    return kinds
