"""Rectangles and strips: straight edges, slanted ends."""

from __future__ import annotations

import re
from dataclasses import replace

from ..asks import Custom, Refused
from ..flatdraft import flat_draft
from ..outline import Outline, box
from ..result import Asked, Draft, Family, Obtained, View
from ..stitchpatterns import PATTERNS, multiple_note, rectangle_in, repeats_for


def rectangle(asked: Asked, custom: Custom) -> Draft:
    """Width along the rows, length across them; plain or in a stitch pattern whose multiple is kept."""
    width, length = asked.cm("width"), asked.cm("length")
    kind = asked.word("pattern", "plain", ("plain", *PATTERNS))
    multiple = asked.words.get("multiple")
    if multiple is not None:
        if kind != "plain":
            raise Refused(f"{kind.capitalize()} keeps a multiple of its own.", "Leave --multiple out.")
        return _in_multiple(*multiple_of(multiple), width, length, custom)
    if kind != "plain":
        return rectangle_in(kind, width, length, custom)
    return flat_draft("rectangle", "Rectangle", box(width, length), custom)


_MULTIPLE = re.compile(r"\s*(?:a?\s*multiple of\s*)?(\d+)\s*(?:(?:[x×*]\s*)?[xX]\s*)?(?:(?:\+|plus)\s*(\d+)\s*)?", re.IGNORECASE)


def multiple_of(text: str) -> tuple[int, int]:
    """The two numbers of a stitch pattern's multiple.

    >>> multiple_of("6 + 3"), multiple_of("6 x X + 3"), multiple_of("multiple of 8 plus 1"), multiple_of("4")
    ((6, 3), (6, 3), (8, 1), (4, 0))
    """
    told = _MULTIPLE.fullmatch(text)
    if told is None or int(told[1]) < 1:
        raise Refused(f"“{text}” is no multiple.", 'Write it as "6 + 3": repeats of 6 stitches, and 3 more.')
    return int(told[1]), int(told[2] or 0)


def _in_multiple(repeat: int, edge: int, width: float, length: float, custom: Custom) -> Draft:
    """Plain rows as wide as whole repeats of a stitch pattern that the maker puts into them."""
    repeats = repeats_for(width, repeat, edge, custom.width_cm, "This multiple")
    stitches = repeats * repeat + edge
    made = flat_draft("rectangle", "Rectangle", box(stitches * custom.width_cm, length), custom)
    wide = Obtained("width", width, stitches * custom.width_cm, custom.width_cm * repeat, "repeat", f"{stitches} {custom.stitch}")
    return replace(
        made,
        sizes=(wide, *made.sizes[1:]),
        views=(View("Rectangle", box(width, length), made.views[0].obtained),),
        notes=(*made.notes, multiple_note("Kept", repeat, edge, repeats)),
        tolerance=(repeat / 2 + 0.01, made.tolerance[1]),
        fit=0.0,
    )


def strip_outline(width: float, length: float, bevel: float, bevels: str, tip: float) -> Outline:
    """A strip worked lengthwise, its ends slanted: edge A left, edge B right.

    "same-edge": both slants lie on edge B, so that the ends face each other when the strip hangs round a neck; "parallel": the second
    lies on edge A.
    """
    first, last = bevels != "last", bevels != "first"
    corners = [(0.0, 0.0), (tip, 0.0), (width, bevel)] if first else [(0.0, 0.0), (width, 0.0)]
    if not last:
        return (*corners, (width, length), (0.0, length))
    if bevels == "parallel":
        return (*corners, (width, length), (width - tip, length), (0.0, length - bevel))
    return (*corners, (width, length - bevel), (tip, length), (0.0, length))


def bevelled_strip(asked: Asked, custom: Custom) -> Draft:
    """A scarf or a collar with slanted ends."""
    width, length = asked.cm("width"), asked.cm("length")
    bevels = asked.word("bevels", "same-edge", ("same-edge", "parallel", "first", "last"))
    tip = asked.get("tip", min(2 * custom.width_cm, width / 2))
    natural = (width - tip) * custom.ratio
    ends = 1 if bevels in ("first", "last") else 2
    told = "bevel" in asked.lengths
    bevel = asked.get("bevel", min(natural, length / ends))
    most = length if bevels == "parallel" else length / ends
    if bevel > most + 1e-9:
        raise Refused(
            f"Bevels of {bevel:.1f} cm do not fit a strip {length:.1f} cm long.", f"The longest is {most:.1f} cm (--bevel {most:.1f}cm)."
        )
    if tip >= width:
        raise Refused(f"A tip {tip:.1f} cm wide leaves nothing to slant on a strip {width:.1f} cm wide.", "Draft a rectangle.")
    notes = () if told else ("The bevel is one stitch a row, the slope the stitch gives by itself.",) if bevel == natural else ()
    outline = strip_outline(width, length, bevel, bevels, tip)
    return flat_draft("bevelled-strip", "Strip with bevelled ends", outline, custom, notes=notes)


def trapezium(asked: Asked, custom: Custom) -> Draft:
    """Two parallel sides: the first row and the last."""
    width, top, length = asked.cm("width"), asked.cm("top"), asked.cm("length")
    lean = asked.word("lean", "none", ("none", "left", "right"))
    shift = {"none": (width - top) / 2, "left": 0.0, "right": width - top}[lean]
    return flat_draft("trapezium", "Trapezium", ((0, 0), (width, 0), (shift + top, length), (shift, length)), custom)


FAMILIES = (
    Family(
        name="rectangle",
        what="a straight piece, plain or in a stitch pattern",
        make=rectangle,
        needs=("width", "length"),
        lengths={"width": "along the rows", "length": "across the rows"},
        words={"pattern": f"plain, {', '.join(PATTERNS)}", "multiple": "of your own stitch pattern, kept in plain rows: 6 + 3"},
    ),
    Family(
        name="bevelled-strip",
        what="a strip worked lengthwise with slanted ends",
        make=bevelled_strip,
        needs=("width", "length"),
        lengths={
            "width": "of the strip, along the rows",
            "length": "of its longer edge",
            "bevel": "how much of the length one end slants over (left out: one stitch a row)",
            "tip": "width of the first and last row (left out: two stitches)",
        },
        words={"bevels": "same-edge (the ends face each other when worn), parallel, first, last"},
    ),
    Family(
        name="trapezium",
        what="a piece whose first and last row differ",
        make=trapezium,
        needs=("width", "top", "length"),
        lengths={"width": "of the first row", "top": "width of the last row", "length": "across the rows"},
        words={"lean": "none (both edges slant), left or right (that edge is straight)"},
    ),
)
