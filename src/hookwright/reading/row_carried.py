"""A row named once for post stitches told one after another: "1 dc round the first tr of the 1st round, * 5 ch, 1 dc round the next tr"."""

from __future__ import annotations

from dataclasses import replace

from ..pattern import Make, Repeat, Step, Together


def row_carried(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps, those round "the next" stitch of the kind that a row was named for going into that row too."""
    if not any(isinstance(step, Make) and step.at.row and _of_a_post(step) for step in steps):
        return steps
    named: Make | None = None
    out: list[Step] = []
    for step in steps:
        if isinstance(step, Make) and _of_a_post(step) and step.at.row:
            named = step
        out.append(_carried(step, named) if named is not None else step)
    return tuple(out)


def _carried(step: Step, named: Make) -> Step:
    if isinstance(step, (Repeat, Together)):
        return replace(step, body=tuple(_carried(inner, named) for inner in step.body))
    if not isinstance(step, Make) or step.stitch != named.stitch or step.at.where != "next" or step.at.row or step.at.below:
        return step
    return replace(step, at=replace(step.at, row=named.at.row)) if step.at.what == named.at.what else step


def _of_a_post(step: Make) -> bool:
    return step.stitch[:2] in ("FP", "BP")
