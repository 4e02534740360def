"""Right patterns in ordinary words: nothing is found in them, and every row comes to what the maker counted."""

import pytest

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

from .told import worked_rows


def alarms(text: str) -> list[str]:
    pattern = read(text)
    fabrics = tuple(work(pattern, size=size) for size in range(pattern.sizes))
    return [f"{found.rule}: {found.message}" for found in proof(pattern, fabrics) if found.severity in ("error", "warning")]


def totals(text: str) -> list[int]:
    assert alarms(text) == []
    return [row.counted.total for row in worked_rows(text)]


FLAT = "Ch 18.\nRow 1: Sc in 2nd ch from hook and in each ch across. (17 sc)\n"
MESH = "Ch 17.\nRow 1: Dc in 4th ch from hook, ch 2, skip 2 ch, dc in next 10 ch, dc in last ch. (13 dc)\n"
FANS = (
    "Fan: 5 dc in the same stitch.\n\nCh 20.\n"
    "Row 1: Sc in 2nd ch from hook, *skip 2 ch, fan in next ch, skip 2 ch, sc in next ch; rep from *"
)
SHORT = (
    "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\nRow 2: Ch 1, turn, sc in first 14 sts, leave remaining 6 sts "
    "unworked. (14)\nRow 3: Ch 1, turn, sc in each of the 14 sts. (14)\n"
)
RING = "Ch 5, join to form a ring.\nRnd 1: Ch 3 (counts as dc), 11 dc in ring, join. (12 dc)\n"


@pytest.mark.parametrize(
    "title", ["Fan Stitch Pillow", "Shell Stitch Bath Mat", "Magic Ring Trivet", "Slip stitch mitts", "Shell-edged Bib"]
)
def test_a_title_with_stitches_in_it_is_no_row(title: str) -> None:
    assert totals(f"{title}\n\n{FANS} across. (3 fans, 4 sc)\n") == [19]
    assert totals(f"{title}\n\nMaterials: cotton\n\n{FLAT}") == [17]


@pytest.mark.parametrize(
    "told",
    [
        "Fan (5 dc in the same stitch)",
        "To make a fan: work 5 dc in one stitch.",
        "Stitches used: ch, sc, dc, fan (work 5 dc in same st)",
        "Fan - 5 dc in same st.",
    ],
)
def test_a_group_told_in_a_line_of_its_own(told: str) -> None:
    row = "Row 1: Sc in 2nd ch from hook, *skip 2 ch, fan in next ch, skip 2 ch, sc in next ch; rep from * across. (3 fans, 4 sc)\n"
    assert totals(f"Cushion\n\n{told}\n\nCh 20.\n{row}") == [19]


@pytest.mark.parametrize("ending", ["to last sc, 3 dc in last sc", "to last 3 sts, 3 dc in last sc", ", ending 3 dc in last sc"])
def test_half_a_group_closes_the_row(ending: str) -> None:
    begun = "Row 2: Ch 3, turn, 2 dc in first sc, skip 2 dc, sc in next dc, "
    second = f"{begun}*skip 2 dc, fan in next sc, skip 2 dc, sc in next dc; rep from * {ending}.\n"
    assert totals(f"Mat\n\n{FANS} across. (3 fans, 4 sc)\n{second}") == [19, 19]


def test_shells_between_posts_are_no_corners_when_the_row_is_repeated() -> None:
    text = (
        "Quilt\n\nshell = (2 dc, ch 2, 2 dc) in same place\n\nCh 29.\nRow 1: Dc in 4th ch from hook, *sk 2 ch, shell in next ch, sk 2 ch, "
        "dc in next ch; rep from * 3 more times, dc in last ch.\nRow 2: Ch 3, turn, dc in next dc, *shell in ch-2 sp of next shell, dc in "
        "next dc; rep from * across, dc in top of turning ch. (4 shells, 7 dc)\nRows 3-6: Rep Row 2.\n"
    )
    assert totals(text) == [23] * 6


