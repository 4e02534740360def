"""Finders that go through a text piece by piece: what they pass over, and what they remember, changes nothing of what is found."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from hookwright.reading import assemble, colours_told, pieces, sizes_named, sizes_told
from hookwright.reading.lining import lines_told, splitting
from hookwright.reading.pieces import MOST_SILENT, Remembered, anywhere, holds
from hookwright.reading.wording import terms

CASES = Path(__file__).parents[2] / "cases"
FINDERS = (
    assemble._tunisian, assemble._asks_main, colours_told._letters_in, sizes_named._line, sizes_named._sentence, sizes_named._smallest,
    sizes_named._labels, sizes_told._changes, sizes_told._lists, terms._evidence, terms._weak_evidence, splitting._breaks,
    splitting._shaping_breaks,
)  # fmt: skip
ASKED = (assemble._tiles_named, assemble._numbered, assemble._told_by_place, colours_told._charted, lines_told.corner_to_corner)
TOLD = (
    "SIZES: Small (Medium, Large)", "Directions for Small (Medium, Large).", "The smallest size (5-6) stops here. Small size (4) too.",
    "Size 7-8: Row 4", "Changes for medium and large are in brackets.", "Ch 20 (24, 28), 10(12)(14) sts, 3-4-5 sts, 3/4/5 sc, s (l)",
    "British terms: dc (US sc). 3 h.d.c., 2 s.c., 4 htr, half-treble = thread over once", "Yarn: A = red. With B, 5 sc; 3B, 2A (C) x 2",
    "Corner-to-corner, 12 blocks of Tunisian, keep all loops on the hook and work back", "TRICOT ST, T-square, tss, UPRIGHT BAR",
    "Sc across. Repeat last 2 rows 3 times. Fasten off. Attach yarn, work to end.", "Ch 1, then 1 more row. HEAD: Ch 4",
    "Gr\u00f6\u00dfe / \u017fize 7: Row 1", "inc, Pattern, lose 1, Work even", "Color chart, one chain, next sc, rep from hook",
)  # fmt: skip


def lines() -> list[str]:
    told = (line for path in sorted(CASES.rglob("*.md")) for line in path.read_text(encoding="utf-8").splitlines())
    return [*list(dict.fromkeys(told))[::3], *TOLD]  # every third: enough of each sort, and quick


def test_what_is_passed_over_tells_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every finder asked of lines of our own cases, with and without the words that it asks for first."""
    every = lines()
    found = [[finder._find(line) for line in every] for finder in FINDERS]
    for module in (assemble, colours_told, pieces, sizes_named, sizes_told, terms):
        monkeypatch.setattr(module, "holds", lambda piece, words: True)
    monkeypatch.setattr(sizes_told, "_before_brackets", lambda text: "1s")
    monkeypatch.setattr(splitting, "_MAY_BREAK", re.compile(""))
    for finder, before in zip(FINDERS, found, strict=True):
        assert [finder._find(line) for line in every] == before, finder._find.__name__
        assert any(map(bool, before)), f"no line tells {finder._find.__name__} anything"


def test_a_word_asked_for_is_met_in_capitals_and_beside_other_letters() -> None:
    told = {asked: [line for line in TOLD if asked(line)] for asked in ASKED}
    assert all(told.values())
    assert holds("GR\u00d6SSE", ("size",))  # letters whose capitals are told otherwise: the finder itself must look
    assert not holds("Row 1: 2 sc", ("size",))


def test_a_piece_that_tells_nothing_is_asked_once_and_told_pieces_keep_their_order() -> None:
    asked: list[str] = []

    def find(piece: str) -> tuple[str, ...]:
        asked.append(piece)
        return tuple(re.findall(r"\d", piece))

    digits = Remembered(find)
    for _ in range(3):
        assert list(digits.told(("a", "1 2", "b", "3"))) == [("1", "2"), ("3",)]
        assert not digits.any_of(("a", "b"))
    assert sorted(asked) == ["1 2", "3", "a", "b"]
    digits.forget()
    assert digits.any_of(("a", "3"))
    for k in range(MOST_SILENT + 5):
        assert not digits.any_of((chr(0x4E00 + k),))
    assert list(digits.told(("a", "7"))) == [("7",)]


def test_an_expression_met_in_no_piece_is_met_nowhere() -> None:
    met = anywhere(re.compile(r"(?i)\bblocks?\b"), "block")
    assert met("12 BLOCKS") and not met("12 sts (12 sc)\nRow 2: sc (12 sc)\n")
