"""Rows taken over from the working of an earlier state of the text."""

from __future__ import annotations

import pytest

from hookwright.pattern import Pattern
from hookwright.reading import read
from hookwright.working import Fabric, work
from hookwright.working.parts import PartWorker

ROWS = "US terms\n\nCh 14.\nRow 1: Dc in 4th ch from hook and in each ch across. (12 dc)\n" + "".join(
    f"Row {n}: Ch 3 (counts as dc), turn, dc in next st and in each st across. (12 dc)\n" for n in range(2, 41)
)


def again(text: str, edited: str) -> tuple[Fabric, Fabric]:
    """The edited text worked with the earlier state at hand, and afresh."""
    before = read(text)
    fabric = work(before)
    return work(read(edited, before=before), before=fabric), work(read(edited))


def told(fabric: Fabric) -> list[tuple[object, ...]]:
    return [
        (row.label, row.index, row.below, row.counted.total, row.stitches.role, row.derivation, row.written.span, row.stated, row.side)
        for part in fabric.parts
        for row in part.rows
    ]


def test_an_edit_costs_the_rows_it_changes(monkeypatch: pytest.MonkeyPatch) -> None:
    before = read(ROWS)
    fabric = work(before)
    long_way: list[str] = []
    record = PartWorker._record

    def noted(self: PartWorker, due: object, *rest: object) -> None:
        long_way.append(getattr(due, "label", ""))
        record(self, due, *rest)  # type: ignore[arg-type]

    monkeypatch.setattr(PartWorker, "_record", noted)
    lines = ROWS.split("\n")
    edited = "\n".join([*lines[:20], lines[20].replace("across.", "across, all along."), *lines[21:]])
    after: Pattern = read(edited, before=before)
    worked = work(after, before=fabric)
    assert len(long_way) <= 3
    assert worked.parts[0].rows[5] is fabric.parts[0].rows[5]
    monkeypatch.undo()
    assert told(worked) == told(work(read(edited)))


@pytest.mark.parametrize("counts", [True, False])
def test_what_the_notes_say_of_turning_chains_holds_for_rows_worked_before(counts: bool) -> None:
    text = (
        "---\nterms: US\nturning_chains:\n  dc: {{chains: 3, counts: {} }}\n---\n"
        "Ch 14.\nRow 1: Dc in 4th ch from hook and in each ch across.\n"
        "Row 2: Ch 3, turn, dc in each st across.\nRow 3: Ch 3, turn, dc in each st across.\n"
    )
    one, other = text.format(str(counts).lower()), text.format(str(not counts).lower())
    with_memory, afresh = again(one, other)
    assert told(with_memory) == told(afresh)
    assert told(with_memory) != told(work(read(one)))


def test_a_row_is_not_taken_over_where_another_stands_before_it() -> None:
    lines = ROWS.split("\n")
    moved = "\n".join([*lines[:10], *lines[11:20], lines[10], *lines[20:]])
    shorter = ROWS.replace("(12 dc)\nRow 9:", "(11 dc)\nRow 9:").replace(
        "Row 30: Ch 3 (counts as dc), turn,", "Row 30: Ch 3, turn, skip 1 st,"
    )
    for edited in (moved, shorter, ROWS.replace("Row 20: Ch 3 (counts as dc)", "Row 20: Ch 3 (does not count)")):
        with_memory, afresh = again(ROWS, edited)
        assert told(with_memory) == told(afresh)
