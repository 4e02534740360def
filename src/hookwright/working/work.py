"""Work a pattern: every step of every row, on what the row below offers."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import NamedTuple

from ..pattern import FLAT, LIMITS, Colour, Limits, Part, Pattern, Step
from .beginning import begins_elsewhere, on_the_chain, row_stood_on
from .counting import number_of, with_its_chains
from .custom import Answers
from .fabric import Fabric, How, PartWork, RowTrouble, RowWork, Taken
from .in_order import shape_row
from .needs import asks_for_work
from .parts import PartWorker
from .round_the_edge import leaves_the_rows, stands_on_pieces_joined
from .standing import Shared, Standing
from .strands_left import row_with_strands, strands_asked
from .supposing import UNTOLD_CHAIN, supposed_chain
from .together import links_of, seams_worked
from .trying import CHAINS_IN_TOTAL, OFF_CUSTOM


def work(pattern: Pattern, *, size: int = 0, before: Fabric | None = None, limits: Limits = LIMITS) -> Fabric:
    """The fabric of `pattern` in `size` (from 0). Never raises; bounded by `limits`.

    `before`: a fabric of an earlier state of the same pattern; rows that are worked alike are taken from it.
    """
    memory = before.memory if before is not None and before.size == size else None
    shared = memory.again() if isinstance(memory, Shared) else Shared(size=size)
    parts: list[PartWork] = []
    taken: dict[str, Taken] = {}
    troubles: list[RowTrouble] = []
    last: PartWorker | None = None
    stands_on: dict[int, tuple[int, int]] = {}
    for part in pattern.parts:
        if part.only is not None and size not in part.only:
            continue
        if shared.made > limits.stitches:
            troubles.append(RowTrouble("limit", part.span, f"More than {limits.stitches:,} stitches: {part.name} was not worked"))
            break
        start = _start(pattern, part, last, shared, parts)
        if start.on is not None:
            stands_on[len(parts)] = start.on
        elif last is not None and start.below_index == -1 and (last.state.below_index or 0) >= 0:
            stands_on[len(parts)] = (len(parts) - 1, last.state.below_index or 0)
        worker = _work_part(pattern, part, size, limits, shared, start)
        for question, answers in worker.answers.asked.items():
            answer = min(worker.answers.given.get(question, 0), len(answers) - 1)
            because = "custom" if answer == 0 else "it fits the rows and custom's answer does not"
            taken[f"{part.name}: {question}"] = Taken(question=question, answer=answers[answer], because=because)
        troubles += worker.troubles
        parts.append(PartWork(name=part.name, copies=part.copies.at(size) or 1, rows=_with_doubt(_with_chains(worker))))
        shared.pieces[part.name.lower()] = parts[-1].rows
        last = worker
    return Fabric(
        pattern=pattern, size=size, parts=tuple(parts), links=links_of(parts, stands_on), seams=seams_worked(pattern, parts), taken=taken,
        troubles=tuple(troubles), memory=shared,
    )  # fmt: skip


UNDERSTOOD = 0.7
"""The share of a part's written rows that must be read whole and worked before an alarm in it is taken to be certain."""


def _with_doubt(rows: list[RowWork]) -> tuple[RowWork, ...]:
    """The rows; where much of the part was not understood every alarm in it is more doubtful."""
    written = {row.written.id: row for row in rows if not row.foundation}
    understood = sum(1 for row in written.values() if row.read == "whole" and row.worked == "yes")
    if understood >= UNDERSTOOD * len(written):
        return tuple(rows)
    return tuple(replace(row, doubt=row.doubt + 1) if row.troubles else row for row in rows)


def _with_chains(worker: PartWorker) -> list[RowWork]:
    """The rows; where the stated totals count chains, so do the rows' own."""
    counts_chains = worker.answers.given.get(CHAINS_IN_TOTAL, 0) == 1
    return [
        replace(row, counted=replace(row.counted, total=with_its_chains(row.counted, row.stated)))
        if not row.foundation and (counts_chains or any(count.chains for count in row.stated if count.kind == "st"))
        else row
        for row in worker.rows
    ]  # fmt: skip


