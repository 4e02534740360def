"""A row worked before from just where the work stands now: what it came to is taken over, and where it left the work.

After an edit nearly all rows are due as they were, on a row below that holds the same stitches. What such a row comes to rests on its steps
and on the standing of the work (`_key`), as long as it is a plain one: it fits what it is offered, makes its count, names no other row and
no marker, looks neither ahead nor further down than the row below (`remember`). Every other row is worked the long way (`PartWorker`).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from ..pattern import Chain, Step, changed
from .fabric import RowWork, Side, Stitches
from .in_order import Shaped
from .plan import Due
from .standing import Outcome, spans_in

if TYPE_CHECKING:
    from .parts import PartWorker

Key: TypeAlias = tuple[object, ...]


@dataclass(slots=True)
class Known:
    """A row worked, and the standing of the work after it."""

    row: RowWork
    """As it stood the last time."""
    outcome: Outcome
    direction: int
    side: Side
    turned: bool
    around: bool
    below: Stitches
    yarn: str
    total: int | None
    sure: bool
    carried: Chain | None
    travel: tuple[Step, ...]
    keep: tuple[object, ...]
    """What the key names by its id."""


def key_of(worker: PartWorker, due: Due) -> Key | None:
    """All that a plain row's work rests on; None where the work does not stand on a finished row."""
    now = worker.state
    below = now.below
    if (
        below is None or not worker.rows or now.ring or now.foundation or now.far or now.fastened or now.uncounted or now.marks
        or now.on is not None or due.wrong_reference is not None or due.follow is not None
    ):  # fmt: skip
        return None
    before = worker.rows[-1]
    if before.foundation:
        return None
    back = None if now.below_index is None else worker.first_index + len(worker.rows) - now.below_index
    row = due.row
    return (
        id(due.steps), id(below), back, now.direction, now.side, now.turned, now.yarn, now.total, now.sure, now.assumed,
        id(now.carried), id(now.travel), row.made_in, row.side, due.k, due.of, before.made_in, worker.basis, worker.answering,
        *((due.from_row in worker.right, id(now.opened.get(due.from_row))) if due.from_row else ()),
    )  # fmt: skip


def taken_over(worker: PartWorker, due: Due, key: Key) -> bool:
    """Whether the row was worked before from here; then it is done."""
    known = worker.shared.plain.get(key)
    if known is None:
        return False
    old, outcome = known.row, known.outcome
    stated = worker.stated_here(due, outcome.counted)
    if stated != old.stated or worker.numbered_back(due):
        return False
    shared, now = worker.shared, worker.state
    written = due.written or due.row
    if outcome.epoch != shared.epoch:
        own = not due.from_row and now.carried is None and not now.travel  # all its words stand in the row itself
        if own and old.written is written and old.derivation is outcome.derivation:
            shared.met(outcome)
        else:
            shared.today(outcome, spans_in(due.row.steps) if own else shared.now(worker.pattern))
    for question, answers in outcome.asked.items():
        worker.answers.asked.setdefault(question, answers)
    if now.carried is not None:
        now.opened[due.label] = now.carried
    index = worker.first_index + len(worker.rows)
    if (
        old.written is not written or old.index != index or old.below != now.below_index or old.label != due.label
        or old.derivation is not outcome.derivation
    ):  # fmt: skip
        known.row = old = changed(
            old, label=due.label, number=due.number, written=written, index=index, stated=stated, derivation=outcome.derivation,
            below=now.below_index,
        )  # fmt: skip
    worker.rows.append(old)
    worker.worked_from[index] = due
    now.direction, now.side, now.turned, now.around = known.direction, known.side, known.turned, known.around
    now.below, now.below_index, now.yarn, now.total = known.below, index, known.yarn, known.total
    now.carried, now.travel, now.sure, now.assumed = known.carried, known.travel, known.sure, False
    if known.sure:
        worker.right.add(due.label)
    return True


def remember(worker: PartWorker, due: Due, key: Key, named: tuple[object, ...], shaped: Shaped, work: tuple[Step, ...]) -> None:
    """Keep the row just worked for the next time, where it is a plain one. `named`: what the key names by id, besides the steps."""
    row, now = worker.rows[-1], worker.state
    outcome = worker.tried[0]
    asks, does = worker.shared.nature(due.steps), worker.shared.nature(work)
    if (
        len(worker.tried) != 1 or worker.chains_asked or row.derivation is not outcome.derivation
        or outcome.misfits or outcome.troubles or row.troubles
        or outcome.unread or outcome.uncounted or outcome.partial or outcome.stretched
        or outcome.chains_moved or row.worked != "yes" or row.state not in ("agrees", "unstated") or row.read != "whole"
        or now.assumed or now.uncounted or now.marks or now.fastened or now.below is None
        or asks.side_again is not None or asks.row_end is not None or asks.as_piece is not None or asks.from_row_ends
        or asks.deep or does.deep or does.markers or does.shapes or does.named is not None or does.strands
        or shaped.foundation or shaped.fastened
    ):  # fmt: skip
        return
    worker.shared.plain[key] = Known(
        row, outcome, now.direction, now.side, now.turned, now.around, now.below, now.yarn, now.total, now.sure, now.carried, now.travel,
        (due.steps, *named),
    )  # fmt: skip
