"""Where every row begins, told in passing: "always working on one side", "Begin every row at the same end". The piece is read so as a whole
(`one_end`); here it is passed over."""

from __future__ import annotations

from ...pattern import Aside, Step
from ..one_end import only_tells_the_end
from .cursor import Cursor

EXAMPLES = (
    ("work in sc, always working on one side", "even sc"),
    ("sc across. Begin every row at the same end", "sc×rest"),
)


_WORK = frozenset(("st", "ch", "inc", "dec", "skip", "grp", "rep", "*", "(", "[", "turn"))


def begun_alike(c: Cursor) -> list[Step] | None:
    """A clause that says so and nothing else; None with the cursor unmoved for other words."""
    for stops in ((".", ";", ""), (",", ".", ";", "")):
        end = next((k for k in range(c.i, c.stops[c.i] + 1) if c.t[k].kind in stops), c.i)
        if any(t.kind in _WORK for t in c.t[c.i : end]):
            continue
        words = (str(t.val) if isinstance(t.val, str) and " " in t.val else t.text for t in c.t[c.i : end] if t.kind != "-")
        if end > c.i and only_tells_the_end(" ".join(words)):
            start, c.i = c.i, end
            return [Aside(id=c.id(), span=c.span(start))]
    return None
