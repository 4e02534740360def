"""Counting a chart back: nothing differs in what was drawn; a deleted, doubled or swapped symbol is found and located."""

from __future__ import annotations

import re

import pytest

from hookwright.drawing.chart import chart
from hookwright.drawing.counting import NotAChart, count_back
from hookwright.drawing.export import svg
from hookwright.drawing.pages import paged
from hookwright.working.fabric import Fabric

USE = re.compile(r'<use href="#([^"]+)" transform="[^"]+" data-row="(\d+)" data-stitch="(\d+)"/>\n')


def of(drawing: str, row: int, stitch: int) -> re.Match[str]:
    return next(found for found in USE.finditer(drawing) if (int(found[2]), int(found[3])) == (row, stitch))


def without(drawing: str, found: re.Match[str], instead: str = "") -> str:
    return drawing[: found.start()] + instead + drawing[found.end() :]


@pytest.mark.parametrize("handed", ["right", "left"])
def test_nothing_differs_in_a_chart_as_drawn(pieces: dict[str, Fabric], handed: str) -> None:
    for name, fabric in pieces.items():
        for sc in ("plus", "cross"):
            made = chart(fabric, handed=handed, sc=sc)  # type: ignore[arg-type]
            outcome = count_back(fabric, [svg(made)])
            assert outcome.differences == 0, (name, outcome.problems[:3])
            assert sum(sum(row.drawn.values()) for row in outcome.rows) >= len(made.marks)


def test_a_deleted_symbol_is_found(pieces: dict[str, Fabric]) -> None:
    drawing = svg(chart(pieces["shells"]))
    outcome = count_back(pieces["shells"], [without(drawing, of(drawing, 3, 7))])
    (problem,) = outcome.problems
    assert (problem.what, problem.row, problem.stitch, problem.expected) == ("missing", "Row 3", 8, "dc")
    assert [row.row for row in outcome.rows if not row.agrees] == ["Row 3"]


def test_a_doubled_symbol_is_found(pieces: dict[str, Fabric]) -> None:
    drawing = svg(chart(pieces["shells"]))
    found = of(drawing, 2, 4)
    outcome = count_back(pieces["shells"], [without(drawing, found, found[0] * 2)])
    (problem,) = outcome.problems
    assert (problem.what, problem.row, problem.stitch, problem.found) == ("doubled", "Row 2", 5, "dc")


def test_a_swapped_symbol_is_found(pieces: dict[str, Fabric]) -> None:
    drawing = svg(chart(pieces["shells"]))
    found = of(drawing, 4, 2)
    other = of(drawing, 1, 3)[1]
    outcome = count_back(pieces["shells"], [without(drawing, found, found[0].replace(f'"#{found[1]}"', f'"#{other}"'))])
    (problem,) = outcome.problems
    assert (problem.what, problem.row, problem.stitch) == ("swapped", "Row 4", 3)
    assert problem.expected != problem.found


def test_a_symbol_drawn_where_nothing_is_worked_is_found(pieces: dict[str, Fabric]) -> None:
    drawing = svg(chart(pieces["rectangle"]))
    found = of(drawing, 5, 0)
    stray = '<use href="#dc--64" transform="translate(60 -60)"/>\n'
    outcome = count_back(pieces["rectangle"], [without(drawing, found, found[0] + stray)])
    assert [problem.what for problem in outcome.problems] == ["stray"]


def test_the_data_attributes_are_not_looked_at(pieces: dict[str, Fabric]) -> None:
    drawing = re.sub(r' data-(row|stitch|label|yarn)="[^"]*"', "", svg(chart(pieces["motif"])))
    assert count_back(pieces["motif"], [drawing]).differences == 0


def test_a_chart_another_editor_has_rewritten_still_counts(pieces: dict[str, Fabric]) -> None:
    drawing = svg(chart(pieces["rectangle"]))
    moved = re.sub(
        r'transform="translate\(([-\d.]+) ([-\d.]+)\)"', lambda m: f'transform="matrix(1,0,0,1,{m[1]},{float(m[2]) - 7:.2f})"', drawing
    )
    moved = moved.replace('<g class="row"', '<g transform="translate(0,7)" class="row"')
    assert "matrix" in moved
    assert count_back(pieces["rectangle"], [moved]).differences == 0


def test_pages_count_symbols_in_their_overlap_once(pieces: dict[str, Fabric]) -> None:
    made = chart(pieces["disc12"])
    pages = paged(made, 90.0, 110.0)
    assert len(pages) > 4
    assert sum(page.count("<use ") for page in pages) > len(made.marks)
    assert count_back(pieces["disc12"], pages).differences == 0


def test_rows_told_in_words_are_counted_too(pieces: dict[str, Fabric]) -> None:
    drawing = svg(chart(pieces["bevel"]))
    assert "20 dc each" in drawing
    outcome = count_back(pieces["bevel"], [drawing.replace("20 dc each</text>", "19 dc each</text>")])
    assert [row.agrees for row in outcome.rows].count(False) == 1


@pytest.mark.parametrize(
    "text", ["", "<svg", "<html/>", '<!DOCTYPE svg [<!ENTITY a "b">]><svg xmlns="http://www.w3.org/2000/svg"/>', "not a chart"]
)
def test_what_is_no_chart_is_refused_in_words(pieces: dict[str, Fabric], text: str) -> None:
    with pytest.raises(NotAChart):
        count_back(pieces["rectangle"], [text])


def test_a_chart_of_another_part_is_refused(pieces: dict[str, Fabric]) -> None:
    drawing = svg(chart(pieces["rectangle"])).replace("part=1", "part=4")
    with pytest.raises(NotAChart, match="part 4"):
        count_back(pieces["rectangle"], [drawing])
