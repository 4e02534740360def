"""How repeated rows change, told beside a repeat that says so already: "each row having one block more", "increasing 2 sts each row"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from ...pattern import ONE, Aside, Even, Make, Refer, Repeat, Step, Together
from ..wording.token import Token
from .cursor import Cursor
from .nouns import TILES

EXAMPLES = (
    ("Repeat Row 3, increasing 2 sts each row", "as rows 3"),
    ("Rep Row 3, each row having one block more", "as rows 3"),
    ("Repeat Row 3, adding 6 dc on every row", "as rows 3"),
    ("Repeat Row 3 with one block less each row", "as rows 3 growing −1"),
    ("Rep Row 3 with 2 tiles fewer.", "as rows 3 growing −2"),
    ("Repeat Row 3. Each row grows by 2 sts.", "as rows 3"),
)

_STOPS = frozenset((".", ";", "", ")", "]"))


def having_more(c: Cursor) -> list[Step] | None:
    """ "each row having one block more"."""
    start = c.i
    end = _stop(c)
    if c.look().kind not in ("row", "rnd") or end - start < 4 or not _repeats(c):
        return None
    if any(c.t[k].kind in ("st", "ch", "skip", "turn", "join") for k in range(start, end)):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]


def growing_told(c: Cursor) -> list[Step] | None:
    """ "increasing 2 sts each row", "decreasing by 6 sts every round": the sum of what the repeated row does. Where at each end or
    at the beginning is told, it is an instruction."""
    start = c.i
    end = _stop(c)
    words = c.t[start:end]
    if not c.t[start].text.lower().endswith("ing") or not _repeats(c) or len(words) > 9:
        return None
    each = any(t.kind == "each" and words[k + 1].kind in ("row", "rnd") for k, t in enumerate(words[:-1]))
    if not each or any(t.kind in ("end", "ends", "side", "beg", "ch", "skip", "around") for t in words):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]


def growth_beside(c: Cursor) -> list[Step] | None:
    """ "(Repeat Row 3), adding 6 dc on every row", "each row grows by 2 sts", "(2 sts added per round)": the sum of what the rows do,
    told beside their repeat. None where it tells where the stitches go: that is an instruction."""
    start, end = c.i, c.i
    inside = c.kind in ("(", "[")
    if inside:
        end = c.close.get(start, start)
        words = c.t[start + 1 : min(end, start + LONGEST_SUM + 1)]
    else:
        while c.t[end].kind not in _CLAUSE_STOPS and end - start < LONGEST_SUM:
            if c.t[end].kind not in _MAY_SUM:
                return None
            end += 1
        words = c.t[start:end]
    if _sides_gain(c, words):
        c.i = end + inside
        return [Aside(id=c.id(), span=c.span(start), kind="sides")]
    lead = 1 if words and words[0].kind in ("with", "having") and _repeats(c) else 0
    words = words[lead:]
    if not 3 <= len(words) < LONGEST_SUM or not all(t.kind in _SUM for t in words):
        return None
    every = any(
        a.kind == "each" or a.text.lower() in ("a", "per", "each")
        for a, b in pairwise(words)
        if b.kind in ("row", "rnd", "around", "times")
    )
    every = every or bool(
        lead and any(t.text.lower().removesuffix("s") in TILES for t in words)
    )  # "with one block less", of every such row
    if not every or not any(t.kind in ("inc", "dec", "more") or t.text.lower() in _GROWS for t in words):
        return None
    if _tiles_each_row(c, words):
        c.i = end + inside
        return [Aside(id=c.id(), span=c.span(start))]
    if words[0].kind in ("n", "st", "inc", "dec") and not (inside or any(t.text.lower() in _GROWS for t in words)):
        return None
    if not _repeats(c) and (words[0].kind in ("inc", "dec") or not _shapes(c)):
        return None
    c.i = end + inside
    return [Aside(id=c.id(), span=c.span(start))]


def _sides_gain(c: Cursor, words: Sequence[Token]) -> bool:
    """ "(Repeat Round 3), adding one more group on each side every time": what the longer edges of a square hold, which the row below
    tells as well."""
    kinds = [t.kind for t in words]
    more = "more" in kinds or any(t.text.lower() in ("extra", "longer", "add", "adding") for t in words)
    groups = any(t.kind in ("grp", "group") or t.text.lower() in ("granny", "grannies", "trio", "trios") for t in words)
    where = "side" in kinds or ("between" in kinds and "corner" in kinds)
    of_a_point = "side" in kinds and kinds[kinds.index("side") + 1 :][:1] == ["of"]
    return more and groups and where and not of_a_point and _repeats(c) and all(kind in _OF_SIDES for kind in kinds)


def _in_tiles(words: Sequence[Token]) -> bool:
    return any(token.text.lower().removesuffix("s") in TILES for token in words)


def _tiles_each_row(c: Cursor, words: Sequence[Token]) -> bool:
    """ "(Repeat Row 4) with one block less", "losing 2 tiles every row": the row named is worked with so many of its units less each
    time. False elsewhere."""
    if not _in_tiles(words):
        return False
    told = next((t.val for t in words if t.kind == "n"), 1 if any(t.kind in ("a", "more") for t in words) else None)
    at = next((k for k in range(len(c.out) - 1, -1, -1) if isinstance(c.out[k], (Refer, Even))), None)
    if not isinstance(told, int) or told > MOST_TILES or at is None:
        return False
    refer = c.out[at]
    if isinstance(refer, Even):
        refer = Refer(id=refer.id, span=refer.span, last=1)  # "Continue in pattern, increasing 1 block per row"
    assert isinstance(refer, Refer)
    less = any(t.text.lower() in _SHRINKS or t.kind == "dec" for t in words)
    c.out[at] = replace(refer, grow=-told if less else told)
    return True


MOST_TILES = 4
_SHRINKS = frozenset(("less", "fewer", "lose", "losing", "lost", "loses", "narrower", "decreasing", "decreases"))
LONGEST_SUM = 15
"""Words of such a remark, at the most."""
_GROWS = frozenset(
    """
    add adding added adds gain gaining gained gains grow grows growing grown lose losing lost loses less fewer smaller larger bigger wider
    narrower up down increases decreases increasing decreasing
    """.split()  # noqa: SIM905
)
_REMARK = frozenset(
    "w n a st noun grp group more each row rnd around times the on of in to by and idle along inc".split()  # noqa: SIM905
)
"""The kinds of words that stand in all these remarks."""
_SUM = _REMARK | {"dec", "total", "counts", "counter", "sp", "it", "skip"}
_OF_SIDES = _REMARK | {"-", "with", "having", "side", "between", "corner", "all"}
_MAY_SUM = _SUM | _OF_SIDES
"""The kinds of words that stand in any of them: the first other one tells that it is none."""


_CLAUSE_STOPS = frozenset((*_STOPS, ",", "(", "["))


def _stop(c: Cursor) -> int:
    end = c.i
    while c.t[end].kind not in _STOPS:
        end += 1
    return end


def _shapes(c: Cursor) -> bool:
    """Whether the row has told where it widens or narrows."""
    told = [inner for step in c.out for inner in (step.body if isinstance(step, Repeat) else (step,))]
    return any(isinstance(step, Together) or (isinstance(step, Make) and (step.each != ONE or step.closes > 1)) for step in told)


def _repeats(c: Cursor) -> bool:
    return any(isinstance(step, Refer) for step in c.out)
