"""Toys, hats, bags and mats as pages tell them: limbs worked together, ovals, gaps bridged by a chain, groups with chains between."""

import pytest

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

from .told import worked_rows

LEGS = "Legs (make 2)\nR1: 6 sc in MR (6)\nR2: inc x6 (12)\nR3-4: sc around (12)\nBody\n"
TUBE = "Ch 30, sl st to join.\nRnd 1: ch 1, sc in each ch, join. (30)\n"
SPACES = "Ch 4, join.\nRnd 1: (dc, ch 1) 8 times in ring, join. (8 dc)\n"


def last(text: str) -> tuple[int, str]:
    """Stitches of the last row and whether they are those it states."""
    row = worked_rows(text)[-1]
    return row.counted.total, row.state


def alarms(text: str) -> list[str]:
    pattern = read(text)
    return [finding.message for finding in proof(pattern, (work(pattern),)) if finding.severity in ("error", "warning")]


@pytest.mark.parametrize(
    "words",
    [
        "ch 3, join to leg 1 with sc, sc in next 11 sts of leg 1, sc in next 3 ch, sc in next 12 sts of leg 2, sc in other side of 3 ch",
        "ch 3, sc in each of the 12 sts around first leg, sc in 3 ch, sc in each of the 12 sts around second leg, sc in 3 ch",
        "ch 3, 12 sc around leg A, 3 sc across chain, 12 sc around leg B, 3 sc across back of chain",
        "ch 3, sc into first leg, 11 sc around first leg, 3 sc along ch, 12 sc along second leg, 3 sc down the back of the ch",
    ],
)
def test_limbs_joined_by_a_chain(words: str) -> None:
    assert last(f"{LEGS}R5: {words}. (30)\n") == (30, "agrees")
    assert last(f"{LEGS}R5: {words}.\n") == (30, "unstated")


@pytest.mark.parametrize(
    "told",
    ["(25 sc, ch 5)", "(25 sc, 5 ch)", "[25 sc + ch 5]", "(ch 5, 25 sc)", "(25 sc, one ch 5)", "(3 sc, ch 5, 22 sc)"],
)
def test_the_chain_over_a_gap_told_in_the_count(told: str) -> None:
    assert last(f"{TUBE}Rnd 2: ch 1, sc in first 3 sts, ch 5, skip 5 sts, sc to end, join. {told}\n") == (25, "agrees")
    wrong = told.replace("25", "26").replace("22", "23")
    assert alarms(f"{TUBE}Rnd 2: ch 1, sc in first 3 sts, ch 5, skip 5 sts, sc to end, join. {wrong}\n")


@pytest.mark.parametrize("told", ["(20 sc, two ch 5)", "(10 sc, ch 5, 10 sc, ch 5)", "(20 sc and ch 5 twice)"])
def test_two_gaps_told_in_the_count(told: str) -> None:
    assert last(f"{TUBE}Rnd 2: (sc 10, ch 5, sk 5) twice {told}\n") == (20, "agrees")


@pytest.mark.parametrize(
    "words",
    [
        "Pivot and sc in the bottom of each ch",
        "Do not turn; pivot and work sc in bottom of each ch to end",
        "sc in the bottom of each of the 9 chs",
        "flip the work round and sc 9 up the other side",
        "rotate and sc in the unused loop of each of the next 9 ch",
        "do not turn; continue along the other edge of the chain with 1 sc in each of next 9 ch",
    ],
)
def test_back_along_the_chain(words: str) -> None:
    """An oval or a flat bag: as many stitches on the far side, in one round."""
    assert last(f"Ch 10.\nRnd 1: Sc in 2nd ch from hook and in each ch to end; {words}. (18 sc)\n") == (18, "agrees")


