"""Granny stripes: groups in the gaps between groups, the chain that begins a row alone on the edge or one of its first group.

Common practice, no source.
"""

import pytest

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

STRIPES = (
    """Blanket. Ch 27.
Row 1: 3 dc in 6th ch from hook, *sk 2 ch, 3 dc in next ch*, repeat from * to * until 3 ch remain, sk 2 ch, 1 dc in last ch. Turn. (23 dc)
Row 2: Ch 3, 2 dc in the first space, 3 dc in every space across, finishing with 3 dc in the last space. Turn. (24 dc)
Row 3: Ch 3, 3 dc in each space between groups, 1 dc in top of turning chain. (23 dc)
Row 4: Ch 3, 2 dc in first space, 3 dc in each sp across. (24 dc)
""",
    """Wrap. Ch 30.
Row 1: Dc in 4th ch from hook and in each ch across. (28 dc)
Row 2: Ch 3, sk 2 dc, *3 dc in next dc, sk 2 dc; rep from * to last dc, dc in last dc. (26 dc)
Row 3: Ch 3, 2 dc in first space, 3 dc in each space between groups, 3 dc in last space. (27 dc)
Row 4: Ch 3, 3 dc in each space between groups, dc in last dc. (26 dc)
""",
)


@pytest.mark.parametrize("text", STRIPES)
def test_stripes_come_out(text: str) -> None:
    pattern = read(text)
    fabric = work(pattern)
    assert {(row.read, row.worked) for row in fabric.parts[0].rows} == {("whole", "yes")}
    assert [row.state for row in fabric.parts[0].rows if not row.foundation] == ["agrees"] * 4
    assert [finding.rule for finding in proof(pattern, (fabric,)) if finding.severity in ("error", "warning")] == []
