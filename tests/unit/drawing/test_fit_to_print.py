"""What a publisher would send back: words over symbols, a break through stitches, cables like feathers, petals over petals."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from hookwright.drawing.chart import chart
from hookwright.drawing.clear import covered
from hookwright.drawing.counting import count_back
from hookwright.drawing.export import svg
from hookwright.drawing.marks import Chart
from hookwright.drawing.overlaps import overlaps
from hookwright.drawing.pages import paged
from hookwright.drawing.shapes import box_of_ink
from hookwright.reading import read
from hookwright.working import work

EXAMPLES = Path(__file__).parents[3] / "examples"
CABLE = """Ch 14.

Row 1 (RS): Dc in 4th ch from hook (skipped 3 ch count as dc) and in each ch across. (12 dc)

Row 2: Ch 3 (counts as dc), turn, dc in next 3 sts, FPdc around next 4 sts, dc in last 4 sts. (12)

Row 3: Ch 3 (counts as dc), turn, dc in next 3 sts, skip next 2 sts, FPtr around next 2 sts, working in front of sts just made FPtr around 2
skipped sts, dc in last 4 sts. (12)
"""
PETALS = """Ch 6, join with sl st to form a ring.

Rnd 1 (RS): Ch 1, (sc in ring, ch 3) 6 times, join with sl st in first sc. (6 ch-3 sps)

Rnd 2: (Sc, hdc, 3 dc, hdc, sc) in each ch-3 sp around, join with sl st in first sc. (6 petals)

Rnd 3: Ch 1, *BPsc around next sc of Rnd 1, ch 5; repeat from * around, join with sl st in first sc. (6 ch-5 sps)

Rnd 4: (Sc, hdc, 5 dc, hdc, sc) in each ch-5 sp around, join with sl st in first sc. (6 petals)
"""
TRIANGLE = """Ch 5, join with sl st to form a ring.

Rnd 1 (RS): Ch 3 (counts as dc), 3 dc in ring, ch 3, *4 dc in ring, ch 3; repeat from * once more, join with sl st in top of ch-3. (12 dc)

Rnd 2: Ch 3 (counts as dc), dc in next 3 dc, (2 dc, ch 3, 2 dc) in ch-3 sp, *dc in next 4 dc, (2 dc, ch 3, 2 dc) in next ch-3 sp; repeat
from * once more, join with sl st in top of ch-3. (24 dc)

Rnd 3: Ch 1, sc in same st, *ch 3, skip 1 st, sc in next st; repeat from * around, join with sl st in first sc.
"""
TURNED = """Ch 5, join with sl st to form a ring.

Rnd 1 (RS): Ch 1, 12 sc in ring, join with sl st in first sc, turn. (12 sc)

Rnd 2 (WS): Ch 1, 2 sc in each st around, join with sl st in first sc, turn. (24 sc)

Rnd 3 (RS): Ch 3 (counts as dc), 2 dc in next st, *dc in next st, 2 dc in next st; repeat from * around, join with sl st in top of ch-3.
"""
SHELLS = """Ch 26.

Row 1 (RS): Sc in 2nd ch from hook, *skip next 2 ch, 5 dc in next ch, skip next 2 ch, sc in next ch; repeat from * across. (4 shells)

Row 2: Ch 3 (counts as dc), turn, 2 dc in first sc, *sc in 3rd dc of next shell, 5 dc in next sc; repeat from * 2 more times, sc in 3rd dc
of last shell, 3 dc in last sc.

Row 3: Ch 1, turn, sc in first dc, *5 dc in next sc, sc in 3rd dc of next shell; repeat from * 2 more times, 5 dc in next sc, sc in top of
turning ch.

Rows 4-21: Repeat Rows 2 and 3 nine times.
"""
SHORT_ROWS = """Ch 21.

Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (20 sc)

Row 2: Ch 1, turn, sc in first 15 sts, leave remaining sts unworked. (15)

Row 3: Ch 1, turn, sc in each st across. (15)

Row 4: Ch 1, turn, sc in next 15 sts, sc in next 5 unworked sts of Row 1. (20)
"""
NECK = """Ch 14.

Row 1 (RS): Dc in 4th ch from hook (skipped 3 ch count as dc) and in each ch across. (12 dc)

Row 2: Ch 3 (counts as dc), turn, dc in next 3 sts, leave remaining sts unworked. (4 dc)

Fasten off.

With WS facing, skip next 4 unworked sts of Row 1, join yarn in next st.

Row 2: Ch 3 (counts as dc), dc in each st across. (4 dc)
"""
MAT = """Ch 16.

