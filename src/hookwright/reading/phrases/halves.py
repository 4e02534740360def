"""A row's second half told by its first: "… (2 dc, ch 2, 2 dc) in center sp, work second half to match", "mirror on the other side"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...pattern import ONE, Aside, Chain, Colour, Make, Place, Repeat, Sized, Skip, Step, Times, Together, Turn, told_backwards
from .cursor import Cursor
from .sides import SIDES

EXAMPLES = (
    ("Ch 1, sc in each st to center sp, 3 sc in center sp, work second half to match", "ch1, sc×rest to center sp, 3sc@next sp#0, sc×rest"),
    ("Sc in each st to center st, 3 sc in center st, complete row to correspond", "sc×rest to center, 3sc@next st#0, sc×rest"),
    (
        "2 sc in first st, sc in each st to corner, 3 sc in corner, mirror on other side",
        "2sc@first st, sc×rest to corner, 3sc@next corner, sc×rest−1, 2sc@last st",
    ),
)

_LIKE = frozenset(
    """
    mirror mirrored mirroring mirrors match matching matches correspond corresponding same as like reversed
    """.split()  # noqa: SIM905
)
_SELF = frozenset(("mirror", "mirrored", "mirroring", "mirrors", "reverse"))
_COMPLETES = frozenset(("complete", "finish", "completing", "finishing"))
_SMALL = frozenset(
    """
    w idle the then to on in for of and same as like other o work cont complete end rep with reversing a it is next
    """.split()  # noqa: SIM905
)


def second_half(c: Cursor) -> list[Step] | None:
    """The row's steps up to its middle, from the middle back to their beginning. None with the cursor unmoved."""
    if len(c.frames) != 1 or not any(map(_to_the_middle, c.out)):
        return None
    end = c.i
    whole = c.t[c.i].text.lower() in _COMPLETES
    while c.t[end].kind in _SMALL or c.t[end].kind in SIDES or (whole and c.t[end].kind in ("row", "rnd", "rest", "rem")):
        end += 1
    told = c.t[c.i : end]
    words = {token.text.lower() for token in told} | {str(token.val) for token in told}
    completed = whole and bool({"row", "rnd"} & {token.kind for token in told})  # "complete row to correspond"
    half = any(token.kind in SIDES for token in told) or "end" in words or completed
    if c.t[end].kind not in (",", ".", ";", "", "(", "[", "turn", "ch") or not half or not words & (_LIKE | _SELF):
        return None
    if not completed and (words & {"row", "rnd"} or (not any(token.kind in SIDES for token in told) and not words & _SELF)):
        return None
    mirrored = _from_the_middle(c)
    if mirrored is None:
        return None
    start, c.i = c.i, end
    span = c.span(start)
    return [_anew(c, replace(step, span=span)) for step in mirrored]


def _to_the_middle(step: Step) -> bool:
    return (isinstance(step, Make) and bool(step.upto)) or (isinstance(step, Repeat) and step.times.kind == "to_place")


def _from_the_middle(c: Cursor) -> list[Step] | None:
    """The first half backwards: without what begins the row, and without the middle itself."""
    steps = [step for step in c.out if not isinstance(step, Aside)]
    worked = [k for k, step in enumerate(steps) if isinstance(step, (Make, Together, Repeat))]
    head = next((k for k, step in enumerate(steps) if not isinstance(step, (Chain, Turn, Colour, Skip))), 0)
    middle = worked[-1] if worked else 0
    half = steps[head:middle]
    if (again := _unit_again(steps, middle)) is not None:
        return [again]
    if middle <= head or not any(map(_to_the_middle, half)) or _to_the_middle(steps[middle]):
        return None
    chain = next((step for step in steps[:head] if isinstance(step, Chain) and (step.number.values[0] or 0) > 2), None)
    if isinstance(half[0], Make) and half[0].at.where == "same":
        first = half[0]
        number = Sized(tuple(None if n is None else n + (chain is not None) for n in first.each.values))
        half[0] = replace(first, each=number, at=Place(where="first"))  # "ch 3, dc in same st" is "2 dc in last st" from the other end
    elif chain is not None and isinstance(half[0], Make):
        half.insert(0, Make(id=0, span=half[0].span, stitch=half[0].stitch, each=ONE, places=ONE, at=Place(where="first")))
    if any(isinstance(step, (Make, Together)) and step.at.where == "same" for step in half):
        return None
    return told_backwards(half)


def _unit_again(steps: Sequence[Step], middle: int) -> Repeat | None:
    """ "*ch 2, skip 2, dc in next; repeat from * to center dc, ch 3, dc in same st": the middle stitch is the last of the repeat, and was
    told twice; from it to the row's end its unit comes again and again. None for other middles."""
    told = steps[middle]
    run = next((step for step in reversed(steps[:middle]) if not isinstance(step, Chain)), None)
    if not isinstance(told, Make) or told.at.where != "same" or not isinstance(run, Repeat) or run.times.kind != "to_place":
        return None
    first = [step for step in steps[: steps.index(run)] if isinstance(step, (Make, Together, Repeat))]
    last = run.body[-1]
    if not isinstance(last, Make) or last.stitch != told.stitch or any(step != last and not _alike(step, last) for step in first):
        return None
    return replace(run, times=Times(kind="rest"), last=())


def _alike(step: Step, other: Make) -> bool:
    return isinstance(step, Make) and (step.stitch, step.each, step.places) == (other.stitch, other.each, other.places)


def _anew(c: Cursor, step: Step) -> Step:
    """The step under a number of its own."""
    if isinstance(step, (Repeat, Together)):
        return replace(step, id=c.id(), body=tuple(_anew(c, inner) for inner in step.body))
    return replace(step, id=c.id())
