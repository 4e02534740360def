"""Rounds of loops closed by chains and a tall stitch: the round after goes from that loop's middle, and ends there.

Common practice, no source.
"""

import pytest

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

NET = """Mat
Ch 6, join.
Rnd 1: Ch 1, 12 sc in ring, join with sl st in first sc. (12 sc)
Rnd 2: Ch 1, sc in same sc, * ch 5, sc in next sc; repeat from * around, ending with ch 2, dc in first sc. (12 loops)
Rnd 3: {told} (12 loops)
Rnd 4: Ch 3, 2 dc in same loop, * ch 3, 3 dc in next loop; repeat from * around, ch 3, join in top of ch-3. (36 dc)
"""


@pytest.mark.parametrize(
    "told",
    (
        "* Ch 6, sc in next loop; repeat from * around, ending with ch 3, dc in dc.",
        "* Ch 6, sc in next loop; repeat from * around, ending as before.",
        "* Ch 6, sc in next loop; repeat from * around, ending ch 3, tr in same dc.",
        "* Ch 6, sc in next loop; repeat from * around, ch 3, dc in last dc.",
        "* Ch 6, sc in next loop. Repeat from * around, joining with ch 3, dc in top of dc.",
        "* Ch 6, sc in next loop; repeat from * 10 times more, ch 3, dc in dc.",
        "Ch 1, sc in loop just made, * ch 6, sc in next loop; repeat from * around, ending with ch 3, dc in first sc.",
    ),
)
def test_the_loop_that_a_stitch_closed_is_not_worked_at_the_end(told: str) -> None:
    pattern = read(NET.format(told=told))
    fabric = work(pattern)
    assert [(row.worked, row.counted.total) for row in fabric.parts[0].rows[-1:]] == [("yes", 36)]
    assert [finding.rule for finding in proof(pattern, (fabric,)) if finding.severity in ("error", "warning")] == []
