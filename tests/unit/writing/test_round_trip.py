"""Read, write, read: the words made from the structure alone give the very same fabric, in US and in UK terms."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Literal

import pytest

from hookwright.pattern import Pattern
from hookwright.reading import read
from hookwright.working import Fabric, work
from hookwright.writing import HOUSE, PLAIN, write

ROOT = Path(__file__).parents[3]
PIECES = sorted((ROOT / "examples").glob("*.md"))

US_UK_PAIRS = [
    ("Row 2: Ch 1, sc in each st across, turn.", "Row 2: Ch 1, dc in each st across, turn."),
    (
        "Row 2: Ch 3 (counts as dc), skip first st, dc in each st across.",
        "Row 2: Ch 3 (counts as tr), miss first st, tr in each st across.",
    ),
    (
        "Row 2: Ch 1, hdc in each of next 10 sts, skip next st, hdc in last st.",
        "Row 2: Ch 1, htr in each of next 10 sts, miss next st, htr in last st.",
    ),
    (
        "Row 2: Ch 1, sc in next st, FPdc around each of next 10 sts, sc in last st.",
        "Row 2: Ch 1, dc in next st, FPtr around each of next 10 sts, dc in last st.",
    ),
    (
        "Row 2: Ch 1, sc in next st, BPhdc around each of next 10 sts, sc in last st.",
        "Row 2: Ch 1, dc in next st, BPhtr around each of next 10 sts, dc in last st.",
    ),
    ("Row 2: Ch 2, [dc2tog over next 2 sts] 6 times.", "Row 2: Ch 2, [tr2tog over next 2 sts] 6 times."),
    ("Row 2: Ch 4 (counts as tr), tr in next 10 sts, dtr in last st.", "Row 2: Ch 4 (counts as dtr), dtr in next 10 sts, trtr in last st."),
    (
        "Row 2: Ch 1, esc in each of next 6 sts, edc in each of next 6 sts.",
        "Row 2: Ch 1, edc in each of next 6 sts, etr in each of next 6 sts.",
    ),
    (
        "Row 2: Ch 1, * sc in next st, ch 1, skip next st; rep from * across.",
        "Row 2: Ch 1, * dc in next st, ch 1, miss next st; rep from * across.",
    ),
    ("Row 2: Ch 1, sc in BLO of each st across.", "Row 2: Ch 1, dc in BLO of each st across."),
]
"""Made by hand: the same row in both terms (sc → dc, hdc → htr, dc → tr, tr → dtr, dtr → trtr; skip → miss; extended and post stitches).
Source of the names: Crochet terms by country, funcrochetdesigns.com; extended names from memory."""  # fmt: skip


def fabrics(pattern: Pattern) -> list[Fabric]:
    return [work(pattern, size=size) for size in range(pattern.sizes)]


def told(fabric: Fabric) -> list[object]:
    """Everything of a fabric that is no words: each stitch, what it stands on, what was offered and used."""
    out: list[object] = []
    for part in fabric.parts:
        for row in part.rows:
            st = row.stitches
            names = [st.name(i) for i in range(len(st))]
            feet = [list(st.feet_of(i)) for i in range(len(st))]
            colours = [st.colours[c] for c in st.colour]
            out.append((part.name, part.copies, row.number, row.side, row.begins, row.offered, row.used, names, feet, colours))
            out.append((dict(row.counted.by_kind), [(count.kind, count.number.values) for count in row.stated if not count.running]))
    return out


@pytest.mark.parametrize("terms", ["US", "UK"])
@pytest.mark.parametrize("style", [HOUSE, PLAIN], ids=["house", "plain"])
@pytest.mark.parametrize("path", PIECES, ids=lambda path: path.stem)
def test_the_words_give_the_same_fabric(path: Path, terms: Literal["US", "UK"], style: object) -> None:
    pattern = read(path.read_text(encoding="utf-8"))
    written = write(replace(pattern, source=""), terms=terms, style=style)  # type: ignore[arg-type]
    again = read(written.text)
    assert again.terms == terms
    for before, after in zip(fabrics(pattern), fabrics(again), strict=True):
        for one, other in zip(told(before), told(after), strict=True):
            assert one == other


@pytest.mark.parametrize("path", PIECES, ids=lambda path: path.stem)
def test_writing_what_was_written_changes_nothing(path: Path) -> None:
    once = write(read(path.read_text(encoding="utf-8")), terms="US").text
    assert write(read(once), terms="US").text == once


@pytest.mark.parametrize(("us", "uk"), US_UK_PAIRS)
def test_ten_rows_said_in_both_terms_are_one_fabric(us: str, uk: str) -> None:
    one = read(f"US terms.\nCh 13.\nRow 1: Sc in 2nd ch from hook, sc in each ch across, turn. (12 sc)\n{us}\n")
    other = read(f"UK terms.\nCh 13.\nRow 1: Dc in 2nd ch from hook, dc in each ch across, turn. (12 dc)\n{uk}\n")
    assert one.terms == "US" and other.terms == "UK"
    assert [told(fabric) for fabric in fabrics(one)] == [told(fabric) for fabric in fabrics(other)]
    assert write(one, terms="UK", style=PLAIN).parts[0].rows[-1].words == write(other, terms="UK", style=PLAIN).parts[0].rows[-1].words
    assert not any(row.read != "whole" for fabric in fabrics(one) for part in fabric.parts for row in part.rows)
