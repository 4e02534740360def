"""Both sides of a chain whose first end is turned round at once, and rounds "in this manner" with their shaping told.

Common practice, no source.
"""

import pytest

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

RUG = """Oval rug. Ch 16.
1st rnd: 3 sc in 2nd ch from hook, sc in each of next 13 ch, 3 sc in last ch, sc along other side of ch, join. (32 sc)
2nd rnd: Ch 1, 2 sc in each of 3 sc at end, sc in next 13 sc, 2 sc in each of next 3 sc, sc in next 13 sc. (38 sc)
3rd rnd: * (Sc in next sc, 2 sc in next sc) 3 times, sc in next 13 sc. Repeat from * once. (44 sc)
4th to 8th rnds: Continue in this manner, increasing 3 sc at each end. (74 sc)
"""
FIRST = (
    "3 sc in 2nd ch from hook, sc in next 13 ch, 3 sc in last ch, working on other side of ch, sc in next 13 ch.",
    "3 sc in 2nd ch from hook, sc in each ch to last, 3 sc in last ch, sc in each ch along opposite side.",
    "Sc in 2nd ch from hook, sc in each ch to last, 3 sc in last ch, sc in each ch along opposite side to last, 2 sc in last.",
    "2 sc in 2nd ch from hook, sc in each ch to last, 3 sc in last ch, sc in each ch along opposite side, sc in first ch again.",
)


def test_a_rug_grows_at_both_ends() -> None:
    pattern = read(RUG)
    fabric = work(pattern)
    assert [row.counted.total for row in fabric.parts[0].rows if not row.foundation] == [32, 38, 44, 50, 56, 62, 68, 74]
    assert [finding.rule for finding in proof(pattern, (fabric,)) if finding.severity in ("error", "warning")] == []


@pytest.mark.parametrize("told", FIRST)
def test_the_far_side_ends_before_a_turned_end(told: str) -> None:
    row = work(read(f"Mat. Ch 16.\n1st rnd: {told} (32 sc)\n")).parts[0].rows[-1]
    assert (row.read, row.worked, row.state, row.counted.total) == ("whole", "yes", "agrees", 32)
