"""Motifs are drawn as regular as they are; what floats gives way; words stand clear."""

from __future__ import annotations

import math

import pytest

from hookwright.drawing.chart import chart
from hookwright.drawing.clear import ClearSpace, box_of
from hookwright.drawing.cloth import lines_of
from hookwright.drawing.counting import count_back
from hookwright.drawing.export import svg
from hookwright.drawing.overlaps import overlaps
from hookwright.drawing.relief import MOST_MOVE_MM, relieve
from hookwright.drawing.symmetry import NONE, find_symmetry
from hookwright.reading import read
from hookwright.working import work
from hookwright.working.fabric import Fabric


def test_the_symmetry_of_motifs_is_found(pieces: dict[str, Fabric]) -> None:
    granny = find_symmetry(lines_of(pieces["granny"].parts[0]))
    assert granny.whole == 4
    assert granny.axis and all(m != NONE for m, k in zip(granny.axis, granny.sectors, strict=True) if k)
    spiral = find_symmetry(lines_of(pieces["amigurumi"].parts[0]))
    assert spiral.whole == 6


def test_a_piece_in_rows_has_no_symmetry_of_rounds(pieces: dict[str, Fabric]) -> None:
    assert find_symmetry(lines_of(pieces["triangle"].parts[0])).whole == 1


@pytest.mark.parametrize("name", ["granny", "doily"])
def test_a_motif_turned_by_a_sector_falls_upon_itself(pieces: dict[str, Fabric], name: str) -> None:
    made = chart(pieces[name])
    sectors = find_symmetry(lines_of(pieces[name].parts[0])).whole
    assert sectors > 1
    c, s = math.cos(2 * math.pi / sectors), math.sin(2 * math.pi / sectors)
    stems = [mark for mark in made.marks if mark.kind in ("dc", "tr")]
    hits = sum(
        any(math.dist((m.x * c - m.y * s, m.x * s + m.y * c), (o.x, o.y)) < 0.6 for o in stems if o.row == m.row and o.kind == m.kind)
        for m in stems
    )
    assert hits >= 0.85 * len(stems)  # in every round one stem falls upon the chain that stands for a stitch


def test_a_chain_pushed_onto_a_stem_gives_way_and_no_further_than_its_leash(pieces: dict[str, Fabric]) -> None:
    made = chart(pieces["lace"])
    before = overlaps(made)
    i = next(k for k, mark in enumerate(made.marks) if mark.kind == "ch" and mark.row == 2)
    j = min((k for k, mark in enumerate(made.marks) if mark.kind == "sc"), key=lambda k: math.dist(made.marks[k][2:4], made.marks[i][2:4]))
    put = made.marks[i]._replace(x=made.marks[j].x + 1.4, y=made.marks[j].y - 1.6)
    made.marks[i] = put
    assert len(overlaps(made)) > len(before)
    assert relieve(made) >= 1
    assert len(overlaps(made)) == len(before)
    assert math.dist(made.marks[i][2:4], put[2:4]) <= MOST_MOVE_MM + 0.01


def test_numbers_of_rounds_touch_nothing(pieces: dict[str, Fabric]) -> None:
    for name in ("doily", "granny", "motif", "disc12"):
        made = chart(pieces[name])
        words = [label for label in made.labels if label.what == "row"]
        made.labels = []
        room = ClearSpace(made)
        assert words
        assert sum(room.strokes_in(box_of(label)) > 0 for label in words) <= len(words) // 4, name


def test_a_motif_tells_which_way_it_runs_and_how_often_it_repeats(pieces: dict[str, Fabric]) -> None:
    made = chart(pieces["doily"])
    assert sum(stroke.what == "arrow" for stroke in made.strokes) == 1
    assert any(label.words.endswith("repeats") for label in made.labels)
    left = chart(pieces["doily"], handed="left")
    assert svg(left) != svg(made)


HALF_ROUND = """Ch 4.
Row 1 (RS): 6 dc in 4th ch from hook (skipped ch-3 counts as dc), turn. (7 dc)
Row 2: Ch 3 (counts as dc), dc in same st, 2 dc in each st across, turn. (14 dc)
Row 3: Ch 3 (counts as dc), dc in same st, dc in next st, * 2 dc in next st, dc in next st; rep from * across, turn. (21 dc)
Row 4: Ch 3 (counts as dc), dc in same st, dc in next 2 sts, * 2 dc in next st, dc in next 2 sts; rep from * across, turn. (28 dc)
"""


def test_a_half_round_is_laid_on_arcs_and_opens_upwards() -> None:
    made = chart(work(read(HALF_ROUND)))
    assert made.form == "fan"
    assert overlaps(made) == []
    for row in (2, 3, 4):
        far = [math.hypot(*ties.top) for mark, ties in zip(made.marks, made.ties, strict=True) if mark.row == row and mark.kind == "dc"]
        assert max(far) - min(far) < 2.5
    assert min(ties.top[1] for ties in made.ties) < -25
    assert max(ties.top[1] for ties in made.ties) < 6
    assert len([label for label in made.labels if label.what == "row"]) == 4
    assert count_back(work(read(HALF_ROUND)), [svg(made)]).differences == 0


def test_a_shawl_with_a_spine_and_a_strip_keep_straight_rows(pieces: dict[str, Fabric]) -> None:
    for name in ("triangle", "bevel", "ripple", "shells"):
        assert chart(pieces[name]).form == "rows"


def test_lace_on_a_long_chain_is_no_fan(pieces: dict[str, Fabric]) -> None:
    for name in ("lace", "filet", "cables"):
        assert chart(pieces[name]).form == "rows"
