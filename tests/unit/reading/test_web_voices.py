"""Rows in the loose words of pages on the web: what one stitch stands on, what goes on to the row's end, rows told by how they differ."""

import pytest

from hookwright.pattern import Chain
from hookwright.reading import read
from hookwright.reading.shown import shown

from .told import worked_rows

CAKE = "Rnd 1: 7 hdc in a magic ring.\nRnd 2: 2 hdc in each. (14)\nRnd 3: hdc in one, 2 in the next, all around. (21)\n"
FLAT = "Ch 17.\nRow 1: Sc in 2nd ch from hook and across. (16)\n"


def steps_of(words: str) -> str:
    return shown(read(f"Rnd 4: {words}").parts[0].rows[0].steps)


@pytest.mark.parametrize(
    ("words", "steps"),
    [
        ("*FPdc around the FPdc, BPdc around the BPdc* around.", "[FPdc@next FPdc, BPdc@next BPdc]×rest"),
        ("*4 dc in next loop, FPtr around the lone tr*, join.", "[4dc@next sp, FPtr@next tr]×rest, join"),
        ("*FPdc round the single dc, dc in next 2*, join.", "[FPdc@next dc, dc×2]×rest, join"),
        ("dc around the piece, join.", "dc×rest, join"),
        ("*sc, ch 1, sc* in the next st, sk 1, repeat around.", "[{sc, ch1, sc}, skip]×rest"),
        ("ch 2, hdc in the 3rd loop (the bar behind) of each hdc, join.", "ch2, hdc×rest@next hdc/third, join"),
        ("(sc, dc) in each dc around, skipping the sc's.", "{sc, dc}×rest@next dc"),
        ("*ch 4, sc in next loop*, the last time ch 1, dc in first sc instead of ch 4.", "[ch4, sc@next sp]×rest, join(ch1, dc@first sc)"),
        (
            "*ch 4, sc in next loop; rep from * around, on last repeat ch 1, dc in first sc.",
            "[ch4, sc@next sp]×rest, join(ch1, dc@first sc)",
        ),
        ("*sc in next, hdc + dc + hdc in the next; repeat from the star around.", "[sc, {hdc@same st, dc@same st, hdc@same st}]×rest"),
        ("+ sc in next, ch 3; rep from + around.", "[sc, ch3]×rest"),
        (
            "*sc in each sc, (sc, ch 2, sc) in corner*, 4 times, leaving off the last corner, join.",
            "[sc×rest@next sc, {sc, ch2, sc}@next corner]×4 cut 1, join",
        ),
        ("ch 1, 2 sc in each ch-1 sp around, skipping all the dc's, join.", "ch1, 2sc×rest@next ch-1 sp, join"),
        ("*4 sc in loop, ch 3, rep in each loop, join.", "[4sc@next sp, ch3]×rest, join"),
        (
            "ch 1, 3 sc in corner, sc in each st to next corner, repeat for each side, join.",
            "ch1, [3sc@next corner, sc×rest to corner]×rest, join",
        ),
        ("* dc in next 3, ch 1, sk 1; end dc in last 3.", "[dc×3, ch1, skip]×rest last (dc×3@last st)"),
        ("ch 4, *3 dc in next sp, ch 1* to the end, putting the last 3 dc in the ch-4 sp, turn.", "ch4, [3dc@next sp, ch1]×rest, turn"),
        (
            "6 ch, ss to form ring; 3 ch, (2 dc into ring, 2 ch) 5 times, ss to top of 3 ch. 5 two-ch sps.",
            "ch6, ring, ch3, [2dc@ring ring, ch2]×5, join",
        ),
        ("ch 1, sc over the hdc post, *ch 3, sc in next loop* around, join.", "ch1, sc@first sp, [ch3, sc@next sp]×rest, join"),
    ],
)
def test_what_the_words_ask_for(words: str, steps: str) -> None:
    assert steps_of(words) == steps


