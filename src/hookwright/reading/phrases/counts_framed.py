"""What frames the units of a count and is no number of its own: the turning chain, a stitch at each end, half a shell."""

from __future__ import annotations

from ...pattern import Chain, Join, Make, Repeat
from ...pattern.walking import walk
from .counts_adding_up import made_of
from .cursor import Cursor


def the_chain(c: Cursor, end: int, *, plain: bool) -> bool:
    """ "(9 dc and turning ch)", "11 V-sts, 1 dc and beg ch at ends": the chain that stands at the row's edge, beside what is counted;
    passed over to the end of the count. `plain`: so may a chain called by its number alone ("29 dc + ch 3")."""
    start = c.i
    c.take("a")
    if c.i < end and c.kind == "n" and c.t[c.i].val == 1:
        c.i += 1
    named = c.take("beg", "tch")
    numbered = plain and named is None and c.take("ch")
    if numbered:
        c.drop("-")
        if c.i + 1 == end and c.kind == "n":
            c.i += 1
            return True
    if named is not None:
        c.drop("ch", "-", "n", "at", "in", "the", "a", "each", "all", "beg", "end", "edge", "row", "of", "side")
    if named is None or c.i != end or not any(t.kind in ("ch", "tch") for t in c.t[start:end]):
        c.i = start
        return False
    return True


def spans_gap(c: Cursor, end: int) -> bool:
    """ "sc to end, join. (25 sc, ch 6)", "(ch 5, 25 hdc)", "(10 sc, ch 5, 10 sc, ch 5)": a chain of the row that spans a gap, told beside
    its stitches behind the row's end; passed over, with the mark that parts it from a count to come."""
    size = c.look(1 + (c.look().kind == "-")) if c.i < end and c.kind == "ch" else None
    if size is None or not isinstance(size.val, int) or len(c.frames) > 1 or any(t.kind in _WORKED for t in c.t[end + 1 : end + 9]):
        return False
    opened = next((k for k in range(c.i, -1, -1) if c.close.get(k) == end), None)
    if opened is None or not (_over(c, opened) or _all_made(c, opened)):
        return False
    behind = c.i + (3 if c.look().kind == "-" else 2)
    behind += c.t[behind].kind == "once"
    parted = behind < end and c.t[behind].kind in (",", "and", "+") and c.t[behind + 1].kind in ("n", "ch")
    made = any(isinstance(step, Chain) and step.number.values == (size.val,) for step in walk(c.out))
    if not made or not (behind == end or parted):
        return False
    c.i = behind + parted
    return True


_WORKED = frozenset(("st", "inc", "dec", "grp", "in", "next", "skip"))


def _all_made(c: Cursor, opened: int) -> bool:
    """Whether the bracket begins with just so many as the row has made of them: "sc 10, ch 4, skip 4, sc 10 (20 sc, ch 4)"."""
    words = sorted(c.t[opened + 1 : opened + 3], key=lambda token: token.kind != "n")
    made = made_of(c.out)
    if [token.kind for token in words] != ["n", "st"] or made is None:
        return False
    return bool(made.get(c.us(str(words[1].val))) == words[0].val)


def _over(c: Cursor, opened: int) -> bool:
    """Whether the row is over where a bracket opens: behind a full stop, a join, or stitches that go on to the end."""
    last = c.out[-1] if c.out else None
    if c.t[opened - 1].kind == "." or isinstance(last, (Join, Repeat)):
        return c.t[opened - 1].kind not in (",", "and", ";", "then")
    return isinstance(last, Make) and last.places == "rest"


def at_ends(c: Cursor, end: int) -> bool:
    """ "(30 V-sts, 1 dc at each end)": what frames the row is told beside its units, and no number of its own kind; passed over."""
    words = [(t.kind, t.text.lower()) for t in c.t[c.i : min(end, c.i + 3)]]
    if [kind for kind, _ in words[:1]] not in (["at"], ["in"]) or len(words) < 3:
        return False
    if words[1][1] not in ("each", "both", "either") or words[2][1] not in ("end", "ends", "edge", "edges"):
        return False
    c.i += 3
    if c.i < end and c.kind in (",", "and", "+", ";", "&", "*"):
        c.i += 1
    return True


def halves(c: Cursor, end: int) -> bool:
    """Past "(11 shells and) a half shell at each end", "2 half shells": what frames the units that were counted; else unmoved."""
    k = c.i
    while k < end and c.t[k].kind in ("a", "n", "the"):
        k += 1
    if k >= end or c.t[k].kind != "half":
        return False
    while k < end and c.t[k].kind not in (",", ";", "and", "+"):
        k += 1
    c.i = k + (k < end)
    return True
