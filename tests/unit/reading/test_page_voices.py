"""Ways of makers' own pages: headings of pieces, lettered rows, counts in a row's last words. All wordings are ours."""

import pytest

from hookwright.reading import read
from hookwright.reading.shown import shown
from hookwright.working import work

from .told import worked_rows

FIRST = "Row 1: Sc in each st.\n\n"


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Plain Tile (make 4)\n\nCh 4, sl st in the first ch to make a ring.\nRound 1: Ch 1, 8 sc in ring, join.", "Plain Tile"),
        ("Sprig Tile\n\nIn lime, make a magic ring.\nRound 1: Ch 1, 8 sc in ring, join.", "Sprig Tile"),
        ("Wing\nBegin with rust. Make a magic ring.\nRound 1: 8 sc in ring.", "Wing"),
        ("Band\n9 ch.\nRow 1. 1 sc in 2nd ch from hook, 1 sc in each ch to end.", "Band"),
        ("Palm\nTurn the band to work along its edge.\nRound 1. 1 sc in each row end.", "Palm"),
        ("Welt - worked sideways and joined as you go\n5 ch.\nRow 1. 1 sc in 2nd ch from hook and next 3 ch.", "Welt"),
        ("Shell Edging\nRound 1: 5 dc in each st.", "Shell Edging"),
        ("Rim\n\nRim Round 1: Sc in each st around.", "Rim"),
    ],
)
def test_what_stands_before_a_piece_s_first_words_heads_it(text: str, name: str) -> None:
    assert read(FIRST + text).parts[-1].name == name


def test_the_letter_of_a_piece_is_no_number_of_its_rows() -> None:
    rows = read("Tab\nCh 7.\nRow T1: Sc in 2nd ch from hook and in each ch.\nRows T2-T4: Sc across.\nRow T5: rep Row T2.").parts[0].rows
    assert [row.numbers_at(0) for row in rows[1:]] == [(1,), (2, 3, 4), (5,)]
    assert shown(rows[-1].steps) == "as rows 2"


def test_chains_counted_in_and_told_apart() -> None:
    text = (
        "Work in a spiral.\nRnd 1: 12 sc in magic ring. (12)\nRnd 2: 2 hdc in each st. (24)\n"
        "Rnd 3: hdc 14, ch 10, sk 10 - 24 sts with the chains.\nRnd 4: hdc in next 14 hdc, hdc in each ch of the ch 10 (24)\n"
        "Rnd 5: 7 sc, 5 ch, skip 5, 12 sc. 19 sc & 5 ch.\nRnd 6: sc in each sc and ch around. (24)\n"
    )
    assert [row.counted.total for row in worked_rows(text)] == [12, 24, 24, 24, 19, 24]


@pytest.mark.parametrize(
    ("words", "steps"),
    [
        ("sc in the 14 ch", "sc×14@next ch"),
        ("sc in the 4 chs", "sc×4@next ch"),
        ("3 dc in the 3 ch", "3dc@next ch-3 sp"),
        ("dc in each ch of next ch-5", "dc×5@next ch"),
        ("sc in each of the 3 armpit chs and in each of the 20 cap sts", "sc×3@next ch, sc×20"),
        ("sc in the underside of each of the 5 chs", "sc×5@under ch"),
        ("sc in the 6 free loops of the foundation chain", "sc×6@under ch"),
    ],
)
def test_chains_one_by_one(words: str, steps: str) -> None:
    assert shown(read(f"Row 2: {words}").parts[0].rows[0].steps) == steps


def test_a_spiral_s_last_slip_stitch_behind_a_row_told_as_another() -> None:
    text = (
        "Work in a spiral.\nRnd 1: 12 sc in magic ring. (12)\nRnd 2: *FPdc around next st, BPdc around next st; rep from * around. (12)\n"
    )
    rows = worked_rows(f"{text}Rnds 3-4: as Rnd 2 - 12 sts.\nSl st loosely in next st, cut yarn.\n")
    assert [row.counted.total for row in rows] == [12] * 4


