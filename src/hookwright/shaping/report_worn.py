"""What `hookwright shape` says of a flat piece when it is worn: which way its ends lean."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, Final, TypeAlias

from ..measuring import Assembled, HangingEnd, OverShoulders, hang_strip, over_shoulders
from .outlines import RelaxedOutline
from .piece import PartShape
from .words import both, in_cm

Worn: TypeAlias = tuple[HangingEnd, HangingEnd] | OverShoulders | None


WORN_AS_THEY_ARE: Final = ("bordered",)
"""What may be made of parts that still hang by their own ends; anything else closes or joins them."""


def worn_of(part: PartShape, bent: RelaxedOutline | None, things: Sequence[Assembled]) -> Worn:
    """How a piece that lies flat hangs when worn; None of any other, and of one that is sewn to a ring, a bag or to others."""
    it = part.measures
    if it.in_rounds or part.lies != "flat" or any(it.name in thing.names and thing.kind not in WORN_AS_THEY_ARE for thing in things):
        return None
    strip = hang_strip(it.outline) if bent is None else None
    return strip or over_shoulders(it.outline if bent is None else bent.outline, named=bent is None)


def worn_json(worn: Worn) -> dict[str, Any] | None:
    """It as JSON."""
    if worn is None:
        return None
    if isinstance(worn, OverShoulders):
        return {
            "as": "triangle", "side_cm": in_cm(worn.side_cm), "point_cm": in_cm(worn.point_cm), "aside_cm": in_cm(worn.aside_cm),
            "arms_cm": [in_cm(arm) for arm in worn.arms_cm], "along_neck": worn.neck or None, "arms_at": [end or None for end in worn.ends],
            "or": worn_json(worn.also),
        }  # fmt: skip
    ends = [
        {
            "end": e.end, "drop_cm": in_cm(e.drop_cm), "leading_edge": e.leading.removeprefix("edge ") or None,
            "ahead_cm": in_cm(abs(e.ahead_cm)), "slant_deg": abs(e.slant_deg),
        }
        for e in worn
    ]  # fmt: skip
    return {"as": "strip", "ends": ends}


def worn_lines(worn: Worn) -> Iterator[str]:
    """It as sentences."""
    if isinstance(worn, OverShoulders):
        yield from _triangle_lines(worn)
    elif worn is not None:
        a, b = worn
        yield f"Round a neck, each end hangs {both(a.drop_cm)}."
        if a.leading and a.leading == b.leading:
            yield f"Both ends are longer at {_the(a.leading)}: worn with it inward they point to the middle, outward to the sides."
        elif a.leading and b.leading:
            yield (
                f"The end at {_the(a.end)} is longer at {_the(a.leading)}, that at {_the(b.end)} at {_the(b.leading)}: they lean the "
                "same way, one points to the middle, the other to the side."
            )
        elif a.leading or b.leading:
            slanted, straight = (a, b) if a.leading else (b, a)
            yield (
                f"The end at {_the(slanted.end)} is longer at {_the(slanted.leading)}, by {both(abs(slanted.ahead_cm))}: worn with it "
                f"inward it points to the middle, outward to the side. The end at {_the(straight.end)} is straight."
            )


def _triangle_lines(worn: OverShoulders) -> Iterator[str]:
    how = f", worn with {_the(worn.neck)} along the neck" if worn.neck else ""
    lean = f"{both(worn.aside_cm)} beside the middle" if worn.leans else "in the middle"
    if worn.leans and all(worn.ends):
        short, long = sorted(zip(worn.arms_cm, worn.ends, strict=True))
        arms = f"the end at {_the(short[1])} is {both(short[0])} long, that at {_the(long[1])} {both(long[0])}"
    else:
        arms = "its ends are " + " and ".join(both(arm) for arm in sorted(worn.arms_cm)) + " long"
    yield f"Over the shoulders{how}, its point hangs {both(worn.point_cm)} down, {lean}; {arms}."
    if worn.also is not None:
        yield from _triangle_lines(worn.also)


def _the(name: str) -> str:
    return name if name.startswith("edge") else f"the {name}"
