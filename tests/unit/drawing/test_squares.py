"""Charts of squares are drawn where the part is read as one, and for nothing else."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import charts_fabrics
from fabrics import Element, Piece, fabric

from hookwright.drawing.squares import squares_of, squares_svg
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


def test_mosaic_shows_the_colour_that_lies_on_top() -> None:
    piece = Piece(turns=False)
    piece.foundation(4)
    for r in range(4):
        row = []
        for i in range(4):
            drop = r >= 2 and i == 1
            row.append(Element("dc" if drop else "sc", ((2 if drop else 1, i if r else 3 - i, How.FRONT_LOOP if drop else How.TOP),)))
        piece.row(row, colour="AB"[r % 2])
    assert grid(fabric(piece.part())) == ["AAAA", "BBAB", "AABA", "BBBB"]


def test_corner_to_corner_grows_by_a_tile_a_row() -> None:
    piece = Piece()
    for r in range(4):
        tiles = min(r + 1, 3) if r < 3 else 2
        row = []
        for _ in range(tiles):
            row += [Element("ch", role=Role.CHAIN)] * 3 + [Element("dc", ((1, 0, How.SPACE),))] * 3
        piece.row(row)
    found = squares_of(fabric(piece.part()).parts[0])
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
