"""Tunisian pieces as a grid of their own: a line of cells for each row, the stitch of the forward pass in its cell, the return pass a wave
above it. Every row begins at the same side and the right side always faces."""

from __future__ import annotations

from itertools import pairwise

from .arcs import Oval
from .cloth import Line
from .marks import Stroke
from .placed import Placed
from .spacing import spread
from .svg import move
from .symbols import CHAIN_HALF_MM

CELL_MM = 4.0
"""Width of a cell."""
TALL_MM = 3.6
"""From the foot of a cell to the top of its stitch."""
ROW_MM = 5.4
"""Height of a cell with its return pass."""
WAVE_MM = 0.9
"""From the top of the stitches up to the return pass."""


def is_tunisian(lines: list[Line]) -> bool:
    """Whether a part is worked in forward and return passes."""
    rows = [line for line in lines if not line.foundation]
    return bool(rows) and all(line.row.made_in == "passes" for line in rows)


def place_passes(lines: list[Line]) -> Placed:
    """Set every stitch in its cell: over what it is worked into, never nearer than a cell to its neighbour."""
    placed = Placed(lines=lines, pitch=CELL_MM, form="rows", out=lambda _: (0.0, 1.0))
    x: list[dict[int, float]] = []
    level = 0.0
    for line in lines:
        line.rightwards = False
        x.append(_columns(line, x))
        for e, at in x[-1].items():
            if line.foundation or line.kinds[e] == "ch":
                placed.set_chain(line, e, Oval(at, level - CHAIN_HALF_MM, 0.0, 3.0))
            else:
                placed.feet[line.index][e] = tuple((_foot_x(foot.line, foot.at, x, at), level) for foot in line.feet[e]) or ((at, level),)
                placed.top[line.index][e] = (at, level + TALL_MM)
        if not line.foundation:
            level += ROW_MM
        placed.place_the_rest(line)
    return placed


def _columns(line: Line, below: list[dict[int, float]]) -> dict[int, float]:
    """x of the elements that stand in cells: from right to left in the order worked."""
    order = [e for e in range(len(line)) if e not in line.hidden]
    if line.foundation or not below:
        return {e: k * CELL_MM for k, e in enumerate(order)}
    order = [e for e in order if e in line.posts or e in line.run_of][::-1]
    raw: list[float | None] = []
    for e in order:
        feet = [below[foot.line][foot.at] for foot in line.feet[e] if 0 <= foot.line < len(below) and foot.at in below[foot.line]]
        raw.append(sum(feet) / len(feet) if feet else None)
    wanted = _filled(raw)
    return dict(zip(order, spread(wanted, [CELL_MM] * (len(order) - 1), [1.0] * len(order)), strict=True))


def _filled(raw: list[float | None]) -> list[float]:
    """What stands on nothing drawn stands a cell from its neighbour: the loop on the hook at the right edge above all."""
    out: list[float] = []
    known = [(i, at) for i, at in enumerate(raw) if at is not None]
    for i, at in enumerate(raw):
        if at is not None:
            out.append(at)
            continue
        near = min(known, key=lambda pair: abs(pair[0] - i), default=(0, 0.0))
        out.append(near[1] + (i - near[0]) * CELL_MM)
    return out


def _foot_x(line: int, at: int, x: list[dict[int, float]], otherwise: float) -> float:
    return x[line].get(at, otherwise) if 0 <= line < len(x) else otherwise


def passes(placed: Placed, *, mirrored: bool) -> list[Stroke]:
    """The grid: the return pass of every row as a wave from its left to its right, and the lines between cells where columns stand true."""
    strokes = []
    for line in placed.lines:
        tops = [p for e in line.posts if (p := placed.top[line.index][e]) is not None]
        if line.foundation or not tops or not any(line.kinds[e] not in ("sl st", "ch") for e in line.posts):
            continue
        left, right = min(p[0] for p in tops) - CELL_MM / 2, max(p[0] for p in tops) + CELL_MM / 2
        y = -(tops[0][1] + WAVE_MM)
        x = -right if mirrored else left
        d = move("M", x, y)
        for _ in range(round((right - left) / (CELL_MM / 2))):
            d += move("q", CELL_MM / 8, -0.55, CELL_MM / 4, 0, "t", CELL_MM / 4, 0)
        strokes.append(Stroke(d, "return-pass", weight_mm=0.22))
    return strokes + _uprights(placed, mirrored)


def _uprights(placed: Placed, mirrored: bool) -> list[Stroke]:
    """Thin lines between cells of rows whose columns stand upon those below."""
    d = ""
    for line in placed.lines:
        xs = sorted(p[0] for e in line.posts if (p := placed.top[line.index][e]) is not None)
        bound_off = all(line.kinds[e] == "sl st" for e in line.posts)
        if line.foundation or not xs or bound_off or any(abs(b - a - CELL_MM) > 0.01 for a, b in pairwise(xs)):
            continue
        foot = min(p[1] for points in placed.feet[line.index].values() for p in points)
        for k in range(len(xs) + 1):
            x = xs[0] + (k - 0.5) * CELL_MM
            d += move("M", -x if mirrored else x, -foot, "V", -(foot + ROW_MM))
    return [Stroke(d, "cell", weight_mm=0.1)] if d else []
