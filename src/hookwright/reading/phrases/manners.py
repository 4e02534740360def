"""How and why, told beside the work: "to bring thread in position for next round", "marking beg of each rnd". Nothing is worked.

Tried last, where no other phrase reads the words, and only to the end of the clause; a clause in which anything is made is none.
"""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Aside, Chain, Colour, Make, Step, Together
from ...trade.kinds import GROUPS_AS_ONE
from .colours import name as colour_name
from .cursor import Cursor

EXAMPLES = (
    ("sc in next 3 sts to bring thread in position for next round", "sc×3"),
    ("sc in each st, marking beg of each rnd, ch 1", "sc×rest, ch1"),
    ("draw up loop on hook to 1/2 inch, sc in next st", "sc"),
    ("sc in next 3 sts, leaving a 6 inch end", "sc×3"),
    ("turn, so that wrong side of the round is outside", "turn"),
    ("sc in next 3 sts, working over the strand not in use", "sc×3"),
    ("sc in next 3 sts, working off last 2 loops with White", "sc×3, White:"),
)

_AIMS = frozenset((
    "bring", "form", "reach", "keep", "get", "have", "allow", "avoid", "hold", "secure", "prevent", "shape", "match", "correspond",
    "complete", "finish", "close", "fasten", "tighten", "be", "give", "take", "start", "begin", "ensure", "hide", "cover", "lie",
    "widen", "make",
))  # fmt: skip
"""After "to": what it is done for."""

_MANNERS = frozenset((
    "bringing", "forming", "marking", "mark", "drawing", "catching", "catch", "shaping", "counting", "moving", "move", "slipping",
    "slip", "running", "run", "easing", "holding", "hold", "keeping", "making", "being", "taking", "having", "thus", "pulling",
    "adjusting", "allowing", "smoothing", "inserting", "using", "covering", "concealing", "hiding", "laying", "leading", "carrying",
    "continuing", "counted", "letting", "starting", "observing", "sliding", "tucking",
))  # fmt: skip
"""How it is done; what follows runs to the clause's end."""

_ENDS = frozenset((",", ";", ".", "", ")", "]", "}", "(", "[", "*", ":"))
_THREADS = frozenset("strand strands end ends cord wire thread yarn tail tails color colour wool cotton string foundation".split())  # noqa: SIM905
_LENGTHS = frozenset(
    ("inch", "inches", "in", "ins", "cm", "length", "long", "height", "high", "end", "ends", "tail", "yard", "yds", '"', "“", "”")
)


def manner(c: Cursor) -> list[Step] | None:
    """A clause that says how or why; None with the cursor unmoved."""
    start = c.i
    end = _clause(c)
    if not _is_manner(c, end):
        return None
    if not _says_why(c, end) and _makes(c, start, end) and not {"bead", "beads"} & {t.text.lower() for t in c.t[start:end]}:
        return None
    _counting_start(c, end)
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]


def so_placed(c: Cursor) -> list[Step] | None:
    """ "(Five tr,) so placed that one is on the end of a group, three on the chain": where they come, to its end."""
    start = c.i
    if (
        c.t[start].text.lower() != "so"
        or c.look().text.lower() not in ("placed", "arranged")
        or c.look(2).text.lower() not in ("that", "as")
    ):
        return None
    while c.kind not in (";", ".", ""):
        c.i += 1
    return [Aside(id=c.id(), span=c.span(start))]


def last_in_colour(c: Cursor) -> list[Step] | None:
    """ "Working off last 2 loops of last st with White", "finish last sc with White": the new colour is on the hook from here on."""
    start, end = c.i, _clause(c)
    words = [t.kind for t in c.t[start:end]]
    texts = [t.text.lower() for t in c.t[start:end]]
    if "last" not in words or not {"st", "noun", "lp"} & set(words) or not {"with", "finish", "finishing"} & set(texts):
        return None
    if not (
        c.kind == "work"
        or c.t[c.i].val == "off"
        or texts[0] in ("finish", "finishing", "complete", "completing", "with", "draw", "pull", "using", "use")
    ):
        return None
    if c.kind == "work" and not {"off", "working off"} & set(texts):
        return None
    if texts[0] in ("with", "using", "use") and not _COMPLETES & set(texts):
        return None  # "with MC sc in last 10": stitches in that colour
    k = next((k for k in range(start, end) if c.t[k].kind == "with"), None)
    if k is None:
        return None
    c.i = k + 1
    yarn = colour_name(c, loose=True)
    if yarn is None:
        c.i = start
        return None
    c.i = end
    return [Colour(id=c.id(), span=c.span(start), yarn=yarn)]


