"""Charts of squares are drawn where the part is read as one, and for nothing else."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

import charts_fabrics
import pytest
from fabrics import Element, Piece, fabric

from hookwright.drawing.counting import count_back
from hookwright.drawing.pages import paged
from hookwright.drawing.squares import squares_chart, squares_of, squares_svg
from hookwright.reading import read
from hookwright.working import work
from hookwright.working.fabric import Fabric, How, Role


def coloured(words: list[str]) -> Fabric:
    """Single crochet rows, a letter a stitch, as the right side shows them from left to right."""
    piece = Piece()
    piece.foundation(len(words[0]))
    for r, word in enumerate(words):
        order = word[::-1] if r % 2 == 0 else word
        n = len(word)
        piece.row([Element("sc", ((1, n - 1 - i, How.TOP),), colour=letter) for i, letter in enumerate(order)])
    return fabric(piece.part())


def grid(made: Fabric) -> list[str]:
    found = squares_of(made.parts[0])
    assert found is not None
    lines = []
    for line in range(found.lines):
        row = sorted((s for s in found.squares if s.line == line), key=lambda s: s.column)
        lines.append("".join(s.yarn if len(found.yarns) > 1 else "#" if s.filled else "." for s in row))
    return lines


def test_colourwork_reads_as_it_looks_from_the_right_side() -> None:
    words = ["AABBA", "ABBBA", "AABAA"]
    assert grid(coloured(words)) == words


def test_filet_shows_filled_and_open_meshes() -> None:
    assert grid(charts_fabrics.filet(6, 5)) == ["#....#", ".#..#.", "..##..", "..##..", ".#..#."]


def mosaic_piece() -> Fabric:
    piece = Piece(turns=False)
    piece.foundation(4)
    for r in range(4):
        row = []
        for i in range(4):
            drop = r >= 2 and i == 1
            row.append(Element("dc" if drop else "sc", ((2 if drop else 1, i if r else 3 - i, How.FRONT_LOOP if drop else How.TOP),)))
        piece.row(row, colour="AB"[r % 2])
    return fabric(piece.part())


def test_mosaic_shows_the_colour_that_lies_on_top() -> None:
    assert grid(mosaic_piece()) == ["AAAA", "BBAB", "AABA", "BBBB"]


def tiles_piece() -> Fabric:
    piece = Piece()
    for r in range(4):
        tiles = min(r + 1, 3) if r < 3 else 2
        row = []
        for _ in range(tiles):
            row += [Element("ch", role=Role.CHAIN)] * 3 + [Element("dc", ((1, 0, How.SPACE),))] * 3
        piece.row(row)
    return fabric(piece.part())


def test_corner_to_corner_grows_by_a_tile_a_row() -> None:
    found = squares_of(tiles_piece().parts[0])
    assert found is not None
    assert found.kind == "corner-to-corner"
    assert len(found.squares) == 1 + 2 + 3 + 2
    assert len({(s.column, s.line) for s in found.squares}) == len(found.squares)
    assert [sum(s.row == r for s in found.squares) for r in range(4)] == [1, 2, 3, 2]


def test_other_pieces_are_not_squares(pieces: dict[str, Fabric]) -> None:
    for name in ("shells", "ripple", "cables", "granny", "rectangle", "lace"):
        assert squares_of(pieces[name].parts[0]) is None
        assert squares_svg(pieces[name], 0) is None


def test_the_drawing_counts_and_tells() -> None:
    made = coloured(["AABBA", "ABBBA"])
    drawing = squares_svg(made, 0)
    assert drawing is not None
    root = ET.fromstring(drawing)
    squares = [node for node in root.iter() if node.get("data-stitch") is not None]
    assert len(squares) == 10
    assert "In all 5 of A, 5 of B." in (root.findtext("{http://www.w3.org/2000/svg}desc") or "")
    left = squares_svg(made, 0, handed="left")
    assert left is not None
    assert left != drawing
    assert drawing == squares_svg(made, 0)


KINDS = {
    "tapestry": lambda: coloured(["AABBA", "ABBBA", "AABAA"]),
    "filet": lambda: charts_fabrics.filet(6, 5),
    "mosaic": mosaic_piece,
    "corner-to-corner": tiles_piece,
}


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("handed", ["right", "left"])
def test_squares_are_counted_back(kind: str, handed: str) -> None:
    made = KINDS[kind]()
    drawing = squares_svg(made, 0, handed=handed)
    assert drawing is not None
    counted = count_back(made, [drawing])
    assert counted.differences == 0
    assert sum(sum(row.drawn.values()) for row in counted.rows) == drawing.count("<use ")


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("harm", ["missing", "doubled", "swapped"])
def test_a_square_harmed_by_hand_is_found_and_located(kind: str, harm: str) -> None:
    made = KINDS[kind]()
    drawing = squares_svg(made, 0) or ""
    uses = re.findall(r"<use [^>]*/>", drawing)
    use = uses[5]
    glyph = re.search(r'#([^"]+)', use)[1]  # type: ignore[index]
    row = int(re.search(r'data-row="(\d+)"', use)[1])  # type: ignore[index]
    hurt = {"missing": "", "doubled": use + use, "swapped": use.replace(f"#{glyph}", "#sq-another")}[harm]
    counted = count_back(made, [drawing.replace(use, hurt, 1)])
    (problem,) = counted.problems
    assert problem.what == harm
    assert problem.row == made.parts[0].rows[row].label
    assert f"{problem.x:.2f}" in f"{float(re.search('translate[(]([0-9.]+)', use)[1]):.2f}"  # type: ignore[index]


def test_a_large_chart_of_squares_is_set_on_pages_and_counted_once() -> None:
    made = coloured(["AB" * 40] * 60)
    whole = squares_chart(made, 0)
    assert whole is not None
    pages = paged(whole, 210, 297)
    assert len(pages) > 1
    assert count_back(made, pages).differences == 0


def test_squares_have_the_colours_of_their_yarns() -> None:
    text = "---\nyarns:\n  A: {name: navy}\n  B: {name: sand}\n---\n"
    text += "With A, ch 12.\n\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. (11 sc)\n\n"
    text += "Row 2: Ch 1, turn, with A sc in next 4 sts, with B sc in next 3 sts, with A sc in next 4 sts.\n\n"
    text += "Row 3: Ch 1, turn, with A sc in next 3 sts, with B sc in next 5 sts, with A sc in next 3 sts.\n"
    drawing = squares_svg(work(read(text)), 0)
    assert drawing is not None
    grounds = re.findall(r'<g id="sq-[AB]"><rect[^>]*fill="(#[0-9a-f]{6})"', drawing)
    lights = [sum(int(ground[i : i + 2], 16) for i in (1, 3, 5)) for ground in grounds]
    assert len(lights) == 2 and lights[0] < 330 < 450 < lights[1], "navy is dark, sand is light"
