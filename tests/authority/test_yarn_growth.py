"""Arithmetic of pieces that grow from a point, and of bands in them (derived by hand; the derivation stands with each check)."""

from __future__ import annotations

import math
from itertools import accumulate, pairwise

import pytest
from tests.fabrics import fabric, triangle

from hookwright.measuring import measure
from hookwright.pattern import Facts, Gauge, Yarn
from hookwright.working import Fabric
from hookwright.yarn import Landing, Plan, Repeat, estimate, land
from hookwright.yarn.turns import growing_part, grown_on, turn_around


def point(rows: int) -> Fabric:
    yarns = {"A": Yarn(id="A", weight="medium")}
    facts = Facts(hook_mm=5, gauge=(Gauge(stitch="dc", stitches=14, rows=7),), yarns=yarns)
    return fabric(triangle(rows).parts[0], facts=facts)


def test_from_a_point_band_edges_go_with_the_root() -> None:
    """k equal runs end after n(n+1)/2 = k c stitches, so n + 1/2 = sqrt(2 k c + 1/4): with a first band of 20 rows the next have 8.3, 6.4,
    5.4, 4.7 in the limit of many rows (the half row makes up to 0.2). Edges are read off the landed colours."""
    piece = point(60)
    found = estimate(piece, measure(piece))
    rows = [row.total for row in found.threads[0].rows if not row.row.foundation]
    run = sum(rows[:20])
    chain = sum(row.total for row in found.threads[0].rows if row.row.foundation)
    landed = land(found, "A", Repeat.of([("a", run), ("b", run)]), Plan(tail_m=0.0, pull_off=2 * run - chain))
    edges = row_places(landed)
    assert edges[0] == pytest.approx(20, abs=0.02)
    bands = [b - a for a, b in pairwise(edges)]
    assert bands[:4] == pytest.approx([8.3, 6.4, 5.4, 4.7], abs=0.2)
    for k, edge in enumerate(edges[:5], 1):
        assert edge + 0.5 == pytest.approx(math.sqrt(k) * 20.5, abs=0.05)


def row_places(landed: Landing) -> list[float]:
    """Every change of colour as rows worked, with the part of the row (a change at a row's end shows as the next row's first colour)."""
    edges: list[float] = []
    before = ""
    for row in landed.rows:
        if row.thread.row.foundation:
            continue
        upto, index = row.thread.drawn.upto, row.thread.index - 1
        if before and row.first != before:
            edges.append(float(index))
        for change in row.changes:
            loops = upto[change.element] + change.into * (upto[change.element + 1] - upto[change.element])
            edges.append(index + loops / upto[-1])
        before = row.changes[-1].colour if row.changes else row.first
    return edges


def test_half_the_yarn_is_gone_at_seven_tenths() -> None:
    """Rows 1, 2, 3 …: half of N(N+1)/2 is reached at N / sqrt 2. Turned there, the piece has 1.41 N rows."""
    n = 200
    rows = [float(k) for k in range(1, n + 1)]
    turn = turn_around(rows, [f"Row {k}" for k in range(1, n + 1)], have_g=sum(rows), reserved_m=0, m_per_g=1, sd=0.2, scale_g=0.1)
    assert (turn.index + 1) / n == pytest.approx(1 / math.sqrt(2), abs=0.01)
    assert 2 * (turn.index + 1) / n == pytest.approx(math.sqrt(2), abs=0.01)
    assert turn.stop_at_grams == pytest.approx(sum(rows) / 2)


def test_last_tenth_of_a_triangle_takes_a_fifth() -> None:
    """1 - 0.9 squared = 0.19."""
    piece = point(200)
    found = estimate(piece, measure(piece))
    rows = [row.metres for row in found.rows if row.number]
    assert sum(rows[-20:]) / sum(rows) == pytest.approx(0.19, abs=0.003)


def test_growing_rows_go_on_as_they_grew() -> None:
    rows = grown_on([1.0, 2.0, 3.0], 21.0)
    assert rows == pytest.approx([1, 2, 3, 4, 5, 6])
    assert list(accumulate(rows))[-1] == pytest.approx(21)
    assert growing_part([1, 2, 3, 4, 3, 2]) == 4
