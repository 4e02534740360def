"""How far an outline obtained lies from the outline asked, measured in stitches across and rows along.

A point fits when some point of the other outline lies within so much of a stitch sideways and so much of a row up or down: the distance
is the larger of the two, in units of one stitch and one row. Both ways: no part of the one may be far from the other.
"""

from __future__ import annotations

from typing import Any

from .asks import Custom
from .result import View


def misfit(view: View, custom: Custom, across: float = 1.0, along: float = 1.0) -> float:
    """The largest distance between the two outlines, `across` stitches and `along` rows counting as 1."""
    return max(far for far, _ in _both_ways(view, custom, across, along))


def farthest(view: View, custom: Custom) -> tuple[float, float]:
    """Where the two outlines are farthest apart, in cm."""
    _, (x, y) = max(_both_ways(view, custom, 1.0, 1.0))
    return x * custom.width_cm, y * custom.height_cm


_TOGETHER = 32
"""Neighbouring points compared at once, with those stretches only that may lie nearer to one of them than the nearest corner does."""


def _both_ways(view: View, custom: Custom, across: float, along: float) -> list[tuple[float, tuple[float, float]]]:
    import numpy as np

    unit = np.array([custom.width_cm * across, custom.height_cm * along])
    asked, got = (np.asarray(outline, float) / unit for outline in (view.asked, view.obtained))
    return [_one_way(asked, got), _one_way(got, asked)]


def _one_way(points: Any, outline: Any) -> tuple[float, tuple[float, float]]:
    """The farthest of `points`, and of places between them, from `outline`: how far, and which."""
    import numpy as np

    following = np.roll(points, -1, axis=0)
    sampled = np.stack([points * (1 - t) + following * t for t in (0.0, 0.25, 0.5, 0.75)], axis=1).reshape(-1, 2)
    start, end = outline, np.roll(outline, -1, axis=0)
    worst, where = 0.0, (0.0, 0.0)
    lows, highs = np.minimum(start, end), np.maximum(start, end)
    for chunk in np.array_split(sampled, max(1, len(sampled) // _TOGETHER)):
        corners = np.abs(start[None, :, :] - chunk[:, None, :]).max(axis=2).min(axis=1).max()
        near = ((lows <= chunk.max(axis=0) + corners) & (highs >= chunk.min(axis=0) - corners)).all(axis=1)
        off = _to_segments(chunk, start[near], end[near]).min(axis=1)
        k = int(off.argmax())
        if float(off[k]) > worst:
            worst, where = float(off[k]), (float(chunk[k][0]), float(chunk[k][1]))
    return worst, where


def _to_segments(points: Any, start: Any, end: Any) -> Any:
    """Chebyshev distances, points × segments. Along a segment the larger of two absolute values is convex and bends only where one of
    them vanishes or where they are equal: the least is at an end or at such a bend."""
    import numpy as np

    d = end - start
    gap = start[None, :, :] - points[:, None, :]
    best = np.abs(gap).max(axis=2)
    best = np.minimum(best, np.abs(gap + d[None]).max(axis=2))
    pairs = ((gap[..., 0], d[:, 0]), (gap[..., 1], d[:, 1]))
    (gx, dx), (gy, dy) = pairs
    with np.errstate(divide="ignore", invalid="ignore"):
        for over, under in ((-gx, dx), (-gy, dy), (gy - gx, dx - dy), (-gy - gx, dx + dy)):
            t = np.nan_to_num(over / under[None, :], nan=0.0, posinf=0.0, neginf=0.0).clip(0.0, 1.0)
            best = np.minimum(best, np.maximum(np.abs(gx + t * dx), np.abs(gy + t * dy)))
    return best
