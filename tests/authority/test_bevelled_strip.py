"""A strip with bevelled ends, worked by hand: 2 dc in Row 1, one more a row at one edge to 20 dc at Row 19, straight to Row 83, one fewer a
row at that edge to 2 dc at Row 101. Hand arithmetic: 2 + 3 + … + 19 = 189, 65 rows × 20 = 1,300, 19 + 18 + … + 2 = 189: 1,678 dc."""

import pytest

from hookwright.reading import read
from hookwright.working import Fabric, Role, work

INCREASE = (
    "Row 2: Ch 2 (does not count as st), turn, 2 dc in first st, dc in each st across.",
    "Row 3: Ch 2 (does not count as st), turn, dc in each st to last st, 2 dc in last st.",
)
DECREASE = (
    "Row 84: Ch 2 (does not count as st), turn, dc2tog over first 2 sts, dc in each st across. (19 dc)",
    "Row 85: Ch 2 (does not count as st), turn, dc in each st to last 2 sts, dc2tog over last 2 sts. (18 dc)",
)
STRIP = "\n".join(
    (
        "Gauge: 13 dc and 6.5 rows = 10 cm", "", "Ch 3.",
        "Row 1: 2 dc in 3rd ch from hook (skipped ch do not count). (2 dc)", *INCREASE,
        "Rows 4-19: Rep Rows 2 and 3. (20 dc)",
        "Rows 20-83: Ch 2 (does not count as st), turn, dc in each st across. (20 dc)", *DECREASE,
        "Rows 86-101: Rep Rows 84 and 85. (2 dc)",
    )
)  # fmt: skip


@pytest.fixture(scope="module")
def strip() -> Fabric:
    return work(read(STRIP))


def test_counts(strip: Fabric) -> None:
    rows = [r for r in strip.parts[0].rows if not r.foundation]
    totals = {r.number: r.counted.total for r in rows}
    assert (totals[1], totals[19], totals[83], totals[101]) == (2, 20, 20, 2)
    assert strip.stitch_count == 1678
    assert not [t for r in rows for t in r.troubles]
    assert all(r.state in ("agrees", "unstated") for r in rows)


def test_every_shaping_lies_at_the_edge_where_row_1_ended(strip: Fabric) -> None:
    """Edge B: the end of rows that begin at A, the beginning of rows that begin at B."""
    for row in strip.parts[0].rows:
        if row.foundation or row.number == 1:
            continue
        s = row.stitches
        worked = list(s.counted())
        feet = [tuple(at for _, at, _ in s.feet_of(i)) for i in worked]
        shaped = [k for k, f in enumerate(feet) if len(f) > 1 or (k and f == feet[k - 1])]
        edges = {"A" if (k < len(worked) / 2) == (row.begins == "A") else "B" for k in shaped if len(worked) > 3}
        assert edges <= {"B"}, row.label
        assert bool(shaped) == (row.number <= 19 or row.number >= 84)


def test_starting_chains_hide(strip: Fabric) -> None:
    assert all(r.stitches.role[0] == Role.START for r in strip.parts[0].rows if not r.foundation)
