"""Reading, working and proofing never raise and always end: texts cut at every line, and texts made to be hard."""

from __future__ import annotations

import os
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.sound import SMALL, ask_everything, read_and_proofed, spans_in, texts_of_ours

from hookwright.pattern import Pattern
from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.session import Session
from hookwright.working import Fabric, work

CORPUS = Path(os.environ.get("HOOKWRIGHT_CORPUS", "corpus-is-absent"))


def cut_at_every_line(text: str) -> Iterator[str]:
    """The text as it grows, line by line, every other line only half written."""
    lines = text.splitlines(keepends=True)
    for cut in range(len(lines)):
        yield "".join(lines[:cut]) + (lines[cut][: len(lines[cut]) // 2] if cut % 2 else "")


def grown(text: str) -> None:
    """An open document that is typed line by line is answered at every line."""
    session = Session(limits=SMALL)
    for start in cut_at_every_line(text):
        session.update(start)
        for span in spans_in((session.findings, session.read.parts)):
            assert 0 <= span.start <= span.end <= len(start)


@pytest.mark.parametrize("path", texts_of_ours()[::2], ids=lambda path: path.stem)
def test_a_text_of_ours_cut_at_every_line(path: Path) -> None:
    grown(path.read_text(encoding="utf-8"))


@pytest.mark.skipif(not CORPUS.is_dir(), reason="HOOKWRIGHT_CORPUS names no folder of patterns")
def test_every_pattern_of_the_corpus_cut_at_every_line() -> None:
    for path in sorted((CORPUS / "patterns").glob("*.txt")):
        grown(path.read_text(encoding="utf-8"))


@pytest.mark.parametrize("path", texts_of_ours()[::7], ids=lambda path: path.stem)
def test_everything_is_answered_about_a_text_of_ours(path: Path) -> None:
    ask_everything(path.read_text(encoding="utf-8"))


RING = "Rnd 1: 6 sc in magic ring. (6 sc)\n"
FIRST = "Row 1: Sc in 2nd ch from hook and in each ch across.\n"
HARD = {
    "a row of a million stitches": "Ch 1000001.\n" + FIRST + "Row 2: Ch 1, turn, sc in each st across.\n",
    "a repeat of 10^9": RING + "Rnd 2: *Sc in same st, ch 1; rep from * 1000000000 times.\n",
    "repeats in repeats of 10^9": RING + "Rnd 2: ((sc, ch 1) 1000000000 times, turn) 1000000000 times.\n",
    "10^9 rows told as a repeat": RING + "Rnd 2: sc around\nRepeat Rnd 2 1000000000 more times\n",
    "10^9 rows told as next": RING + "Next 1000000000 rounds: sc around. (6)\n",
    "a chain of 10^9": "Ch 1000000000.\n" + FIRST,
    "10,000 brackets": "Row 1: " + "(" * 10_000 + "sc" + ")" * 10_000,
    "10,000 brackets with words": "Row 1: " + "(sc, " * 10_000 + "dc" + ") twice" * 10_000,
    "two to the power of 39": RING + "Rnd 2: " + "(sc, " * 39 + "inc" + ") 2 times" * 39,
    "twice as many each round": RING + "".join(f"Rnd {n}: 2 sc in each st around.\n" for n in range(2, 40)),
    "a repeat of many steps": "Ch 900000.\n" + FIRST + "Rows 2-90: Ch 1, turn, *2 sc in next st, skip 1 st; rep from * across.\n",
    "10,000 stars": "Row 1: " + "* sc " * 10_000,
    "10,000 starred units": "Row 1: " + "*sc in next st* " * 10_000,
    "100,000 numbers in a bracket": "Row 1: (" + ", ".join(map(str, range(100_000))) + ")",
    "30,000 sizes": "Row 1: sc in next 1 (" + ", ".join("2" * 30_000) + ") sts",
    "fractions without end": "Row 1: " + "1/2/" * 20_000,
    "marks on one letter": "Row 1: e" + "\u0301" * 100_000,
    "letters with marks": "Row 1: " + "e\u0301" * 50_000,
    "joined emoji": "Row 1: " + "\U0001f468\u200d" * 50_000,
    "turned writing": "Row 1: sc \u202e\u202d" * 10_000,
    "one long word": "x" * 500_000,
    "one long number": "Row " + "9" * 10_000 + ": sc in next " + "9" * 10_000 + " sts",
    "each row repeats the one before": RING + "Rnd 2: sc around\n" + "".join(f"Rnd {n}: Rep Rnd {n - 1}.\n" for n in range(3, 2_000)),
    "rows in a circle": "Row 1: Rep Row 2.\nRow 2: Rep Row 1.\n" * 200,
    "footnotes": "Row 1: sc in next st † ‡ § " * 4_000,
    "work work work": "Row 1: " + "work " * 3_000 + "sc",
}  # fmt: skip
ORDINARY = RING + "".join(f"Rnd {n}: *Sc in next {n} sts, 2 sc in next st; rep from * around. ({6 * n + 12} sc)\n" for n in range(400))
TIMES_AN_ORDINARY_TEXT = 80
"""Each takes 2 s at most on a quiet machine (`benches/strength.py` measures that). A test shares its machine with others, so here a
hard text is held to what 400 ordinary rounds take beside it, and reading, working and proofing it twice may take this many times that."""


def worked(text: str) -> tuple[Pattern, Fabric, list[str]]:
    pattern = read(text)
    fabric = work(pattern)
    return pattern, fabric, [finding.rule for finding in proof(pattern, (fabric,))]


BOUNDED = [name for name in HARD if "10^9" in name or "10,000 brackets" in name or "many steps" in name or "twice" in name]


@pytest.mark.parametrize("name", HARD)
def test_a_hard_text_ends_soon(name: str) -> None:
    """A bound that was reached is a finding; nothing is left out in silence."""
    started = time.process_time()
    worked(ORDINARY)
    begun = time.process_time()
    read_and_proofed(HARD[name])
    rules = worked(HARD[name])[2]
    assert name not in BOUNDED or "limit-reached" in rules
    assert time.process_time() - begun < TIMES_AN_ORDINARY_TEXT * (begun - started)


def test_a_long_chain_of_references_is_followed() -> None:
    text = "Ch 5.\nRow 1: Sc in 2nd ch from hook and in next 3 ch. (4 sc)\nRow 2: Ch 1, turn, sc in each st across. (4 sc)\n"
    text += "".join(f"Row {n}: Rep Row {n - 1}. (4 sc)\n" for n in range(3, 60))
    _, fabric, found = worked(text)
    assert found == []
    assert [row.counted.total for row in fabric.parts[0].rows if not row.foundation] == [4] * 59


def test_brackets_are_read_as_deep_as_is_told() -> None:
    for deep in (10, 39):
        _, fabric, found = worked(RING + "Rnd 2: " + "(" * deep + "sc in next 6 sts" + ")" * deep + ". (6 sc)")
        assert found == [] and fabric.parts[0].rows[-1].counted.total == 6
