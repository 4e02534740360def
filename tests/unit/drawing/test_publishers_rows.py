"""Rows and rounds as a publisher sets them: level rows, upright crosses, standing chains, balls that open into gores."""

from __future__ import annotations

import math

import pytest

from hookwright.drawing.abridging import abridge
from hookwright.drawing.chart import chart
from hookwright.drawing.cloth import lines_of
from hookwright.drawing.counting import count_back
from hookwright.drawing.export import svg
from hookwright.drawing.gores import find_gores
from hookwright.drawing.inks import YARN_INK
from hookwright.drawing.marks import Chart, Mark
from hookwright.drawing.overlaps import overlaps
from hookwright.drawing.yarn_inks import inks_of
from hookwright.reading import read
from hookwright.working import work
from hookwright.working.fabric import How

BALL = """Rnd 1: 6 sc in magic ring. (6)

Rnd 2: 2 sc in each st around. (12)

Rnd 3: *Sc in next st, 2 sc in next st; repeat from * around. (18)

Rnds 4-5: Sc in each st around. (18)

Rnd 6: *Sc in next st, sc2tog; repeat from * around. (12)

Rnd 7: Sc2tog around. (6)
"""
PAIRS = """Ch 18.

Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (17 sc)

Row 2: Ch 2 (counts as dc), turn, skip first st, *(dc, sc) in next st, skip 1 st; repeat from * to last 2 sts, skip 1 st, dc in last st.

Row 3: Ch 2 (counts as dc), turn, skip first st, *(dc, sc) between next 2 sts, skip next st; repeat from * to last st, dc in last st.
"""
SLANTED = """Ch 25.

Row 1 (RS): Sc in 2nd ch from hook, *skip 3 ch, (sc, ch 3, 3 dc) in next ch; repeat from * to last 3 ch, skip 2 ch, sc in last ch.

Row 2: Ch 3, turn, *(sc, ch 3, 3 dc) in next ch-3 sp; repeat from * across, sc in last sc.
"""
BURGEE = """Ch 4.

Row 1 (RS): 2 dc in 4th ch from hook. (3)

Row 2: Ch 3 (counts as dc), turn, dc in first st, dc in each st to last st, 2 dc in last st. (5)

Row 3: Ch 3 (counts as dc), turn, dc in first st, dc in each st to last st, 2 dc in last st. (7)

Row 4: Ch 3 (counts as dc), turn, dc in first st, dc in each st to last st, 2 dc in last st. (9)
"""
MESH = """Ch 18.

Row 1 (RS): Dc in 4th ch from hook (skipped ch count as dc) and in each ch across. (16)

Row 2: Ch 3 (counts as dc), turn, skip first st, *ch 2, skip next 2 sts, dc in next st; repeat from * across.

Row 3: Ch 3 (counts as dc), turn, *2 dc in next ch-2 sp, dc in next dc; repeat from * across, ending in top of ch-3.
"""


def drawn(text: str) -> Chart:
    return chart(work(read(text)), short=False)


def tops(made: Chart, row: int, kind: str) -> list[float]:
    return [round(ties.top[1], 1) for mark, ties in zip(made.marks, made.ties, strict=True) if mark.row == row and mark.kind == kind]


@pytest.mark.parametrize("text", [BALL, PAIRS, SLANTED, BURGEE, MESH], ids=["ball", "pairs", "slanted", "burgee", "mesh"])
def test_nothing_overlaps(text: str) -> None:
    assert [str(found) for found in overlaps(drawn(text))] == []


def test_a_closing_ball_opens_between_its_sectors_only() -> None:
    lines = lines_of(work(read(BALL)).parts[0])
    opens = find_gores(lines)
    assert [len(posts) for posts in opens[-3:]] == [6, 6, 6]
    closing = [line for line in lines if line.posts][-1]
    assert all(len(line.posts) >= 6 for line in lines if line.posts) and opens[closing.index] == frozenset(closing.posts)
    made = chart(work(read(BALL)))
    last = max(mark.row for mark in made.marks)
    for row, stitches in ((last - 1, 12), (last, 6)):
        turns = sorted(math.atan2(ties.top[1], ties.top[0]) for mark, ties in zip(made.marks, made.ties, strict=True) if mark.row == row)
        assert len(turns) == stitches
        gaps = [b - a for a, b in zip(turns, [*turns[1:], turns[0] + 2 * math.pi], strict=True)]
        wide = [gap for gap in gaps if gap > 1.5 * min(gaps)]
        assert len(wide) == 6 or stitches == 6


