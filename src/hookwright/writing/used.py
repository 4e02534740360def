"""What a pattern's words use: stitches, signs, techniques. The list of abbreviations is made from this, so that none is missing or idle."""

from __future__ import annotations

from collections.abc import Iterator

from ..pattern import Chain, Even, Join, Make, Pattern, Place, Skip, Step, Together
from ..pattern.walking import inside


def every_step(pattern: Pattern) -> Iterator[Step]:
    """Every step that is said, those inside groups and repeats too, in the order of the words; defined stitches first."""
    for special in pattern.defined.values():
        yield from inside(special.steps)
    for part in pattern.parts:
        for row in part.rows:
            yield from inside(row.steps)


def stitches_used(pattern: Pattern) -> tuple[str, ...]:
    """The stitch ids that the words name, made or worked into or counted, each once, in order of first use; "ch" and "sl st" included."""
    found: dict[str, None] = {}
    for step in every_step(pattern):
        for kind in _kinds(step):
            found.setdefault(kind)
    for part in pattern.parts:
        for row in part.rows:
            for count in row.stated:
                found.setdefault(count.kind)
    return tuple(found)


def _kinds(step: Step) -> Iterator[str]:
    if isinstance(step, Make):
        yield _made(step)
        yield from _place(step.at)
    elif isinstance(step, Chain):
        yield "ch"
        yield from (kind for kind in step.stands_for if not kind.startswith("ch "))
    elif isinstance(step, Join) and not step.no:
        if not step.closing:
            yield "sl st"
        if step.to is not None:
            yield from _place(step.to)
    elif isinstance(step, Together):
        yield from _place(step.at)
    elif isinstance(step, Skip):
        yield step.what
    elif isinstance(step, Even) and step.stitch is not None:
        yield step.stitch


def _made(step: Make) -> str:
    if step.main is None or step.stitch not in ("inc", "dec"):
        return step.stitch
    return step.main if step.stitch == "inc" else f"{step.main}2tog"


def _place(at: Place) -> Iterator[str]:
    yield from at.what.split(" ")