Row 1 (RS): Hdc in 3rd ch from hook (skipped 2 ch count as hdc) and in each ch across. (15 hdc)

Rows 2-8: Ch 2 (counts as hdc), turn, hdc in each st across. (15 hdc)

{} 1: Ch 1, turn, 3 sc in first st, sc in next 13 sts, 3 sc in last st, 12 sc evenly along side edge, 3 sc in first ch of foundation, sc in
next 13 ch, 3 sc in last ch, 12 sc evenly along side edge, join with sl st in first sc.

{} 2: Ch 1, sc in same st, *ch 3, skip next st, sc in next st; repeat from * around, join with sl st in first sc. Fasten off.
"""
IN_ONE = MAT.replace("{} 1", "Rnd 9").replace("{} 2", "Rnd 10")
EVENLY = IN_ONE.replace(
    "3 sc in first ch of foundation, sc in\nnext 13 ch, 3 sc in last ch", "3 sc in corner, 13 sc evenly along lower edge, 3 sc in corner"
)
BY_ITSELF = MAT.replace("{}", "Rnd")
STRIPED = """---
yarns:
  A: {name: slate}
  B: {name: sand}
---
With A, make a magic ring.

Rnd 1 (RS): With A, ch 3 (counts as dc), 11 dc in ring, join with sl st in top of ch-3. (12 dc)

Rnd 2: Ch 3 (counts as dc), dc in same st, 2 dc in each st around, join with sl st in top of ch-3. (24 dc)

