"""Layouts of pieces put together: to scale, every motif in its place, labels apart."""

from __future__ import annotations

import re
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.drawing.layout import compose_layout
from hookwright.drawing.schematic import schematics
from hookwright.measuring import Assembled, measure, put_together
from hookwright.reading import read
from hookwright.working import work


def blanket(rows: int, across: int, border: int = 224, kind: str = "square") -> str:
    square = "Ch 17.\nRow 1: Sc in 2nd ch from hook and in each ch across. (16 sc)\nRows 2-18: Ch 1, turn, sc in each st across. (16 sc)\n"
    hexagon = "Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each st around. (12 sc)\n"
    hexagon += "".join(f"Rnd {n}: [sc in next {n - 2} sts, 2 sc in next st] 6 times. ({6 * n} sc)\n" for n in range(3, 7))
    rim = "## Border\nRnd 1: Join yarn in any corner, ch 1, sc evenly around, 3 sc in each corner, join with sl st in first sc. "
    return (
        "US terms\nGauge: 16 sc and 18 rows = 10 cm\n\n"
        f"## Motif (make {rows * across})\n{square if kind == 'square' else hexagon}\n"
        f"## Joining\nJoin motifs in {rows} rows of {across}.\n\n" + (f"{rim}({border} sc)\n" if border else "")
    )


def thing(text: str) -> Assembled:
    return put_together(measure(work(read(text))))[0]


def test_a_blanket_has_a_cell_for_every_motif_and_is_drawn_once() -> None:
    drawn = schematics([measure(work(read(blanket(4, 3))))])
    assert list(drawn) == ["Motif", "Put together"]
    assert drawn["Put together"].count("<rect") == 12 + 2  # the motifs, the border's two edges
    assert drawn == schematics([measure(work(read(blanket(4, 3))))])


def test_hexagons_are_drawn_as_a_honeycomb() -> None:
    drawing, _ = compose_layout([thing(blanket(3, 4, 0, "hexagon"))])
    assert drawing.count("<polygon") == 12


@settings(max_examples=25, deadline=None)
@given(st.integers(1, 14), st.integers(1, 14), st.sampled_from([0, 60, 900]), st.sampled_from(["square", "hexagon"]))
def test_labels_never_overlap(rows: int, across: int, border: int, kind: str) -> None:
    text = blanket(rows, across, border, kind)
    found = [each for each in put_together(measure(work(read(text)))) if each.rows]
    if not found:
        assert rows * across == 1 or kind == "hexagon"
        return
    drawing, sheet = compose_layout(found[:1])
    for a, b in combinations(sheet.labels, 2):
        assert not a.box.meets(b.box), (a.lines, b.lines)
    assert not re.search(r"nan|inf\b", drawing)


@pytest.mark.parametrize("rows", [1, 60])
def test_very_many_motifs_are_drawn_as_one_field(rows: int) -> None:
    drawing, _ = compose_layout([thing(blanket(rows, 40, 0))])
    assert drawing.count("<rect") == (41 if rows == 1 else 1)