TWO_PIECES = """Sizes: S (M, L)

BACK
Welt:
Ch 7.
Row 1: Sc in 2nd ch from hook and in each ch across. (6 sc)
Rows 2-24 (28, 32): Ch 1, turn, sc BLO in each st across. (6 sc)
Turn work 90° to work along the row ends.

Body:
Row 1: Ch 3 (counts as dc), dc in the end of next row and of each row across. 24 (28, 32) dc
Row 2: Ch 3 (counts as dc), turn, dc in next dc and in each dc across. 24 (28, 32) dc
Rows 3-8 (10, 12): Rep Row 2.

FRONT (make 2)
Welt as for Back, Rows 1-12 (14, 16).
Row 1: As Row 1 of Back body. 12 (14, 16) dc
Rows 2-8 (10, 12): As Rows 2-8 (10, 12) of Back body.
Next row: Ch 2 (does not count), turn, dc2tog over first 2 sts, dc in each st to end. 11 (13, 15) dc
Continue in dc, decreasing 1 st at neck edge in every row 3 more times. 8 (10, 12) dc
"""


def test_a_section_of_a_piece_is_told_by_that_of_another_in_every_size() -> None:
    pattern = read(TWO_PIECES)
    assert [(part.of, part.name) for part in pattern.parts] == [("BACK", "Welt"), ("BACK", "Body"), ("", "FRONT")]
    for size, (rows, wide, last) in enumerate(((8, 12, 8), (10, 14, 10), (12, 16, 12))):
        front = [row for row in work(pattern, size=size).parts[-1].rows if not row.foundation]
        assert [row.counted.total for row in front] == [6] * wide + [wide] * rows + [wide - 1, wide - 2, wide - 3, last], size
        assert not [trouble for row in front for trouble in row.troubles]


@pytest.mark.parametrize(
    ("words", "totals"),
    [
        ("Sc in first row end and in each row end across. (12 sc)", [12]),
        ("Sc evenly along the side. (15 sc)\nRow 2: Ch 1, turn, sc across. (15 sc)", [15, 15]),
        ("Ch 3 (counts as dc), dc in each row end across. (12 dc)", [12]),
        ("Ch 3 (counts as dc), dc in each row end across. (13 dc)", [13]),
    ],
)
@pytest.mark.parametrize("turned", ["Turn to work along one edge of the band.", "Turn the band on its side to work into the row ends."])
def test_along_the_row_ends_of_what_was_turned_in_the_plane(turned: str, words: str, totals: list[int]) -> None:
    band = "Ch 7.\nRow 1: Sc in 2nd ch from hook and in each ch across. (6 sc)\nRows 2-12: Ch 1, turn, sc in each st. (6 sc)\n"
    rows = worked_rows(f"{band}\nPalm\n{turned}\nRow 1: {words}\n")
    assert [row.counted.total for row in rows][12:] == totals


YOKE = """Ch 40, join.
Rnd 1: Ch 1 (not a stitch), sc in each ch around, join. (40 sc)
Rnd 2: Ch 1, sc in next 12 sts, (sc, ch 2, sc) in next st, sc in next 6 sts, (sc, ch 2, sc) in next st, \
sc in next 12 sts, (sc, ch 2, sc) in next st, sc in next 6 sts, (sc, ch 2, sc) in last st, join. (44 sc)
Rnd 3: Ch 1, sc in each sc and (sc, ch 2, sc) in each ch-2 sp around, join. (52 sc)
Rnd 4: Ch 1, sc across the back to the ch-2 sp, sc in ch-2 sp, ch 5, skip the sleeve sts, sc in next ch-2 sp, sc across the front, \
sc in ch-2 sp, ch 5, skip the sleeve sts, sc in last ch-2 sp, join. (46 sts counting the chains)
Rnd 5: Ch 1, sc in each sc and each ch around, join. (46 sc)
"""


def test_a_yoke_whose_rounds_begin_in_mid_side_is_divided() -> None:
    assert [row.counted.total for row in worked_rows(YOKE)] == [40, 44, 52, 46, 46]


def test_a_rib_is_slipped_on_to_a_round_of_another_piece() -> None:
    text = (
        "Hand\nRnd 1: 12 hdc in ring. (12)\nRnd 2: hdc in each st. (12)\n\nTop rib\nCh 5.\n"
        "Row 1. Sc in 2nd ch from hook and next 3 ch (4 sc), sl st in next 2 sts of Rnd 2, turn.\n"
        "Row 2. Skip the 2 sl sts, sc blo in each of the 4 sc.\n"
        "Row 3. Ch 1, turn, sc blo in each sc (4 sc), sl st in next 2 sts of Rnd 2, turn.\n"
        "Rows 4 to 12. Rep rows 2 and 3, ending with a row 2.\n"
    )
    assert [row.counted.total for row in worked_rows(text)] == [12, 12] + [4] * 12