@pytest.mark.parametrize(
    ("count", "right"),
    [
        ("4 shells, 4 dc", True),
        ("4 shells, 20 dc", True),
        ("4 dc and 4 shells", True),
        ("4 shells, 5 dc", False),
        ("5 shells, 4 dc", False),
    ],
)
def test_stitches_that_stand_in_no_group_may_be_told_apart(count: str, right: bool) -> None:
    text = (
        "Mat\n\nShell: (2 dc, ch 2, 2 dc) in same sp.\nCh 6, join to form ring.\nRnd 1: Ch 3, 15 dc in ring, join. (16 dc)\n"
        "Rnd 2: Ch 3, (dc, ch 2, 2 dc) in same dc, skip next dc, dc in next dc, skip next dc, *shell in next dc, skip next dc, dc in next "
        f"dc, skip next dc; rep from * around, join. ({count})\n"
    )
    assert (alarms(text) == []) == right


@pytest.mark.parametrize("count", ["4 V-sts, 2 dc", "10 dc, 4 ch-1 sps"])
def test_groups_under_no_name_of_their_own(count: str) -> None:
    row = "(dc, ch 1, dc) in next ch; rep from * to last 2 ch, skip 1 ch, dc in last ch."
    assert totals(f"Net\n\nCh 16.\nRow 1: (Dc, ch 1, dc) in 5th ch from hook, *skip 2 ch, {row} ({count})\n") == [10]


@pytest.mark.parametrize(
    "count",
    [
        "(16 dc, plus the beginning ch-3)",
        "(16 dc + ch 3)",
        "(16 dc and 1 tch)",
        "- 16 dc, not including ch-3",
        "(16 dc without the starting chain)",
        "(16 dc, ch-3 not counted)",
        "(17 dc including ch-3)",
        "(17 dc with the beginning ch)",
    ],
)
def test_a_turning_chain_told_beside_the_count(count: str) -> None:
    text = (
        f"Panel\n\nCh 19.\nRow 1: Dc in 4th ch from hook and in each ch across. {count}\nRow 2: Ch 3 (counts as dc), turn, skip first st, "
        "dc in each dc across, dc in top of ch-3. (17 dc)\nRow 3: Ch 1, turn, sc in each st across. (17 sc)\n"
    )
    assert totals(text) == [17, 17, 17]


def test_a_count_without_the_turning_chain_may_still_be_wrong() -> None:
    text = "Ch 19.\nRow 1: Dc in 4th ch from hook and in each ch across. (14 dc, not counting the ch-3)\n"
    assert any("count-differs" in one for one in alarms(text))


@pytest.mark.parametrize("corner", ["each 2ch corner sp", "each 2ch corner", "each 2-ch corner space", "each 2ch-corner sp"])
def test_a_corner_of_so_many_chains(corner: str) -> None:
    text = (
        "Square (UK terms)\n4ch, ss to form ring.\nRound 1: 3ch (counts as 1tr), 2tr into ring, 2ch, *3tr into ring, 2ch* 3 times, ss to "
        f"top of 3ch. (12tr)\nRound 2: 1ch, 1dc into each tr, 3dc into {corner}, ss to first dc. (24dc)\n"
    )
    assert totals(text) == [12, 24]


@pytest.mark.parametrize(
    "work_in",
    [
        "skip next 7 sts, sc in each of the 7 sts of the pocket lining",
        "sc in 7 sts of lining, skip 7 sts of front",
        "sc across 7 sts of pocket, skip next 7 sts",
    ],
)
def test_a_pocket_lining_worked_in(work_in: str) -> None:
    assert totals(f"{FLAT}Row 2: Ch 1, turn, sc in first 5 sts, {work_in}, sc in last 5 sts. (17 sc)\n") == [17, 17]