@pytest.mark.parametrize(
    "words",
    [
        "the same with 2 sts between increases.",
        "2 sts between increases.",
        "same as Rnd 3, but increase in every 3rd st.",
        "as Rnd 3, increasing in every third stitch.",
        "as round 3 but 2 hdc in every 3rd st.",
    ],
)
def test_a_round_told_by_how_its_increases_lie(words: str) -> None:
    rows = worked_rows(f"{CAKE}Rnd 4: {words} (28)\nRnd 5: hdc around. (28)\nRnd 6: same, 3 sts between increases. (35)")
    assert [row.counted.total for row in rows] == [7, 14, 21, 28, 28, 35]


def test_the_run_before_the_first_increase_grows_with_the_others() -> None:
    rows = worked_rows(
        "Ch 4, join.\nRnd 1: Ch 3, 23 dc in ring, join. (24)\nRnd 2: Ch 3, dc in each st around, but 2 dc in every 4th st, join. (30)\n"
        "Rnd 3: same as round 2, but inc in every 5th st. (36)\n"
    )
    assert [row.counted.total for row in rows] == [24, 30, 36]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("Sc in front lps only, 16 sc.", 16),
        ("Ch 1, sc in back loop only, turn.", 16),
        ("sc in all.", 16),
        ("as row 1", 16),
        ("ch 1, sc 6, ch 4, sk 4, sc 6. 16 sc counting the ch.", 12),
        ("sc across = 16 sc, turn.", 16),
        ("inc evenly 4 sc. (20)", 20),
        ("ch 1, sc in 14, sc2tog, ch 9, sl st in 2nd ch from hook and back down the chain, sl st in the sc2tog, fasten off.", 15),
        ("ch 1, sc in 16, ch 9, sl st back along the chain, fasten off.", 16),
        ("ch 1, sc in 16, ch 9, sc in 2nd ch from hook, sc down the rest of the ch.", 24),
    ],
)
def test_rows_on_sixteen(words: str, told: int) -> None:
    rows = worked_rows(f"{FLAT}Row 2: {words}")
    assert [row.counted.total for row in rows] == [16, told]
    assert not [one.kind for row in rows for one in row.troubles]


def test_rows_named_with_the_row_they_are_like() -> None:
    rows = (
        read(f"{FLAT}Row 2: ch 1, turn, hdc across.\nRows 3-6 as row 2\nRow 7, same as row 1\nRows 8 and 9 like rows 1 and 2.")
        .parts[0]
        .rows
    )
    assert [row.label for row in rows] == ["Foundation", "Row 1", "Row 2", "Rows 3-6", "Row 7", "Rows 8 and 9"]
    assert [shown(row.steps) for row in rows[3:]] == ["as rows 2", "as rows 1", "as rows 1, 2"]


@pytest.mark.parametrize("care", ["making sure not to twist", "with care that it does not twist", "without twisting it"])
def test_a_chain_slipped_into_a_ring_with_advice(care: str) -> None:
    rows = worked_rows(f"Ch 20, sl st to first ch {care}.\nRnd 1: ch 1, sc in each ch, join. (20)")
    assert [row.counted.total for row in rows] == [20]


def test_joining_it_as_the_first_names_no_round() -> None:
    assert steps_of("ch 1, 3 sc in corner sp, sc to the next corner, joining it as the first.").endswith("join")


@pytest.mark.parametrize(
    "words",
    [
        "then do the other side of the ch too. (20)",
        "then the same on the other side of the ch. (20)",
        "now work along the other side of the chain. (20)",
        "then go back along the other side. (20)",
        "then along the other side of the chain sc in each ch. (20)",
    ],
)
def test_the_far_side_of_a_chain_where_the_stitch_is_told_once(words: str) -> None:
    rows = worked_rows(f"Ch 11.\nRnd 1: Sc in 2nd ch from hook and in each ch, {words}\nRnd 2: sc in each. (20)")
    assert [row.counted.total for row in rows] == [20, 20]


def test_numbers_alone_are_of_the_stitch_of_the_piece() -> None:
    rows = worked_rows("R1: 5 sc in a loop. R2: 2 in each. R3: *1, 2 in next* 5x. R4: *2, 2 in next* 5x. (20)\nR5-7: work even.")
    assert [row.counted.total for row in rows] == [5, 10, 15, 20, 20, 20, 20]


