"""Heels turned in short rows: each turns early, and the later ones close over the gaps into what was left."""

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

from ..reading.told import worked_rows

FLAP = "Ch 25.\nRow 1: sc in 2nd ch from hook and each ch. (24)\n"
TURN = """Row 2: ch 1, turn, sc in next 14 sts, sc2tog, sc in next st. (16)
Row 3: ch 1, turn, sc in next 5 sts, sc2tog, sc in next st. (7)
Row 4: ch 1, turn, sc in next 6 sts, sc2tog, sc in next st. (8)
Row 5: ch 1, turn, sc in next 7 sts, sc2tog, sc in next st. (9)
"""


def alarms(text: str) -> list[tuple[str, str | None]]:
    pattern = read(text)
    return [(x.rule, x.row) for x in proof(pattern, (work(pattern),)) if x.severity in ("error", "warning")]


def test_gaps_are_closed_over() -> None:
    assert [row.counted.total for row in worked_rows(FLAP + TURN)] == [24, 16, 7, 8, 9]
    assert all(row.worked == "yes" for row in worked_rows(FLAP + TURN))
    assert alarms(FLAP + TURN) == []


def test_no_more_is_taken_than_was_left() -> None:
    """Row 2 leaves 7 and Row 4 takes 2 of them: there are no 9 for Row 6."""
    more = "Row 6: ch 1, turn, sc in next 17 sts, sc2tog, sc in next st. (19)\n"
    assert [rule for rule, _ in alarms(FLAP + TURN + more)] == ["row-uses-too-many"]


def test_a_full_row_below_offers_no_more_than_it_has() -> None:
    text = f"{FLAP}Row 2: ch 1, turn, sc in next 24 sts. (24)\nRow 3: ch 1, turn, sc in next 25 sts. (25)\n"
    assert [rule for rule, _ in alarms(text)] == ["row-uses-too-many"]


def test_stitches_left_and_never_taken_up_are_told() -> None:
    text = f"{FLAP}Row 2: ch 1, turn, sc in next 20 sts. (20)\nRow 3: ch 1, turn, sc in next 20 sts. (20)\n"
    assert [rule for rule, _ in alarms(text)] == ["row-uses-too-few"]
