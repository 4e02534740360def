"""The engraved chart: complete, standing on its feet, deterministic, readable without eyes and with either hand."""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from collections import Counter
from itertools import pairwise
from pathlib import Path

import pytest

from hookwright.drawing.chart import chart
from hookwright.drawing.counting import worked
from hookwright.drawing.export import svg
from hookwright.drawing.key import used
from hookwright.reading import read
from hookwright.working import work
from hookwright.working.fabric import Fabric, Role

NAMES = ["shells", "ripple", "filet", "lace", "cables", "granny", "doily", "motif", "amigurumi", "rectangle", "triangle"]


@pytest.mark.parametrize("name", NAMES)
def test_every_element_is_drawn_once(pieces: dict[str, Fabric], name: str) -> None:
    made = chart(pieces[name], short=False)
    drawn = Counter((mark.row, mark.stitch) for mark in made.marks)
    expected = {(row.index, e) for row in pieces[name].parts[0].rows for e in range(len(row.stitches))}
    assert set(drawn) == expected
    assert max(drawn.values()) == 1


@pytest.mark.parametrize("name", NAMES)
def test_drawn_twice_it_is_the_same_to_the_byte(pieces: dict[str, Fabric], name: str) -> None:
    assert svg(chart(pieces[name])) == svg(chart(pieces[name]))


@pytest.mark.parametrize("name", NAMES)
def test_every_plain_stitch_stands_on_what_it_is_worked_into(pieces: dict[str, Fabric], name: str) -> None:
    made = chart(pieces[name], short=False)
    where = {(mark.row, mark.stitch): ties.top for mark, ties in zip(made.marks, made.ties, strict=True)}
    checked = 0
    for mark, ties in zip(made.marks, made.ties, strict=True):
        row = pieces[name].parts[0].rows[mark.row]
        if row.stitches.role[mark.stitch] != Role.STITCH or mark.kind == "sl st":
            continue
        for back, at, how in row.stitches.feet_of(mark.stitch):
            if how.name == "TOP" and at >= 0 and row.index - back >= 0:
                drawn = next(point for place, point in ties.feet if place == (row.index - back, at))
                assert math.dist(drawn, where[row.index - back, at]) < 1.6, (mark, drawn)
                checked += 1
    assert checked or name in ("doily", "granny")


def test_rows_rise_and_right_side_rows_run_leftwards(pieces: dict[str, Fabric]) -> None:
    made = chart(pieces["rectangle"])
    by_row: dict[int, list[float]] = {}
    heights: dict[int, list[float]] = {}
    for mark in made.marks:
        by_row.setdefault(mark.row, []).append(mark.x)
        heights.setdefault(mark.row, []).append(mark.y)
    assert by_row[1] == sorted(by_row[1], reverse=True)
    assert by_row[2] == sorted(by_row[2])
    means = [sum(ys) / len(ys) for _, ys in sorted(heights.items())]
    assert means == sorted(means, reverse=True)


def test_row_numbers_stand_where_the_row_begins(pieces: dict[str, Fabric]) -> None:
    made = chart(pieces["rectangle"])
    middle = sum(mark.x for mark in made.marks) / len(made.marks)
    for label in made.labels:
        if label.what == "row":
            assert (label.x > middle) == (int(label.words) % 2 == 1)


def test_rounds_run_against_the_clock_from_the_centre(pieces: dict[str, Fabric]) -> None:
    made = chart(pieces["amigurumi"])
    for row in (2, 3):
        turns = [math.atan2(-mark.y, mark.x) for mark in made.marks if mark.row == row]
        steps = [math.remainder(b - a, 2 * math.pi) for a, b in pairwise(turns)]
        assert all(step > 0 for step in steps)
    radii = {row: sum(math.hypot(m.x, m.y) for m in made.marks if m.row == row) for row in range(3)}
    counts = Counter(mark.row for mark in made.marks)
    assert radii[0] / counts[0] < radii[1] / counts[1] < radii[2] / counts[2]


