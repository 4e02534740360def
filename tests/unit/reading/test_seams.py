"""Sentences that tell how pieces are put together."""

from __future__ import annotations

import pytest

from hookwright.pattern import Seam, Span
from hookwright.reading import read
from hookwright.reading.seams import joins_pieces, seams_of

PARTS = ("Back", "Front", "Sleeve", "Square", "Bottom", "Body", "Handle", "Panel")


def told(sentence: str) -> Seam:
    (seam,) = seams_of([(sentence, Span(0, len(sentence)))], PARTS)
    return seam


@pytest.mark.parametrize(
    ("sentence", "rows", "across", "how"),
    [
        ("Join 12 squares in 4 rows of 3.", 4, 3, "sewn"),
        ("Join motifs with sc in 3 rows of 4.", 3, 4, "sc"),
        ("Sew squares together, 5 across and 7 down.", 7, 5, "sewn"),
        ("Arrange the squares in a 4 x 5 grid and sew them together.", 5, 4, "sewn"),
        ("Lay the twenty squares out in five rows of four and mattress stitch together.", 5, 4, "mattress stitch"),
        ("Sew 20 squares into strips of 4, then sew the 5 strips together.", 5, 4, "sewn"),
        ("Make 5 rows of 7 motifs, joining them as you go.", 5, 7, "sewn"),
        ("Whipstitch the 18 squares together in 3 rows.", 3, 6, "whipstitch"),
    ],
)
def test_layout_of_motifs(sentence: str, rows: int, across: int, how: str) -> None:
    seam = told(sentence)
    assert (seam.kind, seam.rows, seam.across, seam.how) == ("motifs", rows, across, how)


@pytest.mark.parametrize(
    ("sentence", "kind", "parts", "edges"),
    [
        ("Whipstitch Back to Front along shoulders.", "edges", ("Back", "Front"), ("shoulders",)),
        ("Sew side seams.", "edges", (), ("sides",)),
        ("With right sides together, sew the Back and Front along three sides.", "edges", ("Back", "Front"), ("three sides",)),
        ("Sew bottom to body, easing the edge in.", "base", ("Bottom", "Body"), ()),
        ("Fold in half and seam sides.", "fold", (), ("sides",)),
        ("Fold the panel in half lengthwise and whipstitch the long edges together.", "fold", ("Panel",), ("long edges", "lengthwise")),
        ("Sew the short ends together.", "tube", (), ("ends",)),
        ("Sew first row to last row to form a tube.", "tube", (), ("ends",)),
        ("Sew the handles inside the top edge.", "attached", ("Handle",), ("top",)),
        ("Sew in sleeves.", "attached", ("Sleeve",), ()),
        ("Sew two cords to the rim behind, a hand's breadth apart.", "told", (), ()),
    ],
)
def test_kind_parts_and_edges(sentence: str, kind: str, parts: tuple[str, ...], edges: tuple[str, ...]) -> None:
    seam = told(sentence)
    assert (seam.kind, seam.parts, seam.edges) == (kind, parts, edges)


@pytest.mark.parametrize(
    "sentence", ["Join with sl st in first sc.", "Join yarn in any corner.", "Leave a long tail for sewing.", "3 sc in seam."]
)
def test_not_every_join_is_a_seam(sentence: str) -> None:
    assert seams_of([(sentence, Span(0, len(sentence)))], PARTS) == ()


BLANKET = """US terms
Gauge: 14 dc and 7 rows = 10 cm

## Square (make 12)
Rnd 1: 6 sc in magic ring. (6 sc)
Rnd 2: 2 sc in each st around. (12 sc)

## Joining
Join 12 squares in 4 rows of 3.

## Border
Rnd 1: Join yarn in any corner, ch 1, sc evenly around, working 3 sc in each corner, join with sl st in first sc. (190 sc)
Rnd 2: Ch 1, sc in each st around, 3 sc in each corner st, join with sl st in first sc. (198 sc)
"""


def test_spans_slice_the_sentence_and_no_row_is_made_of_it() -> None:
    pattern = read(BLANKET)
    (seam,) = pattern.seams
    assert seam.span.of(pattern.source) == "Join 12 squares in 4 rows of 3"
    assert [part.name for part in pattern.parts] == ["Square", "Border"]
    assert not [trouble for trouble in pattern.troubles if trouble.kind == "unread"]


def test_finishing_of_the_front_matter_is_read() -> None:
    front = "---\nfinishing: Fold in half and sew the sides.\n---\n"
    pattern = read(front + "## Panel\nCh 5.\nRow 1: Sc in 2nd ch from hook and in each ch across. (4 sc)\n")
    assert [(seam.kind, seam.edges) for seam in pattern.seams] == [("fold", ("sides",))]


def test_join_with_a_slip_stitch_stays_an_instruction() -> None:
    assert joins_pieces("Join the squares with sc.") and not joins_pieces("Join with sl st in first sc, ch 1.")
