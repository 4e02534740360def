"""From no layout at all, or a wrong one: a start by distances, and the solver falling back on it."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests import fabrics

from hookwright.measuring import PartMeasures, measure
from hookwright.shaping.cloth import cloth_of
from hookwright.shaping.coarse import by_distances
from hookwright.shaping.piece import shape_part
from hookwright.shaping.relax import edge_error, relax
from hookwright.shaping.ties import ties_of
from hookwright.working.fabric import Fabric

TALL = {"dc": (20.0, 10.0)}


def part_of(made: Fabric) -> PartMeasures:
    return measure(made).parts[0]


def sphere() -> PartMeasures:
    return part_of(
        fabrics.rounds(fabrics.rounds_of([round(40 * math.sin(math.pi * i / 20)) for i in range(1, 20)]), gauge={"sc": (10.0, 10.0)})
    )


@pytest.mark.parametrize(("part", "dims"), [(part_of(fabrics.rectangle(30, 40)), 2), (part_of(fabrics.disc(8, 10, "dc", gauge=TALL)), 3)])
def test_distances_alone_lead_to_the_shape(part: PartMeasures, dims: int) -> None:
    cloth = cloth_of(part)
    ties = ties_of(cloth, flat=dims == 2)
    start = by_distances(ties, cloth.nodes, dims)
    assert np.isfinite(start).all()
    assert edge_error(ties, start) < 0.35
    assert relax(ties, start, good=1e-3).error < 0.01


def test_a_random_start_of_a_flat_piece_is_caught_and_cured() -> None:
    part = part_of(fabrics.rectangle(30, 40))
    cloth = cloth_of(part)
    random = np.random.default_rng(3).normal(0, 5.0, (cloth.nodes, 3))
    out = shape_part(part, start=random)
    assert out.error < 0.01
    got, want = sorted((out.width_cm, out.length_cm)), sorted((part.width_cm, part.length_cm))
    flat = out.at[:, :2] - out.at[:, :2].mean(axis=0)
    turned = flat @ np.linalg.svd(flat, full_matrices=False)[2].T
    extent = sorted(np.ptp(turned, axis=0))
    assert extent[0] == pytest.approx(want[0], rel=0.06) and extent[1] == pytest.approx(want[1], rel=0.06)
    assert got[0] > 0


def test_parts_that_do_not_hang_together_stand_side_by_side() -> None:
    part = part_of(fabrics.rectangle(4, 4))
    ties = ties_of(cloth_of(part), flat=True)
    start = by_distances(ties, cloth_of(part).nodes + 5, 2)
    assert np.isfinite(start).all() and len(np.unique(np.round(start, 6), axis=0)) == len(start)


def test_distances_of_a_closed_piece() -> None:
    part = sphere()
    cloth = cloth_of(part)
    ties = ties_of(cloth)
    start = by_distances(ties, cloth.nodes, 3)
    assert relax(ties, start, good=1e-3).error < 0.01
