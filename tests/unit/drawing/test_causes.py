"""Causes of overlap and of crooked charts, each with an invented piece that shows it."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from hookwright.drawing.arcs import along
from hookwright.drawing.chart import chart
from hookwright.drawing.counting import count_back
from hookwright.drawing.export import svg
from hookwright.drawing.marks import Chart, Mark
from hookwright.drawing.overlaps import overlaps
from hookwright.drawing.squares import squares_chart
from hookwright.reading import read
from hookwright.working import work
from hookwright.working.fabric import Fabric

RING = """Ch 20, join with sl st to form a ring.

Rnd 1: Ch 1, *2 sc in next ch, sc in next ch; repeat from * around, sl st in first sc. (30 sc)

"""
TUBE = """Ch 30, join with sl st to form a ring.

Rnds 1-6: Ch 1, sc in each st around, sl st in first sc. (30 sc)
"""
MESHES = """Ch 20.

Row 1: Dc in eighth ch from hook, *ch 2, skip 2 ch, dc in next ch; repeat from * across. (5 meshes)
"""
TEXTS = {
    "long loops": """Ch 6, join with sl st to form a ring.

Rnd 1: Ch 1, 12 sc in ring, sl st in first sc to join. (12 sc)

Rnd 2: Ch 1, (sc, ch 18, sc) in first sc, ch 4, skip 1 sc, *(sc, ch 18, sc) in next sc, ch 4, skip 1 sc; repeat from * 4 more times, sl st in first sc.
""",  # noqa: E501
    "clusters along a loop": """Ch 12, join with sl st to form a ring.

Rnd 1: Ch 1, 24 sc in ring, sl st in first sc. (24 sc)

Rnd 2: Ch 1, sc in first sc, *ch 15, skip 5 sc, sc in next sc; repeat from * 2 more times, ch 15, skip 5 sc, sl st in first sc. (4 ch-15 sps)

Rnd 3: *(3-dc cluster, ch 4) 7 times in next ch-15 sp, 3-dc cluster in same sp, sl st in next sc; repeat from * around.
""",  # noqa: E501
    "a disc with a hole": RING + "Rnd 2: Ch 1, *sc in next 4 sc, 2 sc in next sc; repeat from * around, sl st in first sc. (36 sc)\n",
    "increases in the back loop": """Ch 2.

Rnd 1: 8 sc in second ch from hook, sl st in first sc. (8 sc)

Rnd 2: Ch 1, sc in back loop of first sc, *3 sc in back loop of next sc, sc in back loop of next sc; repeat from * 2 more times, 3 sc in back loop of last sc, sl st in first sc. (16 sc)

Rnd 3: Ch 1, sc in back loop of each of first 2 sc, *3 sc in back loop of next sc, sc in back loop of each of next 3 sc; repeat from * 2 more times, 3 sc in back loop of next sc, sc in back loop of last sc, sl st in first sc. (24 sc)
""",  # noqa: E501
    "pairs": """Ch 16.

Row 1: (Sc, dc) in second ch from hook, *skip 1 ch, (sc, dc) in next ch; repeat from * to last 2 ch, skip 1 ch, sc in last ch. (15 sts)

Row 2: Ch 1, turn, (sc, dc) in first sc, *skip 1 dc, (sc, dc) in next sc; repeat from * to last 2 sts, skip 1 dc, sc in last sc. (15 sts)
""",
    "a fan": """Ch 26.

Row 1: Sc in second ch from hook, *ch 5, skip 3 ch, sc in next ch; repeat from * across. (6 ch-5 sps)

Row 2: Ch 5 (counts as dc, ch 2), turn, sc in first ch-5 sp, *9 dc in next ch-5 sp, sc in next ch-5 sp; repeat from * 1 more time, ch 5, sc in next ch-5 sp, ch 2, dc in last sc.
""",  # noqa: E501
    "mosaic": """With A, ch 16.

Row 1 (RS): Sc in second ch from hook and in each ch across. (15 sc)

Row 2: Ch 1, turn, sc in each sc across. (15 sc)

Row 3: With B, ch 1, turn, sc in first 3 sc, *ch 1, skip 1 sc, sc in next 3 sc; repeat from * across. (12 sc)

Row 4: Ch 1, turn, sc in first 3 sc, *ch 1, skip ch-1 sp, sc in next 3 sc; repeat from * across. (12 sc)

