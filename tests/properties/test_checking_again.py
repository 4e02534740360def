"""A text worked and proofed with its earlier state at hand is the text worked and proofed afresh: rows, spans, ids, findings."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

from again import TEXTS, WORDS, forget_all, whole
from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.pattern import Finding, Pattern
from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import Fabric, work

FLAWED = (
    "US terms\nGauge: 14 dc and 7 rows = 10 cm\n\nCh 12.\nRow 1: Sc in 2nd ch from hook and in each ch across. (11 sc)\n"
    "Row 2: Ch 1, turn, sc in each st across. (11 sc)\nRow 3: Ch 1, turn, sc in first st, ch 1, skip 1 st, sc in each st across. (12 sts)\n"
    "Row 4: Ch 1, turn, sc in next 12 sts. (12 sc)\nRow 5: Ch 3 (counts as dc), turn, dc in each st across. (11 dc)\n"
    "Row 6: Ch 3 (does not count as st), turn, wibble, sl st in next st, dc in each st across. (10 dc)\nRows 7-9: Rep Row 2.\n"
    "Row 11: Ch 1, turn, sc in ch-5 sp, sc in each st to last 2 sts, sc2tog. (9 sc)\nRow 12: Work 4 sts of Row 9, turn. (4 sc)\n",
    "US terms\n\nRnd 1: Ch 3 (counts as dc), 11 dc in magic ring, join with sl st to top of ch-3. (12 dc)\n"
    "Rnd 2: Ch 3 (counts as dc), dc in same st, 2 dc in each st around, join with sl st to top of ch-3. (24 dc)\n"
    "Rnd 3: Ch 1, *sc in next st, ch 3, skip 1 st; rep from * around, join with sl st to first sc. (12 ch-3 sps)\n"
    "Rnd 4: Sl st in ch-3 sp, ch 2, *shell in next ch-3 sp; rep from * around, join to top of ch-2. (12 shells)\n"
    "Rnd 5: Ch 1, *sc in next 3 sts, 2 sc in next st; rep from * 5 times, join. (30 sc)\nRnds 6-8: Rep Rnd 5.\n\nEdging\n\n"
    "Rnd 9: Sc in each st around. (30 sc)\n",
    "US terms\n\nCh 14.\nRow 1: Dc in 4th ch from hook (3 skipped ch count as a st), dc in each ch across.\n"
    "Row 2: Ch 1, turn, sc in next 6 sts, turn, leave remaining sts unworked.\nRow 3: Ch 1, turn, sc in each st across.\n"
    "Row 4: Ch 1, turn, sc in next 6 sts, sc in next 6 unworked sts of Row 1.\nRow 5: Ch 1, turn, sc in next st, "
    "FPdc around next dc of Row 1, sc in each st across.\nRows 6-11: Dec 1 st at beg of every 2nd row, dec 1 st at end of every 3rd row.\n",
)
EDITS = (
    *WORDS,
    "sc in next st, ",
    "Ch 1, turn, ",
    "wibble ",
    "(counts as dc) ",
    "Rep Row 2. ",
    "*",
    "; rep from * across",
    "sl st in ",
    "not ",
    ", join",
    "1",
)


def told(record: Any, *leave: str) -> tuple[object, ...]:
    return tuple((f.name, whole(getattr(record, f.name))) for f in fields(record) if f.name not in leave)


def everything(fabric: Fabric, pattern: Pattern, findings: tuple[Finding, ...]) -> list[object]:
    """All that was found, places and ids with it; of a row's own instruction only which it is."""
    rows = {id(row): at for at, row in enumerate(row for part in pattern.parts for row in part.rows)}
    worked = [
        (part.name, part.copies, rows.get(id(row.written)), told(row, "written", "stitches"), told(row.stitches))
        for part in fabric.parts
        for row in part.rows
    ]
    return [worked, whole(fabric.links), whole(fabric.seams), whole(fabric.taken), whole(fabric.troubles), whole(findings)]


@settings(max_examples=20, deadline=None)
@given(st.sampled_from((*FLAWED, *FLAWED, *TEXTS)), st.data())
def test_an_edit_is_worked_and_proofed_as_the_whole_text_is(text: str, data: st.DataObject) -> None:
    pattern = read(text)
    fabric = work(pattern)
    proof(pattern, [fabric])
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(text)))
        if data.draw(st.booleans()):
            edited = text[:at] + data.draw(st.sampled_from(EDITS)) + text[at:]
        else:
            edited = text[:at] + text[at + data.draw(st.integers(1, 12)) :]
        undone = data.draw(st.booleans())
        for now in (edited, text) if undone else (edited,):
            pattern = read(now, before=pattern)
            fabric = work(pattern, before=fabric)
            findings = proof(pattern, [fabric])
            afresh = read(now)
            new = work(afresh)
            assert everything(fabric, pattern, findings) == everything(new, afresh, proof(afresh, [new]))
        text = text if undone else edited
    forget_all()
    afresh = read(text)
    new = work(afresh)
    assert everything(fabric, pattern, findings) == everything(new, afresh, proof(afresh, [new]))
