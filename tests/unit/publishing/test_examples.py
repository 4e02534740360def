"""The example patterns are right: every row read and worked whole, nothing to look at, and they can be published."""

from __future__ import annotations

from pathlib import Path

import pytest

from hookwright.demo import DRAFT, PIECES, piece
from hookwright.proofing import proof
from hookwright.publishing import MANIFEST, publish
from hookwright.reading import read
from hookwright.working import work

EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*.md"))

LAST_ROWS = {
    "bollard-seat-pad": [("Rnd 9", 108), ("Rnd 10", 108)],
    "dock-square": [("Rnd 3", 36), ("Rnd 4", 56)],
    "ebbline-wrap": [("Row 111", 113), ("Row 113", 29)],
    "fogbell-hat": [("Rnd 8", 64), ("Rnd 24", 64)],
    "hawser-panel": [("Row 5", 32), ("Row 42", 32)],
    "oilskin-mitten": [("Rnd 14", 19), ("Rnd 26", 24)],
    "pilchard-toy": [("Row 16", 12), ("Row 3", 10)],
    "samphire-cloth-uk": [("Row 30", 17), ("Row 31", 32)],
    "swell-blanket": [("Row 57", 97), ("Row 58", 97)],
}
"""Counted by hand, in the smallest size."""


def test_every_example_is_counted_here() -> None:
    assert [path.stem for path in EXAMPLES] == sorted(LAST_ROWS)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_proofs_without_a_finding(path: Path) -> None:
    pattern = read(path.read_text(encoding="utf-8"))
    fabrics = [work(pattern, size=size) for size in range(pattern.sizes)]
    loud = [finding for finding in proof(pattern, fabrics) if finding.severity != "note"]
    assert [(finding.row, finding.message) for finding in loud] == []
    rows = [row for fabric in fabrics for part in fabric.parts for row in part.rows]
    assert {(row.read, row.worked) for row in rows} == {("whole", "yes")}
    assert {row.state for row in rows} <= {"agrees", "unstated"}


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_counts_are_those_made_by_hand(path: Path) -> None:
    fabric = work(read(path.read_text(encoding="utf-8")))
    found = {(row.label, row.counted.total) for part in fabric.parts for row in part.rows}
    assert set(LAST_ROWS[path.stem]) <= found


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_can_be_published(path: Path) -> None:
    pattern = read(path.read_text(encoding="utf-8"))
    made = publish(pattern, [work(pattern, size=size) for size in range(pattern.sizes)])
    assert MANIFEST in made.files and len(made.files) >= 8


@pytest.mark.parametrize("name", PIECES)
def test_the_demo_pieces_are_among_the_examples(name: str) -> None:
    assert piece(name) == (Path(__file__).parents[3] / "examples" / f"{name}.md").read_text(encoding="utf-8")


def test_the_draft_has_its_two_slips_and_no_more() -> None:
    pattern = read(piece(DRAFT))
    errors = [finding for finding in proof(pattern, [work(pattern)]) if finding.severity != "note"]
    assert [(finding.rule, finding.row) for finding in errors] == [("repeat-does-not-fit", "Rnd 5"), ("count-differs", "Rnd 7")]