@pytest.mark.parametrize("told", ["(9); sc in the bottom of each ch (9). 18 sc in all", "(9 sc), other side: sc in each (9 sc). Total 18"])
def test_either_side_counted_for_itself(told: str) -> None:
    assert alarms(f"Ch 10.\nRnd 1: Sc in 2nd ch from hook and in each ch {told}.\nRnd 2: sc in each (18)\n") == []


@pytest.mark.parametrize("loop", ["scblo", "sc-blo", "SCBLO", "BLOsc", "scflo"])
def test_loop_tied_to_its_stitch(loop: str) -> None:
    assert last(f"Ch 8.\nRow 1: sc in second ch from hook and each ch. (7)\nRow 2: ch 1, turn, {loop} in each st. (7)\n") == (7, "agrees")


@pytest.mark.parametrize(
    "words",
    [
        "work 8 {} into ring with ch 1 between each, join",
        "8 {} in ring with 1 ch between them, join",
        "8 {} in ring, ch 1 after each, join",
        "8 {} in ring, each followed by ch 1, join",
        "8 {} in ring separated by ch 1, join",
        "8 {} in ring, making ch 1 between each, join",
    ],
)
def test_as_many_chains_as_stitches_in_a_ring(words: str) -> None:
    for named in ("puffs", "dc", "clusters"):
        rows = worked_rows(f"Ch 4, join.\nRnd 1: Ch 1, {words.format(named)}.\nRnd 2: ch 1, 2 sc in each ch-1 sp, join. (16)\n")
        assert (rows[-2].counted.by_kind["ch-1 sp"], rows[-1].counted.total, rows[-1].state) == (8, 16, "agrees")


@pytest.mark.parametrize(
    ("words", "total"),
    [
        ("2 puffs in each ch-1 sp around, join. (16 puffs)", 16),
        ("2 bobbles in each sp, join. (16 bobbles)", 16),
        ("2 V-sts in each ch-1 sp, join. (16 V-sts)", 32),
        ("(V-st in next ch-1 sp, 2 V-sts in next ch-1 sp) 4 times, join. (12 V-sts)", 24),
        ("2 dc with ch 1 between in each ch-1 sp around, join. (16 dc)", 16),
        ("2 puffs in each ch-1 sp around with ch 1 after each puff, join. (16 puffs)", 16),
        ("ch 3, 1 dc in same sp, ch 1, (2 dc, ch 1) in each sp around, join. (16 dc)", 16),
    ],
)
def test_several_groups_in_one_space(words: str, total: int) -> None:
    assert last(f"{SPACES}Rnd 2: {words}\n") == (total, "agrees")


@pytest.mark.parametrize("head", ["decrease:", "now decrease:", "Decrease round -"])
def test_what_a_round_is_announced_as_is_no_stitch(head: str) -> None:
    assert last(f"Rnd 1: 18 sc in magic ring (18)\nRnd 2: {head} (sc, sc2tog) 6 times (12)\n") == (12, "agrees")


@pytest.mark.parametrize("head", ["ears (make 2)", "ear", "front legs", "tail:", "leaf x2"])
def test_limbs_headed_in_small_letters(head: str) -> None:
    parts = read(f"Cat\nrnd 1: 6 sc in mr (6)\nrnd 2: sc in each\n{head}\nrnd 1: 5 sc in mr (5)\nrnd 2: sc in each (5)\n").parts
    assert [len(part.rows) for part in parts if part.rows] in ([2, 2], [3, 3])


def test_a_leaf_in_the_same_line() -> None:
    rows = worked_rows("Pear\nr1: 6 sc in mr (6)\nr2: 6 inc (12)\nleaf: ch 6, sc in 2nd ch from hook, hdc, dc, hdc, sc\n")
    assert [row.counted.total for row in rows] == [6, 12, 5]


def test_yarn_called_by_what_it_is_for() -> None:
    assert last("Rnd 1: 6 sc in magic ring (6)\nRnd 2: 2 sc in each, changing to boot colour in last sc (12)\n") == (12, "agrees")


