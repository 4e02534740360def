"""Short pieces in the manner of booklets of 1900 to 1970, worked to their counts; all lines are invented."""
# ruff: noqa: E501

import pytest

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

from .told import worked_rows

PIECES = {
    "one stitch skipped behind a turning chain that stands for it": (
        "TOP. Ch 22. 1st row: D c in 4th ch from hook and in each ch across (20 d c). Ch 3, turn. 2nd row: Skip 1 d c, d c in each d c, "
        "d c in top of ch 3. Ch 3, turn. 3rd row: Skip 1 d c, work 1 d c in each of next 18 d c, d c in top of ch 3.\n",
        "20 20 20",
    ),
    "places left for the neck told before the row's work": (
        "CAP. Ch 21. 1st row: S c in 2nd ch from hook and in each ch (20 s c). Ch 3, turn. 2nd row: Leaving 5 s c unworked for back of neck, "
        "skip first s c, d c in each of next 14 s c. Ch 3, turn. (15 d c, counting ch 3) 3rd row: D c in each d c across.\n",
        "20 15 15",
    ),
    "a decrease of one stitch over the next two of its kind": (
        "BAND. Ch 72, join. Rnd 1: Sc in each ch (72 sc). Rnd 2: * 1 s.c. in each of next 7 s.c., dec. 1 s.c. over next 2 s.c.; rep. from * "
        "(64 s.c.). Rnd 3: * Sc in next 4 sc, dec 2 sc over next 4 sc; rep from * around (48 sc).\n",
        "72 64 48",
    ),
    "a single by itself is the slip stitch of a British book": (
        "MAT.\n\nMake 8 chain and join round. 1st row.\u20143 ch., 19 treble under the ring, join by a single to the top of 3 ch. 2nd row.\u2014"
        "5 ch., * miss 1 treble, 1 treble into the next, 2 ch., repeat from * 8 times more, single to the 3rd of 5 ch. 3rd row.\u2014Single "
        "into the space, 3 ch., 3 treble in same space, * 1 ch., 4 treble in the next space, repeat from * to end of row, 1 ch., join.\n",
        "20 10 40",
    ),
    "stitch and chain placed behind them, in a starred unit": (
        "MAT.\n\nCh 6, join. Rnd 1: 12 sc in ring. Rnd 2: * Dc, ch 2 in each sc; repeat from * around. Rnd 3: * 3 dc in ch-2 sp, ch 1; rep "
        "from * around.\n",
        "12 12 36",
    ),
    "the tips of petals are their clusters": (
        "COASTER. Ch 6, join. 1st rnd: * Ch 4, 2 tr in ring holding back last lp of each tr on hook, thread over and draw through all 3 lps, "
        "ch 4, s c in ring; rep from * 7 times. Fasten off. 2nd rnd: Attach thread in tip of any petal, * ch 6, s c in tip of next petal; "
        "rep from * around. 3rd rnd: 8 s c in each ch-6 lp, join.\n",
        "16 8 64",
    ),
    "a way forward that says how it ends": (
        "SQUARE IN AFGHAN STITCH. Ch 12. 1st row: Retaining all lps on hook, draw up a lp in 2nd ch from hook and in each ch across (12 lps "
        "on hook). To work lps off: yo, draw through 1 lp, * yo, draw through 2 lps; rep from * until 1 lp remains. 2nd row: Retaining all "
        "lps on hook, draw up a lp in 2nd vertical bar and in each bar across, ending with lp in last bar (12 lps). Work lps off as "
        "before. 3rd row: Skip first bar, draw up a lp in each bar to last bar, ending with a lp in last bar (12 lps). Work lps off.\n",
        "12 12 12",
    ),
    "a bare count behind one row named": (
        "HAT.\n\nRnd 1: Ch 4, join, 8 sc in ring. Rnd 2: 2 sc in each sc\u201416. Rnd 3: Same as Rnd 2\u201432.\n",
        "8 16 32",
    ),
    "rows worked on by their ordinals, with no word of repeating": (
        "STRIP. Chain 13. 1st row: Sc in 2nd ch from hook and in each ch (12 sc). Ch 1, turn. 2nd row: Sc in each sc. Ch 3, turn. 3rd row: "
        "Skip first sc, dc in each sc. Ch 1, turn. Work 2nd and 3rd rows twice. Work 2nd row once.\n",
        "12 12 12 12 12 12 12 12",
    ),
    "the stitches of a whole edge shared out among its sides": (
        "EDGE. 1st rnd: Work 240 s c around, making 60 s c on each side. 2nd rnd: * Ch 5, skip 2 s c, s c in next s c. Repeat from * around "
        "(80 lps).\n",
        "240 80",
    ),
    "a foundation told behind where the piece is begun": (
        "BOOTEE.\n\nCommence at sole, with 18 ch. 1st row.\u20141 d.c. into 2nd ch. from hook, 1 d.c. into each ch., 1 ch., turn (17 d.c.). "
        "2nd row.\u20141 d.c. into each d.c., miss none.\n",
        "17 17",
    ),
    "every number joined to its stitch": (
        "INSERTION\nMake 21-ch. 1st row: 1-tr. into 4th-ch. from hook, 1-tr. into each of next 2-ch., 5-ch., miss 5-ch., 1-d.c. into next "
        "ch., 5-ch., miss 5-ch., 1-tr. into each of last 4-ch., 3-ch., turn. 2nd row: 1-tr. into each of next 3-tr., 3-ch., 1-d.c. into "
        "5-ch. loop, 3-ch., 1-d.c. into next loop, 3-ch., 1-tr. into each of next 3-tr., 1-tr. into top of 3-ch.\n",
        "9 10",
    ),
    "gaps named by both their sides": (
        "SHAWL\nMake 20 ch. 1st row: 1 tr. in 4th ch. from hook, 1 tr. in each ch. to end. 2nd row: 3 ch., 1 tr. between 1st and 2nd tr., "
        "* 1 tr. between next 2 tr.; rep. from * to end. 3rd row: 3 ch., 1 tr. between each 2 tr. to end.\n",
        "18 18 18",
    ),
    "a round that ends in the stitch on which its first loop hangs": (
        "WHEEL. Ch 6, join. Rnd 1: Ch 4, 17 tr in ring, join. Rnd 2: Ch 6, skip 2 tr, s c in next tr, * ch 6, skip 2 tr, s c in next tr, "
        "repeat from * 4 times.\n",
        "18 6",
    ),
    "a second wheel headed in mid-paragraph and told by the first": (
        "FIRST WHEEL: Ch 6, join. Rnd 1: Ch 4, 17 tr in ring, join in top of ch 4 (18 tr). Rnd 2: * Ch 6, skip 2 tr, s c in next tr, repeat "
        "from * 5 times (6 lps). Fasten off. SECOND WHEEL: Work same as First Wheel through Rnd 1. Rnd 2: Ch 3, s c in lp of First Wheel, "
        "ch 3, skip 2 tr, s c in next tr, * ch 6, skip 2 tr, s c in next tr, repeat from * 4 times.\n",
        "18 6 18 7",
    ),
    "short rows taken up again without a word": (
        "CAPE\nCh 28. 1st row\u2014Sc in 2nd ch from hook and in each ch across (27 sc). Ch 1, turn. 2nd row\u2014Working in back loops, sc in "
        "20 sc, turn. 3rd row\u2014Ch 1, sc in 20 sc. Ch 1, turn. 4th row\u2014Sc in each of 27 sc. Ch 1, turn. Repeat 2nd, 3rd and 4th rows "
        "once.\n",
        "27 20 20 27 20 20 27",
    ),
    "shapings on every row up to a number of stitches": (
        "MAT. Ch 12. Row 1: Sc in 2nd ch from hook and each ch (11 sc). Work 1 row even. Then dec 1 s c at each end of every row until 5 s c "
        "remain. Inc 1 sc at beg and end of every row until there are 9 sc.\n",
        "11 11 9 7 5 7 9",
    ),
    "so many rows in afghan stitch on the chain": (
        "AFGHAN STRIP\nWith Brown, ch 14. Work 13 afghan sts on ch for 3 rows. Work in afghan st for 2 rows. Work 2 rows of afghan st.\n",
        "14 14 14 14 14 14 14",
    ),
    "loops on the hook worked off by ones and twos, of no stitch named": (
        "PAD. With Gold ch 25. ROW 1: Pull up a lp in 2nd ch from hook and in each rem ch (25 lps on hook), y o, pull through 1 lp, * y o, pull "
        "through 2 lps, rep from * until 1 lp remains. ROW 2: Sk 1st bar, pull up a lp in each bar across, work lps off same as Row 1.\n",
        "25 25",
    ),
    "a number in a bracket as the mark of a repeat": (
        "DOILY. Ch 6, join. 1st rnd: Ch 3, 23 d c in ring, join (24 d c). 2nd rnd: Ch 4, (1) d c in next d c, ch 1, rep from (1) around, join "
        "to 3rd ch of ch 4 (24 sps).\n",
        "24 24",
    ),
    "a row repeated by the word alone": (
        "STOLE. Ch 11. Row 1: Sc in 2nd ch and each ch (10 sc). Row 2: Ch 1, turn, sc in each sc. Repeat until piece measures 9 inches.\n",
        "10 10 10",
    ),
}


