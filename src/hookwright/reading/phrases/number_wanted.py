"""What kind of number a row along an edge is to have: "having an even number of sc", "working a number divisible by 6"."""

from __future__ import annotations

from ...pattern import Aside, Step
from .cursor import Cursor

EXAMPLES = (
    ("sc evenly around, having an even number of sc, join", "sc×rest evenly, join"),
    ("sc evenly along edge, working a number divisible by 6", "sc×rest@row_end row evenly"),
)
_ENDS = frozenset((",", ";", ".", "", ")", "turn", "join"))
_LEADS = frozenset("having working making keeping with being a an".split())  # noqa: SIM905
_EVEN = frozenset("even odd uneven".split())  # noqa: SIM905
_LONGEST = 14


def number_wanted(c: Cursor) -> list[Step] | None:
    """From "having", "working", "a": the clause set aside; None with the cursor unmoved where no kind of number is told."""
    start = c.i
    if not c.out or c.t[c.i].text.lower() not in _LEADS:
        return None
    k = start
    while c.t[k].kind not in _ENDS and k - start < _LONGEST:
        k += 1
    words = [token.text.lower() for token in c.t[start:k]]
    after = [*words[1:], ""]
    even = any(word in _EVEN and following == "number" for word, following in zip(words, after, strict=True))
    divisible = "number" in words[:4] and "divisible" in words
    multiple = "multiple" in words[:4] and any(token.kind == "n" for token in c.t[start:k])
    if c.t[k].kind not in _ENDS or not (even or divisible or multiple):
        return None
    c.i = k
    return [Aside(id=c.id(), span=c.span(start))]
