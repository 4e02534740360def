"""Petals held out of the way while the next round is worked behind them: "turn the petals towards you and work behind them"; and raised
groups pushed to the side they are to be seen on: "pushing popcorns to the right side"."""

from __future__ import annotations

from ...pattern import Aside, Step
from .cursor import Cursor

EXAMPLES = (
    ("Turn the petals towards you and work behind them. 7 ch, 1 dc in next sc", "ch7, dc@next sc"),
    ("Bend the petals forward; ch 7, dc in next sc", "ch7, dc@next sc"),
    ("sc in each st, pushing popcorns to the right side", "sc×rest"),
    ("Sc in each sc. Push tr's to right side.", "sc×rest@next sc"),
    ("Folding each petal down to the front, ch 7, dc in next sc", "ch7, dc@next sc"),
)

_HELD = frozenset(
    "turn turning bend bending fold folding hold holding press pressing push pushing keep keeping lay laying throw throwing".split()  # noqa: SIM905
)
_PUSHED = frozenset(("push", "pushing", "press", "pressing"))
_THINGS = frozenset("petal petals leaf leaves loops scallop scallops points popcorn popcorns pc pcs bobble bobbles puffs".split())  # noqa: SIM905
_WHITHER = frozenset("forward forwards down downward downwards towards toward front back you yourself over outward outwards".split())  # noqa: SIM905
_ENDS = frozenset((",", ";", ".", ":", "", "(", "*"))


def petals_held(c: Cursor) -> list[Step] | None:
    """To the end of the clause, with "and work behind them"; None with the cursor unmoved where it tells anything else."""
    start = c.i
    if c.t[start].text.lower() not in _HELD:
        return None
    k = start + 1
    while c.t[k].kind in ("the", "each", "all", "along", "idle") and k - start < 4:
        k += 1
    pushed = c.t[start].text.lower() in _PUSHED and c.t[k].kind == "st"  # "Push tr's to right side."
    if c.t[k].text.lower() not in _THINGS and not pushed:
        return None
    k += pushed
    while pushed and c.t[k].kind == "noun":
        k += 1
    end = k
    while c.t[end].kind not in _ENDS:
        end += 1
    words = c.t[k if pushed else start + 1 : end]
    if any(t.kind in ("n", "ch", "rep", "skip") or (t.kind == "st" and t.val != "long") for t in words):
        return None
    if not any(t.text.lower() in _WHITHER or t.kind in ("behind", "back", "front", "sides") for t in words):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]
