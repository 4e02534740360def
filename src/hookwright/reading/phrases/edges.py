"""Along the edge of a piece, and remarks on what a row has done: told between steps, asking for nothing themselves."""

from __future__ import annotations

from ...pattern import Aside, Make, Place, Step
from .cursor import Cursor
from .things import YARNS

EXAMPLES = (
    ("ch 5, working across short side, sc in end of next row", "ch5, sc@row_end row"),
    ("Working along short side work 1 sc in each sc, ch 2", "sc×rest@next sc, ch2"),
    ("ch 3, dc in next sp, this completes one scallop", "ch3, dc@next sp"),
)

_WORK = frozenset(("work", "start", "beg", "cont"))
_ALONG = frozenset(("across", "along", "over", "around", "down", "up"))
_WHICH = frozenset("short long narrow lower upper wide right left outer inner remaining entire bottom straight side selvage".split())  # noqa: SIM905
_SKIPPED = frozenset(("the", "each", "o", "other", "next", "same", "all", "last", "idle", "top", "base", "both"))
_EDGES = frozenset(("side", "end", "top", "base"))


def along_edge(c: Cursor) -> list[Step] | None:
    """ "Working across short side", "now work along the lower edge,", "start border": where it goes on, told before the steps."""
    start = c.i
    begins = c.kind in _WORK or c.t[c.i].text.lower() in ("start", "begin", "continue", "go", "going", "head")
    bare = not begins and c.kind in ("along", "across") and (not start or c.t[start - 1].kind in (",", ";", ".", "then", "and"))
    if not begins and not bare:
        return None
    c.i += not bare
    c.drop("work", "the", "a", "idle")
    if c.t[c.i].val in ("border", "edging", "edge") and c.look().kind in (",", ".", ";", "-", ":"):
        c.i += 1
        return [Aside(id=c.id(), span=c.span(start))]
    if c.kind not in _ALONG:
        c.i = start
        return None
    c.i += 1
    begin = c.i
    while (c.kind in _SKIPPED or c.t[c.i].text.lower() in _WHICH or c.t[c.i].text.lower() in ("one", "either")) and c.i - begin < 5:
        c.i += 1
    chain = c.kind in ("ch", "w") and c.t[c.i].text.lower() in _FOUNDATION and any(_meets_an_edge(step) for step in c.out)
    if chain or c.kind in _EDGES or (c.i > begin and c.t[c.i - 1].kind in _EDGES):
        c.i += chain
        c.drop(*_EDGES)
        if c.kind == "of" and c.look().kind in ("the", "piece", "w", "group"):
            while c.kind in ("of", "the", "piece", "group") or (c.kind == "w" and c.t[c.i - 1].kind in ("of", "the")):
                c.i += 1
        if c.kind == "for" and (named := _for_what(c)):
            c.i += named
        if c.kind == "as" and c.look().val in ("follows", "follow"):
            c.i += 2  # "work along one long edge as follows: …"
        c.i += c.t[c.i].val == "follows"
        goes_on = c.kind == "work" and c.look().kind in ("n", "a", "st")  # "working along short side work 1 sc in each sc"
        if goes_on or c.kind in (",", ";", ":", "skip", "st", "n", "*", "(", "ch", "-"):
            if not goes_on and not chain and not any(t.kind in ("top", "base") or t.val in ("upper", "lower") for t in c.t[begin : c.i]):
                c.elsewhere = Place(where="row_end", what="row")
            return [Aside(id=c.id(), span=c.span(start))]
    c.i = start
    return None


_FOUNDATION = frozenset(("foundation", "starting", "beginning", "original"))


def _meets_an_edge(step: Step) -> bool:
    return isinstance(step, Make) and step.at.where == "row_end"


def _for_what(c: Cursor) -> int:
    """How many tokens "for the scallop", "for a neat finish" takes up before its colon or comma; 0 where it says something else."""
    first = end = 1 + (c.look().kind in ("the", "a"))
    while c.look(end).kind not in (":", ",", "-", ";", ".", "", "st", "n", "ch", "row", "rnd", "in") and end - first < 3:
        end += 1
    return end if end > first and c.look(end).kind in (":", ",", "-", ";") else 0


_NAMING = ("this", "which", "these")
_DOES = frozenset("brings completes forms gives finishes ends makes form complete bringing completing forming".split())  # noqa: SIM905


def this_does(c: Cursor) -> list[Step] | None:
    """ "This brings thread in position for next row", "which completes the scallop": what the steps before have done."""
    start = c.i
    if (lies := _thread_lies(c)) is not None:
        c.i = lies
        return [Aside(id=c.id(), span=c.span(start))]
    named = c.t[c.i].val in _NAMING
    verb = c.i + 1 if named else c.i
    if not (named or c.t[c.i - 1].val in _NAMING) or c.t[verb].text.lower() not in _DOES:
        return None
    k = verb + 1
    while c.t[k].kind not in (",", ".", ";", "", ")", "]", "("):
        if c.t[k].kind in ("skip", "turn", "rep", "inc", "dec") or (c.t[k].kind == "ch" and c.t[k + 1].kind == "n"):
            return None
        k += 1
    if any(t.kind == "n" for t in c.t[c.i : k]) and any(t.kind in ("st", "noun") for t in c.t[c.i : k]):
        return None  # "this makes 24 sc": a count
    c.i = k
    return [Aside(id=c.id(), span=c.span(start))]


_LIES = YARNS | {"hook"}


def _thread_lies(c: Cursor) -> int | None:
    """ "The thread is now in position for next row", "yarn now being at centre of loop": the token behind it; None for other words."""
    k = c.i + (c.kind == "the")
    if c.t[k].text.lower() not in _LIES:
        return None
    k += 1
    said = k
    while c.t[k].text.lower() in ("is", "now", "being", "will", "be", "should"):
        k += 1
    if k == said or c.t[k].kind not in ("in", "at", "on"):
        return None
    while c.t[k].kind not in (",", ".", ";", "", ")", "]", "("):
        if c.t[k].kind in ("skip", "turn", "rep", "inc", "dec", "n"):
            return None
        k += 1
    return k


def how_the_thread_goes(c: Cursor) -> None:
    """Pass over "(3 times over needle)", "(thread over twice)" after a stitch's name, and from where the hook goes in ("from the back")."""
    if c.kind == "from" and c.look(1 + (c.look().kind == "the")).kind in ("back", "front", "behind"):
        k = 2 + (c.look().kind == "the")
        k += 2 + (c.look(k + 1).kind == "the") if c.look(k).kind == "of" else 0
        if c.look(k).kind in ("around", "in", "over", "under"):
            c.i += k
    close = c.close.get(c.i) if c.kind == "(" else None
    if close is None or close - c.i > 8:
        return
    inner = c.t[c.i + 1 : close]
    if any(t.kind in ("hook", "yo") or t.val in ("needle", "thread", "over") for t in inner) and not any(
        t.kind in ("st", "ch", "grp", "inc") for t in inner
    ):
        c.i = close + 1
