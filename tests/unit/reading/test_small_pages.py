"""Small pages from the web: a title in stitch names, a foundation told in passing, corners and runs named once and then only called."""

import pytest

from hookwright.reading import read
from hookwright.working import work

from .told import worked_rows

STRIP = "Row 1: Sc in 2nd ch from hook and in each ch to end. (10)"
FANS = "Row 1: Sc in 2nd ch from hook, *sk 2 ch, 5 dc in next ch, sk 2 ch, sc in next ch; rep from * to end, turn."
DISC = "Rnd 1: 6 sc in magic ring.\nRnd 2: 2 sc in each sc. (12)\nRnd 3: *sc in next sc, 2 sc in next; rep from * around. (18)\n"
SQUARE = "Ch 4, join.\nRnd 1: Ch 3, 2 dc in ring, ch 2, (3 dc, ch 2) 3 times in ring, join. (12 dc)\n"
POINT = "Row 1: Ch 4, (2 dc, ch 2, 3 dc) in 4th ch from hook. (6 dc)\n"


def totals(text: str) -> list[int]:
    return [row.counted.total for row in worked_rows(text)]


@pytest.mark.parametrize(
    "title",
    [
        "hdc mitten cuff",
        "sc and tr door mat, two sizes",
        "Ch-3 loop bag",
        "treble table mat (oblong)",
        "sc 3 inch ball",
        "Shell bonnet.",
        "chain loop belt",
        "hdc all the way cap",
    ],
)
def test_a_title_is_no_row(title: str) -> None:
    """What the page is called works nothing, with and without an empty line behind it."""
    for gap in ("\n", "\n\n"):
        pattern = read(f"{title}{gap}Ch 11.\n{STRIP}\n")
        assert [row.label for part in pattern.parts for row in part.rows] == ["Foundation", "Row 1"]
        assert totals(f"{title}{gap}Ch 11.\n{STRIP}\n") == [10]


@pytest.mark.parametrize("title", ["hdc mitten cuff", "Magic Ring Trivet", "Chain Stitch Belt with Beads"])
@pytest.mark.parametrize("lead", ["Notes from the Hill\n", "Notes from the Hill\n\nBy a friend of wool\n\n"])
def test_a_title_may_stand_below_other_lines(lead: str, title: str) -> None:
    assert totals(f"{lead}{title}\n\nMaterials: cotton\n\nCh 11.\n{STRIP}\n") == [10]


@pytest.mark.parametrize("line", ["Ch 11 loosely", "Ch 11 with the big hook", "Sc in each of 10 sts along the brim"])
def test_a_first_line_that_works_is_no_title(line: str) -> None:
    assert read(f"{line}\nRow 2: Ch 1, turn, sc in each st.\n").parts[0].rows[0].steps


@pytest.mark.parametrize(
    "line",
    [
        "Multiple of 6 sts + 1. Mine is over 25 sts, so ch 26.",
        "Worked over a multiple of 6 plus 1. For the swatch chain 26.",
        "Pattern repeats over 6 sts + 1. Here we chain 26 (25 sts + 1 to turn).",
        "Multiple of 6 sts + 1 (ch 26 for the piece shown).",
        "Multiple of 6 sts + 1. The sample has 4 fans, 26 ch.",
        "Multiple of 6 sts + 1. My swatch was 4 repeats across, worked over 26 chains.",
        "Multiple of 6 sts + 1. Our piece shown is only 4 scallops wide: 26 ch.",
        "Multiple of 6 and 1 over. The mat has 25 sts, therefore I chained 26.",
        "Fan = 5 dc in one st\nCl = 3 dc closed as one\nMultiple of 6 + 1, so make 26 ch.",
    ],
)
def test_a_foundation_told_in_passing(line: str) -> None:
    assert totals(f"{line}\n{FANS}\n") == [25]


@pytest.mark.parametrize(
    "chain",
    [
        "Ch 11 (10 sts + 1 to turn).",
        "Ch 11 (10 sts plus 1 for turning).",
        "Ch 11 (= 10 + 1 turning ch).",
        "Ch 11 (= 10 sts).",
        "Ch 11 [10 sts and 1 ch to turn].",
        "Ch 10, plus 1 turning ch.",
        "Make 11 chain loops.",
    ],
)
def test_what_a_foundation_is_made_up_of(chain: str) -> None:
    assert totals(f"{chain}\n{STRIP}\n") == [10]


@pytest.mark.parametrize(
    ("fourth", "fifth"),
    [
        ("As rnd 3, but sc in 2 sts before each increase. (24)", "Same, with 3 sc before each inc. (30)"),
        ("Like rnd 3, only 2 sc after every increase. (24)", "The same, 3 sc after every inc. (30)"),
        ("As rnd 3, only this time sc in next 2 sts before every increase. (24)", "Same again but 3 sc before increasing. (30)"),
        ("As rnd 3, working 1 sc in each of 2 sts after each inc. (24)", "As rnd 4, with 3 sc instead of 2 before each increase. (30)"),
        ("Continue to increase in the same way, with 2 sc between increases. (24)", "Same, but 3 sc in between. (30)"),
        ("2 sc before each increase. (24)", "Again with 3 sc between incs. (30)"),
    ],
)
def test_runs_before_and_after_each_increase(fourth: str, fifth: str) -> None:
    assert totals(f"{DISC}Rnd 4: {fourth}\nRnd 5: {fifth}\n") == [6, 12, 18, 24, 30]


