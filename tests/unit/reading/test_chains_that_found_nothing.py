"""Chains that found no piece, or that nobody can count: a gauge's, one told by its length, one turned at a shell on the edge."""

from __future__ import annotations

import pytest

from hookwright.reading import read
from hookwright.working import work

MAT = "Mat\n\nUS terms.\n{}\n\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"


@pytest.mark.parametrize(
    "gauge",
    [
        "Gauge: ch 16 and 10 rows = 4 inches.",
        "GAUGE\nCh 16 = 4 inches; 10 rows sc = 4 inches",
        "Scale: Ch 8 and 4 rows = 1 inch.",
        "To check gauge, ch 16.",
        "For gauge swatch, ch 16.",
        "Tension - ch 12 measures 3 inches; 9 rows measure 3 inches.",
    ],
)
def test_a_gauge_founds_no_piece(gauge: str) -> None:
    rows = work(read(MAT.format(gauge)), size=0).parts[0].rows
    assert [(row.counted.by_kind, row.read) for row in rows] == [({"ch": 21}, "whole"), ({"sc": 20}, "whole")]


@pytest.mark.parametrize("start", ["With a hook that gives gauge, ch 21.", "Using hook size to obtain gauge, ch 21."])
def test_a_hook_for_the_gauge_is_no_gauge(start: str) -> None:
    rows = work(read(MAT.format("").replace("Ch 21.", start)), size=0).parts[0].rows
    assert rows[0].counted.by_kind == {"ch": 21}


@pytest.mark.parametrize("start", ["Make a chain 40 inches long.\nRow 1: Sc in each ch.", "Ch 40 inches, sc in each ch."])
def test_a_chain_told_by_length_is_taken_on_trust(start: str) -> None:
    rows = work(read(f"Belt\n\nUS terms.\n\n{start}\nRow 2: Ch 1, turn, sc in each sc.\n"), size=0).parts[0].rows
    assert [row.worked for row in rows] == ["assumed", "assumed"]


def test_a_chain_turned_at_a_shell_on_the_edge_stands_for_no_stitch() -> None:
    text = """Lace

US terms.

Shell: (3 dc, ch 2, 3 dc) in same place.

Ch 9.
Row 1: Dc in 4th ch from hook, ch 2, skip 4 ch, shell in last ch, ch 3, turn.
Row 2: Shell in shell, ch 2, dc in next dc, dc in top of ch, ch 3, turn.
Row 3: Dc in next dc, ch 2, shell in shell.
"""
    rows = work(read(text), size=0).parts[0].rows
    assert [(row.counted.by_kind["dc"], row.worked) for row in rows[1:]] == [(8, "yes")] * 3


@pytest.mark.parametrize("count", ["(18 sc, 2 x 6 ch)", "[18 sc and 2 x 6-ch sps]", "= 18 sc, 2 × 6ch", "(2 x 6 ch, 18 sc)"])
def test_loops_counted_as_so_many_of_so_many_chains(count: str) -> None:
    text = f"Mat\n\nUS terms.\n\nCh 4, join to form ring.\nRnd 1: Ch 1, (9 sc, ch 6) twice in ring, join. {count}\n"
    row = read(text).parts[0].rows[-1]
    assert {(one.number.values[0], one.kind) for one in row.stated} == {(18, "sc"), (2, "ch-6 sp")}
    assert work(read(text), size=0).parts[0].rows[-1].counted.total == 18