def _chains(parts: Sequence[PartWork]) -> Iterator[tuple[int, int]]:
    """(part, row) of the beginning chains there are, the latest first; a ring that was filled as a whole has no free side."""
    for p in range(len(parts) - 1, -1, -1):
        for row, after in pairwise(parts[p].rows):
            if row.foundation and len(row.stitches) and not after.foundation and int(How.RING) not in after.stitches.foot_how:
                yield p, row.index


def _first_steps(part: Part) -> tuple[Step, ...]:
    """The steps of a part's rows up to the first that works a stitch: yarn may be joined on a line of its own."""
    first = next((k for k, row in enumerate(part.rows) if asks_for_work(row.steps)), 0)
    return tuple(step for row in part.rows[: first + 1] for step in row.steps)


def _start(pattern: Pattern, part: Part, last: PartWorker | None, shared: Shared, parts: Sequence[PartWork]) -> Standing:
    """How a part begins: on nothing, or going on from the part before, or on its beginning chain from the other side."""
    begins_anew = bool(part.rows) and bool(shape_row(part.rows[0].steps, shared.shaped).foundation)
    if last is not None and not begins_anew and _counts_on(part, last, shared.size):
        return replace(last.state, below_index=-1)
    if last is None or begins_anew or not part.rows or stands_on_pieces_joined(pattern, part, last.part, shared.size):
        return Standing()
    first = _first_steps(part)
    if on_the_chain(first, last.rows):
        chain = next(_chains(parts), None)
        if chain is None:
            return Standing()
        return Standing(below=parts[chain[0]].rows[chain[1]].stitches, below_index=-1, foundation=True, far=True, on=chain)
    if (number := row_stood_on(first)) is not None and (row := _row_called(parts, number)) is not None:
        meant = parts[row[0]].rows[row[1]]
        if meant.stitches is not last.state.below:
            return Standing(below=meant.stitches, below_index=-1, around=meant.made_in not in FLAT, on=row)
    if (loop := strands_asked(first)) and (free := row_with_strands(loop, last.rows)) is not None:
        return Standing(below=free.stitches, below_index=-1, around=free.made_in not in FLAT, on=(len(parts) - 1, free.index))
    if parts and parts[-1].copies > 1 and any(isinstance(step, Colour) and step.join_in for step in first):
        single = next((p for p in range(len(parts) - 1, -1, -1) if parts[p].copies == 1 and parts[p].rows), None)
        if single is not None:  # yarn joined to the piece itself, after the two ears that are sewn to it
            meant = parts[single].rows[-1]
            return Standing(below=meant.stitches, below_index=-1, around=meant.made_in not in FLAT, on=(single, meant.index))
    if begins_elsewhere(first, last.rows):
        return Standing()
    if leaves_the_rows(part.rows[0], part.rows[0].steps, last.rows[-1] if last.rows else None):
        return Standing()
    return replace(last.state, below=last.state.below, below_index=-1, carried=last.state.carried)


def _row_called(parts: Sequence[PartWork], number: int) -> tuple[int, int] | None:
    """(part, row) of the last row so numbered."""
    found = ((p, row.index) for p in range(len(parts) - 1, -1, -1) for row in reversed(parts[p].rows) if row.number == number)
    return next(found, None)


def _counts_on(part: Part, last: PartWorker, size: int) -> bool:
    """Whether the part's first row has the number after the last one of the part before: the same piece, under a new heading."""
    first = part.rows[0].numbers_at(size)[:1] if part.rows else ()
    before = next((row.number for row in reversed(last.rows) if row.number is not None), None)
    return bool(first) and before is not None and first[0] == before + 1 > 1


