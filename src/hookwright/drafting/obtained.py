"""The outline that flat rows come out at, and what of it is fair to compare with the outline asked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .asks import Custom
from .outline import Outline, Point, Side, sides

_NARROW = 2
"""Stitches of the narrowest rows: one, or two where both edges move alike on an even width or where a chain counts."""


@dataclass(frozen=True, slots=True)
class FlatRow:
    """One row: `count` stitches; `a`, `b` how many its edges A and B gained (lost when below nothing).

    `square_a`, `square_b`: that edge is cut square (chained on, or left) instead of slanted by working into one stitch.
    """

    count: int
    a: int = 0
    b: int = 0
    square_a: bool = False
    square_b: bool = False


def outline_of(rows: Sequence[FlatRow], start: int, left_cm: float, custom: Custom, low_cm: float = 0.0) -> Outline:
    """The outline that the rows come out at, in cm: rows cut square stand up straight, the others slant from the row below."""
    w, h = custom.width_cm, custom.height_cm
    x_a, x_b = left_cm, left_cm + start * w
    left, right = [(x_a, low_cm)], [(x_b, low_cm)]
    for k, row in enumerate(rows):
        if row.square_a:
            left.append((x_a - row.a * w, low_cm + k * h))
        if row.square_b:
            right.append((x_b + row.b * w, low_cm + k * h))
        x_a, x_b = x_a - row.a * w, x_b + row.b * w
        left.append((x_a, low_cm + (k + 1) * h))
        right.append((x_b, low_cm + (k + 1) * h))
    return tuple(right + left[::-1])


def compared(obtained: Outline, rows: list[FlatRow], point: bool, asked: Outline, custom: Custom, low_cm: float) -> Outline:
    """The outline with every row of the fewest stitches drawn in to the edges asked at its height."""
    narrow = {k for k, row in enumerate(rows, start=1) if row.count <= _NARROW} | ({0} if point else set())
    if not narrow:
        return obtained
    rights = 1 + len(rows) + sum(row.square_b for row in rows)
    ends = (obtained[:rights], obtained[rights:][::-1])
    drawn = [_drawn(end, edge, ends, narrow, custom, low_cm) for end, edge in zip(ends, reversed(sides(asked)), strict=True)]
    return tuple(drawn[0] + drawn[1][::-1])


def _drawn(end: Outline, edge: Side, ends: tuple[Outline, Outline], narrow: set[int], custom: Custom, low_cm: float) -> list[Point]:
    """One end of the rows, where they are narrow no farther out than the edge asked."""
    out: list[Point] = []
    for k, (x, y) in enumerate(end):
        row = round((y - low_cm) / custom.height_cm) + (1 if k and end[k - 1][1] == y else 0)
        if row in narrow:
            across = [p for side in ends for p, at in side if abs(at - y) < 1e-9]
            x = min(max(edge.at(y), min(across)), max(across))
        out.append((x, y))
    return out


def pointed(obtained: Outline, right: int, left: int, custom: Custom) -> Outline:
    """The outline with two of its corners, two stitches apart, drawn together to one: all of a row worked into one stitch."""
    corners = list(obtained)
    middle = (corners[right][0] + corners[left][0]) / 2
    for k, to in ((right, 0.5), (left, -0.5)):
        corners[k] = (middle + to * custom.width_cm, corners[k][1])
    return tuple(corners)