@pytest.mark.parametrize("cause", PIECES)
def test_piece_is_read_whole_and_worked(cause: str) -> None:
    text, told = PIECES[cause]
    assert [row.counted.total for row in worked_rows(text)] == [int(number) for number in told.split()]
    pattern = read(text)
    assert proof(pattern, (work(pattern),)) == ()


LONG = "BORDER\n1st rnd.: 1 d.c. into each of next 48 sts., join. 2nd rnd.: 7 ch., miss 2 d.c., 1 {} into next d.c., * 3 ch., miss 2 d.c., "


@pytest.mark.parametrize("name", ["l.tr.", "long tr.", "long treble"])
def test_long_treble_beside_trebles_is_the_taller(name: str) -> None:
    text = LONG + "1 {} into next d.c.; rep. from * ending with 3 ch., s.s. into 4th of 7 ch. 3rd rnd.: 3 ch., 3 tr. in each sp., join.\n"
    assert worked_rows(text.replace("{}", name))[1].counted.by_kind["tr"] == 16


def test_count_told_before_a_hanger_is_of_the_round_before_it() -> None:
    told = "PAD. Ch 4, join. Rnd 1: 24 sc in ring, join. Rnd 2: * Ch 3, skip 1 sc, sl st in next sc; rep from * around ({} lps). Ch 12 for hanger, sl st in same place.\n"
    right, wrong = (read(told.format(number)) for number in (12, 11))
    assert proof(right, (work(right),)) == ()
    assert [one.rule for one in proof(wrong, (work(wrong),))] == ["count-differs"]