_WHERE_KEPT = frozenset("front back forward away free flat loose behind".split())  # noqa: SIM905
_LAYERS = frozenset(("layers", "thicknesses", "pieces", "sides"))
_COMPLETES = frozenset("finish finishing complete completing draw pull off through loop loops lp lps yo over".split())  # noqa: SIM905


def marker_slipped(c: Cursor) -> list[Step] | None:
    """ "Slip marker up each round": no slip stitch."""
    start = c.i
    if c.t[start].text.lower() not in ("slip", "slipping", "slips") or not any(c.look(k).kind == "marker" for k in (1, 2)):
        return None
    c.i = _clause(c)
    return [Aside(id=c.id(), span=c.span(start))]


def _clause(c: Cursor) -> int:
    k = c.i + 1
    while c.t[k].kind not in _ENDS:
        k += 1
    return k


def _is_manner(c: Cursor, end: int) -> bool:
    k = c.i
    while c.t[k].kind in ("and", "then", "idle") or c.t[k].text.lower() in ("thus", "so", "by", "as"):
        k += 1
    if k >= end:
        return False
    k += c.t[k].kind == "all" and c.t[k + 1].kind == "the"
    first, word = c.t[k], c.t[k].text.lower()
    texts = [t.text.lower() for t in c.t[k + 1 : end]]
    if _says_why(c, end):
        return True
    if {"bead", "beads"} & set(texts) and (word in _BEADING or first.kind in ("with", "drop", "place", "pass")):
        return True  # "plain, dropping a bead on every second stitch": beads lie on stitches, and are none
    if c.i == k and first.kind in ("the", "n") and {"falling", "coming"} & set(texts):
        return True  # "the five trebles falling on the point"
    if (
        first.kind == "the"
        and "being" in texts
        and {"worked", "made", "placed"} & set(texts)
        and c.t[k + 1].kind in ("noun", "st", "grp", "n")
    ):
        return True  # "like the 4th row, the stitches being worked in the 5 ch of the 7th row"
    if first.kind in ("at", "to") and c.out and isinstance(c.out[-1], Colour) and {"left", "right"} & set(texts[:2]) and "of" in texts[1:3]:
        return True  # "join thread to picot at left of any corner": where one begins
    if first.kind == "for" and c.t[k + 1].kind in ("each", "a") and c.out and isinstance(c.out[-1], Chain) and c.out[-1].foundation:
        return not any(t.kind in ("row", "rnd", "st", "ch", "noun", "n") for t in c.t[k:end])  # "a chain of 120 for each quarter"
    if first.kind == "to":
        return bool(texts) and texts[0] in _AIMS
    if first.kind in _LIES and _lies_behind(c, k, end):
        return True
    if first.kind == "pull" or word in ("draw", "pull", "drawing", "pulling", "draws"):
        loops = any(t.kind == "lp" for t in c.t[k:end])
        return loops and not any(t.kind == "over" for t in c.t[k:end]) and bool(_LENGTHS & set(texts))
    if first.kind == "leave" or word == "leaving":
        return bool((_LENGTHS | _THREADS) & set(texts)) and not any(t.kind in ("st", "noun") for t in c.t[k:end])
    if first.kind == "work" or word in ("working", "crocheting"):
        if texts[:2] in (["into", "the"], ["in", "the"], ["on", "the"]) and len(texts) == 3 and c.t[k + 3].kind in ("st", "noun"):
            return True  # "as 14th round, working into the trebles"
        if len(texts) > 1 and texts[0] in ("through", "thru") and _LAYERS & set(texts):
            return True  # "working through both layers,"
        if len(texts) > 1 and texts[0] in ("over", "around"):
            return bool(_THREADS & set(texts[1:5]))
        return texts[:2] in (["round", "and"], ["around", "and"], ["in", "spiral"], ["in", "continuous"])
    if first.kind in ("counts", "counter") and word in ("count", "counting"):
        return any(t.kind == "ch" or t.kind == "tch" for t in c.t[k:end])
    if word in ("keep", "keeping") and not any(t.kind in ("st", "n", "row", "rnd") for t in c.t[k:end]):
        return bool((_WHERE_KEPT | _THREADS) & set(texts))  # "keep the petals to the front", "keep the thread"
    if first.kind == "cont":
        return any(text in ("spiral", "fashion") for text in texts)
    if word == "joining":
        return texts[:1] in (["each"], ["every"])
    return word in _MANNERS and len(texts) > 0