def test_a_piece_that_does_not_close_has_no_gores() -> None:
    flat = BALL.partition("Rnd 6")[0]
    assert not any(find_gores(lines_of(work(read(flat)).parts[0])))


def test_rows_of_increases_and_filled_meshes_stay_level() -> None:
    for text in (BURGEE, MESH):
        made = drawn(text)
        for row in {mark.row for mark in made.marks if mark.kind == "dc"}:
            assert max(tops(made, row, "dc")) - min(tops(made, row, "dc")) < 0.15, (row, text)


def test_pairs_of_unlike_height_stand_in_the_gap_of_the_pair_below() -> None:
    fabric = work(read(PAIRS))
    rows = fabric.parts[0].rows
    below, above = rows[-2].stitches, rows[-1].stitches
    gaps = [at for e in range(len(above)) for _, at, how in above.feet_of(e) if how == How.BETWEEN]
    assert gaps and all({below.name(at), below.name(at + 1)} == {"dc", "sc"} for at in gaps)
    assert all(next(below.feet_of(at)) == next(below.feet_of(at + 1)) for at in gaps)
    made = drawn(PAIRS)
    assert len(set(tops(made, rows[-1].index, "dc"))) == 1


def test_low_crosses_stand_upright_in_rows() -> None:
    assert {mark.angle_deg for text in (PAIRS, SLANTED) for mark in drawn(text).marks if mark.kind == "sc" and plain_sized(mark)} == {0.0}


def plain_sized(mark: Mark) -> bool:
    return mark.glyph.startswith("sc--") and int(mark.glyph[4:].rstrip("xt") or 0) <= 30


def test_chains_between_a_low_and_a_tall_stitch_of_one_place_stand_up() -> None:
    made = drawn(SLANTED)
    first = min(mark.row for mark in made.marks if mark.kind == "dc")
    chains = [mark for mark in made.marks if mark.row == first and mark.kind == "ch"][:-1]
    up = [mark for mark in chains if abs(mark.angle_deg) > 30]
    assert len(up) >= 2 * len(chains) / 3


PINEAPPLE = """Ch 8, join with sl st to form a ring.

Row 1 (RS): Ch 3 (counts as dc), 12 dc in ring. (13 dc)

Row 2: Ch 4 (counts as dc, ch 1), turn, skip first dc, [dc in next dc, ch 1] 11 times, dc in top of ch-3. (13 dc, 12 ch-1 sps)

Row 3: Ch 1, turn, sc in first dc, [ch 3, sc in next ch-1 sp] 12 times. (12 ch-3 sps)

Row 4: Ch 4, turn, sc in first ch-3 sp, [ch 3, sc in next ch-3 sp] 11 times.

Row 5: Ch 4, turn, sc in first ch-3 sp, [ch 3, sc in next ch-3 sp] 10 times.
"""
SPIKES = """Ch 13.

Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (12)

Row 2: Ch 1, turn, sc in each st across.

Row 3: Ch 1, turn, sc in first st, *spike sc in next st 2 rows below, sc in next 2 sts; repeat from * to last 2 sts, sc in last 2 sts.

Row 4: Ch 1, turn, sc in each st across.
"""
OVERLAPPING = """Ch 26.

Row 1 (RS): Sc in 2nd ch from hook, *skip 3 ch, (3 dc, ch 2, 3 dc) in next ch, skip 3 ch, sc in next ch; repeat from * across. (3 shells)

Row 2: Ch 3 (counts as dc), turn, 2 dc in first sc, *ch 1, sc in next ch-2 sp, ch 1, (3 dc, ch 2, 3 dc) in next sc; \
repeat from * 1 more time, ch 1, sc in next ch-2 sp, ch 1, 3 dc in last sc.
"""


@pytest.mark.parametrize("text", [PINEAPPLE, SPIKES, OVERLAPPING], ids=["pineapple", "spikes", "shells"])
def test_lace_and_reaching_stitches_are_clear_and_count_back(text: str) -> None:
    fabric = work(read(text))
    made = chart(fabric)
    assert [str(found) for found in overlaps(made)] == []
    assert count_back(fabric, [svg(made)]).differences == 0


def test_rows_out_of_a_ring_stand_on_its_chains() -> None:
    made = drawn(PINEAPPLE)
    assert made.form == "fan"
    ring = [math.hypot(mark.x, mark.y) for mark in made.marks if mark.row == 0]
    assert max(ring) - min(ring) < 0.1
    feet = [
        math.hypot(*point)
        for mark, ties in zip(made.marks, made.ties, strict=True)
        if mark.row == 1 and mark.kind == "dc"
        for _, point in ties.feet
    ]
    assert all(far > max(ring) for far in feet)


