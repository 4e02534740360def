"""A numbered row whose words were all set aside is not understood; one that truly asks for nothing is left alone."""

from typing import Any

import pytest

from hookwright.reading import read
from hookwright.working import work

PIECE = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n{}\nRow 3: Ch 1, sc in each of next 15 sts. (15 sc)\n"


def rows(line: str) -> list[Any]:
    return [row for part in work(read(PIECE.format(line))).parts for row in part.rows if not row.foundation]


@pytest.mark.parametrize(
    "line", ["Row 2: Blorp the fronds, turn.", "Row 2: Ch 3, froble across the gusset, turn.", "Row 2: Work in the usual way."]
)
def test_what_nobody_can_work_is_said_to_be_unread(line: str) -> None:
    _, second, third = rows(line)
    assert (second.read, second.worked) == ("no", "assumed")
    assert (third.counted.total, third.state) == (15, "agrees")  # the row on it tells how wide it was


@pytest.mark.parametrize("line", ["Row 2: Turn.", "Row 2: Fasten off Blue, join Red.", "Row 2: Stuff firmly."])
def test_a_row_that_asks_for_no_stitch_is_read(line: str) -> None:
    assert rows(line)[1].read == "whole"
