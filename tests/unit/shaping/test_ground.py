"""Rows that go on over places short rows left: wedges close, and the piece turns by what one edge is longer than the other."""

from __future__ import annotations

import math

import numpy as np
import pytest
from shapely.geometry import Polygon

from hookwright.measuring import PartMeasures, measure
from hookwright.reading import read
from hookwright.shaping.cloth import cloth_of
from hookwright.shaping.outlines import relaxed_outline
from hookwright.shaping.piece import shape_part
from hookwright.working import work

HEAD = (
    "US terms\nGauge: 16 dc and 9 rows = 10 cm\n\nCh 23.\n"
    "Row 1: Dc in 4th ch from hook (counts as 2 dc) and in each ch across, turn. (21 dc)\n"
)
H = 10 / 9


def fan(wedges: int) -> PartMeasures:
    """Each wedge: rows of 14 and of 7, each there and back; then over all that was left, and one row more."""
    rows, n = [], 2
    for _ in range(wedges):
        rows += [
            f"Row {n}: Ch 1, dc in next 14 sts, turn, leaving remaining sts unworked. (14 dc)",
            f"Row {n + 1}: Ch 1, dc in each st across, turn. (14 dc)",
            f"Row {n + 2}: Ch 1, dc in next 7 sts, turn, leaving remaining sts unworked. (7 dc)",
            f"Row {n + 3}: Ch 1, dc in each st across, turn. (7 dc)",
            f"Row {n + 4}: Ch 1, dc in next 7 sts, dc in next 7 unworked sts of Row {n + 1}, dc in next 7 unworked sts of Row {n - 1}, "
            "turn. (21 dc)",
            f"Row {n + 5}: Ch 1, dc in each st across, turn. (21 dc)",
        ]
        n += 6
    return measure(work(read(HEAD + "\n".join(rows) + "\n"))).parts[0]


def test_a_fan_turns_by_what_its_edges_differ() -> None:
    wedges = 4
    part = shape_part(fan(wedges))
    lies = relaxed_outline(part)
    assert lies is not None and part.lies == "flat"
    long, short = (1 + 6 * wedges) * H, (1 + 2 * wedges) * H
    assert lies.edges_cm["B"] == pytest.approx(long, rel=0.04)
    assert lies.edges_cm["A"] == pytest.approx(short, rel=0.10)
    ends = [part.at[[int(part.cloth.first[r]), int(part.cloth.first[r + 1]) - 1], :2] for r in (1, len(part.cloth.rows) - 1)]
    ways = [(end - start) / np.linalg.norm(end - start) for start, end in ends]
    turned = math.acos(
        float(np.clip(ways[0] @ ways[1] * np.sign(part.measures.placed[1].direction * part.measures.placed[-1].direction), -1, 1))
    )
    assert turned == pytest.approx((lies.edges_cm["B"] - lies.edges_cm["A"]) / part.measures.width_cm, rel=0.08)
    found = Polygon(lies.outline)
    assert found.is_valid
    assert found.area == pytest.approx(part.measures.area_cm2, rel=0.12)  # steps are pulled together, so that it comes out a tenth smaller


def test_only_places_that_were_left_make_a_step() -> None:
    assert len(cloth_of(fan(1)).grounds) == 1
    spikes = HEAD + (
        "Row 2: Ch 3 (counts as dc), turn, dc in each st across. (21 dc)\n"
        "Row 3: Ch 1, turn, sc in next 3 sts, [sc in next st 2 rows below, sc in next 3 sts] 4 times, sc in next 2 sts. (21 sc)\n"
    )
    short = (
        HEAD + "Row 2: Ch 1, dc in next 14 sts, turn, leaving remaining sts unworked. (14 dc)\nRow 3: Ch 1, dc in each st across. (14 dc)\n"
    )
    for text in (spikes, short):
        part = measure(work(read(text))).parts[0]
        assert not cloth_of(part).grounds and relaxed_outline(shape_part(part)) is None
