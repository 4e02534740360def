"""Shapings told beside a reference, so many told of "these" stitches, a part of a row worked for a shoulder.

Common practice, no source.
"""

import pytest

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

CAP = (
    "Cap. Rnd 1: 14 dc in ring, join.\nRnd 2: Ch 3, dc in same st, 2 dc in each dc, join. (28 dc)\n"
    "Rnd 3: Ch 3, dc in each dc around, join.\nRnd 4: "
)


@pytest.mark.parametrize(
    ("told", "number"),
    (
        ("Same as rnd 3, but inc 4 sts evenly spaced.", 32),
        ("As rnd 3 but dec 4 sts evenly around.", 24),
        ("Same as rnd 3, inc 4 dc.", 32),
        ("Like rnd 3, except inc 4 sts evenly around.", 32),
        ("Repeat rnd 3, but inc 4 sts.", 32),
        ("Work as for 3rd rnd, increasing in every 7th st.", 32),
        ("Ch 3, dc in each dc around, increasing in every 7th dc.", 32),
        ("Ch 3, dc around, dec in every 7th dc.", 24),
    ),
)
def test_a_round_like_another_is_shaped(told: str, number: int) -> None:
    row = work(read(CAP + told)).parts[0].rows[-1]
    assert (row.read, row.worked, row.counted.total) == ("whole", "yes", number)


BACK = "Back. Ch 50. Row 1: Dc in 4th ch from hook and in each ch across. (48 dc) Ch 3, turn.\n"


@pytest.mark.parametrize(
    "told",
    (
        "Next row: Work across 15 dc for shoulder. (15 dc) Fasten off. Skip center 18 dc, "
        "attach yarn in next dc and work other shoulder same way.",
        "Next row: Dc in 14 dc for shoulder. (15 dc) Ch 3, turn. Work 2 rows even on these 15 dc.",
    ),
)
def test_a_shoulder_leaves_the_rest(told: str) -> None:
    pattern = read(BACK + told)
    fabric = work(pattern)
    assert fabric.parts[0].rows[-1].counted.total == 15
    assert [finding.rule for finding in proof(pattern, (fabric,)) if finding.severity in ("error", "warning")] == []
