"""Brackets: repeats "(…) 6 times", several in one place "(…) in next st", counts, remarks, definitions."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import LIMITS, ONE, Aside, Chain, Make, Place, Repeat, Sized, Skip, Span, Special, Step, Times, Together, Turn, Unread
from ...trade.kinds import GROUPS_AS_ONE
from ..wording.token import Token
from . import counts
from .cursor import Cursor, Frame
from .elsewhere import and_elsewhere
from .limits import limit
from .naming import just_made, like, with_its_chain
from .numbers import number
from .places import PREPS, spot
from .shapes import times
from .specials import named
from .spots import ZERO
from .told_in_brackets import behind_place, listed_before

EXAMPLES = (
    ("(sc in next st, 2 sc in next st) 6 times", "[sc, 2sc]×6"),
    ("(2 sc, inc) x 6", "[sc×2, 2sc]×6"),
    ("6 x (sc, inc)", "[sc, 2sc]×6"),
    ("(dc, ch 1, dc) in next ch-1 sp", "{dc, ch1, dc}@next ch-1 sp"),
    ("[hdc in next 2 sts, 2 hdc in next st] around", "[hdc×2, 2hdc]×rest"),
)

_CRAFT = frozenset(("st", "ch", "skip", "inc", "dec", "turn", "join", "grp", "rep", "foff", "mring", "tog"))


def bracket(c: Cursor) -> list[Step] | None:
    start = c.i
    close = c.close.get(start)
    if close is None:
        c.trouble("bracket-open", c.span(start, start + 1), "this bracket is never closed", bracket=c.kind)
        c.i += 1
        return []
    made = behind_place(c, close)
    if made is not None:
        return made
    after = c.t[close + 1]
    repeated = after.kind == "n" and not after.gap and not c.out  # "(1 sc, 1 inc)6" opens a row: no count
    got = None if repeated else counts.bracketed(c)
    if got is not None:
        return got
    told = _remark(c, start, close)
    if told is not None:
        return told
    if c.depth >= LIMITS.depth:
        c.i = close + 1
        message = f"brackets inside brackets, more than {LIMITS.depth} deep; what these hold was not read"
        c.trouble("too-long", c.span(start), message, limit=LIMITS.depth)
        return [Unread(id=c.id(), span=c.span(start))]
    body = inside(c, close)
    c.i = close + 1
    if c.t[c.i].text.lower() == "repeated" and c.look().kind in ("in", "over"):
        c.i += 1  # "(5 sc, p, 4 sc) repeated in each 7-ch lp around"
    return _after(c, start, close, body, None)


def prefixed(c: Cursor) -> list[Step] | None:
    """ "6 x (sc, inc)", "6 (sc, inc)", "6 times (sc, inc)": the number stands in front."""
    start = c.i
    told = number(c)
    if told is None:
        return None
    if c.kind == "times" or (c.kind == "w" and c.t[c.i].val == "x"):
        c.i += 1
    c.take(":")
    if c.kind not in ("(", "[", "{", "*"):
        c.i = start
        return None
    if c.kind == "*":
        return _starred(c, start, told)
    close = c.close.get(c.i)
    if close is None or close - c.i < 3:
        c.i = start
        return None
    body = inside(c, close)
    c.i = close + 1
    return [Repeat(id=c.id(), span=c.span(start), body=tuple(body), times=Times(kind="n", number=told))]


def _starred(c: Cursor, start: int, told: Sized[int]) -> list[Step] | None:
    """ "6 x *sc, inc*"."""
    k = c.i + 1
    while c.t[k].kind not in ("*", ""):
        k += 1
    if c.t[k].kind != "*" or c.t[start + 1].kind == "*":
        c.i = start
        return None
    body = inside(c, k)
    c.i = k + 1
    return [Repeat(id=c.id(), span=c.span(start), body=tuple(body), times=Times(kind="n", number=told))]


def inside(c: Cursor, close: int) -> list[Step]:
    """The steps between the bracket at the cursor and `close`, on a frame of their own."""
    from .sentences import steps

    c.i += 1
    c.frames.append(Frame())
    c.depth += 1
    ring, c.in_ring = c.in_ring, False
    try:
        steps(c, close)
        return c.frames[-1].out
    finally:
        c.frames.pop()
        c.depth -= 1
        c.in_ring = ring


def _after(c: Cursor, start: int, close: int, body: list[Step], prefix: Sized[int] | None) -> list[Step]:
    """What follows the bracket says what it was."""
    empty = not any(not isinstance(step, Aside) for step in body)
    if empty:
        return [Aside(id=c.id(), span=c.span(start))]
    begin = c.i
    while c.kind in ("all", "work", "tog") and c.look().kind in ("in", "over", "work"):
        c.i += 1  # "(dc, ch 1, dc) all worked in next st"
    posts = c.kind == "around" and c.look().kind in ("each", "next")  # "(dc, FPdc) around each st"
    if posts or (c.kind in PREPS and c.kind not in ("around", "across", "to", "for", "from")) or c.kind in ("all",):
        found = spot(c)
        if found is not None:
            made = and_elsewhere(c, _in_place(c, start, body, found))
            pair = c.told.pop("pair", 0)
            if isinstance(pair, int) and pair > 1:
                made.append(Skip(id=c.id(), span=c.span(begin), number=Sized((pair - 1,))))
            more = times(c)
            return [Repeat(id=c.id(), span=c.span(start), body=tuple(made), times=more)] if more is not None else made
        c.i = begin
    got = _how_often(c)
    if got is not None:
        from .bare import side_by_side
        from .repeats import in_turn

        found = spot(c) if c.kind in ("in", "over") and got.kind == "n" else None
        if found is not None:
            again = Repeat(id=c.id(), span=c.span(start), body=tuple(body), times=got)
            return [
                Together(id=c.id(), span=c.span(start), body=(again,), at=found.at, places=found.places, but=found.but, upto=found.upto)
            ]
        unit = side_by_side(c, tuple(map(in_turn, body))) if c.ctx.rounds else tuple(map(in_turn, body))
        return [Repeat(id=c.id(), span=c.span(start), body=unit, times=got)]
    if not any(not isinstance(step, (Aside, Unread)) for step in body) or (
        any(isinstance(step, Unread) for step in body) and _prose(c, start, close)
    ):
        return [Aside(id=c.id(), span=c.span(start, close + 1))]
    at = _ran_up_to(c, body)
    if prefix is None and at is not None:
        return [Together(id=c.id(), span=c.span(start), body=tuple(body), at=at)]
    if prefix is None and _explains(c, start, body):
        return [Aside(id=c.id(), span=c.span(start, close + 1))]
    return body


def _ran_up_to(c: Cursor, body: list[Step]) -> Place | None:
    """ "Dc in each st up to corner, (2 dc, ch 2, 2 dc), dc in each st": a bracket behind a run to a place goes into that place."""
    last = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    upto = last.upto if isinstance(last, Make) else last.times.what if isinstance(last, Repeat) and last.times.kind == "to_place" else ""
    bare = [step for step in body if isinstance(step, Make)]
    if upto != "corner" or len(bare) < 2 or not any(isinstance(step, Chain) for step in body):
        return None
    if not all(isinstance(step, (Make, Chain, Aside)) for step in body) or not all(step.at == Place(span=step.at.span) for step in bare):
        return None
    return Place(what=upto)


def _explains(c: Cursor, start: int, body: list[Step]) -> bool:
    """A bracket that only tells again what stands before it ("inc (2 sc in next st)")."""
    before = c.t[start - 1].kind if start else ""
    first = c.t[start + 1]
    return (before in ("inc", "dec") and len(body) == 1) or (
        first.kind == "or" or (first.kind == "w" and first.val in ("optional", "e", "i", "see", "eg", "ie"))
    )


def _how_often(c: Cursor) -> Times | None:
    begin = c.i
    c.take(",")
    c.take(";")
    again = bool(c.take("rep"))
    c.take("the")
    if again and c.ctx.old and c.kind in (".", ""):
        c.i = begin  # "(4 chain, miss 3, 1 plain 6 times); repeat.": all of the row
        return None
    if again and c.kind in ("from", "*", "row", "rnd", "o", "last"):
        c.i = begin
        return None
    if not again and c.i > begin and c.kind in ("to", "in", "until"):
        c.i = begin
        return None
    got = times(c)
    if got is None and again:
        return Times(kind="rest")
    if got is None:
        c.i = begin
    elif not again and c.i > begin and c.t[begin].kind in (",", ";") and c.t[begin + 1].kind == "once":
        c.i = begin
        return None
    return got


def _in_place(c: Cursor, start: int, body: list[Step], found: object) -> list[Step]:
    from .spots import Spot

    assert isinstance(found, Spot)
    return [Together(id=c.id(), span=c.span(start), body=tuple(body), at=found.at, places=found.places, but=found.but, upto=found.upto)]


def _prose(c: Cursor, start: int, close: int) -> bool:
    """More words of no craft than of craft: a remark."""
    words = sum(1 for t in c.t[start + 1 : close] if t.kind in ("w", "idle", "the", "a", "for", "with", "to", "of", "or", "as", "color"))
    craft = sum(1 for t in c.t[start + 1 : close] if t.kind in _CRAFT)
    return words > craft or any(
        t.kind == "w" and t.val in ("optional", "see", "photo", "you", "picture", "note", "if") for t in c.t[start + 1 : close]
    )


# ---- remarks ---------------------------------------------------------------------------------------------------------------------
def _remark(c: Cursor, start: int, close: int) -> list[Step] | None:
    """A bracket that is no instruction: the side, what a chain counts as, a name for what was just made, a definition."""
    inner = c.t[start + 1 : close]
    if not inner:
        c.i = close + 1
        return []
    first = inner[0]
    if first.kind == "sides" and len(inner) <= 3:
        c.told.setdefault("side", "WS" if str(first.val)[0] == "w" else "RS")
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start))]
    last = c.out[-1] if c.out else None
    where = first.kind == "o" and inner[1].kind in ("ch", "st", "noun") if len(inner) > 1 else False
    if where and any(t.kind in ("of", "from") for t in inner) and isinstance(last, Make) and last.at.where in ("last", "named"):
        c.i = close + 1  # "2 dc in last st (3rd ch of ch 4)"
        return [Aside(id=c.id(), span=c.span(start))]
    if isinstance(last, Make) and _tells_which(c, start, close):
        c.i = close + 1  # "sc in same dc (center dc of shell)"
        return [Aside(id=c.id(), span=c.span(start))]
    if first.kind == "grp" and inner[-1].text.lower() in ("made", "formed", "completed") and any(t.kind == "over" for t in inner):
        c.i = close + 1  # "(shell over shell made)"
        return [Aside(id=c.id(), span=c.span(start))]
    over = [token.kind for token in inner] in (["grp", "over", "grp"], ["grp", "in", "grp"]) and inner[0].val == inner[-1].val
    if over and isinstance(last, (Make, Together)) and c.t[close + 1].kind in (",", ";", ".", "", "*"):
        c.i = close + 1  # "3 dc, ch 2 and 3 dc in sp of shell (shell over shell);": what was just made
        return [Aside(id=c.id(), span=c.span(start))]
    if first.kind == "same" and any(t.kind == "as" for t in inner[1:4]):
        c.i = close + 1  # "(same ch as first sc)"
        return [Aside(id=c.id(), span=c.span(start))]
    if first.kind == "with" and not any(t.kind in ("n", "color", "work") for t in inner):
        c.i = close + 1  # "2 sc in last ch (with first sc)": where a stitch lies, not another stitch
        return [Aside(id=c.id(), span=c.span(start))]
    if any(t.kind == "hook" for t in inner) and not any(t.kind in ("st", "ch", "inc") for t in inner):
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start))]
    if _tells_change(inner) or _shared_out(inner):
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start))]
    named = _names(c, start, close)
    if named is not None:
        return named
    if _defines(c, start, close) and not _told_often(c, close):
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start), kind="define")]
    if first.kind == "w" and str(first.val).endswith("ing") and not any(t.kind == "n" for t in inner):
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start))]
    if first.kind == "with" and not any(t.kind == "n" for t in inner):
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start))]
    told = _skipped(c, start, close)
    if told is not None:
        return told
    if first.kind in ("counts", "not", "=", "always") or any(t.kind == "counts" for t in inner[:4]):
        late = _late_counting(c, start, close)
        c.i = close + 1
        return late or [Aside(id=c.id(), span=c.span(start))]
    if not any(t.kind in _CRAFT or t.kind in ("n", "work", "even") for t in inner):
        c.i = close + 1
        return [Aside(id=c.id(), span=c.span(start))]
    return None


def _tells_which(c: Cursor, start: int, close: int) -> bool:
    """Whether the bracket only says which place the words before it mean: "(the center dc of the shell)", "(top of the turning ch)"."""
    inner = [token.kind for token in c.t[start + 1 : close] if token.kind not in ("the", "idle", "w", "a")]
    if c.t[start - 1].kind not in ("st", "noun", "sp", "ch", "tch", "n", "lp") or c.t[close + 1].kind not in (
        ",",
        ";",
        ".",
        "",
        ")",
        "and",
    ):
        return False
    return len(inner) > 2 and inner[0] in ("center", "top", "base", "tch") and "of" in inner and set(inner) <= _NAMES_OF_PLACES


_NAMES_OF_PLACES = frozenset("center top base tch of st noun ch sp lp grp group n - beg next last prev row rnd corner o".split())  # noqa: SIM905


def _shared_out(inner: list[Token]) -> bool:
    """ "(20 in yoke sts, 6 in ch)": where the stitches just told go, so many here and so many there."""
    firsts = [k for k in range(len(inner)) if k == 0 or inner[k - 1].kind in (",", ";")]
    parts = [inner[k : k + 2] for k in firsts]
    return len(parts) > 1 and all([t.kind for t in part] == ["n", "in"] for part in parts)


def _tells_change(inner: list[Token]) -> bool:
    """ "(a decrease of 1 shell)", "(1 increase)", "(decrease made)": what the steps before have done, told again."""
    kinds = [t.kind for t in inner]
    if kinds[:1] in (["a"], ["n"]) and kinds[1:2] in (["inc"], ["dec"]):
        return len(kinds) == 2 or kinds[2] == "of"
    return kinds[:1] in (["inc"], ["dec"]) and len(kinds) == 2 and inner[1].val in ("made", "completed", "complete", "done")


def _skipped(c: Cursor, start: int, close: int) -> list[Step] | None:
    """ "(ch-4 = dc + ch-1)", "(3 skipped chs count as dc)", "(counts as dc)" after a stitch worked into the foundation: it is told of the
    chains passed over."""
    from .chains import _stands

    k = start + 1
    while c.t[k].kind in ("the", "n", "o", "skip", "idle", "unworked", "beg", "rem", "a") and k < close:
        k += 1
    named = c.t[k].kind in ("ch", "tch")
    if not named and not (c.out and isinstance(c.out[-1], (Make, Together)) and c.out[-1].at.where == "from_hook"):
        return None
    if named:
        k += 1
        while c.t[k].kind in ("-", "n", "at", "beg", "of", "row", "rnd", "the", "in") and k < close:
            k += 1
        if c.t[k].kind not in ("counts", "=", "not", "is"):
            return None
    c.i = k
    got = _stands(c, close)
    said = any(t.text.lower().startswith(("count", "stand", "equal", "=", "act")) for t in c.t[start:close])
    if got is None or (not named and got == (True, ()) and not said):
        c.i = start  # "(this is the foundation row)"
        return None
    c.i = close + 1
    if not any(isinstance(s, (Make, Together)) and s.at.where == "from_hook" for s in c.out):
        first = next((j for j, s in enumerate(c.out) if isinstance(s, Chain) and not s.foundation), None)
        if first is None:
            c.i = start
            return None
        chain = c.out[first]
        assert isinstance(chain, Chain)
        c.out[first] = replace(chain, counts=got[0], stands_for=got[1])
        return [Aside(id=c.id(), span=c.span(start))]
    c.told["skipped"] = got
    return [Aside(id=c.id(), span=c.span(start))]


def skipped_sentence(c: Cursor) -> list[Step] | None:
    """ "The ch-5 passed over, at every beginning, is a dc + ch-2.": what the chains passed over count as."""
    from .chains import _stands

    start = c.i
    if c.look().kind not in ("ch", "tch", "skip", "n", "beg"):
        return None
    end = c.i
    while c.t[end].kind not in (".", ";", "", ")", "]"):
        end += 1
    k = start + 1
    says = [j for j in range(k, end) if c.t[j].kind in ("counts", "=") or (c.t[j].kind == "not" and c.t[j + 1].kind == "counts")]
    if not says or not any(c.t[j].kind in ("ch", "tch") for j in range(k, says[0])):
        return None
    for first in reversed(says):
        c.i = first - 1 if c.t[first - 1].kind == "not" else first
        got = _stands(c, end)
        if got is not None and c.i >= end - 1:
            if any(isinstance(s, Make) and s.at.where == "from_hook" for s in c.out):
                c.told["skipped"] = got
            c.i = end
            return [Aside(id=c.id(), span=c.span(start))]
    c.i = start
    return None


def name_made(c: Cursor) -> list[Step] | None:
    """ ": beginning shell;", "shell made": a name for the steps just told, not a new instruction."""
    start = c.i
    name = str(c.t[start].val)
    after = c.look()
    made = after.kind == "w" and after.val in ("made", "completed", "formed", "done")
    told = c.t[start - 1].kind == ":" and after.kind in (";", ".", "", "(", ",") and start > 0
    alone = start > 0 and c.t[start - 1].kind == "." and name == "beg shell" and after.kind in (".", "", "(") and name not in c.specials
    if not (made or told or alone) or not c.out:
        return None
    c.i += 2 if made else 1
    if name not in c.specials:
        whole = tuple(
            replace(step, foundation=False) if isinstance(step, Chain) else step
            for step in c.out
            if isinstance(step, (Make, Chain, Together))
        )
        body = whole if name == "beg shell" else just_made(c.out, c.id)
        if body:
            c.defined[name] = Special(name=name, steps=body, counts=0, span=c.span(start))
    _as_group(c, name)
    return [Aside(id=c.id(), span=c.span(start), kind="define")]


def _as_group(c: Cursor, name: str) -> None:
    """Give the steps just told, which are one, their name: the last group, or the whole beginning on chains of its own."""
    last = c.out[-1]
    if isinstance(last, Together) and not last.name:
        c.out[-1] = replace(last, name=name)
    elif name == "beg shell":
        at = next((i for i, step in enumerate(c.out) if isinstance(step, (Make, Together))), len(c.out))
        before = c.out[at - 1] if at else None
        first = at - 1 if isinstance(before, Chain) and not before.foundation else at
        body = tuple(c.out[first:])
        c.out[first:] = [Together(id=c.id(), span=c.span(0), body=body, at=Place(where="hook"), name=name)]


def corner_again(c: Cursor) -> list[Step] | None:
    """ "Corner in next sp", once "(corner made)" has told what a corner is."""
    if "corner" not in c.defined and "corner" not in c.specials:
        return None
    return named(c, c.i, None)


def _late_counting(c: Cursor, start: int, close: int) -> list[Step] | None:
    """ "Ch 3, turn (counts as dc)": the remark belongs to the chain before the turn."""
    from .chains import counting

    if len(c.out) >= 2 and isinstance(c.out[-1], Turn) and isinstance(c.out[-2], Chain):
        c.out[-2] = replace(counting(c, c.out[-2], start), span=c.out[-2].span)
        return [Aside(id=c.id(), span=c.span(start, close + 1))]
    return None


def _told_often(c: Cursor, close: int) -> bool:
    """Whether the bracket is worked a number of times ("(inc) x3", "(shell) 4 times", "(dec) once")."""
    begin = c.i
    c.i = close + 1
    got = _how_often(c)
    c.i = begin
    return got is not None and got.kind == "n"


def _defines(c: Cursor, start: int, close: int) -> bool:
    """ "(to dec: draw a loop through each of 2 sts …)", "(puff: yo …)", "(sdc: …)"."""
    inner = c.t[start + 1 : close]
    for k, t in enumerate(inner[:5]):
        if (
            t.kind in (":", "=")
            and k >= 1
            and inner[0].kind != "in"
            and inner[k - 1].kind in ("dec", "inc", "grp", "st", "w", "noun", "tog")
        ):
            return True
    return any(t.kind == "yo" for t in inner[:6]) or sum(t.kind in ("pull", "insert", "yo") for t in inner) >= 2


def _names(c: Cursor, start: int, close: int) -> list[Step] | None:
    """ "(shell)", "(cluster made)", "(corner)", "(first V-st made)": a name for the steps just told, which joins the vocabulary."""
    inner = c.t[start + 1 : close]
    if len(inner) > 5 or not c.out:
        return None
    name = ""
    for t in inner:
        corner = t.kind == "corner" and ("made" in [one.val for one in inner] or (len(inner) == 1 and isinstance(c.out[-1], Together)))
        if (t.kind == "grp" or corner) and not name:
            name = str(t.val)
        elif t.kind in (
            "w",
            "o",
            "idle",
            "n",
            "-",
            "st",
            "beg",
            "work",
            "noun",
            "a",
            "corner",
            "for",
            "the",
            "inc",
            "dec",
            "turn",
            "ch",
            "sp",
            "lp",
            "group",
            "mesh",
            "patt",
            "last",
        ):
            if t.kind in ("st", "ch", "n") and t is inner[-1] and not name:
                return None
        elif t.kind != "counts" or t.val not in ("makes", "make", "forms"):  # "(which makes a shell)"
            return None
    plain = inner[-1].val in ("made", "completed", "formed", "done", "complete") or (
        len(inner) <= 2 and inner[-1].kind in ("w", "corner", "inc", "dec", "sp", "lp", "patt", "mesh") and inner[0].kind != "n"
    )
    if not name and not plain:
        return None
    if c.t[close + 1].kind == "in" and name and listed_before(c.out[:-1]):
        return _named_before_place(c, close, name)
    if _told_often(c, close) or c.t[close + 1].kind == "in":
        return None
    c.i = close + 1
    if name and name not in c.specials:
        last = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
        known = isinstance(last, Make) and last.stitch == name  # a popcorn or cluster told by its movements is called so already
        body = () if known else just_made(c.out, c.id)
        if body:
            c.defined[name] = Special(name=name, steps=with_its_chain(c.out, name, body), counts=0, span=c.span(start))
            _gather(c, name, body)
    return [Aside(id=c.id(), span=c.span(start), kind="define" if name else "note")]


def _named_before_place(c: Cursor, close: int, name: str) -> list[Step] | None:
    """ "2 dc, ch 1, 2 dc (which makes a shell) in next": the list is the group, its place comes last."""
    from .places import spot
    from .together import bind_back

    begin, c.i = c.i, close + 1
    found = spot(c)
    bound = bind_back(c, close + 1, found, name) if found is not None else None
    if bound is None:
        c.i = begin
    return bound


def _gather(c: Cursor, name: str, body: tuple[Step, ...]) -> None:
    """The steps just named become the group they are, and so do like steps told before them in the row."""
    if name in GROUPS_AS_ONE or not isinstance(body[0], Make) or (len(body) < 2 and body[0].each == ONE):
        return
    out = c.out
    wanted = [like(step) for step in body]
    k = len(out) - len(body)
    floor = max((mark.index for mark in c.frames[-1].marks if not mark.used), default=0)
    while k >= 0:
        window = out[k : k + len(body)]
        first = window[0]
        if (
            [like(step) for step in window] == wanted
            and isinstance(first, Make)
            and first.places == ONE
            and all(not isinstance(step, Make) or step.at.where == "same" for step in window[1:])
            and (k >= floor or k + len(body) <= floor)
        ):
            here = (replace(first, at=Place(where="same")), *window[1:])
            group = Together(id=c.id(), span=Span(first.span.start, window[-1].span.end), body=here, at=first.at, name=name)
            out[k : k + len(body)] = [group]
            for mark in c.frames[-1].marks:
                if mark.index > k:
                    mark.index -= len(body) - 1
        k -= 1


__all__ = ["EXAMPLES", "ZERO", "bracket", "limit", "prefixed"]