def test_loops_of_a_figure_among_shells_are_counted_by_themselves() -> None:
    text = (
        "EDGING. Chain 17. 1st Row\u2014Work 2 d c, ch 2, 2 d c (shell) in 6th ch from hook, ch 4, skip 5 ch, 9 tr in next ch, ch 4, skip 4 ch, "
        "shell in next ch. Ch 5, turn. 2nd Row\u2014Shell in sp of shell, ch 3, s c in 1st tr, (ch 3, s c in next tr) 8 times, ch 3, shell in "
        "shell. ({} lps) Ch 5, turn.\n"
    )
    right, wrong = (read(text.replace("{}", number)) for number in ("8", "7"))
    assert proof(right, (work(right),)) == ()
    assert [one.rule for one in proof(wrong, (work(wrong),))] == ["count-differs"]


def test_scallops_of_an_edging_may_hang_outside() -> None:
    edging = (
        "EDGE. Ch. 10. 1st row: D. c. in 6th ch. from hook, ch. 2, skip 3 ch., 5 d. c. in last ch. 2nd row: Ch. 4, turn, (d. c. in next d. c., "
        "ch. 1) 3 times, d. c. in next d. c., ch. 2, d. c. in next d. c., ch. 2, skip 2 ch. of turning ch., d. c. in next ch. 3rd row: Ch. 5, "
        "turn, d. c. in next d. c., ch. 2, 5 d. c. in next d. c.{}\n"
    )
    again, alone = (read(edging.replace("{}", words)) for words in (" Repeat 2nd and 3rd rows for length desired.", ""))
    assert proof(again, (work(again),)) == ()
    assert [one.rule for one in proof(alone, (work(alone),))] == ["row-uses-too-many"]


def test_rows_in_another_yarn_are_rows_of_their_own() -> None:
    text = "MAT. Ch 11. Row 1: Sc in 2nd ch and each ch (10 sc). Work 3 rows even. With Tan work 1 row of s c around mat, working 3 s c in each corner.\n"
    assert [row.counted.total for row in work(read(text)).parts[0].rows[1:5]] == [10, 10, 10, 10]


def test_a_piece_of_cloth_is_passed_over_by_length() -> None:
    text = "EDGE. 1st rnd.: 1 d.c. into corner, * 5 ch., miss \u00bc inch, 1 d.c. into edge, rep. from * all round.\n"
    assert work(read(text)).parts[0].rows[0].read == "whole"


def test_part_left_by_a_short_row_is_told_where_none_takes_it_up() -> None:
    text = "CAPE. Ch 28. Row 1: Sc in 2nd ch and each ch (27 sc). Row 2: Ch 1, turn, sc in 20 sc, turn. Row 3: Ch 1, sc in 20 sc.\n"
    pattern = read(text)
    assert [one.rule for one in proof(pattern, (work(pattern),))] == ["row-uses-too-few"]