Rnd 3: With B, ch 3 (counts as dc), 2 dc in next st, *dc in next st, 2 dc in next st; repeat from * around, join with sl st in top of ch-3.
"""


def drawn(text: str, *, short: bool = True) -> Chart:
    return chart(work(read(text)), short=short)


@pytest.mark.parametrize("text", [PETALS, TRIANGLE, TURNED, SHELLS, SHORT_ROWS, NECK, STRIPED, IN_ONE])
def test_no_word_and_no_sign_stands_on_a_symbol_or_on_another(text: str) -> None:
    assert [each.words for each in covered(drawn(text))] == []


def test_words_that_stand_on_a_symbol_are_found() -> None:
    made = drawn(STRIPED)
    label = next(each for each in made.labels if each.what == "row")
    made.labels[made.labels.index(label)] = label._replace(x=made.marks[0].x, y=made.marks[0].y)
    assert covered(made)


def test_the_bars_of_a_cable_lie_level_and_its_slashes_keep_clear() -> None:
    made = drawn(CABLE)
    crossed = [mark for mark in made.marks if mark.kind == "FPtr"]
    assert len(crossed) == 4 and overlaps(made) == []
    for mark in crossed:
        assert abs(mark.angle_deg) > 20
        bar = max(made.body(mark), key=lambda line: -min(line[1], line[3]))
        assert abs(bar[1] - bar[3]) < 0.1 and abs(bar[0] - bar[2]) > 1.8


def test_a_round_worked_behind_petals_is_drawn_outside_them() -> None:
    made = drawn(PETALS)
    assert [each for each in overlaps(made) if not each.deep] == []

    def far(row: int, kind: str) -> list[float]:
        return [math.hypot(*made.ties[i].top) for i, mark in enumerate(made.marks) if mark.row == row and mark.kind == kind]

    assert min(far(3, "BPsc")) > max(far(2, "dc"))


def test_a_motif_keeps_its_corners_where_its_edging_skips_them() -> None:
    made = drawn(TRIANGLE)
    assert overlaps(made) == []
    tops = [made.ties[i].top for i, mark in enumerate(made.marks) if mark.row == 3 and mark.kind == "sc"]
    lowest = max(y for _, y in tops)
    assert sum(abs(y - lowest) < 0.8 for _, y in tops) >= 3  # one side lies flat at the foot of the picture


def test_a_break_passes_between_shells_and_through_none() -> None:
    made = drawn(SHELLS)
    level = next(float(re.split("[ q]", stroke.d)[1]) for stroke in made.strokes if stroke.what == "break" and " 0 1.5" not in stroke.d)
    for mark in made.marks:
        _, top, _, bottom = box_of_ink(made.body(mark))
        assert bottom < level - 0.5 or top > level + 0.5


def test_the_numbers_of_short_rows_stand_outside_the_piece() -> None:
    made = drawn(SHORT_ROWS)
    right = max(box_of_ink(made.body(mark))[2] for mark in made.marks)
    assert all(label.x > right for label in made.labels if label.words == "3")


def test_yarn_joined_again_is_drawn_in_the_same_ink() -> None:
    made = drawn(NECK)
    assert {mark.yarn for mark in made.marks} == {0}


@pytest.mark.parametrize("text", [IN_ONE, EVENLY, BY_ITSELF])
def test_a_border_goes_round_all_four_edges(text: str) -> None:
    fabric = work(read(text))
    made = chart(fabric, len(fabric.parts) - 1)
    assert overlaps(made) == [] and covered(made) == []
    inside = [mark for mark in (*made.marks, *made.ghosts) if getattr(mark, "row", -1) < 0 or made.row_labels[mark.row].startswith("Row")]
    xs, ys = [mark.x for mark in inside], [mark.y for mark in inside]
    tops = [made.ties[i].top for i, mark in enumerate(made.marks) if made.row_labels[mark.row] in ("Rnd 1", "Rnd 9") and mark.kind == "sc"]
    beyond = [min(xs) - 1.0, max(xs) + 1.0, min(ys) - 1.0, max(ys) + 1.0]
    counts = [
        sum(x < beyond[0] for x, _ in tops),
        sum(x > beyond[1] for x, _ in tops),
        sum(y < beyond[2] for _, y in tops),
        sum(y > beyond[3] for _, y in tops),
    ]
    assert len(tops) == 62 and all(count >= 12 for count in counts)


def test_a_piece_inside_its_border_counts_nowhere() -> None:
    fabric = work(read(BY_ITSELF))
    made = chart(fabric, 1)
    assert "which this goes round" in " ".join(made.others) and count_back(fabric, [svg(made)]).differences == 0
    assert len(made.ghosts) >= len(fabric.parts[0].rows[1].stitches)


def test_a_row_that_ends_in_the_turning_chain_closes_no_round() -> None:
    fabric = work(
        read(
            "Ch 4, join with sl st to form a ring.\n\nRow 1 (RS): Ch 4 (counts as dc and ch 1), 3 dc in ring, ch 1, dc in ring.\n\n"
            "Row 2: Ch 4 (counts as dc and ch 1), turn, 3 dc in first ch-1 sp, ch 1, 3 dc in last ch-1 sp, ch 1, "
            "dc in 3rd ch of turning ch-4.\n"
        )
    )
    assert {row.made_in for row in fabric.parts[0].rows[1:]} == {"rows"}


def test_the_first_row_says_which_side_it_shows_and_so_does_one_that_is_not_turned() -> None:
    made = drawn(SHORT_ROWS)
    assert [label.words for label in made.labels if label.what == "side"] == ["RS"]
    wrong = drawn(SHORT_ROWS.replace("Row 1 (RS)", "Row 1 (WS)"))
    assert [label.words for label in wrong.labels if label.what == "side"] == ["WS"]


def test_the_key_of_a_chart_on_pages_stands_whole_on_one_of_them() -> None:
    made = drawn(SHELLS, short=False)
    pages = paged(made, 110, 90)
    entries = sum(label.what == "key" for label in made.labels)
    on = [page.count('class="key"') - page.count('<g class="key"') for page in pages]
    assert len(pages) > 2 and sorted(on)[-1] == entries and sum(on) == entries
    assert all('clip-path="url(#page)"' in page for page in pages)


def test_the_arrow_round_a_motif_stands_clear_of_the_sign_that_the_yarn_is_cut() -> None:
    made = chart(work(read((EXAMPLES / "charts" / "causeway-cloth.md").read_text(encoding="utf-8"))), 1)
    (sign,) = (stroke.box for stroke in made.strokes if stroke.what == "fasten-off")
    (arrow,) = (stroke.d for stroke in made.strokes if stroke.what == "arrow")
    points = [(float(x), float(y)) for x, y in re.findall(r"[ML](-?[0-9.]+) (-?[0-9.]+)", arrow)]
    assert sign is not None and len(points) == 4, "its tail, and its head: left, tip and right"
    assert all(y > sign[3] for _, y in points)


def test_the_waves_of_a_cut_end_above_the_words_that_tell_it() -> None:
    made = chart(work(read((EXAMPLES / "swell-blanket.md").read_text(encoding="utf-8"))))
    words = next(label for label in made.labels if label.words == "3 repeats of 12 sts")
    waves = [stroke.d for stroke in made.strokes if stroke.what == "break" and abs(float(stroke.d[1:].split()[0]) - words.x) < 1]
    assert len(waves) == 2
    for d in waves:
        begin, *steps = (part.split() for part in d[1:].split("q"))
        assert float(begin[1]) + sum(float(step[3]) for step in steps) < words.y - words.size_mm
