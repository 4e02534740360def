"""Walk the steps of a row, also those inside repeats, groups, joinings and references."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from .nodes import Choice, Join, Refer, Repeat, Step, Together

_WITHIN = {Repeat: ("body", "last"), Together: ("body",), Join: ("closing",), Refer: ("changes",)}


def walk(steps: Iterable[Step]) -> Iterator[Step]:
    """Every step, outer before inner; of a question every answer.

    >>> from .nodes import Turn
    >>> [type(step).__name__ for step in walk([Together(body=(Choice(question="?", answers=((Turn(),), (Turn(), Turn()))),))])]
    ['Together', 'Choice', 'Turn', 'Turn', 'Turn']
    """
    for step in steps:
        yield step
        kind = type(step)
        if kind in _WITHIN:
            for name in _WITHIN[kind]:
                yield from walk(getattr(step, name))
        elif isinstance(step, Choice):
            for answer in step.answers:
                yield from walk(answer)


def inside(steps: Iterable[Step]) -> Iterator[Step]:
    """Every step that is said, outer before inner; of a question the customary answer alone.

    >>> from .nodes import Turn
    >>> [type(step).__name__ for step in inside([Together(body=(Choice(question="?", answers=((Turn(),), (Turn(), Turn()))),))])]
    ['Together', 'Choice', 'Turn']
    """
    for step in steps:
        yield step
        kind = type(step)
        if kind in _WITHIN:
            for name in _WITHIN[kind]:
                yield from inside(getattr(step, name))
        elif isinstance(step, Choice) and step.answers:
            yield from inside(step.answers[0])
