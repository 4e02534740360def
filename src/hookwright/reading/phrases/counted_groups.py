"""Groups named with what they are made of: "3-dc cl", "5-dc shell in next st", "5-tr cluster in next 5 sc"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, Make, Place, Sized, Special, Step
from ...trade.kinds import GROUPS_AS_ONE
from .cursor import Cursor
from .specials import named

EXAMPLES = (
    ("5-tr cluster in next 5 sc", "tr5tog@next sc"),
    ("3-dc cl in next ch-2 sp", "cl@next ch-2 sp"),
)


def group_of(c: Cursor, start: int, told: Sized[int] | None) -> list[Step] | None:
    """ "3-dc cl", "5-dc shell in next st", "4tr-cluster": the group is named with what it is made of."""
    k = c.i + 1
    if c.t[k].kind == "-":
        k += 1
    if c.t[k].kind != "grp" or told is None or told.many:
        return None
    kind = c.us(str(c.t[c.i].val))
    name = str(c.t[k].val)
    c.i = k
    if name not in c.specials and name not in GROUPS_AS_ONE and name != "picot":
        c.defined.setdefault(
            name, Special(name=name, steps=(Make(stitch=kind, each=told, at=Place(where="same")),), counts=0, span=c.span(start))
        )
    return _over_as_many(c, named(c, start, None), kind, told)


def _over_as_many(c: Cursor, steps: list[Step] | None, kind: str, told: Sized[int]) -> list[Step] | None:
    """ "5-tr cluster in next 5 sc": one cluster over five stitches, not five clusters."""
    step = steps[0] if steps is not None and len(steps) == 1 else None
    n = told.values[0] or 0
    if not isinstance(step, Make) or step.stitch != "cl" or step.places != told or n < 2 or step.at.what.endswith("sp"):
        return steps
    return [replace(step, stitch=f"{kind}{n}tog", places=ONE, closes=n)]
