"""On which side of its picot a loop is worked into: "1 dc in next loop just beyond its picot", "sl st along until the picot is passed"."""

from __future__ import annotations

from ...pattern import Aside, Make, Step, Together
from .cursor import Cursor

EXAMPLES = (
    ("* ch 7, sc in next loop just beyond its picot; rep from * around", "[ch7, sc@next sp]×rest"),
    ("* ch 7, sc in next loop before the picot; rep from * around", "[ch7, sc@next sp]×rest"),
)

_SIDE = frozenset("beyond past passed passing clear before after".split())  # noqa: SIM905
_WORDS = _SIDE | frozenset("is are has have been you the its a of each picot picots until till just".split())  # noqa: SIM905
_ENDS = frozenset((",", ";", ".", "", "*", "(", ")", "and"))


def beside_picot(c: Cursor) -> list[Step] | None:
    """To the clause's end, behind a stitch in a loop; None with the cursor unmoved where it tells anything else."""
    start = end = c.i
    while c.t[end].kind not in _ENDS:
        end += 1
    words = [token.text.lower() for token in c.t[start:end]]
    made = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    in_loop = isinstance(made, (Make, Together)) and made.at.what.endswith("sp")
    picot = any(token.kind == "grp" and token.val == "picot" for token in c.t[start:end])
    if not in_loop or not picot or not set(words) <= _WORDS or not _SIDE & set(words):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]
