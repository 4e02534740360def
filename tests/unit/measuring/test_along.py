"""Edgings that are parts of their own along one side: which edge the words tell, and the stitches that lie flat along it."""

from __future__ import annotations

import math

import numpy as np
import pytest

from hookwright.measuring import Along, Measures, edgings_along, measure, said_of, side_cm
from hookwright.pattern import Finding
from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.shaping import shape, shape_json, shape_lines
from hookwright.working import work

HEAD = "US terms\nGauge: 16 sc and 18 rows = 10 cm\n\n"
W, H = 10 / 16, 10 / 18


def scarf(rows: int) -> str:
    return (
        "## Scarf\nCh 25.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (24 sc)\n"
        f"Rows 2-{rows}: Ch 1, sc in each st across, turn. (24 sc)\nFasten off.\n\n"
    )


def bevelled(rows: int) -> str:
    """One stitch more at the end of every right-side row, the other edge straight."""
    return (
        "## Wedge\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\n"
        "Row 2: Ch 1, sc in each st to last st, 2 sc in last st, turn. (11 sc)\nRow 3: Ch 1, 2 sc in first st, sc in each st across, turn. "
        f"(12 sc)\nRows 4-{rows}: Rep Rows 2 and 3.\nFasten off.\n\n"
    )


FRONTS = (
    "## Back\nCh 41.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (40 sc)\nRows 2-60: Ch 1, sc in each st across, "
    "turn. (40 sc)\nFasten off.\n\n## Right front\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)\n"
    "Rows 2-40: Ch 1, sc in each st across, turn. (20 sc)\n"
    "Row 41: Ch 1, sc2tog, sc in each st across, turn. (19 sc)\nRow 42: Ch 1, sc in each st across, turn. (19 sc)\n"
    "Rows 43-54: Rep Rows 41 and 42. (13 sc)\nRows 55-60: Ch 1, sc in each st across, turn. (13 sc)\nFasten off.\n\n"
)


def edging(name: str, words: str, stitches: int = 60) -> str:
    return f"## {name}\nRow 1: Join yarn with RS facing, ch 1, work {stitches} sc evenly along {words}. ({stitches} sc)\nFasten off.\n"


def measured(text: str) -> tuple[Measures, Along]:
    measures = measure(work(read(HEAD + text)))
    (along,) = edgings_along(measures)
    return measures, along


def findings(text: str) -> tuple[Finding, ...]:
    pattern = read(text)
    return proof(pattern, [work(pattern)])


@pytest.mark.parametrize(
    ("words", "long_cm"),
    [
        ("one long side", 90 * H),
        ("the side edge", 90 * H),
        ("the short end", 24 * W),
        ("the bottom edge", 24 * W),
        ("the top edge", 24 * W),
    ],
)
def test_the_edge_told_is_measured(words: str, long_cm: float) -> None:
    _, along = measured(scarf(90) + edging("Edging", words))
    assert along.told and along.long_cm == pytest.approx(long_cm)
    (row,) = along.rows
    assert row.stitches == 60 and row.right == round(long_cm / W)


def test_a_shaped_edge_is_as_long_as_it_slopes() -> None:
    measures, along = measured(bevelled(31) + edging("Border", "the shaped edge"))
    assert along.told and along.long_cm == pytest.approx(H + 30 * math.hypot(H, W), rel=0.01)
    assert side_cm(measures.parts[0], high=along.edges[0].edge != "B") == pytest.approx(31 * H, rel=0.01)
    _, straight = measured(bevelled(31) + edging("Border", "the straight edge"))
    assert straight.long_cm == pytest.approx(31 * H, rel=0.01)


def test_a_band_runs_up_the_front_and_a_neck_edging_round_the_neck() -> None:
    _, band = measured(FRONTS + edging("Button band", "the front edge"))
    assert [edge.part for edge in band.edges] == [1] and band.long_cm == pytest.approx(40 * H, rel=0.02)
    measures, neck = measured(FRONTS.replace("## Right front", "## Front (make 2)") + edging("Neck edging", "the neck edge"))
    slope = math.hypot(7 * W, 14 * H) + 6 * H
    assert neck.told and neck.long_cm == pytest.approx(2 * slope + (40 - 26) * W, rel=0.08)
    assert "the neck of Back" in said_of(neck, measures)


def test_an_edge_that_is_not_told_is_not_guessed() -> None:
    measures, along = measured(bevelled(31) + edging("Border", "the side edge"))
    assert not along.told and along.worst is None
    said = said_of(along, measures)
    assert "not told" in said and f"{round(31 * H / W)} along" in said


def test_too_few_are_found_told_and_seen() -> None:
    text = HEAD + scarf(90) + edging("Edging", "one long side", 50)
    (finding,) = [each for each in findings(text) if each.rule == "border-pulls-or-waves"]
    assert "80 would lie flat" in finding.message
    made = shape(measure(work(read(text))))
    assert any("80 would lie flat" in line for line in shape_lines(made))
    told = shape_json([made])
    assert told["parts"][1]["along"]["rows"][0]["would_lie_flat"] == 80 and told["together"][0]["width_cm"] == pytest.approx(
        15 + H, abs=0.01
    )
    ((_, together),) = made.together
    assert together is not None and together.joined.settled
    strip, feet = together.parts[1].at, together.parts[1].stood
    assert feet is not None and len(feet) == 50
    assert np.linalg.norm(strip - feet, axis=1) == pytest.approx(np.full(50, H + W / 2), rel=0.05)  # legs from the edge to every stitch
    assert math.dist(strip[0], strip[-1]) < 0.7 * 50 * W * 90 * H / (50 * W) and together.size_cm[1] < 0.95 * 90 * H


def test_enough_lie_flat() -> None:
    text = HEAD + scarf(90) + edging("Edging", "one long side", 80)
    assert not [each for each in findings(text) if each.rule == "border-pulls-or-waves"]
    ((_, together),) = shape(measure(work(read(text)))).together
    assert together is not None and together.size_cm == pytest.approx((15 + H, 50), rel=0.01)
