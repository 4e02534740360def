"""Any outline that rows can follow: corners, or an SVG path; and squares and rectangles on the bias."""

from __future__ import annotations

import math

from ...trade import units
from ..asks import Custom, Refused, pairs_cm
from ..beyond import CORNERS_OUT
from ..flatdraft import flat_draft
from ..outline import Outline, Point, checked, placed, scaled, turned
from ..result import Asked, Draft, Family
from ..svgpath import path_points

_EXAMPLE = "0 0, 40 0, 20 30 cm"


def corners_of(text: str) -> tuple[Point, ...]:
    """Corners as written: "0 0, 40 0, 20 30 cm". The unit stands once, at the end.

    >>> corners_of("0 0, 10 0, 5 10 in")[1]
    (25.4, 0.0)
    """
    corners = pairs_cm(text, "corners", _EXAMPLE)
    if len(corners) < 3:
        raise Refused(f"{len(corners)} corners make no outline.", f'Write three or more: "{_EXAMPLE}".')
    return corners


def polygon(asked: Asked, custom: Custom) -> Draft:
    """An outline by its corners."""
    if "points" not in asked.words:
        raise Refused("A polygon needs its corners.", 'Add --points "0 0, 40 0, 20 30 cm".')
    return _free("polygon", checked(corners_of(asked.words["points"])), asked, custom)


def path(asked: Asked, custom: Custom) -> Draft:
    """An outline as an SVG path, made as wide or as long as asked."""
    if "d" not in asked.words:
        raise Refused("A path needs its data.", 'Add --d "M0 0 L40 0 L20 30 Z", or --svg with a file.')
    return _free("path", checked(path_points(asked.words["d"])), asked, custom)


def _free(family: str, outline: Outline, asked: Asked, custom: Custom) -> Draft:
    outline = placed(outline)
    if "turn" in asked.words:
        try:
            outline = turned(outline, float(asked.words["turn"].rstrip("°")))
        except ValueError:
            raise Refused(f"“{asked.words['turn']}” is no angle.", "Write it in degrees: --turn 90.") from None
    wide, high = max(x for x, _ in outline), max(y for _, y in outline)
    across = asked.lengths["width"] / wide if "width" in asked.lengths else None
    along = asked.lengths["length"] / high if "length" in asked.lengths else None
    outline = scaled(outline, across or along or 1.0, along or across or 1.0)
    return flat_draft(family, "Free outline", outline, custom, most_out=CORNERS_OUT)


def bias(asked: Asked, custom: Custom) -> Draft:
    """A square or rectangle worked from one corner to the opposite one, the rows at 45° to its sides."""
    width = asked.cm("width")
    length = asked.get("length", width)
    outline = turned(checked(((0, 0), (width, 0), (width, length), (0, length))), 45)
    name = "Bias square" if math.isclose(width, length) else "Bias rectangle"
    note = "Worked from corner to corner: measured along its sides it is " + f"{units.both_lengths(width)} × {units.both_lengths(length)}."
    return flat_draft("bias", name, outline, custom, notes=(note,), across="across the corners", along="corner to corner")


FAMILIES = (
    Family(
        name="bias",
        what="a square or rectangle worked from corner to corner",
        make=bias,
        needs=("width",),
        lengths={"width": "of one side", "length": "of the other side (left out: a square)"},
    ),
    Family(
        name="polygon",
        what="any outline by its corners that rows can follow",
        make=polygon,
        lengths={"width": "make it this wide", "length": "make it this long"},
        words={"points": 'its corners in order: "0 0, 40 0, 20 30 cm"', "turn": "degrees to turn it before working"},
    ),
    Family(
        name="path",
        what="any outline as an SVG path that rows can follow",
        make=path,
        lengths={"width": "make it this wide", "length": "make it this long"},
        words={"d": "the data of an SVG path, in cm unless a width or length is told", "turn": "degrees to turn it before working"},
    ),
)
