"""Yarn told between rows and behind a piece's name; a word nobody knows in a stitch's stead."""

from __future__ import annotations

import pytest

from hookwright.pattern import Colour, Unread
from hookwright.reading import read


@pytest.mark.parametrize(
    "line", ["Change to cream.", "Change to cream", "\nNow use cream.\n", "With cream", "Switch to cream:", "In cream"]
)
def test_a_line_that_only_changes_the_yarn_heads_no_piece(line: str) -> None:
    parts = read(f"# Cup\n\nRnd 1: 8 sc in magic ring (8)\nRnd 2: sc around (8)\n{line}\nRnd 3: 2 sc in each st (16)\n").parts
    assert [part.name for part in parts] == ["Cup"]
    assert [row.label for row in parts[0].rows] == ["Rnd 1", "Rnd 2", "Rnd 3"]
    yarns = [step.yarn for row in parts[0].rows for step in row.steps if isinstance(step, Colour)]
    assert yarns == ["cream"]


@pytest.mark.parametrize("heading", ["Head (start with grey)", "## Head (grey)", "Head (make 2, in grey):"])
def test_the_yarn_behind_a_name_begins_the_piece(heading: str) -> None:
    text = f"Toy Seal\n\n{heading}\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x6 (12)\n\nFin (grey)\nRnd 1: 4 sc in magic ring\n"
    head = read(text).parts[0]
    first = head.rows[0].steps[0]
    assert head.name == "Head"
    assert isinstance(first, Colour) and first.yarn == "grey" and first.span.of(text) == "grey"


def test_an_unknown_word_where_a_stitch_stands_is_unread_and_no_remark() -> None:
    row = read("Row 1: Ch 11, sc in 2nd ch from hook and in each ch.\nRow 2: Ch 1, wibble across, turn.\n").parts[0].rows[1]
    assert [step.span for step in row.steps if isinstance(step, Unread)]
