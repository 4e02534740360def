"""Causes that leaflets of squares, mats and cases show, worked to their counts. Every piece is invented."""

import pytest

from hookwright.pattern import Make
from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

from .told import worked_rows

_SHELLS = (
    "Ch 33, in 6th ch from hook work 2 dc, ch 1 and 2 dc (shell made), * skip 2 ch, dc in next ch, skip 2 ch, shell in next ch; rep "
    "from * 3 times more, skip 2 ch, dc in last ch (5 shells). Ch 3, turn.\n\nRow 2: * Shell in next shell, dc in next single dc; rep "
    "from * to end, the last dc in top of turning ch. Ch 3, turn.\n\n"
)
_SQUARE = (
    "TILE\n\nCh 6, join.\n\nRnd 1: Ch 3, 15 dc in ring, join.\n\nRnd 2: Ch 3, dc in next 3 dc, * ch 2, dc in next 4 dc. Repeat from * "
    "twice. Ch 2, join.\n\nRnd 3: Ch 3, dc in next 3 dc, * 2 dc, ch 2 and 2 dc in next loop (corner), dc in next 4 dc. "
)
_GROUPS = (
    "DOILY\n\nCh 8, join.\n\n1st rnd: 24 sc in ring, join.\n\n2nd rnd: Ch 3, dc in next 2 sc, * ch 3, dc in next 3 sc. Repeat from * "
    "around, ch 3, join. (8 groups)\n\n"
)
_SQUARES = (
    "BOOKMARK\n\nCh 24.\n\nRow 1: Dc in 4th ch from hook, dc in each remaining ch (7 bls). Ch 3, turn.\n\nRow 2: Bl over 1st bl, 5 sps, bl "
    "over last bl, the last dc in top of ch-3. Ch 3, turn.\n\n"
)
PIECES = {
    "squares in brackets told so often, a bracket that tells how blocks are made, the chart worked back": (
        _SQUARES + "Row 3: Bl, sp, then bls over next 3 sps (dc in each dc, 2 dc in each sp), sp, bl. Ch 3, turn.\n\nRow 4: (Bl, sp) 3 "
        "times, bl. Ch 3, turn.\n\nRow 5: Bl, (sp, bl) 3 times. Ch 3, turn.\n\nRow 6: * Bl, sp; repeat from * twice, bl. Ch 3, turn.\n\n"
        "Rows 7 to 9: Work back from Row 3 to Row 1.\n",
        "22 12 18 16 16 16 18 12 22",
    ),
    "a chart told again in reverse order": (
        _SQUARES + "Row 3: [1 bl, 1 sp] 3 times, 1 bl. Ch 3, turn.\n\n4th to 6th rows: Rows 1 to 3 in reverse order.\n",
        "22 12 16 16 12 22",
    ),
    "a decrease over groups asked for again, first ones and all of them; the row told as even hands its chain on": (
        "COMB CASE\n\n" + _SHELLS + "Row 3: 2 dc in sp of first shell, ch 1, 2 dc in sp of shell after it (a decrease of 1 shell), then * "
        "dc in next single dc, shell in next shell; rep from * twice, dc in top of turning ch (4 shells). Ch 3, turn. Work 1 row even.\n\n"
        "Row 5: Decrease over first 2 shells, dc in next single dc, decrease in the last 2 shells, dc in top of turning ch (2 shells). "
        "Ch 3, turn. Work 3 rows even.\n\nRow 9: Decrease in the 2 shells, dc in top of turning ch. Ch 1, turn.\n\n"
        "Row 10: Sc in 3 dc, sc in sp of shell, sc in 2 dc, sc in top of turning ch (7 sc).\n",
        "26 26 21 21 11 11 11 11 6 7",
    ),
    "rows of stitches told as even before a row that ends on the turning chain": (
        "STRAP\n\nRow 1: Ch 12, hdc in 3rd ch from hook, hdc to end (11 hdc). Ch 2, turn.\n\nRow 2: Skip first hdc, hdc to end, hdc in "
        "turning ch, ch 2, turn. Work 2 rows even.\n\nNext row: Skip first hdc, hdc in next 8 hdc, skip 1 hdc, hdc in turning ch. Ch 1 and "
        "turn.\n\nNext row: Sc in first 9 hdc, sc in turning ch.\n",
        "11 11 11 11 10 10",
    ),
    "an oval closed in the chain it began with": (
        "TRIVET\n\nRow 1: Ch 14, 5 dc in 4th ch from hook, dc in each of next 9 ch, 6 dc in end ch, working on other side of ch, dc in "
        "next 9 ch, sl st in 3rd st of ch.\n\nRow 2: Ch 3, dc in same st, 2 dc in next 5 dc, dc in 9 dc, 2 dc in next 6 dc, dc in 9 dc, "
        "join (42 dc).\n",
        "30 42",
    ),
    "a ring closed in the first stitch of its chain": (
        "WASHER\n\nCh 5, sl st in 1st st of ch.\n\nRow 1. Ch 3, 9 dc into ring, sl st in top of ch.\n\nRow 2. Ch 3, dc in same place, "
        "2 dc in each dc, sl st in 3rd st of ch.\n",
        "10 20",
    ),
    "one more corner": (_SQUARE + "Repeat from * twice. Make last corner, join.\n", "16 16 32"),
    "another corner, named by its place": (_SQUARE + "Repeat from * twice. Make a corner in next loop, join.\n", "16 16 32"),
    "the corner by its number": (_SQUARE + "Repeat from * twice. The 4th corner, join.\n", "16 16 32"),
    "a unit told again for so many groups": (
        _SQUARE + "Repeat from * over next 2 groups. Corner in last loop, join.\n",
        "16 16 32",
    ),
    "a unit told again for so many sides": (
        _SQUARE + "Repeat from * on each of the other 2 sides. Make another corner, join.\n",
        "16 16 32",
    ),
    "a unit told again in so many loops": (
        "ROSE\n\nCh 6, join.\n\n1st rnd: Ch 1, 12 sc in ring, join.\n\n2nd rnd: * Ch 5, miss 1 sc, sl st in next sc. Repeat from * 5 "
        "times.\n\n"
        "3rd rnd: * 5 dc in next loop, sl st in next sl st. Repeat from * over the next 5 loops.\n",
        "12 6 30",
    ),
    "a loop that holds from here on, its clause ended by a short form's stop": (
        "COASTER\n\nCh 4, join.\n\nRnd 1: 8 sc in ring.\n\nRnd 2: From now on take up only the back loop of each st. 2 sc in each sc "
        "around.\n\nRnd 3: From this round on work through both loops. Sc in each sc around.\n",
        "8 16 16",
    ),
    "chains between groups, whose stitches stay together": (
        _GROUPS + "3rd rnd: As last rnd, but working dc in each dc of groups with 5 ch between.\n\n4th rnd: Ch 3, dc in each dc, ch 6 "
        "between groups, join.\n\n5th rnd: 4 sc in each sp around, sc in each dc.\n",
        "24 24 24 24 56",
    ),
    "other chains between the groups of the round before": (
        _GROUPS + "3rd rnd: Work as last rnd, making ch 5 between groups.\n\n4th rnd: Same as last rnd with 6 ch between.\n\n"
        "5th rnd: Same as 2nd rnd, but ch 7 instead of ch 3.\n\n6th rnd: 4 sc in each sp around, sc in each dc.\n",
        "24 24 24 24 24 56",
    ),
    "a net closed by a chain and a tall stitch, as before": (
        _GROUPS + "3rd row: Sl st in next dc, ch 9, sc in next loop, * ch 6, dc in middle dc of next group, ch 6, sc in next sp. Repeat "
        "from * around, ch 3, dc in 3rd ch of ch-9. (16 loops)\n\n4th row: Ch 9, dc in next loop, * ch 6, dc in next loop. Repeat from "
        "* around, closing row with ch 3 and dc as before (16 loops).\n",
        "24 24 16 16",
    ),
}


