"""Walk the steps of a row, also those inside repeats, groups, joinings and references."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from .nodes import Choice, Join, Refer, Repeat, Step, Together

_WITHIN = {Repeat: ("body", "last"), Together: ("body",), Join: ("closing",), Refer: ("changes",)}


def walk(steps: Iterable[Step], *, said: bool = False) -> Iterator[Step]:
    """Every step, outer before inner; of a question every answer, or of what is `said` the customary one alone.

    >>> from .nodes import Turn
    >>> asked = [Together(body=(Choice(question="?", answers=((Turn(),), (Turn(), Turn()))),))]
    >>> [type(step).__name__ for step in walk(asked)], len(list(walk(asked, said=True)))
    (['Together', 'Choice', 'Turn', 'Turn', 'Turn'], 3)
    """
    for step in steps:
        yield step
        kind = type(step)
        if kind in _WITHIN:
            for name in _WITHIN[kind]:
                yield from walk(getattr(step, name), said=said)
        elif isinstance(step, Choice):
            for answer in step.answers[:1] if said else step.answers:
                yield from walk(answer, said=said)


def inside(steps: Iterable[Step]) -> Iterator[Step]:
    """Every step that is said, outer before inner; of a question the customary answer alone."""
    return walk(steps, said=True)
