"""A numbered row whose words were all set aside is not understood; one that truly asks for nothing is left alone."""

from typing import Any

import pytest

from hookwright.reading import read
from hookwright.reading import rows as row_reading
from hookwright.working import work

PIECE = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n{}\nRow 3: Ch 1, sc in each of next 15 sts. (15 sc)\n"


def rows(line: str) -> list[Any]:
    return [row for part in work(read(PIECE.format(line))).parts for row in part.rows if not row.foundation]


@pytest.mark.parametrize(
    "line", ["Row 2: Blorp the fronds, turn.", "Row 2: Ch 3, froble across the gusset, turn.", "Row 2: Work in the usual way."]
)
def test_what_nobody_can_work_is_said_to_be_unread(line: str) -> None:
    _, second, third = rows(line)
    assert (second.read, second.worked) == ("no", "assumed")
    assert (third.counted.total, third.state) == (15, "agrees")  # the row on it tells how wide it was


@pytest.mark.parametrize("line", ["Row 2: Turn.", "Row 2: Fasten off Blue, join Red.", "Row 2: Stuff firmly."])
def test_a_row_that_asks_for_no_stitch_is_read(line: str) -> None:
    assert rows(line)[1].read == "whole"


def test_a_phrase_that_fails_takes_its_row_only(monkeypatch: pytest.MonkeyPatch) -> None:
    steps = row_reading.read_steps

    def fails(cursor: Any, end: int) -> None:
        if any(token.text == "gusset" for token in cursor.t):
            raise TypeError("a phrase compared a number with a letter")
        steps(cursor, end)

    monkeypatch.setattr(row_reading, "CAUGHT", (Exception,))
    monkeypatch.setattr(row_reading, "read_steps", fails)
    first, second, third = rows("Row 2: Ch 1, sc in each sc to the gusset, turn.")
    assert (first.read, second.read, third.state) == ("whole", "no", "agrees")


def test_all_rows_to_a_number(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(row_reading, "CAUGHT", row_reading.LOOKED_TOO_FAR)
    assert next(row.read for row in rows("Row 2: Repeat all to 2 rows.")) == "whole"


def test_a_sentence_behind_the_close_is_a_row_of_its_own() -> None:
    first, second, apart, third = rows("Row 2: Ch 1, sc in each sc across, turn. Blorp 3 sts over the gusset by hand.")
    assert (second.read, second.worked, apart.read, third.label) == ("whole", "yes", "no", "Row 3")
    assert first.counted.total == second.counted.total == 20


def test_a_count_behind_it_keeps_the_row_together() -> None:
    assert rows("Row 2: Ch 1, sc in each sc across, turn. Blorp 3 sts over the gusset by hand. (20 sc)")[1].read == "partly"