@pytest.mark.parametrize(
    "words",
    [
        "sc in each dc across, sk all ch-2 sps, sc in top of ch-3",
        "sc in each dc, skipping the ch-2 sp, sc in top of ch-3",
        "skipping the ch-2 sp, sc in each dc across, sc in top of ch-3",
        "sc in each dc across (sk ch-2 sps), sc in top of ch-3",
        "sc in each dc across, ignoring the ch-2 sp, and in top of ch-3",
        "sc in each dc across, do not work in ch-2 sp, sc in top of ch-3",
    ],
)
def test_spaces_passed_over_along_a_run(words: str) -> None:
    rows = worked_rows(f"{MESH}Row 2: Ch 1, turn, {words}. (13 sc)\n")
    assert [dict(row.counted.by_kind) for row in rows[1:]] == [{"sc": 13}]


@pytest.mark.parametrize(
    ("words", "total"),
    [
        ("sc2tog, sc in each st to last 2 sts, dec 1 sc—15 sc. Ch 1, turn", 15),
        ("sc in each st to last st, inc 1 sc: 18 sc", 18),
        ("2 sc in first st (1 st increased), sc in each st to last st, 2 sc in last st (1 st increased). (19 sc)", 19),
        ("sc2tog (1 st decreased), sc in each st to last 2 sts, sc2tog (1 st decreased). (15 sc)", 15),
    ],
)
def test_shapings_told_beside_the_count(words: str, total: int) -> None:
    assert totals(f"{FLAT}Row 2: Ch 1, turn, {words}\n") == [17, total]


@pytest.mark.parametrize(
    "words",
    [
        "sc in each of the 14 sts, sc in the 6 unworked sts two rows below",
        "sc in next 14 sts, sc in next 6 unworked sts",
        "sc in each st across, sc in the 6 unworked sts of Row 1",
        "sc across, then sc in the 6 unworked sts below",
    ],
)
def test_a_short_row_taken_up_again(words: str) -> None:
    assert totals(f"{SHORT}Row 4: Ch 1, turn, {words}. (20)\n") == [20, 14, 14, 20]


def test_a_round_that_turns_off_along_the_ends_of_rows() -> None:
    text = (
        "Ch 30, join.\nRnd 1: Ch 1, sc in each ch around. (30 sc)\nInstep:\nRow 2: Sc in next 10 sc, ch 1, turn. (10 sc)\nRows 3-6: Sc in "
        "each of the 10 sc, ch 1, turn.\nRnd 7: Join yarn at back, sc in next 10 sc, 5 sc along side of instep, sc in 10 sc of instep, 5 "
        "sc along other side of instep, sc in remaining 10 sc, join. (40 sc)\n"
    )
    assert totals(text)[-1] == 40


@pytest.mark.parametrize(
    "words",
    ["sl st in next 2 ch, *sc in loop, ch 5; rep from * around", "sl st in next 2 ch, ch 1, (sc, ch 5) in each loop around"],
)
def test_slip_stitches_lead_into_the_first_loop(words: str) -> None:
    text = f"{RING}Rnd 2: Ch 1, *sc in next st, ch 4; rep from * around, join. (12 loops)\nRnd 3: {words}, join. (12 ch-5 loops)\n"
    assert totals(text) == [12, 12, 12]


@pytest.mark.parametrize("unit", ["dc2tog in next st, ch 1", "tr2tog in next dc, ch 2"])
def test_two_closed_together_in_one_stitch(unit: str) -> None:
    assert totals(f"{RING}Rnd 2: Ch 2, *{unit}; rep from * around, join. (12 sps)\n") == [12, 12]


@pytest.mark.parametrize("count", ["(6 front, 6 back, 4 each sleeve - 20 sc)", "(6-4-6-4 sts)", "(20 sc; front and back 6 sc each)"])
def test_a_yoke_counted_by_its_sections(count: str) -> None:
    assert totals(f"Yoke\nCh 20, join.\nRnd 1: Ch 1, sc in each ch around, join. {count}\n") == [20]
    assert alarms(f"Yoke\nCh 21, join.\nRnd 1: Ch 1, sc in each ch around, join. {count}\n") != []
