"""Purl loops picked up in afghan stitch, and loops counted while they are. Every piece is invented."""

from __future__ import annotations

import pytest

from .told import worked_rows

PANEL = "PANEL\n\nWith afghan hook, ch 14 and work 1 complete row in afghan st (14 loops on hook).\n\n2nd Row: {}\n"


@pytest.mark.parametrize(
    ("words", "purl"),
    [
        ("Pick up a loop in each of next 4 posts (5 loops on hook), work 4 purl afghan sts, 5 afghan sts, work back.", 4),
        ("Work 3 afghan purl sts (4 loops on hook), 5 afghan sts, 5 afghan purl stitches, work back.", 8),
        ("Purl afghan st across, work back.", 13),
        ("Afghan st in next 6 posts, purl tricot stitch in next 7 posts and work back.", 7),
    ],
)
def test_purl_loops(words: str, purl: int) -> None:
    rows = worked_rows(PANEL.format(words))
    assert (rows[-1].counted.total, rows[-1].counted.by_kind["tps"]) == (14, purl)


def test_a_wrong_count_of_loops_at_the_end_is_still_seen() -> None:
    with pytest.raises(AssertionError):
        worked_rows(PANEL.format("Afghan st in each post (12 loops on hook), work back."))
