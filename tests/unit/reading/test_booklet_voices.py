"""Pieces told as booklets of 1930-1975 tell them, each with one cause that was once read wrong; read whole, with the counts beside them.

The wordings are ours, after common practice in print (no single source).
"""

from __future__ import annotations

import pytest

from .told import worked_rows

_CUP = "1st Rnd: Ch 4, join, 12 s c in ring.\n\n2nd Rnd: 1 s c in back loop of each s c.\n\n3rd Rnd: 2 s c in each s c.\n\n"
_STRIP = "Ch 40, s c in 2nd st from hook, 1 s c in each remaining st of ch, ch 3, turn.\n\n2nd Row. Skip 1st s c, 1 d c in each s c, ch 1, turn.\n\n3rd Row. 1 s c in each d c, ch 3, turn.\n\n"  # noqa: E501
PIECES = {
    "how the piece is held, before the yarn is joined": (
        _CUP + "RIM: Hold cup with opening up. Join Red in any st, * s c in next s c, ch 3, skip 1 s c; repeat from * around, join.\n",
        "12 12 24 12",
    ),
    "strands left free, the row not named": (
        _CUP + "FRILL: Fold rim down. Attach Rose in any free front loop, * s c in next loop, ch 3, skip 1 loop, repeat from * around.\n",
        "12 12 24 6",
    ),
    "where the yarn goes takes more words than the work": (
        _CUP + "FRILL: Attach Rose in one of the free front loops of the cup below the rim, 2 d c in each loop.\n",
        "12 12 24 24",
    ),
    "strands of a row named, in a unit": (
        _CUP + "FRILL: Working in free front loops of 1st rnd, * s c in next loop, ch 2, skip 1 loop, repeat from * around.\n",
        "12 12 24 6",
    ),
    "rows that end with one of them, the chain that turns left out": (
        _STRIP + "Repeat from 2nd row for length desired ending with the 3rd row, omit the ch 3, cut thread.\n",
        "39 39 39 39 39",
    ),
    "what the rows are, in brackets": (
        _STRIP + "Repeat last 2 rows (these 2 rows form the pattern) twice, omitting last ch 3 on last repeat.\n",
        "39 39 39 39 39 39 39",
    ),
    "rows so often, and one of them once": (
        _STRIP + "Repeat 2nd and 3rd rows twice and 2nd row once, cut yarn.\n",
        "39 39 39 39 39 39 39 39",
    ),
    "one shell less in every row": (
        "Ch 32, s c in 2nd st from hook, * skip 2 sts, 5 d c in next st (shell), skip 2 sts, s c in next st, repeat from * 4 times, turn "
        "(5 shells).\n\nNext Row. Sl st to center st of 1st shell, s c in same place, * shell in next s c, s c in center st of next shell, "
        "repeat from * across row, turn (a decrease of 1 shell). Repeat last row until 2 shells remain, turn.\n",
        "31 25 19 13",
    ),
    "how many a row gains, behind it in brackets": (
        "Ch 10, s c in 2nd st from hook, 1 s c in each remaining st of ch, ch 1, turn.\n\n2nd Row. 2 s c in 1st s c, 1 s c in each s c to "
        "last s c, 2 s c in last s c, ch 1, turn (an increase of 2 sts).\n",
        "9 11",
    ),
    "loops of a fan between shells": (
        "Ch 24, 2 d c in 4th st from hook, ch 2, 2 d c in next st (shell), skip 8 sts, 9 tr c with ch 1 between each tr c in next st, "
        "skip 8 sts, 2 d c in next st, ch 2, 2 d c in next st, turn.\n\n2nd Row. Ch 3, shell in shell, ch 3, 2 d c in 1st tr c, * ch 2, "
        "2 d c in next tr c, repeat from * 7 times, ch 3, shell in shell, turn.\n\n3rd Row. Ch 3, shell in shell, ch 3, s c in 1st ch 2 "
        "loop of fan, * ch 5, s c in next loop, repeat from * 6 times, ch 3, shell in shell, turn.\n\n4th Row. Ch 3, shell in shell, "
        "ch 3, s c in 1st loop of fan, * ch 5, s c in next loop, repeat from * 5 times, ch 3, shell in shell, turn.\n",
        "18 27 16 15",  # the chain turned beside a shell that is itself the edge stands for no stitch
    ),
    "loops of several rows caught as one": (
        "Ch 21, d c in 4th st from hook, 1 d c in each of next 4 sts, ch 4, skip 4 sts of ch, 1 d c in each of next 9 sts, ch 3, turn.\n\n"
        "2nd Row. Skip 1st d c, 1 d c in each of next 8 d c, ch 4, 1 d c in each of next 6 d c, ch 3, turn.\n\n3rd Row. Skip 1st d c, "
        "1 d c in each of next 5 d c, ch 2, s c over the 2 ch 4 loops of last 2 rows, ch 2, 1 d c in each of next 9 d c.\n",
        "15 15 16",
    ),
    "a round begun in the loop that closed the one before": (
        "Ch 8, join, ch 3, 23 d c in ring, join.\n\n2nd Rnd. Ch 10, * skip 2 d c, d c in next d c, ch 7, repeat from * 5 times, skip "
        "2 d c, d c in next d c, ch 3, tr c in 3rd st of ch 10.\n\n3rd Rnd. Ch 10, d c in next loop, * ch 7, d c in next loop, repeat from "
        "* all around, ch 3, tr c in 3rd st of ch 10.\n\n4th Rnd. Ch 7, s c in next loop, * ch 7, s c in next loop, repeat from * all "
        "around, ch 3, tr c in tr c.\n\n5th Rnd. 9 s c in each loop all around, join.\n",
        "24 8 8 7 72",
    ),
    "the last of some rounds closed, the stitches drawn together": (
        _CUP
        + "Next 3 Rounds: 1 s c in each s c, ending last round with sl st in each of next 2 s c to even round.\n\nNext Round: Decrease "
        "all around to 12 s c, sl st in next st.\n\nNext Round: Work in s c decreasing in every 2nd and 3rd st, cut yarn leaving an end. "
        "Draw sts tog.\n",
        "12 12 24 24 24 24 12 8",
    ),
    "so many shaped, or down to so many, where the maker likes": (
        _CUP + "4th Rnd: Dec 4 sts around.\n\n5th Rnd: Work in s c increasing in every 2nd s c (30 s c).\n\n6th Rnd: Work 1 round of s c, "
        "decreasing to 25 sts.\n\n7th Rnd: Decrease until 10 s c remain.\n",
        "12 12 24 20 30 25 10",
    ),
}
"""The piece and the totals of its worked rows, in order (foundation chains of nothing but chains left out)."""


@pytest.mark.parametrize("cause", PIECES)
def test_piece_is_read_whole_and_worked(cause: str) -> None:
    text, told = PIECES[cause]
    rows = worked_rows(text)
    assert [row.counted.total for row in rows] == [int(number) for number in told.split()]
    assert {row.worked for row in rows} == {"yes"}