def test_runs_of_several_lengths_are_not_guessed_at() -> None:
    """Which of them is meant by "after each increase" is not told, so the round is not taken as read."""
    oval = "Rnd 3: 2 sc in next, sc in 1, sc in 4, 2 sc in next, sc in 1, sc in 4.\nRnd 4: as rnd 3 with 2 sc after each increase.\n"
    pattern = read("Rnd 1: 6 sc in magic ring.\nRnd 2: 2 sc in each sc. (12)\n" + oval)
    assert work(pattern).parts[0].rows[-1].read == "partly"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            POINT + "Row 2: Ch 3, turn, dc in next 2 dc, (2 dc, ch 2, 2 dc) in ch-2 sp: corner made; dc in next 2 dc, dc in top of ch-3.\n"
            "Row 3: Ch 3, turn, dc in next 4 dc, corner in ch-2 sp, dc in last 5 sts. (14 dc)\n"
            "Row 4: Ch 3, turn, dc in each dc to ch-2 sp, corner, dc in each dc to end. (18 dc)\n"
            "Row 5: Ch 1, turn, sc in each dc, 3 sc in the corner. (21 sc)\n",
            [6, 10, 14, 18, 21],
        ),
        (
            SQUARE + "Rnd 2: Ch 3, dc in next 2 dc, *(2 dc, ch 2, 2 dc) in corner, dc in next 3 dc; rep from * twice, "
            "(2 dc, ch 2, 2 dc) in corner, join. (28 dc)\n"
            "Rnd 3: Ch 3, dc to corner, *work a corner, dc to corner; rep from * twice, corner, dc to end, join. (44 dc)\n",
            [12, 28, 44],
        ),
        (
            "UK terms\n"
            + SQUARE.replace("dc", "tr")
            + "Rnd 2: Ch 1, dc in same st, dc in next 2 tr, *3 dc in sp to form corner, dc in next 3 tr; "
            "rep from * twice, 3 dc in last sp, join. (24 dc)\n"
            "Rnd 3: Ch 1, dc in same st, dc in next 3 dc, *corner in next dc, dc in next 5 dc; rep from * twice, corner in next dc, "
            "dc in last dc, join. (32 dc)\n",
            [12, 24, 32],
        ),
        (
            "Ch 6.\nRnd 1: 3 dc in 6th ch from hook. The ch-5 left over counts as dc + ch 2, here and in each round. In same ch, ch 2, "
            "(3 dc, ch 2) twice, 2 dc, join to 3rd ch, sl st into 1st sp. (12 dc)\n"
            "Rnd 2: Ch 5, 2 dc in same sp, (dc in next 3 dc, (2 dc, ch 2, 2 dc) in next sp) 3 times, dc in next 3 dc, dc in the sp "
            "where you began, join to 3rd ch of ch-5. (28 dc)\nRnd 3: Ch 1, sc in each dc, 3 sc in each corner, join. (40)\n",
            [12, 28, 40],
        ),
        (
            "Shell = 5 dc in one st\nCh 26.\n"
            + FANS.replace("5 dc in", "shell in")
            + "\nRow 2: Ch 4 (= dc, ch 1), sk 1st sc and 1 dc, dc3tog "
            "over next 3 dc, ch 1, sk 1 dc, dc in next sc, *ch 1, sk 1 dc, dc3tog over next 3 dc, ch 1, sk 1 dc, dc in next sc; "
            "rep from * to end, turn.\nRow 3: Ch 1, sc in first dc, *shell in next dc3tog, sc in next dc; rep from * ending shell in "
            "last dc3tog, sc in 3rd ch of tch, turn.\n",
            [25, 9, 25],
        ),
        (
            "Ch 30, join.\nRnd 1: Ch 1, sc in each ch around. (30)\n"
            "Rnd 2: Ch 1, *sc in next 9 sc, ch 6, sk 6 sc; rep from * around, join. (18 sc and 2 chain loops)\n"
            "Rnd 3: Ch 1, sc in each sc and 6 sc in each of the chain loops, join. (30)\n",
            [30, 18, 30],
        ),
    ],
)
def test_piece_is_worked(text: str, expected: list[int]) -> None:
    assert totals(text) == expected


def test_a_corner_that_nothing_tells_is_not_passed_over() -> None:
    row = read("Ch 11.\nRow 1: Sc in 2nd ch from hook, sc in next 4, corner, sc in next 5.\n").parts[0].rows[-1]
    assert "Unread" in [type(step).__name__ for step in row.steps]
