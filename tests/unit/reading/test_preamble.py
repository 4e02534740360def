"""What stands before the first row: materials, notes, abbreviations and rules on chains neither become rows nor hide any."""

from __future__ import annotations

import pytest

from hookwright.reading import read
from hookwright.working import work

ROWS = (
    "\n\nCh 12.\nRow 1: Dc in 4th ch from hook and in each ch across. (10 dc)\n"
    "Row 2: Ch 3, turn, dc in next st and in each st across. (10 dc)\n"
)
ROUNDS = "\n\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\n"
BEFORE = (
    "Materials\n- Worsted weight yarn, about 100 yards\n- 5 mm hook\n- Stitch marker",
    "Gauge: 14 sts and 8 rows = 4 in dc",
    "Abbreviations (US):\nch – chain\nsc – single crochet\nsl st – slip stitch\nst(s) – stitch(es)\nsk – skip",
    "Abbreviations: ch = chain, sc = single crochet, st = stitch, inc = 2 sc in same st, dec = sc2tog",
    "**Abbreviations**\nbeg = beginning\nch = chain\nrep = repeat",
    "Notes: Ch 3 at beginning of row counts as a dc throughout.",
    "Throughout the pattern, ch 2 counts as first hdc.",
    "Note: ch-3 counts as dc, ch 1 does not count.",
    "This pattern uses US terms. Starting ch-3 counts as dc. Join all rounds with a sl st.",
    "Special Stitches\n\nShell: (3 dc, ch 1, 3 dc) in same st.\nV-st: (dc, ch 1, dc) in next st.",
    "Special stitches:\nInc: work 2 sc in the same stitch.\nDec: insert hook in front loop of next 2 sts, yo, pull through both loops, "
    "yo, pull through 2 loops.",
    "Tips: If your work curls, go up a hook size. If your chain is tight, use a bigger hook for it.",
    "To make it wider, chain more in multiples of 2. To make it longer, repeat Row 2 as many times as you like.",
    "Video: part 1 shows rows 1 to 3.",
)


@pytest.mark.parametrize("before", BEFORE, ids=[text.split("\n")[0][:30] for text in BEFORE])
@pytest.mark.parametrize(("rows", "counts"), [(ROWS, [10, 10]), (ROUNDS, [6, 12, 18])], ids=["rows", "rounds"])
def test_what_stands_before_the_rows_changes_none(before: str, rows: str, counts: list[int]) -> None:
    pattern = read(f"# Sample\n\n{before}{rows}")
    worked = [row for part in work(pattern).parts for row in part.rows if not row.foundation]
    assert [row.counted.total for row in worked] == counts
    assert all(row.read == "whole" and row.worked == "yes" for row in worked)
    assert not [trouble for trouble in pattern.troubles if trouble.kind == "unread"]