def _work_part(pattern: Pattern, part: Part, size: int, limits: Limits, shared: Shared, start: Standing) -> PartWorker:
    """Work a part under custom's answers; where that leaves misfits, try the other answers one question at a time."""

    asked: dict[str, tuple[str, ...]] = {}

    def once(given: dict[str, int], like: PartWorker | None = None, bound: float = math.inf, untold: int = 0) -> PartWorker:
        worker = PartWorker(pattern, part, size, limits, Answers(given=dict(given), asked=asked), shared, replace(start), 0, like)
        worker.untold = untold
        worker.work(bound - _off_custom(worker))
        return worker

    best = first = once({})
    was = _Was.of(first)
    best_cost = _cost(best)
    tries = 0
    improved = True
    while improved and best.penalty > 0 and tries < 24 and shared.made < limits.row_stitches:
        improved = False
        for question, options in sorted(best.answers.asked.items()):
            for answer in range(len(options)):
                if answer == best.answers.given.get(question, 0) or tries >= 24:
                    continue
                tries += 1
                other = once({**best.answers.given, question: answer}, first, best_cost)
                cost = _cost(other) + UNDONE * _undone(was, other)
                if cost < best_cost:
                    best, best_cost, improved = other, cost, True
    if start.below is None and not start.ring and best.stands_on_untold_chain():
        for number in range(LEAST_CHAIN, MOST_CHAIN):
            other = once(best.answers.given, None, math.inf, number)
            if all(row.read != "whole" or (row.worked == "yes" and row.state != "differs") for row in other.rows) and not other.penalty:
                asked[UNTOLD_CHAIN] = ("nobody tells", supposed_chain(number))
                other.answers.given[UNTOLD_CHAIN] = 1
                return other
    return best


LEAST_CHAIN, MOST_CHAIN = 20, 80
"""Chains tried where nobody tells how many there are: enough for two units of most edgings, and no more than that takes (ours)."""


UNDONE = 11.0
"""What it costs an answer that a row which makes its stated count, or uses just what it is offered, by custom's answers does so no
longer: with that row's own flaw more than one other row's two flaws (it does not fit, and its count differs) that the answer would
explain away, so that a slip in one row does not turn the reading of the rows before it."""


EARLIER = 10
"""So many times more where that row stands before every flaw that custom's answers leave: what is wrong is told where it comes up first."""


class _Was(NamedTuple):
    """What the rows are by custom's answers."""

    agreed: frozenset[str]
    """Labels of the rows that agree with their counts."""
    fitted: frozenset[str]
    """Labels of those that use just what they are offered."""
    flawed: int
    """Index of the first row that is neither."""

    @classmethod
    def of(cls, first: PartWorker) -> _Was:
        rows = first.rows if first.penalty > 0 else []
        return cls(
            frozenset(row.label for row in rows if row.state == "agrees" and row.worked == "yes" and _held(row)),
            frozenset(row.label for row in rows if row.worked == "yes" and row.offered is not None and row.offered == row.used),
            next((row.index for row in rows if row.worked == "unworkable" or row.state == "differs"), 0),
        )


def _undone(was: _Was, other: PartWorker) -> int:
    """How many rows agree with their counts, or fit what they are offered, by custom's answers and not by these."""
    return sum(
        EARLIER if row.index < was.flawed else 1 for row in other.rows
        if (row.state == "differs" and row.label in was.agreed)
        or (row.used != row.offered and row.offered is not None and row.label in was.fitted)
    )  # fmt: skip


def _held(row: RowWork) -> bool:
    """Whether a stated count was held against a number that can be counted."""
    kinds = frozenset(count.kind for count in row.stated)
    return any(kind == "st" or number_of(row.counted.by_kind, kind, kinds) is not None for kind in kinds)


def _cost(worker: PartWorker) -> float:
    return worker.penalty + _off_custom(worker)


def _off_custom(worker: PartWorker) -> float:
    return OFF_CUSTOM * sum(worker.answers.given.values())


__all__ = ["RowWork", "work"]