def test_trebles_on_three_chains_are_british() -> None:
    first = "Rnd 1: In a magic ring: (1 tr, 1 ch) 8 times, ss to join. 8 tr\n"
    text = f"{first}Rnd 2: 3 ch, 1 tr in same sp, 1 ch, (2 tr, 1 ch) in each sp to end, join. 16 tr\n"
    assert worked_rows(text)[-1].counted.total == 16


@pytest.mark.parametrize(
    "rows",
    [
        "R1: 6X in MR (6)\nR2: 6V (12)\nR3: (1X, V)*6 (18)\nR4: 18X (18)\nR5: (X, A)*6 (12)\n",
        "R1: 6x in MR (6)\nR2: 6v (12)\nR3: (1x, 1v) x 6 (18)\nR4: 18x (18)\nR5: (1x, 1a) x 6 (12)\n",
        "X = sc, V = inc, A = dec\nR1: 6 X in MR (6)\nR2: V*6 (12)\nR3: (X, V)*6 (18)\nR4: (X, A)*6 (12)\n",
    ],
)
def test_letters_for_stitches(rows: str) -> None:
    """X, V and A of toy makers: told among the notes, or so used that they can mean nothing else."""
    worked = worked_rows(f"Ball\n{rows}")
    assert {kind for row in worked for kind in row.counted.by_kind} == {"sc"}
    assert (worked[-1].counted.total, worked[-1].state) == (12, "agrees")


def test_letters_are_left_alone_beside_stitches() -> None:
    rows = worked_rows("Ch 4, join.\nRnd 1: (dc, ch 1) 8 times in ring, join. (8 dc)\nRnd 2: V-st in each ch-1 sp. (8 V-sts)\n")
    assert rows[-1].counted.by_kind["V-st"] == 8


@pytest.mark.parametrize("lead", ["with green, MR, 5 sc", "With green, 5 sc in MR", "In brown, 5 sc in magic ring"])
def test_a_stem_begun_in_another_colour(lead: str) -> None:
    for head in ("Stem: ", "Stem\n"):
        text = f"Apple\nRnd 1: 6 sc in MR (6)\nRnd 2: inc x6 (12)\n{head}{lead}.\nR2: BLO sc (5).\n"
        assert [row.counted.total for row in worked_rows(text)] == [6, 12, 5, 5]


@pytest.mark.parametrize(
    "rows",
    [
        "R2: inc (12)\nR3: sc, inc (18)\nR4: sc, dec (12)\nR5: dec (6)",
        "R2 inc [12]\nR3 1 sc, 1 inc [18]\nR4 1 sc, 1 dec [12]\nR5 dec [6]",
    ],
)
def test_a_unit_told_once_goes_round_where_its_count_says_so(rows: str) -> None:
    assert [row.state for row in worked_rows(f"R1: 6 sc in MR (6)\n{rows}\n")] == ["agrees"] * 5
    assert alarms("R1: 6 sc in MR (6)\nR2: inc (11)\n")
    assert alarms("R1: 12 sc in MR (12)\nR2: sc, inc (17)\n")


@pytest.mark.parametrize(
    "words",
    [
        "work 40 dc around top of ribbing",
        "sc 40 around one edge of the band",
        "40 sc along the top of the brim",
        "hdc 40 evenly along the ribbing",
    ],
)
def test_so_many_along_a_band(words: str) -> None:
    band = "Ch 8.\nRow 1: sc in 2nd ch from hook and across. (7)\nRow 2: ch 1, turn, sc blo across. (7)\nRep Row 2 until 40 rows.\n"
    assert last(f"{band}Seam the ends.\nRnd 1: {words}, join. (40)\n") == (40, "agrees")


@pytest.mark.parametrize(
    "words", ["*3 sc red, 1 sc white; rep from * around", "(3 sc red, 1 sc white) 3 times", "3 sc red, 3 sc white, 6 sc red"]
)
def test_colours_told_behind_their_stitches(words: str) -> None:
    assert last(f"Rnd 1: With red, 12 sc in magic ring (12)\nRnd 2: {words} (12)\n") == (12, "agrees")