Row 5: With A, ch 1, turn, sc in first 3 sc, *dc in next skipped sc 3 rows below, sc in next 3 sc; repeat from * across. (15 sts)
""",
}


@pytest.fixture(scope="module")
def fabrics() -> dict[str, Fabric]:
    return {name: work(read(text)) for name, text in TEXTS.items()}


@pytest.mark.parametrize("name", TEXTS)
def test_nothing_overlaps_and_all_is_there(fabrics: dict[str, Fabric], name: str) -> None:
    made = chart(fabrics[name])
    assert [str(each) for each in overlaps(made)] == []
    assert count_back(fabrics[name], [svg(made)]).differences == 0


def test_a_long_loop_hangs_as_a_drop() -> None:
    ovals = along((0.0, 0.0), (2.0, 0.0), 18, (0.0, 1.0))
    low = [oval for oval in ovals if oval.y < 6]
    assert max(abs(oval.x - 1.0) for oval in low) < 1.0 + 6 * math.tan(math.radians(30)), "narrow at its foot"
    assert abs(ovals[0].x + ovals[-1].x - 2.0) < 1e-6 and abs(ovals[0].y - ovals[-1].y) < 1e-6, "symmetrical"
    steps = [math.dist((a.x, a.y), (b.x, b.y)) for a, b in pairwise(ovals)]
    assert max(steps) - min(steps) < 0.25


def test_a_ring_that_opens_is_drawn_in_the_round(fabrics: dict[str, Fabric]) -> None:
    assert chart(fabrics["a disc with a hole"]).form == "round"
    assert chart(work(read(TUBE))).form == "rows"


def test_three_in_the_corner_make_a_square(fabrics: dict[str, Fabric]) -> None:
    made = chart(fabrics["increases in the back loop"])
    last = [mark for mark in made.marks if mark.row == 3 and mark.kind == "sc"]
    tops = [made.ties[made.marks.index(mark)].top for mark in last]
    sides = (max(x for x, _ in tops), max(y for _, y in tops))
    assert abs(sides[0] - sides[1]) < 0.5
    assert max(math.hypot(x, y) for x, y in tops) > 1.25 * min(math.hypot(x, y) for x, y in tops)


def in_row(made: Chart, row: int, kind: str) -> list[Mark]:
    return [mark for mark in made.marks if mark.row == row and mark.kind == kind]


def test_stitches_of_a_fan_are_as_long_as_each_other(fabrics: dict[str, Fabric]) -> None:
    made = chart(fabrics["a fan"])
    fan = in_row(made, 2, "dc")[1:10]
    lengths = [int(mark.glyph.partition("--")[2].rstrip("xt")) for mark in fan]
    assert len(fan) == 9 and max(lengths) - min(lengths) <= 14


def test_first_mesh_is_as_wide_as_the_others() -> None:
    made = chart(
        work(read("Ch 20.\n\nRow 1: Dc in eighth ch from hook, *ch 2, skip 2 ch, dc in next ch; repeat from * across. (5 meshes)\n"))
    )
    posts = sorted({round(mark.x, 1) for mark in made.marks if mark.row == 1 and (mark.kind == "dc" or abs(mark.angle_deg) == 90)})
    widths = [round(b - a, 1) for a, b in pairwise(posts)]
    assert len(widths) == 5 and max(widths) - min(widths) < 0.3


def test_a_mosaic_with_chains_is_a_chart_of_squares(fabrics: dict[str, Fabric]) -> None:
    made = squares_chart(fabrics["mosaic"], 0)
    assert made is not None
    assert count_back(fabrics["mosaic"], [svg(made)], made).differences == 0
    seen = [mark for mark in made.marks if mark.row == 3]
    assert len(seen) == 12, "what the tall stitches cover belongs to them"


def test_numbers_keep_to_their_round() -> None:
    rounds = "".join(f"Rnd {k}: Ch 1, sc in each sc around, sl st in first sc to join. (60 sc)\n\n" for k in range(6, 13))
    grown = "".join(
        f"Rnd {k}: Ch 1, *sc in next {k - 2} sc, 2 sc in next sc; repeat from * around, sl st in first sc. ({12 * k} sc)\n\n"
        for k in range(2, 6)
    )
    made = chart(work(read("Rnd 1: 12 sc in magic ring, sl st in first sc. (12 sc)\n\n" + grown + rounds)))
    numbers = {int(label.words): math.hypot(label.x, label.y) for label in made.labels if label.what == "row" and label.words.isdigit()}
    far = [numbers[k] for k in sorted(numbers)]
    assert len(far) == 12 and far == sorted(far)