def test_blocks_begun_on_a_chain_named_by_its_ordinals() -> None:
    rows = (
        read("Row 1: Ch 6, dc in 4th ch from hook and in next 2 ch. 1 block.\nRow 2: Ch 6, turn, dc in 4th, 5th and 6th ch from hook.")
        .parts[0]
        .rows
    )
    assert [shown(row.steps, row.stated) for row in rows] == [
        "ch6, dc@from_hook ch#4, dc×2@next ch | 1 block", "ch6, turn, dc@from_hook ch#4, dc×2@next ch"
    ]  # fmt: skip


@pytest.mark.parametrize("head", ["Armholes", "Divide for front", "Shoulders", "Next", "Then"])
def test_a_row_behind_a_head_that_names_no_piece(head: str) -> None:
    rows = worked_rows(f"{FLAT}{head}: Sl st over 3, ch 1, sc in 10, turn. (10)\nNext row: ch 1, sc across. (10)")
    assert [row.counted.total for row in rows] == [16, 10, 10]


def test_how_a_stitch_is_made_is_no_row_though_it_is_headed_by_what_it_does() -> None:
    rows = (
        read(f"{FLAT}Decrease: insert hook in next st, pull up a loop, insert in next, yo, through all.\nRow 2: sc2tog across.")
        .parts[0]
        .rows
    )
    assert [row.label for row in rows] == ["Foundation", "Row 1", "Row 2"]


@pytest.mark.parametrize(
    "words", ["Row 4: Ch 3, turn, dc in each dc, dc in top of tch.", "Eyelet round: Ch 4, skip next sc, dc in next sc."]
)
def test_a_text_that_begins_in_the_middle_has_no_foundation(words: str) -> None:
    first = read(words).parts[0].rows[0].steps[0]
    assert isinstance(first, Chain) and not first.foundation


def test_rows_numbered_and_named_by_the_part_they_are_of() -> None:
    rows = read("Row 1 of flap: Ch 1, sc in next 6, turn.\nRow 2 for the flap: Ch 1, sc across.").parts[0].rows
    assert [(row.label, row.numbers) for row in rows] == [("Row 1", ((1,),)), ("Row 2", ((2,),))]


def test_a_kind_that_lies_before_the_last_stitch_is_worked_to_its_end() -> None:
    rows = worked_rows(
        "Ch 13.\nRow 1: sc in 2nd ch from hook, hdc in next 10, sc in last ch. (12)\n"
        "Row 2: ch 1, turn, sc in first, hdc in each hdc, sc in last.\n"
        "Row 3: ch 1, turn, sc in first st, sc in each hdc across, hdc in last st.\n"
        "Row 4: ch 1, turn, hdc in first, sc in each sc, sc in last."
    )
    assert [row.counted.total for row in rows] == [12, 12, 12, 12]
    assert not [one.kind for row in rows for one in row.troubles]


def test_rows_told_again_and_then_one_of_them() -> None:
    rows = read(f"{FLAT}Row 2: ch 1, turn, hdc across.\nRep the last 2 rows twice, then row 1 and fasten off.").parts[0].rows
    assert [shown(row.steps) for row in rows[3:]] == ["as last 2", "as rows 1, fasten off"]


@pytest.mark.parametrize(
    ("words", "rows"),
    [
        ('Keep going until strap is 9" long.', None),
        ("Continue until piece measures 9 inches.", None),
        ("Keep going back and forth on those 16 sts till it measures 9 inches, then sew it down.", None),
        ("Keep going for 4 more rows.", 4),
    ],
)
def test_a_line_that_keeps_going_is_a_row_of_its_own(words: str, rows: int | None) -> None:
    for text in (f"{FLAT}Row 2: ch 1, turn, sc across.\n{words}", f"{FLAT}Row 2: ch 1, turn, sc across. {words}"):
        part = read(text).parts[0]
        last = part.rows[-1]
        assert len(part.rows) == 4 and (last.until is not None) == (rows is None)
        assert rows is None or (last.rows_count is not None and last.rows_count.values == (rows,))
        assert [row.counted.total for row in worked_rows(text)][:3] == [16, 16, 16]