def test_rounds_numbered_with_a_full_stop() -> None:
    text = "Pig\n1. rnd: mr 6 sc [6]\n2. rnd: 6x inc [12]\n3.-4. rnd: 12 sc [12]\n5. rnd: 6x dec [6]\n"
    assert [row.counted.total for row in worked_rows(text)] == [6, 12, 12, 12, 6]


def test_a_range_without_a_mark_behind_it() -> None:
    assert [row.counted.total for row in worked_rows("R1 6 sc in MR. 6 sts\nR2-R4 sc in each st. 6 sts\nR5 inc x6. 12 sts\n")] == [
        6,
        6,
        6,
        6,
        12,
    ]


@pytest.mark.parametrize(
    ("words", "petals"),
    [
        ("(ch 4, 2 tr in same st, ch 4, sl st in same st, sl st in next st) 10 times", 20),
        ("*ch 3, dc in same st, ch 3, sl st in next 2 sts; rep from * 4 more times", 5),
    ],
)
def test_petals_that_end_where_the_round_began(words: str, petals: int) -> None:
    ring = "Rnd 1: 10 sc in MR, join. (10)\n"
    assert (last(f"{ring}Rnd 2: {words}.\n")[0], alarms(f"{ring}Rnd 2: {words}.\n")) == (petals, [])
    more = words.replace("10 times", "12 times").replace("4 more", "5 more")
    assert alarms(f"{ring}Rnd 2: {more}.\n")


@pytest.mark.parametrize(
    "chain",
    [
        "30 ch + 3 for turning ch",
        "Ch 30. Ch 3 more for turning",
        "Ch 30 (plus 3 to turn)",
        "Make 30 ch plus 3 turning ch",
        "Chain 30, chain 3 to turn",
    ],
)
def test_chains_to_turn_told_beside_the_others(chain: str) -> None:
    assert last(f"{chain}.\nRow 1: dc in 4th ch from hook and each ch. (31 dc)\n") == (31, "agrees")


def test_units_that_end_in_several_for_one_place() -> None:
    ring = "R1: 8 hdc in mr, join (8)\nR2: ch 2, (fphdc, hdc in same) x 8, join (16)\n"
    assert last(f"{ring}R3: ch 2, (fphdc, 2 hdc) x 8, join (24)\n") == (24, "agrees")
    assert alarms(f"{ring}R3: ch 2, (fphdc, 2 hdc) x 8, join (25)\n")


def test_a_long_ring_is_a_tube() -> None:
    assert last("Ch 36, join.\nR1: ch 1, 36 sc (36)\nR2: ch 3, 2 dc in same, 3 dc in each, sl st (108)\n") == (108, "agrees")


def test_a_base_is_headed_and_no_row() -> None:
    assert alarms("Jar\nBase: R1: 9 dc in mr (9)\nR2: 2 dc in each (18)\n") == []


@pytest.mark.parametrize("counted", ["10 dc, 10 ch-sps.", "10 dc and 10 ch sps.", "(10 dc, 10 ch-sp)"])
def test_chain_spaces_counted_without_their_length(counted: str) -> None:
    ring = "Rnd 1: 10 dc in ring, join. 10 dc.\n"
    told = f"{ring}Rnd 2: ch 4, (1 dc, ch 1) in each of next 9 dc, sl st to third of 4 ch. {counted}\n"
    assert last(told) == (10, "agrees")


def test_a_row_named_apart_from_its_number() -> None:
    text = "R 1: ch 2, 8 hdc in 2nd ch from hook, join. (8)\nR 2: ch 2, hdc in each, join (8)\nR 3-4: same as R 2 (8)\nR 5: rep R 2 (8)\n"
    assert [row.counted.total for row in worked_rows(text)] == [8] * 5
