"""A group told with what it is made of: "a shell of 5 dc in next st", "shell of 3 dc, ch 2 and 3 dc in next sc"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, Chain, Make, Place, Sized, Special, Step, Together
from ...trade.kinds import GROUPS_AS_ONE
from .cursor import Cursor
from .nouns import PLACING
from .shapes import make
from .spots import Spot

EXAMPLES = (
    ("shell of 5 dc in next sc, sc in next sc", "shell{5dc@same st}@next sc, sc@next sc"),
    ("shell of 3 dc, ch 2 and 3 dc in next sc, skip 2 sc", "shell{3dc@same st, ch2, 3dc@same st}@next sc, skip2 sc"),
    ("V-st of dc, ch 1, dc in next st", "V-st{dc@same st, ch1, dc@same st}"),
    ("a fan of 4 dc with ch 1 between in next st", "fan{dc@same st, [ch1, dc@same st]×3}"),
    ("shell of 3 dc in next st, ch 2, 3 dc in next st", "shell{3dc@same st}, ch2, 3dc"),
)

MOST = 11
"""Steps, at most, that a group told so has."""
_MADE = ("made", "consisting", "comprised", "composed", "formed")


def of_what_made(c: Cursor, start: int, name: str) -> list[Step] | None:
    """ "(a shell) of 3 dc in same sp", "made of 3 dc, ch 2, 3 dc in next sc": the group, which is named by it from then on; None, with the
    cursor unmoved, for other words."""
    begin = c.i
    c.i += c.t[c.i].text.lower() in _MADE
    if not (c.kind == "of" and (c.look().kind == "st" or (c.look().kind == "n" and c.look(2).kind in ("st", "-")))):
        c.i = begin
        return None
    from .one_phrase import one

    c.i += 1
    got = one(c)
    step = got[-1] if got else None
    if isinstance(step, Together) and step.name is None and len(got or ()) == 1 and name not in GROUPS_AS_ONE:  # "with ch 1 between"
        return _named(c, start, name, step.body, step)
    if not got or not isinstance(step, Make):
        c.i = begin
        return None
    if name in GROUPS_AS_ONE:
        return [make(c, start, name, found=Spot(step.at))]
    if not _placed(c, step) and len(got) == 1 and (steps := _listed(c, step)) is not None:
        return _named(c, start, name, tuple(map(_here, steps)), steps[-1])
    if not isinstance(got[0], Make):
        c.i = begin
        return None
    return _named(c, start, name, (_here(step),), step)


def leads_to_bracket(c: Cursor) -> bool:
    """Whether the cursor stands at the word "of" that leads from a group's name to the bracket that tells it."""
    return c.kind == "of" and c.look().kind in ("(", "[")


def _named(c: Cursor, start: int, name: str, body: tuple[Step, ...], placed: Step) -> list[Step]:
    c.defined.setdefault(name, Special(name=name, steps=body, counts=0, span=c.span(start)))
    at = placed.at if isinstance(placed, (Make, Together)) else Place()
    return [Together(id=c.id(), span=c.span(start), body=body, at=at, name=name)]


def _here(step: Step) -> Step:
    """The step as one of those in the group's own place."""
    if not isinstance(step, Make):
        return step
    count = step.each if step.each != ONE else step.places
    return replace(step, each=count if isinstance(count, Sized) else ONE, places=ONE, at=Place(where="same"))


def _placed(c: Cursor, step: Step) -> bool:
    """Whether its words name a place."""
    return any(token.kind in PLACING for token in c.t if step.span.start <= token.start < step.span.end)


def _listed(c: Cursor, first: Make) -> list[Step] | None:
    """The stitches and chains that go on from `first`, the last of which alone names the one place of all; None, with the cursor unmoved,
    where the list is no such group ("shell of 5 dc, ch 2, sc in next sc")."""
    from .one_phrase import one

    begin = c.i
    steps: list[Step] = [first]
    while c.kind in (",", "and") and len(steps) < MOST:
        c.i += 1
        c.drop("and", "then")
        got = one(c) if c.kind in ("n", "st", "ch", "a") else None
        if got is None or len(got) != 1 or not isinstance(got[0], (Make, Chain)):
            break
        steps.append(got[0])
        last = got[0]
        if isinstance(last, Make) and _placed(c, last):
            if last.places == ONE and last.at.where in ("next", "same", "first", "last", "named") and last.stitch == first.stitch:
                return steps
            break
        if isinstance(last, Make) and c.kind not in (",", "and") and last.stitch == first.stitch and last.each == first.each:
            break
    c.i = begin
    return None
