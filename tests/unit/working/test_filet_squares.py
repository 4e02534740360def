"""Filet told square by square: over their like, all across, and by the stitches of a block (common practice, no source)."""

import pytest

from hookwright.reading import read
from hookwright.working import work

MOTIF = """Motif
Ch 21.
Row 1: Dc in 8th ch from hook, 1 dc in each of next 6 ch (2 bls), ch 2, skip 2 ch, dc in next ch (sp), 1 dc in next 3 ch (bl). {turned}
Row 2: {told}
"""
TILE = """Tile
Ch 42. Row 1: Dc in 4th ch from hook and in each ch across (13 bls). Ch 3, turn.
Row 2: Bl over bl, 11 sps, bl. Ch 3, turn.
Row 3: {told}
"""


def last(text: str) -> tuple[str, str, dict[str, int]]:
    row = work(read(text)).parts[0].rows[-1]
    return row.read, row.worked, {kind: n for kind, n in row.counted.by_kind.items() if kind in ("dc", "ch-2 sp")}


@pytest.mark.parametrize(
    "told",
    (
        "Sp over sp and bl over bl.",
        "Bl over bl and sp over sp. Ch 3, turn.",
        "Sps over sps and bls over bls.",
        "Work sps over sps, bls over bls.",
        "Bl over each bl and sp over each sp.",
        "Bls over bls and sps over sps across. Ch 3, turn.",
        "Blocks over blocks and spaces over spaces.",
        "Make bl over bl and sp over sp, as in last row.",
        "Bl over bl, sp over sp, 2 bls over bls, sp over sp.",
    ),
)
def test_squares_over_their_like_are_the_row_below_once_more(told: str) -> None:
    assert last(MOTIF.format(turned="Ch 3, turn.", told=told)) == ("whole", "yes", {"dc": 12, "ch-2 sp": 2})


def test_five_chains_hold_the_first_space_of_squares_over_their_like() -> None:
    told = MOTIF.format(turned="Ch 3, turn.", told="Bl, 1 sp, 2 bls, 1 sp. Ch 5, turn.\nRow 3: Sps over sps and bls over bls.")
    assert last(told) == ("whole", "yes", {"dc": 12, "ch-2 sp": 2})


@pytest.mark.parametrize(
    ("told", "dc", "spaces"),
    (
        ("Bls across (13 bls).", 40, 0),
        ("13 bls across.", 40, 0),
        ("Work bls all across, turn.", 40, 0),
        ("Bl over bl, sps across, bl over bl.", 18, 11),
        ("1 bl, sps to within last bl, bl over bl.", 18, 11),
        ("1 bl, sps across to last bl, 1 bl.", 18, 11),
        ("Block, 11 spaces, block.", 18, 11),
    ),
)
def test_one_sort_of_square_goes_across(told: str, dc: int, spaces: int) -> None:
    wanted = {"dc": dc, "ch-2 sp": spaces} if spaces else {"dc": dc}
    assert last(TILE.format(told=told)) == ("whole", "yes", wanted)


def test_the_last_stitch_of_a_block_is_not_the_last_of_the_row() -> None:
    told = "Dc in last dc of bl, sp over sp, 2 bls over bls, sp."
    assert last(MOTIF.format(turned="Ch 5, turn.", told=told)) == ("whole", "yes", {"dc": 10, "ch-2 sp": 3})
    told = "Ch 3, dc in next 2 dc and in last dc of the bl, sp over sp, dc in 4th dc of next block, dc in last dc of same block, sp."
    row = work(read(MOTIF.format(turned="Turn.", told=told))).parts[0].rows[-1]
    assert row.counted.by_kind["dc"] == 8
