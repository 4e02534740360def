"""What only the last of several rows told together ends with ("At end of Row 6 ch 5, turn"): the others have nothing of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern import Aside, Chain, Colour, FastenOff, Join, Make, Row, Shape, Sized, Step, Turn


def ended_at_last(rows: Sequence[Row]) -> list[Row]:
    """The rows, chains and the turning told at the end of the last of several moved to the beginning of the row after them, and what
    joins that last one set aside.

    What it costs: where nothing follows, those chains are not worked; a spiral closed by its last slip stitch is shown unclosed.
    """
    found = list(rows)
    for k, row in enumerate(found):
        at = next((j for j, step in enumerate(row.steps) if isinstance(step, Aside) and step.kind == "last"), None)
        if at is None or not _several(row):
            continue
        if any(isinstance(step, Shape) for step in row.steps[at + 1 :]):
            found[k] = replace(row, steps=(*row.steps[: at + 1], *_shaped_last(row.steps[at + 1 :], _how_many(row))))
            continue
        first = at + 1 if any(not isinstance(step, Aside) for step in row.steps[at + 1 :]) else at - 1
        ends = row.steps[first:]
        if not all(isinstance(step, (Aside, Chain, Colour, FastenOff, Join, Turn)) or _closing(step) for step in ends):
            continue
        kept = [_set_aside(step) for step in ends if not isinstance(step, (Chain, Turn))]
        moved = tuple(step for step in ends if isinstance(step, (Chain, Turn)))
        found[k] = replace(row, steps=(*row.steps[:first], *kept))
        if moved and k + 1 < len(found) and not any(isinstance(step, (Chain, Turn)) for step in found[k + 1].steps[:1]):
            found[k + 1] = replace(found[k + 1], steps=(*moved, *found[k + 1].steps))
    return found


def _several(row: Row) -> bool:
    return any(len(of_size) > 1 for of_size in row.numbers) or row.rows_count is not None or row.until is not None


def _how_many(row: Row) -> tuple[int, ...]:
    """How many rows each size has of these; none where that is not told."""
    if row.rows_count is not None:
        return tuple(n or 0 for n in row.rows_count.values)
    return tuple(map(len, row.numbers))


def _shaped_last(steps: Sequence[Step], many: tuple[int, ...]) -> list[Step]:
    """The shaping of the last of several rows, as one made every so many rows as there are: so many as each size has."""
    out: list[Step] = []
    for step in steps:
        if not isinstance(step, Shape) or not many or not all(many):
            out.append(step)
        elif len(set(many)) == 1:
            out.append(replace(step, every=many[0]))
        else:
            change = [step.change.at(k) or 0 for k in range(len(many))]
            for n in dict.fromkeys(many):
                own = Sized(tuple(by if of_size == n else 0 for by, of_size in zip(change, many, strict=True)))
                out.append(replace(step, every=n, change=own))
    return out


def _closing(step: Step) -> bool:
    return isinstance(step, Make) and step.stitch == "sl st"


def _set_aside(step: Step) -> Step:
    return Aside(id=step.id, span=step.span) if isinstance(step, (Join, Make)) else step
