"""Clauses of garments in print: an edge worked with a side toward you, a run up to so many between markers, shaping on a tall chain.

The wordings are ours, after common practice in print (no single source).
"""

import pytest

from hookwright.reading import read
from hookwright.working import work

from .told import worked_rows


@pytest.mark.parametrize("side", ["right side toward you", "right side of work facing you", "wrong side toward you"])
@pytest.mark.parametrize(("size", "total"), [(0, 40), (1, 44), (2, 48)])
def test_an_edge_worked_with_a_side_toward_you_has_its_own_number(side: str, size: int, total: int) -> None:
    text = f"# Vest\nSIZES: Small, Medium, Large\n\nCOLLAR: With {side} work 40 (44, 48) s c around neck edge, join.\n"
    rows = [row for part in work(read(text), size=size).parts for row in part.rows if not row.foundation]
    assert [(row.read, row.counted.total) for row in rows] == [("whole", total)]


GUSSET = (
    "# Mitt\nSIZES: Small, Large\n\nHAND: Ch 25 (29), s c in 2nd ch from hook and in each ch, ch 1, turn. 2nd ROW: 1 s c in each of the "
    "1st 11 (13) sts, place a marker, 2 s c in each of next 2 sts, place a marker, 1 s c in each remaining st, ch 1, turn. 3rd ROW: 1 s c "
    "in each s c, ch 1, turn. 4th ROW: 1 s c in each st to marker, 2 s c in next st, 1 s c in each st to within 1 st of next marker, 2 s c "
    "in next st, 1 s c in each remaining st, ch 1, turn. {} NEXT ROW: 1 s c in each s c.\n"
)


@pytest.mark.parametrize(
    "run",
    [
        "Repeat last 2 rows until there are 8 (10) sts between markers; 30 (36) sts.",
        "Repeat last 2 rows until there are 8 (10) sts between markers (30 (36) sts).",
        "Repeat 3rd and 4th rows until 8 (10) sts are between the markers, 30 (36) sts in all.",
        "Repeat last 2 rows until there are 8 (10) s c for thumb - 30 (36) s c.",
    ],
)
@pytest.mark.parametrize(("size", "total"), [(0, 30), (1, 36)])
def test_a_run_up_to_so_many_between_markers_ends_at_its_total(run: str, size: int, total: int) -> None:
    assert work(read(GUSSET.format(run)), size=size).parts[-1].rows[-1].counted.total == total


@pytest.mark.parametrize(
    ("shaping", "totals"),
    [
        ("NEXT ROW: Dec 1 st at beg and end of row.", [19]),
        ("NEXT ROW: Keeping pattern uniform, dec 1 st at each end. Repeat last row twice.", [19, 17, 15]),
        ("NEXT ROW: Work in pattern, dec 1 st at beg.", [20]),
        ("NEXT ROW: Inc 1 st at each end.", [23]),
    ],
)
def test_a_shaping_row_that_a_tall_chain_begins_is_as_tall(shaping: str, totals: list[int]) -> None:
    text = f"# Top\n\nBACK: Ch 22, s c in 2nd ch from hook and in each ch, ch 3, turn. {shaping}\n"
    assert [row.counted.by_kind for row in worked_rows(text)[1:]] == [{"dc": total} for total in totals]
