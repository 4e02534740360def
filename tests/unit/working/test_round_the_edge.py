"""Borders: rounds along edges that nobody counted take their own stated count, and raise no false alarm."""

from __future__ import annotations

import pytest

from hookwright.reading import read
from hookwright.working import Fabric, work

FLAT = """US terms
## Blanket
Ch 72.
Row 1: Dc in 4th ch from hook and in each ch across. (70 dc)
Rows 2-50: Ch 3 (counts as dc), turn, dc in each st across. (70 dc)

## Border
Rnd 1: Ch 1, sc evenly around, working 3 sc in each corner, join with sl st in first sc. (260 sc)
Rnd 2: Ch 1, sc in each st around, working 3 sc in each corner, join with sl st in first sc. (268 sc)
Rnd 3: Ch 3 (counts as dc), dc in each st around, join with sl st in top of ch-3. (268 dc)
Rnd 4: Ch 1, sc in each st around, join with sl st in first sc. (268 sc)
"""


def fabric(text: str) -> Fabric:
    return work(read(text))


def test_border_of_a_piece_worked_in_rows() -> None:
    rows = fabric(FLAT).parts[1].rows
    assert [row.state for row in rows] == ["assumed", "assumed", "agrees", "agrees"]
    assert [len(list(row.stitches.counted())) for row in rows] == [260, 268, 268, 268]
    assert not any(row.troubles for row in rows)


def test_a_wrong_count_after_a_counted_round_is_still_found() -> None:
    rows = fabric(FLAT.removesuffix("(268 sc)\n") + "(286 sc)\n").parts[1].rows
    assert [row.state for row in rows][-1] == "differs"


def test_border_of_motifs_does_not_stand_on_one_of_them() -> None:
    from tests.unit.reading.test_seams import BLANKET

    rows = fabric(BLANKET).parts[1].rows
    assert rows[0].below is None and len(list(rows[0].stitches.counted())) == 190
    assert [row.state for row in rows] == ["assumed", "assumed"]


def test_evenly_around_a_round_is_worked_into_its_stitches() -> None:
    text = """US terms
Rnd 1: 6 sc in magic ring. (6 sc)
Rnd 2: 2 sc in each st around. (12 sc)
Rnd 3: Sc evenly around. (13 sc)
"""
    assert fabric(text).parts[0].rows[-1].state == "differs"


GAUGE = "Gauge: 14 dc and 7 rows = 10 cm\n"


def rules_found(text: str) -> list[str]:
    from hookwright.proofing import proof

    pattern = read(text)
    return [finding.message for finding in proof(pattern, [work(pattern)]) if finding.rule == "border-pulls-or-waves"]


def test_a_border_round_the_piece_that_pulls_is_a_finding_with_the_right_number() -> None:
    text = GAUGE + FLAT
    found = rules_found(text)
    assert len(found) == 1 and "they pull the edge in; 346 would lie flat" in found[0]
    flat = text.replace("(260 sc)", "(346 sc)").replace("(268 sc)", "(354 sc)").replace("(268 dc)", "(354 dc)")
    assert rules_found(flat) == []
    assert rules_found(FLAT) == []  # no gauge, nothing to judge by


@pytest.mark.parametrize("edge", ["Sc evenly along the side edge. (36 sc)", "Work 36 sc evenly along the side edge."])
def test_a_number_stated_of_an_edge_is_what_is_worked(edge: str) -> None:
    piece = "US terms\n\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRows 2-40: Ch 1, turn, sc in each st.\n"
    row = work(read(f"{piece}\nEdging\n\nRow 1: {edge}\n")).parts[-1].rows[-1]
    assert (row.worked, sum(1 for _ in row.stitches.counted())) == ("yes", 36)