def test_a_pineapple_narrows_row_by_row() -> None:
    made = drawn(PINEAPPLE)
    wide = {row: [math.atan2(mark.x, -mark.y) for mark in made.marks if mark.row == row and mark.kind == "sc"] for row in (4, 5)}
    assert max(wide[5]) - min(wide[5]) < max(wide[4]) - min(wide[4])


def test_a_spike_is_seen_to_reach_down() -> None:
    made = drawn(SPIKES)
    spikes = [mark for mark in made.marks if mark.row == 3 and "r" in mark.glyph.partition("--")[2]]
    assert len(spikes) == 3
    for mark in spikes:
        assert (
            max(y for x1, y1, x2, y2, r in made.body(mark) for y in (y1, y2))
            - min(y for x1, y1, x2, y2, r in made.body(mark) for y in (y1, y2))
            > 4.5
        )


def test_yarns_are_drawn_in_inks_like_their_colours() -> None:
    assert inks_of(("gull white", "deep blue"))[1] == inks_of(("deep blue", "gull white"))[0]
    assert len(set(inks_of(("red", "brick red", "rust", "pink", "blue", "white")))) == 6
    assert inks_of(("", "")) == YARN_INK[:2]


STRIPES = """With A, ch 14.

Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (13 sc)

Row 2: Ch 3 (counts as dc), dc in next st, *ch 1, skip 1 st, dc in next 2 sts; repeat from * to last 2 sts, ch 1, skip 1 st, dc in last st.

Row 3: Turn, ch 1, sc in first st, *sc in next ch-1 sp, sc in each of next 2 sts; repeat from * across, turn.

Row 4: With B, rep Row 2.

Row 5: Rep Row 3.

Row 6: With A, rep Row 2.

Row 7: Rep Row 3.

Rows 8-31: Rep Rows 4-7.

Row 32: Ch 1, sc in each st across. Fasten off.
"""


def test_whole_repeats_of_rows_are_left_out_and_told_and_counted() -> None:
    fabric = work(read(STRIPES))
    made = chart(fabric)
    (gap,) = made.gaps
    assert len(gap.like) == 4 and len(gap.rows) % 4 == 0 and len(gap.rows) >= 8
    assert gap.words.endswith(f": {len(gap.rows) // 4} times Rows {fabric.parts[0].rows[gap.like[0]].number}-{gap.like[-1]}")
    drawing = svg(made)
    assert count_back(fabric, [drawing]).differences == 0
    assert count_back(fabric, [drawing.replace(gap.words, gap.words.replace(" times", "0 times"))]).differences == 1
    assert overlaps(made) == []


def test_what_stood_on_a_repeat_left_out_stands_on_its_like() -> None:
    fabric = work(read(STRIPES))
    made = chart(fabric)
    whole = lines_of(fabric.parts[0])
    (gap,) = made.gaps
    after = next(line for line in whole if line.row.index == gap.rows[-1] + 1)
    feet = [tuple((foot.at, foot.how) for foot in feet) for feet in after.feet]
    cut = abridge(fabric.parts[0])
    line = next(line for line in lines_of(fabric.parts[0], cut.kept, (), cut.like) if line.row.index == after.row.index)
    assert [tuple((foot.at, foot.how) for foot in feet) for feet in line.feet] == feet
    assert {foot.line for feet in line.feet for foot in feet} == {line.index - 1}


FISH = """Rnd 1: 6 sc in magic ring. (6)

Rnd 2: 2 sc in each st around. (12)

Rnds 3-5: Sc in each st around. (12)

Rnd 6: *Sc in next 2 sts, sc2tog; repeat from * around. (9)

Rnd 7: *Sc in next st, sc2tog; repeat from * around. (6)

Rnd 8: 2 sc in each st around. (12)
"""
THUMB = """Rnd 1: 8 hdc in magic ring. (8)

Rnd 2: 2 hdc in each st around. (16)

Rnd 3: *Hdc in next st, 2 hdc in next st; repeat from * around. (24)

Rnds 4-5: Hdc in each st around. (24)

Rnd 6: Hdc in next st, ch 5, skip next 5 sts, hdc in each of next 18 sts. (19)

Rnd 7: Hdc in next st, hdc in each of next 5 ch, hdc in each st around. (24)
"""


