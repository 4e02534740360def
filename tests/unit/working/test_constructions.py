"""Constructions off the plain path: dividing and rejoining, ribs joined as they go, free loops, crossings, far sides."""

from hookwright.reading import read
from hookwright.working import Fabric, How, work


def worked(text: str) -> Fabric:
    fabric = work(read(text))
    bad = [(r.label, t.message) for p in fabric.parts for r in p.rows for t in r.troubles]
    assert not bad, bad
    assert all(r.state in ("agrees", "unstated") for p in fabric.parts for r in p.rows), [
        (r.label, r.state) for p in fabric.parts for r in p.rows
    ]
    return fabric


def test_divide_and_rejoin() -> None:
    fabric = worked(
        "Ch 37.\nRow 18: Sc in 2nd ch from hook and in each ch across. (36 sc)\n"
        "Row 19 (RS): Ch 1, turn, sc in first 8 sts, leave rest unworked. (8 sc)\n"
        "Row 20: Ch 1, turn, sc in each st across. Fasten off. (8 sc)\n"
        "Row 21 (RS): Skip next 12 unworked sts of Row 18, join B in next st, ch 2 (does not count), "
        "dc2tog over same and next st, dc to end. "
        "(15 dc)\n"
    )
    row = fabric.parts[0].rows[-1]
    assert (row.offered, row.used, row.counted.total) == (28, 28, 15)
    assert {back for i in row.stitches.counted() for back, _, _ in row.stitches.feet_of(i)} == {3}


def test_ribbing_joined_to_a_body_as_it_goes() -> None:
    fabric = worked(
        "## Body\n"
        "\n"
        "Ch 11.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"
        "Rows 2-40: Ch 1, turn, sc in each st across. (10 sc)\n"
        "\n"
        "## Rib\n\nCh 9.\nRib Row 1: Sc in 2nd ch from hook and in each of next 7 ch. (8 sc)\n"
        "Rib Row 2: Sl st in next 2 sts of Body Row 40, turn, skip both sl sts, sc BLO in next 8 sc. (8 sc)\n"
        "Rib Row 3: Ch 1, turn, sc BLO in next 8 sc. (8 sc)\n"
    )
    rib = fabric.parts[1].rows[2]
    assert rib.counted.total == 8
    assert all(how == How.BACK_LOOP for i in rib.stitches.counted() for _, _, how in rib.stitches.feet_of(i))


def test_loops_left_free_by_an_earlier_round() -> None:
    fabric = worked(
        "Rnd 1: 6 sc in magic ring. (6 sc)\n"
        "Rnd 2: 2 sc in each st around. (12 sc)\n"
        "Rnd 3: [Sc in next st, 2 sc in next st] 6 times. (18 sc)\n"
        "Rnd 4: [Sc in next 2 sts, 2 sc in next st] 6 times. (24 sc)\nRnd 5: [Sc in next 3 sts, 2 sc in next st] 6 times. (30 sc)\n"
        "Rnd 6: [Sc in next 4 sts, 2 sc in next st] 6 times. (36 sc)\n"
        "Rnd 7: Sc BLO in each st around. (36 sc)\n"
        "Rnd 8: Sc in each st around. (36 sc)\n"
        "Rnd 9: Behind Rnd 8, in free front lps of Rnd 6: sl st in first lp, *ch 5, skip 3 lps, sl st in next; rep around, ending ch 5, "
        "skip 3, join. (9 ch-5 lps)\n"
    )
    row = fabric.parts[0].rows[-1]
    assert row.counted.by_kind["ch-5 sp"] == 9
    assert {how for i in range(len(row.stitches)) for back, _, how in row.stitches.feet_of(i) if back} == {How.FRONT_LOOP}


def test_a_crossing_of_post_stitches() -> None:
    fabric = worked(
        "Ch 38.\nRow 9: Dc in 4th ch from hook (skipped ch count as dc) and in each ch across. (36 dc)\n"
        "Row 10: Ch 3 (counts as dc), turn, dc in next 3 sts, *FPtr around next 4 sts, dc in next 4 sts; "
        "rep from * across. (20 dc, 16 FPtr)\n"
        "Row 11: Ch 3 (counts as dc), turn, dc in each st across. (36 dc)\n"
        "Row 12: Dc in first 4 sts, *skip 2 sts, FPtr around next 2 FPtr 2 rows below, in front of these FPtr around 2 skipped FPtr, "
        "dc in next 4; rep across. (36 sts)\n"
    )
    row = fabric.parts[0].rows[-1]
    assert (row.offered, row.used) == (36, 36)
    assert row.counted.by_kind == {"dc": 20, "FPtr": 16}


def test_the_far_side_of_a_chain() -> None:
    fabric = worked(
        "Ch 10.\nRnd 1: Sc in 2nd ch from hook, sc in next 7 ch, 3 sc in last ch; along opposite side sc in next 7 ch, 2 sc in last ch "
        "(with first sc). (20 sc)\nRnd 2: Sc in each st around. (20 sc)\n"
    )
    assert fabric.parts[0].rows[1].counted.total == 20
