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
        (
            row.label,
            row.index,
            row.below,
            row.counted.total,
            row.stitches.role,
            bytes(row.stitches.foot_how),
            tuple(row.stitches.foot_at),
            tuple(row.stitches.foot_back),
            row.derivation,
            row.written.span,
            row.stated,
            row.side,
            row.worked,
            row.readings,
        )
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


ON_12 = "US terms\n\nCh 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n"
IN_SIX = "Ch 1, turn, sc in each st across. (6 sc)"
IN_ROUNDS = "US terms\n\nRnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each st around. (12 sc)\n"


@pytest.mark.parametrize(
    ("text", "one", "other"),
    [
        pytest.param(
            f"{ON_12}Row 2: {{}}\nRow 3: Ch 1, turn, sc in next 6 sts, sc in next 6 sts of Row 1.\n",
            "Ch 1, turn, sc in each st across.", "Ch 1, turn, sc in next 6 sts, turn, leave remaining sts unworked.",
            id="whether the row named has places left",
        ),
        pytest.param(
            f"{ON_12}Row 2: {{}}\nRow 3: {IN_SIX}\nRow 4: {IN_SIX}\nRow 5: {IN_SIX}\nRow 6: {IN_SIX}\n"
            "Row 7: Ch 1, turn, sc in next 6 sts, sc in next 6 unworked sts of Row 1.\n",
            "Ch 1, turn, sc in next 6 sts, turn, leave remaining sts unworked.", "Ch 1, turn, skip next 6 sts, sc in next 6 sts, turn.",
            id="which places the row named has left",
        ),
        pytest.param(
            f"{ON_12}Row {{}}: Ch 1, turn, sc in each st across.\nRow 10: Ch 1, turn, sc in next 12 sts, sl st in next 2 sts of Row 9.\n",
            "2", "9", id="whether the row named is one of this piece",
        ),
        pytest.param(
            "US terms\n\nCh 14.\nRow 1: Dc in 4th ch from hook (3 skipped ch {} a st), dc in each ch across.\n"
            "Row 2: Ch 3 (counts as dc), turn, dc in next st and in each st across.\n",
            "count as", "do not count as", id="what the foundation chain is told to count as",
        ),
        pytest.param(
            f"{IN_ROUNDS}Rnd 3: Ch 2, sc in next 12 sts.\nRnd 4: Sc in each st around{{}}.\n",
            "", ", join with sl st to first sc", id="whether rounds are joined",
        ),
    ],
)  # fmt: skip
def test_what_a_row_rests_on_is_asked_again(text: str, one: str, other: str) -> None:
    first, second = text.format(one), text.format(other)
    assert told(work(read(first)))[-1] != told(work(read(second)))[-1]
    for was, edited in ((first, second), (second, first)):
        with_memory, afresh = again(was, edited)
        assert told(with_memory) == told(afresh)