def test_a_piece_that_opens_again_beyond_its_narrowest_round_still_opens_into_gores() -> None:
    fabric = work(read(FISH))
    opens = find_gores(lines_of(fabric.parts[0]))
    assert [len(each) for each in opens[-5:]] == [3, 3, 3, 3, 3] or [len(each) for each in opens[-3:]] == [3, 3, 3]
    made = chart(fabric)
    longest = max(math.hypot(x2 - x1, y2 - y1) for mark in made.marks if mark.kind == "sc2tog" for x1, y1, x2, y2, _ in made.body(mark))
    assert longest < 7 and not overlaps(made)


def test_an_opening_in_plain_rounds_is_as_wide_as_what_it_skips() -> None:
    made = chart(work(read(THUMB)))
    lean = 0.0
    for mark, ties in zip(made.marks, made.ties, strict=True):
        if mark.kind == "hdc" and mark.row >= 6 and len(ties.feet) == 1:
            (x, y), (fx, fy) = ties.top, ties.feet[0][1]
            lean = max(lean, abs(math.remainder(math.atan2(y, x) - math.atan2(fy, fx), 2 * math.pi)) * math.hypot(x, y))
    assert 0 < lean < 4.8, "columns of stitches go on past the opening"


YOKE = """Ch 30.

Row 1 (RS): Sc in 2nd ch from hook, sc in next 3 ch, *3 sc in next ch, sc in next 4 ch; repeat from * across.

Row 2: Turn, ch 1, sc in next 5 sts, *3 sc in next st, sc in next 6 sts; repeat from * 3 more times, 3 sc in next st, sc in next 5 sts.

Row 3: Turn, ch 1, sc in next 6 sts, *3 sc in next st, sc in next 8 sts; repeat from * 3 more times, 3 sc in next st, sc in next 6 sts.
"""
SHAWL = """Ch 20.

Row 1 (RS): Dc in 4th ch from hook (skipped ch count as dc), dc in next 7 ch, 3 dc in next ch, dc in next 7 ch, 2 dc in last ch.

Row 2: Turn, ch 3 (counts as dc), dc in first st, dc in next 9 sts, 3 dc in next st, dc in each st to last st, 2 dc in last st.

Row 3: Turn, ch 3 (counts as dc), dc in first st, dc in next 11 sts, 3 dc in next st, dc in each st to last st, 2 dc in last st.
"""


def test_a_yoke_lies_on_arcs_and_a_triangle_does_not() -> None:
    fabric = work(read(YOKE))
    made = chart(fabric)
    assert made.form == "fan" and not overlaps(made)
    assert count_back(fabric, [svg(made)]).differences == 0
    assert any(label.words == "start" for label in made.labels)
    lean = max(abs(mark.angle_deg) for mark in made.marks if mark.kind == "sc")
    assert lean > 90, "its ends turn down"
    assert chart(work(read(SHAWL))).form == "rows"


def test_a_fan_begun_without_a_chain_is_drawn() -> None:
    row = "Row {}: Ch 3 (counts as dc), dc in first st, 2 dc in each st, turn. ({})\n\n"
    fabric = work(read("Row 1 (RS): 5 dc, turn. (5)\n\n" + row.format(2, 10) + row.format(3, 20)))
    assert not lines_of(fabric.parts[0])[0].foundation
    made = chart(fabric)
    assert made.form == "fan" and count_back(fabric, [svg(made)]).differences == 0


def test_a_yoke_in_joined_rounds_is_a_disc_with_a_hole_and_a_body_after_it_stays_on_arcs() -> None:
    rounds = "Rnd {}: Ch 1, *2 dc in next st, dc in next {} sts; repeat from * 11 more times, join with sl st in first dc. ({})\n\n"
    text = "Ch 48, join with sl st to form a ring.\n\nRnd 1: Ch 1, dc in each ch around, join with sl st in first dc. (48)\n\n"
    text += rounds.format(2, 3, 60) + rounds.format(3, 4, 72) + rounds.format(4, 5, 84)
    made = chart(work(read(text)))
    assert made.form == "round" and not overlaps(made)
    body = YOKE + "\nRow 4: Turn, ch 1, sc in next 7 sts, ch 4, skip next 12 sts, sc in each st across.\n"
    assert chart(work(read(body))).form == "fan"


def test_wide_waves_without_a_chain_keep_straight_rows() -> None:
    row = "Row {}: Ch 3 (counts as dc), turn, dc in first st, *dc in next 3 sts, dc3tog, dc in next 3 sts, 3 dc in next st; repeat from * "
    row += "3 more times, dc in next 3 sts, dc3tog, dc in next 3 sts, 2 dc in last st. (51)\n\n"
    text = "Fdc 51. (51)\n\n" + "".join(row.format(k) for k in range(1, 21))
    assert chart(work(read(text))).form == "rows"