def _says_why(c: Cursor, end: int) -> bool:
    """ "So that the increases come above one another", "placing them so that they lie flat", "so that wrong side is outside": no number in
    it, by which something would be worked."""
    at = next((k for k in range(c.i, end) if c.t[k].text.lower() == "so"), None)
    placed = at is not None and (at == c.i or c.t[c.i].kind == "place" or c.t[c.i].text.lower() in ("arranging", "spacing"))
    return (
        at is not None
        and placed
        and c.t[at + 1].text.lower() in ("that", "as")
        and all(t.kind != "n" or t.text.lower() == "one" for t in c.t[at:end])
    )


_BEADING = frozenset("dropping passing sliding slipping pushing bringing putting threading without working".split())  # noqa: SIM905
_LIES = frozenset(("at", "in", "back", "front", "behind", "before"))


def _lies_behind(c: Cursor, k: int, end: int) -> bool:
    """ "At back of the petal", "behind the petals", "at the back of work": on which side of what is made already; no place of its own."""
    k += c.t[k].kind in ("at", "in")
    k += c.t[k].kind == "the"
    if c.t[k].kind not in ("back", "front", "behind", "before"):
        return False
    of = c.t[k + 1].kind == "of" or c.t[k].kind in ("behind", "before")
    rest = [t.kind for t in c.t[k + 1 : end]]
    return all(kind in ("of", "the", "grp", "group", "work", "piece", "last", "prev", "same", "idle") for kind in rest) and (of or not rest)


def _makes(c: Cursor, start: int, end: int) -> bool:
    """Whether anything is made in the clause: stitches in a place, chains by number, skips, increases."""
    for k in range(start, end):
        t, after, before = c.t[k], c.t[k + 1], c.t[k - 1] if k else None
        if t.text.lower() == "joining" and k == start and c.t[k + 1].kind == "each":
            return False  # "joining each rnd"
        if t.kind == "tog" and c.t[start].text.lower() in ("hold", "holding", "with", "placing", "catching", "catch"):
            continue  # "holding wrong sides together"
        if t.kind in ("skip", "turn", "foff", "join", "rep", "mring", "inc", "dec", "tog"):
            return True
        if (
            t.kind in ("st", "grp")
            and after.kind in ("in", "over", "around", "each")
            and (before is None or before.kind not in ("the", "last", "o", "each"))
        ):
            return not (after.kind == "in" and c.t[k + 2].kind in ("all", "total"))
        if t.kind == "ch" and after.kind == "n" and k + 1 < end and (before is None or before.kind not in ("the", "counts")):
            return c.t[start].kind not in ("counts", "counter")
    return False


def _counting_start(c: Cursor, end: int) -> None:
    """ "Counting the ch-3 as one dc": said of the chain that the row begins with."""
    if c.kind not in ("counts", "counter") or not any(t.kind == "as" for t in c.t[c.i : end]):
        return
    out = c.frames[0].out
    at = next((k for k, step in enumerate(out) if not isinstance(step, Aside)), None)
    first = out[at] if at is not None else None
    if at is not None and isinstance(first, Chain) and not first.foundation and first.counts is None:
        leg = any(t.kind == "o" and t.val == 1 for t in c.t[c.i : end])
        made = out[-1]
        group = isinstance(made, (Make, Together)) and (getattr(made, "stitch", "") or getattr(made, "name", "")) in GROUPS_AS_ONE
        out[at] = replace(first, counts=not (leg and group))  # "a popcorn in same place, counting ch-3 as 1st dc": of the popcorn