@pytest.mark.parametrize("cause", PIECES)
def test_piece_is_read_whole_and_worked(cause: str) -> None:
    text, told = PIECES[cause]
    assert [row.counted.total for row in worked_rows(text)] == [int(number) for number in told.split()]
    assert [finding.message for finding in proof(read(text), (work(read(text)),)) if finding.severity in ("error", "warning")] == []


@pytest.mark.parametrize("words", ["Decrease in next 2 shells,", "Make next 2 corners,"])
def test_what_was_told_nowhere_is_left_unread(words: str) -> None:
    rows = [row for part in work(read("CASE\n\n" + _SHELLS + f"Row 3: {words} dc in next dc.\n")).parts for row in part.rows]
    assert rows[-1].read != "whole"


@pytest.mark.parametrize("word", ["flap", "nose", "height", "none", "inch", "found"])
def test_an_everyday_word_is_no_slip(word: str) -> None:
    assert not [one for one in read(f"BAG\n\nRnd 1: 6 sc in a ring. {word.title()}: 6 sc.\n").troubles if one.kind == "typo"]


@pytest.mark.parametrize("rule", ["From now on take up only the back loop of each st.", "From this point on, work in back loops only."])
def test_a_loop_told_from_here_on_holds_in_later_rounds(rule: str) -> None:
    rows = read(f"DISC\n\nCh 4, join.\n\nRnd 1: 8 sc in ring.\n\nRnd 2: {rule} 2 sc in each sc.\n\nRnd 3: Sc in each sc.\n").parts[0].rows
    assert [step.at.loop for row in rows for step in row.steps if isinstance(step, Make)] == ["both", "back", "back"]
