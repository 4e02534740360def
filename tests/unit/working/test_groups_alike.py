"""Groups that nobody named, counted all the same: "(4 shells)" of stitches in one place. All wordings are ours."""

import pytest

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

CLOTH = (
    "Ch 20.\nRow 1: Sc in 2nd ch from hook and in each ch. (19 sc)\n"
    "Row 2: Ch 1, turn, sc in first sc, *skip 2 sc, 5 dc in next sc, skip 2 sc, sc in next sc; rep from * to end. ({number} shells)\n"
)


@pytest.mark.parametrize(("number", "state"), [(3, "agrees"), (4, "differs")])
def test_shells_nobody_named_are_counted(number: int, state: str) -> None:
    pattern = read(CLOTH.format(number=number))
    fabric = work(pattern)
    assert fabric.parts[0].rows[-1].state == state
    told = [finding.message for finding in proof(pattern, [fabric]) if finding.severity == "error"]
    assert told == ([] if state == "agrees" else ["Row 2 makes 3 shells, and 4 shells are stated."])


@pytest.mark.parametrize(
    "words",
    [
        "3 dc in first sc, *skip 2 sc, 5 dc in next sc, skip 2 sc, sc in next sc; rep from * to end",  # a half shell at the edge
        "sc in first sc, *skip 2 sc, (3 dc, ch 2, 3 dc) in next sc, skip 2 sc, sc in next sc; rep from * to end",  # one shell, or two
        "sc in first sc, *skip 2 sc, 2 dc in next sc, skip 2 sc, sc in next sc; rep from * to end",  # an increase is no shell
    ],
)
def test_what_may_be_counted_so_or_so_is_not(words: str) -> None:
    text = CLOTH.split("Row 2")[0] + f"Row 2: Ch 1, turn, {words}. (7 shells)\n"
    assert work(read(text)).parts[0].rows[-1].counted.alike == 0
