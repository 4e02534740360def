"""Stitches that reach down into a row named or counted back cover the place above, whether the words skip it or not.

Common practice of post-stitch, spike and overlay work, no single source.
"""

from __future__ import annotations

import pytest

from hookwright.reading import read
from hookwright.working import work

BELOW = (
    "Ch 32.\nRow 1: Dc in 4th ch from hook and in each ch across, turn. (30 dc)\nRow 2: Ch 1, sc in each st across, turn. (30 sc)\nRow 3: "
)


@pytest.mark.parametrize(
    "words",
    [
        "Ch 1, *sc in next 3 sts, FPtr around next dc 2 rows below, skip next sc behind FPtr; rep from * to last 2 sts, sc in last 2.",
        "Ch 1, *sc in next 3 sts, FPtr around next dc 2 rows below; rep from * to last 2 sts, sc in last 2.",
        "Ch 1, *FPdc around next dc of Row 1, sc in next 3 sc; rep from * to last 2 sts, sc in last 2.",
        "Ch 1, *FPdc around next dc of Row 1, skip next sc, sc in next 3 sc; rep from * to last 2 sts, sc in last 2.",
        "Ch 1, *sc in next 3 sc, tr in next dc of Row 1, skip sc behind; rep from * to last 2 sts, sc in last 2.",
        "Ch 1, *sc in next 3 sc, tr in next dc of Row 1; rep from * to last 2 sts, sc in last 2.",
    ],
)
def test_each_of_seven_stands_in_row_1(words: str) -> None:
    part = work(read(f"{BELOW}{words}\n")).parts[0]
    last = part.rows[-1]
    assert (last.worked, last.counted.total) == ("yes", 30)
    deep = [at for back, at in zip(last.stitches.foot_back, last.stitches.foot_at, strict=True) if back == 2]
    assert len(deep) == 7 and len(set(deep)) == 7
