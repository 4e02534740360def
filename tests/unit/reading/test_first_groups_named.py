"""A bracket that only says what the stitches before begin is a remark; a star behind it is a star (common practice, no source)."""

import pytest

from hookwright.reading import read
from hookwright.working import work

SQUARE = """Square (UK terms)
Using yarn A, 6 ch, ss to form a ring.
Round 1: 1 ch, 12 dc into ring, ss to first dc. (12 dc)
Round 2: 3 ch, 1 tr in same st {bracket}, *2 ch, tr2tog in next dc; rep from * 10 times, 2 ch, ss to top of 3 ch. (12 petals)
"""


@pytest.mark.parametrize(
    "bracket",
    (
        "(first bobble half)",
        "(half of the first bobble)",
        "(first petal started)",
        "(beginning bobble made)",
        "(here starts the first petal)",
    ),
)
def test_what_a_group_is_begun_by(bracket: str) -> None:
    row = work(read(SQUARE.format(bracket=bracket))).parts[0].rows[-1]
    assert (row.read, row.worked, row.offered, row.used) == ("whole", "yes", 12, 12)
    assert row.counted.by_kind["ch-2 sp"] == 12
