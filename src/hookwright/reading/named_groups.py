"""Groups written out are the groups the pattern names: "(dc, ch 1, dc) in 5th ch" is a V-st where V-st means just that."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from ..pattern import ONE, Chain, Make, Place, Repeat, Special, Step, Together
from ..pattern.walking import walk

Shape = tuple[tuple[str, int], ...]


def shape_of(steps: Iterable[Step]) -> Shape:
    """What a group is made of, stitch by stitch; () where it holds anything but stitches and chains."""
    found: list[tuple[str, int]] = []
    for step in steps:
        if isinstance(step, Make) and step.places != "rest" and not step.each.many and not step.places.many:
            kind, number = step.stitch, (step.each.values[0] or 1) * (step.places.values[0] or 1)
        elif isinstance(step, Chain) and not step.number.many:
            kind, number = "ch", step.number.values[0] or 1
        elif type(step).__name__ == "Aside":
            continue
        else:
            return ()
        if found and found[-1][0] == kind:
            found[-1] = (kind, found[-1][1] + number)
        else:
            found.append((kind, number))
    return tuple(found)


def named(steps: tuple[Step, ...], specials: Mapping[str, Special]) -> tuple[Step, ...]:
    """The steps, each unnamed group of two kinds or more with the name of the special that is made alike."""
    shapes: dict[Shape, str] = {}
    for name, special in specials.items():
        shape = shape_of(special.steps)
        if len(shape) > 1:
            shapes.setdefault(shape, name)
    for step in walk(steps):
        if isinstance(step, Together) and step.name in _NAMED_ONCE and len(shape := shape_of(step.body)) == 1:
            shapes.setdefault(shape, step.name)  # "5 dc (shell) in next st, …, 5 dc in next st": in this row both are shells
    return _named(steps, shapes) if shapes else steps


_NAMED_ONCE = ("shell", "fan")


def _named(steps: tuple[Step, ...], shapes: Mapping[Shape, str]) -> tuple[Step, ...]:
    out: list[Step] = []
    for step in steps:
        if isinstance(step, Together) and step.name is None and (name := shapes.get(shape_of(step.body))) is not None:
            step = replace(step, name=name)
        elif isinstance(step, Make) and step.places == ONE and step.closes == 1 and step.at.where in ("next", "first", "last"):
            name = shapes.get(((step.stitch, step.each.values[0] or 1),)) if not step.each.many else None
            if name is not None:
                inside = replace(step, at=Place(where="same"))
                step = Together(id=step.id, span=step.span, only=step.only, body=(inside,), at=step.at, name=name)
        elif isinstance(step, Repeat):
            step = replace(step, body=_named(step.body, shapes), last=_named(step.last, shapes))
        out.append(step)
    return tuple(out)
