"""Shapings told by their effect ("inc 1 st each end"), put as the steps that do it."""

from __future__ import annotations

from collections.abc import Sequence

from ..pattern import Aside, Chain, Colour, Even, Make, Place, Repeat, Shape, Sized, Skip, Step, Turn
from .needs import EVEN_ON, first_stitch


def spell_out(steps: Sequence[Step], k: int, size: int, main: str) -> tuple[Step, ...]:
    """The row's steps with every `Shape` replaced by increases and decreases; `k` is the row's place in its range, from 0.

    A shaping "every n-th row" acts on the n-th, 2n-th … row of the range; on the others the row is worked plainly.
    """
    shapes = [s for s in steps if isinstance(s, Shape)]
    if not shapes:
        return tuple(steps)
    stitch = (
        next((s.stitch for s in steps if isinstance(s, Even) and s.stitch), None) or first_stitch(steps) or _on_chain(steps, size) or main
    )
    start = end = spread = 0
    for shape in shapes:
        if shape.every > 1 and (k + 1) % shape.every:
            continue
        change = shape.change.at(size) or 0
        if shape.where in ("each_end", "beginning"):
            start += change
        if shape.where in ("each_end", "end"):
            end += change
        if shape.where == "evenly":
            spread += change
    shaped = steps.index(shapes[0])
    skipped = [s for s in steps[:shaped] if isinstance(s, Skip)]
    before = [s for s in steps if isinstance(s, (Chain, Colour))] + skipped
    after = [s for s in steps if not isinstance(s, (Chain, Colour, Shape, Even, Make)) and s not in skipped and not _shapes_alone(s)]
    one = shapes[0]
    middle: Step = Even(id=one.id, span=one.span, stitch=stitch)
    if spread:
        middle = Shape(id=one.id, span=one.span, change=Sized.of(spread), where="evenly")
    return (*before, *_edge(one, stitch, start, "next"), middle, *_edge(one, stitch, end, "last"), *after)


def _shapes_alone(step: Step) -> bool:
    """ "* (Sc in next sc, 2 sc in next sc) 3 times, sc in next 13 sc; repeat from *" of the row before, where "continue in this manner,
    increasing 3 sc at each end" tells the shaping anew: units of nothing but single stitches."""
    return isinstance(step, Repeat) and all(isinstance(one, (Make, Aside)) or _shapes_alone(one) for one in (*step.body, *step.last))


def _on_chain(steps: Sequence[Step], size: int) -> str | None:
    """ "Ch 3, turn. Next row: Dec 1 st at each end.": the stitch that so many chains are the height of (common practice, no source)."""
    first = next((s for s in steps if not isinstance(s, (Aside, Colour, Turn))), None)
    return EVEN_ON.get(first.number.at(size) or 0) if isinstance(first, Chain) and not first.foundation else None


def _edge(shape: Shape, stitch: str, change: int, where: str) -> list[Step]:
    if not change:
        return []
    place = Place(where="last" if where == "last" else "next", span=shape.span)
    if change > 0:
        return [Make(id=shape.id, span=shape.span, stitch=stitch, each=Sized.of(change + 1), at=place)]
    takes = 1 - change
    return [Make(id=shape.id, span=shape.span, stitch=f"{stitch}{takes}tog", closes=takes, at=place)]


def spread_evenly(places: int, change: int) -> list[int]:
    """How many stitches go into each of `places` places so that `change` are added evenly (negative: groups taken together, as sizes of
    the groups of places that become one stitch).

    >>> spread_evenly(6, 2), spread_evenly(6, -2)
    ([1, 1, 2, 1, 1, 2], [1, 2, 1, 2])
    """
    if change >= 0:
        return [1 + (i + 1) * change // places - i * change // places for i in range(places)] if places else []
    made = max(places + change, 1)
    return [(i + 1) * places // made - i * places // made for i in range(made)]