def test_stitches_one_each_into_what_an_opening_left() -> None:
    text = (
        "Work in a spiral.\nRnd 1: 24 sc in ring. (24)\nRnd 2: 10 sc, 2 ch, skip 8 sts, 6 sc. 16 sc & 2 ch.\n"
        "Rnd 3: sc in each sc and ch. (18 sc)\n\nThumb\nJoin yarn at the thumb hole.\n"
        "Rnd 1: 8 sc in the skipped sts, 2 sc in the underside of the 2 ch. (10 sc)\nRnd 2: sc around. (10 sc)\n"
    )
    assert [row.counted.total for row in worked_rows(text)] == [24, 16, 18, 10, 10]


def test_a_short_form_with_its_long_one_is_a_stitch_and_heads_no_part() -> None:
    text = (
        "STITCHES\nfpdc - front post dc\nX4 - crossing over 4: skip 2 sts, fpdc around each of next 2 sts, then (in front of those) "
        "fpdc around each of the 2 skipped sts\nCh 2 at start of round is NOT a stitch.\n\nPATTERN\n\nCh 24, join to form a ring.\n"
        "Rnd 1: Ch 2, dc in each ch around, join. (24 sts)\nRnd 2: Ch 2, *X4, dc in next 2 sts; rep from * around, join. (24 sts)\n"
    )
    assert [part.name for part in read(text).parts] == [""]
    assert [(row.counted.total, row.counted.by_kind.get("FPdc", 0)) for row in worked_rows(text)] == [(24, 0), (24, 16)]


@pytest.mark.parametrize(
    ("words", "steps"),
    [
        ("Teal in any ch-2 space. Ch 3, 2 dc in same space", "+Teal:, ch3, 2dc@same sp"),
        ("Next color, any corner. Ch 3, 2 dc in same corner", "+next color:, ch3, 2dc@same corner"),
        ("New colour in any ch-2 sp: ch 3, 2 dc in same sp", "+new colour:, ch3, 2dc@same sp"),
        ("Puff stitch and ch 2 in each sc around, join to top of the first puff.", "{puff, ch2}×rest@next sc, join"),
        ("Ch 1, dc, ch 1 in each st around, join.", "ch1, {dc, ch1}×rest, join"),
        ("2 dc and ch 1 in each ch-1 space around, join.", "{dc×2, ch1}×rest@next ch-1 sp, join"),
        ("Green eyes are sewn on at any time. Sc in each st around.", "sc×rest"),
    ],
)
def test_rounds_opened_by_a_yarn_and_groups_told_before_their_place(words: str, steps: str) -> None:
    assert shown(read(f"Rnd 2: {words}").parts[0].rows[0].steps) == steps


@pytest.mark.parametrize("words", ["{60 sc - that's 15 on each side}", "(60 sc, so 15 a side)", "(60 sc, which is 15 on each side)"])
def test_a_count_told_again_by_its_sides(words: str) -> None:
    row = read(f"Rnd 4: Ch 1, sc in each st around, join. Fasten off. {words}").parts[0].rows[-1]
    assert [(str(count.number), count.kind) for count in row.stated] == [("60", "sc")]


@pytest.mark.parametrize(
    "words",
    [
        "from second leg ch 3, sc 12 around first leg, sc 3 along the ch, sc 12 around second leg, sc 3 in other side of ch (30)",
        "Starting from the second leg: ch 3, 12 sc around first leg, 3 sc along ch, 12 sc around second leg, 3 sc in other side of ch (30)",
    ],
)
def test_legs_joined_by_a_chain_that_is_worked_on_both_sides(words: str) -> None:
    legs = "LEGS (make 2)\nR1: 6 sc in MR (6)\nR2: inc x6 (12)\n** put the pins between R1 and R2, 4 sts apart **\nR3: sc around (12)\n"
    rows = worked_rows(f"{legs}\nBODY\nR4: {words}\nR5: sc around (30)\n")
    assert [row.counted.total for row in rows] == [6, 12, 12, 30, 30]
