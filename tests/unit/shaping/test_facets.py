"""Stacked increases make corners in the solved shape, as deep as geometry has them; a square of groups and spaces is square."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests import fabrics

from hookwright.measuring import measure
from hookwright.reading import read
from hookwright.shaping.cloth import Floats, cloth_of
from hookwright.shaping.piece import PartShape, shape_part
from hookwright.working import work


def rim(out: PartShape) -> Floats:
    """How far the nodes of the last round lie from the middle, over the least of them."""
    at = out.at[int(out.cloth.first[-2]) : int(out.cloth.first[-1]), :2]
    far = np.linalg.norm(at - at.mean(axis=0), axis=1)
    return np.asarray(far / far.min())


@pytest.mark.parametrize("corners", [4, 6, 8])
def test_a_polygon_of_stacked_increases_has_its_corners(corners: int) -> None:
    tall = corners * 1.0 / (2 * corners * math.tan(math.pi / corners))  # so that it grows exactly as a polygon of so many corners does
    made = fabrics.disc(corners, 12, gauge={"sc": (10.0, 10 / tall)})
    out = shape_part(measure(made).parts[0], solve="always")
    # a regular polygon's corner lies 1 / cos(pi / k) times as far out as its sides; the outermost stitches stand half a stitch from it
    side = 12.0
    corner = math.hypot(side / 2 - 0.5, side / 2 / math.tan(math.pi / corners)) / (side / 2 / math.tan(math.pi / corners))
    assert rim(out).max() == pytest.approx(corner, rel=0.03)
    assert out.strain < 0.035  # what is left is in the first two rounds, which are too small for corners
    assert out.diameter_cm == pytest.approx(24 * tall, rel=0.01)


def test_staggered_increases_make_a_circle() -> None:
    out = shape_part(measure(fabrics.disc(6, 12, stacked=False, gauge={"sc": (10.0, 10.47)})).parts[0], solve="always")
    assert not out.cloth.marks and rim(out).max() < 1.01


SQUARE = """US terms
Gauge: 16 dc and 8 rows = 10 cm

Ch 4, join with sl st to form ring.
Rnd 1: Ch 3 (counts as dc), 2 dc in ring, ch 2, [3 dc in ring, ch 2] 3 times, join with sl st in top of ch-3. (12 dc)
Rnd 2: Sl st in next 2 dc and in ch-2 sp, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, [ch 1, (3 dc, ch 2, 3 dc) in next ch-2 sp] \
3 times, ch 1, join with sl st in top of ch-3. (24 dc)
Rnd 3: Sl st in next 2 dc and in ch-2 sp, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, [ch 1, 3 dc in next ch-1 sp, ch 1, \
(3 dc, ch 2, 3 dc) in next ch-2 sp] 3 times, ch 1, 3 dc in next ch-1 sp, ch 1, join with sl st in top of ch-3. (36 dc)
"""


def test_the_corner_spaces_of_a_square_of_groups_lie_at_its_corners() -> None:
    """No chain of a corner hangs out as a loop: it lies no further from the groups beside it than its own length."""
    part = measure(work(read(SQUARE))).parts[0]
    out = shape_part(part)
    assert part.rounds is not None and part.rounds.corners == 4 and set(out.cloth.marks) == {2, 3}
    assert out.strain < 0.03 and out.error < 0.01
    last = out.cloth.rows[-1]
    at = out.at[int(out.cloth.first[-2]) : int(out.cloth.first[-1]), :2]
    far = np.linalg.norm(at - at.mean(axis=0), axis=1)
    four = np.sort(np.argsort(far)[-8:])  # two chains at each corner
    assert not last.stands[four].any()
    assert 1.25 < far.max() / far.min() < math.sqrt(2) * 1.12
    corners = at[four].reshape(4, 2, 2).mean(axis=1)
    sides = np.linalg.norm(np.roll(corners, -1, axis=0) - corners, axis=1)
    assert sides.max() / sides.min() < 1.05 and sides.mean() == pytest.approx(part.rounds.diameter_cm, rel=0.12)


def test_a_foot_is_never_outside_the_round_below() -> None:
    """Rounding once left one a hair before the first node of its round, at node -1."""
    for r, sheet in enumerate(cloth_of(measure(work(read(SQUARE))).parts[0]).rows):
        assert r == 0 or sheet.foot.min(initial=0) >= 0
