"""Joined rounds that begin with slip stitches: the first goes beside the stitch of the join, and the round ends where they led to (common
practice, no source)."""

import pytest

from hookwright.reading import read
from hookwright.working import work

GROUPS = """Coaster
Ch 6, join with sl st.
Rnd 1: Ch 3, 11 dc in ring, join with sl st in top of ch-3. (12 dc)
Rnd 2: Ch 3, 2 dc in same place, * skip next dc, 3 dc in next dc; repeat from * around, skip last dc, join in top of ch-3. (18 dc)
Rnd 3: {told}
"""


@pytest.mark.parametrize(
    ("told", "stitches", "loops"),
    (
        ("Sl st in next 2 dc, ch 3, dc in each dc around, join. (18 dc)", 18, 0),
        ("Sl st in next dc, ch 3, dc in each dc around, join. (18 dc)", 18, 0),
        ("Sl st in next dc, ch 1, sc in same place, * ch 4, sc in center dc of next group; repeat from * around, ch 4, join.", 6, 6),
        ("Sl st in next dc, sc in same dc, * ch 4, skip 2 dc, sc in next dc; repeat from * around, ch 4, join.", 6, 6),
        ("Sl st in next dc, * ch 4, sc in center dc of next group; repeat from * around.", 5, 6),
        ("Sl st in next dc, * ch 4, sc in center dc of next group; repeat from * around, ch 4, join.", 5, 6),
        ("Sl st in next dc, * ch 4, skip 2 dc, sl st in next dc; repeat from * around.", 6, 6),
    ),
)
def test_a_round_begun_beyond_the_join_meets_itself(told: str, stitches: int, loops: int) -> None:
    row = work(read(GROUPS.format(told=told))).parts[0].rows[-1]
    assert (row.read, row.worked, row.counted.total) == ("whole", "yes", stitches)
    assert row.counted.by_kind.get("ch-4 sp", 0) == loops


def test_in_a_spiral_the_next_stitch_is_the_first_one() -> None:
    text = "Rnd 1: 6 sc in magic ring.\nRnd 2: 2 sc in each st.\nRnd 3: Sl st in next 2 sts, sc in next 10 sts. (12 sts)\n"
    row = work(read(text)).parts[0].rows[-1]
    assert (row.worked, row.used, row.counted.total) == ("yes", 12, 12)
