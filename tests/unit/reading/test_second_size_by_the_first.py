"""A second size of a round piece, told by the first as far as a round, and then on by itself."""

import pytest

from hookwright.reading import read
from hookwright.working import work

SMALL = (
    "Coaster in two sizes\n\nSmall\nRnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each sc around. (12 sc)\n"
    "Rnd 3: *Sc in next sc, 2 sc in next sc; rep from * around. (18 sc)\nFasten off.\n\n"
)
ON = "Rnd 4: *Sc in next 2 sc, 2 sc in next sc; rep from * around. (24 sc)\nRnd 5: Sc in each sc around. (24 sc)\n"


@pytest.mark.parametrize(
    "words",
    [
        "Large\nAs above up to round 3, then:\n",
        "Large: As above up to round 3, then continue as follows.\n",
        "Large\nWork as for Small to end of Rnd 3.\n",
        "Large\nFollow instructions for Small through Rnd 3.\n",
        "Large\nBegin as the small one, working rounds 1 to 3.\n",
        "Large: Work Rnds 1-3 of Small. Then\n",
        "Large size: Same as Small until 3 rnds are completed.\n",
    ],
)
def test_the_second_begins_as_the_first(words: str) -> None:
    pattern = read(SMALL + words + ON)
    fabric = work(pattern)
    assert pattern.parts[0].name == "Small"
    assert len(pattern.parts) == 2
    rows = [row for row in fabric.parts[1].rows if not row.foundation]
    assert [row.counted.total for row in rows] == [6, 12, 18, 24, 24]
    assert all(row.read == "whole" and row.worked in ("yes", "assumed") for row in rows)