def test_the_left_handed_chart_mirrors_places_and_keeps_words_upright(pieces: dict[str, Fabric]) -> None:
    for name in ("shells", "motif", "cables"):
        right, left = chart(pieces[name]), chart(pieces[name], handed="left")
        assert [-m.x for m in right.marks] == pytest.approx([m.x for m in left.marks], abs=0.011)
        assert [m.y for m in right.marks] == pytest.approx([m.y for m in left.marks], abs=0.011)
        assert [m.kind for m in right.marks] == [m.kind for m in left.marks]
        assert all(label.angle_deg == 0 for label in left.labels)
        assert "scale(-1" not in svg(left)
        assert [label.words for label in left.labels if label.what == "row"] == [
            label.words for label in right.labels if label.what == "row"
        ]


def test_on_wrong_side_rows_front_and_back_exchange(pieces: dict[str, Fabric]) -> None:
    rows = pieces["cables"].parts[0].rows
    made = chart(pieces["cables"])
    for mark in made.marks:
        kind = rows[mark.row].stitches.name(mark.stitch)
        if kind == "BPdc":
            assert rows[mark.row].side == "WS"
            assert mark.kind == "FPdc"
    assert "FPdc" in {mark.kind for mark in made.marks}


def test_the_key_holds_exactly_the_symbols_used(pieces: dict[str, Fabric]) -> None:
    for fabric in pieces.values():
        made = chart(fabric)
        kinds = {mark.kind for mark in made.marks}
        assert {kind for kind, _ in used(made.marks)} == kinds
        assert len(made.key) >= len(kinds)


def test_each_symbol_carries_its_row_and_stitch(pieces: dict[str, Fabric]) -> None:
    made = chart(pieces["shells"])
    found = re.findall(r'<use href="#[^"]+" transform="[^"]+" data-row="(\d+)" data-stitch="(\d+)"/>', svg(made))
    assert [(int(r), int(e)) for r, e in found] == [(mark.row, mark.stitch) for mark in made.marks]


def test_the_picture_tells_itself_in_words(pieces: dict[str, Fabric]) -> None:
    root = ET.fromstring(svg(chart(pieces["shells"])))
    desc = root.find("{http://www.w3.org/2000/svg}desc")
    assert desc is not None and desc.text is not None
    assert "Row 2 (WS): ch, sc, 5 dc, sc, 5 dc" in desc.text
    assert root.get("role") == "img"


def test_long_plain_runs_are_broken_and_told(pieces: dict[str, Fabric]) -> None:
    made, whole = chart(pieces["bevel"]), chart(pieces["bevel"], short=False)
    (gap,) = made.gaps
    assert len(gap.rows) % 2 == 0
    assert any(label.words == gap.words for label in made.labels)
    assert gap.words.endswith("20 dc each")
    assert len(whole.marks) - len(made.marks) == 20 * len(gap.rows)


def test_the_numbers_of_a_chart_are_those_of_the_fabric(pieces: dict[str, Fabric]) -> None:
    for fabric in pieces.values():
        made = chart(fabric, short=False)
        drawn: dict[int, Counter[str]] = {}
        for mark in made.marks:
            drawn.setdefault(mark.row, Counter())[mark.glyph.partition("--")[0]] += 1
        for row in fabric.parts[0].rows:
            assert drawn.get(row.index, Counter()) == worked(row)


def test_motifs_with_corners_are_square(pieces: dict[str, Fabric]) -> None:
    made = chart(pieces["granny"])
    outer = [mark for mark in made.marks if mark.row == 3]
    wide = max(m.x for m in outer) - min(m.x for m in outer)
    tall = max(m.y for m in outer) - min(m.y for m in outer)
    assert wide == pytest.approx(tall, rel=0.03)
    corner = max(math.hypot(m.x, m.y) for m in outer)
    assert corner > 1.2 * wide / 2


def test_an_unknown_stitch_is_boxed_not_lost() -> None:
    import fabrics

    made = chart(fabrics.flat([[("moss", i) for i in range(4)]], chains=4))
    assert sum(mark.kind == "moss" for mark in made.marks) == 4
    assert "moss" in svg(made) or "mos" in svg(made)


def test_a_part_without_stitches_is_an_empty_chart() -> None:
    import fabrics

    made = chart(fabrics.flat([]))
    assert made.marks == []
    ET.fromstring(svg(made))


def test_repeats_that_end_at_markers_have_no_bracket() -> None:
    text = (Path(__file__).parents[2] / "cases" / "reading" / "raglan_marked.md").read_text(encoding="utf-8")
    made = chart(work(read(text)))
    assert not [label.words for label in made.labels if label.words.startswith("repeat")]
